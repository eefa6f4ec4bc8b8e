package study

import (
	"fmt"
	"math"

	"loamledger/scenarios"
	"loamledger/sim"
	"loamledger/weather"
	"loamledger/weather/cal"
	"loamledger/weather/diag"
	"loamledger/weather/et0"
	"loamledger/weather/fill"
	"loamledger/weather/prepare"
)

// Records are what was read for a scenario's weather.
type Records struct {
	Parts  []*weather.Record // the station's record, or parts of it in the order in which they are named
	Gauge  *weather.Record   // a nearer rain gauge; nil for none
	Donors []*weather.Record // stations that gaps are filled from, first choice first
	// SelfTest also tries the filling on days that are known.
	SelfTest bool
}

// Weather is a record made ready for the studies of one station and one set of
// weather rules. It is not changed once it is made.
type Weather struct {
	*prepare.Ready
	columns      sim.Weather
	stated       weather.Station // as the file states it
	first, last  cal.Date        // of the record as read
	seenAt, seen int             // where the assumptions tell how the station lies from the site, and in how many lines
}

// Prepare joins the parts of a record and makes it ready as the scenario's
// rules of weather say; where the file states no place, the scenario's site is
// taken. The records are changed. Faults of the records are [*diag.Error] and
// [*diag.Errors]; beside a fault stands what was learned up to there, to be
// shown and not to be replayed, nil where that is nothing. No parts at all is a
// programmer's error.
func Prepare(sc *scenarios.Scenario, in Records) (*Weather, error) {
	w := &sc.Weather
	rec, err := prepare.Join(in.Parts)
	if err != nil {
		return nil, err
	}
	note := func(format string, args ...any) {
		rec.Assumptions = append(rec.Assumptions, fmt.Sprintf(format, args...))
	}
	out := &Weather{stated: rec.Station, first: rec.Start, last: rec.End(), seenAt: len(rec.Assumptions)}
	if far := weather.Between(siteStation(sc.Site), rec.Station); far != "" {
		note("%s", seenFrom(far))
		out.seen = 1
	}
	placeStation(&rec.Station, sc.Site)
	for i, donor := range in.Donors {
		if i == 0 {
			note("gaps are filled from the second station %s%s", stationName(donor), distance(rec.Station, donor.Station))
		} else {
			note("what that station lacks is taken from %s%s", stationName(donor), distance(rec.Station, donor.Station))
		}
	}
	if in.Gauge != nil {
		note("rain is that of the gauge %s%s", stationName(in.Gauge), distance(rec.Station, in.Gauge.Station))
	}
	if outside := outsideYears(rec, w.ExcludeYears); len(outside) > 0 {
		return nil, &diag.Error{Code: diag.NoDaysLeft, Pos: w.Pos, Msg: fmt.Sprintf("%s are to be left out, and the record runs from %v to %v", joinYears(outside), rec.Start, rec.End()), Fix: "name years of the record"}
	}
	if len(w.ExcludeYears) > 0 {
		note("%s are replayed, so that the balance steps through them, and count in no ranking, sum or mean", joinYears(w.ExcludeYears))
	}
	o := prepare.Options{Dates: w.Dates, Gauge: in.Gauge, Donors: in.Donors, Fill: fillOptions(&w.WeatherRules), ET: etOptions(&w.WeatherRules), SelfTest: in.SelfTest}
	if out.Ready, err = prepare.Record(rec, o); err != nil {
		return out, err
	}
	out.columns = simWeather(out.Ready)
	return out, nil
}

func fillOptions(w *scenarios.WeatherRules) fill.Options {
	return fill.Options{MaxDaysInYear: w.MaxFillDays, MaxRunDays: w.MaxFillRun, Exclude: w.ExcludeYears}
}

func etOptions(w *scenarios.WeatherRules) et0.Options {
	o := et0.Options{TdewOffsetC: w.DewPointOffsetC, DefaultWindMS: w.DefaultWindMS, IgnoreSupplied: w.ComputeETo, CalibrateHargreaves: w.Calibrate}
	if w.Coastal {
		o.KRs = et0.KRsCoast
	}
	return o
}

// outsideYears returns those of the years that the record does not touch.
func outsideYears(rec *weather.Record, years []int) []int {
	var out []int
	for _, y := range years {
		if y < rec.Start.Year() || y > rec.End().Year() {
			out = append(out, y)
		}
	}
	return out
}

func stationName(rec *weather.Record) string {
	for _, name := range []string{rec.Station.Name, rec.Station.ID} {
		if name != "" {
			return name + " (" + rec.File + ")"
		}
	}
	return rec.File
}

// distance says how far b lies from a, or that nothing is known of it.
func distance(a, b weather.Station) string {
	if text := weather.Between(a, b); text != "" {
		return text
	}
	return "; its distance is not known, as a file states no coordinates"
}

// siteStation returns the site as a place to measure from.
func siteStation(site scenarios.Site) weather.Station {
	st := weather.UnknownStation()
	st.LatDeg, st.LonDeg, st.ElevM = site.LatDeg, site.LonDeg, site.ElevM
	return st
}

// placeStation puts the site's position where the station's file states none.
func placeStation(st *weather.Station, site scenarios.Site) {
	set := func(v *float64, to float64) {
		if math.IsNaN(*v) {
			*v = to
		}
	}
	set(&st.LatDeg, site.LatDeg)
	set(&st.LonDeg, site.LonDeg)
	set(&st.ElevM, site.ElevM)
}
