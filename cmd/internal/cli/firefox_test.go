package cli_test

import (
	"bufio"
	"bytes"
	"encoding/json"
	"fmt"
	"io"
	"net"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"sync"
	"testing"
	"time"
)

// A fox is a page in a Firefox without a window, driven through its own protocol, Marionette: a length, a colon and JSON.
type fox struct {
	t    *testing.T
	conn net.Conn
	from *bufio.Reader
	next int

	mu      sync.Mutex
	printed bytes.Buffer // with what pages write on their console
}

// Write notes what the browser prints.
func (b *fox) Write(p []byte) (int, error) {
	b.mu.Lock()
	defer b.mu.Unlock()
	return b.printed.Write(p)
}

// newFox starts a Firefox if FIREFOX is set; the test is skipped if there is none. Downloads go to the given folder.
func newFox(t *testing.T, downloads string) *fox {
	t.Helper()
	if os.Getenv("FIREFOX") == "" {
		t.Skip("set FIREFOX=1 to look at pages in Firefox, too; a slow one takes minutes")
	}
	program, err := exec.LookPath("firefox-esr")
	if err != nil {
		program, err = exec.LookPath("firefox")
	}
	if err != nil {
		t.Skip("no Firefox is installed, so no page is looked at in it")
	}
	profile, b := t.TempDir(), &fox{t: t}
	prefs := `user_pref("marionette.port", 0);
user_pref("browser.download.folderList", 2);
user_pref("browser.download.dir", ` + quoteJS(downloads) + `);
user_pref("browser.download.always_ask_before_handling_new_types", false);
user_pref("devtools.console.stdout.content", true);
user_pref("app.normandy.enabled", false);
user_pref("datareporting.policy.dataSubmissionEnabled", false);
`
	write(t, filepath.Join(profile, "user.js"), prefs)
	cmd := exec.Command(program, "--headless", "--marionette", "--no-remote", "--profile", profile, "about:blank")
	cmd.Env = append(os.Environ(), "HOME="+profile, "MOZ_CRASHREPORTER_DISABLE=1")
	cmd.Stdout, cmd.Stderr = b, b
	if err := cmd.Start(); err != nil {
		t.Fatal(err)
	}
	ended := make(chan error, 1)
	go func() { ended <- cmd.Wait() }()
	for b.conn == nil {
		select {
		case err := <-ended:
			t.Fatalf("firefox has ended: %v\n%s", err, b.printed.String())
		case <-time.After(20 * time.Millisecond):
		}
		if port, err := os.ReadFile(filepath.Join(profile, "MarionetteActivePort")); err == nil && len(port) > 0 {
			b.conn, _ = net.Dial("tcp", "127.0.0.1:"+strings.TrimSpace(string(port)))
		}
	}
	b.from = bufio.NewReader(b.conn)
	b.answer(nil) // its greeting
	t.Cleanup(func() {
		b.call("Marionette:Quit", map[string]any{"flags": []string{"eForceQuit"}}, nil)
		b.conn.Close()
		<-ended
	})
	b.call("WebDriver:NewSession", map[string]any{}, nil)
	return b
}

// answer reads one answer.
func (b *fox) answer(into any) {
	b.t.Helper()
	size, err := b.from.ReadString(':')
	n, nerr := strconv.Atoi(strings.TrimSuffix(size, ":"))
	if err != nil || nerr != nil {
		b.t.Fatal(err, nerr)
	}
	text := make([]byte, n)
	if _, err := io.ReadFull(b.from, text); err != nil {
		b.t.Fatal(err)
	}
	if into != nil {
		if err := json.Unmarshal(text, into); err != nil {
			b.t.Fatal(err)
		}
	}
}

// call calls a command of the protocol.
func (b *fox) call(command string, params, result any) {
	b.t.Helper()
	b.next++
	text, err := json.Marshal([]any{0, b.next, command, params})
	if err != nil {
		b.t.Fatal(err)
	}
	if _, err := fmt.Fprintf(b.conn, "%d:%s", len(text), text); err != nil {
		b.t.Fatal(err)
	}
	var got [4]json.RawMessage // its kind, the number, an error, the result
	b.answer(&got)
	if string(got[2]) != "null" {
		b.t.Fatalf("%s: %s", command, got[2])
	}
	if result != nil {
		if err := json.Unmarshal(got[3], result); err != nil {
			b.t.Fatal(err)
		}
	}
}

// eval evaluates an expression in the page.
func (b *fox) eval(expression string, result any) {
	b.t.Helper()
	var got struct{ Value json.RawMessage }
	b.call("WebDriver:ExecuteScript", map[string]any{"script": "return (" + expression + ")", "args": []any{}}, &got)
	if result != nil {
		if err := json.Unmarshal(got.Value, result); err != nil {
			b.t.Fatalf("%s: %v", expression, err)
		}
	}
}

// until waits until a condition is true, or the page says that it has failed.
func (b *fox) until(condition string) {
	b.t.Helper()
	failed := ""
	for met := false; !met && failed == ""; time.Sleep(20 * time.Millisecond) {
		b.eval("document.body && document.body.dataset.failed || ''", &failed)
		b.eval("Boolean("+condition+")", &met)
	}
	if failed != "" {
		b.t.Fatalf("%s: the page has failed: %s", condition, failed)
	}
}

// open opens a page of this machine.
func (b *fox) open(page string) {
	b.t.Helper()
	b.call("WebDriver:Navigate", map[string]any{"url": "file://" + page}, nil)
}

// press sends keys to the element with the ID.
func (b *fox) press(id, keys string) {
	b.t.Helper()
	var found struct{ Value map[string]string }
	b.call("WebDriver:FindElement", map[string]any{"using": "css selector", "value": `[id="` + id + `"]`}, &found)
	for _, element := range found.Value {
		b.call("WebDriver:ElementSendKeys", map[string]any{"id": element, "text": keys}, nil)
	}
}

// slide moves a slider by keys, once for each, and waits for the cards each time.
func (b *fox) slide(id, keys string) {
	b.t.Helper()
	for _, key := range keys {
		before := 0
		b.eval("Number(document.body.dataset.moves || 0)", &before)
		b.press(id, string(key))
		b.until("Number(document.body.dataset.moves || 0) > " + strconv.Itoa(before))
	}
}

// quiet checks that no script of a page failed. What the browser itself complains of is on the same console.
func (b *fox) quiet() {
	b.t.Helper()
	b.mu.Lock()
	defer b.mu.Unlock()
	for line := range strings.Lines(b.printed.String()) {
		if strings.Contains(line, "JavaScript error: file:") || strings.Contains(line, "JavaScript error: blob:") {
			b.t.Errorf("on the console: %s", line)
		}
	}
}

// look saves a picture of the page into the folder that SHOTS names, if it does.
func (b *fox) look(name string) {
	b.t.Helper()
	folder := os.Getenv("SHOTS")
	if folder == "" {
		return
	}
	var got struct{ Value []byte }
	b.call("WebDriver:TakeScreenshot", map[string]any{"full": true}, &got)
	write(b.t, filepath.Join(folder, name+".png"), string(got.Value))
}

// Keys of the protocol.
const (
	arrowLeft, arrowRight = "\ue012", "\ue014"
	tabKey, enter         = "\ue004", "\ue007"
)

// In Firefox, too, the page asks and answers with the digits of the command, and saves what it shows.
func TestPageInFirefox(t *testing.T) {
	downloads := t.TempDir()
	b := newFox(t, downloads)
	page := livePage(t)
	b.open(page)
	b.until("document.body.dataset.form")
	b.look("firefox-form")
	for _, a := range [][2]string{{"place.position.-1", "39"}, {"zones.name.0", "front lawn"}, {"zones.area.0", "40 x 25"}} {
		before := 0
		b.eval("Number(document.body.dataset.asked || 0)", &before)
		b.press("q-"+a[0], a[1]+tabKey)
		b.until("Number(document.body.dataset.asked || 0) > " + strconv.Itoa(before))
	}
	b.eval("document.querySelector('#form button[type=submit]').click()", nil)
	b.until("document.body.dataset.firstCard")
	b.slide("c-zones.0.sprinkler.uniformity", arrowRight+arrowRight)
	b.look("firefox-cards")
	b.press("save", enter)
	b.until("document.getElementById('status').textContent.startsWith('Saved')")
	var names []string
	b.eval("document.getElementById('status').textContent.match(/[\\w-]+\\.\\w+/g)", &names)
	for _, name := range names {
		for {
			if _, err := os.Stat(filepath.Join(downloads, name+".part")); err == nil {
				continue
			}
			if info, err := os.Stat(filepath.Join(downloads, name)); err == nil && info.Size() > 0 {
				break
			}
			time.Sleep(20 * time.Millisecond)
		}
	}
	var cards []shownCard
	b.eval(shownCards, &cards)
	sameAsReplay(t, cards, filepath.Join(downloads, "yard.yaml"))
	var of map[string]string
	b.eval("({...document.body.dataset})", &of)
	before := of["move"]
	b.slide("c-zones.0.sprinkler.uniformity", arrowLeft+arrowLeft+arrowLeft)
	b.eval("({...document.body.dataset})", &of)
	t.Logf("Firefox: engine ready after %s ms, cards %s ms after the files, a move %s ms, a later one %s ms",
		of["ready"], of["opening"], before,
		of["move"])
	b.quiet()
}

// A report with the engine inside computes in Firefox, too.
func TestReportIsAliveInFirefox(t *testing.T) {
	folder := t.TempDir()
	b := newFox(t, folder)
	scenario := filepath.Join("..", "..", "..", "scenarios", "examples", "weir-meadow.yaml")
	alive := filepath.Join(folder, "alive.html")
	done(t, "report", scenario, "--out", alive, "--alive")
	b.open(alive)
	b.until("document.body.dataset.firstCard")
	var cards []shownCard
	b.eval(shownCards, &cards)
	sameAsReplay(t, cards, scenario)
	b.slide("c-try.percent", arrowLeft+arrowLeft)
	b.look("firefox-alive")
	b.quiet()
}
