// Package settingsfile writes the sheet to enter on a controller as CSV, as
// plain text and as one page that needs nothing beside it, reads on a phone
// and prints in grey; and the curve of water against stress days as CSV.
//
// Equal sheets give equal bytes. Names from a user are escaped on the page,
// which carries a policy that forbids it to load anything.
package settingsfile

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"loamledger/sim/settings"
	"loamledger/sim/strategy"
	"loamledger/weather/cal"
	"loamledger/weather/quantity"
)

// A Page is a sheet with what is told around it.
type Page struct {
	Site   string
	Record string // the weather it was replayed on, in words
	Units  quantity.System
	Sheet  *settings.Sheet
	// Results are figures of the sheet as rounded, beside those of what it was
	// made from.
	Results []Result
	Lead    []string // paragraphs above everything else; empty for none
	From    cal.Date // day after which the next change is dated; 0 for none
}

// A Result is one figure in words.
type Result struct{ What, Asked, Sheet string }

// Cautions are what every sheet says. Sources: common practice.
func Cautions() []string {
	return []string{
		"Local watering rules and drought stages come first. Where they differ from this sheet, follow them.",
		"Change in steps and watch the plants for two weeks. If they wilt, go one step up; if the ground stays soft, one step down.",
		"After entering, look for a second start time or a second program that is still on: each start waters everything once more.",
		"New sod, seed and young trees need more frequent water than this until they have rooted.",
		"Shut the system off in rain and frost. Do not let water run onto walks or streets.",
		"Work on backflow devices, the drinking-water line and mains wiring belongs to licensed people.",
		"All figures are estimates from past weather, not a promise.",
	}
}

// percent writes a share for people.
func percent(share float64) string {
	if share == 0 {
		return "off"
	}
	return quantity.Number(100*share, 1) + " %"
}

// inQuotes sets a name apart from the words around it.
func inQuotes(name string) string { return `"` + name + `"` }

// heading names program i of a sheet; a name that is but its number is not
// repeated.
func heading(i int, name string) string {
	number := fmt.Sprintf("Program %d", i+1)
	if strings.EqualFold(name, number) || name == "" {
		return number
	}
	return number + ", " + inQuotes(name)
}

// held says what the rules hold back, one line a rule.
func (p *Page) held() (lines []string) {
	s := p.Sheet
	var rules []string
	for i := range s.Held {
		if rule := s.Held[i].Rule; !slices.Contains(rules, rule) {
			rules = append(rules, rule)
		}
	}
	for _, rule := range rules {
		var names []string
		days, first := 0, cal.Date(0)
		for i := range s.Held {
			if h := &s.Held[i]; h.Rule == rule {
				names = append(names, s.Zones[h.Zone].Name)
				if days = max(days, h.Days); len(names) == 1 || h.First < first {
					first = h.First
				}
			}
		}
		upTo := ""
		if n := len(names) - settings.MostListed; n > 0 {
			names = append(names[:settings.MostListed], fmt.Sprintf("%d more", n))
		}
		if len(names) > 1 {
			upTo = "up to "
		}
		lines = append(lines, fmt.Sprintf("%s: %s, on %s%d days of the record, first %v", rule, strings.Join(names, ", "), upTo, days, first))
	}
	return lines
}

// cycleText says in how many parts minutes run.
func cycleText(minutesRun, cycle, soak float64, cycles int) string {
	if cycle <= 0 || cycles < 2 {
		return "one run"
	}
	if rest := minutesRun - cycle*float64(cycles-1); math.Abs(rest-cycle) > 1e-6 {
		return fmt.Sprintf("%d × %s min and %s min, pauses of %s min", cycles-1, settings.MinutesText(cycle), settings.MinutesText(rest),
			settings.MinutesText(soak))
	}
	return fmt.Sprintf("%d × %s min, pauses of %s min", cycles, settings.MinutesText(cycle), settings.MinutesText(soak))
}

// changes says when to change what.
func (p *Page) changes() []string {
	var out []string
	for _, c := range p.Sheet.Changes() {
		out = append(out, fmt.Sprintf("%d %s: %s", c.Day, strategy.MonthNames[c.Month-1], changeText(c.Percent)))
	}
	return out
}

func changeText(share float64) string {
	if share == 0 {
		return "off"
	}
	return "set " + percent(share)
}

// next says when the next change is due; empty where none is or no day is given.
func (p *Page) next() string {
	if p.From == 0 {
		return ""
	}
	at, c, ok := p.Sheet.Next(p.From)
	if !ok {
		return ""
	}
	return fmt.Sprintf("Next change after %v: on %v, %s.", p.From, at, changeText(c.Percent))
}

// finish says when watering ends in a month.
func finish(t settings.Time) string {
	if !t.Waters {
		return "off"
	}
	return strings.TrimSuffix(strategy.ClockText(t.FinishMin), " next day") + map[bool]string{true: "+", false: ""}[t.FinishMin > 24*60]
}
