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

// Records are the weather records read for a scenario.
type Records struct {
	Parts  []*weather.Record // the station's record, or parts of it in the order named
	Gauge  *weather.Record   // a nearer rain gauge; nil for none
	Donors []*weather.Record // stations to fill gaps from, first choice first
	// SelfTest adds a test of the fill methods on known days.
	SelfTest bool
}

// Weather is a record prepared for studies with one station and one set of
// weather rules. It does not change after it is made.
type Weather struct {
	*prepare.Ready
	columns      sim.Weather
	stated       weather.Station // as stated in the file
	first, last  cal.Date        // of the record as read
	seenAt, seen int             // index and number of the assumptions about the distance of the station
}

// Prepare joins the parts of a record and prepares it by the scenario's weather
// rules; if the file states no location, the site's is used. It changes the
// records. Errors in the records are [*diag.Error] and [*diag.Errors]; together
// with an error it returns what was learned so far, to be shown but not
// replayed, or nil. At least one part is required.
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
			note("remaining gaps are filled from %s%s", stationName(donor), distance(rec.Station, donor.Station))
		}
	}
	if in.Gauge != nil {
		note("rain is from the gauge %s%s", stationName(in.Gauge), distance(rec.Station, in.Gauge.Station))
	}
	if outside := outsideYears(rec, w.ExcludeYears); len(outside) > 0 {
		return nil, &diag.Error{
			Code: diag.NoDaysLeft, Pos: w.Pos, Fix: "name years in the record",
			Msg: fmt.Sprintf("%s are to be excluded, but the record runs from %v to %v", joinYears(outside), rec.Start, rec.End()),
		}
	}
	if len(w.ExcludeYears) > 0 {
		note("%s are replayed to continue the water balance, but excluded from all rankings, sums and means", joinYears(w.ExcludeYears))
	}
	o := prepare.Options{Dates: w.Dates, Gauge: in.Gauge, Donors: in.Donors, Fill: fillOptions(&w.WeatherRules),
		ET: etOptions(&w.WeatherRules), SelfTest: in.SelfTest}
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
	o := et0.Options{TdewOffsetC: w.DewPointOffsetC, DefaultWindMS: w.DefaultWindMS, IgnoreSupplied: w.ComputeETo,
		CalibrateHargreaves: w.Calibrate}
	if w.Coastal {
		o.KRs = et0.KRsCoast
	}
	return o
}

// outsideYears returns the given years that are not in the record.
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

// distance gives the distance of b from a, or says that it is unknown.
func distance(a, b weather.Station) string {
	if text := weather.Between(a, b); text != "" {
		return text
	}
	return "; distance unknown, since a file states no coordinates"
}

// siteStation returns the location of the site in the form of a station.
func siteStation(site scenarios.Site) weather.Station {
	st := weather.UnknownStation()
	st.LatDeg, st.LonDeg, st.ElevM = site.LatDeg, site.LonDeg, site.ElevM
	return st
}

// placeStation uses the site's location for a station whose file states none.
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
