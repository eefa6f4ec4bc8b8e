package cli

import (
	"context"
	"fmt"
	"runtime"

	"github.com/spf13/cobra"

	"loamledger/scenarios/accounts"
	"loamledger/scenarios/study"
	"loamledger/weather/diag"
)

// portfolioOptions holds the flags of the portfolio command.
type portfolioOptions struct {
	scenarioFlags
	Program   string
	Out       string
	Shard     string
	Shards    int
	Workers   int
	AllMonths bool
	Force     bool
	Columns   bool
	JSON      bool
}

func newPortfolio(s Streams) *cobra.Command {
	var o portfolioOptions
	cmd := &cobra.Command{
		Use:   "portfolio ACCOUNTS --program FILE --out DIR",
		Short: "Replay the measures of a program over many accounts",
		Long: `Replays the strategies of a program, its measures, for each account of a table,
on the weather of the nearest station. ACCOUNTS is CSV or Parquet, by the end of
its name; --columns lists its columns. What an account does not state is drawn
from the ranges of the program or the catalog: the same for all measures, and
flagged. An account's outdoor use scales its as-found run times; without it they
are drawn from a distribution that is assumed, and every output says so.
With "money: {rates: rates.yaml, indoor_use: 100 to 280 gal}" in the program,
results have what irrigation adds to the bill, and the saving on the bill.

DIR gets results.parquet (account, measure, year), months.parquet,
accounts.parquet (what was understood), bills.parquet (metered use), failed.csv
and excluded.csv (account, place, reason, fix) and run.json. One bad account
stops no other.

The work is done in shards, in DIR.shards until all are done: after a stop, run
the same command again, and it goes on. To spread them over machines, give each
a number, as in --shard 3/64 (from 0), or --shards 64 under a scheduler that
sets one of these variables:
` + schedulerList() + `
Then all write to one DIR, and "loamledger portfolio merge" joins the shards.
Results do not depend on shards, workers or machines.`,
		Example: `  loamledger portfolio accounts.csv --program program.yaml --out results
  loamledger portfolio accounts.csv --program program.yaml --out shards --shard 0/4
  loamledger portfolio merge shards --out results`,
		Args: func(cmd *cobra.Command, args []string) error {
			if o.Columns {
				return exactly(0, "no file with --columns")(cmd, args)
			}
			return exactly(1, "one table of accounts")(cmd, args)
		},
		RunE: func(cmd *cobra.Command, args []string) error {
			if o.Columns {
				return printAccountColumns(s, o.JSON)
			}
			if err := o.check(); err != nil {
				return err
			}
			return runPortfolio(cmd.Context(), s, args[0], &o)
		},
	}
	f := cmd.Flags()
	o.scenarioFlags.addFlags(f)
	f.StringVar(&o.Program, "program", "", "YAML `FILE` of the program: stations, zones, strategies; required")
	f.StringVarP(&o.Out, "out", "o", "", "folder `DIR` to write; required")
	f.StringVar(&o.Shard, "shard", "", "run shard `I/N` alone, I from 0, as a folder in DIR")
	f.IntVar(&o.Shards, "shards", 0, "number `N` of shards; the number of this one is a variable of the scheduler")
	f.Lookup("shards").DefValue = "0"
	f.IntVar(&o.Workers, "workers", 0, "accounts to replay at a `NUMBER` of times at once\n(default the number of processors)")
	f.Lookup("workers").DefValue = "0"
	f.BoolVar(&o.AllMonths, "all-months", false, "months of every year in months.parquet, in addition to the\nmedian and the dry year")
	f.BoolVar(&o.Force, "force", false, "replace the output of an earlier run")
	f.BoolVar(&o.Columns, "columns", false, "list the columns of a table of accounts and exit")
	f.BoolVar(&o.JSON, "json", false, "print the summary as JSON")
	cmd.AddCommand(newPortfolioMerge(s), newEvaluate(s))
	return cmd
}

// check rejects bad flags before any work is done.
func (o *portfolioOptions) check() error {
	switch {
	case o.Program == "":
		return &usageError{diag.MissingFlag, "--program is missing", "add --program FILE, the YAML file of the program"}
	case o.Out == "":
		return &usageError{diag.MissingFlag, "--out is missing", "add --out DIR, the folder to write"}
	case o.Shard != "" && o.Shards != 0:
		return &usageError{diag.FlagConflict, "--shard and --shards are both given", "give --shard I/N, or --shards N under a scheduler"}
	case o.Shards < 0 || o.Shards > mostShards:
		return &usageError{diag.BadFlag, fmt.Sprintf("--shards %d is not valid", o.Shards),
			fmt.Sprintf("write a number from 1 to %d", mostShards)}
	case o.Workers < 0 || o.Workers > 1024:
		return &usageError{diag.BadFlag, fmt.Sprintf("--workers %d is not valid", o.Workers), "write a number from 1 to 1024"}
	}
	if o.Workers == 0 {
		o.Workers = runtime.GOMAXPROCS(0)
	}
	return knownCodes(o.Accept)
}

// runPortfolio runs one shard, or all of them and joins them.
func runPortfolio(ctx context.Context, s Streams, table string, o *portfolioOptions) error {
	shard, err := o.shard()
	if err != nil {
		return err
	}
	p, err := loadPortfolio(table, o)
	if err != nil {
		return err
	}
	if shard != nil {
		return p.one(ctx, s, *shard)
	}
	return p.all(ctx, s)
}

// printAccountColumns lists the columns of a table of accounts.
func printAccountColumns(s Streams, asJSON bool) error {
	type column struct {
		Column string `json:"column"`
		Of     string `json:"of"`
		Unit   string `json:"unit,omitempty"`
		About  string `json:"about"`
	}
	var list []column
	for _, c := range accounts.Columns() {
		of := "zone"
		if c.Account {
			of = "account"
		}
		list = append(list, column{c.Key, of, c.Unit, c.About})
	}
	type alarm struct {
		Code  accounts.AlarmCode `json:"code"`
		About string             `json:"about"`
	}
	var alarms []alarm
	for _, a := range accounts.AlarmCodes() {
		alarms = append(alarms, alarm{a.Code, a.Doc})
	}
	if asJSON {
		return printJSON(s.Out, struct {
			Version string   `json:"version"`
			Columns []column `json:"columns"`
			Alarms  []alarm  `json:"alarms"`
		}{accounts.Version, list, alarms})
	}
	grid := study.Grid{Head: []string{"column", "of", "what", "written as"}}
	for _, c := range list {
		grid.Rows = append(grid.Rows, []string{c.Column, c.Of, c.About, c.Unit})
	}
	fmt.Fprintf(s.Out, "Columns of a table of accounts, version %s. One row for each zone, or one for all zones of an account; its\n"+
		"rows are together. A number has its unit in the heading, as in \"area (ft2)\", or behind it. A range, as in\n"+
		"45%% to 65%%, is drawn from.\n\n", accounts.Version)
	printGrid(s.Out, &grid)
	fmt.Fprintf(s.Out, "\nAlarms of accounts, in the results beside the codes of warnings and of implausible values:\n\n")
	grid = study.Grid{Head: []string{"code", "what"}}
	for _, a := range alarms {
		grid.Rows = append(grid.Rows, []string{string(a.Code), a.About})
	}
	printGrid(s.Out, &grid)
	return nil
}
