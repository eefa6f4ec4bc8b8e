package scenarios

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"loamledger/sim/strategy"
	"loamledger/weather/quantity"
)

// A Writer writes strategies as programs and strategies in YAML, to paste into
// a scenario. It can write any part, since kinds and parameters describe
// themselves.
type Writer struct {
	Zones []string // names, in order
	Units quantity.System
	// Changes are those of every strategy, whose run times are for the site after them.
	Changes []Change

	programs, strategies strings.Builder
}

// Add writes a strategy. The prefix makes the names of its programs unique. The
// error is a [*strategy.UnsaidError].
func (w *Writer) Add(st *strategy.Strategy, prefix string) error {
	var once, lists []string // keys, in order; lists of parts come last
	parts := map[string][]string{}
	for _, p := range st.Parts {
		k, params, err := strategy.Written(p)
		if err != nil {
			return err
		}
		keys := &once
		if k.Many {
			keys = &lists
		}
		key, inner, nested := strings.Cut(k.Key, ".")
		if !slices.Contains(*keys, key) {
			*keys = append(*keys, key)
		}
		text := w.part(params, prefix)
		if nested {
			text = inner + ": " + text
		}
		parts[key] = append(parts[key], text)
		for i := range params {
			if params[i].Type == strategy.ProgramNames {
				w.define(params[i].Value().Programs, prefix)
			}
		}
	}
	b := &w.strategies
	fmt.Fprintf(b, "  - name: %s\n", inQuotes(st.Name))
	for _, key := range once {
		text := strings.Join(parts[key], ", ")
		if slices.ContainsFunc(st.Parts, func(p strategy.Part) bool { return strings.HasPrefix(p.Kind().Key, key+".") }) {
			text = "{" + text + "}"
		}
		fmt.Fprintf(b, "    %s: %s\n", key, text)
	}
	for _, key := range lists {
		fmt.Fprintf(b, "    %s:\n      - %s\n", key, strings.Join(parts[key], "\n      - "))
	}
	for i := range w.Changes {
		if i == 0 {
			fmt.Fprintf(b, "    %s:\n", changesKey)
		}
		fmt.Fprintf(b, "      - %s\n", w.Changes[i].settled())
	}
	return nil
}

// String returns the added strategies as scenario text.
func (w *Writer) String() string {
	head := ""
	if w.programs.Len() > 0 {
		head = "programs:\n" + w.programs.String()
	}
	return head + "strategies:\n" + w.strategies.String()
}

// part writes the value of a part: required parameters first, then those that
// differ from their defaults.
func (w *Writer) part(params []strategy.Param, prefix string) string {
	if len(params) == 1 && params[0].Key == "" {
		return w.value(&params[0], prefix)
	}
	var texts []string
	for _, must := range []bool{true, false} {
		for i := range params {
			p := &params[i]
			if first := p.Required || p.Always && !unwritable(p); first == must && (must || !atDefault(p)) {
				texts = append(texts, p.Key+": "+w.value(p, prefix))
			}
		}
	}
	return "{" + strings.Join(texts, ", ") + "}"
}

// atDefault reports whether omitting the parameter from a scenario gives the
// same value.
func atDefault(p *strategy.Param) bool {
	v := p.Value()
	switch p.Type {
	case strategy.Quantity, strategy.Number, strategy.Flag:
		return v.Number == p.Default
	case strategy.Choice:
		return v.Word == p.Word
	case strategy.ZoneNames:
		return !slices.Contains(v.Zones, false)
	case strategy.DaysOfWatering:
		return v.Days == strategy.DayRule{}
	case strategy.ClockTime:
		return v.Clock == int(p.Default)
	}
	return !v.Given
}

// unwritable reports whether a parameter has a default outside the range that a
// scenario may give.
func unwritable(p *strategy.Param) bool {
	if p.Value().Word != "" {
		return false
	}
	v := p.Value().Number
	return (p.Type == strategy.Quantity || p.Type == strategy.Number) && (v < p.Min || v > p.Max) && atDefault(p)
}

// value writes one value in the form the reader accepts.
func (w *Writer) value(p *strategy.Param, prefix string) string {
	v := p.Value()
	list := func(texts []string) string { return "[" + strings.Join(texts, ", ") + "]" }
	switch p.Type {
	case strategy.Quantity:
		if v.Word != "" {
			return v.Word
		}
		if p.Dim == quantity.Fraction {
			return plain(100*v.Number) + "%"
		}
		return w.quantity(v.Number, p.Dim)
	case strategy.Number:
		return plain(v.Number)
	case strategy.Flag:
		return strconv.FormatBool(v.Number != 0)
	case strategy.Choice:
		return v.Word
	case strategy.TwelveShares:
		if v.Word != "" {
			return v.Word
		}
		var months []string
		for _, share := range v.Months {
			months = append(months, plain(100*share))
		}
		return list(months)
	case strategy.DaysOfWatering:
		return daysYAML(v.Days)
	case strategy.ZoneNames:
		var names []string
		for z, is := range v.Zones {
			if is {
				names = append(names, inQuotes(w.Zones[z]))
			}
		}
		return list(names)
	case strategy.ProgramNames:
		var names []string
		for i := range v.Programs {
			names = append(names, inQuotes(prefix+v.Programs[i].Name))
		}
		return list(names)
	case strategy.ZoneName:
		return inQuotes(w.Zones[v.Zone])
	case strategy.ZoneShares:
		var shares []string
		for z, share := range v.Shares {
			if !math.IsNaN(share) {
				shares = append(shares, inQuotes(w.Zones[z])+": "+plain(100*share)+"%")
			}
		}
		return "{" + strings.Join(shares, ", ") + "}"
	case strategy.CalendarDay:
		return v.Date.String()
	case strategy.YearDay:
		return fmt.Sprintf("%02d-%02d", v.YearDay/100, v.YearDay%100)
	case strategy.ClockTime:
		return strconv.Quote(strategy.ClockText(float64(v.Clock)))
	}
	panic("scenarios: a parameter type without a writer")
}

// define writes programs.
func (w *Writer) define(list []strategy.Program, prefix string) {
	b := &w.programs
	for i := range list {
		p := &list[i]
		var starts, minutes []string
		for _, s := range p.Starts {
			starts = append(starts, strconv.Quote(strategy.ClockText(float64(s))))
		}
		for z, m := range p.Minutes {
			if m > 0 {
				minutes = append(minutes, inQuotes(w.Zones[z])+": "+plain(m))
			}
		}
		fmt.Fprintf(b, "  - name: %s\n    days: %s\n    starts: [%s]\n    minutes: {%s}\n", inQuotes(prefix+p.Name), daysYAML(p.Days),
			strings.Join(starts, ", "), strings.Join(minutes, ", "))
		if p.Cycle > 0 {
			fmt.Fprintf(b, "    cycle: %s min\n    soak: %s min\n", plain(p.Cycle), plain(p.Soak))
		}
		if p.From != 0 {
			fmt.Fprintf(b, "    from: %v\n", p.From)
		}
		if p.To != 0 {
			fmt.Fprintf(b, "    to: %v\n", p.To)
		}
		if p.RampTo > 0 {
			fmt.Fprintf(b, "    ramp_to: %s%%\n", plain(100*p.RampTo))
		}
	}
}

// quantity writes v, in the base unit of dim, in the writer's units.
func (w *Writer) quantity(v float64, dim quantity.Dimension) string {
	if w.Units == quantity.US && dim != quantity.Days {
		return plain(quantity.Convert(v, dim, quantity.US)) + " " + quantity.UnitName(dim, quantity.US)
	}
	return plain(v) + " " + dim.BaseUnit()
}

func daysYAML(r strategy.DayRule) string {
	switch r.Kind {
	case strategy.OddDays:
		return "odd"
	case strategy.EvenDays:
		return "even"
	case strategy.Interval:
		return fmt.Sprintf("{every: %d days, from: %v}", r.Every, r.From)
	case strategy.Weekdays:
		var days []string
		for i := range 7 {
			if d := (i + 1) % 7; r.Weekdays[d] {
				days = append(days, strings.ToLower(strategy.DayNames[d]))
			}
		}
		return "[" + strings.Join(days, ", ") + "]"
	}
	return "any"
}

// plain writes a number without rounding noise from the conversion to percent.
func plain(v float64) string {
	if v != math.Trunc(v) {
		v = math.Round(v*1e9) / 1e9
	}
	return strconv.FormatFloat(v, 'f', -1, 64)
}

// inQuotes quotes a name for YAML.
func inQuotes(s string) string { return "'" + strings.ReplaceAll(s, "'", "''") + "'" }
