// Package settingsfile writes a settings sheet as CSV, as plain text and as a
// self-contained HTML page that works on a phone and prints in gray. It also
// writes a curve of water use and stress days as CSV.
//
// Equal sheets give equal bytes. The page escapes names from the user, and its
// content security policy forbids loading anything.
package settingsfile

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"loamledger/sim/settings"
	"loamledger/sim/strategy"
	"loamledger/sim/timer"
	"loamledger/weather/cal"
	"loamledger/weather/quantity"
)

// A Page is a sheet with its title, results and other surrounding text.
type Page struct {
	Site   string
	Record string // the weather it was replayed on, in words
	Units  quantity.System
	Sheet  *settings.Sheet
	Timer  string // the timer, or what is assumed without one; empty for nothing
	Effect string // whether the sheet applies the strategy's water; empty for nothing
	// Refused lists what does not fit the timer; Following is what to enter on a
	// timer that can follow the weather, nil for nothing.
	Refused   []timer.Refusal
	Following *settings.Following
	// Results compare the rounded sheet with the strategy it was made from.
	Results []Result
	Lead    []string // paragraphs before everything else; empty for none
	Advice  []string // what to do beside the controller; empty for nothing
	// Devices are the pages of the controllers of a site with several, of which only
	// Sheet, Timer and Refused count; empty for one.
	Devices []Page
	From    cal.Date // the next change after this day is shown; 0 for none
}

// A Result is one figure in words.
//
// Without is that of the settings without the timer's limits; empty if the timer
// refuses nothing.
type Result struct{ What, Asked, Sheet, Without string }

// cautions returns the cautions on every sheet. Source: common practice.
func cautions() []string {
	return []string{
		"Local watering rules and drought stages take priority. If they differ from this sheet, follow them.",
		"Make changes in steps and watch the plants for two weeks. If they wilt, go up one step; if the ground stays soggy, go down one step.",
		"When you finish, delete extra start times and turn off other programs. Every start time runs the whole program again.",
		"New sod, seed and young trees need more frequent watering than this until they are established.",
		"Turn the system off in rain and freezing weather. Do not let water run onto sidewalks or streets.",
		"Work on backflow devices, water supply lines or line-voltage wiring requires a license.",
		"All figures are estimates from past weather, not a guarantee.",
	}
}

// percent writes a share as a percentage.
func percent(share float64) string {
	if share == 0 {
		return "off"
	}
	return quantity.Number(100*share, 1) + "%"
}

// inQuotes sets a name apart from the surrounding words.
func inQuotes(name string) string { return `"` + name + `"` }

// heading names program i of a sheet. A name that is only the program's number
// is not repeated.
func heading(i int, name string) string {
	number := fmt.Sprintf("Program %d", i+1)
	if strings.EqualFold(name, number) || name == "" {
		return number
	}
	return number + ", " + inQuotes(name)
}

// held lists what site limits block, one line per rule.
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
		lines = append(lines, fmt.Sprintf("%s: %s, on %s%d days of the record, first on %v", rule, strings.Join(names, ", "), upTo, days, first))
	}
	return lines
}

// cycleText describes the cycles of a run. The soak is given once per program.
func cycleText(minutesRun, cycle float64, cycles int) string {
	if cycle <= 0 || cycles < 2 {
		return "one cycle"
	}
	if rest := minutesRun - float64(cycle*float64(cycles-1)); math.Abs(rest-cycle) > 1e-6 {
		return fmt.Sprintf("%d × %s min + %s min", cycles-1, settings.MinutesText(cycle), settings.MinutesText(rest))
	}
	return fmt.Sprintf("%d × %s min", cycles, settings.MinutesText(cycle))
}

// rowName names the row of an entry.
func rowName(s *settings.Sheet, e *settings.Entry) string {
	return fmt.Sprintf("%s (program “%s”)", s.Zones[e.Zone].Name, e.Program.Name)
}

// changes lists what to change, and when.
func (p *Page) changes() []string {
	var out []string
	for _, c := range p.Sheet.Changes() {
		out = append(out, fmt.Sprintf("%s %d: %s", strategy.MonthNames[c.Month-1], c.Day, changeText(c.Percent)))
	}
	return out
}

func changeText(share float64) string {
	if share == 0 {
		return "turn off"
	}
	return "set " + percent(share)
}

// next describes the next change. It is empty if there is none or no day is given.
func (p *Page) next() string {
	if p.From == 0 {
		return ""
	}
	at, c, ok := p.Sheet.Next(p.From)
	if !ok {
		return ""
	}
	return fmt.Sprintf("Next change after %v: %s on %v.", p.From, changeText(c.Percent), at)
}

// finish returns the last finish time of a month.
func finish(t settings.Time, sys quantity.System) string {
	if !t.Waters {
		return "off"
	}
	return settings.ClockText(t.FinishMin, sys)
}

// monthRows lists the months with water, their percentages and last finish times;
// consecutive months that are alike share a row.
func (p *Page) monthRows() (rows [][]string) {
	s := p.Sheet
	first, last := 0, -2
	for _, m := range s.Watered() {
		share, end := percent(s.Percent[m]), finish(s.Times[m], p.Units)
		if n := len(rows) - 1; m == last+1 && rows[n][1] == share && rows[n][2] == end {
			rows[n][0] = strategy.MonthNames[first] + " to " + strategy.MonthNames[m]
		} else {
			first = m
			rows = append(rows, []string{strategy.MonthNames[m], share, end})
		}
		last = m
	}
	return rows
}

// offMonths names the months without water, other than those outside the season.
func offMonths(s *settings.Sheet) string {
	var off []int
	for _, m := range s.Months() {
		if s.Percent[m] == 0 {
			off = append(off, m)
		}
	}
	if len(off) == 0 {
		return ""
	}
	return "Off in " + monthsText(off) + "."
}

// outsideSeason names the months that the season leaves off entirely.
func outsideSeason(s *settings.Sheet) string {
	var off []int
	in := s.Months()
	for m := range strategy.MonthNames {
		if !slices.Contains(in, m) {
			off = append(off, m)
		}
	}
	if len(off) == 0 {
		return ""
	}
	return "Outside the season, turn the system off: " + monthsText(off) + "."
}

// monthsText lists months, 0 to 11 in order; three or more in a row are a range.
func monthsText(months []int) string {
	var texts []string
	for i := 0; i < len(months); {
		k := i
		for k+1 < len(months) && months[k+1] == months[k]+1 {
			k++
		}
		switch from, to := strategy.MonthNames[months[i]], strategy.MonthNames[months[k]]; {
		case k >= i+2:
			texts = append(texts, from+" to "+to)
		case k == i+1:
			texts = append(texts, from, to)
		default:
			texts = append(texts, from)
		}
		i = k + 1
	}
	return strings.Join(texts, ", ")
}

// devices returns a page for each controller: p itself if there is one.
func (p *Page) devices() []*Page {
	if len(p.Devices) == 0 {
		return []*Page{p}
	}
	var out []*Page
	for i := range p.Devices {
		d := &p.Devices[i]
		d.Units, d.From = p.Units, p.From
		out = append(out, d)
	}
	return out
}

// name says which controller a page is for; empty for the only one.
func (p *Page) name() string {
	if p.Sheet.Controller == "" {
		return ""
	}
	return "Controller " + p.Sheet.Controller
}

// refused describes what does not fit the timer.
func (p *Page) refused() (lines []string) {
	if len(p.Devices) == 0 {
		return settings.RefusalTexts(p.Refused, zoneNames(p.Sheet))
	}
	for i := range p.Devices {
		for _, text := range p.Devices[i].refused() {
			lines = append(lines, p.Devices[i].Sheet.Controller+": "+text)
		}
	}
	return lines
}

// dry names the zones without water.
func (p *Page) dry() (lines []string) {
	for _, d := range p.Sheet.Dry {
		lines = append(lines, d.Text(p.Sheet))
	}
	return lines
}

// queued names the programs that overlap; empty if none do.
func queued(s *settings.Sheet) string {
	var pairs []string
	for _, q := range s.Queued {
		pairs = append(pairs, fmt.Sprintf("“%s” and “%s”", q[0], q[1]))
	}
	if len(pairs) == 0 {
		return ""
	}
	return "Programs that start while another still runs: " + strings.Join(pairs, ", ") + ". Here the second waits for the first, as on " +
		"most timers; if yours does not wait, move the starts apart."
}

// shift says how much earlier to start; empty for no need.
func (p *Page) shift() string {
	if p.Sheet.Shift == nil {
		return ""
	}
	return p.Sheet.Shift.Text(p.Units)
}

// resultHead heads the columns of the results.
func (p *Page) resultHead() []string {
	head := []string{"strategy", "this sheet"}
	if len(p.Refused) > 0 {
		head = []string{"strategy", "without the timer's limits", "this sheet"}
	}
	return head
}

// cells returns the cells of a result.
func (r *Result) cells() []string {
	if r.Without == "" {
		return []string{r.Asked, r.Sheet}
	}
	return []string{r.Asked, r.Without, r.Sheet}
}

func zoneNames(s *settings.Sheet) (names []string) {
	for i := range s.Zones {
		names = append(names, s.Zones[i].Name)
	}
	return names
}
