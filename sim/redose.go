package sim

// Redose makes p the decisions of another plan, which must have kept its runs, on zone
// z: the same runs on the same days, with the doses that they are there. shares is
// [Shares] of z, with as many strips as the zone of the other plan. tawRatio is the TAW
// of z as a multiple of that of the other plan's zone: a soil sensor reads the soil that
// is there, so its threshold stays the same share of it. p uses its own memory for doses
// and shares everything else with the other plan, which it must not outlive.
func (p *Plan) Redose(of *Plan, z *Zone, shares []float64, tawRatio float64) {
	p.Spin, p.Dose, p.Reason, p.Watcher = of.Spin, of.Dose, of.Reason, of.Watcher
	p.Doses, p.In, p.KeepRuns = append(p.Doses[:0], Dose{}), p.In[:0], false
	for range shares {
		p.In = append(p.In, 0)
	}
	for _, runs := range of.Runs[1:] {
		p.AddDose(z, shares, runs)
	}
	p.Gate = nil
	if g := of.Gate; g != nil {
		// A reading of ratio times the depletion passes ratio times the threshold.
		p.gate.Weights = p.gate.Weights[:0]
		for _, w := range g.Weights {
			p.gate.Weights = append(p.gate.Weights, w/tawRatio)
		}
		p.gate.PermitAtMM, p.gate.ErrorMM = g.PermitAtMM, g.ErrorMM
		p.Gate = &p.gate
	}
}
