package plots

import (
	"cmp"
	"slices"

	"loamledger/sim/tally"
)

// mostParts is how many zones have a part of their own in the report: paper is
// read by the page.
const mostParts = 12

// A ZonePart is the section of one zone.
type ZonePart struct {
	Name   string
	Inputs []Item
	Table  Table
}

// zoneParts returns a part for each of the largest zones, in the order of the
// site, and one table for all others.
func (s *Study) zoneParts(rows []tally.Row, best int) ([]ZonePart, *Table) {
	order := make([]int, len(s.Table.Zones))
	for z := range order {
		order[z] = z
	}
	slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(s.Table.Zones[b].AreaM2, s.Table.Zones[a].AreaM2) })
	n := min(mostParts, len(order))
	slices.Sort(order[:n])
	slices.Sort(order[n:])
	var parts []ZonePart
	for _, z := range order[:n] {
		parts = append(parts, s.zonePart(z))
	}
	if n == len(order) {
		return parts, nil
	}
	return parts, s.otherZones(order[n:], rows, best)
}

// otherZones sets the zones of the given indices in one table, under the first
// strategy and the one picked.
func (s *Study) otherZones(zones []int, rows []tally.Row, best int) *Table {
	u, years := s.Units, s.years()
	t := &Table{
		Caption: "The " + count(len(zones), "smaller zone", "smaller zones") + ", under " + quote(rows[0].Strategy) + ".",
		First:   "Zone",
		Head:    []string{"Area [" + u.areaUnit() + "]", "TAW [" + u.depthUnit() + "]", "PR [" + u.depthUnit() + "/h]", "DU_LQ", "Water a year [" + u.depthUnit() + "]", "Stress days a year", "Runoff days a year"},
		Minor:   []bool{true, true, true, true, false, false, false},
	}
	of := []int{0}
	if best > 0 {
		of = append(of, best)
		t.Caption = "The " + count(len(zones), "smaller zone", "smaller zones") + ": the first figure of a pair is that of " + quote(rows[0].Strategy) + ", the second that of " + quote(rows[best].Strategy) + "."
	}
	t.Caption += " The other strategies are in tally.csv."
	for _, z := range zones {
		zone := &s.Table.Zones[z]
		row := TableRow{Name: zone.Name, Cells: []string{rounded(u.area(zone.AreaM2)), fixed(u.depth(zone.TAWMM), u.depthDigits()+1),
			fixed(u.depth(zone.PRMMH), u.depthDigits()+1), percent(zone.DULQ), "", "", ""}}
		for i, st := range of {
			sum := s.Table.Total(st, z)
			for k, text := range []string{fixed(u.depth(sum.GrossMM/years), u.depthDigits()), fixed(float64(sum.StressDays)/years, 0), events(float64(sum.RunoffEvents) / years)} {
				if i > 0 {
					text = "; " + text
				}
				row.Cells[4+k] += text
			}
		}
		t.Rows = append(t.Rows, row)
	}
	return t
}

// zonePart sets the section of zone z.
func (s *Study) zonePart(z int) ZonePart {
	u, zone, years := s.Units, &s.Table.Zones[z], s.years()
	p := ZonePart{Name: zone.Name}
	rate := func(mmh float64) string {
		return fixed(u.depth(mmh), u.depthDigits()+1) + " " + u.depthUnit() + "/h"
	}
	k := fixed(zone.K[0], 2)
	same := true
	for _, v := range zone.K[1:] {
		same = same && v == zone.K[0]
	}
	if !same {
		for _, v := range zone.K[1:] {
			k += " " + fixed(v, 2)
		}
		k += " (January to December)"
	}
	p.Inputs = []Item{
		{"Area", rounded(u.area(zone.AreaM2)) + " " + u.areaUnit()},
		{"Plant coefficient K", k},
		{"Stress fraction p", fixed(zone.P, 2)},
		{"Total available water TAW", fixed(u.depth(zone.TAWMM), u.depthDigits()+1) + " " + u.depthUnit()},
		{"Precipitation rate PR", rate(zone.PRMMH)},
		{"Intake rate IR", rate(zone.IntakeMMH)},
		{"Surface storage ASA", fixed(u.depth(zone.SurfaceStorageMM), u.depthDigits()+1) + " " + u.depthUnit()},
		{"Low-quarter uniformity DU_LQ", percent(zone.DULQ)},
		{"Spray loss", percent(zone.LossShare)},
		{"Strips", fixed(float64(zone.Strips), 0)},
	}
	for _, share := range []struct {
		term string
		v    float64
	}{{"Overspray", zone.OversprayShare}, {"Broken heads", zone.BrokenShare}} {
		if share.v > 0 {
			p.Inputs = append(p.Inputs, Item{share.term, percent(share.v) + " of the water applied"})
		}
	}
	depth := func(mm float64) string { return fixed(u.depth(mm), u.depthDigits()+2) + " " + u.depthUnit() }
	if zone.FillDrainMM > 0 {
		p.Inputs = append(p.Inputs, Item{"Filling and draining pipes", depth(zone.FillDrainMM) + " each cycle"})
	}
	if zone.LeakMMDay > 0 {
		p.Inputs = append(p.Inputs, Item{"Leak", depth(zone.LeakMMDay) + " a day"})
	}
	if zone.WorkingStorage {
		p.Inputs = append(p.Inputs, Item{"Balance", "a plain store of the TAW above; stress begins when it is empty, and p does not matter"})
	}
	p.Table = Table{First: "Strategy", Minor: []bool{false, false, true, false, true, true, true}, Head: []string{"Water a year [" + u.depthUnit() + "]", "Stress days a year", "Longest streak [days]", "Runoff days a year",
		"Percolation a year [" + u.depthUnit() + "]", "Adequacy", "Excess"}}
	for st, name := range s.Table.Strategies {
		sum := s.Table.Total(st, z)
		row := TableRow{Name: name, Reference: st >= s.own(), Cells: []string{
			fixed(u.depth(sum.GrossMM/years), u.depthDigits()), fixed(float64(sum.StressDays)/years, 0), fixed(float64(sum.LongestStreak), 0),
			events(float64(sum.RunoffEvents) / years), fixed(u.depth((sum.PercIrrMM+sum.PercRainMM)/years), u.depthDigits()),
			percent(sum.Adequacy()), percent(sum.Excess()),
		}}
		if row.Reference {
			row.Note = "reference"
		}
		p.Table.Rows = append(p.Table.Rows, row)
	}
	return p
}
