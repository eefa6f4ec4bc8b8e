package study

// A CheckRecord is the JSON record of a scenario without errors.
type CheckRecord struct {
	Scenario   string          `json:"scenario"`
	Site       string          `json:"site"`
	Zones      int             `json:"zones"`
	Strategies int             `json:"strategies"`
	Weather    WeatherRecord   `json:"weather"`
	Timer      *TimerRecord    `json:"timer"` // nil if the scenario does not state it
	Warnings   []WarningRecord `json:"warnings"`
}

// Checked returns the record of a scenario without errors, for scripts.
func (l *Study) Checked() *CheckRecord {
	sc := l.Scenario
	out := &CheckRecord{
		Scenario: sc.File, Site: sc.Site.Name, Zones: len(sc.Zones), Strategies: len(sc.Strategies), Weather: l.WeatherRecord(),
		Warnings: l.Warnings(nil), Timer: timerRecord(sc.Timer),
	}
	return out
}
