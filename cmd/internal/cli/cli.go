// Package cli is the commands: it opens files, calls the pure packages, writes
// results and chooses the exit code. Only this package and its neighbours in
// cmd touch the machine.
package cli

import (
	"context"
	"errors"
	"fmt"
	"io"
	"strings"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"

	"loamledger/weather/diag"
	"loamledger/weather/et0"
)

// Version is the version of the program.
const Version = "0.1.0"

// Streams are where a command prints.
type Streams struct {
	Out, Err io.Writer
	Terminal bool // a person watches Err: progress may be drawn there
}

// The exit codes. They are part of what scripts rely on.
const (
	exitDone        = 0
	exitMachine     = 1   // a fault of the machine: disk, permission, memory
	exitCommand     = 2   // a fault in the command line
	exitInput       = 3   // a fault in an input file
	exitInterrupted = 130 // stopped by the user
)

// interrupted is what is said of a run that the user has stopped.
const interrupted = "interrupted; nothing was left half-written"

const exitHelp = `
Exit status:
  0    done
  1    fault of the machine, such as a full disk
  2    fault in the command line
  3    fault in an input file
  130  interrupted
With --json, errors are printed as JSON on standard output as well:
  {"errors": [{"code", "file", "line", "column", "message", "fix"}], "exit_status"}`

// A usageError is a fault in the command line.
type usageError struct {
	code     diag.Code
	msg, fix string
}

func (e *usageError) Error() string { return e.msg + "\n\tfix: " + e.fix }

// Main runs the command that args name and returns the exit code.
func Main(ctx context.Context, args []string, s Streams) int {
	out := &kept{w: s.Out}
	s.Out = out
	root := newRoot(s)
	root.SetArgs(args)
	err := root.ExecuteContext(ctx)
	if err == nil && out.err != nil {
		err = fmt.Errorf("printing the result: %w", out.err)
	}
	if err == nil {
		return exitDone
	}
	code := exitCode(err)
	if ctx.Err() != nil {
		code = exitInterrupted
	}
	// A result that was printed before the fault stays the only one on Out.
	if wantsJSON(args) && !out.begun {
		_ = printJSON(s.Out, newErrorsJSON(err, code)) // the fault is told on Err, too
	}
	if code == exitInterrupted {
		fmt.Fprintln(s.Err, "loamledger: "+interrupted)
		return code
	}
	text := err.Error()
	for line := range strings.Lines(text) {
		if strings.HasPrefix(line, "\t") {
			fmt.Fprint(s.Err, line)
		} else {
			fmt.Fprint(s.Err, "loamledger: ", line)
		}
	}
	fmt.Fprintln(s.Err)
	return code
}

func exitCode(err error) int {
	var usage *usageError
	var need *et0.NeedError
	switch {
	case errors.As(err, &usage):
		return exitCommand
	case diag.IsInput(err), errors.As(err, &need):
		return exitInput
	}
	return exitMachine
}

func newRoot(s Streams) *cobra.Command {
	root := &cobra.Command{
		Use:   "loamledger",
		Short: "Replay watering strategies over years of daily weather",
		Long: `loamledger replays watering strategies day by day over years of daily weather,
zone by zone, with a root-zone water balance, and reports what each would have
done: gallons, days short of water, runoff, percolation. Results are estimates;
local watering rules come first.`,
		Example: `  loamledger demo
  loamledger init yard.yaml
  loamledger replay yard.yaml --out results`,
		Args:          noSuchCommand,
		RunE:          func(cmd *cobra.Command, _ []string) error { return cmd.Help() },
		SilenceErrors: true,
		SilenceUsage:  true,
		Version:       Version,
	}
	root.SetOut(s.Out)
	root.SetErr(s.Err)
	root.CompletionOptions.HiddenDefaultCmd = true
	root.SetFlagErrorFunc(flagFault)
	root.SetUsageTemplate(root.UsageTemplate() + exitHelp + "\n")
	root.SetHelpCommand(newHelp(s))
	root.AddCommand(
		newDemo(s),
		newInit(s),
		newCheck(s),
		newWeather(s),
		newInvent(s),
		newForecast(s),
		newReplay(s),
		newSettings(s),
		newTune(s),
		newDeficit(s),
		newExplain(s),
		newCatalogue(s),
	)
	return root
}

// noSuchCommand refuses a word that is no command.
func noSuchCommand(cmd *cobra.Command, args []string) error {
	if len(args) == 0 {
		return nil
	}
	var names []string
	for _, c := range cmd.Commands() {
		if !c.Hidden {
			names = append(names, c.Name())
		}
	}
	fix := "use one of " + strings.Join(names, ", ")
	if near := diag.Nearest(args[0], names); near != "" {
		fix = "did you mean " + near + "?"
	}
	return &usageError{diag.UnknownCommand, fmt.Sprintf("there is no command %q", args[0]), fix}
}

// flagFault says what is wrong with a flag.
func flagFault(cmd *cobra.Command, err error) error {
	fix := "run " + cmd.CommandPath() + " --help to see its flags"
	var unknown *pflag.NotExistError
	var lacking *pflag.ValueRequiredError
	var wrong *pflag.InvalidValueError
	switch {
	case errors.As(err, &unknown):
		name := unknown.GetSpecifiedName()
		if now := renamedWeatherFlags[name]; now != "" && cmd.Flags().Lookup(now) != nil {
			fix = "the flag is now called --" + now
		} else if near := nearestFlag(cmd, name); near != "" {
			fix = "did you mean --" + near + "?"
		}
	case errors.As(err, &lacking):
		f := lacking.GetFlag()
		return &usageError{diag.BadFlag, "--" + f.Name + " is given no value", "write " + usageOf(f)}
	case errors.As(err, &wrong):
		f := wrong.GetFlag()
		return &usageError{diag.BadFlag, fmt.Sprintf("--%s %q cannot be read", f.Name, wrong.GetValue()), "write " + usageOf(f)}
	}
	return &usageError{diag.UnknownFlag, err.Error(), fix}
}

// usageOf returns how a flag is written and what it takes.
func usageOf(f *pflag.Flag) string {
	value, usage := pflag.UnquoteUsage(f)
	return fmt.Sprintf("--%s %s: %s", f.Name, value, strings.Join(strings.Fields(usage), " ")) // help breaks its lines
}

// newHelp is the help command; unlike the library's it refuses a word that is
// no command.
func newHelp(s Streams) *cobra.Command {
	return &cobra.Command{
		Use:     "help [COMMAND]",
		Short:   "Show what a command does and which flags it takes",
		Long:    "Shows what a command does, which flags it takes, and an example to paste.",
		Example: "  loamledger help replay",
		RunE: func(cmd *cobra.Command, args []string) error {
			root := cmd.Root()
			if len(args) == 0 {
				return root.Help()
			}
			found, rest, err := root.Find(args)
			if err != nil || found == root || len(rest) > 0 {
				return noSuchCommand(root, args)
			}
			found.InitDefaultHelpFlag()
			return found.Help()
		},
	}
}

func nearestFlag(cmd *cobra.Command, name string) string {
	var names []string
	cmd.Flags().VisitAll(func(f *pflag.Flag) { names = append(names, f.Name) })
	return diag.Nearest(name, names)
}

// exactly returns an argument check for n arguments, named for the message.
func exactly(n int, what string) cobra.PositionalArgs {
	return func(cmd *cobra.Command, args []string) error {
		if len(args) == n {
			return nil
		}
		given := fmt.Sprintf("%d were", len(args))
		switch len(args) {
		case 0:
			given = "none was"
		case 1:
			given = "1 was"
		}
		return &usageError{diag.WrongArguments, fmt.Sprintf("%s takes %s, and %s given", cmd.CommandPath(), what, given), "write: " + cmd.UseLine()}
	}
}
