package cli

import (
	"fmt"
	"strings"

	"github.com/spf13/pflag"

	"loamledger/scenarios"
	"loamledger/scenarios/study"
	"loamledger/weather/diag"
)

// scenarioFlags are the flags of every command that reads a scenario and its
// weather.
type scenarioFlags struct {
	Accept  []string
	Outside bool
}

func (o *scenarioFlags) addFlags(f *pflag.FlagSet) {
	acceptFlag(f, &o.Accept, "run, in addition to those in the scenario")
	f.BoolVar(&o.Outside, "allow-outside", false, "read files that the scenario names outside its folder")
}

// acceptFlag adds the flag of weather findings that are accepted; rest ends its help.
func acceptFlag(f *pflag.FlagSet, to *[]string, rest string) {
	f.StringSliceVar(to, "accept", nil, "comma-separated `CODES` of weather findings that shall not stop the\n"+rest)
}

// knownCodes rejects accepted codes that no finding can have.
func knownCodes(accept []string) error {
	if code, fix := study.UnknownCode(accept); fix != "" {
		return &usageError{diag.UnknownName, fmt.Sprintf("--accept: unknown code %q", code), fix}
	}
	return nil
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
