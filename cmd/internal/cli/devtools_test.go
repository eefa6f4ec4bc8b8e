package cli_test

import (
	"bufio"
	"cmp"
	"encoding/json"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"sync"
	"testing"
	"time"
)

// A tab is a page in a browser without a window, driven through the browser's own
// protocol over a pipe, so that no library is needed.
type tab struct {
	t       *testing.T
	to      *os.File
	session string

	mu       sync.Mutex
	next     int
	waiting  map[int]chan message
	requests []string // addresses that the page asked the network for
	console  []string // errors and warnings
}

type message struct {
	ID     int             `json:"id"`
	Method string          `json:"method"`
	Params json.RawMessage `json:"params"`
	Result json.RawMessage `json:"result"`
	Error  *struct {
		Message string `json:"message"`
	} `json:"error"`
}

// newTab starts a browser of the given size with an empty page. Downloads go to the
// given folder.
func newTab(t *testing.T, program, downloads string, width, height int) *tab {
	t.Helper()
	theirs, to, err := os.Pipe()
	if err != nil {
		t.Fatal(err)
	}
	from, theirOut, err := os.Pipe()
	if err != nil {
		t.Fatal(err)
	}
	cmd := exec.Command(program, "--headless", "--no-sandbox", "--disable-gpu", "--remote-debugging-pipe", "--user-data-dir="+t.TempDir(),
		fmt.Sprintf("--window-size=%d,%d", width, height), "about:blank")
	cmd.ExtraFiles = []*os.File{theirs, theirOut}
	if err := cmd.Start(); err != nil {
		t.Fatal(err)
	}
	_, _ = theirs.Close(), theirOut.Close()
	b := &tab{t: t, to: to, waiting: map[int]chan message{}}
	go b.listen(from)
	t.Cleanup(func() {
		b.call("Browser.close", nil, nil)
		_ = cmd.Wait()
		_, _ = to.Close(), from.Close()
	})
	var targets struct {
		TargetInfos []struct{ TargetID, Type string }
	}
	b.call("Target.getTargets", nil, &targets)
	for _, of := range targets.TargetInfos {
		if of.Type == "page" {
			var attached struct{ SessionID string }
			b.call("Target.attachToTarget", map[string]any{"targetId": of.TargetID, "flatten": true}, &attached)
			b.session = attached.SessionID
		}
	}
	if b.session == "" {
		t.Fatal("the browser has no page")
	}
	for _, domain := range []string{"Page", "Runtime", "Network", "Log", "DOM", "Accessibility"} {
		b.call(domain+".enable", nil, nil)
	}
	b.resize(width, height)
	b.call("Browser.setDownloadBehavior", map[string]any{"behavior": "allow", "downloadPath": downloads}, nil)
	return b
}

// resize gives the page another size [px].
func (b *tab) resize(width, height int) {
	b.t.Helper()
	size := map[string]any{"width": width, "height": height, "deviceScaleFactor": 1, "mobile": false}
	b.call("Emulation.setDeviceMetricsOverride", size, nil)
}

// listen passes answers on, and notes what the page does.
func (b *tab) listen(from *os.File) {
	r := bufio.NewReader(from)
	for {
		text, err := r.ReadString(0)
		if err != nil {
			return
		}
		var m message
		if json.Unmarshal([]byte(strings.TrimSuffix(text, "\x00")), &m) != nil {
			continue
		}
		b.mu.Lock()
		switch m.Method {
		case "Network.requestWillBeSent":
			var p struct{ Request struct{ URL string } }
			_ = json.Unmarshal(m.Params, &p)
			b.requests = append(b.requests, p.Request.URL)
		case "Runtime.exceptionThrown", "Log.entryAdded":
			b.console = append(b.console, string(m.Params))
		case "Runtime.consoleAPICalled":
			b.console = append(b.console, string(m.Params))
		}
		answer := b.waiting[m.ID]
		delete(b.waiting, m.ID)
		b.mu.Unlock()
		if answer != nil {
			answer <- m
		}
	}
}

// call calls a method of the protocol.
func (b *tab) call(method string, params, result any) {
	b.t.Helper()
	answer := make(chan message, 1)
	b.mu.Lock()
	b.next++
	id := b.next
	b.waiting[id] = answer
	b.mu.Unlock()
	m := map[string]any{"id": id, "method": method}
	if params != nil {
		m["params"] = params
	}
	if b.session != "" && !strings.HasPrefix(method, "Browser.") && !strings.HasPrefix(method, "SystemInfo.") {
		m["sessionId"] = b.session
	}
	text, err := json.Marshal(m)
	if err != nil {
		b.t.Fatal(err)
	}
	if _, err := b.to.Write(append(text, 0)); err != nil {
		return // the browser has ended
	}
	if method == "Browser.close" {
		return
	}
	got := <-answer
	if got.Error != nil {
		b.t.Fatalf("%s: %s", method, got.Error.Message)
	}
	if result != nil {
		if err := json.Unmarshal(got.Result, result); err != nil {
			b.t.Fatal(err)
		}
	}
}

// processor returns for how long the first worker of the page, and its main thread, have had
// a processor; 0 if this system does not tell.
func (b *tab) processor() (worker, main time.Duration) {
	b.t.Helper()
	var got struct {
		ProcessInfo []struct {
			Type string
			ID   int
		}
	}
	b.call("SystemInfo.getProcessInfo", nil, &got)
	for _, p := range got.ProcessInfo {
		threads, _ := filepath.Glob(fmt.Sprintf("/proc/%d/task/*", p.ID))
		slices.SortFunc(threads, func(x, y string) int { return cmp.Or(cmp.Compare(len(x), len(y)), cmp.Compare(x, y)) }) // the oldest first
		for _, thread := range threads {
			name, _ := os.ReadFile(filepath.Join(thread, "comm"))
			text, _ := os.ReadFile(filepath.Join(thread, "schedstat")) // nanoseconds first
			on, _, _ := strings.Cut(string(text), " ")
			ns, err := time.ParseDuration(on + "ns")
			switch {
			case err != nil || p.Type != "renderer":
			case worker == 0 && strings.HasPrefix(string(name), "DedicatedWorker"):
				worker = ns
			case strings.HasPrefix(string(name), "CrRendererMain"), string(name) == "chromium\n" && strings.HasSuffix(thread, fmt.Sprint("/", p.ID)):
				main += ns
			}
		}
	}
	return worker, main
}

// eval evaluates an expression, and waits if it is a promise; the value is decoded into
// result, which may be nil.
func (b *tab) eval(expression string, result any) {
	b.t.Helper()
	var got struct {
		Result           struct{ Value json.RawMessage }
		ExceptionDetails *struct {
			Text      string
			Exception struct{ Description string }
		}
	}
	b.call("Runtime.evaluate", map[string]any{"expression": expression, "awaitPromise": true, "returnByValue": true}, &got)
	if e := got.ExceptionDetails; e != nil {
		b.t.Fatalf("%s: %s %s", expression, e.Text, e.Exception.Description)
	}
	if result != nil && got.Result.Value != nil {
		if err := json.Unmarshal(got.Result.Value, result); err != nil {
			b.t.Fatal(err)
		}
	}
}

// until waits in the page until a condition is true, or the page says that it has failed.
func (b *tab) until(condition string) {
	b.t.Helper()
	failed := ""
	for met := false; !met && failed == ""; time.Sleep(10 * time.Millisecond) { // not by timers of the page: its scripts may be off
		b.eval("document.body && document.body.dataset.failed || ''", &failed)
		b.eval("Boolean("+condition+")", &met)
	}
	if failed != "" {
		b.mu.Lock()
		defer b.mu.Unlock()
		b.t.Fatalf("%s: the page has failed: %s\n%s", condition, failed, strings.Join(b.console, "\n"))
	}
}

// open goes to an address.
func (b *tab) open(address string) {
	b.t.Helper()
	b.call("Page.navigate", map[string]any{"url": address}, nil)
	b.until("document.readyState === 'complete' && location.href !== 'about:blank'")
}

// choose puts files into an input, as a person does in the dialog.
func (b *tab) choose(selector string, names ...string) {
	b.t.Helper()
	var object struct{ Result struct{ ObjectID string } }
	b.call("Runtime.evaluate", map[string]any{"expression": "document.querySelector(" + quoteJS(selector) + ")"}, &object)
	b.call("DOM.setFileInputFiles", map[string]any{"files": names, "objectId": object.Result.ObjectID}, nil)
}

// press presses a key.
func (b *tab) press(key, code string, number int) {
	b.t.Helper()
	p := map[string]any{"type": "keyDown", "key": key, "code": code, "windowsVirtualKeyCode": number}
	switch key {
	case "Enter":
		p["text"] = "\r"
	case " ":
		p["text"] = " "
	}
	b.call("Input.dispatchKeyEvent", p, nil)
	p["type"] = "keyUp"
	delete(p, "text")
	b.call("Input.dispatchKeyEvent", p, nil)
}

func quoteJS(text string) string {
	b, _ := json.Marshal(text)
	return string(b)
}

// shot saves a picture of the whole page, to be looked at.
func (b *tab) shot(name string) {
	b.t.Helper()
	var got struct{ Data []byte }
	b.call("Page.captureScreenshot", map[string]any{"format": "png", "captureBeyondViewport": true}, &got)
	if err := os.WriteFile(name, got.Data, 0o666); err != nil {
		b.t.Fatal(err)
	}
}
