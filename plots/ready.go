package plots

import (
	"fmt"
	"loamledger/sim/tally"
	"slices"
	"strings"
)

// VerdictRules are the bounds within which a verdict may name a strategy [d].
type VerdictRules struct {
	StressDays   int // that a zone may have in the median year, whatever the baseline has there
	BrowningDays int // that the driest quarter of a zone may have beyond those of the baseline
}

// usualRules are the defaults. No source: a choice, stated in the report.
var usualRules = VerdictRules{StressDays: 14}

func (s *Study) rules() *VerdictRules {
	if s.Rules == nil {
		return &usualRules
	}
	return s.Rules
}

// A BarCode is a rule by which no verdict names a strategy.
type BarCode string

// The rules.
const (
	breaksRules BarCode = "breaks-rules" // it waters where the site's limits forbid it
	brownsMore  BarCode = "browns-more"  // the driest quarter of a zone browns on more days than under the baseline
	tooThirsty  BarCode = "too-thirsty"  // a zone has more stress days than the baseline and than the bound
)

// A BarDoc describes a rule.
type BarDoc struct {
	Code BarCode
	Doc  string
}

// BarDocs is the one list of the rules, with the bounds of this study.
func (s *Study) BarDocs() []BarDoc {
	r := s.rules()
	more := "more"
	if r.BrowningDays > 0 {
		more = fmt.Sprintf("over %d more", r.BrowningDays)
	}
	return []BarDoc{
		{breaksRules, "it is set to run when local rules forbid it, whether or not the replay omits those runs"},
		{brownsMore, "the driest quarter of a zone has " + more + " browning days than under the baseline, in the median or the dry year"},
		{tooThirsty, fmt.Sprintf("a zone as a whole has over %d stress days in the median year, and more than under the baseline", r.StressDays)},
	}
}

// ruledOut says what keeps a strategy from being recommended.
func (s *Study) ruledOut() string {
	var texts []string
	for _, d := range s.BarDocs() {
		texts = append(texts, d.Doc)
	}
	return "A strategy is never recommended if " + strings.Join(texts, "; if ") + "."
}

// A Bar is a rule that a strategy does not meet, with the zone that is furthest
// from it.
type Bar struct {
	Code BarCode
	Zone string  // empty if it is not about a zone
	Days float64 // runs that break rules, or days in the zone
	Base float64 // the same of the baseline
	Dry  bool    // in the dry year, not the median one
}

// bars returns the rules that strategy st does not meet; none for the baseline.
// Without a whole year, the days of the record take the place of both years.
func (s *Study) bars(st int) (out []Bar) {
	if st == s.base() {
		return nil
	}
	t := s.Table
	if len(t.Breaches) > st && len(t.Breaches[st]) > 0 {
		out = append(out, Bar{Code: breaksRules, Days: float64(len(t.Breaches[st])), Base: float64(len(t.Breaches[s.base()]))})
	}
	ranked := t.RankYears()
	for _, code := range []BarCode{brownsMore, tooThirsty} {
		worst := Bar{}
		for z := range t.Zones {
			if b, short := s.zoneBar(&ranked, code, st, z); short && b.Days-b.Base > worst.Days-worst.Base {
				worst = b
			}
		}
		if worst.Zone != "" {
			out = append(out, worst)
		}
	}
	return out
}

// zoneBar judges zone z by a rule about zones, in the year in which it is furthest
// from it.
func (s *Study) zoneBar(ranked *tally.Ranked, code BarCode, st, z int) (worst Bar, short bool) {
	t := s.Table
	worst.Code, worst.Zone = code, t.Zones[z].Name
	judge := func(year int, dry bool) {
		days, base, over := s.barIn(code, st, z, year)
		if over && float64(days-base) > worst.Days-worst.Base {
			worst.Days, worst.Base, worst.Dry, short = float64(days), float64(base), dry, true
		}
	}
	judge(ranked.Median, false)
	if ranked.Dry != 0 && code != tooThirsty {
		judge(ranked.Dry, true)
	}
	return worst, short
}

// barIn judges zone z by a rule about zones in one year, 0 for the whole record: its days
// under strategy st and under the baseline.
func (s *Study) barIn(code BarCode, st, z, year int) (days, base int, over bool) {
	t, rules := s.Table, s.rules()
	a, b := t.Total(st, z), t.Total(s.base(), z)
	if year != 0 {
		a, b = t.Year(st, z, year), t.Year(s.base(), z, year)
	}
	if code == tooThirsty {
		return a.StressZoneDays, b.StressZoneDays, a.StressZoneDays > max(rules.StressDays, b.StressZoneDays)
	}
	return a.BrownDays, b.BrownDays, a.BrownDays-b.BrownDays > rules.BrowningDays
}

// ShortZones returns the zones that keep strategy st from being recommended.
func (s *Study) ShortZones(st int) []bool {
	ranked := s.Table.RankYears()
	out := make([]bool, len(s.Table.Zones))
	for z := range out {
		for _, code := range []BarCode{brownsMore, tooThirsty} {
			_, short := s.zoneBar(&ranked, code, st, z)
			out[z] = out[z] || short
		}
	}
	return out
}

// barWords says what is wrong, after the name of the strategy.
func (s *Study) barWords(b *Bar) string {
	when := "over these days"
	if basis := s.Table.Basis(); basis.Yearly() {
		when = map[bool]string{false: "in a typical year", true: "in a dry year"}[b.Dry]
	}
	switch b.Code {
	case breaksRules:
		return fmt.Sprintf("is set to run %s times when local rules forbid it", fixed(b.Days, 0))
	case brownsMore:
		return fmt.Sprintf("browns part of %s on %s instead of %s days %s", quote(b.Zone), fixed(b.Days, 0), fixed(b.Base, 0), when)
	}
	return fmt.Sprintf("leaves %s thirsty on %s instead of %s days %s", quote(b.Zone), fixed(b.Days, 0), fixed(b.Base, 0), when)
}

// ready returns the strategies that a verdict may name.
func (s *Study) ready() (out []int) {
	for _, st := range s.others() {
		if len(s.bars(st)) == 0 {
			out = append(out, st)
		}
	}
	return out
}

// Barred returns the rules that strategy st does not meet, for scripts.
func (s *Study) Barred(st int) []Bar {
	if !slices.Contains(s.others(), st) {
		return nil
	}
	return s.bars(st)
}

// keepBase says what to do while no option is ready. A baseline that breaks local
// rules is not one to keep.
func (s *Study) keepBase(f *Facts) string {
	base := s.base()
	if f.Running != "" { // the baseline is no more
		return f.Running + " Change nothing else for now."
	}
	name := quote(s.Table.Strategies[base])
	if len(s.Table.Breaches) > base && len(s.Table.Breaches[base]) > 0 {
		return name + " itself runs when local rules forbid it: change its days and hours first."
	}
	return "Keep " + name + " for now."
}

// worstZone names the zone with the most stress days under strategy st in the
// median year, as the end of a sentence; empty with a single zone.
func (s *Study) worstZone(st int) string {
	t := s.Table
	if len(t.Zones) < 2 {
		return ""
	}
	when := " in a typical year"
	if t.RankYears().Median == 0 {
		when = ""
	}
	at, most := s.thirstiest(st)
	if most.StressZoneDays == 0 {
		return "; no zone is thirsty" + orElse(when, " on any day")
	}
	days := "days"
	if most.StressZoneDays == 1 {
		days = "day"
	}
	return fmt.Sprintf("; the worst zone, %s, has %d thirsty %s%s", quote(t.Zones[at].Name), most.StressZoneDays, days, when)
}

// verdictCodes are the verdicts for scripts.
var verdictCodes = map[verdict]string{
	nothingToCompare: "nothing-to-compare", saves: "saves", tooCloseToCall: "too-close-to-call", tradeOff: "trade-off",
	savesNothing: "saves-nothing", notReady: "not-ready",
}

// A Finding is what the comparison comes to.
type Finding struct {
	Code     string
	Strategy int    // that the text is about
	Text     string // the first sentence of the report
	Try      string // what would make an option ready; empty if one is
}

// Verdict returns what the comparison comes to, as the report says it.
func (s *Study) Verdict() Finding {
	rows := s.Table.Compare()
	v, at := s.verdict(rows)
	f := Finding{Code: verdictCodes[v], Strategy: at, Text: punctuated(answer(s, rows))}
	if v == notReady {
		f.Try = s.whatToTry()
	}
	return f
}
