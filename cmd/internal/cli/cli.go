// Package cli implements the commands: it opens files, calls the pure packages,
// writes results and sets the exit code. Only this package and its neighbors in
// cmd access files, the terminal or the clock.
package cli

import (
	"cmp"
	"context"
	"errors"
	"fmt"
	"io"
	"math"
	"os"
	"slices"
	"strconv"
	"strings"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"

	"loamledger/weather/diag"
	"loamledger/weather/et0"
	"loamledger/weather/visible"
)

// Version is the version of the program.
const Version = "0.1.0"

// Streams are where a command prints.
type Streams struct {
	Out, Err io.Writer
	Terminal bool      // Err is a terminal: progress may be drawn there
	In       io.Reader // where answers to questions come from; nil for none
	Typed    bool      // In is a terminal, which shows what is typed

	bar io.Writer // Err itself, for the progress bar, which steers the terminal
}

// The exit codes. Scripts rely on them.
const (
	exitDone        = 0
	exitMachine     = 1   // system error: disk, permission, memory
	exitCommand     = 2   // error in the command line
	exitInput       = 3   // error in an input file
	exitInterrupted = 130 // stopped by the user
)

// Interrupted is the exit code of a run that was stopped by a signal.
const Interrupted = exitInterrupted

// interrupted is the message for a run that the user stopped.
const interrupted = "interrupted; no partial output"

const exitHelp = `
Exit status:
  0    done
  1    system error, such as a full disk
  2    error in the command line
  3    error in an input file
  130  interrupted
With --json, errors are also printed as JSON on standard output:
  {"errors": [{"code", "file", "line", "column", "message", "fix"}], "exit_status"}`

// A usageError is an error in the command line.
type usageError struct {
	code     diag.Code
	msg, fix string
}

func (e *usageError) Error() string { return e.msg + "\n\tfix: " + e.fix }

// traceVariable is the environment variable that, if set, lets a panic print
// where it happened.
const traceVariable = "LOAMLEDGER_TRACE"

// Main runs the command named in args and returns the exit code. A panic is a
// mistake in the program: it ends in one line and the code of a system error.
//
// What is printed may come from somebody else's file, so no control character in
// it reaches the terminal.
func Main(ctx context.Context, args []string, s Streams) (code int) {
	shown, told := visible.NewWriter(s.Out), visible.NewWriter(s.Err)
	s.bar, s.Out, s.Err = s.Err, shown, told
	defer func() { _ = errors.Join(shown.Close(), told.Close()) }() // at most a broken character is left
	if os.Getenv(traceVariable) == "" {
		defer func() {
			if p := recover(); p != nil {
				fmt.Fprintf(s.Err, "loamledger: mistake in the program: %v\n\tfix: set %s=1, run the command again and report what it prints, "+
					"with the input files, to whoever maintains this copy of loamledger\n", p, traceVariable)
				code = exitMachine
			}
		}()
	}
	out := &kept{w: s.Out}
	s.Out = out
	err := execute(ctx, newRoot(s), args)
	if out.err != nil && (err == nil || errors.Is(err, out.err)) {
		// What was written is kept: it is complete, and the time it took is not lost.
		err = fmt.Errorf("printing the result: %w\n\tfix: print elsewhere; every file and folder that this run wrote is complete", out.err)
	}
	if err == nil {
		return exitDone
	}
	code = exitCode(err)
	if ctx.Err() != nil {
		code = exitInterrupted
	}
	// If a result was already printed, it stays the only one on Out.
	if wantsJSON(args) && !out.begun {
		_ = printJSON(s.Out, newErrorsJSON(err, code)) // the error is on Err as well
	}
	if code == exitInterrupted {
		fmt.Fprintln(s.Err, "loamledger: "+interrupted)
		return code
	}
	text := err.Error()
	for line := range strings.Lines(text) {
		if strings.ContainsAny(line[:min(1, len(line))], "\t ") {
			fmt.Fprint(s.Err, line)
		} else {
			fmt.Fprint(s.Err, "loamledger: ", line)
		}
	}
	fmt.Fprintln(s.Err)
	return code
}

// execute runs the command that args name.
func execute(ctx context.Context, root *cobra.Command, args []string) error {
	if err := noCommand(root, args); err != nil {
		return err
	}
	root.SetFlagErrorFunc(func(cmd *cobra.Command, err error) error { return flagError(cmd, args, err) })
	root.SetArgs(args)
	return root.ExecuteContext(ctx)
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
		Short: "Replay irrigation strategies over years of daily weather",
		Long: `loamledger replays irrigation strategies over years of daily weather, zone by
zone, with a root-zone water balance. It reports gallons, stress days, runoff
and percolation for each strategy. Results are estimates; local watering rules
come first.`,
		Example: `  loamledger demo
  loamledger init --ask
  loamledger init yard.yaml
  loamledger replay yard.yaml --out results`,
		Args: unknownCommand,
		RunE: func(cmd *cobra.Command, _ []string) error { return cmd.Help() },

		PersistentPreRunE: func(cmd *cobra.Command, args []string) error { return cmp.Or(noBlanks(cmd, args), plainNumbers(cmd)) },
		SilenceErrors:     true,
		SilenceUsage:      true,
		Version:           Version,
	}
	root.SetOut(s.Out)
	root.SetErr(s.Err)
	root.CompletionOptions.HiddenDefaultCmd = true
	root.SetUsageTemplate(root.UsageTemplate() + exitHelp + "\n")
	root.SetHelpCommand(newHelp(s))
	root.AddCommand(
		newDemo(s),
		newInit(s),
		newCheck(s),
		newWeather(s),
		newGenerate(s),
		newScore(s),
		newBill(s),
		newCompare(s),
		newMeter(s),
		newCalibrate(s),
		newReplay(s),
		newReport(s),
		newPage(s),
		newPlan(s),
		newSettings(s),
		newTune(s),
		newTradeoff(s),
		newRanges(s),
		newPortfolio(s),
		newExplain(s),
		newSamples(s),
		newCatalog(s),
		newVersion(s),
	)
	return root
}

// flagError explains what is wrong with a flag; args is the whole command line.
func flagError(cmd *cobra.Command, args []string, err error) error {
	if !cmd.HasParent() && len(args) > 0 && !strings.HasPrefix(args[0], "-") {
		return unknownCommand(cmd, args) // its flags are unknown because it is
	}
	fix := "run " + cmd.CommandPath() + " --help to see its flags"
	var unknown *pflag.NotExistError
	var lacking *pflag.ValueRequiredError
	var wrong *pflag.InvalidValueError
	switch {
	case errors.As(err, &unknown):
		name := unknown.GetSpecifiedName()
		if now, ok := currentFlag(cmd, name); ok {
			return &usageError{diag.UnknownFlag, fmt.Sprintf("flag --%s is now called --%s", name, now), "write " + usageOf(cmd.Flags().Lookup(now))}
		}
		if near := nearestFlag(cmd, name); near != "" {
			fix = "did you mean --" + near + "?"
		}
	case errors.As(err, &lacking):
		f := lacking.GetFlag()
		return &usageError{diag.BadFlag, "--" + f.Name + " needs a value", "write " + usageOf(f)}
	case errors.As(err, &wrong):
		f := wrong.GetFlag()
		return &usageError{diag.BadFlag, fmt.Sprintf("--%s %q is not valid", f.Name, wrong.GetValue()), "write " + usageOf(f)}
	}
	return &usageError{diag.UnknownFlag, err.Error(), fix}
}

// noBlanks rejects an empty argument and an empty value of a flag, as an unset variable of a script leaves them.
func noBlanks(cmd *cobra.Command, args []string) (err error) {
	if slices.Contains(args, "") {
		return &usageError{diag.WrongArguments, "an argument is empty", "write: " + cmd.UseLine()}
	}
	cmd.Flags().Visit(func(f *pflag.Flag) {
		blank := f.Value.String() == ""
		if list, ok := f.Value.(pflag.SliceValue); ok {
			blank = !slices.ContainsFunc(list.GetSlice(), func(v string) bool { return v != "" })
		}
		if blank && err == nil {
			err = &usageError{diag.BadFlag, "--" + f.Name + " is empty", "omit it, or write " + usageOf(f)}
		}
	})
	return err
}

// plainNumbers rejects flags that are not a plain number, and a number below 0 where it
// would stand for a flag that is not given.
func plainNumbers(cmd *cobra.Command) (err error) {
	cmd.Flags().Visit(func(f *pflag.Flag) {
		bad := false
		switch v, _ := strconv.ParseFloat(f.Value.String(), 64); f.Value.Type() {
		case "float64":
			bad = math.IsNaN(v) || math.IsInf(v, 0)
		case "int":
			bad = f.DefValue == "0" && v == -1
		}
		if bad && err == nil {
			err = &usageError{diag.BadFlag, fmt.Sprintf("--%s %q is not valid", f.Name, f.Value), "write " + usageOf(f)}
		}
	})
	return err
}

// usageOf returns how to write a flag and what it means.
func usageOf(f *pflag.Flag) string {
	value, usage := pflag.UnquoteUsage(f)
	usage = strings.Join(strings.Fields(usage), " ") // help breaks its lines
	return strings.TrimSpace("--"+f.Name+" "+value) + ": " + usage
}

func nearestFlag(cmd *cobra.Command, name string) string {
	var names []string
	cmd.Flags().VisitAll(func(f *pflag.Flag) { names = append(names, f.Name) })
	return diag.Nearest(name, names)
}

// exactly returns an argument check for n arguments; what names them in the
// message.
func exactly(n int, what string) cobra.PositionalArgs {
	return func(cmd *cobra.Command, args []string) error {
		if err := noBlanks(cmd, args); err != nil {
			return err
		}
		if len(args) == n {
			return nil
		}
		given := fmt.Sprint(len(args))
		if len(args) == 0 {
			given = "none"
		}
		msg := fmt.Sprintf("%s needs %s; %s given", cmd.CommandPath(), what, given)
		if n == 0 {
			msg = fmt.Sprintf("%s takes no arguments; %s given", cmd.CommandPath(), given)
		}
		return &usageError{diag.WrongArguments, msg, "write: " + cmd.UseLine()}
	}
}
