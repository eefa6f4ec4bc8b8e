package meter

import (
	"cmp"
	"math"
	"slices"
)

// A Method is a way to tell base use, which is not irrigation, from a meter.
type Method string

// The methods.
const (
	LowestPeriod  Method = "lowest period"
	LowestWinter  Method = "lowest winter periods"
	People        Method = "people"
	ChangePoint   Method = "change point"
	Stated        Method = "stated"
	OnlyIrrigates Method = "irrigation only"
)

// A MethodDoc describes a method.
type MethodDoc struct {
	Method Method
	Key    string // in scenarios
	Doc    string
	Bias   string // what to beware of
	Fitted bool   // a number is, or may have been, fitted to the reads
}

var methods = [...]MethodDoc{
	{LowestWinter, "winter", "mean use per day of the lowest 3 periods of each winter, or 2 if read every other month",
		"too high if anyone waters in winter, too low in a vacancy", true},
	{LowestPeriod, "lowest", "use per day of the lowest period", "one bad read or a vacancy ruins it; too high if every winter has watering",
		true},
	{People, "people", "people × use per person and day", "wrong number of people, leaks and other uses", false},
	{ChangePoint, "change-point", "regression: use per day = base + k × max(0, need − threshold)",
		"needs 10 periods or more with spread; wrong if watering follows the calendar instead of need", true},
	{Stated, "stated", "the base_use of the scenario",
		"no better than where it comes from; counts as fitted, because it may be the result of a calibration to these reads", true},
	{OnlyIrrigates, "none", "the meter serves irrigation only: no base use", "leaks and other taps count as irrigation", false},
}

// Methods returns the methods, the default first. The slice is the caller's.
func Methods() []MethodDoc { return slices.Clone(methods[:]) }

// Doc returns the description of a method.
func (m Method) Doc() MethodDoc {
	return methods[slices.IndexFunc(methods[:], func(d MethodDoc) bool { return d.Method == m })]
}

// The use per person and day of budgets of water agencies, 50 to 60 gal.
const (
	gallonM3       = 0.003785411784
	personM3Day    = 55 * gallonM3
	personM3DayLow = 50 * gallonM3
	personM3DayTop = 60 * gallonM3
	PersonSource   = "budgets of water agencies: 50, 52.5, 55 and 60 gal per person and day"
)

// A Base is base use by one method.
type Base struct {
	Method    Method
	M3Day     float64 // [m³/d]
	Low, High float64 // its range [m³/d], if the method has one; else M3Day
	from      []int   // the periods it rests on
	Missing   Missing // why the method gives nothing; empty if it does
}

// A Missing is a stable code that says why a method gives no base use.
type Missing string

// Why a method gives no base use.
const (
	NoWinter  Missing = "no-winter-periods"
	NoPeople  Missing = "people-not-given"
	NoLine    Missing = "no-line-fits"
	noPeriods Missing = "no-periods"
	notMixed  Missing = "irrigation-only"
)

// A MissingDoc describes why a method gives no base use.
type MissingDoc struct {
	Code Missing
	Doc  string
}

var missings = [...]MissingDoc{
	{NoWinter, "fewer than two periods have their middle in winter"},
	{NoPeople, "the number of people is not given"},
	{NoLine, "fewer than 10 periods, or no line with a base from 0 up and a slope above 0"},
	{noPeriods, "no period counts"},
	{notMixed, "the meter serves irrigation only"},
}

// Missings returns the descriptions. The slice is the caller's.
func Missings() []MissingDoc { return slices.Clone(missings[:]) }

// A BaseInput is what base use is worked out of.
type BaseInput struct {
	periods []Period
	at      []int     // the periods that count, all before any change
	needMM  []float64 // mean need of each period [mm/d]
	persons float64   // 0 if not given
	south   bool
	cycle   Cycle
	Only    bool    // the meter serves irrigation only
	Stated  float64 // base use that the scenario states [m³/d]; 0 for none
}

// Bases returns the base use by every method, in the order of [Methods]; without
// [Stated] if none is stated.
func Bases(in *BaseInput) []Base {
	if in.Only {
		out := []Base{{Method: OnlyIrrigates}}
		for _, m := range methods {
			if m.Method != OnlyIrrigates && m.Method != Stated {
				out = append(out, Base{Method: m.Method, Missing: notMixed})
			}
		}
		return out
	}
	out := []Base{in.winter(), in.lowest(), in.people(), in.line()}
	if in.Stated > 0 {
		out = append(out, Base{Method: Stated, M3Day: in.Stated})
	}
	for i := range out {
		b := &out[i]
		if b.Missing == "" && b.High == 0 {
			b.Low, b.High = b.M3Day, b.M3Day
		}
	}
	return out
}

// inWinter reports whether the middle of a period is in November to March, in the
// south in May to September, and names the winter by the year in which it begins.
func (in *BaseInput) inWinter(p *Period) (winter int, ok bool) {
	y, m, _ := ((p.From + p.To) / 2).YMD()
	if in.south {
		return y, m >= 5 && m <= 9
	}
	if m <= 3 {
		return y - 1, true
	}
	return y, m >= 11
}

// winter takes the lowest periods of each winter.
func (in *BaseInput) winter() Base {
	b := Base{Method: LowestWinter}
	byWinter := map[int][]int{}
	n := 0
	for _, i := range in.at {
		if w, ok := in.inWinter(&in.periods[i]); ok {
			byWinter[w] = append(byWinter[w], i)
			n++
		}
	}
	if n < 2 {
		b.Missing = NoWinter
		return b
	}
	for _, at := range byWinter {
		slices.SortStableFunc(at, func(i, k int) int { return cmp.Compare(in.periods[i].PerDay(), in.periods[k].PerDay()) })
		b.from = append(b.from, at[:min(len(at), in.cycle.LowestWinter)]...)
	}
	slices.Sort(b.from)
	m3, days := 0.0, 0
	for _, i := range b.from {
		m3, days = m3+in.periods[i].M3, days+in.periods[i].Days()
	}
	b.M3Day = m3 / float64(days)
	return b
}

func (in *BaseInput) lowest() Base {
	b := Base{Method: LowestPeriod, M3Day: math.Inf(1)}
	for _, i := range in.at {
		if d := in.periods[i].PerDay(); d < b.M3Day {
			b.M3Day, b.from = d, []int{i}
		}
	}
	if b.from == nil {
		return Base{Method: LowestPeriod, Missing: noPeriods}
	}
	return b
}

func (in *BaseInput) people() Base {
	if !(in.persons > 0) {
		return Base{Method: People, Missing: NoPeople}
	}
	return Base{Method: People, M3Day: in.persons * personM3Day, Low: in.persons * personM3DayLow, High: in.persons * personM3DayTop}
}

func (in *BaseInput) line() Base {
	l, ok := NeedLine(in.periods, in.needMM, in.at)
	if !ok {
		return Base{Method: ChangePoint, Missing: NoLine}
	}
	return Base{Method: ChangePoint, M3Day: l.Base, from: slices.Clone(in.at)}
}

// Choose returns the index of the wanted method in bases or, if none is wanted or it
// gives nothing, of the first that gives a value; -1 if none does.
func Choose(bases []Base, wanted Method) int {
	first := -1
	for i := range bases {
		if bases[i].Missing != "" {
			continue
		}
		if bases[i].Method == wanted {
			return i
		}
		if first < 0 {
			first = i
		}
	}
	return first
}

// Spread returns the lowest and the highest base use of the methods that give one,
// and their number.
func Spread(bases []Base) (low, high float64, n int) {
	for i := range bases {
		b := &bases[i]
		if b.Missing != "" {
			continue
		}
		if n == 0 {
			low, high = b.M3Day, b.M3Day
		}
		low, high, n = min(low, b.M3Day), max(high, b.M3Day), n+1
	}
	return low, high, n
}
