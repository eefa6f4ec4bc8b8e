package portfolio

import (
	"errors"
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"loamledger/sim/draw"
)

// town returns results of n accounts over the years 2001 to 2010 as found and under a measure that
// waters each account at its requirement: 100 m³, and under a second one that does so by half.
// Account a used a fixed volume, 20 to 180 m³, in every year.
func town(n int, volume func(a int) float64) (out []Result) {
	for a := range n {
		for k, name := range []string{"as found", "need", "half"} {
			for y := int32(2001); y <= 2010; y++ {
				v := volume(a)
				used := []float64{v, 100, 100 + (v-100)/2}[k]
				out = append(out, Result{Account: fmt.Sprintf("a%05d", a), Measure: name, Reference: k == 0, Year: y, WholeYear: true, AreaM2: 200,
					VolumeM3: used, RequirementM3: 100, PeakDayM3: used / 100, StressZoneDays: 10 - v/20})
			}
		}
	}
	return out
}

func collected(t testing.TB, rows []Result, bills Bills) *Table {
	t.Helper()
	c := NewCollector(bills)
	for i := range rows {
		c.Add(&rows[i])
	}
	table, err := c.Table()
	if err != nil {
		t.Fatal(err)
	}
	return table
}

// In closed form: uses spread evenly from 20 to 180 m³ save −80 to 80: mean 0, P10 −64, P90 64. With a
// threshold of 5% of the use, v − 100 > 0.05 v saves from 105.26 up: (180 − 105.26) ÷ 160 = 0.467;
// 100 − v > 0.05 v rises below 95.24: 0.470.
func TestStatsOfAKnownTown(t *testing.T) {
	const n = 1601
	table := collected(t, town(n, func(a int) float64 { return 20 + float64(a)/10 }), Bills{})
	s := table.Stats(1, table.All(), 0.05)
	for name, pair := range map[string][2]float64{
		"mean": {s.MeanM3, 0}, "P10": {s.P10M3, -64}, "median": {s.MedianM3, 0}, "P90": {s.P90M3, 64}, "depth P90": {s.P90MM, 320},
		"reference": {s.ReferenceM3, 100}, "ratio": {s.Ratio, 1}, "sum": {s.SumM3, 0}, "change": {s.Change, 0},
	} {
		if math.Abs(pair[0]-pair[1]) > 1e-9 {
			t.Errorf("%s is %g, in closed form %g", name, pair[0], pair[1])
		}
	}
	if math.Abs(s.Saves-0.467) > 0.001 || math.Abs(s.Rises-0.470) > 0.001 || math.Abs(s.Saves+s.Stays+s.Rises-1) > 1e-12 {
		t.Errorf("saves %g, stays %g, rises %g", s.Saves, s.Stays, s.Rises)
	}
	// Half the measure saves half: two halves add up to the whole, so nothing overlaps.
	if x := table.Interaction(1, []int{2, 2}); math.Abs(x.Overlap) > 1e-9 || len(x.singles) != 2 {
		t.Errorf("%+v", x)
	}
	// The sum of all accounts is that of the rows: 1601 × 100 × 0.01 m³.
	if found, under := table.PeakDays(1); math.Abs(found-1601) > 1e-6 || math.Abs(under-1601) > 1e-6 {
		t.Errorf("peak days %g, %g", found, under)
	}
}

// TestTargetingOnTheSameYearsFlatters: every account truly uses 90 to 110 m³ and its need is 100.
// Bills are off by 20% in each year. The accounts with the highest bills of 2001 to 2003 seem to save
// much in those years and save little in the later ones: regression to the mean.
func TestTargetingOnTheSameYearsFlatters(t *testing.T) {
	b := Bills{Early: Years{2001, 2003}, Late: Years{2004, 2010}, Error: 0.2, Seed: 1}
	table := collected(t, town(2000, func(a int) float64 { return 90 + 20*float64(a)/1999 }), b)
	ranking, err := table.Ranking()
	if err != nil {
		t.Fatal(err)
	}
	curve := table.Offers(1, ranking, []float64{0.1, 0.5, 1}, 0.02)
	// The error of a mean of three bills is 20 ÷ √3 = 11.55 m³, the true spread 20 ÷ √12 = 5.77, so a
	// bill tells 5.77² ÷ (5.77² + 11.55²) = 0.20 of what it seems to say.
	top := curve[0]
	if top.SeenM3 < 15 || top.LateM3 > 0.35*top.SeenM3 || top.LateM3 <= 0 {
		t.Errorf("the first tenth seems to save %g m³ and saves %g later", top.SeenM3, top.LateM3)
	}
	if share := top.LateM3 / top.SeenM3; math.Abs(share-0.2) > 0.06 {
		t.Errorf("%g of the apparent saving is real, in closed form 0.20", share)
	}
	if all := curve[2]; math.Abs(all.SeenM3-all.LateM3) > 0.6 {
		t.Errorf("without a choice the years agree: %+v", all)
	}
	if top.Rise <= 0.05 {
		t.Errorf("%g of the first tenth use more", top.Rise)
	}
}

func TestRankingRefusesTheTruth(t *testing.T) {
	rows := town(30, func(a int) float64 { return float64(20 + 5*a) })
	for _, tt := range []struct {
		b    Bills
		want error
	}{
		{Bills{Early: Years{2001, 2003}, Late: Years{2004, 2010}}, errCircular},
		{Bills{Early: Years{2001, 2004}, Late: Years{2004, 2010}, Error: 0.1}, errSameYears},
		{Bills{Early: Years{1990, 1999}, Late: Years{2004, 2010}, Error: 0.1}, ErrNoYears},
		{Bills{Early: Years{2001, 2003}, Late: Years{2004, 2010}, Error: 0.1}, nil},
	} {
		if _, err := collected(t, rows, tt.b).Ranking(); !errors.Is(err, tt.want) {
			t.Errorf("%+v: %v", tt.b, err)
		}
	}
}

// The order of the rows, and so of the files and shards, changes nothing.
func TestOrderOfRowsChangesNothing(t *testing.T) {
	b := Bills{Early: Years{2001, 2003}, Late: Years{2004, 2010}, Error: 0.2, AreaError: 0.1, By: ByExcess, Seed: 7}
	rows := town(50, func(a int) float64 { return float64(20 + 3*a) })
	one := collected(t, rows, b)
	first, err := one.Ranking()
	if err != nil {
		t.Fatal(err)
	}
	byAccount := slices.Clone(rows)
	slices.SortStableFunc(byAccount, func(x, y Result) int { return -compare(x.Account, y.Account) })
	two := collected(t, byAccount, b)
	second, err := two.Ranking()
	if err != nil || !slices.Equal(first, second) || !slices.Equal(one.Accounts, two.Accounts) {
		t.Errorf("%v: ranked %v, then %v", err, first, second)
	}
	for a := range one.Accounts {
		if *one.use(1, a) != *two.use(1, a) {
			t.Errorf("account %d: %+v, then %+v", a, one.use(1, a), two.use(1, a))
		}
	}
}

func TestCollectFaults(t *testing.T) {
	rows := town(3, func(int) float64 { return 50 })
	table := func(change func(r *Result) bool) (*Table, error) {
		c := NewCollector(Bills{})
		for _, r := range rows {
			if change(&r) {
				c.Add(&r)
			}
		}
		return c.Table()
	}
	if _, err := table(func(r *Result) bool { r.Reference = false; return true }); !errors.Is(err, errNoReference) {
		t.Error(err)
	}
	if _, err := table(func(r *Result) bool { r.Reference = r.Measure != "half"; return true }); !errors.Is(err, errReferences) {
		t.Error(err)
	}
	if _, err := table(func(r *Result) bool { return r.Reference }); !errors.Is(err, errNothing) {
		t.Error(err)
	}
	c := NewCollector(Bills{})
	for i := range 2 * len(rows) {
		c.Add(&rows[i%len(rows)])
	}
	if _, err := c.Table(); !errors.Is(err, errTwice) {
		t.Error(err)
	}
	// An account that lacks a year under one measure does not count; part years are counted.
	got, err := table(func(r *Result) bool {
		r.WholeYear = r.Year != 2010
		return r.Account != "a00001" || r.Measure != "need" || r.Year != 2005
	})
	if err != nil || len(got.Accounts) != 2 || len(got.Unpaired) != 1 || got.Unpaired[0] != "a00001" || got.Partial != 9 ||
		len(got.Years) != 9 {
		t.Errorf("%v %+v", err, got)
	}
}

// By hand: account a uses 40 m³ and needs 100, b 100, c 200 and d needs nothing.
func TestGroupsByHand(t *testing.T) {
	rows := town(4, func(a int) float64 { return []float64{40, 100, 200, 10}[a] })
	for i := range rows {
		if rows[i].Account == "a00003" {
			rows[i].RequirementM3 = 0
		}
	}
	table := collected(t, rows, Bills{})
	about := map[string]Account{"a00000": {Area: "north"}, "a00001": {Area: "north"}, "a00002": {Area: "south"}, "a00003": {}}
	groups := table.Groupings(about)
	if len(groups) != 2 || groups[0].Kind != ByClass || groups[1].Kind != ByDistrict || len(groups[1].Cells) != 3 {
		t.Fatalf("%+v", groups)
	}
	for i, want := range []string{"deficit, below 0.7", "on target, 0.7 to 1.3", "above target, over 1.3", "nothing required"} {
		if c := groups[0].Cells[i]; c.RatioName() != want || !slices.Equal(c.Accounts, []int{i}) {
			t.Errorf("cell %d is %s with %v", i, c.RatioName(), c.Accounts)
		}
	}
}

// split returns a grouping with cells of the given sizes, over accounts in order.
func split(kind GroupKind, sizes ...int) Grouping {
	g, next := Grouping{Kind: kind}, 0
	for _, n := range sizes {
		c := Cell{}
		for range n {
			c.Accounts = append(c.Accounts, next)
			next++
		}
		g.Cells = append(g.Cells, c)
	}
	return g
}

func hiddenOf(g Grouping) (out []int) {
	for i, c := range g.Cells {
		if c.Hidden {
			out = append(out, i)
		}
	}
	return out
}

func TestHideByHand(t *testing.T) {
	// 3 of 100 accounts: the total less the others would give them away, so the next smallest goes too.
	one := []Grouping{split(ByStation, 60, 3, 37)}
	if n := Hide(one, 100, 10); n != 2 || !slices.Equal(hiddenOf(one[0]), []int{1, 2}) {
		t.Errorf("%d hidden: %v", n, hiddenOf(one[0]))
	}
	// Stations 63 and 37; districts 60, 3 and 37: station one less district one gives district two.
	two := []Grouping{split(ByStation, 63, 37), split(ByDistrict, 60, 3, 20, 17)}
	Hide(two, 100, 10)
	if two[1].Cells[0].Hidden == two[0].Cells[0].Hidden && !two[1].Cells[0].Hidden {
		t.Errorf("hidden %v and %v: a difference gives 3 accounts", hiddenOf(two[0]), hiddenOf(two[1]))
	}
	// No cell is small, but one lies in another of which 4 accounts are left.
	three := []Grouping{split(ByStation, 64, 36), split(ByDistrict, 60, 20, 20)}
	if Hide(three, 100, 10); !three[1].Cells[0].Hidden && !three[0].Cells[0].Hidden {
		t.Errorf("hidden %v and %v: 64 less 60 accounts", hiddenOf(three[0]), hiddenOf(three[1]))
	}
	// Nothing is hidden without need.
	four := []Grouping{split(ByStation, 60, 40), split(ByDistrict, 30, 30, 40)}
	if n := Hide(four, 100, 10); n != 0 {
		t.Errorf("%d hidden: %v and %v", n, hiddenOf(four[0]), hiddenOf(four[1]))
	}
}

// TestHiddenCellsCannotBeWorkedOut: on drawn groupings, no small cell is a sum of what is printed.
// The check is another one than that of Hide: two populations that agree in every printed sum and
// differ in the small cell exist, found by a random search over the null space.
func TestHiddenCellsCannotBeWorkedOut(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 4))
	for trial := range 60 {
		n := 60 + r.IntN(120)
		groups := make([]Grouping, 2+r.IntN(2))
		for g := range groups {
			cells := make([]Cell, 2+r.IntN(4))
			for a := range n {
				k := min(int(float64(len(cells))*math.Pow(r.Float64(), 1.7)), len(cells)-1)
				cells[k].Accounts = append(cells[k].Accounts, a)
			}
			groups[g] = Grouping{Kind: GroupKind(g), Cells: withAccounts(cells)}
		}
		Hide(groups, n, 10)
		shown := [][]int{make([]int, n)}
		for a := range n {
			shown[0][a] = a
		}
		var hidden [][]int
		for g := range groups {
			for i := range groups[g].Cells {
				if c := &groups[g].Cells[i]; !c.Hidden {
					shown = append(shown, c.Accounts)
					if len(c.Accounts) < 10 {
						t.Fatalf("trial %d: a cell of %d is printed", trial, len(c.Accounts))
					}
				} else if len(c.Accounts) < 10 {
					hidden = append(hidden, c.Accounts)
				}
			}
		}
		// A change of the accounts' water that no printed sum shows: start anywhere, then take off what
		// printed sums see, by Kaczmarz's method of projections.
		change := make([]float64, n)
		for a := range change {
			change[a] = r.NormFloat64()
		}
		for range 4000 {
			for _, cell := range shown {
				sum := 0.0
				for _, a := range cell {
					sum += change[a]
				}
				for _, a := range cell {
					change[a] -= sum / float64(len(cell))
				}
			}
		}
		for _, cell := range hidden {
			sum := 0.0
			for _, a := range cell {
				sum += change[a]
			}
			if math.Abs(sum) < 1e-6 {
				t.Errorf("trial %d: the sum of a hidden cell of %d accounts follows from what is printed", trial, len(cell))
			}
		}
	}
}

// By hand: two accounts, July highest as found, June under the measure.
func TestPeaksByHand(t *testing.T) {
	s := NewMonths()
	for _, m := range []Month{
		{"a", "as found", DryYear, 2003, 6, 10, 0}, {"a", "as found", DryYear, 2003, 7, 30, 0},
		{"b", "as found", DryYear, 2007, 6, 15, 0}, {"b", "as found", DryYear, 2007, 7, 20, 0},
		{"a", "need", DryYear, 2003, 6, 20, 0}, {"a", "need", DryYear, 2003, 7, 15, 0},
		{"b", "need", DryYear, 2007, 6, 20, 0}, {"b", "need", DryYear, 2007, 7, 10, 0},
		{"a", "as found", AllYears, 2001, 7, 30, 0}, {"b", "as found", AllYears, 2001, 7, 1, 0}, {"a", "as found", AllYears, 2002, 8, 29, 0},
		{"b", "as found", AllYears, 2002, 8, 3, 0}, {"a", "need", AllYears, 2002, 8, 9, 0},
	} {
		s.Add(&m)
	}
	want := []Peak{{DryYear, 0, 7, 50, 25, 6, 40}, {AllYears, 2002, 8, 32, 9, 8, 9}}
	if got := s.Peaks("as found", "need"); !slices.Equal(got, want) {
		t.Errorf("%+v, by hand %+v", got, want)
	}
}

// The errors of bills are those that were asked for: standard normal, independent of each other.
func TestNormal(t *testing.T) {
	var list []float64
	for a := range 4000 {
		for y := range 5 {
			list = append(list, normal(9, "bill", fmt.Sprint(a), fmt.Sprint(2000+y)))
		}
	}
	if mean, v := draw.Mean(list), draw.Variance(list); math.Abs(mean) > 4/math.Sqrt(20000) || math.Abs(v-1) > 4*math.Sqrt(2.0/20000) {
		t.Errorf("mean %g, variance %g", mean, v)
	}
	cross := 0.0
	for i := 1; i < len(list); i++ {
		cross += float64(list[i] * list[i-1])
	}
	if r := cross / float64(len(list)); math.Abs(r) > 4/math.Sqrt(20000) {
		t.Errorf("correlation of neighbors %g", r)
	}
	slices.Sort(list)
	if p := draw.Quantile(list, 0.9); math.Abs(p-1.2816) > 0.03 {
		t.Errorf("P90 %g", p)
	}
}
