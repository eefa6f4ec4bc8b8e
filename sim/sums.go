package sim

// Sums totals the days of one zone under one strategy. Depths are means over the
// zone [mm].
type Sums struct {
	Days           int
	WateringDays   int // days on which water was applied
	SeasonDays     int // days of the months in which water was applied
	StressDays     int // active days on which R7 of the driest quarter is below the plant's tolerance
	StressZoneDays int // the same for the whole zone
	BrownDays      int // active days on which R7 of the driest quarter is below the browning mark
	BrownZoneDays  int // the same for the whole zone
	DryWinterDays  int // dormant days, not frozen, with the driest quarter depleted beyond dryWinterShare of TAW
	PastRAWDays    int // low-quarter depletion above RAW after watering and rain
	RunoffEvents   int // days with irrigation runoff of at least EventRunoffMM
	RainRunoffDays int // days with rain runoff of at least EventRunoffMM
	LongestStreak  int // longest run of stress days of the driest quarter that ends in this period
	Minutes        float64
	EToMM          float64
	ETcMM          float64
	ETaMM          float64
	RainMM         float64
	RainRunoffMM   float64
	RainEvapMM     float64
	GrossMM        float64
	SprayLossMM    float64
	OversprayMM    float64 // landed outside the zone
	BrokenMM       float64 // lost through broken heads
	FillDrainMM    float64 // lost by filling and draining pipes
	LeakMM         float64 // leaked; part of GrossMM, since it is metered
	IrrRunoffMM    float64
	PercIrrMM      float64 // percolation of irrigation water
	PercRainMM     float64 // percolation of rain
	SeverityDays   float64 // Σ(1 − Ks) over active days, mean over strips, in day-equivalents
	StorageMM      float64 // gain of soil water: depletion before minus after
}

// Add adds b to a.
func (a *Sums) Add(b *Sums) {
	a.Days += b.Days
	a.WateringDays += b.WateringDays
	a.SeasonDays += b.SeasonDays
	a.StressDays += b.StressDays
	a.StressZoneDays += b.StressZoneDays
	a.BrownDays += b.BrownDays
	a.BrownZoneDays += b.BrownZoneDays
	a.DryWinterDays += b.DryWinterDays
	a.PastRAWDays += b.PastRAWDays
	a.RunoffEvents += b.RunoffEvents
	a.RainRunoffDays += b.RainRunoffDays
	a.LongestStreak = max(a.LongestStreak, b.LongestStreak)
	a.Minutes += b.Minutes
	a.EToMM += b.EToMM
	a.ETcMM += b.ETcMM
	a.ETaMM += b.ETaMM
	a.RainMM += b.RainMM
	a.RainRunoffMM += b.RainRunoffMM
	a.RainEvapMM += b.RainEvapMM
	a.GrossMM += b.GrossMM
	a.SprayLossMM += b.SprayLossMM
	a.OversprayMM += b.OversprayMM
	a.BrokenMM += b.BrokenMM
	a.FillDrainMM += b.FillDrainMM
	a.LeakMM += b.LeakMM
	a.IrrRunoffMM += b.IrrRunoffMM
	a.PercIrrMM += b.PercIrrMM
	a.PercRainMM += b.PercRainMM
	a.SeverityDays += b.SeverityDays
	a.StorageMM += b.StorageMM
}

// Residual returns the closing error of the balance [mm]: inflow less outflow less
// storage gain.
func (a *Sums) Residual() float64 {
	return a.GrossMM + a.RainMM - a.LossesMM() - a.IrrRunoffMM - a.RainRunoffMM - a.RainEvapMM -
		a.PercIrrMM - a.PercRainMM - a.ETaMM - a.StorageMM
}

// NeedMet returns the share of need met, ΣETa/ΣETc, or 1 if nothing was needed.
func (a *Sums) NeedMet() float64 {
	if a.ETcMM == 0 {
		return 1
	}
	return a.ETaMM / a.ETcMM
}

// LossesMM returns the metered water that never reached the zone's soil or
// surface: spray loss, overspray, broken heads, filling and draining, leaks.
func (a *Sums) LossesMM() float64 {
	return a.SprayLossMM + a.OversprayMM + a.BrokenMM + a.FillDrainMM + a.LeakMM
}

// ShareLost returns the share of applied water that was lost: (irrigation runoff +
// percolation of irrigation + losses)/gross, or 0 if nothing was applied.
func (a *Sums) ShareLost() float64 {
	if a.GrossMM == 0 {
		return 0
	}
	return (a.IrrRunoffMM + a.PercIrrMM + a.LossesMM()) / a.GrossMM
}
