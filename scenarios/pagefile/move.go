package pagefile

import (
	"bytes"
	"context"
	"fmt"
	"maps"
	"slices"
	"strconv"
	"strings"

	"loamledger/scenarios"
	"loamledger/scenarios/yamlfile"
	"loamledger/sim/strategy"
)

// move replays the scenario with other numbers.
func (e *Engine) move(ctx context.Context, set map[string]float64, reply *Reply) error {
	if err := e.change(set); err != nil {
		return err
	}
	sc, err := e.read(e.nowDoc, e.now)
	if err != nil {
		return err
	}
	_, err = e.glance(ctx, sc, e.now, reply)
	return err
}

// save returns the files with other numbers: those that changed, the scenario first, and
// those that were made here.
func (e *Engine) save(set map[string]float64, reply *Reply) error {
	if err := e.change(set); err != nil {
		return err
	}
	reply.Saved = append(reply.Saved, Saved{e.name, string(e.now[e.name])})
	for _, name := range slices.Sorted(maps.Keys(e.now)) {
		if name != e.name && !bytes.Equal(e.now[name], e.files[name]) {
			reply.Saved = append(reply.Saved, Saved{name, string(e.now[name])})
		}
	}
	return nil
}

// change sets e.now to the files with other numbers.
func (e *Engine) change(set map[string]float64) error {
	if e.opened == nil {
		return fmt.Errorf("no scenario is open")
	}
	e.now, e.nowDoc = maps.Clone(e.files), e.doc
	var changes []yamlfile.Change
	for i := range e.controls {
		c := &e.controls[i]
		if v, is := set[c.ID]; is && c.written != nil && v != c.Value {
			changes = append(changes, yamlfile.Change{Way: c.way, Value: c.written(v)})
		}
	}
	percent, is := set[tryPercent]
	if !is {
		percent = 100
	}
	var items []yamlfile.Items
	var err error
	if days := int(set[tryDays]); percent != 100 || days != 0 {
		if items, err = e.tryItems(percent, days); err != nil {
			return err
		}
	}
	if len(changes)+len(items) > 0 {
		if e.nowDoc, err = e.doc.Edit(changes, items); err != nil {
			return err
		}
		e.now[e.name] = []byte(e.nowDoc.Text())
	}
	if percent, is := set[pricesID]; is && percent != 100 {
		name := bareName(e.opened.Money.Rates.Name)
		rates, err := yamlfile.NewDoc(bytes.NewReader(e.files[name]), name)
		if err != nil {
			return err
		}
		if rates, err = rates.Edit(pricesAt(pricesIn(rates.Tree()), percent), nil); err != nil {
			return err
		}
		e.now[name] = []byte(rates.Text())
	}
	return nil
}

// weekdays are the days of a try, by how many there are a week; 0 is Sunday.
var weekdays = [8][]int{{}, {3}, {2, 5}, {1, 3, 5}, {1, 2, 4, 6}, {1, 2, 3, 5, 6}, {1, 2, 3, 4, 5, 6}, {0, 1, 2, 3, 4, 5, 6}}

// tryItems are those of another strategy: the baseline with its run times in percent of what
// they are and, unless days is 0, so many watering days a week.
func (e *Engine) tryItems(percent float64, days int) ([]yamlfile.Items, error) {
	st := e.opened.Strategies[e.opened.Baseline]
	st.Parts = slices.Clone(st.Parts)
	for k, part := range st.Parts {
		p, is := part.(strategy.Programs)
		if !is {
			continue
		}
		list := slices.Clone(p.List)
		for i := range list {
			list[i].Minutes = slices.Clone(list[i].Minutes)
			for z := range list[i].Minutes {
				list[i].Minutes[z] = clean(list[i].Minutes[z] * percent / 100)
			}
			if days > 0 {
				list[i].Days = strategy.DayRule{Kind: strategy.Weekdays}
				for _, d := range weekdays[min(days, 7)] {
					list[i].Days.Weekdays[d] = true
				}
			}
		}
		st.Parts[k] = strategy.Programs{List: list}
	}
	st.Name = "my try"
	for n := 2; slices.ContainsFunc(e.opened.Strategies, func(o strategy.Strategy) bool { return o.Name == st.Name }); n++ {
		st.Name = "my try " + strconv.Itoa(n)
	}
	w := scenarios.Writer{Units: e.opened.Units}
	for i := range e.opened.Zones {
		w.Zones = append(w.Zones, e.opened.Zones[i].Name)
	}
	if err := w.Add(&st, st.Name+": "); err != nil {
		return nil, err
	}
	var out []yamlfile.Items
	for line := range strings.Lines(w.String()) {
		line = strings.TrimRight(line, "\n")
		inner, deeper := strings.CutPrefix(line, "  ")
		if !deeper {
			out = append(out, yamlfile.Items{Key: strings.TrimSuffix(line, ":")})
			continue
		}
		list := &out[len(out)-1]
		if strings.HasPrefix(inner, "- ") {
			list.Items = append(list.Items, nil)
		}
		last := &list.Items[len(list.Items)-1]
		*last = append(*last, inner)
	}
	return out, nil
}

// A price is a price by volume in a file of rates.
type price struct {
	way   []yamlfile.Step
	value float64
}

// pricesIn finds the prices by volume in a file of rates.
func pricesIn(root *scenarios.Node) (out []price) {
	var walk func(n *scenarios.Node, way []yamlfile.Step)
	walk = func(n *scenarios.Node, way []yamlfile.Step) {
		for i, item := range n.Items {
			walk(item, append(slices.Clip(way), yamlfile.Step{Item: i}))
		}
		for _, entry := range n.Entries {
			own := append(slices.Clip(way), yamlfile.Step{Key: entry.Key})
			if v, err := strconv.ParseFloat(entry.Value.Text, 64); entry.Key == "price" && err == nil {
				out = append(out, price{own, v})
				continue
			}
			walk(entry.Value, own)
		}
	}
	if root == nil {
		return nil
	}
	if charges := root.Get("charges"); charges != nil {
		walk(charges, []yamlfile.Step{{Key: "charges"}})
	}
	return out
}

// pricesAt are the changes to prices at so many percent of them.
func pricesAt(list []price, percent float64) (out []yamlfile.Change) {
	for _, p := range list {
		out = append(out, yamlfile.Change{Way: p.way, Value: strconv.FormatFloat(clean(p.value*percent/100), 'f', -1, 64)})
	}
	return out
}

func splitKey(key string) []string { return strings.Split(key, ".") }
