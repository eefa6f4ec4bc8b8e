package clock

import (
	"cmp"
	"slices"
	"testing"

	"pgregory.net/rapid"
)

// Every case is worked by hand. Each zone draws 20 L/min.
func TestLayControllers(t *testing.T) {
	two := &Wiring{AtOnce: []int{1, 1}, MeterLMin: []float64{0}, Controller: []int{0, 0, 1}, Meter: []int{0, 0, 0}}
	pair := &Wiring{AtOnce: []int{2}, MeterLMin: []float64{0}, Controller: []int{0, 0, 0}, Meter: []int{0, 0, 0}}
	flow := &Wiring{AtOnce: []int{3}, MeterLMin: []float64{40}, Controller: []int{0, 0, 0}, Meter: []int{0, 0, 0}}
	meters := &Wiring{AtOnce: []int{3}, MeterLMin: []float64{20, 20}, Controller: []int{0, 0, 0}, Meter: []int{0, 0, 1}}
	all := []ZoneRun{run(0, 10, 0, 0), run(1, 10, 0, 0), run(2, 10, 0, 0)}
	tests := []struct {
		name   string
		wiring *Wiring
		starts []Start
		want   string
	}{
		{"a start of two controllers runs on both", two, []Start{{300, all}}, "0@300-310 2@300-310 1@310-320"},
		{"programs of different controllers overlap", two, []Start{{300, all[:2]}, {305, all[2:]}}, "0@300-310 2@305-315 1@310-320"},
		{"two at once, of any flow", pair, []Start{{0, all}}, "0@0-10 1@0-10 2@10-20"},
		{"three at once, and flow for two", flow, []Start{{0, all}}, "0@0-10 1@0-10 2@10-20"},
		{"each meter has its flow", meters, []Start{{0, all}}, "0@0-10 2@0-10 1@10-20"},
	}
	for _, tt := range tests {
		tb := Timetable{Wiring: tt.wiring}
		tb.Lay(tt.starts)
		if got := text(&tb); got != tt.want {
			t.Errorf("%s:\n got %s\nwant %s", tt.name, got, tt.want)
		}
	}
	tb := Timetable{Wiring: two, BusyUntilMin: []float64{15, 0}} // only the first still runs
	tb.Lay([]Start{{0, all}})
	if got := text(&tb); got != "2@0-10 0@15-25 1@25-35" {
		t.Errorf("busy: %s", got)
	}
	if a, b := tb.FinishOf(0), tb.FinishOf(1); a != 35 || b != 10 {
		t.Errorf("finish at %g and %g", a, b)
	}
}

// Hand: controllers A (zones 0 and 1) and B (zone 2), 20 L/min each, on a meter of 30.
// B runs from 305 to 315 and A from 300 to 320: 40 L/min for 10 min, from 305 on.
func TestOverdraws(t *testing.T) {
	w := &Wiring{AtOnce: []int{1, 1}, MeterLMin: []float64{30}, Controller: []int{0, 0, 1}, Meter: []int{0, 0, 0}}
	flow := func(int) float64 { return 20 }
	tb := Timetable{Wiring: w}
	tb.Lay([]Start{{300, []ZoneRun{run(0, 10, 0, 0), run(1, 10, 0, 0)}}, {305, []ZoneRun{run(2, 10, 0, 0)}}})
	want := []Overdraw{{Meter: 0, AtMin: 305, WantLMin: 40, Minutes: 10}}
	if got := w.Overdraws(tb.Openings, flow); !slices.Equal(got, want) {
		t.Errorf("%+v", got)
	}
	w.MeterLMin[0] = 40 // just enough
	if got := w.Overdraws(tb.Openings, flow); got != nil {
		t.Errorf("%+v", got)
	}
	w.MeterLMin[0], w.Controller = 10, []int{0, 0, 0} // one controller knows its zones
	if w.Shared() {
		t.Error("one controller shares a meter")
	}
	if got := w.Overdraws(tb.Openings, flow); got != nil {
		t.Errorf("one controller: %+v", got)
	}
	w.Controller, w.Meter, w.MeterLMin = []int{0, 0, 1}, []int{0, 0, 1}, []float64{10, 10}
	if w.Shared() {
		t.Error("each controller has its meter")
	}
}

// Controllers side by side are the timetables of each by itself.
func TestControllersAreApart(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(1, 6).Draw(t, "zones")
		w := &Wiring{AtOnce: []int{1, 2}, MeterLMin: []float64{50}, Meter: make([]int, n)}
		var all []Start
		var own [2][]Start
		for range n {
			w.Controller = append(w.Controller, rapid.IntRange(0, 1).Draw(t, "controller"))
		}
		for range rapid.IntRange(1, 3).Draw(t, "starts") {
			at := float64(rapid.IntRange(0, 1439).Draw(t, "at"))
			s := Start{AtMin: at}
			parts := [2]Start{{AtMin: at}, {AtMin: at}}
			for z := range n {
				r := run(z, float64(rapid.IntRange(0, 40).Draw(t, "minutes")), 0, 0)
				s.Runs = append(s.Runs, r)
				parts[w.Controller[z]].Runs = append(parts[w.Controller[z]].Runs, r)
			}
			all = append(all, s)
			for c := range parts {
				own[c] = append(own[c], parts[c])
			}
		}
		both := Timetable{Wiring: w}
		both.Lay(all)
		var got, want [2][]Opening
		for _, o := range both.Openings {
			got[w.Controller[o.Zone]] = append(got[w.Controller[o.Zone]], o)
		}
		for c := range own {
			alone := Timetable{Wiring: &Wiring{AtOnce: []int{w.AtOnce[c]}, MeterLMin: w.MeterLMin}}
			alone.Lay(own[c])
			want[c] = alone.Openings
			slices.SortStableFunc(want[c], func(a, b Opening) int { return cmp.Compare(a.FromMin, b.FromMin) })
			if !slices.Equal(got[c], want[c]) {
				t.Fatalf("controller %d: %v, by itself %v", c, got[c], want[c])
			}
		}
	})
}
