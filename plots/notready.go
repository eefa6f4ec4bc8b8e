package plots

import (
	"fmt"
	"math"
	"slices"
	"strings"
)

// notReadyText says that no option may be recommended, and why.
func (s *Study) notReadyText() string {
	if text := s.sameBar(); text != "" {
		return punctuated("Nothing here is ready to recommend: " + text + ".")
	}
	var texts []string
	list := s.Nearest()
	for _, st := range s.others() {
		if !slices.Contains(list, st) {
			list = append(list, st)
		}
	}
	for _, st := range list {
		bars := s.bars(st)
		if len(texts) < maxNamed-1 || len(list) <= maxNamed {
			texts = append(texts, quote(s.Table.Strategies[st])+" "+s.barWords(&bars[0]))
		}
	}
	if more := len(list) - len(texts); more > 0 {
		texts = append(texts, fmt.Sprintf("%d more fall short in like ways", more))
	}
	return "Nothing here is ready to recommend: " + strings.Join(texts, "; ") + "."
}

// whatToTry says what would make an option ready, if none is.
func (s *Study) whatToTry() string {
	if s.Next != nil {
		return s.Next.words(s)
	}
	codes := map[BarCode]bool{}
	for _, st := range s.others() {
		for _, b := range s.bars(st) {
			codes[b.Code] = true
		}
	}
	var try []string
	if codes[breaksRules] {
		try = append(try, "days and hours within local rules")
	}
	if codes[brownsMore] || codes[tooThirsty] {
		try = append(try, s.wording("more minutes in the zones named, or loamledger tune",
			"more minutes in the zones named, or a better sprinkler uniformity: the sliders show what each does"))
	}
	return "Try " + strings.Join(try, "; ") + "."
}

// short reports whether a zone falls short under an option.
func (s *Study) short() bool {
	return slices.ContainsFunc(s.others(), func(st int) bool {
		return slices.ContainsFunc(s.bars(st), func(b Bar) bool { return b.Code != breaksRules })
	})
}

// tryWords says on the first page, whose readers run no commands, what whoever prepared
// the report is to try, after "to".
func (s *Study) tryWords() string {
	if n := s.Next; n != nil && s.Live {
		return "save the scenario, give " + quote(s.Table.Strategies[n.Strategy]) +
			" a program of its own with the run times named above, and open the file here again."
	} else if n != nil {
		return "add " + quote(s.Table.Strategies[n.Strategy]) + " with the run times named above, and to compare again."
	}
	breaks := slices.ContainsFunc(s.others(), func(st int) bool {
		return slices.ContainsFunc(s.bars(st), func(b Bar) bool { return b.Code == breaksRules })
	})
	switch {
	case breaks && s.short():
		return "try days and hours within local rules, and more minutes in the zones named under " +
			s.wording("“Fails.”", "“Meets the rule.”")
	case breaks:
		return "try days and hours within local rules."
	}
	return "try more minutes in the zones named under " +
		s.wording("“Fails.”", "“Meets the rule.”")
}

// wording picks the words for a page on which the reader changes numbers, or those for
// all else.
func (s *Study) wording(report, live string) string {
	if s.Live {
		return live
	}
	return report
}

// sameBar says in one clause why no option is ready, if all fall short in the same zone,
// in the same way and in the same year, so that their days compare; empty otherwise.
func (s *Study) sameBar() string {
	others, ranked := s.others(), s.Table.RankYears()
	if len(others) < 2 || ranked.Median == 0 {
		return ""
	}
	for _, one := range []struct {
		code BarCode
		year int
		when string
	}{
		{brownsMore, ranked.Median, "in a typical year"}, {brownsMore, ranked.Dry, "in a dry year"},
		{tooThirsty, ranked.Median, "in a typical year"},
	} {
		text, most := "", 0 // of the zone furthest off
		for z := range s.Table.Zones {
			low, high, base := math.MaxInt, 0, 0
			least, worst := others[0], others[0]
			all := true
			for _, st := range others {
				days, of, short := s.barIn(one.code, st, z, one.year)
				if days < low {
					least = st
				}
				if days > high {
					worst = st
				}
				all, low, high, base = all && short, min(low, days), max(high, days), of
			}
			if !all || high-base <= most {
				continue
			}
			most = high - base
			names := s.Table.Strategies
			days := fixed(float64(low), 0) + " days"
			if high > low { // which option has which, so that nobody takes it for an error band
				between := " or "
				if len(others) > 2 {
					between = " to "
				}
				days += fmt.Sprintf(" (%s)%s%s (%s)", quote(names[least]), between, fixed(float64(high), 0), quote(names[worst]))
			}
			verb, how := "brown", ""
			if one.code == tooThirsty {
				verb, how = "leave", " thirsty"
			}
			zone := quote(s.Table.Zones[z].Name)
			if one.code == brownsMore {
				zone = "part of " + zone
			}
			who := "both options " + verb
			if len(others) > 2 {
				who = "every option " + verb + "s"
			}
			text = fmt.Sprintf("%s %s%s on %s %s, instead of %s under %s", who, zone, how, days, one.when, fixed(float64(base), 0),
				quote(s.Table.Strategies[s.base()]))
		}
		if text != "" {
			return text
		}
	}
	return ""
}
