package scenarios_test

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"loamledger/scenarios"
	"loamledger/sim"
	"loamledger/sim/settings"
	"loamledger/sim/strategy"
	"loamledger/weather/cal"
	"loamledger/weather/quantity"
)

const twoZones = "  - {name: bed, area: 1 m2, plant: cool-season turf, sprinkler: spray}\n  - {name: front lawn, area: 1 m2, " +
	"plant: cool-season turf, sprinkler: spray}"

// writtenAgain writes a strategy, reads what was written and returns both.
func writtenAgain(t *testing.T, st *strategy.Strategy) (string, *strategy.Strategy) {
	t.Helper()
	w := scenarios.Writer{Zones: []string{"bed", "front lawn"}}
	if err := w.Add(st, "of it, "); err != nil {
		t.Fatal(err)
	}
	head, _, _ := strings.Cut(around(twoZones, ""), "programs:")
	sc := mustRead(t, head+w.String(), nil)
	return w.String(), &sc.Strategies[0]
}

// another returns a value of a parameter other than its default, if there is
// one.
func another(p *strategy.Param, prog strategy.Program) strategy.Value {
	v := strategy.Value{Given: true}
	switch p.Type {
	case strategy.Quantity, strategy.Number:
		v.Number = p.Min + (p.Max-p.Min)/4
		if p.Type == strategy.Number || p.Dim == quantity.Days {
			v.Number = math.Ceil(v.Number)
		}
	case strategy.Flag:
		v.Number = 1 - p.Default
	case strategy.Choice:
		v.Word = p.Choices[len(p.Choices)-1]
	case strategy.TwelveShares:
		for m := range v.Months {
			v.Months[m] = float64(m) / 8
		}
	case strategy.DaysOfWatering:
		v.Days = strategy.DayRule{Kind: strategy.Interval, Every: 3, From: cal.Of(2014, 6, 1)}
	case strategy.ZoneNames:
		v.Zones = []bool{false, true}
	case strategy.ProgramNames:
		v.Programs = []strategy.Program{prog}
	case strategy.ZoneName:
		v.Zone = 1
	case strategy.ZoneShares:
		v.Shares = []float64{math.NaN(), 0.35}
	case strategy.CalendarDay:
		v.Date = cal.Of(2014, 7, 2)
	case strategy.YearDay:
		v.YearDay = 415
	case strategy.ClockTime:
		v.Clock = 61
	}
	return v
}

// TestEveryPartIsReadAsWritten: a part of every kind, with no parameter at its
// default, is read as written, to the rounding of the text.
func TestEveryPartIsReadAsWritten(t *testing.T) {
	prog := strategy.Program{Name: "a 'short' one", Days: strategy.DayRule{Kind: strategy.Weekdays, Weekdays: [7]bool{0: true, 3: true}},
		Starts: []int{330, 1200}, Minutes: []float64{0, 12.5},
		Cycle: 5, Soak: 30, From: cal.Of(2013, 4, 1), To: cal.Of(2014, 3, 31), RampTo: 0.4}
	for _, k := range strategy.Kinds() {
		b := k.Blank()
		for i := range b.Params {
			p := &b.Params[i]
			if k.Key == "hold.rain" && p.Key == "dry_out" { // it contradicts dry_out_eto
				b.Set(i, strategy.Value{Number: p.Default})
				continue
			}
			b.Set(i, another(p, prog))
		}
		part := b.Part()
		parts := []strategy.Part{part}
		if part.Stage() != strategy.Water {
			parts = append(parts, strategy.Programs{List: []strategy.Program{prog}})
		}
		text, st := writtenAgain(t, &strategy.Strategy{Name: "all of it", Parts: parts})
		var again strategy.Part
		for _, p := range st.Parts {
			if p.Kind().Key == k.Key {
				again = p
			}
		}
		if again == nil {
			t.Errorf("%s is not in\n%s", k.Key, text)
			continue
		}
		_, want, err := strategy.Written(part)
		if err != nil {
			t.Fatal(err)
		}
		_, got, err := strategy.Written(again)
		if err != nil {
			t.Fatal(err)
		}
		for i := range want {
			a, b := want[i].Value(), got[i].Value()
			if !near(b.Number, a.Number) {
				t.Errorf("%s: %s is %v, want %v in\n%s", k.Key, want[i].Key, b.Number, a.Number, text)
			}
			for z := range a.Shares {
				if math.IsNaN(a.Shares[z]) != math.IsNaN(b.Shares[z]) || a.Shares[z] == a.Shares[z] && !near(b.Shares[z], a.Shares[z]) {
					t.Errorf("%s: shares %v, want %v", k.Key, b.Shares, a.Shares)
				}
			}
			for m := range a.Months {
				if !near(b.Months[m], a.Months[m]) {
					t.Errorf("%s: months %v, want %v", k.Key, b.Months, a.Months)
				}
			}
			for j := range a.Programs {
				a.Programs[j].Name = "of it, " + prog.Name
				if !near(b.Programs[j].RampTo, a.Programs[j].RampTo) {
					t.Errorf("ramp to %g, want %g", b.Programs[j].RampTo, a.Programs[j].RampTo)
				}
				b.Programs[j].RampTo = a.Programs[j].RampTo
			}
			a.Number, a.Shares, a.Months, b.Number, b.Shares, b.Months = 0, nil, [12]float64{}, 0, nil, [12]float64{}
			if fmt.Sprintf("%+v", a) != fmt.Sprintf("%+v", b) {
				t.Errorf("%s: %s is %+v, want %+v in\n%s", k.Key, want[i].Key, b, a, text)
			}
		}
	}
}

// TestAutoIsReadAsWritten: percentages from the record stay auto, and a part at
// its defaults is written with required parameters only.
func TestAutoIsReadAsWritten(t *testing.T) {
	lawns := strategy.Programs{List: []strategy.Program{{Name: "lawns", Starts: []int{300}, Minutes: []float64{10, 0}}}}
	text, st := writtenAgain(t, &strategy.Strategy{Name: "auto",
		Parts: []strategy.Part{lawns, strategy.Monthly{Auto: true}, strategy.FrostHold{BelowC: 2},
			strategy.RainHold{AtLeastMM: 6, DryOut: 2, MissRate: 0.25, Seed: 1}}})
	if m, ok := st.Parts[1].(strategy.Monthly); !ok || !m.Auto ||
		!strings.Contains(text, "\n    monthly: auto\n    hold: {frost: {below: 2 C}, rain: {at_least: 6 mm}}\n") {
		t.Errorf("%+v from\n%s", st.Parts[1], text)
	}
}

// TestEveryKindAnswers: a part of every kind, as in its example, answers every
// question about it, and is written at its defaults as it is read.
func TestEveryKindAnswers(t *testing.T) {
	w := sim.Weather{Start: cal.Of(2014, 1, 1), EToMM: make([]float64, 365), RainMM: make([]float64, 365), TminC: make([]float64, 365)}
	for i := range w.EToMM {
		w.EToMM[i] = 3
	}
	for _, k := range strategy.Kinds() {
		text := "  - name: example\n"
		if k.Key != "programs" && k.Key != "refill" {
			text += "    programs: [lawns]\n"
		}
		sc := mustRead(t, around(twoZones, text+"    "+k.Example+"\n"), nil)
		site := settings.NewSite(sc.SimZones(), w, nil, nil)
		st := &sc.Strategies[0]
		if _, err := st.Describe(site); err != nil {
			t.Error(err)
		}
		first, again := writtenAgain(t, st)
		if second, _ := writtenAgain(t, again); strings.ReplaceAll(second, "of it, of it, ", "of it, ") != first {
			t.Errorf("written, read and written again:\n%s\nwas\n%s", second, first)
		}
		for _, p := range st.Parts {
			if p.Kind().Key != k.Key {
				continue
			}
			entry, err := strategy.OnSheet(p, site)
			if err != nil {
				t.Error(err)
			}
			if entry.Use == strategy.Entered && entry.Programs == nil && entry.Months == nil && entry.Zones == nil {
				t.Errorf("%s is entered on a sheet, and nothing of it is", k.Key)
			}
			if _, err := strategy.OnCopy(p); err != nil {
				t.Error(err)
			}
			for _, sys := range []quantity.System{quantity.SI, quantity.US} {
				if _, err := strategy.Lines(p, []string{"bed", "front lawn"}, sys); err != nil {
					t.Error(err)
				}
			}
			if _, err := strategy.WarningsOf(p, []string{"bed", "front lawn"}); err != nil {
				t.Error(err)
			}
		}
	}
}

// TestDesignIsWrittenInTheUnitsOfTheScenario: a design ETo in US units is in
// inches, and reads back as given; auto stays auto. Hand: 6.858 mm are 0.27 in.
func TestDesignIsWrittenInTheUnitsOfTheScenario(t *testing.T) {
	lawns := strategy.Programs{List: []strategy.Program{{Name: "lawns", Starts: []int{300}, Minutes: []float64{10, 0}}}}
	for _, c := range []struct {
		part strategy.ETPercent
		sys  quantity.System
		want string
	}{
		{strategy.ETPercent{DesignEToMM: 6.858, Days: 7, Max: 2}, quantity.US, "design_eto: 0.27 in,"},
		{strategy.ETPercent{DesignEToMM: 6.858, Days: 7, Max: 2}, quantity.SI, "design_eto: 6.858 mm,"},
		{strategy.ETPercent{Days: 7, Max: 2}, quantity.US, "design_eto: auto,"},
	} {
		w := scenarios.Writer{Zones: []string{"bed", "front lawn"}, Units: c.sys}
		if err := w.Add(&strategy.Strategy{Name: "et", Parts: []strategy.Part{lawns, c.part}}, ""); err != nil {
			t.Fatal(err)
		}
		if !strings.Contains(w.String(), c.want) {
			t.Errorf("no %q in\n%s", c.want, w.String())
		}
		head, _, _ := strings.Cut(around(twoZones, ""), "programs:")
		sc := mustRead(t, head+w.String(), nil)
		if got := sc.Strategies[0].Parts[1].(strategy.ETPercent).DesignEToMM; math.Abs(got-c.part.DesignEToMM) > 1e-9 {
			t.Errorf("%s: read back as %g mm", c.want, got)
		}
	}
}

// TestDesignETo is auto unless given.
func TestDesignEToIsAutoByDefault(t *testing.T) {
	for _, text := range []string{"et_percent: {}", "et_percent: {design_eto: auto}", "et_percent: {design_eto: AUTO, days: 7 days}"} {
		sc := mustRead(t, around(twoZones, "  - {name: et, programs: [lawns], "+text+"}\n"), nil)
		found := false
		for _, p := range sc.Strategies[0].Parts {
			if e, ok := p.(strategy.ETPercent); ok {
				found = true
				if e.DesignEToMM != 0 {
					t.Errorf("%s: %g mm", text, e.DesignEToMM)
				}
			}
		}
		if !found {
			t.Errorf("%s: no such part", text)
		}
	}
}
