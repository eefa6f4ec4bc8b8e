package scenarios

import "loamledger/scenarios/catalog"

// A VerdictRule is how much a strategy may fall short and still be recommended.
type VerdictRule struct {
	// StressDays is how many stress days any zone as a whole may have in the median
	// year, even if the baseline has fewer [d], 0 to 366.
	StressDays int
	// BrowningDays is how many more browning days than under the baseline the driest
	// quarter of any zone may have, in the median and in the dry year [d], 0 to 366.
	BrowningDays int
}

// The defaults. No source: choices, stated in the report.
var (
	stressDaysAllowed   = catalog.Figure{Value: 14, Low: 7, High: 30, Source: "two weeks of one dry spell; our choice", Grade: catalog.Guess}
	browningDaysAllowed = catalog.Figure{Value: 0, Low: 0, High: 14, Source: "what browns more than today is no saving; our choice",
		Grade: catalog.Guess}
)

// readVerdict reads the bounds of the verdict.
func (b *builder) readVerdict(top group) {
	g := b.open(top.has("verdict"), "verdict", "verdict", "stress_days", "browning_days")
	read := func(key string, dflt catalog.Figure) int {
		if g.node == nil {
			b.defaulted("verdict."+key, shape{bare: true}, dflt)
			return int(dflt.Value)
		}
		v, ok := g.number(want{key: key, shape: shape{bare: true}, max: 366, whole: true, dflt: dflt})
		if !ok {
			return 0
		}
		return int(v)
	}
	b.sc.Verdict = VerdictRule{read("stress_days", stressDaysAllowed), read("browning_days", browningDaysAllowed)}
}
