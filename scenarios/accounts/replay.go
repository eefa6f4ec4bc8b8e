package accounts

import (
	"context"
	"fmt"
	"math"
	"slices"

	"loamledger/scenarios"
	"loamledger/scenarios/study"
	"loamledger/sim/portfolio"
	"loamledger/sim/replay"
	"loamledger/sim/strategy"
	"loamledger/sim/tally"
	"loamledger/weather/diag"
)

// Options say what is kept of an account.
type Options struct {
	AllMonths bool // months of every year, in addition to the median and the dry year
}

// Rows are what a replay leaves of one account.
type Rows struct {
	Account portfolio.Account
	Bills   []portfolio.Bill
	Results []portfolio.Result
	Months  []portfolio.Month
}

// Clone returns rows that stay.
func (r *Rows) Clone() *Rows {
	return &Rows{r.Account, slices.Clone(r.Bills), slices.Clone(r.Results), slices.Clone(r.Months)}
}

// A Replayer replays one account after another in the same memory. It is not safe for
// concurrent use; several may share program and sites.
type Replayer struct {
	program *Program
	sites   []Site // parallel to the stations of the program
	options Options
	runner  replay.Runner
	peak    [][]float64         // volume by strategy and day [m³]
	volume  []float64           // by dose [m³]
	water   []float64           // by billing period [m³]
	paid    [3][]float64        // by year: of the use indoors alone, of the reference, of a measure
	base    []strategy.Strategy // of the last run
	rows    Rows
}

// NewReplayer returns a Replayer.
func NewReplayer(p *Program, sites []Site, o Options) *Replayer {
	return &Replayer{program: p, sites: sites, options: o}
}

// Account replays an account. The rows are valid until the next call. An error of the account
// is a [*diag.Error] or [*diag.Errors] and stops no other account; any other is from ctx.
func (r *Replayer) Account(ctx context.Context, a *Account) (*Rows, error) {
	p := r.program
	at, km, elevM, err := p.station(a)
	if err != nil {
		return nil, err
	}
	d := &drawer{program: p, account: a.ID}
	plan, err := p.treeOf(a, at, d)
	if err != nil {
		return nil, err
	}
	sc, err := scenarios.BuildDrawn(plan.tree, a.Pos.File, d.pick)
	if err != nil {
		return nil, err
	}
	site := &r.sites[at]
	l, err := study.New(sc, site.Weather, site.Forecast)
	if err != nil {
		return nil, err
	}
	areaM2 := 0.0
	for z := range sc.Zones {
		areaM2 += sc.Zones[z].AreaM2
	}
	var cu *customer
	if site.biller != nil {
		if cu, err = site.biller.customer(a, areaM2, d); err != nil {
			return nil, err
		}
	}
	l.Job.DosesOnly = true
	l.Job.Strategies = l.Job.Strategies[:len(sc.Strategies)] // the baseline as rules would cut it is no measure
	found, err := r.asFound(a, plan, d)
	if err != nil {
		return nil, err
	}
	t, err := r.replay(ctx, l, a, &found)
	if err != nil {
		return nil, err
	}
	r.rows.Account = portfolio.Account{
		ID: a.ID, Station: p.Stations[at].Name, DistanceKM: known(km), ElevDiffM: known(elevM), Zones: int32(len(sc.Zones)), Class: a.Class,
		Area: a.District, AsFound: found.from, AsFoundScale: found.scale, Drawn: codes(d.drawn),
	}
	site.climate.put(&r.rows.Account)
	if cu != nil {
		r.rows.Account.IndoorLDay = &cu.indoorL
		plan.missing += cu.missing
		plan.values += cu.values
	}
	r.rows.Account.AreaM2 = areaM2
	if found.from == portfolio.Drawn {
		plan.missing++
	}
	r.rows.Account.ImputedShare = float64(plan.missing) / float64(plan.values+1)
	r.rows.Bills = r.rows.Bills[:0]
	for _, u := range a.Use {
		r.rows.Bills = append(r.rows.Bills, p.billOf(a, &u, l.Job.South))
	}
	if km > study.FarKM { // false if the distance is unknown
		found.alarms = append(found.alarms, string(scenarios.FarStation))
	}
	r.fill(l, t, a, plan, found.alarms)
	if cu != nil {
		r.price(site.biller, cu, t)
	}
	return &r.rows, nil
}

// A found is how an account waters as found.
type found struct {
	from   string  // of [portfolio.Account]
	scale  float64 // factor on run times
	target float64 // metered use [m³]; NaN if unknown
	alarms []string
}

// asFound chooses how the account waters as found, before the factor is known.
func (r *Replayer) asFound(a *Account, plan *plan, d *drawer) (found, error) {
	p := r.program
	switch {
	case len(a.Use) > 0:
		return found{from: portfolio.FromBills, scale: 1}, nil
	case plan.timed:
		return found{from: portfolio.Given, scale: 1, target: math.NaN()}, nil
	case p.AsFound.High > 0:
		d.note(scaleCode)
		return found{from: portfolio.Drawn, scale: p.AsFound.At(d.share(scaleCode)), target: math.NaN()}, nil
	}
	return found{}, &diag.Error{Code: diag.MissingKey, Pos: a.Pos,
		Msg: "nothing says how the account waters as found: it has neither outdoor_use nor minutes, and the program has no distribution",
		Fix: "give its outdoor_use, or add as_found: {scale: 40% to 100% to 250%} to the program, and say that it is assumed"}
}

// scaleCode names the drawn factor on run times.
const scaleCode = "as_found_scale"

// How near the replayed use must come to the metered one, and how often run times are changed
// to get there; the largest factor that is tried.
const (
	nearUse   = 0.001
	wideUse   = 0.01
	mostTries = 12
	mostScale = 20
)

// replay replays all strategies, with as-found run times that give the metered use.
func (r *Replayer) replay(ctx context.Context, l *study.Study, a *Account, f *found) (*tally.Table, error) {
	f.alarms = f.alarms[:0]
	base := l.Scenario.Baseline
	set := func(scale float64) *replay.Job {
		job := l.Job
		job.Strategies = make([]strategy.Strategy, len(l.Job.Strategies))
		for s := range job.Strategies {
			job.Strategies[s] = l.Job.Strategies[s].WithProgramTimes(r.program.programs, scale)
		}
		return &job
	}
	if f.from != portfolio.FromBills {
		if f.from == portfolio.Drawn && portfolio.ExtremeScale(f.scale) {
			f.alarms = append(f.alarms, string(scaleExtreme))
		}
		return r.run(ctx, set(f.scale), false)
	}
	if err := r.uses(l, a, f); err != nil {
		return nil, err
	}
	s := solver{target: f.target}
	if f.target == 0 {
		f.scale, f.alarms = 0, append(f.alarms, string(noOutdoorUse))
		return r.run(ctx, set(0), false)
	}
	t, err := r.runner.Trial(ctx, set(1), set(1).Strategies[base:base+1])
	if err != nil {
		return nil, err
	}
	s.add(1, r.useOf(t, 0, a))
	if s.points[0].use == 0 {
		return nil, &diag.Error{Code: diag.NeverWaters, Pos: a.Pos, Fix: "correct the use, or the programs of the baseline",
			Msg: "the account has metered outdoor use, and its as-found programs never water"}
	}
	for range mostTries {
		f.scale = s.next()
		if f.scale > mostScale {
			return nil, &diag.Error{Code: diag.OutOfRange, Pos: a.Use[0].Pos,
				Fix: "check unit and amount of the outdoor use, and the area of the zones",
				Msg: fmt.Sprintf("the metered outdoor use would need %.0f times the run times of the program; the maximum is %d", f.scale, mostScale)}
		}
		if t, err = r.run(ctx, set(f.scale), true); err != nil {
			return nil, err
		}
		use := r.useOf(t, base, a)
		if s.add(f.scale, use); math.Abs(use-f.target) <= nearUse*f.target || s.stuck() {
			break
		}
	}
	if math.Abs(s.last().use-f.target) > wideUse*f.target {
		f.alarms = append(f.alarms, string(billNotMatched))
	}
	if portfolio.ExtremeScale(f.scale) {
		f.alarms = append(f.alarms, string(scaleExtreme))
	}
	return t, nil
}

// uses adds up the metered use that can be compared with the replay.
func (r *Replayer) uses(l *study.Study, a *Account, f *found) error {
	basis := replay.BasisOf(&l.Job)
	f.target = 0
	n := 0
	for _, u := range a.Use {
		if u.Year == 0 && !basis.Yearly() || u.Year != 0 && !covered(&basis, u.Year) {
			f.alarms = append(f.alarms, string(billOutside))
			continue
		}
		f.target += u.M3
		n++
	}
	if n == 0 {
		return &diag.Error{Code: diag.NoWholeYear, Pos: a.Use[0].Pos, Msg: "no year of the metered outdoor use is a whole year of the weather",
			Fix: "give weather of those years, or outdoor_use of a usual year"}
	}
	return nil
}

func covered(b *tally.Basis, year int) bool {
	for _, y := range b.Years {
		if y == year {
			return true
		}
	}
	return false
}

// useOf returns what strategy s uses in the time of the metered use [m³].
func (r *Replayer) useOf(t *tally.Table, s int, a *Account) (sum float64) {
	basis := t.Basis()
	for _, u := range a.Use {
		switch {
		case u.Year == 0 && basis.Yearly():
			for z := range t.Zones {
				sum += t.Sum(&basis, s, z).GrossMM / 1000 * t.Zones[z].AreaM2 / basis.Divisor()
			}
		case covered(&basis, u.Year):
			sum += t.VolumeInYear(s, u.Year)
		}
	}
	return sum
}

// run replays a job and notes the highest volume of a day in each year. after says that the
// day records of a trial are at hand.
func (r *Replayer) run(ctx context.Context, job *replay.Job, after bool) (*tally.Table, error) {
	r.beginPeaks(job)
	if after {
		return r.runner.After(ctx, job, r.takePeak)
	}
	return r.runner.Run(ctx, job, r.takePeak)
}

// known returns nil for NaN.
func known(v float64) *float64 {
	if math.IsNaN(v) {
		return nil
	}
	return &v
}
