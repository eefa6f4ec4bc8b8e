package study

import (
	"slices"

	"loamledger/plots"
	"loamledger/scenarios"
	"loamledger/sim/tally"
)

// A WarningRecord is one warning or alarm. Code is one of
// [scenarios.WarningCodes] or [plots.AlarmCodes]; fields that do not apply are
// omitted.
type WarningRecord struct {
	Kind     string   `json:"kind"` // "warning" of an input, or "alarm" of a result
	Code     string   `json:"code"`
	Zone     string   `json:"zone,omitempty"`
	Program  string   `json:"program,omitempty"`
	Strategy string   `json:"strategy,omitempty"`
	Key      string   `json:"key,omitempty"` // of a parameter of the zone
	Variable string   `json:"weather_column,omitempty"`
	Value    *float64 `json:"value,omitempty"`
	Unit     string   `json:"unit,omitempty"`
	File     string   `json:"file,omitempty"`
	Line     int      `json:"line,omitempty"`
	Column   int      `json:"column,omitempty"`
	Text     string   `json:"text"`
}

// alarms returns the implausible results.
func (l *Study) alarms(t *tally.Table) []plots.Alarm {
	list := plots.Alarms(t, l.chartUnits(), l.zoneKinds())
	if l.checks != nil {
		list = append(list, l.checks.cold...)
	}
	return append(list, l.moneyAlarms(t)...)
}

// Warnings lists every printed warning, and every alarm about the results in t;
// t is nil for a command that does not compare strategies. File names have no
// folders, so that equal runs give equal texts.
func (l *Study) Warnings(t *tally.Table) []WarningRecord {
	list := append(l.unfit(), l.Scenario.Warnings...)
	if t != nil {
		list = slices.Concat(list, l.defaultIntakes(), l.shallow(), l.breaches(t))
	}
	out := make([]WarningRecord, 0, len(list))
	for i := range list {
		out = append(out, newWarningRecord(&list[i]))
	}
	if t == nil {
		return out
	}
	for _, a := range l.alarms(t) {
		out = append(out, WarningRecord{
			Kind: "alarm", Code: string(a.Code), Zone: a.Zone, Strategy: a.Strategy, Value: Number(a.Value), Unit: a.Unit, Text: a.Text,
		})
	}
	return out
}

func newWarningRecord(w *scenarios.Warning) WarningRecord {
	j := WarningRecord{
		Kind: "warning", Code: string(w.Code), Zone: w.Zone, Program: w.Program, Strategy: w.Strategy, Variable: w.Column, Key: w.Key,
		Unit: w.Unit, Line: w.Pos.Line, Column: w.Pos.Col, Text: w.Text,
	}
	if w.Unit != "" {
		j.Value = Number(w.Value)
	}
	if w.Pos.File != "" {
		j.File = base(w.Pos.File)
	}
	return j
}

// A CodeOf is a code of a warning or an alarm; Strategy is empty if it is not about one.
type CodeOf struct{ Code, Strategy string }

// Codes lists the codes of warnings and alarms about one of many sites: those of
// [Study.Warnings] without what only a look at the site itself can settle, default intake
// rates and soil that is shallow for its plants. A code may be there several times.
func (l *Study) Codes(t *tally.Table) (out []CodeOf) {
	for _, list := range [][]scenarios.Warning{l.unfit(), l.Scenario.Warnings, l.breaches(t)} {
		for i := range list {
			out = append(out, CodeOf{string(list[i].Code), list[i].Strategy})
		}
	}
	for _, a := range plots.Alarms(t, l.chartUnits(), l.zoneKinds()) {
		out = append(out, CodeOf{string(a.Code), a.Strategy})
	}
	return out
}
