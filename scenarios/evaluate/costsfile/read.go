// Package costsfile reads what a program of measures costs, from YAML.
//
// # Promises
//
// An unknown key is an error, so that a typo loses nothing. Units and currency are never
// guessed: amounts are in the currency of the file, prices of water name their volume.
// What may be left out has a default, which is listed. All errors in a file are reported
// together as one error that [diag.IsInput] recognizes, with line and column.
package costsfile

import (
	"fmt"
	"io"
	"slices"
	"strings"

	"loamledger/plots"
	"loamledger/scenarios"
	"loamledger/scenarios/evaluate"
	"loamledger/scenarios/yamlfile"
	"loamledger/sim/program"
	"loamledger/weather/diag"
	"loamledger/weather/quantity"
)

// ownKeys are knobs that a measure may have for itself.
var ownKeys = []string{"life", "decay", "net_to_gross", "saving"}

// sharedKeys are the knobs at the top.
var sharedKeys = []string{"life", "decay", "net_to_gross", "saving", "discount", "losses", "fixed_cost"}

// amountKeys are the knobs that only a measure has.
var amountKeys = []string{"equipment", "upkeep", "admin"}

var (
	topKeys = slices.Concat([]string{"version", "name", "currency", "units", "first_year"}, sharedKeys,
		[]string{"avoided_cost", "retail", "externality", "threshold", "smallest_cell", "seed", "targets", "measures"})
	measureKeys = slices.Concat([]string{"measure"}, amountKeys, ownKeys, []string{"rebate", "uptake", "combines"})
	targetKeys  = []string{"rank_by", "rank_years", "score_years", "bill_error", "area_error"}
	avoidedKeys = []string{"per", "years", "growth", "factor"}
	priceKeys   = []string{"per", "price"}
	valueKeys   = []string{"low", "mid", "high"}
	pointKeys   = []string{"rebate", "share"}
)

// Keys returns every key of a costs file.
func Keys() []string {
	keys := slices.Concat(topKeys, measureKeys, targetKeys, avoidedKeys, priceKeys, valueKeys, pointKeys)
	slices.Sort(keys)
	return slices.Compact(keys)
}

// Bounds of the work that a hostile file can cause, and of numbers.
const (
	maxMeasures = 200
	maxPoints   = 50
	maxYears    = 100
	maxAmount   = 1e12
)

// A reader reads one file.
type reader struct {
	yamlfile.Reader
	plan *evaluate.Plan
	top  [program.Knobs]program.Value
	has  [program.Knobs]bool
}

// Read reads the costs in in. name is the file name for messages.
func Read(in io.Reader, name string) (*evaluate.Plan, error) {
	r := &reader{Reader: yamlfile.Reader{Name: name}, plan: &evaluate.Plan{File: name, Places: map[string]diag.Pos{}}}
	root, err := r.Open(in, topKeys)
	if err != nil {
		return nil, err
	}
	r.version(root)
	r.plan.Name = r.Text(root, "name")
	r.currency(root)
	r.units(root)
	if v := r.required(root, "first_year", "the year in which the measures begin to save, such as 2027"); v {
		r.plan.FirstYear = r.whole(root, "first_year", 1900, 2200, 0)
	}
	for _, key := range sharedKeys {
		r.knob(root, key, &r.top, &r.has, true)
	}
	r.avoided(root)
	r.plan.HasRetail = r.price(root, "retail", program.Retail)
	r.plan.HasExternality = r.price(root, "externality", program.Externality)
	r.limits(root)
	r.targets(root)
	r.measures(root)
	if err := r.Faults.Err(); err != nil {
		return nil, err
	}
	return r.plan, nil
}

// required reports whether a key is there, and adds an error if it is not.
func (r *reader) required(n *scenarios.Node, key, what string) bool {
	if n.Get(key) != nil {
		return true
	}
	r.Faults.Add(diag.MissingKey, n.Pos, "add "+key+": "+what, "%s is missing", key)
	return false
}

func (r *reader) version(root *scenarios.Node) {
	if !r.required(root, "version", fmt.Sprint(evaluate.Version)) {
		return
	}
	if text := strings.TrimSpace(r.Text(root, "version")); text != fmt.Sprint(evaluate.Version) && text != "" {
		r.Faults.Add(diag.OtherVersion, root.Get("version").Pos, fmt.Sprintf("write version: %d and check the keys", evaluate.Version),
			"version %q of a costs file is not known", text)
	}
}

func (r *reader) currency(root *scenarios.Node) {
	if !r.required(root, "currency", "its code of three letters, such as USD") {
		return
	}
	text := r.Text(root, "currency")
	if text != "" && (len(text) != 3 || strings.Trim(text, "ABCDEFGHIJKLMNOPQRSTUVWXYZ") != "") {
		r.Faults.Add(diag.UnknownUnit, root.Get("currency").Pos, "write its code of three letters, such as currency: USD",
			"currency %q is not a code of three capital letters", text)
	}
	r.plan.Currency, r.plan.CurrencyPos = text, root.Get("currency").Pos
}

func (r *reader) units(root *scenarios.Node) {
	switch text := r.Text(root, "units"); text {
	case "us":
	case "":
		if root.Get("units") == nil {
			r.assume("units", "us", "", "our choice: gallons and acre-feet", quantity.Guess)
		}
	case "si":
		r.plan.Units = plots.SI
	default:
		r.Faults.Add(diag.UnknownName, root.Get("units").Pos, "write us or si", "unknown units %q", text)
	}
}

// assume lists a default.
func (r *reader) assume(key, value, low, source string, grade quantity.Grade) {
	r.plan.Defaults = append(
		r.plan.Defaults,
		plots.Default{Where: "costs", Key: key, Value: value, Range: low, Source: source, Grade: grade},
	)
}

// whole reads a whole number; other if it is missing.
func (r *reader) whole(n *scenarios.Node, key string, low, high, other int) int {
	v := r.Number(n, key, float64(low), float64(high))
	switch {
	case v == nil:
		return other
	case *v != float64(int(*v)):
		r.Faults.Add(diag.OutOfRange, n.Get(key).Pos, "write a whole number", "%s %g is not a whole number", key, *v)
	}
	return int(*v)
}

// limits reads what decides how results are printed.
func (r *reader) limits(root *scenarios.Node) {
	p := r.plan
	if p.Threshold = evaluate.DefaultThreshold; root.Get("threshold") != nil {
		if v, ok := r.single(root.Get("threshold"), "threshold", share(0, 0.99)); ok {
			p.Threshold = v
		}
	} else {
		r.assume("threshold", "5%", "", "our choice: an account saves or rises if its use changes by more than this", quantity.Guess)
	}
	if root.Get("smallest_cell") == nil {
		r.assume("smallest_cell", fmt.Sprint(evaluate.DefaultSmallest), "", "our choice: nothing is printed of fewer accounts", quantity.Guess)
	}
	p.Smallest = r.whole(root, "smallest_cell", evaluate.LeastSmallest, 1000, evaluate.DefaultSmallest)
	if root.Get("seed") == nil {
		r.assume("seed", fmt.Sprint(evaluate.DefaultSeed), "", "our choice", quantity.Guess)
	}
	p.Seed = uint64(r.whole(root, "seed", 0, 1e9, evaluate.DefaultSeed))
}

// knob reads a knob at the top or of a measure. A knob without a value has a default, or
// is an error, if it is looked for at the top.
func (r *reader) knob(n *scenarios.Node, key string, to *[program.Knobs]program.Value, has *[program.Knobs]bool, top bool) {
	k := program.Knob(slices.Index(slicesOf(program.KnobNames()), key))
	if n.Get(key) != nil {
		has[k] = true
		to[k], _ = r.value(n.Get(key), key, kindOf(k))
		return
	}
	d, known := evaluate.KnobDefaults()[k]
	switch {
	case !top:
	case known:
		to[k] = d.Value
	default:
		r.required(n, key, map[program.Knob]string{program.Discount: "the real discount rate, such as 3%",
			program.Losses:    "the share of the supply that is lost before the meter, such as 8%, or 0%",
			program.FixedCost: "what the program costs however many take part, such as 20000, or 0"}[k])
	}
}

func slicesOf(names [program.Knobs]string) []string { return names[:] }

// measures reads the list of measures.
func (r *reader) measures(root *scenarios.Node) {
	const fix = "add a list, as in measures: [{measure: rain sensor, equipment: 90, upkeep: 0, admin: 15, rebate: 50}]"
	n := root.Get("measures")
	switch {
	case n == nil:
		r.Faults.Add(diag.MissingKey, root.Pos, fix, "measures are missing")
		return
	case n.Kind != scenarios.List || len(n.Items) == 0:
		r.Faults.Add(diag.WrongShape, n.Pos, fix, "measures is not a list with entries")
		return
	case len(n.Items) > maxMeasures:
		r.Faults.Add(diag.TooLarge, n.Pos, "split the file", "there are %d measures; the maximum is %d", len(n.Items), maxMeasures)
		return
	}
	inherited := map[program.Knob]bool{}
	for i, item := range n.Items {
		if !r.Group(item, fmt.Sprintf("measure %d", i+1), measureKeys) {
			continue
		}
		m := program.Measure{Values: r.top}
		has := r.has
		r.required(item, "measure", "the name of a measure in the results")
		m.Name = strings.TrimSpace(r.Text(item, "measure"))
		if _, again := r.plan.Places[m.Name]; again {
			r.Faults.Add(diag.Duplicate, item.Pos, "give each measure once", "duplicate measure %q", m.Name)
		}
		r.plan.Places[m.Name] = item.Pos
		for _, key := range amountKeys {
			if r.required(item, key, "its cost per participant, or 0") {
				r.knob(item, key, &m.Values, &has, false)
			}
		}
		for _, key := range ownKeys {
			r.knob(item, key, &m.Values, &has, false)
		}
		for k := range evaluate.KnobDefaults() {
			inherited[k] = inherited[k] || !has[k]
		}
		r.rebate(item, &m)
		m.Combines = r.Texts(item, "combines")
		r.plan.Measures = append(r.plan.Measures, m)
	}
	for k := range program.Knobs {
		if d, ok := evaluate.KnobDefaults()[k]; ok && inherited[k] {
			r.assume(program.KnobNames()[k], d.Text, "", d.Source, d.Grade)
		}
	}
	r.combines(n)
}

// combines checks that a measure combines others of the list.
func (r *reader) combines(n *scenarios.Node) {
	for _, item := range n.Items {
		list := item.Get("combines")
		if list == nil || list.Kind != scenarios.List {
			if list != nil {
				r.Faults.Add(diag.WrongShape, list.Pos, "write a list, such as combines: [rain sensor, monthly settings]", "combines is not a list")
			}
			continue
		}
		own := strings.TrimSpace(scalar(item.Get("measure")))
		if len(list.Items) < 2 {
			r.Faults.Add(diag.OutOfRange, list.Pos, "name two measures or more", "combines names fewer than two measures")
		}
		for _, one := range list.Items {
			if _, ok := r.plan.Places[scalar(one)]; !ok || scalar(one) == own {
				r.Faults.Add(diag.UnknownName, one.Pos, "name other measures of this file", "combines: unknown measure %q", scalar(one))
			}
		}
	}
}

// scalar returns the text of a single value; "" for anything else.
func scalar(n *scenarios.Node) string {
	if n == nil || n.Kind != scenarios.Scalar {
		return ""
	}
	return strings.TrimSpace(n.Text)
}

// rebate reads a rebate and the shares of accounts that rebates bring.
func (r *reader) rebate(n *scenarios.Node, m *program.Measure) {
	if r.required(n, "rebate", "what each participant gets, such as 100, or 0") {
		if v := r.Number(n, "rebate", 0, maxAmount); v != nil {
			m.Rebate = *v
		}
	}
	u := n.Get("uptake")
	if u == nil {
		return
	}
	const fix = "write points of a curve, such as uptake: [{rebate: 0, share: 1%}, {rebate: 100, share: 6%}]"
	if u.Kind != scenarios.List || len(u.Items) == 0 || len(u.Items) > maxPoints {
		r.Faults.Add(diag.WrongShape, u.Pos, fix, "uptake is not a list of 1 to %d points", maxPoints)
		return
	}
	before := r.Faults.Len()
	for i, item := range u.Items {
		if !r.Group(item, "a point of uptake", pointKeys) || !r.required(item, "rebate", "such as 100") ||
			!r.required(item, "share", "such as 6%") {
			continue
		}
		p := program.Point{}
		if v := r.Number(item, "rebate", 0, maxAmount); v != nil {
			p.Rebate = *v
		}
		p.Share, _ = r.single(item.Get("share"), "share", share(0, 1))
		if k := len(m.Uptake); k > 0 && k == i && p.Rebate <= m.Uptake[k-1].Rebate {
			r.Faults.Add(diag.NotSorted, item.Pos, "sort the points by their rebate", "the rebate is not above that of the point before")
		}
		m.Uptake = append(m.Uptake, p)
	}
	if r.Faults.Len() > before {
		return
	}
	if s, ok := m.Share(m.Rebate); !ok {
		r.Faults.Add(diag.OutOfRange, n.Get("rebate").Pos, "write a rebate within the curve, or add a point for it",
			"rebate %g is outside the curve of uptake", m.Rebate)
	} else if s == 0 {
		r.Faults.Add(diag.OutOfRange, n.Get("rebate").Pos, "write a rebate for which some accounts take part", "nobody takes part for rebate %g",
			m.Rebate)
	}
}
