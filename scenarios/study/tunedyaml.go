package study

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"loamledger/sim/settings"
	"loamledger/sim/strategy"
)

// TunedYAML writes tuned strategies as the programs and strategies of a
// scenario, to paste and replay.
func (l *Study) TunedYAML(found *Tuning) string {
	var programs, strategies strings.Builder
	for _, t := range found.Kinds {
		kind := t.Kind.String()
		fmt.Fprintf(&strategies, "  - name: %s\n", quoteYAML("tuned: "+t.Kind.Words()))
		var refills []string
		for _, part := range t.Strategy.Parts {
			switch p := part.(type) {
			case strategy.Programs:
				var names []string
				for i := range p.List {
					name := kind + ", " + p.List[i].Name
					names = append(names, quoteYAML(name))
					l.programYAML(&programs, name, &p.List[i])
				}
				fmt.Fprintf(&strategies, "    programs: [%s]\n", strings.Join(names, ", "))
			case strategy.Monthly:
				var months []string
				for _, share := range p.Share {
					months = append(months, num(100*share))
				}
				fmt.Fprintf(&strategies, "    monthly: [%s]\n", strings.Join(months, ", "))
			case strategy.ETPercent:
				fmt.Fprintf(&strategies, "    et_percent: {design: %s mm, over: %d days, count_rain: %v, most: %s %%}\n", num(p.DesignMM), p.Over, p.CountRain, num(100*p.Most))
			case *strategy.Refill:
				refills = append(refills, l.refillYAML(p))
			case strategy.ZonePercent:
				fmt.Fprintf(&strategies, "    zone_percent: {%s}\n", l.zonesYAML(p.Share, 100, " %"))
			}
		}
		if len(refills) > 0 {
			fmt.Fprintf(&strategies, "    refill:\n      - %s\n", strings.Join(refills, "\n      - "))
		}
	}
	head := ""
	if programs.Len() > 0 {
		head = "programs:\n" + programs.String()
	}
	return head + "strategies:\n" + strategies.String()
}

func (l *Study) programYAML(b *strings.Builder, name string, p *strategy.Program) {
	fmt.Fprintf(b, "  - name: %s\n    days: %s\n", quoteYAML(name), daysYAML(p.Days))
	var starts []string
	for _, s := range p.Starts {
		starts = append(starts, strconv.Quote(settings.ClockText(float64(s))))
	}
	fmt.Fprintf(b, "    starts: [%s]\n    minutes: {%s}\n", strings.Join(starts, ", "), l.zonesYAML(p.Minutes, 1, ""))
	if p.Cycle > 0 {
		fmt.Fprintf(b, "    cycle: %s min\n    soak: %s min\n", num(p.Cycle), num(p.Soak))
	}
}

func (l *Study) refillYAML(p *strategy.Refill) string {
	var zones []string
	for z, is := range p.Zones {
		if is {
			zones = append(zones, quoteYAML(l.Job.Zones[z].Name))
		}
	}
	text := fmt.Sprintf("{zones: [%s], mad: %s %%, days: %s, extra: %s %%, at: %q", strings.Join(zones, ", "), num(100*p.MAD), daysYAML(p.Days), num(100*p.Extra), settings.ClockText(p.StartMin))
	if p.CycleMin > 0 {
		text += fmt.Sprintf(", cycle: %s min, soak: %s min", num(p.CycleMin), num(p.SoakMin))
	}
	return text + "}"
}

// zonesYAML writes a number for each zone that has one.
func (l *Study) zonesYAML(v []float64, by float64, unit string) string {
	var out []string
	for z, x := range v {
		if x > 0 {
			out = append(out, fmt.Sprintf("%s: %s%s", quoteYAML(l.Job.Zones[z].Name), num(by*x), unit))
		}
	}
	return strings.Join(out, ", ")
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
				days = append(days, strings.ToLower(settings.DayNames[d]))
			}
		}
		return "[" + strings.Join(days, ", ") + "]"
	}
	return "any"
}

// num writes a number without the noise of a conversion to percent.
func num(v float64) string { return strconv.FormatFloat(math.Round(v*1e9)/1e9, 'f', -1, 64) }

// quoteYAML writes a name so that YAML takes it as text.
func quoteYAML(s string) string { return "'" + strings.ReplaceAll(s, "'", "''") + "'" }
