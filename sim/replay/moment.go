package replay

import (
	"loamledger/sim"
	"loamledger/sim/strategy"
	"loamledger/weather/cal"
)

// A Moment is one day of one zone under one strategy, with the morning depletion
// of every strip: everything needed to follow the day's arithmetic.
type Moment struct {
	Row          Row
	Week         []Row    // up to seven days of the record, the last of them this one
	T30C         float64  // mean temperature of the 30 days before, if TempsKnown
	TempsKnown   bool     // the record has temperatures
	Planted      Planting // what grows on this day
	Zone         sim.Zone // the reference zone under the least-water reference
	Shares       []float64
	MorningMM    []float64 // depletion of each strip before anything happens
	Day          sim.Day
	Dose         sim.Dose  // what was given; the zero Dose means none
	Runs         []sim.Run // the starts of the dose; none for the references, which have no programs
	InfiltMM     []float64 // irrigation that entered each strip
	Seen         strategy.Seen
	Readings     []strategy.Reading // of the soil sensors that control the zone
	Level        int                // levels by which a person has raised run times
	SpinUpDays   int
	FullStart    bool // the record is too short for a spin-up pass and starts from a full root zone
	Changed      bool // a change of the zone begins on this day
	Reference    bool // the least-water reference: its dose is a depth, not a run time
	SensorClosed bool // watering was planned but the soil sensor did not permit it
}

// At returns the moment of strategy s on zone z at the given date. Strategies are
// numbered as in the table of [Run], with the references last. ok is false if the
// date is outside the record.
func At(job *Job, s, z int, date cal.Date) (m Moment, ok bool) {
	i := int(date - job.Weather.Start)
	if i < 0 || i >= job.Weather.Days() {
		return m, false
	}
	var r Runner
	r.stage.prepare(job, 1)
	r.prepareTable(job)
	var w worker
	w.prepare(&r.stage)
	look := strategy.Look{Zone: z, Day: r.stage.site.Spin + i}
	w.plans = grow(w.plans, len(job.Zones))
	w.compiler.Look, w.plans[z].KeepRuns = &look, true
	w.compile(s, &r.table)
	tr := &w.own.trace
	sheet := w.sheet(&r.table, s, z, w.zone(s, z, &r.table, &w.own.plan, tr), w.pieces, tr)
	today := sheet.On(i)
	zone, plan := today.Zone, today.plan
	given := int(tr.Dose[i])
	row := sheet.Row(i)
	m = Moment{
		Row: row, Zone: *zone, Day: today.Forcing[i], Changed: today.from > 0 && today.from == i, Shares: sim.Shares(zone.Strips, zone.DULQ),
		Dose:       plan.Doses[given],
		InfiltMM:   plan.In[given*zone.Strips:][:zone.Strips],
		SpinUpDays: plan.Spin, FullStart: plan.Spin == 0 && !job.NoSpinUp, Reference: s == r.table.LeastWaterIndex(),
		SensorClosed: row.Reason == sim.SensorWet,
	}
	for k := max(i-sim.R7Days+1, today.since); k <= i; k++ {
		m.Week = append(m.Week, sheet.Row(k))
	}
	if m.TempsKnown = r.stage.warmth.Known(); m.TempsKnown {
		m.T30C = r.stage.warmth.T30C[i]
	}
	m.Planted = plantingOf(&m, &sheet, i)
	w.morning(&sheet, i)
	m.MorningMM, m.Level = w.balance.DepletionMM, w.balance.Level()
	if m.Readings = look.Readings; plan.Gate != nil {
		m.Readings = append(m.Readings, strategy.ReadingOf(zone.Name, plan.Gate, m.MorningMM, look.Day))
	}
	if m.Level < len(look.Levels) {
		m.Seen = look.Levels[m.Level]
	}
	if given < len(plan.Runs) {
		m.Runs = plan.Runs[given]
	}
	return m, true
}

// morning takes the balance to the morning of day i of a sheet, after a change that
// comes on that day.
func (w *worker) morning(sheet *Sheet, i int) {
	pieces := sheet.Pieces
	if pieces == nil {
		pieces = []Piece{sheet.On(i)}
	}
	var unused sim.Sums
	for k := range pieces {
		p := &pieces[k]
		switch {
		case k == 0:
			w.begin(p.Zone, p.growth, p.Forcing, p.plan)
		case p.from > i:
			return
		default:
			w.enter(p, nil)
		}
		w.balance.Replay(p.Forcing[p.from:min(p.to, i)], nil, p.plan, p.plan.Spin+p.from, &unused, nil, 0)
	}
}

// A Planting is the plant that grows in a zone on one day.
type Planting struct {
	Season              *sim.Season // nil if K does not follow temperature, nor activity
	P                   float64
	Tolerance, Browning float64
	Active, Overseeded  bool
}

func plantingOf(m *Moment, sheet *Sheet, i int) Planting {
	p := Planting{Season: m.Zone.Season, P: m.Zone.P}
	growth := sheet.On(i).growth
	phase := growth.Phase[i]
	p.Active, p.Overseeded = phase&sim.Active != 0, phase&sim.Overseeded != 0
	if p.Overseeded {
		p.Season, p.P = m.Zone.Overseed.Season, m.Zone.Overseed.P
	}
	p.Tolerance, p.Browning = growth.Marks(i)
	return p
}
