package tally

// UnevenRatio returns how many times the least water at full supply a site needs
// because of uneven coverage and losses alone: the mean over the zones of
// [sim.Zone.AppliedToNeeded], weighted by the least water of each, as in the
// application ratio. It is the one yardstick of unevenness: reports, searches and
// settings sheets compare with it. NaN if nothing is required.
func (t *Table) UnevenRatio() float64 {
	sum, weight, basis := 0.0, 0.0, t.Basis()
	for z := range t.Zones {
		zone := &t.Zones[z]
		need := float64(t.Sum(&basis, t.LeastWaterIndex(), z).GrossMM * zone.AreaM2)
		sum += float64(zone.AppliedToNeeded() * need)
		weight += need
	}
	return sum / weight
}
