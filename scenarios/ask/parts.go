package ask

// site returns the access to an answer that is asked once.
func site(of func(*Answers) *string) func(*Answers, int) *string {
	return func(a *Answers, _ int) *string { return of(a) }
}

// zone returns the access to an answer of one zone.
func zone(of func(*Zone) *string) func(*Answers, int) *string {
	return func(a *Answers, z int) *string { return of(&a.Zones[z]) }
}

var placeParts = []Part{
	{ID: "position", Text: "Latitude, or latitude and longitude, in degrees", Kind: Place, Example: "38.9, -104.8",
		Help: "South and west are negative.",
		at:   site(func(a *Answers) *string { return &a.Position }), unsaid: unsaidPosition},
	{ID: "elevation", Text: "Height above sea level", Kind: Number, Example: "1600 ft",
		Help: "Within a few hundred feet is close enough.",
		at:   site(func(a *Answers) *string { return &a.Elevation }), unsaid: unsaidElevation},
	{ID: "climate", Text: "Which climate is most like yours?", Kind: Choice, Choices: climateChoices(),
		Help: "It decides which figures are used where you have none of your own.",
		at:   site(func(a *Answers) *string { return &a.Climate }), unsaid: unsaidClimate},
}

var weatherParts = []Part{
	{ID: "file", Text: "File of daily weather, if there is one", Kind: File, Example: "weather.csv",
		Help: "A CSV file from a weather service; loamledger knows the layouts of many.",
		at:   site(func(a *Answers) *string { return &a.WeatherFile }), unsaid: unsaidWeather},
	{ID: "summer_high", Text: "Usual daily high in the hottest month", Kind: Number, Example: "90 F", When: noFile,
		at: site(func(a *Answers) *string { return &a.SummerHigh }), unsaid: unsaidFigure(summerHigh)},
	{ID: "summer_low", Text: "Usual nightly low in the hottest month", Kind: Number, Example: "62 F", When: noFile,
		at: site(func(a *Answers) *string { return &a.SummerLow }), unsaid: unsaidFigure(summerLow)},
	{ID: "winter_high", Text: "Usual daily high in the coldest month", Kind: Number, Example: "44 F", When: noFile,
		at: site(func(a *Answers) *string { return &a.WinterHigh }), unsaid: unsaidFigure(winterHigh)},
	{ID: "winter_low", Text: "Usual nightly low in the coldest month", Kind: Number, Example: "25 F", When: noFile,
		at: site(func(a *Answers) *string { return &a.WinterLow }), unsaid: unsaidFigure(winterLow)},
	{ID: "rain", Text: "Rain and melted snow in a usual year", Kind: Number, Example: "17 in", When: noFile,
		at: site(func(a *Answers) *string { return &a.YearRain }), unsaid: unsaidFigure(yearRain)},
}

// noFile is for what replaces a weather file.
var noFile = &When{"weather", "file", []string{""}}

var zoneParts = []Part{
	{ID: "name", Text: "Name", Kind: Text, Example: "front lawn",
		at: zone(func(z *Zone) *string { return &z.Name }), unsaid: unsaidName},
	{ID: "area", Text: "Size: an area, or length x width", Kind: Number, Example: "40 ft x 25 ft",
		at: zone(func(z *Zone) *string { return &z.Area }), unsaid: unsaidArea},
	{ID: "plant", Text: "What grows there?", Kind: Choice, Choices: plantChoices,
		Help: "For a mix, choose what suffers first. Names of the catalog are read, too.",
		at:   zone(func(z *Zone) *string { return &z.Plant }), unsaid: unsaidPlant},
	{ID: "sprinkler", Text: "What waters it?", Kind: Choice, Choices: sprinklerChoices,
		at: zone(func(z *Zone) *string { return &z.Sprinkler }), unsaid: unsaidSprinkler},
	{ID: "flow", Text: "Water it uses while it runs, if you have measured it", Kind: Number, Example: "9 gpm",
		Help: "Read the water meter, run the zone for two minutes with no other water on, read it again and halve the difference. " +
			"No other ten minutes improve the results as much.",
		at: zone(func(z *Zone) *string { return &z.Flow }), unsaid: unsaidFlow},
	{ID: "sun", Text: "Sun or shade?", Kind: Choice, Choices: sunChoices,
		at: zone(func(z *Zone) *string { return &z.Sun }), unsaid: unsaidSun},
}

var soilParts = []Part{
	{ID: "texture", Text: "Texture, if a soil test or a soil survey has told you", Kind: Choice, Choices: textureChoices(),
		Help: "Otherwise press on to the three tests.",
		at:   site(func(a *Answers) *string { return &a.Texture }), unsaid: unsaidTexture},
	{ID: "ball", Text: "Ball: squeeze the damp soil. Does it stay a ball?", Kind: Choice, When: noTexture,
		Choices: ballChoices,
		at:      site(func(a *Answers) *string { return &a.Ball }), unsaid: unsaidBall},
	{ID: "ribbon", Text: "Ribbon: press it between thumb and finger. How long a ribbon forms before it breaks?", Kind: Choice,
		When: &When{"soil", "ball", []string{"", "yes"}},
		Choices: ribbonChoices,
		at: site(func(a *Answers) *string { return &a.Ribbon }), unsaid: unsaidRibbon},
	{ID: "grit", Text: "Grit: wet a pinch well and rub it in the palm. How does it feel?", Kind: Choice,
		When: &When{"soil", "ribbon", []string{"short", "medium", "long"}},
		Choices: gritChoices,
		at: site(func(a *Answers) *string { return &a.Grit }), unsaid: unsaidGrit},
}

// noTexture is for the tests that replace a known texture.
var noTexture = &When{"soil", "texture", []string{""}}

var scheduleParts = []Part{
	{ID: "days", Text: "Days", Kind: Days, Example: "mon, wed, fri",
		Help: "Weekdays, odd, even, daily, or every 3 days.",
		at:   site(func(a *Answers) *string { return &a.Days }), unsaid: unsaidDays},
	{ID: "starts", Text: "Start times", Kind: Times, Example: "05:00",
		Help: "All of them, separated by commas. Each start waters every zone once.",
		at:   site(func(a *Answers) *string { return &a.Starts }), unsaid: unsaidStarts},
	{ID: "same", Text: "Do all zones water on these days?", Kind: Choice,
		Choices: []Option{{ID: "yes", Text: "yes"}, {ID: "no", Text: "no, some have days of their own"}},
		at:      site(func(a *Answers) *string { return &a.SameDays }), unsaid: unsaidSame},
	{ID: "zone_days", Text: "Days of this zone", Kind: Days, Each: true, Example: "tue", When: &When{"schedule", "same", []string{"no"}},
		at: zone(func(z *Zone) *string { return &z.Days }), unsaid: unsaidZoneDays},
	{ID: "minutes", Text: "Minutes at each start", Kind: Number, Each: true, Unit: "min", Example: "12",
		at: zone(func(z *Zone) *string { return &z.Minutes }), unsaid: unsaidMinutes},
}

var monthParts = []Part{
	{ID: "on", Text: "Months", Kind: Months, Example: "Apr-Oct",
		Help: "From the first to the last month, or all.",
		at:   site(func(a *Answers) *string { return &a.Months }), unsaid: unsaidMonths},
}

var timerParts = []Part{
	{ID: "percent", Text: "In what steps can all run times be changed at once, by a percentage?", Kind: Choice,
		Choices: percentChoices,
		at:      site(func(a *Answers) *string { return &a.PercentStep }), unsaid: unsaidPercent},
	{ID: "cycle", Text: "Can it split a run into cycles with a soak between them?", Kind: Choice,
		Choices: []Option{{ID: "yes", Text: "yes"}, {ID: "no", Text: "no"}},
		at:      site(func(a *Answers) *string { return &a.Cycle }), unsaid: unsaidCycle},
}

var priceParts = []Part{
	{ID: "rates", Text: "File of the supplier's rates, if there is one", Kind: File, Example: "rates.yaml",
		Help: "Few have one; \"loamledger bill --help\" describes it.",
		at:   site(func(a *Answers) *string { return &a.RatesFile }), unsaid: unsaidRates},
	{ID: "price", Text: "Price of water, sewer included if it follows the meter", Kind: Number, Example: "$6.50 per kgal",
		Help: "Per kgal (1,000 gallons), HCF or CCF (100 cubic feet), gal or m3. Other money than dollars: EUR 3.20 per m3.",
		When: &When{"price", "rates", []string{""}},
		at:   site(func(a *Answers) *string { return &a.Price }), unsaid: unsaidPrice},
}

var ruleParts = []Part{
	{ID: "days", Text: "Days on which watering is allowed", Kind: Days, Example: "tue, sat",
		at: site(func(a *Answers) *string { return &a.RuleDays }), unsaid: unsaidRuleDays},
	{ID: "hours", Text: "Hours in which watering is allowed", Kind: Hours, Example: "20:00-08:00",
		at: site(func(a *Answers) *string { return &a.RuleHours }), unsaid: unsaidRuleHours},
}

var slopeParts = []Part{
	{ID: "slope", Text: "The steepest zone is", Kind: Choice, Choices: slopeChoices,
		at: site(func(a *Answers) *string { return &a.Slope }), unsaid: unsaidSlope},
}
