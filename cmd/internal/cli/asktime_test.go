package cli_test

import (
	"bytes"
	"path/filepath"
	"strings"
	"testing"
	"unicode"

	"loamledger/cmd/internal/cli"
)

// A model of a newcomer, not a measurement: nobody was timed. Reading at 238 words a
// minute is the mean of 190 studies (Brysbaert 2019, Journal of Memory and Language 109,
// doi 10.1016/j.jml.2019.104047). A key takes 0.28 s, that of an average typist who is no
// secretary, and getting ready to answer 1.35 s (Card, Moran and Newell 1980,
// Communications of the ACM 23, 396-410, as tabulated in lecture notes; the paper itself was
// read only in part). Walks to the timer and to the yard are not in it.
const (
	wordsPerSecond   = 238.0 / 60
	secondsPerKey    = 0.28
	secondsPerAnswer = 1.35
)

// readSeconds is how long reading all words of a text takes; rules of tables are no words.
func readSeconds(text string) float64 {
	words := 0
	for _, w := range strings.Fields(text) {
		if strings.ContainsFunc(w, func(r rune) bool { return unicode.IsLetter(r) || unicode.IsNumber(r) }) {
			words++
		}
	}
	return float64(words) / wordsPerSecond
}

// typeSeconds is how long typing a line takes, Enter included.
func typeSeconds(line string) float64 {
	return secondsPerAnswer + secondsPerKey*float64(len([]rune(line))+1)
}

// newcomer answers for a yard of three zones, all lawn under the same heads.
var newcomer = []string{"38.9, -104.8", "3", "", "front lawn, side, back", "40 x 25, 30 x 12, 20 x 18", "1", "1", "3",
	"mon, wed, fri", "5:00",
	"15, 12, 15", "apr-oct", "$6.50 per kgal", "", "", ""}

// From the command to the first table: all that is printed is read, up to the end of the
// table of strategies, and all answers are typed.
func TestQuestionsTakeFourMinutes(t *testing.T) {
	const goal = 240 // seconds
	name := filepath.Join(t.TempDir(), "yard.yaml")
	var out, errs bytes.Buffer
	streams := cli.Streams{Out: &out, Err: &errs, In: strings.NewReader(strings.Join(newcomer, "\n") + "\n"), Typed: true}
	if code := cli.Main(t.Context(), []string{"init", "--ask", "--out", name}, streams); code != 0 {
		t.Fatalf("exit code %d: %s", code, errs.String())
	}
	text, _, ok := strings.Cut(out.String(), "\nYearly figures are means")
	if !ok || strings.Contains(text, "Not understood") || strings.Contains(text, "Unusual") {
		t.Fatalf("not the dialog that was meant:\n%s", text)
	}
	first, _, _ := strings.Cut(text[strings.Index(text, " strategy "):], "\n\n")
	text = text[:strings.Index(text, " strategy ")] + first
	prompts := strings.Count(text, "\n> ")
	if prompts != len(newcomer) {
		t.Errorf("%d prompts, and %d answers", prompts, len(newcomer))
	}
	typing := 0.0
	for _, line := range newcomer {
		typing += typeSeconds(line)
	}
	before, questions, _ := strings.Cut(string(read(t, readme)), "## Your own site\n")
	_ = before
	lead, _, _ := strings.Cut(questions, "\nThese commands write a template")
	intro := readSeconds(lead)
	for line := range strings.Lines(lead) {
		if command, is := strings.CutPrefix(line, "    "); is {
			intro += typeSeconds(strings.TrimSpace(command))
		}
	}
	reading := readSeconds(text)
	t.Logf("model of a newcomer with 3 zones: %d prompts; reading %.0f s, typing %.0f s, together %.0f s, of at most %d s; "+
		"reading how to begin in README.md and typing its commands, %.0f s more", prompts, reading, typing, reading+typing, goal, intro)
	if reading+typing > goal {
		t.Errorf("%.0f s, of at most %d s", reading+typing, goal)
	}
	if all := reading + typing + intro; all > 300 {
		t.Errorf("%.0f s from README.md to the first table, of at most five minutes", all)
	}
}
