package study

// A CheckRecord is what a script gets of a scenario without a fault.
type CheckRecord struct {
	Scenario   string          `json:"scenario"`
	Site       string          `json:"site"`
	Zones      int             `json:"zones"`
	Strategies int             `json:"strategies"`
	Weather    WeatherRecord   `json:"weather"`
	Defaults   []InputRecord   `json:"defaults"`
	Warnings   []WarningRecord `json:"warnings"`
}

// Checked tells a script of a scenario without a fault.
func (l *Study) Checked() *CheckRecord {
	sc := l.Scenario
	out := &CheckRecord{
		Scenario: sc.File, Site: sc.Site.Name, Zones: len(sc.Zones), Strategies: len(sc.Strategies), Weather: l.WeatherRecord(),
		Defaults: []InputRecord{}, Warnings: l.Warnings(nil),
	}
	for _, in := range sc.Defaults() {
		j := InputRecord{Key: in.Key, Text: in.Text, Unit: in.Unit, Default: true, Range: in.Range, Source: in.Source, Grade: in.Grade.String()}
		if in.Numeric {
			j.Value = Number(in.Value)
		}
		out.Defaults = append(out.Defaults, j)
	}
	return out
}
