package study

import (
	"loamledger/plots"
	"loamledger/sim/soilwater"
)

// DepletionChart returns the chart of simulated and measured depletion. The
// comparison must be scored.
func (l *Study) DepletionChart(m *Measured) plots.Chart { return plots.Depletion(l.measuredChart(m)) }

// UseChart returns the chart of measured water use against depletion. The
// comparison must be scored.
func (l *Study) UseChart(m *Measured) plots.Chart { return plots.WaterUse(l.measuredChart(m)) }

func (l *Study) measuredChart(m *Measured) *plots.MeasuredView {
	s, whole := m.Series, m.Scores[soilwater.WholeYear]
	v := &plots.MeasuredView{Site: l.Scenario.Site.Name, Station: l.stationName(), Zone: m.zone, Strategy: m.strategy, Units: l.chartUnits(),
		Start: s.Start, SimMM: s.SimMM, MeasuredMM: s.MeasuredMM, RAWMM: s.RAWMM, MeasuredRAW: s.MeasuredRAWMM, RainMM: s.RainMM,
		TAWMM: m.MeasuredTAW, R: whole.R, BiasMM: whole.BiasMM, RMSEMM: whole.RMSEMM, P: m.meanP()}
	for _, use := range m.uses {
		v.UseAt, v.Use = append(v.UseAt, use.Relative), append(v.Use, use.Share)
	}
	for _, b := range m.useBins {
		v.MedianAt, v.Median = append(v.MedianAt, (b.From+b.To)/2), append(v.Median, b.Median)
	}
	return v
}
