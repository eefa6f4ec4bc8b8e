package cli_test

import (
	"bytes"
	"fmt"
	"image/png"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"
)

// browser returns the name of a Chromium; the test is skipped if there is none.
func browser(t *testing.T) string {
	t.Helper()
	if testing.Short() {
		t.Skip("short: no browser")
	}
	for _, name := range []string{"chromium", "chromium-browser", "google-chrome"} {
		if path, err := exec.LookPath(name); err == nil {
			return path
		}
	}
	t.Skip("no Chromium is installed, so pages are not looked at")
	return ""
}

// chromium runs a browser without a window.
func chromium(t *testing.T, program string, args ...string) []byte {
	t.Helper()
	args = append([]string{"--headless", "--no-sandbox", "--disable-gpu", "--user-data-dir=" + t.TempDir()}, args...)
	var out bytes.Buffer
	cmd := exec.Command(program, args...)
	cmd.Stdout = &out
	if err := cmd.Run(); err != nil {
		t.Fatalf("%s: %v", program, err)
	}
	return out.Bytes()
}

// samplePages writes the reports of two sample sites into a folder, HTML and PDF.
func samplePages(t *testing.T) (folder string, names []string) {
	t.Helper()
	folder = t.TempDir()
	for _, name := range []string{"alder-commons", "quail-terrace"} {
		for _, end := range []string{".html", ".pdf"} {
			done(t, "report", filepath.Join("..", "..", "..", "scenarios", "examples", name+".yaml"), "--out", filepath.Join(folder, name+end))
		}
		names = append(names, name)
	}
	return folder, names
}

// TestPagesInABrowser: on a phone of 320 px, on one of 390 px and on a desktop, nothing
// of a page is beyond the right edge, so that nobody slides sideways. Parts that are
// meant to slide, such as charts, do so within themselves.
func TestPagesInABrowser(t *testing.T) {
	program := browser(t)
	folder, names := samplePages(t)
	policy := regexp.MustCompile(`<meta http-equiv="Content-Security-Policy"[^>]*>`)
	for _, name := range names {
		html := read(t, filepath.Join(folder, name+".html"))
		// The page has no script; a copy gets one that tells its widths to the page around it.
		const script = `<script>addEventListener("load", () => parent.postMessage(
			innerWidth + " " + document.documentElement.scrollWidth + " " + document.querySelectorAll("h2").length, "*"))</script></body>`
		copied := strings.Replace(policy.ReplaceAllString(string(html), ""), "</body>", script, 1)
		if err := os.WriteFile(filepath.Join(folder, "copy.html"), []byte(copied), 0o666); err != nil {
			t.Fatal(err)
		}
		for _, width := range []int{320, 390, 1280} {
			around := fmt.Sprintf(`<!DOCTYPE html><body><script>addEventListener("message", e => document.title = e.data)</script>`+
				`<iframe src="copy.html" style="border:0;width:%dpx;height:900px"></iframe></body>`, width)
			frame := filepath.Join(folder, "around.html")
			if err := os.WriteFile(frame, []byte(around), 0o666); err != nil {
				t.Fatal(err)
			}
			dom := chromium(t, program, "--window-size=1400,1000", "--virtual-time-budget=20000", "--dump-dom", "file://"+frame)
			m := regexp.MustCompile(`<title>(\d+) (\d+) (\d+)</title>`).FindSubmatch(dom)
			if m == nil {
				t.Fatalf("%s at %d px: the page did not load", name, width)
			}
			inner, _ := strconv.Atoi(string(m[1]))
			scroll, _ := strconv.Atoi(string(m[2]))
			if parts, _ := strconv.Atoi(string(m[3])); inner < width-20 || parts < 8 {
				t.Errorf("%s: %d px wide instead of %d, %d headings", name, inner, width, parts)
			}
			if scroll > inner {
				t.Errorf("%s at %d px: the page is %d px wide", name, inner, scroll)
			}
		}
	}
}

// maxBlank is how much of the height of a printed page may be empty below its text; the
// last page may be emptier.
const maxBlank = 0.5

// TestPrintedPages: the HTML report as a browser prints it and the PDF report have no
// half-empty page, and the first sheet is one page.
func TestPrintedPages(t *testing.T) {
	program := browser(t)
	toPNG, err := exec.LookPath("pdftoppm")
	if err != nil {
		t.Skip("no pdftoppm is installed, so printed pages are not looked at")
	}
	folder, names := samplePages(t)
	for _, name := range names {
		print := filepath.Join(folder, name+"-print.pdf")
		chromium(t, program, "--no-pdf-header-footer", "--print-to-pdf="+print, "file://"+filepath.Join(folder, name+".html"))
		for _, file := range []string{print, filepath.Join(folder, name+".pdf")} {
			pages := filepath.Join(t.TempDir(), "page")
			if out, err := exec.Command(toPNG, "-r", "20", "-gray", "-png", file, pages).CombinedOutput(); err != nil {
				t.Fatalf("%v: %s", err, out)
			}
			list, err := filepath.Glob(pages + "*.png")
			if err != nil || len(list) < 3 {
				t.Fatalf("%s: %d pages, %v", filepath.Base(file), len(list), err)
			}
			for i, page := range list[:len(list)-1] {
				if blank := blankBelow(t, page); blank > maxBlank {
					t.Errorf("%s, page %d of %d: %.0f%% is empty below the text", filepath.Base(file), i+1, len(list), 100*blank)
				}
			}
		}
	}
}

// blankBelow returns the share of the height of a page below its last dark row; a
// footer in the lowest 9% does not count.
func blankBelow(t *testing.T, name string) float64 {
	t.Helper()
	f, err := os.Open(name)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	img, err := png.Decode(f)
	if err != nil {
		t.Fatal(err)
	}
	b := img.Bounds()
	for y := b.Max.Y * 91 / 100; y >= b.Min.Y; y-- {
		for x := b.Min.X; x < b.Max.X; x++ {
			if r, _, _, _ := img.At(x, y).RGBA(); r < 0xD000 {
				return 1 - float64(y)/(float64(b.Max.Y)*0.91)
			}
		}
	}
	return 1
}
