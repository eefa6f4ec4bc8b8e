package plots

import (
	"cmp"
	"slices"

	"loamledger/sim/tally"
)

// maxParts is how many zones have their own part in the report, which people
// print.
const maxParts = 12

// A ZonePart is the section of one zone.
type ZonePart struct {
	Name   string
	Inputs []Item
	Table  Table
}

// zoneParts returns a part for each of the largest zones, in the order of the
// site, and one table for the others.
func (s *Study) zoneParts(best int) ([]ZonePart, *Table) {
	order := make([]int, len(s.Table.Zones))
	for z := range order {
		order[z] = z
	}
	slices.SortStableFunc(order, func(a, b int) int {
		return cmp.Compare(s.Table.Zones[b].AreaM2, s.Table.Zones[a].AreaM2)
	})
	n := min(maxParts, len(order))
	slices.Sort(order[:n])
	slices.Sort(order[n:])
	var parts []ZonePart
	cells := s.Table.Cells()
	for _, z := range order[:n] {
		parts = append(parts, s.zonePart(cells, z))
	}
	if n == len(order) {
		return parts, nil
	}
	return parts, s.otherZones(cells, order[n:], best)
}

// otherZones writes the given zones into one table, under the baseline and
// the one that the verdict names.
func (s *Study) otherZones(cells *tally.Cells, zones []int, best int) *Table {
	u, names := s.Units, s.Table.Strategies
	t := &Table{
		Caption: "The " + count(len(zones), "smaller zone", "smaller zones") + ", under " + quote(names[s.base()]) + ".",
		First:   "Zone",
		Head:    []string{"Area (" + u.areaUnit() + ")", "TAW (" + u.depthUnit() + ")", "PR (" + u.depthUnit() + "/h)", "DU_LQ"},
		Minor:   []bool{true, true, true, true},
	}
	figures := slices.DeleteFunc(tally.ZoneFigures(s.measures()), func(f tally.Figure) bool { return f.Minor })
	for i := range figures {
		t.Head, t.Minor = append(t.Head, u.heading(&figures[i], &cells.Basis, true)), append(t.Minor, false)
	}
	if best != s.base() {
		t.Caption = "The " + count(len(zones), "smaller zone", "smaller zones") + ": the first value of a pair is for " + quote(names[s.base()]) +
			", the second for " + quote(names[best]) + "."
	}
	t.Caption += " See tally.csv for the other strategies."
	for _, z := range zones {
		zone := &s.Table.Zones[z]
		row := TableRow{Name: zone.Name, Cells: []string{
			rounded(u.area(zone.AreaM2)), fixed(u.depth(zone.TAWMM), u.depthDigits()+1),
			fixed(u.depth(zone.PRMMH), u.depthDigits()+1), percent(zone.DULQ),
		}}
		for i := range figures {
			m, over := figures[i].Measure, figures[i].Over
			cell := u.figure(m, cells.Zone(m, s.base(), z, over))
			if best != s.base() {
				cell += "; " + u.figure(m, cells.Zone(m, best, z, over))
			}
			row.Cells = append(row.Cells, cell)
		}
		t.Rows = append(t.Rows, row)
	}
	return t
}

// zonePart writes the section of zone z.
func (s *Study) zonePart(cells *tally.Cells, z int) ZonePart {
	u, zone := s.Units, &s.Table.Zones[z]
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
		p.Inputs = append(p.Inputs, Item{"Pipes that fill and drain", depth(zone.FillDrainMM) + " per cycle"})
	}
	if zone.LeakMMDay > 0 {
		p.Inputs = append(p.Inputs, Item{"Leak", depth(zone.LeakMMDay) + " a day"})
	}
	if zone.WorkingStorage {
		p.Inputs = append(p.Inputs, Item{"Balance", "a plain store as large as TAW; stress begins when it is empty, regardless of p"})
	}
	p.Table = s.zoneTable(cells, z)
	return p
}
