package study

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"loamledger/plots"
	"loamledger/scenarios"
	"loamledger/weather"
	"loamledger/weather/forecast"
	"loamledger/weather/quantity"
)

// A skill is how good the forecasts were by which strategies hold watering, on
// the days of the record: the verdict on those strategies rests on it.
type skill struct {
	use    scenarios.ForecastUse
	scores []forecast.Score // by days ahead, from 1, as far as the strategies look
}

// skills scores the site's forecasts against the record's observed or synthetic
// rain, by each rule that a strategy uses; filled rain does not count. It
// returns nil if there are no forecasts for the record or no strategy uses them.
func (l *Study) skills() []skill {
	if l.Forecast == nil || !l.Forecast.inside {
		return nil
	}
	observed := withoutFilledRain(&l.Weather.Series)
	var out []skill
	for _, use := range l.Scenario.ForecastUses() {
		rule := forecast.Rule{RainMM: use.AtLeastMM, ProbabilityPct: 100 * use.MinProbability, AmountToo: true}
		all, err := forecast.Verify(l.Forecast.archive, observed, rule)
		if err != nil {
			continue // not an event; the scenario allows no such rule
		}
		one := skill{use: use}
		for _, s := range all {
			if s.LeadDays >= 1 && s.LeadDays <= use.Days {
				one.scores = append(one.scores, s)
			}
		}
		out = append(out, one)
	}
	return out
}

// withoutFilledRain returns the rain of s with filled days as missing.
func withoutFilledRain(s *weather.Series) *weather.Series {
	out := weather.NewSeries(s.Station, s.Start, s.Days, weather.Rain)
	for i := range s.Days {
		v, mark := s.At(weather.Rain, i), s.Mark[weather.Rain][i]
		if mark.Filled() && mark != weather.Synthetic {
			v = math.NaN()
		}
		out.Set(weather.Rain, i, v, mark)
	}
	return out
}

// skillWords explains the columns of the skill tables.
const skillWords = "POD: share of rain days that were forecast. FAR: share of forecast rain days that stayed below the threshold. " +
	"Bias: forecast rain days per observed rain day."

// SkillViews shows the skill of the forecasts, a table for each rule.
func (l *Study) SkillViews() []View {
	var out []View
	skills := l.skills()
	for i := range skills {
		s := &skills[i]
		g := &Grid{Head: []string{"days\nahead", "fore-\ncasts (n)", "rain\ndays", "POD", "FAR", "bias"}, Columns: toTheRight(0, 6)}
		for _, sc := range s.scores {
			g.add(sc.LeadDays, quantity.Whole(sc.N()), quantity.Whole(sc.Hits+sc.Misses), ratio(sc.POD()), ratio(sc.FAR()), ratio(sc.Bias()))
		}
		v := View{Head: []string{"", l.skillHead(s)}, Grid: g}
		if len(s.scores) == 0 {
			v.Grid, v.Notes = nil, []string{"No forecast was issued early enough for this rule, so it never acts."}
		}
		if i == len(skills)-1 {
			v.Notes = append(v.Notes, Wrap(skillWords, 100)...)
			if note := l.skillNote(); note != "" {
				v.Notes = append(v.Notes, Wrap(note, 100)...)
			}
		}
		out = append(out, v)
	}
	return out
}

// skillHead names the rule and the strategies that use it.
func (l *Study) skillHead(s *skill) string {
	var names []string
	for _, name := range s.use.Strategies {
		names = append(names, strconv.Quote(name))
	}
	chance := ""
	if p := s.use.MinProbability; p > 0 {
		chance = fmt.Sprintf(" with a chance of at least %.0f%%", 100*p)
	}
	return fmt.Sprintf("Skill of the forecasts for a day with at least %s of rain%s, used by %s:",
		quantity.Format(s.use.AtLeastMM, quantity.Depth, l.Scenario.Units), chance, strings.Join(names, ", "))
}

// skillNote says what the skill is worth.
func (l *Study) skillNote() string {
	if !l.Forecast.synthetic {
		return fmt.Sprintf("Forecasts from %s, compared with the rain of the record.", l.Forecast.source)
	}
	climate := "the rain climate behind their false alarms is that of the other years of the record"
	for _, f := range l.Forecast.found {
		if f.Code == weather.CodeForecastHindsight {
			climate = fmt.Sprintf("on %s the rain climate behind their false alarms is that of the same month, which is hindsight",
				quantity.Count(f.Count, "day", "days"))
		}
	}
	return fmt.Sprintf("The forecasts are synthetic: made from the record with a stated skill for rain of at least %s. So the table repeats "+
		"that skill, which differs for other amounts, and measures no forecast service; %s.",
		quantity.Format(l.Forecast.thresholdMM, quantity.Depth, l.Scenario.Units), climate)
}

// skillFact gives the skill one day ahead in a sentence; empty if there is none.
func (l *Study) skillFact() string {
	var parts []string
	for _, s := range l.skills() {
		if len(s.scores) == 0 {
			continue
		}
		sc := &s.scores[0]
		parts = append(parts, fmt.Sprintf("%s ahead, at least %s: POD %s, FAR %s, bias %s in %s",
			quantity.Count(sc.LeadDays, "day", "days"), quantity.Format(s.use.AtLeastMM, quantity.Depth, l.Scenario.Units),
			ratio(sc.POD()), ratio(sc.FAR()), ratio(sc.Bias()), quantity.Count(sc.N(), "forecast", "forecasts")))
	}
	if len(parts) > 0 && l.Forecast.synthetic {
		parts = append(parts, "the forecasts are synthetic")
	}
	return strings.Join(parts, "; ")
}

// skillPart returns the tables for the report; nil if there are none.
func (l *Study) skillPart() *plots.TextPart { return textPart(l.SkillViews()) }

// textPart turns views into a part of the report; nil for none.
func textPart(views []View) *plots.TextPart {
	if len(views) == 0 {
		return nil
	}
	p := &plots.TextPart{}
	for _, v := range views {
		caption := strings.TrimSpace(strings.Join(v.Head, " "))
		if v.Grid == nil {
			p.Notes = append(p.Notes, caption+" "+strings.Join(v.Notes, " "))
			continue
		}
		p.Tables = append(p.Tables, v.Grid.page(strings.TrimSuffix(caption, ":")))
		if len(v.Notes) > 0 {
			p.Notes = append(p.Notes, strings.Join(v.Notes, " "))
		}
	}
	return p
}

// page returns the grid as a table of the report.
func (g *Grid) page(caption string) plots.Table {
	flat := strings.NewReplacer("-\n", "", "\n", " ")
	t := plots.Table{Caption: caption}
	for i, h := range g.Head {
		if h = flat.Replace(h); i == 0 {
			t.First = h
		} else {
			t.Head = append(t.Head, h)
		}
	}
	for i := 1; i < len(g.Columns) && len(g.Columns) == len(g.Head); i++ {
		t.Words = append(t.Words, !g.Columns[i].Right)
	}
	for _, row := range g.Rows {
		t.Rows = append(t.Rows, plots.TableRow{Name: row[0], Cells: row[1:]})
	}
	return t
}

// A SkillRecord is a skill for scripts.
type SkillRecord struct {
	RainMM         float64     `json:"rain_mm"`
	MinProbability float64     `json:"min_probability"`
	Strategies     []string    `json:"strategies"`
	Synthetic      bool        `json:"synthetic"`
	Leads          []LeadScore `json:"leads"`
}

// SkillRecords returns the skills for scripts.
func (l *Study) SkillRecords() []SkillRecord {
	var out []SkillRecord
	for _, s := range l.skills() {
		r := SkillRecord{RainMM: s.use.AtLeastMM, MinProbability: s.use.MinProbability, Strategies: s.use.Strategies,
			Synthetic: l.Forecast.synthetic, Leads: []LeadScore{}}
		for _, sc := range s.scores {
			r.Leads = append(r.Leads, ScoreOf(sc))
		}
		out = append(out, r)
	}
	return out
}
