package clock

import "testing"

// TestTruthOfADay checks days laid out by hand.
func TestTruthOfADay(t *testing.T) {
	tests := []struct {
		name   string
		busy   float64
		starts []Start
		want   string
		finish float64
	}{
		{"soaks of unequal zones: two others run while the first soaks 30 min, and its third cycle waits for none", 0,
			[]Start{{300, []ZoneRun{run(0, 15, 5, 30), run(1, 20, 10, 10), run(2, 12, 0, 0)}}},
			// 0: 5 min, ready 335. 1: 305-315, ready 325. 2: 315-327. 1 again at
			// 327-337. 0 at 337-342, ready 372, and a last time 372-377.
			"0@300-305 1@305-315 2@315-327 1@327-337 0@337-342 0@372-377", 377},
		{"a second start of the same program while the first still runs waits for its end", 0,
			[]Start{{300, []ZoneRun{run(0, 40, 0, 0), run(1, 40, 0, 0)}}, {360, []ZoneRun{run(0, 40, 0, 0), run(1, 40, 0, 0)}}},
			"0@300-340 1@340-380 0@380-420 1@420-460", 460},
		{"the soak at the end of a program does not delay the next", 0,
			[]Start{{300, []ZoneRun{run(0, 16, 8, 30)}}, {310, []ZoneRun{run(1, 5, 0, 0)}}},
			"0@300-308 0@338-346 1@346-351", 351},
		{"valves of the day before are open until 01:10", 70,
			[]Start{{30, []ZoneRun{run(0, 10, 0, 0)}}, {200, []ZoneRun{run(1, 5, 0, 0)}}},
			"0@70-80 1@200-205", 205},
		{"midnight passes within a run", 0, []Start{{1439, []ZoneRun{run(0, 2, 0, 0)}}}, "0@1439-1441", 1441},
		{"equal start times: the one listed first runs first", 0,
			[]Start{{60, []ZoneRun{run(1, 10, 0, 0)}}, {60, []ZoneRun{run(0, 10, 0, 0)}}}, "1@60-70 0@70-80", 80},
	}
	for _, tt := range tests {
		tb := Timetable{BusyUntilMin: []float64{tt.busy}}
		tb.Lay(tt.starts)
		if got := text(&tb); got != tt.want {
			t.Errorf("%s:\n got %s\nwant %s", tt.name, got, tt.want)
		}
		if got := tb.Finish(); got != tt.finish {
			t.Errorf("%s: finishes at %g, want %g", tt.name, got, tt.finish)
		}
	}
}

// TestWindowsByTheDay: the windows that a day's run may use.
func TestWindowsByTheDay(t *testing.T) {
	night, split := []Window{{1200, 360}}, []Window{{0, 360}, {1200, 1440}}
	morning := []Window{{240, 600}}
	for _, tt := range []struct {
		why      string
		from, to float64
		windows  []Window
		want     float64
	}{
		{"from 23:30 to 00:30, window through midnight", 1410, 1470, night, 60},
		{"the same, written as two windows", 1410, 1470, split, 60},
		{"05:30 to 06:30 in the window that opened the evening before", 330, 390, night, 30},
		{"the same, as two windows", 330, 390, split, 30},
		{"a run past midnight is not in the morning window of the next day", 1430, 1440 + 300, morning, 0},
		{"a run of more than a day gets one window", 0, 3000, morning, 360},
		{"the whole night from noon on", 720, 1440 + 720, night, 600},
		{"a window of the whole day", 10, 1430, []Window{{0, 1440}}, 1420},
		{"and through midnight", 1400, 1460, []Window{{0, 1440}}, 60},
	} {
		if got := Inside(Opening{FromMin: tt.from, ToMin: tt.to}, tt.windows); got != tt.want {
			t.Errorf("%s: %g min, want %g", tt.why, got, tt.want)
		}
	}
}

// TestWindowsTogether: 03:30 to 06:30 is 150 min in each of two windows, and
// 120 min in both at the same time.
func TestWindowsTogether(t *testing.T) {
	o := Opening{FromMin: 210, ToMin: 390}
	a, b := []Window{{1200, 360}}, []Window{{240, 600}}
	if x, y := Inside(o, a), Inside(o, b); x != 150 || y != 150 {
		t.Errorf("%g and %g min, want 150 in each", x, y)
	}
	if in, last := InsideAll(o, [][]Window{a, b}); in != 120 || last != 360 {
		t.Errorf("%g min until %g, want 120 until 360", in, last)
	}
	if in, last := InsideAll(o, nil); in != 180 || last != 390 {
		t.Errorf("%g min until %g without windows, want 180 until 390", in, last)
	}
}
