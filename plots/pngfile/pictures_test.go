package pngfile

import (
	"bytes"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"loamledger/plots"
	"loamledger/plots/internal/sample"
)

// cases are the studies whose pictures are examined: few and many strategies,
// short and long names, both unit systems.
func cases() map[string]sample.Options {
	return map[string]sample.Options{
		"four":       {Strategies: 4, Zones: 2, Years: 12},
		"twelve":     {Strategies: 12, Zones: 1, Years: 12, LongNames: true, Units: plots.SI},
		"one":        {Strategies: 1, Zones: 1, Years: 1, Units: plots.SI},
		"thirty":     {Strategies: 8, Zones: 1, Years: 30},
		"two-years":  {Strategies: 2, Zones: 1, Years: 2, WholeRecord: true},
		"ten-years":  {Strategies: 2, Zones: 1, Years: 10, WholeRecord: true},
		"four-short": {Strategies: 2, Zones: 1, Years: 3, LongNames: true},
	}
}

// TestTextsStayApart looks at where every text stands: none may overlap
// another, and none may leave the sheet.
func TestTextsStayApart(t *testing.T) {
	folder := os.Getenv("LOAMLEDGER_PICTURES") // where to leave the pictures for a person to look at
	for name, o := range cases() {
		for _, c := range plots.Charts(sample.Study(o)) {
			t.Run(name+"/"+c.Name, func(t *testing.T) {
				dpi := 36
				if folder != "" {
					dpi = dotsPerInch
				}
				p := new(drawer).drawAt(&c, dpi)
				apart(t, p)
				if folder != "" {
					save(t, filepath.Join(folder, fmt.Sprintf("%s-%s.png", name, c.Name)), p)
				}
			})
		}
	}
}

// TestRecordTextsStayApart does the same for weather records of several
// lengths.
func TestRecordTextsStayApart(t *testing.T) {
	for _, years := range []int{1, 2, 8, 40, 90} {
		c := plots.Record(sample.Record(years))
		apart(t, new(drawer).drawAt(&c, 36))
	}
}

// TestBillTextsStayApart does the same for bills and for months with an allowance.
func TestBillTextsStayApart(t *testing.T) {
	for name, o := range cases() {
		s := sample.Billed(o)
		for _, c := range append(plots.BillCharts(s), plots.Months(s)) {
			t.Run(name+"/"+c.Name, func(t *testing.T) { apart(t, new(drawer).drawAt(&c, 36)) })
		}
	}
}

// TestMeasuredTextsStayApart does the same for charts of measured soil water.
func TestMeasuredTextsStayApart(t *testing.T) {
	for _, years := range []int{1, 8} {
		for _, u := range []plots.Units{plots.US, plots.SI} {
			for _, c := range []plots.Chart{plots.Depletion(sample.Measured(years, u)), plots.WaterUse(sample.Measured(years, u))} {
				apart(t, new(drawer).drawAt(&c, 36))
			}
		}
	}
}

// TestMeterTextsStayApart does the same for charts of meter reads.
func TestMeterTextsStayApart(t *testing.T) {
	for _, years := range []int{2, 10} {
		for _, u := range []plots.Units{plots.US, plots.SI} {
			for _, c := range []plots.Chart{plots.Meter(sample.Meter(years, u)), plots.MeterScatter(sample.Meter(years, u))} {
				apart(t, new(drawer).drawAt(&c, 36))
			}
		}
	}
}

// TestDeficitTextsStayApart does the same for curves of water against stress
// days.
func TestDeficitTextsStayApart(t *testing.T) {
	folder := os.Getenv("LOAMLEDGER_PICTURES")
	for name, o := range map[string]sample.Options{
		"one": {Zones: 1}, "two": {Zones: 2}, "twelve": {Zones: 12, LongNames: true, Units: plots.SI}, "many": {Zones: 40, LongNames: true},
	} {
		c := plots.DeficitCurves(sample.Deficit(o))
		dpi := 36
		if folder != "" {
			dpi = dotsPerInch
		}
		p := new(drawer).drawAt(&c, dpi)
		apart(t, p)
		today := 0
		for _, b := range p.texts {
			if b.text == "today" {
				today++
			}
		}
		// One beside each mark, and one in the legend.
		if today != len(c.Panels)+1 {
			t.Errorf("%s: %d labels of today's setting on %d panels", name, today, len(c.Panels))
		}
		if folder != "" {
			save(t, filepath.Join(folder, fmt.Sprintf("%s-%s.png", name, c.Name)), p)
		}
	}
}

// TestOutlookTextsStayApart does the same for the coming days.
func TestOutlookTextsStayApart(t *testing.T) {
	for _, o := range []*plots.Outlook{
		sample.Outlook(1, 1, 1, false), sample.Outlook(3, 5, 7, false), sample.Outlook(12, 12, 16, true),
	} {
		c := plots.OutlookChart(o)
		apart(t, new(drawer).drawAt(&c, 36))
	}
}

// apart looks at where every text of p stands.
func apart(t *testing.T, p *Picture) {
	t.Helper()
	if len(p.texts) == 0 {
		t.Error("no text at all")
	}
	for i, a := range p.texts {
		if a.left < 0 || a.top < 0 || a.right > widthPt || a.bottom > p.hPt {
			t.Errorf("%q leaves the sheet: %+v of %d x %g pt", a.text, a, widthPt, p.hPt)
		}
		for _, b := range p.texts[:i] {
			if a.left < b.right && b.left < a.right && a.top < b.bottom && b.top < a.bottom {
				t.Errorf("texts overlap: %+v and %+v", a, b)
			}
		}
	}
}

// TestOddNamesStayApart takes names that no sheet has room for.
func TestOddNamesStayApart(t *testing.T) {
	odd := []string{
		strings.Repeat("W", 300), "two\nlines\tand a tab", "\xff\xfe broken bytes", "草地 🌱 naïve", "", strings.Repeat("wide name ", 60),
	}
	for i, name := range odd {
		s := sample.Study(sample.Options{Strategies: 3, Zones: 1, Years: 1})
		s.Site, s.Station = name, name
		s.Table.Strategies[0], s.Table.Strategies[2] = name, odd[(i+1)%len(odd)]
		s.Traces[0].Zone = name
		for _, c := range plots.Charts(s) {
			apart(t, new(drawer).drawAt(&c, 36))
		}
		v := sample.Deficit(sample.Options{Zones: 3})
		v.Site, v.Station, v.Strategy, v.Zones[1].Name = name, name, name, name
		c := plots.DeficitCurves(v)
		apart(t, new(drawer).drawAt(&c, 36))
	}
}

func save(t *testing.T, path string, p *Picture) {
	t.Helper()
	var b bytes.Buffer
	if err := p.Write(&b); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(path, b.Bytes(), 0o644); err != nil {
		t.Fatal(err)
	}
}
