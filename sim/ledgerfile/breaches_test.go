package ledgerfile

import (
	"bytes"
	"testing"

	"loamledger/sim"
	"loamledger/sim/tally"
	"loamledger/weather/cal"
)

// Worked by hand: two breaches of a strategy that applies them, one of another that
// omits it, and none listed for the first as the rules would cut it.
func TestWriteBreaches(t *testing.T) {
	table := &tally.Table{
		Strategies: []string{"as found, mostly", "legal", "as found, mostly, if cut", tally.NoWater, tally.LeastWater},
		Zones:      []sim.Zone{{Name: "bank"}, {Name: `the "low" lawn`}},
		Breaches: [][]sim.Breach{{
			{Date: cal.Of(2014, 7, 1), Zone: 1, Rule: "stage 2: not an allowed day", Minutes: 20},
			{Date: cal.Of(2014, 7, 2), Zone: 0, Rule: "local rules: outside the watering window", Minutes: 4.5},
		}, {{Date: cal.Of(2014, 7, 3), Rule: "local rules: not an allowed day", Minutes: 6}},
			{{Date: cal.Of(2014, 7, 1), Minutes: 20}}, nil, nil},
		Cut: 2,
	}
	want := "strategy,date,zone,rule,minutes,applied\n" +
		"\"as found, mostly\",2014-07-01,\"the \"\"low\"\" lawn\",stage 2: not an allowed day,20,yes\n" +
		"\"as found, mostly\",2014-07-02,bank,local rules: outside the watering window,4.5,yes\n" +
		"legal,2014-07-03,bank,local rules: not an allowed day,6,no\n"
	var b bytes.Buffer
	if err := WriteBreaches(&b, table, func(s int) bool { return s == 0 }); err != nil || b.String() != want {
		t.Errorf("%v, got\n%s\nwant\n%s", err, b.String(), want)
	}
}
