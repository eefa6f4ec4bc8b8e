package plots

import (
	"slices"
	"strings"
)

// An AlarmCode names one kind of alarm. It is stable: scripts and loamledger
// itself rely on it, never on the text of an alarm.
type AlarmCode string

// The codes of alarms. [AlarmCodes] describes each.
const (
	SavingDepth  AlarmCode = "saving-depth"
	SavingShare  AlarmCode = "saving-share"
	SprayTooEven AlarmCode = "spray-too-even"
	TurfDry      AlarmCode = "turf-dry"
	TurfWet      AlarmCode = "turf-wet"
	WaterFrozen  AlarmCode = "water-on-freezing-days"
	WaterDormant AlarmCode = "water-in-dormant-months"

	SavedWaterCheap AlarmCode = "saved-water-cheap"
	HomeSaving      AlarmCode = "home-saving"
)

// An AlarmDoc describes a code.
type AlarmDoc struct {
	Code AlarmCode
	Doc  string
}

// alarmCodes is the one list of codes.
var alarmCodes = [...]AlarmDoc{
	{SavingDepth, "a strategy saves an implausible depth of water in a year"},
	{SavingShare, "a strategy saves an implausible share of the water"},
	{SprayTooEven, "spray heads are more uniform than in tests"},
	{TurfDry, "turf receives implausibly little water in a year"},
	{TurfWet, "turf receives implausibly much water in a year"},
	{WaterFrozen, "a strategy waters on days with a minimum temperature below 0 °C"},
	{WaterDormant, "a strategy waters in months in which the plants of the zone are dormant"},
	{SavedWaterCheap, "a project saves water at an implausibly low cost"},
	{HomeSaving, "a strategy saves more water than homes do, at a mixed meter"},
}

// AlarmCodes returns the description of every code. The slice is the caller's.
func AlarmCodes() []AlarmDoc { return slices.Clone(alarmCodes[:]) }

// An Alarm is one implausible value.
type Alarm struct {
	Code     AlarmCode
	Zone     string // empty for the whole site
	Strategy string // empty for every strategy
	Value    float64
	Unit     string // of Value: "mm/yr", or "1" for a share
	Text     string // its sentence, which alarms of one kind may share
}

// Sentences returns the texts of alarms, each once and in order.
func Sentences(list []Alarm) []string {
	var out []string
	for i := range list {
		if !slices.Contains(out, list[i].Text) {
			out = append(out, list[i].Text)
		}
	}
	return out
}

// strategiesOf names the strategies of alarms, each once; many are counted.
func strategiesOf(list []Alarm) string {
	var names []string
	for i := range list {
		if name := quote(list[i].Strategy); !slices.Contains(names, name) {
			names = append(names, name)
		}
	}
	if n := len(names); n > maxNamed {
		return strings.Join(names[:maxNamed-1], ", ") + " and " + otherWords(n-maxNamed+1)
	}
	return strings.Join(names, ", ")
}
