package sim

import "slices"

// A Reason is why a zone was or was not watered on a day.
type Reason uint8

// The reasons. The zero Reason is a day on which nothing was due.
const (
	NotScheduled   Reason = iota // no program runs on this day
	Watered                      // a program ran
	Refilled                     // the strategy's own water balance called for a refill
	NotDue                       // the strategy's own water balance called for nothing
	ScaledToZero                 // the percentage left no minutes
	RainHold                     // held after rain
	FrostHold                    // held after a night of frost
	WindHold                     // held after a windy day
	ForecastHold                 // held for forecast rain
	SensorWet                    // held by the soil sensor
	Suspended                    // suspended or out of season
	NotAllowed                   // the site's limits forbid the day
	NoRoom                       // did not fit the watering window
	ForesightDaily               // reference: least water with perfect foresight
	Reasons                      // number of reasons
)

var reasonNames = [Reasons]string{
	NotScheduled: "not scheduled", Watered: "watered", Refilled: "refilled", NotDue: "not due", ScaledToZero: "scaled to zero",
	RainHold: "held: rain", FrostHold: "held: frost", WindHold: "held: wind", ForecastHold: "held: forecast", SensorWet: "sensor wet",
	Suspended: "suspended", NotAllowed: "not allowed", NoRoom: "no room in window", ForesightDaily: "least water",
}

func (r Reason) String() string { return reasonNames[r] }

// A Gate is a soil sensor that permits watering only if the soil is dry enough.
// Its reading is the depletion at the end of the previous day, weighted over the
// strips, plus the day's error.
type Gate struct {
	Weights    []float64 // one per strip, sum 1
	PermitAtMM float64   // watering is permitted at this depletion or above
	ErrorMM    []float64 // error of the reading on each day of the plan; empty for none
}

// Clone returns a copy that shares no memory; nil for nil.
func (g *Gate) Clone() *Gate {
	if g == nil {
		return nil
	}
	return &Gate{slices.Clone(g.Weights), g.PermitAtMM, slices.Clone(g.ErrorMM)}
}

// A Watcher is a person who looks at the plants, raises run times when they show
// stress, and later lowers them again. Each level has its own plan.
type Watcher struct {
	Levels    [][]int32 // for each level above the first, the dose of each day, as Plan.Dose
	SeenKs    float64   // stress is visible on days with mean Ks below this
	AfterDays int       // consecutive days of visible stress that raise the level by one
	CalmDays  int       // consecutive days without it that lower the level by one
}

// A Plan is what a controller does in one zone. It is computed before the replay,
// since only Gate and Watcher depend on soil or plants. Its days are the spin-up
// days, if any, followed by the days of the record.
type Plan struct {
	Spin    int       // number of spin-up days before the record
	Dose    []int32   // index into Doses for each day; 0 is no water
	Reason  []Reason  // for each day
	Doses   []Dose    // Doses[0] is the empty dose
	In      []float64 // depth infiltrated [mm]: for each dose, one value a strip
	Gate    *Gate     // nil for none
	Watcher *Watcher  // nil for none

	// KeepRuns requests Runs, the runs of each dose, to explain it; a replay does
	// not need them. Reset does not change KeepRuns.
	KeepRuns bool
	Runs     [][]Run

	gate Gate // memory of [Plan.Redose]
}

// Reset empties the plan for spin spin-up days and n days of record, on a zone
// with the given number of strips. It reuses its memory.
func (p *Plan) Reset(spin, n, strips int) {
	total := spin + n
	if cap(p.Dose) < total {
		p.Dose, p.Reason = make([]int32, total), make([]Reason, total)
	}
	p.Spin, p.Dose, p.Reason = spin, p.Dose[:total], p.Reason[:total]
	clear(p.Dose)
	clear(p.Reason)
	p.Doses = append(p.Doses[:0], Dose{})
	p.In, p.Runs = p.In[:0], append(p.Runs[:0], nil)
	for range strips {
		p.In = append(p.In, 0)
	}
	p.Gate, p.Watcher = nil, nil
}

// AddDose appends the dose of the given runs on zone z and returns its index.
func (p *Plan) AddDose(z *Zone, shares []float64, runs []Run) int32 {
	at := len(p.In)
	for range shares {
		p.In = append(p.In, 0)
	}
	p.Doses = append(p.Doses, Dose{})
	z.dose(&p.Doses[len(p.Doses)-1], runs, shares, p.In[at:]) // in place: a dose is long to copy
	if p.KeepRuns {
		p.Runs = append(p.Runs, slices.Clone(runs))
	}
	return int32(len(p.Doses) - 1)
}

// AddLevel adds the doses of another plan of the same zone as the next level of
// the Watcher, which must be set.
func (p *Plan) AddLevel(level *Plan, strips int) {
	base := int32(len(p.Doses)) - 1
	p.Doses = append(p.Doses, level.Doses[1:]...)
	p.In = append(p.In, level.In[strips:]...)
	p.Runs = append(p.Runs, level.Runs[1:]...)
	dose := make([]int32, len(level.Dose))
	for i, d := range level.Dose {
		if d != 0 {
			dose[i] = base + d
		}
	}
	p.Watcher.Levels = append(p.Watcher.Levels, dose)
}
