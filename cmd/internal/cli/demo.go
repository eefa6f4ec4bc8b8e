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
		Short: "Replay a sample site; no setup needed",
		Long: `Replays several strategies on a sample site with five zones over twelve years of
synthetic weather. It writes everything that replay writes, plus the scenario
and the weather file for you to change and replay.`,
		Example: `  loamledger demo
  loamledger demo --out my-demo --force`,
		Args: exactly(0, ""),
		RunE: func(cmd *cobra.Command, _ []string) error {
			return runDemo(cmd, s, &o)
		},
	}
	f := cmd.Flags()
	f.StringVarP(&o.Out, "out", "o", o.Out, "output `FOLDER`, written atomically")
	f.BoolVar(&o.Force, "force", false, "replace the output folder of an earlier run")
	return cmd
}

// runDemo writes the demo's inputs to a temporary folder, replays them, and
// copies them to the output folder.
func runDemo(cmd *cobra.Command, s Streams, o *replayOptions) (err error) {
	temp, err := os.MkdirTemp("", "loamledger-demo-*")
	if err != nil {
		return fmt.Errorf("creating a folder for the demo's inputs: %w", err)
	}
	defer os.RemoveAll(temp)
	scenario, record, err := writeDemo(temp, demo.Scenario)
	if err != nil {
		return err
	}
	o.Extra = []string{scenario, record}
	l, err := load(scenario, scenarioFlags{})
	if err != nil {
		return err
	}
	l.Weather.File = demo.WeatherFile
	if err := l.run(cmd.Context(), s, o, 0); err != nil {
		return err
	}
	copied := filepath.Join(o.Out, "inputs", demo.ScenarioFile)
	fmt.Fprintf(s.Out, "Open %s in a browser. To change the site, edit %s and run: loamledger replay %s --out results\n",
		filepath.Join(o.Out, "report.html"), copied, copied)
	return nil
}

// writeDemo writes a scenario of the sample site and its weather to a folder.
func writeDemo(folder, text string) (scenario, record string, err error) {
	scenario, record = filepath.Join(folder, demo.ScenarioFile), filepath.Join(folder, demo.WeatherFile)
	if err := os.WriteFile(scenario, []byte(text), 0o666); err != nil {
		return "", "", err
	}
	rec, err := generate.Demo()
	if err != nil {
		return "", "", err
	}
	f, err := os.Create(record)
	if err != nil {
		return "", "", err
	}
	err = csvfile.WriteOwn(f, &rec.Series)
	if cerr := f.Close(); err == nil {
		err = cerr
	}
	return scenario, record, err
}
