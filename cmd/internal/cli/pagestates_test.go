package cli_test

import (
	"bytes"
	"encoding/base64"
	"image"
	"image/color"
	"image/draw"
	"image/png"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
)

// widths are those at which the page is looked at.
var widths = []int{1280, 400, 320}

// The page in each of its states fits every width, and says nothing on the console. SHOTS
// names a folder for pictures of them.
func TestPageInAllStates(t *testing.T) {
	program := browser(t)
	page, folder := livePage(t), t.TempDir()
	b := openPage(t, program, page, folder, 1280, 900)
	b.until("document.body.dataset.form")
	everywhere := func(state string) {
		for _, w := range widths {
			b.resize(w, 900)
			b.fits(state + " at " + strconv.Itoa(w) + " px")
			b.look(state + "-" + strconv.Itoa(w))
		}
		b.resize(1280, 900)
	}
	everywhere("form")
	b.eval("document.querySelectorAll('details.more').forEach(d => { d.open = true; })", nil)
	everywhere("form-more")
	broken := filepath.Join(folder, "broken.yaml")
	write(t, broken, "site: {name: A, latitude: 100}\nzones: [{name: a}]\nstrategies: [{name: x}]\n")
	b.choose("#pick", broken)
	b.until("!document.getElementById('errors').hidden")
	everywhere("errors")
	lacks := filepath.Join(folder, "lacks.yaml")
	weir := string(read(t, "../../../scenarios/examples/weir-meadow.yaml"))
	write(t, lacks, strings.Replace(weir, "weir-meadow-weather.csv", "no-such.csv", 1))
	b.choose("#pick", lacks)
	b.until("document.getElementById('errors').textContent.includes('no-such.csv')")
	everywhere("missing")
	b.eval("document.getElementById('sample').click()", nil)
	b.until("document.body.dataset.firstCard")
	b.until("document.body.dataset.draws")
	everywhere("cards")
	b.eval("document.querySelectorAll('.card:nth-child(3) details, #assumedpart').forEach(d => { d.open = true; })", nil)
	b.until("document.querySelector('.card:nth-child(3) .sheet table')")
	everywhere("open")
	dark := map[string]string{"name": "prefers-color-scheme", "value": "dark"}
	b.call("Emulation.setEmulatedMedia", map[string]any{"features": []map[string]string{dark}}, nil)
	everywhere("dark")
	b.call("Emulation.setEmulatedMedia", map[string]any{"media": "print"}, nil)
	b.look("print")
	if folder := os.Getenv("SHOTS"); folder != "" {
		var paper struct{ Data string }
		b.call("Page.printToPDF", map[string]any{"printBackground": true}, &paper)
		data, err := base64.StdEncoding.DecodeString(paper.Data)
		if err != nil {
			t.Fatal(err)
		}
		write(t, filepath.Join(folder, "print.pdf"), string(data))
	}
	b.quiet()
}

// With PICTURE=1 it makes the picture of the page in README.md, from the sample site.
func TestPictureOfThePage(t *testing.T) {
	if os.Getenv("PICTURE") == "" {
		t.Skip("PICTURE=1 makes the picture of the page in README.md")
	}
	program := browser(t)
	b := openPage(t, program, livePage(t), t.TempDir(), 1000, 700)
	b.until("document.body.dataset.form")
	b.eval("document.getElementById('sample').click()", nil)
	b.until("document.body.dataset.draws")
	top := 0
	b.eval("Math.floor(document.getElementById('results').getBoundingClientRect().top + scrollY)", &top)
	var got struct{ Data []byte }
	b.call("Page.captureScreenshot", map[string]any{"format": "png", "captureBeyondViewport": true,
		"clip": map[string]any{"x": 0, "y": top, "width": 1000, "height": 820, "scale": 1}}, &got)
	full, err := png.Decode(bytes.NewReader(got.Data))
	if err != nil {
		t.Fatal(err)
	}
	small := image.NewPaletted(full.Bounds(), grays())
	draw.Draw(small, small.Bounds(), full, full.Bounds().Min, draw.Src)
	var out bytes.Buffer
	if err := (&png.Encoder{CompressionLevel: png.BestCompression}).Encode(&out, small); err != nil {
		t.Fatal(err)
	}
	write(t, "../../../testdata/readme/page.png", out.String())
	t.Logf("%d bytes", out.Len())
}

// grays are the colors of the page: grays and the blue of its bars.
func grays() (out color.Palette) {
	for i := range 48 {
		v := uint8(28 + i*(255-28)/47)
		out = append(out, color.RGBA{v, v, v, 255})
	}
	return append(out, color.RGBA{0xf4, 0xf3, 0xee, 255}, color.RGBA{0xc9, 0xc9, 0xc2, 255}, color.RGBA{0x2b, 0x4a, 0x6b, 255})
}
