package ask

import (
	"fmt"
	"strings"

	"loamledger/scenarios"
	"loamledger/scenarios/names"
	"loamledger/weather/diag"
)

// programName returns the name of a program, counted from 0.
func programName(i int) string {
	if i < 26 {
		return "program " + string(rune('A'+i))
	}
	return fmt.Sprintf("program %d", i+1)
}

// programs returns the programs on the timer, one for each set of days, and their
// names.
func (w *writer) programs() (programs *scenarios.Node, all []*scenarios.Node) {
	programs = list()
	dayAt := once("schedule", "days")
	days, dayDefault := w.said(dayAt)
	startAt := once("schedule", "starts")
	starts, startDefault := w.said(startAt)
	if w.a.Asked(once("schedule", "same")) {
		w.said(once("schedule", "same"))
	}
	w.choice(once("schedule", "same"), yesNo)
	type program struct {
		days    string
		minutes *scenarios.Node
	}
	var made []program
	for z := range w.a.Zones {
		own, at, d := days, dayAt, dayDefault
		if zoneAt := (At{"schedule", "zone_days", z}); w.a.Asked(zoneAt) {
			if text, def := w.said(zoneAt); def == nil {
				own, at, d = text, zoneAt, nil
			}
		}
		i := 0
		for i < len(made) && names.Key(made[i].days) != names.Key(own) {
			i++
		}
		if i == len(made) {
			g := group()
			made = append(made, program{own, group()})
			all = append(all, word(programName(i)))
			w.put(g, "name", word(programName(i)))
			if n := w.days(at, own); n != nil {
				w.put(g, "days", n, assumption(d)...)
			}
			w.put(g, "starts", w.starts(startAt, starts), assumption(startDefault)...)
			w.put(g, "minutes", made[i].minutes)
			programs.Items = append(programs.Items, g)
		}
		minutesAt := At{"schedule", "minutes", z}
		text, def := w.said(minutesAt)
		w.put(made[i].minutes, w.zoneNames[z], w.text(minutesAt, text), assumption(def)...)
	}
	w.addLawful(programs)
	return programs, all
}

// starts returns start times as a list.
func (w *writer) starts(at At, text string) *scenarios.Node {
	l := list()
	l.Pos = w.pos(at)
	for _, t := range strings.FieldsFunc(strings.ReplaceAll(text, " and ", ","), func(r rune) bool { return r == ',' || r == ';' }) {
		if t = strings.TrimSpace(t); t != "" {
			l.Items = append(l.Items, w.text(at, t))
		}
	}
	return l
}

// days returns a rule for days: an interval, or the text for the reader of
// scenarios, which understands many.
func (w *writer) days(at At, text string) *scenarios.Node {
	text = strings.TrimSpace(text)
	n := intervalDays(text)
	if n == 0 {
		return w.weekdays(at, text)
	}
	g := group()
	g.Pos = w.pos(at)
	w.put(g, "every", w.text(at, fmt.Sprintf("%d days", n)))
	from := At{at.Question, at.Part + " from", at.Zone}
	w.defaults[from] = Default{Text: "counted from 2001-01-01", Source: "the first day is not asked; " + ours, Grade: guessGrade}
	w.note(at, w.defaults[from])
	w.put(g, "from", w.text(from, "2001-01-01"))
	return w.onOneLine(g)
}

// weekdays returns a list of weekdays, or any other text as it is.
func (w *writer) weekdays(at At, text string) *scenarios.Node {
	l := list()
	l.Pos = w.pos(at)
	for _, day := range strings.Split(text, ",") {
		if day = strings.TrimSpace(day); len(day) < 3 || strings.Trim(strings.ToLower(day), "abcdefghijklmnopqrstuvwxyz") != "" {
			return w.text(at, text)
		}
		l.Items = append(l.Items, w.text(at, day))
	}
	if len(l.Items) == 1 {
		return l.Items[0] // may be odd, even or any
	}
	return l
}

// strategies returns what runs and the options next to it.
func (w *writer) strategies(programs []*scenarios.Node) *scenarios.Node {
	l := list()
	add := func(name, comment string) *scenarios.Node {
		g := group()
		w.comments[g] = []string{comment}
		w.put(g, "name", word(name))
		l.Items = append(l.Items, g)
		return g
	}
	found := add("as found", "The timer as it is, the same all season.")
	w.put(found, "programs", list(programs...))
	at := once("months", "on")
	text, d := w.said(at)
	first, last, err := monthRange(text)
	switch {
	case err != nil:
		w.fault(at, diag.NotADate, "write the first and the last month, such as Apr-Oct, or all", "%q: %v", text, err)
	case (last+1)%12 == first: // all year: no season
		if d != nil {
			w.comments[found] = append(w.comments[found], assumption(d)...)
		}
	default:
		s := group()
		w.put(s, "start", w.text(at, fmt.Sprintf("%02d-01", first+1)))
		w.put(s, "end", w.text(at, fmt.Sprintf("%02d-%d", last+1, lastDays[last])))
		w.put(found, "season", w.onOneLine(s), assumption(d)...)
	}
	more := func(name, comment string) *scenarios.Node {
		g := add(name, comment)
		w.put(g, "like", word("as found"))
		if names := w.lawfulNames(); names != nil {
			w.put(g, "programs", names)
		}
		return g
	}
	w.put(more("seasonal percent", "The same days and minutes, with a percentage for each month, from the weather."), "monthly", word("auto"))

	wet, dry := "0.25 in", "2 days"
	if w.a.si() {
		wet = "6 mm"
	}
	hold, rain := group(), group()
	w.put(rain, "at_least", word(wet))
	w.put(rain, "dry_out", word(dry))
	w.put(hold, "rain", rain)
	w.put(more("rain skip", "The timer as it is, with a rain sensor that holds watering after rain."), "hold", w.onOneLine(hold))

	et := more("ET-adjusted", "A controller that follows the weather: last week's need less its rain sets the percentage.")
	percent := group()
	for _, e := range [][2]string{{"design_eto", "auto"}, {"days", "7 days"}, {"subtract_rain", "true"}, {"max", "150%"}} {
		w.put(percent, e[0], word(e[1]))
	}
	w.put(et, "et_percent", w.onOneLine(percent))
	w.put(et, "round", word("1 min"))
	return l
}
