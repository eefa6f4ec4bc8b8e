package sim

// Sums adds up the days of one zone under one strategy. Depths are means over
// the zone [mm].
type Sums struct {
	Days           int
	WateringDays   int // days on which water was applied
	StressDays     int // low-quarter depletion above RAW after watering and rain
	RunoffEvents   int // days with irrigation runoff of at least EventRunoffMM
	RainRunoffDays int // days with rain runoff of at least EventRunoffMM
	LongestStreak  int // longest run of stress days that ends in these days
	Minutes        float64
	EToMM          float64
	ETcMM          float64
	ETaMM          float64
	RainMM         float64
	RainRunoffMM   float64
	RainEvapMM     float64
	GrossMM        float64
	SprayLossMM    float64
	IrrRunoffMM    float64
	PercIrrMM      float64 // percolation of irrigation water
	PercRainMM     float64 // percolation of rain
	SeverityDays   float64 // Σ(1 − Ks), mean over strips, in day-equivalents
	StorageMM      float64 // gain of soil water: depletion before minus after
}

// Add adds b to a.
func (a *Sums) Add(b *Sums) {
	a.Days += b.Days
	a.WateringDays += b.WateringDays
	a.StressDays += b.StressDays
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
	a.IrrRunoffMM += b.IrrRunoffMM
	a.PercIrrMM += b.PercIrrMM
	a.PercRainMM += b.PercRainMM
	a.SeverityDays += b.SeverityDays
	a.StorageMM += b.StorageMM
}

// Residual returns how far the balance is from closing [mm]: what came in
// less what went out and what stayed.
func (a *Sums) Residual() float64 {
	return a.GrossMM + a.RainMM - a.SprayLossMM - a.IrrRunoffMM - a.RainRunoffMM - a.RainEvapMM - a.PercIrrMM - a.PercRainMM - a.ETaMM - a.StorageMM
}

// Adequacy returns ΣETa/ΣETc, 1 where nothing was asked for.
func (a *Sums) Adequacy() float64 {
	if a.ETcMM == 0 {
		return 1
	}
	return a.ETaMM / a.ETcMM
}

// Excess returns the share of the water applied that served no plant:
// (irrigation runoff + percolation of irrigation + spray loss)/gross; 0 where
// nothing was applied.
func (a *Sums) Excess() float64 {
	if a.GrossMM == 0 {
		return 0
	}
	return (a.IrrRunoffMM + a.PercIrrMM + a.SprayLossMM) / a.GrossMM
}
