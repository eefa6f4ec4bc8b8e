package scenarios

import (
	"math"
	"slices"
	"strings"

	"loamledger/scenarios/catalog"
	"loamledger/sim/draw"
	"loamledger/sim/money"
	"loamledger/weather/cal"
	"loamledger/weather/diag"
	"loamledger/weather/quantity"
)

// A Money names the rates that price the water of a replay, and what changes cost.
type Money struct {
	Pos       diag.Pos
	Rates     File
	Meter     string    // of the account in the rates; empty if it has only one
	Prices    *cal.Date // day whose prices count in all years; nil for the newest
	Projects  []Project
	Discount  money.Num // real rate a year, as a share
	MeterPos  diag.Pos
	PricesPos diag.Pos
}

// A Project is what it costs to introduce a strategy, in the currency of the rates.
type Project struct {
	Strategy              int       // its index
	CostLow, CostHigh     money.Num // once
	UpkeepLow, UpkeepHigh money.Num // a year
	Years                 int       // life
}

// The defaults of projects.
var (
	projectLife     = catalog.Figure{Value: 10, Low: 5, High: 15, Source: "customary planning life of a controller", Grade: catalog.Memory}
	projectDiscount = catalog.Figure{Value: 0.03, Low: 0, High: 0.07, Source: "real rate; our choice", Grade: catalog.Guess}
)

// readMoney reads what water costs. The strategies are known.
func (b *builder) readMoney(top group) {
	n := top.has("money")
	if n == nil {
		return
	}
	g := b.open(n, "money", "money", "rates", "meter", "prices", "projects", "discount")
	if g.node == nil {
		return
	}
	m := &Money{Pos: n.Pos}
	if file := g.oneFile("rates"); file != nil {
		m.Rates = *file
	} else {
		g.missing("rates", "add rates: rates.yaml, the file of what water costs", "rates: rates.yaml")
	}
	if w, ok := g.word("meter"); ok {
		m.Meter, m.MeterPos = strings.TrimSpace(w.Text), w.Pos
		g.givenWord(g.path("meter"), w)
	}
	if w, ok := g.word("prices"); ok {
		d, err := cal.Parse(strings.TrimSpace(w.Text))
		if err != nil {
			g.fault(diag.NotADate, w.Pos, "write the day whose prices count, such as 2024-01-31", "money: prices %s is not a date", quoted(w.Text))
		}
		m.Prices, m.PricesPos = &d, w.Pos
		g.givenWord(g.path("prices"), w)
	} else {
		g.defaultedWord(g.path("prices"), "the newest in the rates", catalog.Guess, "in all years, whatever prices were then; our choice")
	}
	if list := g.has("projects"); list != nil {
		rate, _ := g.number(want{key: "discount", shape: shape{dim: quantity.Fraction}, max: 0.5, dflt: projectDiscount})
		m.Discount = money.Float(rate, 6)
		for _, item := range g.items(list) {
			g.project(item, m)
		}
	} else if d := g.has("discount"); d != nil {
		g.fault(diag.NoEffect, d.Pos, "add projects, or remove it", "money: discount requires projects")
	}
	b.sc.Money = m
}

// oneFile reads the name of one file; nil if there is none.
func (g group) oneFile(key string) *File {
	files := g.files(key)
	if len(files) > 1 {
		g.fault(diag.WrongShape, files[1].Pos, "name one file", "%s: %s names %d files", g.where, key, len(files))
	}
	if len(files) != 1 {
		return nil
	}
	return &files[0]
}

// project reads what one strategy costs.
func (g group) project(n *Node, m *Money) {
	p := g.open(n, "money: project", "money.projects", "strategy", "cost", "upkeep", "life")
	if p.node == nil {
		return
	}
	out := Project{Years: int(projectLife.Value)}
	w, ok := p.word("strategy")
	if !ok {
		p.missing("strategy", "add strategy, the name of one in this scenario")
		return
	}
	var names []string
	for i := range g.sc.Strategies {
		names = append(names, g.sc.Strategies[i].Name)
	}
	if out.Strategy = g.known(w, names); out.Strategy < 0 {
		g.fault(diag.UnknownName, w.Pos, g.didYouMean(w.Text, names), "money: no strategy is called %s", quoted(w.Text))
		return
	}
	p.where, p.key = "money: project of "+quoted(names[out.Strategy]), "money.projects."+names[out.Strategy]
	if slices.ContainsFunc(m.Projects, func(o Project) bool { return o.Strategy == out.Strategy }) {
		g.fault(diag.Duplicate, w.Pos, "put all costs in one project", "%s is given twice", p.where)
	}
	if p.node.Get("cost") == nil {
		p.missing("cost", "add cost, an amount or a range, such as cost: 600 to 900")
	}
	defer g.owning(p.key, "project of “"+names[out.Strategy]+"”")()
	out.CostLow, out.CostHigh = p.amounts("cost")
	out.UpkeepLow, out.UpkeepHigh = p.amounts("upkeep")
	life := want{key: "life", shape: shape{bare: true}, min: 1, max: 50, whole: true, dflt: projectLife, fix: "write whole years from 1 to 50"}
	if v, ok := p.number(life); ok && !math.IsNaN(v) {
		out.Years = int(v)
	}
	m.Projects = append(m.Projects, out)
}

// amounts reads an amount of money, or a range as in 600 to 900; 0 if it is
// missing.
func (g group) amounts(key string) (low, high money.Num) {
	w, ok := g.word(key)
	if !ok {
		return low, high
	}
	a, b, ranged := strings.Cut(w.Text, " to ")
	if !ranged {
		b = a
	}
	low, errLow := money.Parse(strings.TrimSpace(a))
	high, errHigh := money.Parse(strings.TrimSpace(b))
	const fix = "write an amount in the currency of the rates, in digits, or a range, such as 750 or 600 to 900"
	most := money.Int(1e9)
	switch {
	case errLow != nil || errHigh != nil:
		g.fault(diag.NotANumber, w.Pos, fix, "%s: %s %s", g.where, key, money.WhyNot(strings.TrimSpace(w.Text)))
	case low.Sign() < 0 || high.Cmp(most) > 0 || low.Cmp(high) > 0:
		g.fault(diag.OutOfRange, w.Pos, fix, "%s: %s %s is not a range from 0 up", g.where, key, quoted(w.Text))
	default:
		g.givenWord(g.path(key), w)
		if low.Cmp(high) < 0 {
			r := draw.Between(low.Float64(), high.Float64())
			v := g.doubted(g.ownDoubt(g.path(key), shape{bare: true}, w), r, catalog.Figure{Value: r.Mode})
			if g.pick != nil {
				low = money.Float(v, 2)
				high = low
			}
		}
	}
	return low, high
}
