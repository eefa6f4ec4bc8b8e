package sim

// replayStore is [Balance.Replay] for a zone of working storage: one even store,
// in which a day's water and draw are netted before its limits apply. Overflow
// percolates, counted as irrigation first and rain second. Water the store cannot
// supply is a deficit and makes a day past RAW. The store is even, so that R7 of
// its driest quarter is that of the zone: the share of the week's need that the
// store supplied.
func (b *Balance) replayStore(days []Day, g *Growth, p *Plan, from int, sums *Sums, tr *Trace, at int) {
	dr, before := b.DepletionMM[0], b.DepletionMM[0]
	b.begin(g, at, len(days))
	for t := range days {
		day := &days[t]
		given, in := p.Dose[from+t], 0.0
		if b.level > 0 && p.Watcher != nil {
			given = p.Watcher.Levels[b.level-1][from+t]
		}
		if given != 0 && p.Gate != nil && !p.Gate.permits(b.DepletionMM, 0, from+t) {
			given = 0
		}
		if given != 0 {
			in = p.In[given]
			sums.addDose(&p.Doses[given])
		}
		dr += day.ETcMM - in - day.RainInMM
		percIrr, percRain, deficit := 0.0, 0.0, 0.0
		if dr < 0 {
			percIrr = min(-dr, in)
			percRain = max(-dr-in, 0)
			dr = 0
		}
		if dr > b.tawMM {
			deficit, dr = min(dr-b.tawMM, day.ETcMM), b.tawMM // rounding is not a deficit
		}
		b.DepletionMM[0] = dr
		ks := 1.0
		if deficit > 0 {
			ks = 1 - deficit/day.ETcMM
		}
		if deficit > 0 {
			b.missed(t, deficit, deficit, 1-ks)
		}
		if Stressed(dr+deficit, b.tawMM) {
			sums.PastRAWDays++
		}
		if b.rests && b.phases[t]&WinterOpen != 0 && dr+deficit > dryWinterShare*b.tawMM {
			sums.DryWinterDays++
		}
		sums.PercIrrMM += percIrr
		sums.PercRainMM += percRain
		sums.ETaMM += day.ETcMM - deficit
		if p.Watcher != nil {
			b.watch(p.Watcher, ks)
		}
		if tr != nil {
			k := at + t
			tr.Dose[k], tr.PercIrrMM[k], tr.PercRainMM[k] = given, percIrr, percRain
			tr.ETaMM[k], tr.Ks[k], tr.LowQuarterMM[k], tr.DepletionMM[k] = day.ETcMM-deficit, ks, dr+deficit, dr
			tr.ShortMM[k], tr.LowShortMM[k] = deficit, deficit
		}
	}
	b.grade(g, at, len(days), sums)
	sums.Days += len(days)
	sums.StorageMM += before - dr
}
