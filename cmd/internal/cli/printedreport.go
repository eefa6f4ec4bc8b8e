package cli

import (
	"context"
	"io"

	"loamledger/plots"
	"loamledger/plots/htmlfile"
	"loamledger/plots/pdffile"
	"loamledger/plots/pngfile"
	"loamledger/scenarios/study"
	"loamledger/sim/tally"
	"loamledger/weather/cal"
	"loamledger/weather/quantity"
)

// A printedReport is a report with its charts drawn.
type printedReport struct {
	report *plots.Report
	charts []plots.Chart
	drawn  []pngfile.Files
	paper  pdffile.Paper
	dated  cal.Date
}

// printed makes the report of a replay and draws its charts. date is printed on it, 0 for
// none.
func (l *loaded) printed(ctx context.Context, t *tally.Table, season *study.Season, ahead *study.Coming, date cal.Date) (*printedReport,
	error) {
	data := l.ChartData(t, season, l.metered...)
	p := &printedReport{charts: append(plots.Charts(data), plots.RangeCharts(data, l.Ranges)...)}
	p.charts = append(p.charts, l.RecordChart())
	if l.Scenario.Units == quantity.SI {
		p.paper = pdffile.A4
	}
	facts := l.Facts(t, date)
	if p.dated = facts.RunDate; p.dated == 0 {
		p.dated = l.Weather.End()
	}
	if facts.Prepared != nil {
		facts.Prepared.Logo = l.logo
	}
	plan, err := l.Plan(ctx, t, l.PlanFor(t), l.PlanStart(), l.MeteredFact(l.metered))
	if err != nil {
		return nil, err
	}
	facts.Next, facts.Verify = l.NextPart(plan), l.VerificationPart(plan)
	facts.Meters, facts.MeterFact, facts.Tested = l.MeteredParts(l.metered), l.MeteredFact(l.metered), l.TestedFact(l.metered)
	facts.Verified, facts.Running = l.VerifiedFact(l.metered), l.RunningFact(l.metered)
	p.charts = append(p.charts, l.MeterCharts(l.metered)...)
	facts.Coming = l.ComingPart(ahead)
	p.report = plots.NewReport(data, facts)
	if c := l.ComingChart(ahead); c != nil {
		p.charts = append(p.charts, *c)
	}
	p.drawn, err = pngfile.DrawFiles(ctx, p.charts, l.Job.Workers)
	return p, err
}

// A pictureFile is a chart on its own.
type pictureFile struct {
	name string
	png  []byte
}

// files are the charts with their headings.
func (p *printedReport) files() (out []pictureFile) {
	for i := range p.charts {
		out = append(out, pictureFile{p.charts[i].Name, p.drawn[i].Whole})
	}
	return out
}

// figures sorts the charts without headings: those of meters and that of the coming days
// have sections of their own.
func (p *printedReport) figures() (list, meters []plots.Figure, coming *plots.Figure) {
	for i := range p.charts {
		f := plots.Figure{Chart: &p.charts[i]}
		for _, b := range p.drawn[i].Bare {
			f.Pictures = append(f.Pictures, plots.Picture(b))
		}
		switch f.Chart.Kind {
		case plots.OutlookKind:
			coming = &f
		case plots.MeterKind, plots.MeterDotsKind:
			meters = append(meters, f)
		default:
			list = append(list, f)
		}
	}
	return list, meters, coming
}

func (p *printedReport) writeHTML(w io.Writer) error {
	list, meters, coming := p.figures()
	return htmlfile.Write(w, &htmlfile.Page{Report: p.report, Figures: list, Meters: meters, Coming: coming})
}

func (p *printedReport) writePDF(w io.Writer) error {
	list, meters, coming := p.figures()
	return pdffile.Write(w, &pdffile.Document{Report: p.report, Figures: list, Meters: meters, Coming: coming, Paper: p.paper, Dated: p.dated})
}
