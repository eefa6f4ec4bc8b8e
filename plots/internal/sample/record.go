package sample

import (
	"math"

	"loamledger/plots"
	wx "loamledger/weather"
	"loamledger/weather/portable"
)

// Record returns a made-up record of the given number of years with gaps and
// filled values: smooth years, for looking at, not realistic.
func Record(years int) *plots.RecordView {
	w := weather(years)
	st := wx.UnknownStation()
	s := wx.NewSeries(st, w.Start, w.Days(), wx.Tmax, wx.Tmin, wx.Rain, wx.Rs)
	sky := make([]float64, s.Days)
	for i := range s.Days {
		season := -portable.Cos(2 * math.Pi * float64(s.Date(i).YearDay()) / 365)
		sky[i] = 20 + float64(10*season)
		mark := wx.Observed
		if i%97 < 4 {
			mark = wx.Interpolated
		}
		s.Set(wx.Tmax, i, 15+float64(12*season)+float64(i%7), mark)
		s.Set(wx.Tmin, i, 4+float64(9*season)-float64(i%5), mark)
		s.Set(wx.Rain, i, w.RainMM[i], wx.Observed)
		if i < 60 || i > 100 {
			s.Set(wx.Rs, i, sky[i]*(0.4+float64(0.1*float64(i%7))), wx.Observed)
		}
	}
	return &plots.RecordView{
		Units: plots.SI, Station: station, Site: "weather.csv", Series: s,
		EToMM: w.EToMM, ClearSkyMJ: sky, Excluded: []int{w.Start.Year()},
	}
}
