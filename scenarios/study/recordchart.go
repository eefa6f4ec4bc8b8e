package study

import (
	"math"

	"loamledger/plots"
	"loamledger/weather"
	"loamledger/weather/et0"
)

// RecordChart returns the chart of the record, gaps and filled days included.
func (l *Study) RecordChart() plots.Chart {
	where := l.Scenario.Site.Name
	if where == "" {
		where = base(l.Weather.File)
	}
	return plots.Record(&plots.RecordView{
		Station: l.stationName(), Site: where, Series: &l.Weather.Series, EToMM: l.Weather.ET.EToMM, Excluded: l.Scenario.Weather.ExcludeYears,
		ClearSkyMJ: clearSky(&l.Weather.Series), Units: l.chartUnits(),
	})
}

// clearSky returns the clear-sky radiation of each day [MJ/m²], FAO-56 eq. 37;
// nil if latitude or elevation is unknown.
func clearSky(s *weather.Series) []float64 {
	st := s.Station
	if math.IsNaN(st.LatDeg) || math.IsNaN(st.ElevM) {
		return nil
	}
	year := et0.NewSunYear(st.LatDeg)
	out := make([]float64, s.Days)
	for i := range out {
		out[i] = et0.ClearSkyRadiation(year.RaMJ[s.Date(i).YearDay()], st.ElevM)
	}
	return out
}
