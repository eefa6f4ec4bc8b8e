package costsfile

import (
	"math"
	"strings"
	"testing"

	"loamledger/plots"
	"loamledger/scenarios/evaluate"
	"loamledger/sim/portfolio"
	"loamledger/sim/program"
	"loamledger/weather/diag"
)

func read(t *testing.T, text string) (*evaluate.Plan, error) {
	t.Helper()
	return Read(strings.NewReader(text), "costs.yaml")
}

// The template states every key, so nothing is assumed. By hand: 1100 an acre-foot are 1100 ÷
// 1233.48183754752 = 0.891784 a m³; 4.60 per HCF are 4.60 ÷ 2.8316846592 = 1.624475.
func TestTemplate(t *testing.T) {
	p, err := read(t, Template)
	if err != nil {
		t.Fatal(err)
	}
	if len(p.Defaults) != 0 || p.Currency != "USD" || p.FirstYear != 2027 || p.Units != plots.US || len(p.Measures) != 3 {
		t.Errorf("%+v", p)
	}
	if math.Abs(p.Avoided[0].Price-0.891784) > 1e-6 || len(p.Avoided) != 3 || p.Growth != 0.01 {
		t.Errorf("avoided cost %+v", p.Avoided)
	}
	m := p.Measures[1]
	for k, want := range map[program.Knob]program.Value{
		program.Discount: {Low: 0.02, Mid: 0.03, High: 0.05}, program.Life: {Low: 7, Mid: 10, High: 12}, program.Losses: program.Sure(0.08),
		program.Equipment: {Low: 180, Mid: 240, High: 320}, program.NetToGross: {Low: 0.4, Mid: 0.7, High: 1.1},
	} {
		if m.Values[k] != want {
			t.Errorf("%s is %v, want %v", program.KnobNames()[k], m.Values[k], want)
		}
	}
	if math.Abs(m.Values[program.Retail].Mid-1.624475) > 1e-6 || !p.HasRetail || !p.HasExternality {
		t.Errorf("retail %v", m.Values[program.Retail])
	}
	if b := p.Bills; b.By != portfolio.ByExcess || b.Early != (portfolio.Years{From: 2001, To: 2005}) || b.Late.To != 2012 ||
		b.Error != 0.15 ||
		b.AreaError != 0.1 {
		t.Errorf("%+v", b)
	}
	if p.Measures[0].Values[program.Life].Low != 8 || len(p.Measures[2].Combines) != 2 || len(m.Uptake) != 4 {
		t.Errorf("%+v", p.Measures)
	}
}

// least is the shortest costs file: what it leaves out has a default, which is listed.
const least = `version: 1
currency: EUR
first_year: 2027
discount: 3%
losses: 0%
fixed_cost: 0
avoided_cost: {per: m3, years: {2027: 0.9}, growth: 0%}
measures:
  - {measure: months, equipment: 0, upkeep: 0, admin: 20, rebate: 0}
`

func TestDefaultsAreListed(t *testing.T) {
	p, err := read(t, least)
	if err != nil {
		t.Fatal(err)
	}
	var keys []string
	for _, d := range p.Defaults {
		keys = append(keys, d.Key)
		if d.Source == "" || d.Value == "" {
			t.Errorf("%+v", d)
		}
	}
	if got, want := strings.Join(keys, " "), "units threshold smallest_cell seed saving net_to_gross decay life avoided_cost"; got != want {
		t.Errorf("defaults %s, want %s", got, want)
	}
	if v := p.Measures[0].Values; v[program.NetToGross] != (program.Value{Low: 0.4, Mid: 0.7, High: 1.1}) || v[program.Life].Mid != 10 {
		t.Errorf("%v", v)
	}
}

// Each fault has its place, its code and a fix, and all are reported at once.
func TestFaults(t *testing.T) {
	tests := []struct {
		name, old, now, want string
		code                 diag.Code
	}{
		{"unknown key", "losses: 0%", "loses: 0%", "costs.yaml:5:1: unknown key", diag.UnknownKey},
		{"version", "version: 1", "version: 2", "costs.yaml:1:10: version", diag.OtherVersion},
		{"currency", "EUR", "euro", "costs.yaml:2:11: currency", diag.UnknownUnit},
		{"share without its sign", "discount: 3%", "discount: 3", "costs.yaml:4:11: discount", diag.BadQuantity},
		{"range out of order", "discount: 3%", "discount: {low: 5%, mid: 3%, high: 9%}", "costs.yaml:4:11: discount", diag.WrongOrder},
		{"range without its middle", "discount: 3%", "discount: {low: 5%, high: 9%}", "costs.yaml:4:11: mid is missing", diag.MissingKey},
		{"no discount", "discount: 3%\n", "", "costs.yaml:1:1: discount is missing", diag.MissingKey},
		{"no volume", "per: m3, ", "", "costs.yaml:7:15: per is missing", diag.MissingKey},
		{"unknown volume", "per: m3", "per: bucket", "costs.yaml:7:21: avoided_cost", diag.UnknownUnit},
		{"gap in the years", "{2027: 0.9}", "{2027: 0.9, 2029: 1}", "costs.yaml:7:44: avoided_cost: year 2029", diag.NotSorted},
		{"years too late", "{2027: 0.9}", "{2028: 0.9}", "costs.yaml:7:33: avoided_cost begins", diag.OutOfRange},
		{"no cost", "admin: 20, ", "", "costs.yaml:9:5: admin is missing", diag.MissingKey},
		{"negative cost", "admin: 20", "admin: -20", "costs.yaml:9:55: admin", diag.OutOfRange},
		{"unit of a cost", "admin: 20", "admin: 20 EUR", "costs.yaml:9:55: admin", diag.BadQuantity},
		{"life", "losses: 0%", "losses: 0%\nlife: 10", "costs.yaml:6:7: life", diag.BadQuantity},
		{"no measures", "measures:\n  - {", "other:\n  - {", "unknown key \"other\"", diag.UnknownKey},
		{
			"rebate outside",
			"rebate: 0}",
			"rebate: 30, uptake: [{rebate: 0, share: 1%}]}",
			"costs.yaml:9:67: rebate 30 is outside",
			diag.OutOfRange,
		},
		{"combines what is not there", "rebate: 0}", "rebate: 0, combines: [a, months]}", "combines: unknown measure", diag.UnknownName},
	}
	for _, tt := range tests {
		text := strings.Replace(least, tt.old, tt.now, 1)
		if text == least {
			t.Fatalf("%s: nothing is replaced", tt.name)
		}
		_, err := read(t, text)
		if err == nil || !strings.Contains(err.Error(), tt.want) || !strings.Contains(err.Error(), "fix: ") || !diag.IsInput(err) ||
			!hasCode(err, tt.code) {
			t.Errorf("%s: got\n%v\nwant %s, %s", tt.name, err, tt.want, tt.code)
		}
	}
	text := strings.NewReplacer("EUR", "euro", "admin: 20", "admin: x", "losses: 0%", "losses: 200%").Replace(least)
	if _, err := read(t, text); err == nil || strings.Count(err.Error(), "fix: ") != 3 {
		t.Errorf("three errors are not reported at once: %v", err)
	}
}

func hasCode(err error, code diag.Code) bool {
	switch e := err.(type) {
	case *diag.Error:
		return e.Code == code
	case *diag.Errors:
		for _, one := range e.List {
			if one.Code == code {
				return true
			}
		}
	}
	return false
}

// What only the simulation knows is nothing to rank by.
func TestTargetsRefuseTheTruth(t *testing.T) {
	const targets = "targets: {rank_by: bill, rank_years: 2001 to 2005, score_years: 2006 to 2012, bill_error: 15%}\n"
	if _, err := read(t, least+targets); err != nil {
		t.Fatal(err)
	}
	for _, tt := range []struct {
		old, now string
		code     diag.Code
	}{
		{"bill_error: 15%", "bill_error: 0%", diag.Circular}, {"2006 to 2012", "2005 to 2012", diag.Circular},
		{"2006 to 2012", "1990 to 1995", diag.WrongOrder}, {"rank_by: bill", "rank_by: saving", diag.UnknownName},
		{"rank_by: bill", "rank_by: beyond_need", diag.MissingKey},
		{"bill_error: 15%", "bill_error: 15%, area_error: 5%", diag.NoEffect}, {"2001 to 2005", "early", diag.NotADate},
	} {
		_, err := read(t, least+strings.Replace(targets, tt.old, tt.now, 1))
		if err == nil || !hasCode(err, tt.code) {
			t.Errorf("%s: %v, want %s", tt.now, err, tt.code)
		}
	}
}

// FuzzRead: no file makes the reader panic or hang, and every error is an input error.
func FuzzRead(f *testing.F) {
	f.Add(Template)
	f.Add(least)
	f.Add("measures: [{uptake: [{share: 1%}]}, {combines: 3}]\navoided_cost: {years: {x: 1}}\ntargets: 5\n")
	f.Fuzz(func(t *testing.T, text string) {
		if _, err := Read(strings.NewReader(text), "costs.yaml"); err != nil && !diag.IsInput(err) {
			t.Errorf("%T %v", err, err)
		}
	})
}
