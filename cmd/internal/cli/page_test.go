package cli_test

import (
	"encoding/json"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
	"time"
)

// livePage writes the page that computes into a folder, or takes the one that PAGE names: .ci/release tries that of an archive.
func livePage(t *testing.T) string {
	t.Helper()
	if made := os.Getenv("PAGE"); made != "" {
		return made
	}
	name := filepath.Join(t.TempDir(), "yard.html")
	done(t, "page", "--out", name)
	return name
}

// openPage opens a page in a browser, until its engine has started.
func openPage(t *testing.T, program, page, folder string, width, height int) *tab {
	t.Helper()
	b := newTab(t, program, folder, width, height)
	b.open("file://" + page)
	b.until("document.body.dataset.ready")
	return b
}

// quiet checks that the page asked no network for anything and complained of nothing.
func (b *tab) quiet() {
	b.t.Helper()
	b.mu.Lock()
	defer b.mu.Unlock()
	for _, r := range b.requests {
		if !strings.HasPrefix(r, "file://") && !strings.HasPrefix(r, "blob:") && !strings.HasPrefix(r, "data:") {
			b.t.Errorf("the page asked for %s", r)
		}
	}
	for _, c := range b.console {
		b.t.Errorf("on the console: %s", c)
	}
}

// look saves a picture of the page into the folder that SHOTS names, if it does.
func (b *tab) look(name string) {
	b.t.Helper()
	if folder := os.Getenv("SHOTS"); folder != "" {
		b.shot(filepath.Join(folder, name+".png"))
	}
}

// A shownCard is what a card of the page has, by keys of the comparison.
type shownCard struct {
	Strategy string
	Figures  map[string]string
}

// shown reads the cards.
func (b *tab) shown() (out []shownCard) {
	b.t.Helper()
	b.eval(shownCards, &out)
	return out
}

// sameAsReplay compares the cards of the page with the command on a scenario, to the last
// digit.
func (b *tab) sameAsReplay(scenario string) {
	b.t.Helper()
	sameAsReplay(b.t, b.shown(), scenario)
}

// shownCards is the expression that reads the cards of a page.
const shownCards = `[...document.querySelectorAll("article.card")].map(c => ({Strategy: c.dataset.strategy, Figures: Object.fromEntries(
	[...c.querySelectorAll("[data-figure]")].map(f => [f.dataset.figure, f.dataset.value]))}))`

// sameAsReplay compares cards with the command on a scenario, to the last digit.
func sameAsReplay(t *testing.T, cards []shownCard, scenario string) {
	t.Helper()
	var r struct{ Strategies []map[string]any }
	if err := json.Unmarshal([]byte(done(t, "replay", scenario, "--json")), &r); err != nil {
		t.Fatal(err)
	}
	met := 0
	for i, c := range cards {
		of := r.Strategies[i]
		if of["strategy"] != c.Strategy {
			t.Fatalf("card %d is %q, the command has %q", i, c.Strategy, of["strategy"])
		}
		for key, text := range c.Figures {
			want, is := of[key]
			if !is {
				if key != "browning_days_quarter_median_year" { // of the cards alone
					t.Errorf("%s: the command has no %s", c.Strategy, key)
				}
				continue
			}
			met++
			got, err := strconv.ParseFloat(text, 64)
			if v, number := want.(float64); err != nil || !number || got != v {
				t.Errorf("%s, %s: the page has %s, the command %v", c.Strategy, key, text, want)
			}
		}
	}
	if met < 6*len(cards) || len(cards) < 2 {
		t.Errorf("only %d figures in %d cards", met, len(cards))
	}
	t.Logf("%d figures in %d cards are those of the command", met, len(cards))
}

// waitFor waits until a download is there, and returns its name.
func (b *tab) waitFor(folder, file string) string {
	b.t.Helper()
	name := filepath.Join(folder, file)
	for {
		if _, err := os.Stat(name); err == nil {
			if _, err := os.Stat(name + ".crdownload"); err != nil {
				return name
			}
		}
		time.Sleep(10 * time.Millisecond)
	}
}

// slide moves a slider by keys, as someone without a mouse does.
func (b *tab) slide(id, key string, number, times int) {
	b.t.Helper()
	b.eval("document.getElementById("+quoteJS(id)+").focus()", nil)
	for range times {
		before := 0
		b.eval("Number(document.body.dataset.moves || 0)", &before)
		b.press(key, key, number)
		b.until("Number(document.body.dataset.moves || 0) > " + strconv.Itoa(before))
	}
}

const (
	left, right = 37, 39 // key codes
)

// A person opens a scenario with its weather and rates on the page, moves sliders and
// saves: the cards are what the command says of the saved files, to the last digit.
func TestPageHasTheDigitsOfTheCommand(t *testing.T) {
	program := browser(t)
	page, folder, downloads := livePage(t), t.TempDir(), t.TempDir()
	examples := filepath.Join("..", "..", "..", "scenarios", "examples")
	var names []string
	for name, text := range map[string]string{
		"yard.yaml":    strings.ReplaceAll(string(read(t, filepath.Join(examples, "quail-terrace.yaml"))), "rates/", ""),
		"weather.csv":  string(read(t, filepath.Join(examples, "juniper-court-weather.csv"))),
		"reads.csv":    string(read(t, filepath.Join(examples, "rates", "quail-terrace-reads.csv"))),
		"rates.yaml":   string(read(t, filepath.Join(examples, "rates", "quail-terrace-rates.yaml"))),
		"unneeded.txt": "nothing",
	} {
		if name == "yard.yaml" {
			for from, to := range map[string]string{"juniper-court-weather.csv": "weather.csv", "quail-terrace-reads.csv": "reads.csv",
				"quail-terrace-rates.yaml": "rates.yaml"} {
				text = strings.ReplaceAll(text, from, to)
			}
		}
		write(t, filepath.Join(folder, name), text)
		names = append(names, filepath.Join(folder, name))
	}
	b := openPage(t, program, page, downloads, 1280, 900)
	b.choose("#pick", names...)
	b.until("document.body.dataset.firstCard")
	b.sameAsReplay(filepath.Join(folder, "yard.yaml"))
	b.slide("c-zones.0.sprinkler.rate", "ArrowRight", right, 3)
	b.slide("c-zones.0.root_depth", "ArrowLeft", left, 1)
	b.slide("c-prices", "ArrowRight", right, 4)
	b.slide("c-try.percent", "ArrowLeft", left, 5)
	b.slide("c-try.days", "ArrowRight", right, 2)
	b.look("moved")
	b.eval("document.getElementById('save').click()", nil)
	for _, name := range []string{"yard.yaml", "rates.yaml"} {
		write(t, filepath.Join(folder, name), string(read(t, b.waitFor(downloads, name))))
	}
	b.sameAsReplay(filepath.Join(folder, "yard.yaml"))
	if n := len(b.shown()); n != 4 {
		t.Errorf("%d cards, want three strategies and a try", n)
	}
	shade := ""
	const background = "getComputedStyle(document.body).backgroundColor + getComputedStyle(document.getElementById('controls')).display"
	dark := map[string]string{"name": "prefers-color-scheme", "value": "dark"}
	b.call("Emulation.setEmulatedMedia", map[string]any{"features": []map[string]string{dark}}, nil)
	if b.eval(background, &shade); shade != "rgb(25, 25, 23)block" {
		t.Errorf("in the dark the page is %s", shade)
	}
	b.look("dark")
	b.call("Emulation.setEmulatedMedia", map[string]any{"media": "print"}, nil)
	if b.eval(background, &shade); shade != "rgb(255, 255, 255)none" {
		t.Errorf("in print the page is %s", shade)
	}
	b.quiet()
	var of map[string]string
	b.eval("({...document.body.dataset})", &of)
	t.Logf("engine ready after %s ms, cards %s ms after the files, a move %s ms, memory %s bytes; page %d bytes", of["ready"], of["opening"],
		of["move"], of["memory"], len(read(t, page)))
}

// write writes a file.
func write(t *testing.T, name, text string) {
	t.Helper()
	if err := os.WriteFile(name, []byte(text), 0o666); err != nil {
		t.Fatal(err)
	}
}

// Someone answers a few of the questions and leaves the rest: the cards are what the
// command says of the files that the page saves, weather included. No control lacks a
// name, nothing slides sideways on a small phone, and all of it works by keys alone.
func TestPageAsksAndAnswers(t *testing.T) {
	program := browser(t)
	page, downloads := livePage(t), t.TempDir()
	b := openPage(t, program, page, downloads, 320, 640)
	b.until("document.body.dataset.form")
	b.look("form-320")
	b.fits("the form at 320 px")
	b.named(30)
	answer := func(place, text string) {
		before := 0
		b.eval("Number(document.body.dataset.asked || 0)", &before)
		b.eval(`(() => { const e = document.getElementById("q-`+place+`"); e.focus(); e.value = `+quoteJS(text)+`;
			e.dispatchEvent(new Event("change", {bubbles: true})); })()`, nil)
		b.until("Number(document.body.dataset.asked || 0) > " + strconv.Itoa(before))
	}
	// By keys: to the first entry with Tab, and typing there.
	b.eval("document.getElementById('units').focus()", nil)
	b.press("Tab", "Tab", 9)
	b.call("Input.insertText", map[string]any{"text": "thirty-nine"}, nil)
	b.press("Tab", "Tab", 9)
	b.until("document.getElementById('q-place.position.-1').getAttribute('aria-invalid') === 'true'")
	told := ""
	b.eval("document.getElementById('q-place.position.-1-wrong').textContent", &told)
	if told == "" {
		t.Error("a wrong answer is not explained")
	}
	answer("place.position.-1", "39")
	answer("zones.name.0", "front lawn")
	answer("zones.area.0", "40 x 25")
	answer("price.price.-1", "$6.50 per kgal")
	b.eval("document.querySelector('#form button[type=submit]').focus()", nil)
	b.press("Enter", "Enter", 13)
	b.until("document.body.dataset.firstCard")
	b.until("document.activeElement.id === 'site'") // who cannot see is taken to the result
	b.fits("the cards at 320 px")
	b.named(20)
	b.look("cards-320")
	b.slide("c-zones.0.sprinkler.uniformity", "ArrowRight", right, 2)
	b.eval("document.getElementById('save').focus()", nil)
	b.press("Enter", "Enter", 13)
	b.waitFor(downloads, "yard.yaml")
	var names []string
	b.until("document.getElementById('status').textContent.startsWith('Saved')")
	b.eval("document.getElementById('status').textContent.match(/[\\w-]+\\.\\w+/g)", &names)
	for _, name := range names {
		b.waitFor(downloads, name)
	}
	b.sameAsReplay(filepath.Join(downloads, "yard.yaml"))
	for _, width := range []int{390, 1280} {
		b.resize(width, 800)
		b.fits("the cards at " + strconv.Itoa(width) + " px")
	}
	b.quiet()
}

// Without Go, and without an engine inside, there is no page, and the error says what to
// do.
func TestPageNeedsItsEngine(t *testing.T) {
	name := filepath.Join(t.TempDir(), "yard.html")
	t.Setenv("PATH", "")
	code, out, errs := run(t.Context(), "page", "--out", name)
	if code == 0 {
		t.Skip("this program has the engine inside")
	}
	if code != 2 || out != "" || !strings.Contains(errs, "has no engine for pages inside") || !strings.Contains(errs, "use a released copy") {
		t.Errorf("exit code %d\n%s\n%s", code, out, errs)
	}
	nothingLeft(t, filepath.Dir(name))
}

// TestPageAnswersAtOnce prints how long each kind of move takes on a site of six zones with
// six strategies, prices and thirty years of weather, until its cards are painted, and for
// how long it keeps a processor: that says more on a busy machine. The goal is 60 ms.
func TestPageAnswersAtOnce(t *testing.T) {
	program := browser(t)
	page, folder := livePage(t), t.TempDir()
	scenario := filepath.Join(folder, "yard.yaml")
	var zones, minutes strings.Builder
	for i, soil := range []string{"loam", "clay loam", "sandy loam", "loam", "clay", "loamy sand"} {
		n := strconv.Itoa(i)
		zones.WriteString("  - {name: zone " + n + ", area: " + strconv.Itoa(800+100*i) + " ft2, plant: cool-season turf, soil: " + soil +
			",\n     sprinkler: {kind: spray, rate: 1.5 in/h, uniformity: 60%}, slope: " + n + "%}\n")
		minutes.WriteString("zone " + n + ": " + strconv.Itoa(10+i) + ", ")
	}
	write(t, scenario, "site: {name: six zones, latitude: 38.9, elevation: 1600 ft}\nunits: us\n"+
		"meters: [{name: house, serves: mixed}]\nmoney: {rates: rates.yaml}\n"+
		"weather: {file: weather.csv, wind_height: 2 m}\nzones:\n"+zones.String()+
		"programs:\n  - {name: p, days: [mon, wed, fri], starts: [\"05:00\"], minutes: {"+
		strings.TrimSuffix(minutes.String(), ", ")+"}}\nstrategies:\n"+`  - {name: as found, programs: [p]}
  - {name: monthly, programs: [p], monthly: [0, 0, 30, 50, 75, 95, 100, 95, 70, 40, 0, 0]}
  - {name: rain skip, programs: [p], hold: {rain: {at_least: 0.25 in, dry_out: 2 days}}}
  - {name: ET-adjusted, programs: [p], et_percent: {design_eto: 0.27 in, days: 7 days, max: 130%}}
  - {name: both, programs: [p], et_percent: {design_eto: 0.27 in, days: 7 days, max: 130%}, hold: {rain: {at_least: 0.25 in}}}
  - {name: refill, refill: {mad: 50%}}
`)
	normals := filepath.Join(folder, "normals.yaml")
	write(t, normals, done(t, "generate", "--template"))
	done(t, "generate", "--normals", normals, "--years", "30", "--seed", "1", "--out", filepath.Join(folder, "weather.csv"))
	rates := filepath.Join(folder, "rates.yaml")
	write(t, rates, string(read(t, filepath.Join("..", "..", "..", "scenarios", "examples", "rates", "quail-terrace-rates.yaml"))))
	b := openPage(t, program, page, folder, 1280, 900)
	b.choose("#pick", scenario, filepath.Join(folder, "weather.csv"), rates)
	b.until("document.body.dataset.firstCard")
	for _, kind := range []struct{ name, slider string }{
		{"percentage", "try.percent"}, {"days a week", "try.days"}, {"sprinkler rate", "zones.0.sprinkler.rate"},
		{"uniformity", "zones.0.sprinkler.uniformity"}, {"root depth", "zones.0.root_depth"}, {"prices", "prices"},
	} {
		var painted, inWorker, inMain []string
		for i := range 7 {
			key := "ArrowRight"
			if i%2 == 1 && kind.slider != "try.days" {
				key = "PageDown" // five steps
			}
			worker, main := b.processor()
			var ms float64
			b.eval(movePainted(kind.slider, key), &ms)
			painted = append(painted, strconv.FormatFloat(ms, 'f', 0, 64))
			workerAfter, mainAfter := b.processor()
			inWorker = append(inWorker, strconv.FormatInt((workerAfter-worker).Milliseconds(), 10))
			inMain = append(inMain, strconv.FormatInt((mainAfter-main).Milliseconds(), 10))
		}
		t.Logf("%-14s painted after %s ms; processor in the worker %s ms, in the page %s ms", kind.name, strings.Join(painted, " "),
			strings.Join(inWorker, " "), strings.Join(inMain, " "))
	}
	var of map[string]string
	b.eval("({...document.body.dataset})", &of)
	var heap float64
	b.eval("performance.memory ? performance.memory.usedJSHeapSize : 0", &heap)
	t.Logf("engine ready after %s ms, cards %s ms after the files; memory of the engine %s bytes, of the page's scripts %.0f bytes",
		of["ready"], of["opening"], of["memory"], heap)
	b.sameAsReplayMoved(folder)
}

// movePainted is an expression that presses a key on a slider and resolves with the time
// until the cards are painted [ms].
func movePainted(slider, key string) string {
	return `new Promise(resolve => {
		const slider = document.getElementById(` + quoteJS("c-"+slider) + `), moves = document.body.dataset.moves, begin = performance.now();
		const done = new MutationObserver(() => {
			if (document.body.dataset.moves === moves) return;
			done.disconnect();
			requestAnimationFrame(() => setTimeout(() => resolve(performance.now() - begin)));
		});
		done.observe(document.body, {attributes: true});
		slider.dispatchEvent(new KeyboardEvent("keydown", {key: ` + quoteJS(key) + `}));
	})`
}

// sameAsReplayMoved saves the scenario and compares the cards with the command.
func (b *tab) sameAsReplayMoved(folder string) {
	b.t.Helper()
	downloads := b.t.TempDir()
	b.call("Browser.setDownloadBehavior", map[string]any{"behavior": "allow", "downloadPath": downloads}, nil)
	b.eval("document.getElementById('save').click()", nil)
	for _, name := range []string{"yard.yaml", "rates.yaml"} {
		write(b.t, filepath.Join(folder, name), string(read(b.t, b.waitFor(downloads, name))))
	}
	b.sameAsReplay(filepath.Join(folder, "yard.yaml"))
}

// A report with the engine inside is the report where no script runs; where it does, its
// cards are those of the command, and sliders move them.
func TestReportIsAlive(t *testing.T) {
	program := browser(t)
	folder := t.TempDir()
	scenario := filepath.Join("..", "..", "..", "scenarios", "examples", "weir-meadow.yaml")
	plain, alive := filepath.Join(folder, "plain.html"), filepath.Join(folder, "alive.html")
	done(t, "report", scenario, "--out", plain)
	done(t, "report", scenario, "--out", alive, "--alive")
	text := `document.querySelector("main").innerText`
	b := newTab(t, program, folder, 1280, 900)
	b.call("Emulation.setScriptExecutionDisabled", map[string]any{"value": true}, nil)
	var want, got string
	b.open("file://" + plain)
	b.eval(text, &want)
	b.open("file://" + alive)
	b.eval(text, &got)
	if len(want) < 3000 || got != want {
		t.Errorf("without scripts the report has %d characters, the plain one %d", len(got), len(want))
	}
	b.call("Emulation.setScriptExecutionDisabled", map[string]any{"value": false}, nil)
	b.open("file://" + alive)
	b.until("document.body.dataset.firstCard")
	b.sameAsReplay(scenario)
	b.until("document.body.dataset.draws")
	ranges := 0
	b.eval("[...document.querySelectorAll('.range')].filter(e => / to /.test(e.textContent)).length", &ranges)
	if ranges < 3 {
		t.Errorf("%d figures have a range", ranges)
	}
	b.eval("document.querySelector('details.sheet').open = true", nil)
	b.until("document.querySelector('details.sheet table')")
	sheet := ""
	b.eval("document.querySelector('details.sheet').innerText", &sheet)
	if !strings.Contains(sheet, "plot") || !strings.Contains(sheet, "Percent by month") {
		t.Errorf("the settings are %q", sheet)
	}
	b.look("alive")
	b.slide("c-try.percent", "ArrowLeft", left, 2)
	const shown = "[...document.querySelectorAll('.range')].filter(e => / to /.test(e.textContent)).length"
	var stale []int // ranges of other numbers, unless there are new ones already
	if b.eval("[document.body.dataset.draws ? 0 : "+shown+"]", &stale); stale[0] > 0 {
		t.Errorf("%d figures have the ranges of before the move", stale[0])
	}
	b.until("document.body.dataset.draws && " + shown + " >= 3 && document.querySelector('details.sheet table')")
	b.fits("the report")
	b.quiet()
}

// fits checks that nothing of the page is beyond its right edge.
func (b *tab) fits(what string) {
	b.t.Helper()
	var width, inner int
	b.eval("document.documentElement.scrollWidth", &width)
	b.eval("innerWidth", &inner)
	if width > inner {
		var wide []string
		b.eval(`[...document.querySelectorAll("body *")].filter(e => e.getBoundingClientRect().right > innerWidth + 1).
			map(e => e.tagName + "." + e.className + "#" + e.id).slice(0, 5)`, &wide)
		b.t.Errorf("%s: %d px wide in %d: %q", what, width, inner, wide)
	}
}

// named checks that a screen reader has a name for every control; there are at least so
// many.
func (b *tab) named(least int) {
	b.t.Helper()
	var tree struct {
		Nodes []struct {
			Ignored    bool
			Role, Name struct{ Value string }
		}
	}
	b.call("Accessibility.getFullAXTree", nil, &tree)
	n := 0
	for _, of := range tree.Nodes {
		switch of.Role.Value {
		case "button", "textbox", "combobox", "slider", "checkbox", "link", "DisclosureTriangle", "article", "form":
			if n++; !of.Ignored && of.Name.Value == "" && of.Role.Value != "article" {
				b.t.Errorf("a %s has no name", of.Role.Value)
			}
		}
	}
	if n < least {
		b.t.Errorf("only %d controls", n)
	}
}
