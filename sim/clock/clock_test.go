package clock

import (
	"fmt"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"loamledger/sim"
)

func run(zone int, minutes, cycle, soak float64) ZoneRun {
	return ZoneRun{Zone: zone, Run: sim.Run{Minutes: minutes, CycleMin: cycle, SoakMin: soak}, FlowLMin: 20}
}

// within is the wiring of one controller whose zones run together within a flow; 0 is one
// zone at a time.
func within(flowLMin float64) *Wiring {
	if flowLMin == 0 {
		return nil
	}
	return OneController(flowLMin)
}

// text writes openings as "zone@from-to".
func text(t *Timetable) string {
	var parts []string
	for _, o := range t.Openings {
		parts = append(parts, fmt.Sprintf("%d@%g-%g", o.Zone, o.FromMin, o.ToMin))
	}
	return strings.Join(parts, " ")
}

// Every case is worked by hand.
func TestLay(t *testing.T) {
	tests := []struct {
		name     string
		capacity float64
		starts   []Start
		want     string
	}{
		{"one after another", 0, []Start{{300, []ZoneRun{run(0, 10, 0, 0), run(1, 20, 0, 0)}}}, "0@300-310 1@310-330"},
		{"cycles interleave while others soak", 0, []Start{{0, []ZoneRun{run(0, 16, 8, 30), run(1, 16, 8, 30)}}},
			"0@0-8 1@8-16 0@38-46 1@46-54"},
		{"a remainder is a short cycle", 0, []Start{{0, []ZoneRun{run(0, 20, 8, 10)}}}, "0@0-8 0@18-26 0@36-40"},
		{"the first soaks while a third still waits", 0, []Start{{0, []ZoneRun{run(0, 20, 10, 5), run(1, 10, 0, 0), run(2, 10, 0, 0)}}},
			"0@0-10 1@10-20 2@20-30 0@30-40"},
		{"programs queue", 0, []Start{{60, []ZoneRun{run(0, 30, 0, 0)}}, {70, []ZoneRun{run(1, 10, 0, 0)}}}, "0@60-90 1@90-100"},
		{"a later start listed first", 0, []Start{{200, []ZoneRun{run(1, 10, 0, 0)}}, {100, []ZoneRun{run(0, 30, 0, 0)}}}, "0@100-130 1@200-210"},
		{"over midnight", 0, []Start{{1430, []ZoneRun{run(0, 20, 0, 0), run(1, 5, 0, 0)}}}, "0@1430-1450 1@1450-1455"},
		{"no minutes, no opening", 0, []Start{{10, []ZoneRun{run(0, 0, 0, 0), run(1, 5, 0, 0)}}}, "1@10-15"},
		{"two at a time within the flow", 45, []Start{{0, []ZoneRun{run(0, 10, 0, 0), run(1, 20, 0, 0), run(2, 10, 0, 0)}}},
			"0@0-10 1@0-20 2@10-20"},
		{"a zone over the flow runs alone", 15, []Start{{0, []ZoneRun{run(0, 10, 0, 0), run(1, 10, 0, 0)}}}, "0@0-10 1@10-20"},
	}
	for _, tt := range tests {
		tb := Timetable{Wiring: within(tt.capacity)}
		tb.Lay(tt.starts)
		if got := text(&tb); got != tt.want {
			t.Errorf("%s:\n got %s\nwant %s", tt.name, got, tt.want)
		}
	}
}

// 40 zones of 20 min take 13 h 20 min: hand arithmetic.
func TestFortyZones(t *testing.T) {
	var runs []ZoneRun
	for z := range 40 {
		runs = append(runs, run(z, 20, 0, 0))
	}
	var tb Timetable
	tb.Lay([]Start{{0, runs}})
	if got := tb.Finish(); got != 800 {
		t.Errorf("finish after %g min, want 800", got)
	}
	in := 0.0
	for _, o := range tb.Openings {
		in += Inside(o, []Window{{0, 360}})
	}
	if in != 360 {
		t.Errorf("%g min fit a 6-hour window, want 360", in)
	}
}

func TestInside(t *testing.T) {
	night := []Window{{20 * 60, 6 * 60}}
	tests := []struct {
		from, to float64
		windows  []Window
		want     float64
	}{
		{300, 330, night, 30},
		{350, 380, night, 10},
		{1190, 1210, night, 10},
		{1430, 1460, night, 30},        // across midnight
		{1430, 1430 + 720, night, 370}, // until 06:00 of the next day
		{600, 660, night, 0},
		{600, 660, nil, 60},
		{0, 1440, []Window{{0, 600}, {1140, 1440}}, 900},
	}
	for _, tt := range tests {
		if got := Inside(Opening{FromMin: tt.from, ToMin: tt.to}, tt.windows); got != tt.want {
			t.Errorf("%g to %g inside %v: %g min, want %g", tt.from, tt.to, tt.windows, got, tt.want)
		}
	}
}

// Laws of any timetable: every requested minute is laid out, nothing overlaps
// beyond the capacity, every gap is at least the soak, and no start begins early.
func TestLayLaws(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var starts []Start
		want := map[[2]int]float64{}
		for s := range rapid.IntRange(0, 3).Draw(t, "starts") {
			st := Start{AtMin: float64(rapid.IntRange(0, 1439).Draw(t, "at"))}
			for z := range rapid.IntRange(0, 5).Draw(t, "zones") {
				r := run(z, float64(rapid.IntRange(0, 40).Draw(t, "minutes")), float64(rapid.IntRange(0, 15).Draw(t, "cycle")),
					float64(rapid.IntRange(0, 40).Draw(t, "soak")))
				st.Runs = append(st.Runs, r)
				want[[2]int{s, z}] += r.Run.Minutes
			}
			starts = append(starts, st)
		}
		capacity := float64(rapid.SampledFrom([]int{0, 20, 40, 60}).Draw(t, "capacity"))
		tb := Timetable{Wiring: within(capacity)}
		tb.Lay(starts)
		got := map[[2]int]float64{}
		for i, o := range tb.Openings {
			got[[2]int{o.Start, o.Zone}] += o.ToMin - o.FromMin
			if o.FromMin < starts[o.Start].AtMin {
				t.Fatalf("opening %v before its start at %g", o, starts[o.Start].AtMin)
			}
			flow := 20.0
			for j, p := range tb.Openings {
				if j == i {
					continue
				}
				if p.FromMin <= o.FromMin && o.FromMin < p.ToMin {
					flow += 20
					if p.Zone == o.Zone {
						t.Fatalf("zone %d opened twice: %v and %v", o.Zone, o, p)
					}
				}
				if p.Start == o.Start && p.Zone == o.Zone && p.FromMin >= o.ToMin {
					if soak := starts[o.Start].Runs[o.Zone].Run.SoakMin; p.FromMin < o.ToMin+soak {
						t.Fatalf("soak of %g cut short between %v and %v", soak, o, p)
					}
				}
			}
			if flow > max(capacity, 20) {
				t.Fatalf("flow %g above the capacity %g at %g", flow, capacity, o.FromMin)
			}
		}
		for k, m := range want {
			if diff := got[k] - m; diff > 1e-9 || diff < -1e-9 {
				t.Fatalf("start %d zone %d: %g min laid out, want %g", k[0], k[1], got[k], m)
			}
		}
	})
}
