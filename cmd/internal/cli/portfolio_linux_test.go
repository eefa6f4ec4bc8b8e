package cli

import (
	"bytes"
	"context"
	"encoding/json"
	"fmt"
	"io/fs"
	"math"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	rows "loamledger/sim/portfolio"
	"loamledger/sim/portfolio/portfoliofile"
)

// sampleAccounts and sampleProgram are the shipped example.
const (
	sampleAccounts = "../../../scenarios/examples/portfolio/accounts.csv"
	sampleProgram  = "../../../scenarios/examples/portfolio/program.yaml"
)

// command runs a command and returns what it prints and its exit code.
func command(t testing.TB, args ...string) (out string, code int) {
	t.Helper()
	var b bytes.Buffer
	code = Main(context.Background(), args, Streams{Out: &b, Err: &b})
	return b.String(), code
}

// mustRun runs a command that must succeed.
func mustRun(t testing.TB, args ...string) string {
	t.Helper()
	out, code := command(t, args...)
	if code != 0 {
		t.Fatalf("loamledger %s: exit code %d\n%s", strings.Join(args, " "), code, out)
	}
	return out
}

// folderText returns every file of a folder by name.
func folderText(t testing.TB, dir string) map[string]string {
	t.Helper()
	out := map[string]string{}
	err := fs.WalkDir(os.DirFS(dir), ".", func(name string, e fs.DirEntry, err error) error {
		if err != nil || e.IsDir() {
			return err
		}
		text, err := os.ReadFile(filepath.Join(dir, name))
		out[name] = string(text)
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	return out
}

func sameFolders(t testing.TB, a, b string) {
	t.Helper()
	x, y := folderText(t, a), folderText(t, b)
	if len(x) != len(y) || len(x) == 0 {
		t.Fatalf("%s has %d files, %s has %d", a, len(x), b, len(y))
	}
	for name := range x {
		if x[name] != y[name] {
			t.Errorf("%s differs between %s and %s", name, filepath.Base(a), filepath.Base(b))
		}
	}
}

// resultsOf reads the results of a run.
func resultsOf(t testing.TB, dir string) (list []rows.Result) {
	t.Helper()
	text, err := os.ReadFile(filepath.Join(dir, resultsName))
	if err != nil {
		t.Fatal(err)
	}
	_, err = portfoliofile.ReadResults(bytes.NewReader(text), int64(len(text)), resultsName, func(r *rows.Result) error {
		list = append(list, *r)
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	return list
}

// The same bytes for any number of shards, workers and orders of the table, also if the table is
// run as a whole.
func TestShardsChangeNoByte(t *testing.T) {
	dir := t.TempDir()
	whole := filepath.Join(dir, "whole")
	mustRun(t, "portfolio", sampleAccounts, "--program", sampleProgram, "--out", whole, "--workers", "1")
	if _, err := os.Lstat(whole + ".shards"); err == nil {
		t.Error("the shards of a finished run are left")
	}
	for _, n := range []int{1, 3, 7} {
		shards, joined := filepath.Join(dir, fmt.Sprint("shards", n)), filepath.Join(dir, fmt.Sprint("joined", n))
		for i := range n {
			mustRun(t, "portfolio", sampleAccounts, "--program", sampleProgram, "--out", shards, "--shard", fmt.Sprintf("%d/%d", i, n),
				"--workers", fmt.Sprint(1+i%3))
		}
		mustRun(t, "portfolio", "merge", shards, "--out", joined)
		sameFolders(t, whole, joined)
	}
}

// Sums over accounts are the totals of run.json, accounts reconcile, rows are sorted, and what
// is printed of every account adds up.
func TestSumOfAccountsIsTheTotal(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "out")
	mustRun(t, "portfolio", sampleAccounts, "--program", sampleProgram, "--out", dir)
	text, err := os.ReadFile(filepath.Join(dir, "run.json"))
	if err != nil {
		t.Fatal(err)
	}
	var record portfolioRecord
	if err := json.Unmarshal(text, &record); err != nil {
		t.Fatal(err)
	}
	if c := record.Accounts; c.In != 20 || c.In != c.Done+c.Failed+c.Excluded || c.Failed != 1 || c.Excluded != 1 {
		t.Errorf("accounts %+v", c)
	}
	if f := record.AsFound; f.Bills+f.Drawn+f.Given != record.Accounts.Done {
		t.Errorf("as found %+v of %d", f, record.Accounts.Done)
	}
	list := resultsOf(t, dir)
	if len(list) != record.Accounts.Rows {
		t.Errorf("%d rows, %d in run.json", len(list), record.Accounts.Rows)
	}
	sums := map[string]float64{}
	for i, r := range list {
		if i > 0 && r.Account < list[i-1].Account {
			t.Fatalf("account %s follows %s", r.Account, list[i-1].Account)
		}
		if !r.WholeYear || r.PeakMonthM3 > r.VolumeM3+1e-9 || r.PeakDayM3 > r.PeakMonthM3+1e-9 || r.PeakDayM3*366 < r.VolumeM3-1e-9 {
			t.Errorf("%+v", r)
		}
		sums[r.Measure] += r.VolumeM3 / 10 // ten years
	}
	for _, m := range record.Measures {
		if math.Abs(sums[m.Name]-m.M3) > 1e-9*m.M3 || m.M3 == 0 {
			t.Errorf("%s: %v is the sum, %v the total", m.Name, sums[m.Name], m.M3)
		}
	}
}

// A bill scales the as-found run times: in the years of the bills the replay uses what the meter
// measured. Published sums: 62 and 71 HCF of account 001037 are 376.6 m³ (1 ft³ = 0.0283168 m³).
func TestReplayUsesWhatTheMeterMeasured(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "out")
	mustRun(t, "portfolio", sampleAccounts, "--program", sampleProgram, "--out", dir)
	sum := 0.0
	for _, r := range resultsOf(t, dir) {
		if r.Account == "001037" && r.Reference && (r.Year == 2017 || r.Year == 2018) {
			sum += r.VolumeM3
		}
	}
	if want := 133 * 100 * 0.028316846592; math.Abs(sum-want) > 0.001*want {
		t.Errorf("%v m³, want %v", sum, want)
	}
}

// Some of the accounts alone, in another order, have the same rows.
func TestSomeAccountsAreAsAll(t *testing.T) {
	dir := t.TempDir()
	text, err := os.ReadFile(sampleAccounts)
	if err != nil {
		t.Fatal(err)
	}
	lines := strings.SplitAfter(string(text), "\n")
	some := []string{lines[0]}
	for _, i := range []int{21, 16, 17, 18, 3, 11} {
		some = append(some, lines[i])
	}
	table := filepath.Join(dir, "some.csv")
	if err := os.WriteFile(table, []byte(strings.Join(some, "")), 0o666); err != nil {
		t.Fatal(err)
	}
	all, few := filepath.Join(dir, "all"), filepath.Join(dir, "few")
	mustRun(t, "portfolio", sampleAccounts, "--program", sampleProgram, "--out", all)
	mustRun(t, "portfolio", table, "--program", sampleProgram, "--out", few)
	want := resultsOf(t, all)
	got := resultsOf(t, few)
	want = slices.DeleteFunc(want, func(r rows.Result) bool {
		return !slices.ContainsFunc(got, func(o rows.Result) bool { return o.Account == r.Account })
	})
	if len(got) == 0 || len(got) != len(want) {
		t.Fatalf("%d rows, want %d", len(got), len(want))
	}
	for i := range got {
		a, b := got[i], want[i]
		ratio := func(r *rows.Result) float64 {
			if r.ApplicationRatio == nil {
				return -1
			}
			return *r.ApplicationRatio
		}
		if ratio(&a) != ratio(&b) {
			t.Errorf("ratios %v and %v", ratio(&a), ratio(&b))
		}
		if *a.Money != *b.Money || *a.MoneySaving != *b.MoneySaving || a.Reference && *a.MoneySaving != 0 {
			t.Errorf("bills of %v and %v, savings of %v and %v", *a.Money, *b.Money, *a.MoneySaving, *b.MoneySaving)
		}
		a.ApplicationRatio, b.ApplicationRatio = nil, nil
		a.Money, b.Money, a.MoneySaving, b.MoneySaving = nil, nil, nil, nil
		if a != b {
			t.Fatalf("row %d\n got %+v\nwant %+v", i, a, b)
		}
	}
}

// Merge refuses what does not belong together, and says why.
func TestMergeChecksManifests(t *testing.T) {
	dir := t.TempDir()
	shards := filepath.Join(dir, "shards")
	run := func(folder, program, shard string) {
		t.Helper()
		mustRun(t, "portfolio", sampleAccounts, "--program", program, "--out", folder, "--shard", shard, "--allow-outside")
	}
	run(shards, sampleProgram, "0/2")
	refused := func(why, want string) {
		t.Helper()
		out, code := command(t, "portfolio", "merge", shards, "--out", filepath.Join(dir, "out"))
		if code == 0 || !strings.Contains(out, want) {
			t.Errorf("%s: exit code %d, printed\n%s", why, code, out)
		}
		if _, err := os.Lstat(filepath.Join(dir, "out")); err == nil {
			t.Errorf("%s: there is output", why)
		}
	}
	refused("one is missing", "1 of 2 shards are missing: 1")
	text, err := os.ReadFile(sampleProgram)
	if err != nil {
		t.Fatal(err)
	}
	other := filepath.Join(dir, "program.yaml")
	changed := strings.NewReplacer("seed: 1", "seed: 2", "file: ", "file: "+filepath.Dir(absolute(t, sampleProgram))+"/",
		"rates: ", "rates: "+filepath.Dir(absolute(t, sampleProgram))+"/").Replace(string(text))
	if err := os.WriteFile(other, []byte(changed), 0o666); err != nil {
		t.Fatal(err)
	}
	run(shards, other, "1/2")
	refused("another program", "program.yaml differs from that of the other shards")
	out, code := command(t, "portfolio", sampleAccounts, "--program", sampleProgram, "--out", shards, "--shard", "1/2")
	if code != 2 || !strings.Contains(out, "has other inputs") {
		t.Errorf("a shard of other inputs is replaced without --force: %d\n%s", code, out)
	}
	mustRun(t, "portfolio", sampleAccounts, "--program", sampleProgram, "--out", shards, "--shard", "1/2", "--force")
	if out := mustRun(t, "portfolio", sampleAccounts, "--program", sampleProgram, "--out", shards, "--shard", "1/2"); !strings.Contains(out,
		"left alone") {
		t.Errorf("a finished shard is run again:\n%s", out)
	}
	copied := filepath.Join(shards, "copy")
	if err := os.CopyFS(copied, os.DirFS(filepath.Join(shards, "shard-00001-of-00002"))); err != nil {
		t.Fatal(err)
	}
	refused("one is there twice", "shard 1 is also in")
	if err := os.RemoveAll(copied); err != nil {
		t.Fatal(err)
	}
	damaged := filepath.Join(shards, "shard-00000-of-00002", failedName)
	if err := os.WriteFile(damaged, []byte("account\n"), 0o666); err != nil {
		t.Fatal(err)
	}
	refused("a file was changed", "the file is not as it was written")
	run(shards, sampleProgram, "2/3")
	refused("another number", "this is one of 3 shards, another is one of 2")
}

func absolute(t testing.TB, name string) string {
	t.Helper()
	full, err := filepath.Abs(name)
	if err != nil {
		t.Fatal(err)
	}
	return full
}

// The number of a shard comes from a scheduler's variable, and only the number.
func TestSchedulersNumberShards(t *testing.T) {
	for _, sch := range schedulers() {
		t.Run(sch.name, func(t *testing.T) {
			t.Setenv(sch.variable, "2")
			o := portfolioOptions{Shards: 4}
			if s, err := o.shard(); err != nil || *s != (shardOf{2, 4}) {
				t.Errorf("%+v, %v", s, err)
			}
			for _, bad := range []string{"4", "-1", "x", ""} {
				t.Setenv(sch.variable, bad)
				if s, err := o.shard(); err == nil {
					t.Errorf("%q is shard %+v", bad, s)
				}
			}
		})
	}
	for _, bad := range []string{"4/4", "0/0", "1", "a/b", "-1/2", "0/200000"} {
		if s, err := (&portfolioOptions{Shard: bad}).shard(); err == nil {
			t.Errorf("%q is shard %+v", bad, s)
		}
	}
	if _, err := (&portfolioOptions{Shards: 4}).shard(); err == nil {
		t.Error("no scheduler, and there is a shard")
	}
}

// Missing values come from donors of the class, whole zones at a time, and are flagged; choices
// have about the stated shares.
func TestDonorsAndChoices(t *testing.T) {
	dir := t.TempDir()
	var table strings.Builder
	table.WriteString("account,class,area (m2),uniformity (%)\n")
	const n = 400
	for i := range n {
		fmt.Fprintf(&table, "%04d,%s,,\n", i, []string{"home", "park"}[i%2])
	}
	program := `portfolio: 1
name: donors
stations: [{name: dry, file: weather.csv, latitude: 38.9, longitude: -120, elevation: 490 m}]
as_found: {scale: 100%}
donors: donors.csv
choices: {soil: {loam: 75%, clay loam: 25%}}
zones: [{name: lawn, area: 60 to 180 m2, plant: tall fescue, soil: sand, sprinkler: {kind: spray, uniformity: 40% to 70%}}]
programs: [{name: p, days: [mon, thu], minutes: {lawn: 20}}]
strategies: [{name: as found, programs: p}]
`
	files := map[string]string{"program.yaml": program, "accounts.csv": table.String(), "weather.csv": string(longWeather(2)),
		"donors.csv": "account,class,zone,area (m2),uniformity (%)\nd1,home,lawn,100,50\nd2,home,lawn,200,60\nd3,park,lawn,900,70\n"}
	for name, text := range files {
		if err := os.WriteFile(filepath.Join(dir, name), []byte(text), 0o666); err != nil {
			t.Fatal(err)
		}
	}
	out := filepath.Join(dir, "out")
	mustRun(t, "portfolio", filepath.Join(dir, "accounts.csv"), "--program", filepath.Join(dir, "program.yaml"), "--out", out)
	text, err := os.ReadFile(filepath.Join(out, accountsName))
	if err != nil {
		t.Fatal(err)
	}
	areas := map[string]int{}
	_, err = portfoliofile.ReadAccounts(bytes.NewReader(text), int64(len(text)), accountsName, func(a *rows.Account) error {
		areas[fmt.Sprint(a.Class, a.AreaM2)]++
		// Of six key values and the as-found run times, none is given.
		if a.ImputedShare != 1 || a.AsFound != rows.Drawn || !strings.Contains(";"+a.Drawn+";", ";area;") || !strings.Contains(a.Drawn, "soil") {
			t.Errorf("%+v", a)
		}
		return nil
	})
	// Binomial: 100 ± 5·sqrt(200/4) = 100 ± 35.
	if err != nil || len(areas) != 3 || areas["park900"] != n/2 || areas["home100"] < 65 || areas["home100"] > 135 {
		t.Errorf("%v, %v", areas, err)
	}
}
