package strategy_test

import (
	"slices"
	"strings"
	"testing"

	"loamledger/sim/strategy"
)

// TestPlainTextsFitARow: what a part does in plain words is short and has neither
// a capital nor a period; parts that need equipment say what they do.
func TestPlainTextsFitARow(t *testing.T) {
	for _, k := range strategy.Kinds() {
		b := k.Blank()
		for i := range b.Params {
			b.Set(i, values(&b.Params[i])[0])
		}
		st := strategy.Strategy{Parts: []strategy.Part{b.Part()}}
		text, needs, err := st.Plain()
		if err != nil || text == "" || len(text) > 130 || text != strings.ToLower(text[:1])+text[1:] || strings.HasSuffix(text, ".") {
			t.Errorf("%s: %q, %v", k.Key, text, err)
		}
		if len(needs) > 0 && text == "never waters" {
			t.Errorf("%s needs %v and does not say why", k.Key, needs)
		}
	}
}

// TestPlainStrategy: texts are in the order of the parts, equipment once and in
// the order of its list; a bypassed rain sensor needs nothing.
func TestPlainStrategy(t *testing.T) {
	st := strategy.Strategy{Parts: []strategy.Part{
		strategy.Programs{List: []strategy.Program{{}, {Cycle: 5}}}, strategy.RainHold{}, strategy.ETPercent{}, strategy.RainHold{},
	}}
	text, needs, err := st.Plain()
	want := []strategy.Equipment{strategy.WeatherController, strategy.RainSensor}
	if err != nil || text != "2 programs in short cycles on fixed days; off after rain; run times follow recent weather" ||
		!slices.Equal(needs, want) {
		t.Errorf("%q, %v, %v", text, needs, err)
	}
	st.Parts = []strategy.Part{strategy.RainHold{Bypass: true}}
	if text, needs, _ := st.Plain(); text != "rain sensor bypassed" || len(needs) > 0 {
		t.Errorf("%q, %v", text, needs)
	}
	if text, needs, _ := (&strategy.Strategy{}).Plain(); text != "never waters" || needs != nil {
		t.Errorf("%q, %v", text, needs)
	}
	for e := range strategy.Equipments {
		if e.String() == "" {
			t.Errorf("equipment %d has no words", e)
		}
	}
}
