package cli

import (
	"fmt"
	"os"
	"path/filepath"

	"github.com/spf13/cobra"

	"loamledger/scenarios/demo"
	"loamledger/weather/csvfile"
	"loamledger/weather/generate"
)

func newDemo(s Streams) *cobra.Command {
	o := replayOptions{Out: "loamledger-demo"}
	cmd := &cobra.Command{
		Use:   "demo",
		Short: "Replay an invented site, nothing to prepare",
		Long: `Replays ten strategies on the five zones of an invented place over twelve years
of invented weather, and writes everything a replay writes, the scenario and
the weather besides, so that they can be changed and replayed.`,
		Example: "  loamledger demo\n  loamledger demo --out /tmp/demo --force",
		Args:    exactly(0, "no argument"),
		RunE: func(cmd *cobra.Command, _ []string) error {
			return runDemo(cmd, s, &o)
		},
	}
	f := cmd.Flags()
	f.StringVarP(&o.Out, "out", "o", o.Out, "`DIR` to write, made whole or not at all")
	f.BoolVar(&o.Force, "force", false, "replace a folder that an earlier run wrote")
	return cmd
}

// runDemo lays the demonstration's inputs into a folder of their own for as
// long as the run takes; the out folder gets copies.
func runDemo(cmd *cobra.Command, s Streams, o *replayOptions) (err error) {
	temp, err := os.MkdirTemp("", "loamledger-demo-*")
	if err != nil {
		return fmt.Errorf("making a folder for the demonstration's inputs: %w", err)
	}
	defer os.RemoveAll(temp)
	scenario := filepath.Join(temp, demo.ScenarioFile)
	if err := os.WriteFile(scenario, []byte(demo.Scenario), 0o666); err != nil {
		return err
	}
	rec, err := generate.Demo()
	if err != nil {
		return err
	}
	f, err := os.Create(filepath.Join(temp, demo.WeatherFile))
	if err != nil {
		return err
	}
	err = csvfile.WriteOwn(f, &rec.Series)
	if cerr := f.Close(); err == nil {
		err = cerr
	}
	if err != nil {
		return err
	}
	o.Extra = []string{scenario, f.Name()}
	l, err := load(scenario)
	if err != nil {
		return err
	}
	l.Weather.File = demo.WeatherFile
	if err := l.run(cmd.Context(), s, o, 0); err != nil {
		return err
	}
	fmt.Fprintf(s.Out, "Open %s in a browser. To change the site, edit %s and run: loamledger replay %s --out results\n",
		filepath.Join(o.Out, "report.html"), filepath.Join(o.Out, "inputs", demo.ScenarioFile), filepath.Join(o.Out, "inputs", demo.ScenarioFile))
	return nil
}
