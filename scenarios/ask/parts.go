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
	{ID: "position", Name: "latitude", Text: "Latitude and longitude in degrees", Kind: Place, Example: same("38.9, -104.8"),
		Help: "South and west are negative. Latitude alone is enough.",
		at:   site(func(a *Answers) *string { return &a.Position }), unsaid: unsaidPosition},
	{ID: "elevation", Name: "height", Later: true, Text: "Height above sea level", Kind: Number,
		Example: Pair{"1600", "490"}, Unit: Pair{"ft", "m"},
		Help: "Within a few hundred feet (100 m) is close enough.",
		at:   site(func(a *Answers) *string { return &a.Elevation }), unsaid: unsaidElevation},
	{ID: "climate", Name: "climate", Text: "Which climate is most like yours?", Kind: Choice, Choices: climateChoices(),
		Help: "It decides which figures are used where you have none of your own.",
		at:   site(func(a *Answers) *string { return &a.Climate }), unsaid: unsaidClimate},
}

var weatherParts = []Part{
	{ID: "file", Name: "weather", Text: "Daily weather file, if you have one", Kind: File, Example: same("weather.csv"),
		Help: "A CSV file from a weather service; loamledger knows the layouts of many.",
		at:   site(func(a *Answers) *string { return &a.WeatherFile }), unsaid: unsaidWeather},
	{ID: "figures", Name: "usual weather", Later: true, Text: "Do you know your town's usual temperatures and rain?",
		Kind: Choice, Choices: yesNo, When: noFile,
		Help: "Five numbers: highs and lows of the hottest and the coldest month, and the rain of a year.",
		at:   site(func(a *Answers) *string { return &a.Figures }), unsaid: unsaidFigures},
	{ID: "summer_high", Name: "summer high", Text: "Usual daily high in the hottest month", Kind: Number,
		Example: Pair{"90", "32"}, Unit: Pair{"F", "C"}, When: withFigures,
		at: site(func(a *Answers) *string { return &a.SummerHigh }), unsaid: unsaidFigure(summerHigh)},
	{ID: "summer_low", Name: "summer low", Text: "Usual nightly low in the hottest month", Kind: Number,
		Example: Pair{"62", "17"}, Unit: Pair{"F", "C"}, When: withFigures,
		at: site(func(a *Answers) *string { return &a.SummerLow }), unsaid: unsaidFigure(summerLow)},
	{ID: "winter_high", Name: "winter high", Text: "Usual daily high in the coldest month", Kind: Number,
		Example: Pair{"44", "7"}, Unit: Pair{"F", "C"}, When: withFigures,
		at: site(func(a *Answers) *string { return &a.WinterHigh }), unsaid: unsaidFigure(winterHigh)},
	{ID: "winter_low", Name: "winter low", Text: "Usual nightly low in the coldest month", Kind: Number,
		Example: Pair{"25", "-4"}, Unit: Pair{"F", "C"}, When: withFigures,
		at: site(func(a *Answers) *string { return &a.WinterLow }), unsaid: unsaidFigure(winterLow)},
	{ID: "rain", Name: "rain", Text: "Rain and melted snow in a usual year", Kind: Number,
		Example: Pair{"17", "430"}, Unit: Pair{"in", "mm"}, When: withFigures,
		at: site(func(a *Answers) *string { return &a.YearRain }), unsaid: unsaidFigure(yearRain)},
}

// noFile is for what replaces a weather file, withFigures for the figures of one's own.
var (
	noFile      = &When{"weather", "file", []string{""}}
	withFigures = &When{"weather", "figures", []string{"yes"}}
)

var zoneParts = []Part{
	{ID: "name", Name: "name", Text: "Name", Kind: Text, Example: same("front lawn"),
		at: zone(func(z *Zone) *string { return &z.Name }), unsaid: unsaidName},
	{ID: "area", Name: "size", Text: "Size: length x width, or an area", Kind: Number,
		Example: Pair{"40 x 25", "12 x 8"}, Unit: Pair{"ft2", "m2"},
		at: zone(func(z *Zone) *string { return &z.Area }), unsaid: unsaidArea},
	{ID: "plant", Name: "plants", Text: "What grows there?", Kind: Choice, Choices: plantChoices,
		Help: "For a mix, choose what suffers first. Names of the catalog are read, too.",
		at:   zone(func(z *Zone) *string { return &z.Plant }), unsaid: unsaidPlant},
	{ID: "sprinkler", Name: "sprinklers", Text: "What waters it?", Kind: Choice, Choices: sprinklerChoices,
		Help: "Look while the zone runs. If it has several kinds, choose the one that covers most of it.",
		at:   zone(func(z *Zone) *string { return &z.Sprinkler }), unsaid: unsaidSprinkler},
	{ID: "flow", Name: "flow", Later: true, Text: "Water it uses while it runs, if you have measured it", Kind: Number,
		Example: Pair{"9", "34"}, Unit: Pair{"gpm", "L/min"},
		Help: "Read the water meter, run the zone for two minutes with no other water on, read it again and halve the difference. " +
			"No other ten minutes improve the results as much.",
		at: zone(func(z *Zone) *string { return &z.Flow }), unsaid: unsaidFlow},
	{ID: "sun", Name: "sun", Later: true, Text: "Sun or shade?", Kind: Choice, Choices: sunChoices,
		at: zone(func(z *Zone) *string { return &z.Sun }), unsaid: unsaidSun},
}

var soilParts = []Part{
	{ID: "ribbon", Name: "soil", Text: "Squeeze damp soil, then press it out between thumb and finger. How long a ribbon forms?",
		Kind: Choice, Choices: ribbonChoices,
		at: site(func(a *Answers) *string { return &a.Ribbon }), unsaid: unsaidSoil},
	{ID: "grit", Name: "grit", Later: true, Text: "Wet a pinch well and rub it in the palm. How does it feel?", Kind: Choice,
		Choices: gritChoices, When: &When{"soil", "ribbon", []string{"short", "medium", "long"}},
		at: site(func(a *Answers) *string { return &a.Grit }), unsaid: unsaidGrit},
	{ID: "texture", Name: "texture", Text: "Texture", Kind: Choice, Choices: textureChoices(),
		When: &When{"soil", "ribbon", []string{"known"}},
		at:   site(func(a *Answers) *string { return &a.Texture }), unsaid: unsaidSoil},
}

var scheduleParts = []Part{
	{ID: "days", Name: "days", Text: "Days", Kind: Days, Example: same("mon, wed, fri"),
		Help: "Weekdays, odd, even, daily, or every 3 days.",
		at:   site(func(a *Answers) *string { return &a.Days }), unsaid: unsaidDays},
	{ID: "starts", Name: "start times", Text: "Start times", Kind: Times, Example: same("05:00"),
		Help: "All of them, separated by commas. Each start waters every zone once.",
		at:   site(func(a *Answers) *string { return &a.Starts }), unsaid: unsaidStarts},
	{ID: "same", Name: "same days", Later: true, Text: "Do all zones water on these days?", Kind: Choice, Several: true,
		Choices: yesNo, Help: "No, if some have days of their own.",
		at: site(func(a *Answers) *string { return &a.SameDays }), unsaid: unsaidSame},
	{ID: "zone_days", Name: "days of zones", Text: "Days of this zone", Kind: Days, Each: true, Example: same("tue"),
		When: &When{"schedule", "same", []string{"no"}},
		at:   zone(func(z *Zone) *string { return &z.Days }), unsaid: unsaidZoneDays},
	{ID: "minutes", Name: "minutes", Text: "Minutes at each start", Kind: Number, Each: true, Unit: same("min"), Example: same("12"),
		at: zone(func(z *Zone) *string { return &z.Minutes }), unsaid: unsaidMinutes},
}

var monthParts = []Part{
	{ID: "on", Name: "months", Text: "Months in which the timer is on", Kind: Months, Example: same("Apr-Oct"),
		Help: "From the first to the last month, or all.",
		at:   site(func(a *Answers) *string { return &a.Months }), unsaid: unsaidMonths},
}

var timerParts = []Part{
	{ID: "percent", Name: "percent steps", Later: true, Text: "In what steps can one percentage change all run times?", Kind: Choice,
		Choices: percentChoices,
		at:      site(func(a *Answers) *string { return &a.PercentStep }), unsaid: unsaidPercent},
	{ID: "cycle", Name: "cycles", Later: true, Text: "Can it split a run into cycles with a soak between them?", Kind: Choice,
		Choices: yesNo,
		at:      site(func(a *Answers) *string { return &a.Cycle }), unsaid: unsaidCycle},
}

var priceParts = []Part{
	{ID: "price", Name: "price", Text: "Price of water, with sewer", Kind: Number,
		Example: Pair{"$6.50 per kgal", "EUR 3.20 per m3"},
		Help:    "Per kgal (1,000 gallons), HCF or CCF (100 cubic feet), gal or m3. Other money than dollars: EUR 3.20 per m3.",
		at:      site(func(a *Answers) *string { return &a.Price }), unsaid: unsaidPrice},
	{ID: "rates", Name: "rates", Later: true, Text: "File of the supplier's rates, if you have one", Kind: File, Example: same("rates.yaml"),
		Help: "Few have one; \"loamledger bill --help\" describes it.",
		When: &When{"price", "price", []string{""}},
		at:   site(func(a *Answers) *string { return &a.RatesFile }), unsaid: unsaidRates},
}

var ruleParts = []Part{
	{ID: "days", Name: "days allowed", Text: "Days on which watering is allowed", Kind: Days, Example: same("tue, sat"),
		at: site(func(a *Answers) *string { return &a.RuleDays }), unsaid: unsaidRuleDays},
	{ID: "hours", Name: "hours allowed", Later: true, Text: "Hours in which watering is allowed", Kind: Hours, Example: same("20:00-08:00"),
		at: site(func(a *Answers) *string { return &a.RuleHours }), unsaid: unsaidRuleHours},
}

var slopeParts = []Part{
	{ID: "slope", Name: "slope", Later: true, Text: "Most of the ground is", Kind: Choice, Choices: slopeChoices,
		at: site(func(a *Answers) *string { return &a.Slope }), unsaid: unsaidSlope},
}
