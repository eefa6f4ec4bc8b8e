package pngfile

import (
	"bytes"
	"errors"
	"fmt"
	"image"
	"image/png"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"loamledger/plots"
	"loamledger/plots/internal/sample"
)

// TestGoldenPictures compares one small picture of each kind with the one on
// record. A golden picture shows that drawing has not changed, not that it is
// right; UPDATE=1 renews it, and one that no chart stands for fails.
func TestGoldenPictures(t *testing.T) {
	const folder = "testdata"
	charts := plots.Charts(sample.Study(sample.Options{Strategies: 2, Zones: 1, Years: 2}))
	charts = append(charts, plots.Record(sample.Record(3)), plots.DeficitCurves(sample.Deficit(sample.Options{Zones: 2})))
	charts = append(charts, plots.BillCharts(sample.Billed(sample.Options{Strategies: 2, Zones: 1, Years: 2}))...)
	charts = append(charts, plots.OutlookChart(sample.Outlook(1, 3, 5, false)))
	charts = append(charts, plots.Depletion(sample.Measured(1, plots.SI)), plots.WaterUse(sample.Measured(1, plots.SI)))
	charts = append(charts, plots.Meter(sample.Meter(2, plots.US)), plots.MeterScatter(sample.Meter(2, plots.US)))
	drawn := sample.Study(sample.Options{Strategies: 3, Zones: 1, Years: 2})
	charts = append(charts, plots.RangeCharts(drawn, sample.Ranges(drawn, 90, 100))...)
	charts = append(charts, plots.AccountsCharts(sample.Accounts(200, plots.US))...)
	if len(charts) != int(plots.Kinds) {
		t.Fatalf("%d charts for %d kinds", len(charts), plots.Kinds)
	}
	known := map[string]bool{}
	for _, c := range charts {
		name := c.Name + ".png"
		known[name] = true
		c.HeightPt = min(c.HeightPt, 50) // a small file
		// The heading is not in the file, but its letters share the 256 colors of the whole
		// picture: without fixed words, a new sentence would shift blends below it.
		c.Title, c.See = "Title", "What to see."
		var got bytes.Buffer
		if err := new(drawer).drawAt(&c, 72).WriteBare(&got); err != nil {
			t.Fatal(err)
		}
		path := filepath.Join(folder, name)
		if os.Getenv("UPDATE") == "1" {
			if err := renew(path, got.Bytes()); err != nil {
				t.Fatal(err)
			}
			continue
		}
		want, err := os.ReadFile(path)
		if err != nil {
			t.Errorf("%v; UPDATE=1 makes it", err)
			continue
		}
		if err := alike(got.Bytes(), want); err != nil {
			out := filepath.Join(t.ArtifactDir(), name)
			if err := os.WriteFile(out, got.Bytes(), 0o644); err != nil {
				t.Log(err)
			}
			t.Errorf("%s differs from the picture on record: %v; the new one is %s", name, err, out)
		}
	}
	files, err := os.ReadDir(folder)
	if err != nil {
		t.Fatal(err)
	}
	for _, f := range files {
		if strings.HasSuffix(f.Name(), ".png") && !known[f.Name()] {
			t.Errorf("orphan: no chart stands for %s", f.Name())
		}
	}
}

// alike compares two PNG files: equal sizes, and no channel of any pixel more
// than 6 of 255 apart, which leaves room for another machine's rounding at the
// edges of letters.
func alike(got, want []byte) error {
	a, err := png.Decode(bytes.NewReader(got))
	if err != nil {
		return err
	}
	b, err := png.Decode(bytes.NewReader(want))
	if err != nil {
		return err
	}
	if a.Bounds() != b.Bounds() {
		return fmt.Errorf("size %v, on record %v", a.Bounds(), b.Bounds())
	}
	differ, at := 0, image.Point{}
	for y := a.Bounds().Min.Y; y < a.Bounds().Max.Y; y++ {
		for x := a.Bounds().Min.X; x < a.Bounds().Max.X; x++ {
			r1, g1, b1, _ := a.At(x, y).RGBA()
			r2, g2, b2, _ := b.At(x, y).RGBA()
			if far(r1, r2) || far(g1, g2) || far(b1, b2) {
				differ, at = differ+1, image.Pt(x, y)
			}
		}
	}
	if differ > 0 {
		return fmt.Errorf("%d pixels differ, the last at %v", differ, at)
	}
	return nil
}

// far compares channels of 16 bits.
func far(a, b uint32) bool { return max(a, b)-min(a, b) > 6*0x101 }

// renew writes the golden file unless it already holds the same bytes.
func renew(path string, b []byte) error {
	old, err := os.ReadFile(path)
	if err == nil && bytes.Equal(old, b) {
		return nil
	}
	if err != nil && !errors.Is(err, fs.ErrNotExist) {
		return err
	}
	return os.WriteFile(path, b, 0o644)
}

// TestEqualChartsGiveEqualBytes draws each kind twice.
func TestEqualChartsGiveEqualBytes(t *testing.T) {
	o := sample.Options{Strategies: 3, Zones: 1, Years: 2}
	first, second := plots.Charts(sample.Study(o)), plots.Charts(sample.Study(o))
	for i := range first {
		var a, b bytes.Buffer
		if err := errors.Join(Draw(&first[i]).Write(&a), Draw(&second[i]).Write(&b)); err != nil {
			t.Fatal(err)
		}
		if !bytes.Equal(a.Bytes(), b.Bytes()) {
			t.Errorf("%s: bytes differ between two drawings", first[i].Name)
		}
	}
}

// TestBareIsWithoutHeading decodes both forms of one picture.
func TestBareIsWithoutHeading(t *testing.T) {
	c := plots.Months(sample.Study(sample.Options{Strategies: 2, Zones: 1, Years: 1}))
	p := Draw(&c)
	var whole, bare bytes.Buffer
	if err := errors.Join(p.Write(&whole), p.WriteBare(&bare)); err != nil {
		t.Fatal(err)
	}
	a, err := png.Decode(&whole)
	if err != nil {
		t.Fatal(err)
	}
	b, err := png.Decode(&bare)
	if err != nil {
		t.Fatal(err)
	}
	if got := a.Bounds().Dx(); got != widthPt*dotsPerInch/72 || b.Bounds().Dx() != got {
		t.Errorf("widths %d and %d px, want %d", got, b.Bounds().Dx(), widthPt*dotsPerInch/72)
	}
	cut := a.Bounds().Dy() - b.Bounds().Dy()
	if cut <= 0 || cut >= a.Bounds().Dy()/2 {
		t.Errorf("the heading takes %d of %d rows", cut, a.Bounds().Dy())
	}
}
