package study

import (
	"fmt"
	"math"
	"strings"

	"loamledger/plots"
	"loamledger/sim/settings"
	"loamledger/sim/tally"
	"loamledger/weather/cal"
	"loamledger/weather/quantity"
)

// Cards are the result of a replay as a page shows it: one card for each strategy, in
// the words of the report's first page.
type Cards struct {
	Site     string   `json:"site"`
	Over     string   `json:"over"`   // how much weather, and of which station
	Answer   string   `json:"answer"` // the verdict
	Try      string   `json:"try,omitempty"`
	Code     string   `json:"code"` // of the verdict
	Label    string   `json:"label"`
	Years    string   `json:"years"` // what the typical and the dry year are
	Cards    []Card   `json:"cards"`
	Alarms   []string `json:"alarms"`   // what is implausible
	Sources  []string `json:"sources"`  // of weather, reference ET and defaults
	Cautions []string `json:"cautions"` // for every card
}

// A Card is one strategy. Strings are empty if there is nothing to say.
type Card struct {
	Strategy string       `json:"strategy"`
	About    string       `json:"about"`
	Needs    string       `json:"needs"`    // equipment beyond that of the baseline
	Baseline bool         `json:"baseline"` // what ran
	Option   bool         `json:"option"`   // someone can choose it
	Named    bool         `json:"named"`    // the verdict is about it
	Figures  []CardFigure `json:"figures"`
	Meets    string       `json:"meets"` // the rule by which the verdict names an option
	Why      string       `json:"why"`
	Fits     string       `json:"fits"`              // the timer
	Rules    string       `json:"rules"`             // the limits of the place
	Worst    string       `json:"worst"`             // the thirstiest zone
	Measure  string       `json:"measure,omitempty"` // the one thing to measure next, once it is known
}

// A CardFigure is one number of a card. Key and Value are those of the [Summary].
type CardFigure struct {
	Key   string   `json:"key"`
	Title string   `json:"title"`
	Text  string   `json:"text"`           // with its unit
	Fine  string   `json:"fine,omitempty"` // the other days of the same time, for a number of days
	Value *float64 `json:"value"`
	Kind  string   `json:"kind"` // water, money, days or change
}

// Cards returns the cards of a replay.
func (l *Study) Cards(t *tally.Table) *Cards {
	data := l.verdictData(t)
	found := data.Verdict()
	cells := t.Cells()
	about := l.about(t)
	out := &Cards{Site: l.Scenario.Site.Name, Over: l.over(t), Answer: found.Text, Try: found.Try, Code: found.Code, Label: plots.Estimated,
		Years: yearsLine(&cells.Ranked), Alarms: orEmpty(append(l.warningTexts(), plots.Sentences(l.alarms(t))...)),
		Sources: l.sourceLines(), Cautions: l.cautionLines()}
	refused := l.fits()
	figures := l.cardFigures(&cells.Basis)
	meets, whys := data.MeetRules()
	for s := range l.Job.Strategies {
		c := Card{Strategy: t.Strategies[s], Baseline: s == t.Baseline, Option: s != t.Baseline && !t.IsCut(s),
			Named: s == found.Strategy && s != t.Baseline, Fits: refused[s], Rules: l.rulesText(t, s), Worst: data.WorstText(s)}
		if about != nil {
			c.About, c.Needs = about[s].Text, about[s].Needs
		}
		c.Meets, c.Why = meets[s], whys[s]
		for i := range figures {
			c.Figures = append(c.Figures, l.cardFigure(cells, &figures[i], s))
		}
		out.Cards = append(out.Cards, c)
	}
	return out
}

// cardFigures are the figures of the report's first page, and browning days of the
// typical year.
func (l *Study) cardFigures(b *tally.Basis) (out []tally.Figure) {
	for _, f := range b.Figures(tally.FrontFigures(l.measures())) {
		if f.Measure.Key == "browning_days_quarter" && f.Over == tally.DryYear {
			typical := f
			typical.View = tally.View{Over: tally.MedianYear, Front: strings.Replace(f.Front, "dry year", "typical year", 1)}
			out = append(out, typical)
		}
		out = append(out, f)
	}
	return out
}

func (l *Study) cardFigure(cells *tally.Cells, f *tally.Figure, s int) CardFigure {
	sys, v := l.Scenario.Units, cells.Site(f.Measure, s, f.Over)
	out := CardFigure{Key: f.Key(), Title: f.FrontTitle(&cells.Basis), Value: Number(v), Text: printedFigure(f.Measure, v, sys),
		Kind: "number"}
	switch f.Measure.Kind {
	case tally.Volume:
		out.Kind, out.Text = "water", volumeText(v, sys)+" "+quantity.Label(quantity.Volume, sys)+" "+cells.Basis.Words()
	case tally.Change:
		out.Kind = "change"
		if s == cells.Table.Baseline {
			out.Text = "compared with itself"
		}
	case tally.Days:
		out.Kind = "days"
		if f.Rest && !math.IsNaN(v) {
			out.Fine = fmt.Sprintf("%.0f", float64(daysOver(cells, f.Over))-math.Round(v))
		}
	}
	if f.Measure.Key == billKey && !math.IsNaN(v) {
		out.Kind, out.Text = "money", l.money.rates.Currency+" "+quantity.Whole(int(math.Round(v)))
	}
	return out
}

// daysOver returns how many days a figure covers.
func daysOver(c *tally.Cells, over tally.Over) int {
	year := c.Ranked.Median
	if over == tally.DryYear {
		year = c.Ranked.Dry
	}
	if year == 0 || over != tally.MedianYear && over != tally.DryYear {
		return c.Basis.Days
	}
	var from, to cal.Date
	from, to = tally.YearSpan(year, c.Table.South)
	return int(to - from)
}

// yearsLine names the typical and the dry year.
func yearsLine(r *tally.Ranked) string {
	if r.Median == 0 {
		return "No year of the record is whole, so there is no typical or dry year."
	}
	return fmt.Sprintf("The typical year is %s, the dry year %s (%s).", r.Name(r.Median), r.Name(r.Dry), dryIs(r))
}

// over says how much weather a replay covers.
func (l *Study) over(t *tally.Table) string {
	basis := t.Basis()
	return fmt.Sprintf("%s, %v to %v, %s", basis.Count(), l.Weather.Start, l.Weather.End(), l.stationName())
}

// fits says for each strategy whether its settings fit the timer.
func (l *Study) fits() []string {
	out := make([]string, len(l.Job.Strategies))
	if !l.TimerStated() {
		for s := range out {
			out[s] = "Not stated, so not checked."
		}
		return out
	}
	for s, refused := range l.timerRefusals() {
		texts := settings.RefusalTexts(refused, l.ZoneNames())
		switch _, needs, err := l.Job.Strategies[s].Plain(); {
		case len(texts) > 0:
			out[s] = "Does not fit as is: " + someOf(texts) + " The sheet has what fits."
		case err == nil && len(needs) > 0:
			out[s] = "Its run times fit; it also needs equipment."
		default:
			out[s] = "Fits your timer."
		}
	}
	return out
}

// rulesText says how strategy s keeps to the limits of the place.
func (l *Study) rulesText(t *tally.Table, s int) string {
	switch {
	case l.Scenario.Limits == nil:
		return "Not stated, so not checked."
	case s >= len(t.Breaches) || len(t.Breaches[s]) == 0:
		return "Keeps to the rules stated."
	case l.Applies(s):
		return quantity.Count(len(t.Breaches[s]), "run breaks", "runs break") + " the rules stated, in the whole record."
	}
	return quantity.Count(len(t.Breaches[s]), "run is", "runs are") + " cut to the rules stated, in the whole record."
}

// sourceLines says what the numbers of all cards are from.
func (l *Study) sourceLines() []string {
	facts := l.weatherGist()
	lines := []string{fmt.Sprintf("Weather: %s, %v to %v", l.stationName(), l.Weather.Start, l.Weather.End())}
	if facts.FilledDays > 0 {
		lines[0] += ", " + quantity.Count(facts.FilledDays, "day", "days") + " filled"
	}
	lines[0] += "."
	if facts.EToMethod != "" {
		lines = append(lines, "Reference ET: "+facts.EToMethod+".")
	}
	if facts.EToError != "" {
		lines = append(lines, "Likely error of reference ET: "+facts.EToError+".")
	}
	if n := len(l.Scenario.Defaults()); n > 0 {
		lines = append(lines, quantity.Count(n, "value", "values")+" not given: each default is listed below with its source.")
	}
	if m := l.money; m != nil {
		lines = append(lines, "Prices: "+base(m.rates.File)+".")
	}
	return append(lines, l.heavyLines()...)
}

// cautionLines are the cautions of all cards.
func (l *Study) cautionLines() []string {
	lines := []string{Caution}
	if l.Weather.SyntheticDays > 0 {
		lines = append(lines, "The weather is synthetic: a real record can change every number.")
	}
	return append(append(lines, l.warningTexts()...), l.intakeLines()...)
}

// Assumed lists the defaults that the study uses, equal ones of several zones as one.
func (l *Study) Assumed() []plots.Default {
	return plots.Grouped(l.defaults(), l.Job.Zones, l.StrategyNames())
}

// SpreadText writes two ends of a figure, or one where both are written alike.
func (l *Study) SpreadText(f *tally.Figure, low, high float64) string {
	a, b := printedFigure(f.Measure, low, l.Scenario.Units), printedFigure(f.Measure, high, l.Scenario.Units)
	if a == b {
		return a
	}
	return a + " to " + b
}
