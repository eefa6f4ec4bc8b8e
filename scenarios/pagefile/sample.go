package pagefile

import (
	"strings"

	"loamledger/scenarios/demo"
	"loamledger/weather/cal"
	"loamledger/weather/csvfile"
	"loamledger/weather/generate"
)

// sampleYears is how many years of weather the sample site has, as in the demo.
const sampleYears = 10

// sample makes the files of the sample site.
func sample(reply *Reply) error {
	p, err := generate.DemoNormals().Params()
	if err != nil {
		return err
	}
	first := cal.Of(2001, 1, 1)
	rec, err := generate.Generate(p, generate.DemoStation(), first, int(cal.Of(first.Year()+sampleYears, 1, 1)-first), 1)
	if err != nil {
		return err
	}
	var text strings.Builder
	if err := csvfile.WriteOwn(&text, &rec.Series); err != nil {
		return err
	}
	reply.Saved = []Saved{{demo.ScenarioFile, demo.Scenario}, {demo.WeatherFile, text.String()}}
	return nil
}
