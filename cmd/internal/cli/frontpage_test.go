package cli_test

import (
	"html"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
	"unicode/utf8"
)

// A US letter sheet is 792 pt high, of which the margins take about 54. The style
// of print gives each kind of line its height [pt] and about as many characters;
// both were compared with print-outs of nine reports.
const sheetPt = 792 - 54

// A printedLine is a kind of line of the first page.
type printedLine struct {
	find  *regexp.Regexp
	pt    float64
	chars int
}

var (
	wideLines = []printedLine{
		{regexp.MustCompile(`(?s)<p class="answer">(.*?)</p>`), 14.4, 84},
		{regexp.MustCompile(`(?s)<p>(.*?)</p>`), 9.9, 155},
		{regexp.MustCompile(`(?s)<p class="small[^"]*">(.*?)</p>`), 8.8, 168},
		{regexp.MustCompile(`(?s)<li>(.*?)</li>`), 9.9, 150},
		{regexp.MustCompile(`(?s)<tr role="row" class="about">(.*?)</tr>`), 8.6, 168},
		{regexp.MustCompile(`(?s)<th scope="row"[^>]*>(.*?)</th>`), 9.9, 42},
	}
	columnLines = []printedLine{
		{regexp.MustCompile(`(?s)<h2>(.*?)</h2>`), 17, 60},
		{regexp.MustCompile(`(?s)<p>(.*?)</p>`), 9.9, 70},
		{regexp.MustCompile(`(?s)<li>(.*?)</li>`), 9.9, 68},
		{regexp.MustCompile(`(?s)<dd>(.*?)</dd>`), 9.6, 52},
	}
	tags = regexp.MustCompile(`<[^>]*>`)
)

// heightPt adds up the lines of one kind after another.
func heightPt(text string, kinds []printedLine) (pt float64) {
	for _, k := range kinds {
		for _, m := range k.find.FindAllStringSubmatch(text, -1) {
			chars := utf8.RuneCountInString(html.UnescapeString(tags.ReplaceAllString(m[1], "")))
			pt += k.pt * math.Ceil(float64(chars)/float64(k.chars))
		}
	}
	return pt
}

// firstPagePt estimates the height of the first page in print. It has a header, a
// table head of four lines, and two columns beside each other.
func firstPagePt(t *testing.T, page string) float64 {
	t.Helper()
	_, page, ok := strings.Cut(page, `<section id="summary"`)
	page, _, ended := strings.Cut(page, "</section>")
	above, pair, split := strings.Cut(page, `<div class="pair">`)
	left, right, two := strings.Cut(pair, "</div>\n<div>")
	if !ok || !ended || !split || !two {
		t.Fatal("the first page has no summary in two columns")
	}
	right, below, _ := strings.Cut(right, "</dl>")
	return 42 + 40 + heightPt(above, wideLines) + max(heightPt(left, columnLines), heightPt(right, columnLines)) + heightPt(below, wideLines)
}

// TestFirstPageIsOneSheet prints the first page of every example and of the demo: what
// comes after it starts on the second sheet. Where no browser can print, the lines of
// the page are still counted.
func TestFirstPageIsOneSheet(t *testing.T) {
	files, err := filepath.Glob("../../../scenarios/examples/*.yaml")
	if err != nil || len(files) < 8 {
		t.Fatalf("%d examples: %v", len(files), err)
	}
	browser, text := "", ""
	for _, name := range []string{"chromium", "chromium-browser"} {
		if p, err := exec.LookPath(name); err == nil && browser == "" {
			browser = p
		}
	}
	if p, err := exec.LookPath("pdftotext"); err == nil {
		text = p
	}
	pages := map[string]string{}
	for _, name := range append(files, "demo") {
		out := filepath.Join(t.TempDir(), "out")
		if name == "demo" {
			done(t, "demo", "--out", out)
		} else {
			done(t, "replay", name, "--no-ledger", "--out", out)
		}
		page := filepath.Join(out, "report.html")
		pages[name] = page
		pt := firstPagePt(t, string(read(t, page)))
		t.Logf("%s: about %.0f of %d pt", filepath.Base(name), pt, sheetPt)
		if pt > sheetPt {
			t.Errorf("%s: the first page is about %.0f pt high, the sheet %d", name, pt, sheetPt)
		}
	}
	t.Run("printed", func(t *testing.T) {
		if testing.Short() || browser == "" || text == "" {
			t.Skip("skipped: printing takes Chromium and pdftotext, and no -short; lines were counted only")
		}
		for name, page := range pages {
			pdf := filepath.Join(t.TempDir(), "report.pdf")
			short := filepath.Join(t.TempDir(), "short.html") // without the charts, it prints at once
			front, _, ok := strings.Cut(string(read(t, page)), `<p class="stamp">`)
			if !ok {
				t.Fatal("no section follows the first page")
			}
			if err := os.WriteFile(short, []byte(front), 0o644); err != nil {
				t.Fatal(err)
			}
			if msg, err := exec.Command(browser, "--headless", "--no-sandbox", "--print-to-pdf="+pdf, short).CombinedOutput(); err != nil {
				t.Skipf("skipped: %s cannot print here: %v\n%s", browser, err, msg)
			}
			sheet := func(n string) string {
				out, err := exec.Command(text, "-f", n, "-l", n, pdf, "-").Output()
				if err != nil {
					t.Fatal(err)
				}
				return strings.Join(strings.Fields(string(out)), " ")
			}
			if first, second := sheet("1"), sheet("2"); !strings.Contains(first, "For irrigation professionals.") ||
				!strings.Contains(first, "This run:") || !strings.Contains(second, "The numbers in full") || strings.Contains(second, "This run:") {
				t.Errorf("%s: the first page is not one sheet; the second reads\n%.600s", name, second)
			}
		}
	})
}
