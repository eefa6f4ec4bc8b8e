package htmlfile_test

import (
	"bytes"
	"encoding/base64"
	"encoding/xml"
	"errors"
	"io"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"loamledger/plots"
	"loamledger/plots/htmlfile"
	"loamledger/plots/internal/sample"
	"loamledger/weather"
	"loamledger/weather/cal"
	"loamledger/weather/quantity"
)

// facts are made up.
func facts() *plots.Facts {
	return &plots.Facts{
		Version: "0.1-test", RunDate: cal.Of(2024, 2, 3), Seed: "7",
		Kinds: []plots.ZoneKind{{Spray: true}},
		Weather: plots.WeatherFacts{
			EToError: "bias −0.34 mm", File: "dry-fork.csv", Layout: "loamledger CSV",
			EToMethod: "FAO-56 eq. 6 on 4,380 days, eq. 52 on 3", Days: 4383, FilledDays: 17,
			Fills:       []plots.Fill{{Column: "tmin_c", How: "interpolated", Count: 12}, {Column: "rain_mm", How: "second station", Count: 5}},
			Assumptions: []string{"Wind is taken to be measured at 2 m."},
			Findings: []weather.Finding{{
				Code: "tmax-below-tmin", What: "Tmax below Tmin", Column: "tmax_c", Count: 2,
				Detail: "2014-06-03: 12.1 below 13.0, line 885", Action: "value dropped", Source: "common practice, no source",
			}},
		},
		Defaults: []plots.Default{
			{
				Where: "front lawn", Key: "soil.awc", Value: "150 mm/m", Range: "120 to 200 mm/m",
				Source: "FAO-56 table 19", Grade: quantity.GeneralTable,
			},
			{
				Where: "front lawn", Key: "sprinkler.uniformity", Value: "55%", Range: "35% to 75%",
				Source: "common practice, no source", Grade: quantity.Guess,
			},
			{Where: "rose bed", Key: "plant.k", Value: "0.50", Range: "0.35 to 0.65", Source: "common practice, no source", Grade: quantity.Guess},
		},
		Uncertainties: []string{
			"Uniformity of the sprinklers on the front lawn", "Plant coefficient of the rose bed", "Root depth of the back lawn",
		},
		Files: []plots.InputFile{{Name: "site.yaml", SHA256: strings.Repeat("ab", 32)}},
	}
}

// page makes the page of a sample study without pictures.
func page(t *testing.T, s *plots.Study) string {
	t.Helper()
	p := &htmlfile.Page{Report: plots.NewReport(s, facts())}
	for _, c := range plots.Charts(s) {
		pictures := []plots.Picture{{PNG: []byte("\x89PNG"), WidthPx: 1280, HighPx: 900}}
		p.Figures = append(p.Figures, plots.Figure{Chart: &c, Pictures: pictures})
	}
	var b bytes.Buffer
	if err := htmlfile.Write(&b, p); err != nil {
		t.Fatal(err)
	}
	return b.String()
}

// write makes the page of a report without charts.
func write(t *testing.T, r *plots.Report) string {
	t.Helper()
	var b bytes.Buffer
	if err := htmlfile.Write(&b, &htmlfile.Page{Report: r}); err != nil {
		t.Fatal(err)
	}
	return b.String()
}

// TestPageHoldsAllParts looks for what a reader must find.
func TestPageHoldsAllParts(t *testing.T) {
	s := sample.Study(sample.Options{Strategies: 4, Zones: 2, Years: 4})
	s.Table.Zones[0].DULQ = 0.92
	html := page(t, s)
	for _, want := range []string{
		`<html lang="en">`, `name="viewport"`, "<h1>Juniper Court</h1>", "Dry Fork (synthetic)", "January 1, 2012 to December 31, 2015",
		plots.Estimated, "3 values were not given", "3 inputs; general values are used for them", "filled values on 17 of 4,383 days",
		"Ask your water provider",
		"loamledger 0.1-test; random seeds: 7", "February 3, 2024", "Uniformity of the sprinklers", "FAO-56 table 19", "120 to 200 mm/m",
		"general table",
		"Tmax below Tmin", "value dropped", "Wind is taken", "Savings are not guaranteed", "no watering", "least water at full supply",
		"Likely error: bias −0.34 mm", "at most 5 stress days a year", "under 10% are too small", "Please check:", "DU of 92%",
		"monthly: auto", "habit without its own percentages", "source <code>perfect</code>", "visibly suffer", "a leak adds",
		"through broken heads",
		"You could lose plants", "Dormancy follows air temperature", "A stress day has one dry week behind it",
		"Tolerance and browning marks are graded guesses", "Snow and frozen ground", "basements", "common practice, no source",
		"Runoff events a year",
		"Backflow", "Slopes", "freezes", "Change in steps", "front lawn", "back lawn", strings.Repeat("ab", 32),
	} {
		if !strings.Contains(html, want) {
			t.Errorf("the page lacks %q", want)
		}
	}
	if got, want := strings.Count(html, "<figure"), len(plots.Charts(s)); got != want {
		t.Errorf("%d figures, want %d", got, want)
	}
	for _, alt := range regexp.MustCompile(`<img [^>]*alt="([^"]*)"`).FindAllStringSubmatch(html, -1) {
		if len(alt[1]) < 40 {
			t.Errorf("description %q says too little", alt[1])
		}
	}
}

// TestPrintLeavesOutOnlyWhatItTells: of six depletion charts three are not
// printed, and print says so; a page of two leaves out none and says nothing.
func TestPrintLeavesOutOnlyWhatItTells(t *testing.T) {
	html := page(t, sample.Study(sample.Options{Strategies: 2, Zones: 6, Years: 2}))
	if got := strings.Count(html, `<figure class="screen">`); got != 3 ||
		!strings.Contains(html, "Not printed: the depletion charts of 3 more zones") {
		t.Errorf("%d figures are kept out of print, and the page does not say so", got)
	}
	html = page(t, sample.Study(sample.Options{Strategies: 2, Zones: 2, Years: 2}))
	if strings.Contains(html, `class="screen"`) || strings.Contains(html, "Not printed") {
		t.Error("a page of two zones leaves out charts")
	}
}

// TestNarrowScreensKeepTheMainColumns: the columns of the comparison that a
// phone shows are water, change, stress days in a dry year and runoff; all
// others are marked, in the head as in every row.
func TestNarrowScreensKeepTheMainColumns(t *testing.T) {
	html := page(t, sample.Study(sample.Options{Strategies: 2, Zones: 1, Years: 2}))
	html = html[strings.Index(html, `id="numbers"`):]
	table, _, _ := strings.Cut(html[strings.Index(html, "<table>"):], "</table>")
	var kept []string
	for _, m := range regexp.MustCompile(`<th scope="col">([^<]*)</th>`).FindAllStringSubmatch(table, -1) {
		kept = append(kept, m[1])
	}
	if got, want := strings.Join(kept, "; "), "Strategy; Water (gal/yr); Change; Stress days, dry year; Browning days, driest "+
		"quarter, dry year; Runoff events a year"; got != want {
		t.Errorf("kept %q, want %q", got, want)
	}
	for _, row := range strings.Split(table, "<tr")[2:] {
		if got, want := strings.Count(row, "<td>"), len(kept)-1; got != want {
			t.Errorf("a row keeps %d cells, want %d: %s", got, want, row)
		}
	}
}

// TestPageNeedsNothingElse holds that the page loads nothing and runs nothing.
func TestPageNeedsNothingElse(t *testing.T) {
	html := page(t, sample.Study(sample.Options{Strategies: 2, Zones: 1, Years: 1}))
	for _, bad := range []string{"<script", "<link", "http://", "https://", "@import", "url(", "<iframe", "javascript:"} {
		if strings.Contains(html, bad) {
			t.Errorf("the page has %q", bad)
		}
	}
	for _, m := range regexp.MustCompile(`(?:src|href)="([^"]*)"`).FindAllStringSubmatch(html, -1) {
		if !strings.HasPrefix(m[1], "#") && !strings.HasPrefix(m[1], "data:image/png;base64,") {
			t.Errorf("the page refers to %q", m[1])
		}
		if id, ok := strings.CutPrefix(m[1], "#"); ok && !strings.Contains(html, `id="`+id+`"`) {
			t.Errorf("no place named %q", id)
		}
	}
}

// TestHostileNamesStayText puts markup into every name a user can choose.
func TestHostileNamesStayText(t *testing.T) {
	const evil = `"><script>alert(1)</script><img src=x onerror=alert(2)>`
	s := sample.Study(sample.Options{Strategies: 2, Zones: 1, Years: 1})
	s.Site, s.Station = evil, evil
	s.Table.Strategies[0], s.Table.Zones[0].Name, s.Traces[0].Zone = evil, evil, evil
	f := facts()
	f.Defaults[0].Where, f.Weather.File, f.Weather.Findings[0].Detail = evil, evil, evil
	f.Version, f.Legal, f.Weather.EToError, f.Changes, f.Act, f.Cost = evil, evil, evil, evil, evil, evil
	p := &htmlfile.Page{Report: plots.NewReport(s, f)}
	for _, c := range plots.Charts(s) {
		p.Figures = append(p.Figures, plots.Figure{Chart: &c, Pictures: []plots.Picture{{}}})
	}
	var b bytes.Buffer
	if err := htmlfile.Write(&b, p); err != nil {
		t.Fatal(err)
	}
	if html := b.String(); strings.Contains(html, "<script") || strings.Contains(html, "<img src=x") {
		t.Error("a name became markup")
	}
	wellFormed(t, b.String())
}

// wellFormed reads the page as XML with HTML's void elements closed by
// themselves: every element that is opened is closed, in order.
func wellFormed(t *testing.T, html string) {
	t.Helper()
	d := xml.NewDecoder(strings.NewReader(html))
	d.Strict, d.AutoClose, d.Entity = false, xml.HTMLAutoClose, xml.HTMLEntity
	for {
		_, err := d.Token()
		if errors.Is(err, io.EOF) {
			return
		}
		if err != nil {
			t.Errorf("not well formed: %v", err)
			return
		}
	}
}

func TestEqualReportsGiveEqualBytes(t *testing.T) {
	o := sample.Options{Strategies: 3, Zones: 2, Years: 2}
	first, second := page(t, sample.Study(o)), page(t, sample.Study(o))
	if first != second {
		t.Error("two pages of one study differ")
	}
}

// TestPictureSurvives reads the picture back out of the page.
func TestPictureSurvives(t *testing.T) {
	want := []byte{0x89, 'P', 'N', 'G', 0, 1, 2, 0xFF, 0xFE, '+', '/'}
	s := sample.Study(sample.Options{Strategies: 1, Zones: 1, Years: 1})
	c := plots.Months(s)
	var b bytes.Buffer
	figures := []plots.Figure{{Chart: &c, Pictures: []plots.Picture{{PNG: want}}}}
	if err := htmlfile.Write(&b, &htmlfile.Page{Report: plots.NewReport(s, facts()), Figures: figures}); err != nil {
		t.Fatal(err)
	}
	m := regexp.MustCompile(`src="data:image/png;base64,([^"]*)"`).FindStringSubmatch(b.String())
	if m == nil {
		t.Fatal("no picture")
	}
	if got, err := base64.StdEncoding.DecodeString(m[1]); err != nil || !bytes.Equal(got, want) {
		t.Errorf("picture %v (%v), want %v", got, err, want)
	}
}

// TestLeavePages writes pages with their pictures where a person asked for
// them, and does nothing else.
func TestLeavePages(t *testing.T) {
	folder := os.Getenv("LOAMLEDGER_PICTURES")
	if folder == "" {
		t.Skip("set LOAMLEDGER_PICTURES to a folder to look at the pages")
	}
	for name, o := range map[string]sample.Options{
		"four":   {Strategies: 4, Zones: 6, Years: 12},
		"twelve": {Strategies: 12, Zones: 2, Years: 12, LongNames: true, Units: plots.SI},
	} {
		s := sample.Study(o)
		p := &htmlfile.Page{Report: plots.NewReport(s, facts())}
		for _, c := range plots.Charts(s) {
			p.Figures = append(p.Figures, draw(t, &c))
		}
		var b bytes.Buffer
		if err := htmlfile.Write(&b, p); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(filepath.Join(folder, name+".html"), b.Bytes(), 0o644); err != nil {
			t.Fatal(err)
		}
	}
}
