package evaluate

import (
	"errors"
	"fmt"
	"math"
	"strings"
	"testing"

	"loamledger/sim/portfolio"
	"loamledger/sim/program"
	"loamledger/weather/cal"
	"loamledger/weather/diag"
)

// billed gives an input metered bills of 2001 to 2003 that put the first tenth of the accounts first; their run times are scaled to
// use of the given year, 0 for one that is not stated.
func billed(in *Input, useYear int) *Input {
	in.Bills, in.BillsName = portfolio.NewMetered(portfolio.Years{From: 2001, To: 2003}, 2027), "bills.csv"
	in.Uses = &Uses{Days: map[string][]Days{}, Unknown: map[string]bool{}}
	for a, id := range in.Table.Accounts {
		m3 := 300.0
		if a < len(in.Table.Accounts)/10 {
			m3 = 1500
		}
		in.Bills.Add(portfolio.MeteredRead{Account: id, From: cal.Of(2001, 1, 1), To: cal.Of(2004, 1, 1), M3: m3})
		about := in.About[id]
		about.AsFound = portfolio.FromBills
		in.About[id] = about
		if useYear == 0 {
			in.Uses.Unknown[id] = true
		} else {
			in.Uses.Days[id] = []Days{{cal.Of(useYear, 1, 1), cal.Of(useYear, 12, 31)}}
		}
	}
	return in
}

// Bills in gallons under a heading of HCF, and bills of 0, are refused.
func TestBillsInAnotherUnitAreRefused(t *testing.T) {
	for what, m3 := range map[string]float64{"748 times too much": 300 * 748, "748 times too little": 300.0 / 748, "nothing": 0} {
		p := plan(10)
		in := town(t, p, 200, 0)
		in.Bills, in.BillsName = portfolio.NewMetered(portfolio.Years{From: 2001, To: 2003}, 2027), "bills.csv"
		for _, id := range in.Table.Accounts {
			in.Bills.Add(portfolio.MeteredRead{Account: id, From: cal.Of(2001, 1, 1), To: cal.Of(2004, 1, 1), M3: 3 * m3})
		}
		_, err := Evaluate(p, in)
		if one := firstError(err); one == nil || one.Code != diag.WrongUnits {
			t.Errorf("%s: %v", what, err)
		}
	}
}

// Metered bills rank accounts if the replay was scaled to use of other days, and every output says so.
func TestMeteredBillsRank(t *testing.T) {
	p := plan(10)
	p.Bills.Error = 0 // of simulated bills
	e, err := Evaluate(p, billed(town(t, p, 200, 0), 2005))
	if err != nil {
		t.Fatal(err)
	}
	const on = "ranked on metered bills of 2001-01-01 to 2003-12-31"
	j := &e.Measures[0]
	if j.decision.Verdict != program.Retarget || j.decision.Smallest.Share != 0.1 || !strings.Contains(e.headline(j), on) {
		t.Errorf("%+v: %s", j.decision, e.headline(j))
	}
	page := e.Brief(&Facts{Version: "test"})
	for what, text := range map[string]string{"bills": e.BillWords(), "answer": page.Answer, "lead": strings.Join(page.Lead, " "),
		"steps": strings.Join(page.Steps, " "), "offers": e.offerTable(j).Caption, "verdict": e.VerdictWords(j)} {
		if !strings.Contains(text, on) || strings.Contains(text, "simulated") {
			t.Errorf("%s: %s", what, text)
		}
	}
	for _, c := range e.Charts() {
		if text := strings.Join(c.Notes, " "); !strings.Contains(text, on) || strings.Contains(text, "simulated") {
			t.Errorf("%s: %s", c.Name, text)
		}
	}
	if r := e.Record().Targets; r.Simulated || r.Metered == nil || r.Metered.Ranked != 200 || r.Metered.From != "2001-01-01" {
		t.Errorf("%+v", r)
	}
	for _, s := range e.Sheets() {
		for _, row := range s.Rows[1:] {
			if s.Name == "targets" && (row[len(row)-1] != on || row[4] == "" && row[3] == "no" || row[5] != "") {
				t.Errorf("%v", row)
			}
		}
	}
	// On simulated bills the same places say that.
	p = plan(10)
	e, err = Evaluate(p, town(t, p, 200, 0))
	if err != nil || !strings.Contains(e.headline(&e.Measures[0]), "ranked on simulated bills") {
		t.Errorf("%v: %s", err, e.headline(&e.Measures[0]))
	}
}

// Bills to which the replay was scaled are refused, and so are those of which that is not known; the message has the reason and the fix.
func TestCircularBillsAreRefused(t *testing.T) {
	for _, tt := range []struct {
		name       string
		change     func(in *Input)
		year       int
		want, then string
	}{
		{"the same days", func(*Input) {}, 2002, "scaled to use of the same days as these bills", "rank on other years"},
		{"days not stated", func(*Input) {}, 0, "it is not stated when the outdoor use was metered", "use_from and use_to"},
		{"no bills.parquet", func(in *Input) { in.Uses = nil }, 2005, "it is not stated when", "use_from"},
		{"no accounts.parquet", func(in *Input) { in.About = nil }, 2005, "do not say what the run times", "keep accounts.parquet"},
	} {
		p := plan(10)
		in := billed(town(t, p, 50, 0), tt.year)
		tt.change(in)
		_, err := Evaluate(p, in)
		one := firstError(err)
		if one == nil || one.Code != diag.Circular || !strings.Contains(one.Msg, tt.want) || !strings.Contains(one.Fix, tt.then) {
			t.Errorf("%s: %v", tt.name, err)
		}
	}
	// Accounts whose run times are drawn have nothing to be circular with.
	p := plan(10)
	in := billed(town(t, p, 50, 0), 2002)
	for id, about := range in.About {
		about.AsFound = portfolio.Drawn
		in.About[id] = about
	}
	if _, err := Evaluate(p, in); err != nil {
		t.Error(err)
	}
}

// firstError returns the first of the input errors in err; nil for none.
func firstError(err error) *diag.Error {
	leaves, _ := diag.Leaves(err)
	for _, leaf := range leaves {
		var one *diag.Error
		if errors.As(leaf, &one) {
			return one
		}
	}
	return nil
}

// Bills of years after the start of the program are not used, and the command that compares before and after is named. Simulated bills
// need an error; metered ones need days in rank_years.
func TestBillsOutsideTheYears(t *testing.T) {
	p := plan(10)
	in := billed(town(t, p, 50, 0), 2005)
	in.Bills.Add(portfolio.MeteredRead{Account: "0001", From: cal.Of(2027, 3, 1), To: cal.Of(2027, 4, 1), M3: 1})
	in.Bills.Add(portfolio.MeteredRead{Account: "0002", From: cal.Of(2010, 3, 1), To: cal.Of(2010, 4, 1), M3: 1})
	e, err := Evaluate(p, in)
	if err != nil {
		t.Fatal(err)
	}
	for _, want := range []string{"Not used: 1 bill of other days.", "Not used: 1 bill since 2027, when the measures begin; loamledger " +
		"meter"} {
		if !strings.Contains(e.BillWords(), want) {
			t.Errorf("%q is not in %s", want, e.BillWords())
		}
	}
	p = plan(10)
	p.Bills.Error = 0
	if _, err := Evaluate(p, town(t, p, 50, 0)); firstError(err) == nil || firstError(err).Code != diag.MissingKey {
		t.Error(err)
	}
	p = plan(10)
	in = billed(town(t, p, 50, 0), 2005)
	in.Bills = portfolio.NewMetered(p.Bills.Early, 2027)
	in.Bills.Add(portfolio.MeteredRead{Account: "0001", From: cal.Of(2010, 3, 1), To: cal.Of(2010, 4, 1), M3: 1})
	if _, err := Evaluate(p, in); firstError(err) == nil || firstError(err).Code != diag.NoWholeYear {
		t.Error(err)
	}
	p = plan(10)
	p.Bills = portfolio.Bills{}
	if _, err := Evaluate(p, billed(town(t, p, 50, 0), 2005)); firstError(err) == nil || firstError(err).Code != diag.NoEffect {
		t.Error(err)
	}
}

// What the participant pays has one source, which the page, the table and the JSON name; bills in another currency are refused.
func TestPricesOfWaterAreNamed(t *testing.T) {
	p := plan(10)
	e, err := Evaluate(p, town(t, p, 50, 0))
	if err != nil || e.prices() != noPrice || !strings.Contains(e.testTable().Caption, "are not known") {
		t.Errorf("%v: %s", err, e.testTable().Caption)
	}
	p.HasRetail = true
	if text := e.testTable().Caption; e.prices() != onePrice || !strings.Contains(text, "one price of water for all accounts") {
		t.Error(text)
	}
	in := town(t, p, 50, 0)
	in.Table.HasMoney = true
	in.Meta = map[string]string{portfolio.MetaCurrency: "USD", portfolio.MetaRates: "Town rates", portfolio.MetaPrices: "2024-01-01"}
	if e, err = Evaluate(p, in); err != nil {
		t.Fatal(err)
	}
	const want = "what each account’s bill changes by, by the rates “Town rates” with the prices of 2024-01-01; retail of the costs " +
		"file is not used"
	if e.prices() != pricesOfBills || !strings.Contains(e.testTable().Caption, want) ||
		!strings.Contains(fmt.Sprint(e.facts(&e.Measures[0])), want) ||
		e.Record().Prices != pricesOfBills {
		t.Error(e.testTable().Caption)
	}
	in.Meta[portfolio.MetaCurrency] = "EUR"
	if _, err := Evaluate(p, in); firstError(err) == nil || firstError(err).Code != diag.Conflict {
		t.Error(err)
	}
}

// The verdict by either bound is said once, whether they agree or not, and so is whom the high bound protects.
func TestBothBoundsAreSaid(t *testing.T) {
	p := plan(10)
	e, err := Evaluate(p, town(t, p, 200, 0))
	if err != nil {
		t.Fatal(err)
	}
	const differ = "with the high bound of the cost the rule says retarget, with the low bound it would say renew. The high bound " +
		"decides, because it protects those who pay the rates."
	if text := e.VerdictWords(&e.Measures[0]); strings.Count(text, differ) != 1 {
		t.Error(text)
	}
	p = plan(10)
	p.Measures[0].Values[program.Admin] = program.Sure(1)
	if e, err = Evaluate(p, town(t, p, 200, 0)); err != nil {
		t.Fatal(err)
	}
	const agree = "The rule says renew, whether it takes the high bound of the cost, which protects those who pay the rates, or the low one."
	if text := e.VerdictWords(&e.Measures[0]); strings.Count(text, agree) != 1 {
		t.Error(text)
	}
	if lead := strings.Join(e.Brief(&Facts{}).Lead, " "); strings.Count(lead, agree) != 1 {
		t.Error(lead)
	}
}

// By hand: 200 accounts, of which 20 have 500 m³ and 180 have 100, use 28,000 m³; with one of 5,000 it has 5,000 of 32,500, 15%.
func TestOneAccountDominates(t *testing.T) {
	p := plan(10)
	in := town(t, p, 200, 0)
	e, err := Evaluate(p, in)
	if err != nil || e.DominanceWords() != "" {
		t.Errorf("%v: %s", err, e.DominanceWords())
	}
	c := portfolio.NewCollector(p.Bills)
	for a := range 200 {
		v := 100.0
		if a < 20 {
			v = 500
		}
		if a == 0 {
			v = 5000
		}
		for y := int32(2001); y <= 2006; y++ {
			r := portfolio.Result{Account: fmt.Sprintf("%04d", a), Measure: "as found", Reference: true, Year: y, WholeYear: true, AreaM2: 100,
				VolumeM3:      v,
				RequirementM3: 100}
			c.Add(&r)
			r.Measure, r.Reference, r.VolumeM3 = "months", false, 90
			c.Add(&r)
		}
	}
	if in.Table, err = c.Table(); err != nil {
		t.Fatal(err)
	}
	if e, err = Evaluate(p, in); err != nil || math.Abs(in.Table.Largest(0)-5000.0/32500) > 1e-12 {
		t.Errorf("%v, %g", err, in.Table.Largest(0))
	}
	const want = "One account has over 10% of the water of all accounts under “as found”: check its area"
	if text := e.DominanceWords(); !strings.Contains(text, want) || !strings.HasPrefix(e.Brief(&Facts{}).Answer, want) ||
		e.Record().Dominance != text {
		t.Error(text)
	}
}

// Climates are a group beside station and size, from the driest, and the caption has the source.
func TestClimatesAreAGroup(t *testing.T) {
	p := plan(10)
	in := town(t, p, 60, 0)
	eto, dry, wet := 1000.0, 300.0, 800.0
	for a, id := range in.Table.Accounts {
		about := in.About[id]
		about.EToMM, about.RainMM = &eto, &dry
		if a%3 == 0 {
			about.RainMM = &wet
		}
		in.About[id] = about
	}
	e, err := Evaluate(p, in)
	if err != nil {
		t.Fatal(err)
	}
	table := e.groupTable(&e.Measures[0])
	var names []string
	for _, row := range table.Rows {
		if strings.HasPrefix(row.Name, "climate") {
			names = append(names, row.Name+" "+row.Cells[0])
		}
	}
	if got := strings.Join(names, "; "); got != "climate: semi-arid, rain 20% to 50% of ETo 40; climate: humid, rain over 65% of ETo 20" {
		t.Error(got)
	}
	if !strings.Contains(table.Caption, "UNEP 1992 and 1997") || !strings.Contains(table.Caption, "Thornthwaite") {
		t.Error(table.Caption)
	}
	if !strings.HasPrefix(e.climates(), "semi-arid, humid. Classes of rain divided by reference ET") {
		t.Error(e.climates())
	}
}
