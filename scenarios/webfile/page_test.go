package webfile

import (
	"bytes"
	"errors"
	"strings"
	"testing"
)

func sampleEngine() *Engine {
	return &Engine{Wasm: []byte("wasm"), Support: []byte("class Go {}"), License: []byte("free </script> to use"), Version: "1"}
}

// The same contents give the same page. Nothing that is inside ends a script early, and
// no place is left to fill.
func TestWrite(t *testing.T) {
	inside := &Files{Scenario: "a.yaml", Files: map[string][]byte{"a.yaml": []byte("</script><b>"), "b.csv": {0, 255}}}
	var a, b bytes.Buffer
	if err := errors.Join(Write(&a, sampleEngine(), inside), Write(&b, sampleEngine(), inside)); err != nil {
		t.Fatal(err)
	}
	if !bytes.Equal(a.Bytes(), b.Bytes()) {
		t.Error("two pages of the same contents differ")
	}
	text := a.String()
	if opened, closed := strings.Count(text, "<script"), strings.Count(text, "</script>"); opened != 6 || closed != 6 {
		t.Errorf("%d scripts begin, %d end", opened, closed)
	}
	if strings.Contains(text, "{{") || !strings.Contains(text, "d2FzbQ==") { // wasm in base64
		t.Error("a place is not filled")
	}
	for _, bad := range []string{"http://", "https://", "fetch(", "XMLHttpRequest", "innerHTML", "eval(", "localStorage"} {
		if strings.Contains(scriptText+workerText+pageText+startText+cardsText+styleText, bad) {
			t.Errorf("the page has %s", bad)
		}
	}
}

// A report keeps all that it has, and its policy allows the engine only.
func TestAlive(t *testing.T) {
	const report = `<html><head><meta http-equiv="Content-Security-Policy" ` +
		`content="default-src 'none'; img-src data:; style-src 'unsafe-inline'"></head>` +
		`<body><main><p>Result</p><footer>f</footer></main></body></html>`
	var out bytes.Buffer
	if err := Alive(&out, sampleEngine(), []byte(report), &Files{Scenario: "a.yaml"}); err != nil {
		t.Fatal(err)
	}
	for _, want := range []string{"<p>Result</p>", `style-src 'unsafe-inline'; script-src 'sha256-`, `id="alive" hidden`, "</body></html>"} {
		if !strings.Contains(out.String(), want) {
			t.Errorf("the report lacks %s", want)
		}
	}
	if err := Alive(&out, sampleEngine(), []byte("<html></html>"), nil); !errors.Is(err, errNoReport) {
		t.Errorf("error %v", err)
	}
}
