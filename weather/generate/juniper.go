package generate

import (
	"loamledger/weather"
	"loamledger/weather/cal"
)

// demoSeed was chosen so that its twelve years include both wet and dry ones.
const demoSeed = 208

// DemoNormals returns the monthly means of the sample site, an imaginary place
// with warm dry summers, occasional summer storms, cold nights from October to
// April, and most rain in the cool half of the year.
func DemoNormals() Normals {
	return Normals{
		RainMM:     [12]float64{52, 46, 44, 32, 26, 12, 9, 11, 16, 28, 44, 56},
		WetDays:    [12]float64{9, 8, 8, 6, 4.5, 2.2, 1.3, 1.6, 2.6, 4.5, 7.5, 9.5},
		TmaxC:      [12]float64{8.2, 10.8, 14.4, 18.6, 23.4, 28.8, 32.8, 32.0, 28.0, 21.4, 13.2, 8.4},
		TminC:      [12]float64{-2.8, -1.4, 0.8, 3.4, 7.4, 11.4, 14.6, 13.8, 10.0, 4.8, 0.2, -2.6},
		TmaxSD:     &[12]float64{4.2, 4.4, 4.8, 5.0, 4.8, 4.4, 3.2, 3.2, 4.0, 4.6, 4.6, 4.2},
		TminSD:     &[12]float64{3.8, 3.6, 3.2, 3.0, 2.9, 2.8, 2.4, 2.4, 2.8, 3.2, 3.6, 3.8},
		RsMJ:       &[12]float64{8.6, 12.0, 16.6, 21.4, 25.2, 27.8, 28.0, 24.8, 20.0, 14.4, 9.6, 7.6},
		WindMS:     &[12]float64{1.8, 2.0, 2.3, 2.4, 2.2, 2.1, 1.9, 1.8, 1.7, 1.6, 1.6, 1.7},
		DewC:       &[12]float64{-4.2, -3.2, -2.0, -0.4, 3.0, 5.6, 7.8, 7.4, 4.8, 1.6, -1.6, -3.8},
		YearSpread: 0.25,
	}
}

// DemoStation returns the station of the sample site, an imaginary place.
func DemoStation() weather.Station {
	st := weather.UnknownStation()
	st.ID, st.Name = "juniper-flat", "Juniper Flat (sample site)"
	st.LatDeg, st.ElevM, st.WindHeightM = 38.9, 490, 2
	return st
}

// Demo makes the synthetic weather of the sample site: the years 2013 to 2024
// with Tmax, Tmin, rain, radiation, wind and dew point.
func Demo() (*weather.Record, error) {
	p, err := DemoNormals().Params()
	if err != nil {
		return nil, err
	}
	first, last := cal.Of(2013, 1, 1), cal.Of(2024, 12, 31)
	rec, err := Generate(p, DemoStation(), first, int(last-first)+1, demoSeed)
	if err != nil {
		return nil, err
	}
	rec.File = "Juniper Flat (synthetic weather)"
	return rec, nil
}
