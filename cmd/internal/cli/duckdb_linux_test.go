package cli

import (
	"encoding/json"
	"math"
	"os/exec"
	"path/filepath"
	"testing"
)

// duckDB reads the files of a portfolio and prints the counts and sums below. It is run by node
// with the module @duckdb/node-api.
const duckDB = `
const { DuckDBInstance } = require('@duckdb/node-api');
(async () => {
  const db = await (await DuckDBInstance.create()).connect();
  const dir = process.argv[1];
  const rows = async (sql) => (await db.runAndReadAll(sql)).getRowsJson();
  const out = {};
  for (const t of ['results', 'months', 'accounts', 'bills'])
    out[t] = Number((await rows("select count(*) from '" + dir + "/" + t + ".parquet'"))[0][0]);
  out.sums = (await rows("select measure, sum(volume_m3), sum(requirement_m3), sum(stress_zone_days), max(peak_day_m3), sum(money)," +
    " sum(money_saving) from '" + dir +
    "/results.parquet' where whole_year group by measure order by measure")).map(r => [r[0], ...r.slice(1).map(Number)]);
  out.joined = Number((await rows("select count(*) from '" + dir + "/results.parquet' r join '" + dir +
    "/accounts.parquet' a using (account) where reference"))[0][0]);
  out.zeros = (await rows("select min(account) from '" + dir + "/accounts.parquet'"))[0][0];
  out.types = (await rows("select column_name, column_type from (describe select * from '" + dir + "/results.parquet')"))
    .filter(r => ['account', 'reference', 'year', 'volume_m3'].includes(r[0])).map(r => r[1]);
  out.units = Number((await rows("select count(*) from parquet_kv_metadata('" + dir + "/results.parquet') where" +
    " decode(key) like 'column.%_m3' and decode(value) like '%[m3]'"))[0][0]);
  out.dates = (await rows("select column_type from (describe select * from '" + dir + "/bills.parquet')" +
    " where column_name in ('from', 'to')"))
    .map(r => r[0]);
  out.failed = Number((await rows("select count(*) from read_csv('" + dir + "/failed.csv', header = true)"))[0][0]);
  console.log(JSON.stringify(out));
})().catch(e => { console.error(e); process.exit(1); });
`

// Another program reads all files, with the types, units and sums that this one has. NODE_PATH names the
// folder of the module.
func TestDuckDBReadsAPortfolio(t *testing.T) {
	node, err := exec.LookPath("node")
	if err != nil {
		t.Skip("node is not installed")
	}
	if out, err := exec.Command(node, "-e", "require.resolve('@duckdb/node-api')").CombinedOutput(); err != nil {
		t.Skipf("node does not find the module @duckdb/node-api: npm install it, and name its folder node_modules in NODE_PATH\n%.80s", out)
	}
	dir := filepath.Join(t.TempDir(), "out")
	mustRun(t, "portfolio", sampleAccounts, "--program", sampleProgram, "--out", dir)
	text, err := exec.Command(node, "-e", duckDB, dir).CombinedOutput()
	if err != nil {
		t.Fatalf("%v\n%s", err, text)
	}
	var got struct {
		Results, Months, Accounts, Bills, Joined, Units, Failed int
		Zeros                                                   string
		Types, Dates                                            []string
		Sums                                                    [][]any
	}
	if err := json.Unmarshal(text, &got); err != nil {
		t.Fatalf("%v\n%s", err, text)
	}
	list := resultsOf(t, dir)
	type sums struct{ volume, need, stress, peak, money, saving float64 }
	want := map[string]sums{}
	references := 0
	for _, r := range list {
		s := want[r.Measure]
		want[r.Measure] = sums{s.volume + r.VolumeM3, s.need + r.RequirementM3, s.stress + r.StressZoneDays, max(s.peak, r.PeakDayM3),
			s.money + *r.Money, s.saving + *r.MoneySaving}
		if r.Reference {
			references++
		}
	}
	// 18 accounts, 6 measures, 10 years; 12 months of the median and the dry year; 11 accounts with
	// two bills and one with one.
	if got.Results != 18*6*10 || got.Results != len(list) || got.Months != 18*6*24 || got.Accounts != 18 || got.Bills != 23 ||
		got.Joined != references || got.Failed != 1 || got.Zeros != "001037" || got.Units != 6 {
		t.Errorf("%s", text)
	}
	if len(got.Types) != 4 || got.Types[0] != "VARCHAR" || got.Types[1] != "BOOLEAN" || got.Types[2] != "INTEGER" || got.Types[3] != "DOUBLE" {
		t.Errorf("types %q", got.Types)
	}
	if len(got.Dates) != 2 || got.Dates[0] != "DATE" || got.Dates[1] != "DATE" {
		t.Errorf("days of bills are of types %q", got.Dates)
	}
	if len(got.Sums) != len(want) {
		t.Fatalf("%d measures, want %d", len(got.Sums), len(want))
	}
	for _, row := range got.Sums {
		name, _ := row[0].(string)
		w := want[name]
		for i, x := range []float64{w.volume, w.need, w.stress, w.peak, w.money, w.saving} {
			if v, ok := row[i+1].(float64); !ok || math.Abs(v-x) > 1e-9*max(math.Abs(x), 1) {
				t.Errorf("%s: column %d is %v, want %v", name, i, row[i+1], x)
			}
		}
	}
}
