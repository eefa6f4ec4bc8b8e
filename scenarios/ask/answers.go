package ask

// Answers are what a person answered. Each is a text as typed; empty is "don't
// know". The zero value knows nothing, and still makes a scenario.
type Answers struct {
	Units string `json:"units,omitempty"` // us (the default) or si: of printed results and of examples

	Name      string `json:"name,omitempty"`      // of the site; not asked, "My yard" if empty
	Base      string `json:"base,omitempty"`      // how names of files begin that are made here; "yard" if empty
	Position  string `json:"position,omitempty"`  // latitude, or latitude and longitude
	Elevation string `json:"elevation,omitempty"` // with its unit

	WeatherFile string `json:"weather_file,omitempty"`
	Climate     string `json:"climate,omitempty"`
	Figures     string `json:"figures,omitempty"` // yes: the next five are known
	SummerHigh  string `json:"summer_high,omitempty"`
	SummerLow   string `json:"summer_low,omitempty"`
	WinterHigh  string `json:"winter_high,omitempty"`
	WinterLow   string `json:"winter_low,omitempty"`
	YearRain    string `json:"year_rain,omitempty"`

	Zones []Zone `json:"zones,omitempty"` // none: one zone of which nothing is known

	Texture string `json:"texture,omitempty"`
	Ribbon  string `json:"ribbon,omitempty"`
	Grit    string `json:"grit,omitempty"`

	Days     string `json:"days,omitempty"`
	Starts   string `json:"starts,omitempty"`
	SameDays string `json:"same_days,omitempty"` // no: zones have days of their own
	Months   string `json:"months,omitempty"`

	Cycle       string `json:"cycle,omitempty"`
	PercentStep string `json:"percent_step,omitempty"`

	Price     string `json:"price,omitempty"`
	RatesFile string `json:"rates_file,omitempty"`

	RuleDays  string `json:"rule_days,omitempty"`
	RuleHours string `json:"rule_hours,omitempty"`

	Slope string `json:"slope,omitempty"`
}

// A Zone is what is answered for one zone.
type Zone struct {
	Name      string `json:"name,omitempty"`
	Area      string `json:"area,omitempty"`
	Plant     string `json:"plant,omitempty"`
	Sprinkler string `json:"sprinkler,omitempty"`
	Flow      string `json:"flow,omitempty"`
	Sun       string `json:"sun,omitempty"`
	Minutes   string `json:"minutes,omitempty"`
	Days      string `json:"days,omitempty"`
}

// ZoneCount returns the number of zones that are asked about: at least one.
func (a *Answers) ZoneCount() int { return max(1, len(a.Zones)) }

// Answer returns the answer at a place, "" for "don't know" and for unknown places.
func (a *Answers) Answer(at At) string {
	p := find(at)
	if p == nil || at.Zone >= len(a.Zones) {
		return ""
	}
	return *p.at(a, at.Zone)
}

// Set records an answer. It adds zones up to the one named, at most [MaxZones], and
// reports whether there is such a place.
func (a *Answers) Set(at At, text string) bool {
	p := find(at)
	if p == nil || at.Zone >= MaxZones {
		return false
	}
	for at.Zone >= len(a.Zones) {
		a.Zones = append(a.Zones, Zone{})
	}
	*p.at(a, at.Zone) = text
	return true
}

// MaxZones is how many zones can be asked about.
const MaxZones = 48
