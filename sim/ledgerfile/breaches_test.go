package ledgerfile

import (
	"bytes"
	"testing"

	"loamledger/sim"
	"loamledger/sim/tally"
	"loamledger/weather/cal"
)

// Worked by hand: two breaches of one strategy, none of the other.
func TestWriteBreaches(t *testing.T) {
	table := &tally.Table{
		Strategies: []string{"as found, mostly", "legal"}, Zones: []sim.Zone{{Name: "bank"}, {Name: `the "low" lawn`}},
		Breaches: [][]sim.Breach{{
			{Date: cal.Of(2014, 7, 1), Zone: 1, Rule: "stage 2: not an allowed day", Minutes: 20},
			{Date: cal.Of(2014, 7, 2), Zone: 0, Rule: "local rules: outside the watering window", Minutes: 4.5},
		}, nil},
	}
	want := "strategy,date,zone,rule,minutes\n" +
		"\"as found, mostly\",2014-07-01,\"the \"\"low\"\" lawn\",stage 2: not an allowed day,20\n" +
		"\"as found, mostly\",2014-07-02,bank,local rules: outside the watering window,4.5\n"
	var b bytes.Buffer
	if err := WriteBreaches(&b, table); err != nil || b.String() != want {
		t.Errorf("%v, got\n%s\nwant\n%s", err, b.String(), want)
	}
}
