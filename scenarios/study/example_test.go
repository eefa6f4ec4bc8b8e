package study_test

import (
	"context"
	"fmt"
	"io"
	"strings"

	"loamledger/scenarios"
	"loamledger/scenarios/demo"
	"loamledger/scenarios/study"
	"loamledger/scenarios/yamlfile"
	"loamledger/sim/replay"
	"loamledger/weather"
	"loamledger/weather/generate"
)

// demonstration returns the scenario of the demo and its prepared weather. A
// real program reads both from files.
func demonstration() (*scenarios.Scenario, *study.Weather) {
	sc, err := yamlfile.Read(strings.NewReader(demo.Scenario), demo.ScenarioFile,
		func(string) (io.ReadCloser, error) { panic("no table is named") })
	if err != nil {
		panic(err)
	}
	rec, err := generate.Demo()
	if err != nil {
		panic(err)
	}
	w, err := study.Prepare(sc, study.Records{Parts: []*weather.Record{rec}})
	if err != nil {
		panic(err)
	}
	return sc, w
}

// A page where the uniformity of one zone changes: the weather is prepared
// once, and every replay reuses the memory of the one before.
func Example_page() {
	sc, w := demonstration()
	yard, err := study.New(sc, w, nil)
	if err != nil {
		panic(err)
	}
	refill := yard.Scenario.StrategyIndex("refill when due")
	var runner replay.Runner
	for _, du := range []float64{0.55, 0.65, 0.75} {
		yard.Job.Zones[0].DULQ = du
		table, err := runner.Run(context.Background(), &yard.Job, nil)
		if err != nil {
			panic(err)
		}
		dry := table.RankYears().Dry
		fmt.Printf("DU %.0f%%: %d stress days in the dry year %d\n", 100*du, table.Year(refill, 0, dry).StressDays, dry)
	}
	// Output:
	// DU 55%: 165 stress days in the dry year 2018
	// DU 65%: 1 stress days in the dry year 2018
	// DU 75%: 0 stress days in the dry year 2018
}

// Many accounts with the weather of one station, which is prepared once.
// Several goroutines may share it, each with its own runner.
func Example_portfolio() {
	sc, w := demonstration()
	var runner replay.Runner
	for account := range 3 {
		site := *sc
		site.Zones = append([]scenarios.Zone(nil), sc.Zones...)
		site.Zones[0].AreaM2 *= float64(1 + account)
		st, err := study.New(&site, w, nil)
		if err != nil {
			panic(err)
		}
		table, err := runner.Run(context.Background(), &st.Job, nil)
		if err != nil {
			panic(err)
		}
		first := table.Compare()[0]
		fmt.Printf("account %d: %.0f m3 a year %s\n", account, first.M3PerYear, first.Strategy)
	}
	// Output:
	// account 0: 1604 m3 a year as found
	// account 1: 2109 m3 a year as found
	// account 2: 2615 m3 a year as found
}
