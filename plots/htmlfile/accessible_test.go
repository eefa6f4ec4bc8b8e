package htmlfile_test

import (
	"math"
	"os"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"loamledger/plots"
	"loamledger/plots/internal/sample"
)

// luminance and contrast are those of WCAG 2.2 (W3C, 2023), "relative luminance" and
// "contrast ratio".
func luminance(rgb uint32) float64 {
	l := 0.0
	for i, weight := range []float64{0.2126, 0.7152, 0.0722} {
		c := float64(rgb>>(16-8*i)&0xFF) / 255
		if c <= 0.04045 {
			c /= 12.92
		} else {
			c = math.Pow((c+0.055)/1.055, 2.4)
		}
		l += weight * c
	}
	return l
}

func contrast(a, b uint32) float64 {
	x, y := luminance(a), luminance(b)
	return (max(x, y) + 0.05) / (min(x, y) + 0.05)
}

// TestContrastFormula: black on white is 21:1 (published, WCAG 2.2: the ratio ranges
// from 1 to 21), and #767676 is the lightest gray with 4.5:1 on white (published: W3C,
// Understanding success criterion 1.4.3, figure in text; from memory).
func TestContrastFormula(t *testing.T) {
	if got := contrast(0, 0xFFFFFF); math.Abs(got-21) > 1e-9 {
		t.Errorf("black on white: %.3f", got)
	}
	if a, b := contrast(0x767676, 0xFFFFFF), contrast(0x777777, 0xFFFFFF); a < 4.5 || b >= 4.5 {
		t.Errorf("#767676 %.3f, #777777 %.3f", a, b)
	}
}

// TestTextHasContrast: every color of text in the style sheet has at least 4.5:1 on
// white (WCAG 2.2, 1.4.3), and white is the only background.
func TestTextHasContrast(t *testing.T) {
	css, err := os.ReadFile("style.css")
	if err != nil {
		t.Fatal(err)
	}
	found := 0
	for _, m := range regexp.MustCompile(`(?:^|[ {;])color: #([0-9a-f]{3,6})`).FindAllStringSubmatch(string(css), -1) {
		hex := m[1]
		if len(hex) == 3 {
			hex = strings.Join([]string{hex[:1], hex[:1], hex[1:2], hex[1:2], hex[2:], hex[2:]}, "")
		}
		rgb, err := strconv.ParseUint(hex, 16, 32)
		if err != nil {
			t.Fatal(err)
		}
		if c := contrast(uint32(rgb), 0xFFFFFF); c < 4.5 {
			t.Errorf("#%s has %.2f:1 on white", m[1], c)
		}
		found++
	}
	if found < 5 {
		t.Errorf("%d colors found", found)
	}
	for _, m := range regexp.MustCompile(`background(?:-color)?: ([^;]+);`).FindAllStringSubmatch(string(css), -1) {
		if m[1] != "#fff" {
			t.Errorf("background %s: the test of contrast assumes white", m[1])
		}
	}
}

// TestLinesHaveContrast: lines in charts have at least 3:1 on white (WCAG 2.2, 1.4.11).
func TestLinesHaveContrast(t *testing.T) {
	for _, r := range []plots.Role{plots.Applied, plots.Need, plots.RainFall, plots.Deficit, plots.StressLine, plots.EmptyLine,
		plots.Browned, plots.ToPlants, plots.RanOff, plots.Percolated, plots.ClearSky, plots.Cut, plots.Today, plots.Observed} {
		c := r.Style(0).Stroke
		rgb := uint32(c.R)<<16 | uint32(c.G)<<8 | uint32(c.B)
		if got := contrast(rgb, 0xFFFFFF); got < 3 {
			t.Errorf("role %d: stroke #%06x has %.2f:1 on white", r, rgb, got)
		}
	}
}

// TestHeadingsAndTables: one h1, no level is left out, every heading of a table has a
// scope, every region and table has a name, every picture a description.
func TestHeadingsAndTables(t *testing.T) {
	html := page(t, sample.Study(sample.Options{Strategies: 4, Zones: 2, Years: 4}))
	level, first := 0, 0
	for _, m := range regexp.MustCompile(`<h([1-6])`).FindAllStringSubmatch(html, -1) {
		n, _ := strconv.Atoi(m[1])
		if n == 1 {
			first++
		}
		if n > level+1 {
			t.Errorf("a heading of level %d after one of level %d", n, level)
		}
		level = n
	}
	if first != 1 {
		t.Errorf("%d headings of level 1", first)
	}
	for _, m := range regexp.MustCompile(`<th\b[^>]*>`).FindAllString(html, -1) {
		if !strings.Contains(m, `scope="`) {
			t.Errorf("%s has no scope", m)
		}
	}
	for _, m := range regexp.MustCompile(`<[a-z]+ [^>]*role="region"[^>]*>`).FindAllString(html, -1) {
		if !regexp.MustCompile(`aria-label="[^"]+"`).MatchString(m) || !strings.Contains(m, `tabindex="0"`) {
			t.Errorf("%s has no name, or keys cannot reach it", m)
		}
	}
	for _, m := range regexp.MustCompile(`<img\b[^>]*>`).FindAllString(html, -1) {
		if !regexp.MustCompile(`alt="[^"]{10,}"`).MatchString(m) {
			t.Errorf("%.60s has no description", m)
		}
	}
	if !strings.Contains(html, `<html lang="en">`) || strings.Contains(html, "user-scalable=no") {
		t.Error("the page has no language, or forbids to enlarge it")
	}
}

// TestSectionsInOrder: the page has every section of the report, in the order of its
// list, and the contents link to each.
func TestSectionsInOrder(t *testing.T) {
	s := sample.Study(sample.Options{Strategies: 4, Zones: 2, Years: 4})
	f := facts()
	f.Money, f.Skill, f.Coming = &plots.TextPart{Lead: "Bills."}, &plots.TextPart{Lead: "Skill."}, &plots.TextPart{Lead: "Days."}
	r := plots.NewReport(s, f)
	html := write(t, r)
	at := 0
	for _, one := range r.Sections() {
		if !strings.Contains(html, `<li><a href="#`+one.ID+`">`+one.Title+`</a></li>`) {
			t.Errorf("the contents lack %s", one.ID)
		}
		next := strings.Index(html, `<section id="`+one.ID+`"`)
		if next < at {
			t.Errorf("section %s is at %d, after %d", one.ID, next, at)
		}
		at = next
	}
	if n := strings.Count(html, "<section id="); n != len(r.Sections())+1 { // and the summary
		t.Errorf("%d sections, %d in the list", n-1, len(r.Sections()))
	}
}
