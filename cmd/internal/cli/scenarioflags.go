package cli

import (
	"strings"

	"github.com/spf13/pflag"

	"loamledger/scenarios"
	"loamledger/weather/diag"
)

// scenarioFlags are the flags of every command that reads a scenario and its
// weather.
type scenarioFlags struct {
	Accept  []string
	Outside bool
}

func (o *scenarioFlags) addFlags(f *pflag.FlagSet) {
	f.StringSliceVar(&o.Accept, "accept", nil, "comma-separated `CODES` of weather findings that shall not stop the\n"+
		"run, in addition to those in the scenario")
	f.BoolVar(&o.Outside, "allow-outside", false, "read files that the scenario names outside its folder")
}

// put adds what the flags say to a scenario that is not yet built.
func (o *scenarioFlags) put(root *scenarios.Node) { scenarios.PutAccepted(root, o.Accept) }

// repeat rejects flags that would change a recorded run.
func (o *scenarioFlags) repeat() error {
	if len(o.Accept) == 0 {
		return nil
	}
	return &usageError{diag.BadFlag, "--accept would change the recorded run",
		"replay the scenario itself instead of run.json, or add accept: [" + strings.Join(o.Accept, ", ") + "] under weather in run.json"}
}
