package study

// A CheckRecord is what a script gets of a scenario without a fault.
type CheckRecord struct {
	Scenario   string          `json:"scenario"`
	Site       string          `json:"site"`
	Zones      int             `json:"zones"`
	Strategies int             `json:"strategies"`
	Weather    WeatherRecord   `json:"weather"`
	Warnings   []WarningRecord `json:"warnings"`
}

// Checked tells a script of a scenario without a fault.
func (l *Study) Checked() *CheckRecord {
	sc := l.Scenario
	out := &CheckRecord{
		Scenario: sc.File, Site: sc.Site.Name, Zones: len(sc.Zones), Strategies: len(sc.Strategies), Weather: l.WeatherRecord(),
		Warnings: l.Warnings(nil),
	}
	return out
}
