package strategy

import (
	"loamledger/weather/cal"
	"loamledger/weather/quantity"
)

// A ParamType is the form of a parameter in a scenario.
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
	ZoneShares                      // a percentage for each of some zones: {zone: 80%}
	CalendarDay                     // a date, such as 2014-07-02
	YearDay                         // a day of every year, such as 04-15
	ClockTime                       // a time of day, such as "05:30"
)

// A Value carries a parameter between a scenario and a part. Only the field of
// its type is set.
type Value struct {
	Given    bool // false: the default
	Number   float64
	Word     string
	Months   [12]float64
	Days     DayRule
	Zones    []bool // by index of zone
	Programs []Program
	Zone     int       // index of the zone; -1 if not given
	Shares   []float64 // by index of zone, for ZoneShares; NaN if not given
	Date     cal.Date  // for CalendarDay; 0 if not given
	YearDay  int       // for YearDay: 100·month + day; 0 if not given
	Clock    int       // for ClockTime: minutes after midnight
}

// A Field binds a parameter to the struct field that stores it. The Go type of
// that field sets the form in a scenario, so the two cannot disagree. Use the
// functions whose names begin with As.
type Field struct {
	Type ParamType
	Dim  quantity.Dimension // for Quantity
	// Whole is set if the number is stored as a whole one.
	Whole bool

	at  any // pointer to the field
	set func(Value)
	get func() Value
}

// Value returns the value of the field. Given is false only if the part stores
// that no value was given.
func (f Field) Value() Value { return f.get() }

// AsQuantity binds a number with a unit, stored in the base unit of dim.
func AsQuantity[N int | float64](field *N, dim quantity.Dimension) Field {
	return Field{Type: Quantity, Dim: dim, at: field,
		set: func(v Value) { *field = N(v.Number) },
		get: func() Value { return Value{Given: true, Number: float64(*field)} }}
}

// asQuantityOr binds a number with a unit, above 0, or a word, which is also the
// default and for which the field is 0.
func asQuantityOr(field *float64, dim quantity.Dimension, word string) Field {
	f := AsQuantity(field, dim)
	f.set = func(v Value) {
		if *field = v.Number; v.Word == word {
			*field = 0
		}
	}
	f.get = func() Value {
		if *field == 0 {
			return Value{Given: true, Word: word}
		}
		return Value{Given: true, Number: *field}
	}
	return f
}

// asFactor binds a share for which zero means 1.
func asFactor(field *float64) Field {
	f := AsQuantity(field, quantity.Fraction)
	f.get = func() Value { return Value{Given: true, Number: or(*field, 1)} }
	return f
}

// asRest binds a share; the field stores 1 minus the share.
func asRest(field *float64) Field {
	f := AsQuantity(field, quantity.Fraction)
	f.set = func(v Value) { *field = 1 - v.Number }
	f.get = func() Value { return Value{Given: true, Number: 1 - *field} }
	return f
}

// asNumber binds a number without a unit.
func asNumber[N int | uint64 | float64](field *N) Field {
	return Field{Type: Number, Whole: N(1)/2 == 0, at: field,
		set: func(v Value) { *field = N(v.Number) },
		get: func() Value { return Value{Given: true, Number: float64(*field)} }}
}

// asFlag binds true or false.
func asFlag(field *bool) Field {
	return Field{Type: Flag, at: field,
		set: func(v Value) { *field = v.Number != 0 },
		get: func() Value {
			v := Value{Given: true}
			if *field {
				v.Number = 1
			}
			return v
		}}
}

// AsChoice binds one of the parameter's choices.
func AsChoice(field *string) Field {
	return Field{Type: Choice, at: field,
		set: func(v Value) { *field = v.Word },
		get: func() Value { return Value{Given: true, Word: *field} }}
}

// asTwelveShares binds twelve monthly shares, or the parameter's one word, which
// sets derived.
func asTwelveShares(field *[12]float64, derived *bool, word string) Field {
	return Field{Type: TwelveShares, at: field,
		set: func(v Value) { *field, *derived = v.Months, v.Word == word },
		get: func() Value {
			if *derived {
				return Value{Given: true, Word: word}
			}
			return Value{Given: true, Months: *field}
		}}
}

// asTwelveSharesOrNone binds twelve monthly shares; nil if not given.
func asTwelveSharesOrNone(field **[12]float64) Field {
	return Field{Type: TwelveShares, at: field,
		set: func(v Value) {
			if *field = nil; v.Given {
				*field = &v.Months
			}
		},
		get: func() Value {
			if *field == nil {
				return Value{}
			}
			return Value{Given: true, Months: **field}
		}}
}

// asDays binds a day rule.
func asDays(field *DayRule) Field {
	return Field{Type: DaysOfWatering, at: field,
		set: func(v Value) { *field = v.Days },
		get: func() Value { return Value{Given: true, Days: *field} }}
}

// AsZones binds a set of zones, by index.
func AsZones(field *[]bool) Field {
	return Field{Type: ZoneNames, at: field,
		set: func(v Value) { *field = v.Zones },
		get: func() Value { return Value{Given: true, Zones: *field} }}
}

// asZone binds the index of a zone.
func asZone(field *int) Field {
	return Field{Type: ZoneName, at: field,
		set: func(v Value) { *field = v.Zone },
		get: func() Value { return Value{Given: true, Zone: *field} }}
}

// asZoneOrNone binds a zone; the field stores 1 + its index, or 0 for none.
func asZoneOrNone(field *int) Field {
	return Field{Type: ZoneName, at: field,
		set: func(v Value) {
			if *field = 0; v.Given {
				*field = v.Zone + 1
			}
		},
		get: func() Value { return Value{Given: *field > 0, Zone: *field - 1} }}
}

// asPrograms binds programs of the scenario.
func asPrograms(field *[]Program) Field {
	return Field{Type: ProgramNames, at: field,
		set: func(v Value) { *field = v.Programs },
		get: func() Value { return Value{Given: true, Programs: *field} }}
}

// asZoneShares binds shares for some zones; the others are NaN.
func asZoneShares(field *[]float64) Field {
	return Field{Type: ZoneShares, at: field,
		set: func(v Value) { *field = v.Shares },
		get: func() Value { return Value{Given: true, Shares: *field} }}
}

// asDate binds a date.
func asDate(field *cal.Date) Field {
	return Field{Type: CalendarDay, at: field,
		set: func(v Value) { *field = v.Date },
		get: func() Value { return Value{Given: true, Date: *field} }}
}

// asYearDay binds a day of every year as 100·month + day; 0 if not given.
func asYearDay(field *int) Field {
	return Field{Type: YearDay, at: field,
		set: func(v Value) { *field = v.YearDay },
		get: func() Value { return Value{Given: *field != 0, YearDay: *field} }}
}

// asClock binds a time of day in minutes after midnight.
func asClock[N int | float64](field *N) Field {
	return Field{Type: ClockTime, at: field,
		set: func(v Value) { *field = N(v.Clock) },
		get: func() Value { return Value{Given: true, Clock: int(*field)} }}
}
