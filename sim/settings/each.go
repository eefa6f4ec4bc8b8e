package settings

import (
	"errors"
	"fmt"
	"slices"
	"sort"

	"loamledger/sim"
	"loamledger/sim/strategy"
)

// own returns a program with the run times of the zones on the sheet.
func (b *maker) own(p *strategy.Program) *strategy.Program {
	if b.only == nil {
		return p
	}
	q := *p
	q.Minutes = slices.Clone(p.Minutes)
	for z := range q.Minutes {
		if !b.on(z) {
			q.Minutes[z] = 0
		}
	}
	return &q
}

// on reports whether a zone is on the sheet.
func (b *maker) on(z int) bool { return b.only == nil || b.only[z] }

// binds reports whether a rule binds any zone of the sheet.
func (b *maker) binds(r *strategy.Rule) bool {
	for z := range b.site.Zones {
		if b.on(z) && !b.exempt(z, r) {
			return true
		}
	}
	return b.only == nil
}

// MakeEach makes the sheet of each controller of a site with several, and returns their
// sum. The error is that of [Make]; [ErrNothing] only if no controller has a sheet.
func MakeEach(site *strategy.Site, st *strategy.Strategy, each []Options) (*Sheet, error) {
	var sheets []*Sheet
	var without []DryZone
	for _, o := range each {
		sheet, err := Make(site, st, o)
		switch {
		case errors.Is(err, ErrNothing):
			for z, is := range o.Only {
				if is {
					without = append(without, DryZone{Zone: z, Reason: NotIncluded})
				}
			}
		case err != nil:
			return nil, err
		default:
			sheets = append(sheets, sheet)
		}
	}
	if sheets == nil {
		return nil, ErrNothing
	}
	return Sum(st.Name, site.Zones, sheets, without), nil
}

// Sum returns the settings of a site whose controllers have the given sheets, none of
// them joined. zones are those of the site and without lists zones of controllers that have
// no sheet, since nothing of the strategy runs on them.
func Sum(name string, zones []sim.Zone, sheets []*Sheet, without []DryZone) *Sheet {
	out := &Sheet{Name: name, Zones: zones, Each: sheets, Percent: sheets[0].Percent, Parts: sheets[0].Parts, Dry: without}
	for _, s := range sheets {
		out.Programs = append(out.Programs, s.Programs...)
		out.Misfits = append(out.Misfits, s.Misfits...)
		for _, note := range s.Notes {
			if text := fmt.Sprintf("%s: %s", s.Controller, note); !slices.Contains(out.Notes, text) {
				out.Notes = append(out.Notes, text)
			}
		}
		out.Queued = append(out.Queued, s.Queued...)
		out.Held = append(out.Held, s.Held...)
		out.Merged = append(out.Merged, s.Merged...)
		out.Dry = append(out.Dry, s.Dry...)
		for m, t := range s.Times {
			of := &out.Times[m]
			switch {
			case !t.Waters:
			case !of.Waters:
				*of = t
			default:
				of.StartMin, of.FinishMin = min(of.StartMin, t.StartMin), max(of.FinishMin, t.FinishMin)
			}
		}
	}
	sort.SliceStable(out.Dry, func(x, y int) bool { return out.Dry[x].Zone < out.Dry[y].Zone })
	sortHeld(out.Held)
	return out
}
