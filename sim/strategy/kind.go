package strategy

import (
	"loamledger/weather/cal"
	"loamledger/weather/quantity"
)

// A ParamType says what form a parameter takes in a scenario.
type ParamType uint8

// The forms.
const (
	Quantity       ParamType = iota // a number with a unit of the parameter's dimension
	Number                          // a bare number
	Flag                            // true or false
	Choice                          // one of a list of words
	TwelveShares                    // twelve monthly percentages, bare numbers or with %
	DaysOfWatering                  // a day rule: any, odd, even, weekdays or an interval
	ZoneNames                       // all, or a list of zone names
	ProgramNames                    // a list of names of programs of the scenario
	ZoneName                        // one zone
	ZoneShares                      // a percentage for each of some zones: {zone: 80 %}
	CalendarDay                     // a date, such as 2014-07-02
	YearDay                         // a day of every year, such as 04-15
	ClockTime                       // a time of day, such as "05:30"
)

// A Param describes one parameter of a kind of part, to the reader of
// scenarios, to the help and to the report.
type Param struct {
	Key      string
	Type     ParamType
	Dim      quantity.Dimension // for Quantity
	Required bool
	Default  float64 // in base units, or 0 and 1 for a Flag; for Quantity, Number and Flag
	Word     string  // default of a Choice; for others, how the default is described when it is not a number
	Choices  []string
	Min, Max float64 // inclusive range in base units, for Quantity and Number
	Doc      string
	Source   string         // where the default is from; empty only when Required
	Grade    quantity.Grade // how far the default can be trusted; Given only when Required
	Off      bool           // the default leaves a feature out and presumes nothing about the site
}

// A Value is a parameter as read. Only the field of its type is set.
type Value struct {
	Given    bool // false: the default stands
	Number   float64
	Word     string
	Months   [12]float64
	Days     DayRule
	Zones    []bool // by index of zone
	Programs []Program
	Zone     int       // index of the zone; -1 where not given
	Shares   []float64 // by index of zone, for ZoneShares; NaN where not given
	Date     cal.Date  // for CalendarDay; 0 where not given
	YearDay  int       // for YearDay: 100·month + day; 0 where not given
	Clock    int       // for ClockTime: minutes after midnight
}

// Args are the parameters of one part, by key, defaults filled in.
type Args map[string]Value

// A Kind describes one kind of part. Key is its place in a strategy of a
// scenario; a dot means nesting, so that "skip.rain" is the key rain under
// skip. A kind whose only parameter has the empty Key takes its value
// directly, as in "monthly: [0, 0, 40, ...]".
type Kind struct {
	Key     string
	Doc     string // one sentence
	Example string // YAML that can be pasted into a strategy
	Params  []Param
	Many    bool // the value may be a list, each entry of which makes a part
	Make    func(Args) Part
}

// Kinds returns every kind of part, in the order help lists them. This is the
// one place where a new part is registered.
func Kinds() []Kind {
	return []Kind{
		programsKind(),
		monthlyKind(),
		roundKind(),
		etPercentKind(),
		zonePercentKind(),
		habitKind(),
		rainSkipKind(),
		freezeSkipKind(),
		windSkipKind(),
		forecastSkipKind(),
		seasonKind(),
		suspendKind(),
		manualKind(),
		refillKind(),
		sensorKind(),
	}
}
