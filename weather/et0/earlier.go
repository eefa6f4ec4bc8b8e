package et0

import (
	"math"

	"loamledger/weather"
)

// Earlier is what [Daily] computed of a series, so that a later call need not
// compute the days again whose inputs have stayed as they were. The zero
// Earlier knows nothing.
type Earlier struct {
	station  weather.Station
	o        Options
	days     []inputs
	computed []float64
	methods  []Method
}

// DailyKept is [Daily] and keeps what it computed.
func DailyKept(s *weather.Series, o Options) (Result, *Earlier, error) {
	r, err := Daily(s, o)
	if err != nil {
		return r, &Earlier{}, err
	}
	k := &Earlier{station: s.Station, o: o.computing(), days: make([]inputs, s.Days), computed: r.ComputedMM}
	c, doys := columnsOf(s), yearDays(s)
	for i := range k.days {
		k.days[i] = c.day(i, int(doys[i]))
	}
	// Else supplied or calibrated values have taken the place of computed ones.
	if o.IgnoreSupplied && !o.CalibrateHargreaves {
		k.methods = r.Methods
	}
	return r, k, nil
}

// computing returns the options by which days are computed.
func (o Options) computing() Options {
	o = o.withDefaults()
	o.IgnoreSupplied, o.CalibrateHargreaves = false, false
	return o
}

// serves reports whether k holds the days of s computed by options o.
func (k *Earlier) serves(s *weather.Series, o Options) bool {
	return k != nil && len(k.methods) == s.Days && k.o == o.computing() && sameBits(k.station.LatDeg, s.Station.LatDeg) &&
		sameBits(k.station.ElevM, s.Station.ElevM) && sameBits(k.station.WindHeightM, s.Station.WindHeightM)
}

func sameBits(x, y float64) bool { return math.Float64bits(x) == math.Float64bits(y) }

// same reports whether two days have the same inputs, to the last bit.
func (d *inputs) same(b *inputs) bool {
	return sameBits(d.tmaxC, b.tmaxC) && sameBits(d.tminC, b.tminC) && sameBits(d.eaKPa, b.eaKPa) && sameBits(d.tdewC, b.tdewC) &&
		sameBits(d.rhmaxPct, b.rhmaxPct) && sameBits(d.rhminPct, b.rhminPct) && sameBits(d.rhmeanPct, b.rhmeanPct) &&
		sameBits(d.rsMJ, b.rsMJ) && sameBits(d.sunH, b.sunH) && sameBits(d.windMS, b.windMS) && d.doy == b.doy
}
