package pdffile

import (
	"bytes"
	"image"
	"image/color"
	"image/png"
	"regexp"
	"strings"
	"testing"

	"loamledger/plots"
	"loamledger/plots/internal/sample"
	"loamledger/weather/cal"
)

// document makes the document of a sample study, charts included.
func document(t *testing.T, o sample.Options) *Document {
	t.Helper()
	s := sample.Study(o)
	d := &Document{Report: plots.NewReport(s, &plots.Facts{Version: "0.1-test", Seed: "7"}), Dated: cal.Of(2024, 2, 3)}
	for i, c := range plots.Charts(s) {
		f := plots.Figure{Chart: &c}
		for k := range c.Parts() {
			f.Pictures = append(f.Pictures, blank(t, 400+300*((i+k)%6)))
		}
		d.Figures = append(d.Figures, f)
	}
	return d
}

// blank makes a picture as wide as a chart.
func blank(t *testing.T, high int) plots.Picture {
	t.Helper()
	const wide = 1296
	var b bytes.Buffer
	if err := png.Encode(&b, image.NewPaletted(image.Rect(0, 0, wide/18, high/18), color.Palette{color.White})); err != nil {
		t.Fatal(err)
	}
	return plots.Picture{PNG: b.Bytes(), WidthPx: wide, HighPx: high} // the file has fewer pixels, to be quick
}

func written(t *testing.T, d *Document) []byte {
	t.Helper()
	var b bytes.Buffer
	if err := Write(&b, d); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

// TestSameBytes: equal documents give equal bytes, whatever the order of maps.
func TestSameBytes(t *testing.T) {
	d := document(t, sample.Options{Strategies: 3, Zones: 2, Years: 2})
	first := written(t, d)
	for range 3 {
		if !bytes.Equal(written(t, d), first) {
			t.Fatal("the same document has other bytes")
		}
	}
}

// TestPages: the first sheet is one page, no page but the last is half empty, pictures
// and sections are all there, and links lead to the pages that the contents name.
func TestPages(t *testing.T) {
	for name, o := range map[string]sample.Options{
		"one":  {Strategies: 2, Zones: 1, Years: 1},
		"two":  {Strategies: 4, Zones: 2, Years: 4},
		"many": {Strategies: 12, Zones: 6, Years: 5, LongNames: true},
		"si":   {Strategies: 5, Zones: 3, Years: 3, Units: plots.SI},
	} {
		for _, paper := range []Paper{Letter, A4} {
			d := document(t, o)
			d.Paper = paper
			first, err := layOut(d, nil)
			if err != nil {
				t.Fatal(err)
			}
			s, err := layOut(d, first)
			if err != nil {
				t.Fatal(err)
			}
			if s.page != first.page || len(s.ends) != s.page {
				t.Fatalf("%s: %d pages, then %d with %d ends", name, first.page, s.page, len(s.ends))
			}
			for id, at := range first.marks {
				if s.marks[id] != at {
					t.Errorf("%s: section %s moved from %v to %v", name, id, at, s.marks[id])
				}
				if at.page < 2 {
					t.Errorf("%s: section %s begins on the first sheet", name, id)
				}
			}
			for _, one := range d.Report.Sections() {
				if s.marks[one.ID].page == 0 {
					t.Errorf("%s: section %s is missing", name, one.ID)
				}
			}
			for i, end := range s.ends {
				if gaps := 20.0; end > s.bottom()+gaps { // below a picture and above a heading, without text
					t.Errorf("%s, page %d: text ends at %.0f pt, the page at %.0f", name, i+1, end, s.bottom())
				}
				if used := (end - head) / (s.bottom() - head); i < len(s.ends)-1 && used < 0.5 {
					t.Errorf("%s, page %d: only %.0f%% of it is used", name, i+1, 100*used)
				}
			}
			printed, _ := plots.Printed(d.Figures)
			pictures := 0
			for _, f := range printed {
				pictures += len(f.Pictures)
			}
			if s.pictures != pictures || len(s.waiting) > 0 {
				t.Errorf("%s: %d pictures of %d, %d waiting", name, s.pictures, pictures, len(s.waiting))
			}
		}
	}
}

// TestFirstSheetHasRoom: with very many options, the first sheet omits some and says
// how many, and it keeps the baseline and the one that the verdict names.
func TestFirstSheetHasRoom(t *testing.T) {
	d := document(t, sample.Options{Strategies: 12, Zones: 3, Years: 3, LongNames: true})
	rows := d.Report.Front.Options.Rows
	for range 3 {
		d.Report.Front.Options.Rows = append(d.Report.Front.Options.Rows, rows[1:]...)
	}
	d.Report.Front.Options.Rows[20].Named = true
	f, err := layOut(d, nil)
	if err != nil {
		t.Fatal(err)
	}
	if f.ends[0] > f.bottom() {
		t.Errorf("the first sheet ends at %.0f pt", f.ends[0])
	}
	short, named := d.Report.Front.Options, 0
	for i, r := range short.Rows {
		if i > 0 && r.Named {
			named++
		}
	}
	for shorten(&short) {
	}
	if len(short.Rows) != 1+named || short.Omitted != len(d.Report.Front.Options.Rows)-len(short.Rows) {
		t.Errorf("%d rows left, %d omitted of %d", len(short.Rows), short.Omitted, len(d.Report.Front.Options.Rows))
	}
}

// TestNoOptionIsHidden: with 7 and with 12 options that have long names and descriptions, the
// first sheet has each of them, or says how many more are on which page; that page has them
// all, with all of their texts.
func TestNoOptionIsHidden(t *testing.T) {
	for _, n := range []int{7, 12} {
		d := document(t, sample.Options{Strategies: n, Zones: 6, Years: 5, LongNames: true})
		full := &d.Report.Front.Options
		for i := range full.Rows {
			full.Rows[i].About = strings.Repeat("It does what its name says. ", 8)
			full.Rows[i].Fails = strings.Repeat("Fails: a zone is thirsty. ", 6)
		}
		first, err := layOut(d, nil)
		if err != nil {
			t.Fatal(err)
		}
		s, err := layOut(d, first)
		if err != nil {
			t.Fatal(err)
		}
		if s.ends[0] > s.bottom() {
			t.Errorf("%d options: the first sheet ends at %.0f pt", n, s.ends[0])
		}
		if !s.shortened {
			t.Errorf("%d options with all of their texts fit: this tests nothing", n)
		}
		if s.omitted != len(full.Rows)-s.listed {
			t.Errorf("%d options: %d on the first sheet, %d said to be elsewhere", n, s.listed, s.omitted)
		}
		if n == 7 && s.omitted > 0 {
			t.Errorf("%d of 7 options are not on the first sheet, although descriptions can be left out", s.omitted)
		}
		again := false
		for _, title := range s.headings {
			again = again || title == allOptions
		}
		if !again || s.marks[plots.NumbersID].page < 2 {
			t.Errorf("%d options: no page has all of them: %q", n, s.headings)
		}
	}
}

// TestStrangeNames: names in scripts that the fonts lack, and control characters,
// neither stop the file nor vanish.
func TestStrangeNames(t *testing.T) {
	d := document(t, sample.Options{Strategies: 2, Zones: 1, Years: 1})
	d.Report.Site = "草坪 \U0001F33F\u202e(evil) <b>&amp;</b> \\) /Names"
	d.Report.Front.Options.Rows[0].Name = strings.Repeat("x", 400)
	s, err := layOut(d, nil)
	if err != nil {
		t.Fatal(err)
	}
	if len(s.lacking) != 3 { // two letters and the herb; the mark of direction is written out
		t.Errorf("%d characters are lacking: %v", len(s.lacking), s.lacking)
	}
	if err := Write(&bytes.Buffer{}, d); err != nil {
		t.Fatal(err)
	}
}

// TestFileHasWhatReadersNeed looks for the language, the title, bookmarks, links and
// descriptions of pictures.
func TestFileHasWhatReadersNeed(t *testing.T) {
	d := document(t, sample.Options{Strategies: 2, Zones: 1, Years: 2})
	data := written(t, d)
	for _, want := range []string{"/Lang (en-US)", "/Outlines", "/Subtype /Link", "/Title", "/MediaBox [0 0 612.00 792.00]"} {
		if !bytes.Contains(data, []byte(want)) {
			t.Errorf("the file lacks %s", want)
		}
	}
	if n := len(regexp.MustCompile(`/Type /Page\b`).FindAll(data, -1)); n < 4 {
		t.Errorf("%d pages", n)
	}
	if got, want := hex16("a–"), "FEFF00612013"; got != want {
		t.Errorf("hex16: %s, want %s", got, want)
	}
}

// TestFixedText: every section of the fixed text has pieces, none is empty, and the
// list of the steps of a day is numbered.
func TestFixedText(t *testing.T) {
	all, err := fixedText()
	if err != nil {
		t.Fatal(err)
	}
	count := map[string]int{}
	numbered := 0
	for _, p := range all {
		count[p.section]++
		numbered = max(numbered, p.number)
		text := ""
		for _, r := range p.runs {
			text += r.text
		}
		if strings.TrimSpace(text) == "" {
			t.Errorf("an empty %s in %s", p.kind, p.section)
		}
		if p.kind == "dd" && p.term == "" {
			t.Errorf("%q has no term", text)
		}
	}
	if count[plots.MethodID] < 8 || count[plots.CautionsID] < 8 || count[plots.WordsID] < 15 || numbered != 5 {
		t.Errorf("pieces %v, %d numbered", count, numbered)
	}
}
