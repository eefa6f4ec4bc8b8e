package csvfile

import (
	"bytes"
	"fmt"
	"strings"

	"loamledger/weather"
	"loamledger/weather/diag"
)

// A reading is the state of reading one file: the position, the findings and
// the current station.
type reading struct {
	scan   *scanner
	layout *Layout
	header int // number of the line that identified the layout
	o      Options
	faults diag.List
	row    []field // fields of the current row

	proto   weather.Station // what the layout or preamble states for every station
	assumed []string        // assumptions for every station in the file
	otherET []string        // ET columns that are not read, each with the reason

	cur       *builder
	curID     []byte
	skip      bool                // the current rows belong to a station that is not selected
	stations  []string            // every station seen, in order
	second    int                 // line of the first row of the second station; 0 if there is none
	seen      map[string]*builder // by id; nil builder: seen and closed, or not selected
	streaming bool                // emit each station as soon as the next begins
	held      []*builder          // stations kept because the file seems to mix them
	mixed     bool                // a held station occurred again
	days      int                 // station-days held
	emit      func(*weather.Record, error) bool
	stopped   bool
}

// The memory limits for a file with many stations.
const (
	mostHeld     = 4 << 20 // station-days kept at once, at about 10 bytes per value
	mostStations = 400_000 // more than any archive has
	longestID    = 120     // bytes
)

// fault records an error at the given line and column.
func (r *reading) fault(code diag.Code, line, col int, fix, format string, args ...any) {
	r.faults.Add(code, diag.Pos{File: r.scan.name, Line: line, Col: col}, fix, format, args...)
}

// fatal returns an error that ends the reading.
func (r *reading) fatal(code diag.Code, line, col int, fix, format string, args ...any) error {
	return &diag.Error{Code: code, Pos: diag.Pos{File: r.scan.name, Line: line, Col: col}, Msg: fmt.Sprintf(format, args...), Fix: fix}
}

// assume records once an assumption made where the file is silent.
func (r *reading) assume(format string, args ...any) {
	r.assumed = append(r.assumed, fmt.Sprintf(format, args...))
}

// other notes an ET column of the file that is not read, and the reason.
func (r *reading) other(column, why string) {
	r.otherET = append(r.otherET, column+" is not used: "+why)
}

// line returns the next line unchanged.
func (r *reading) line() ([]byte, bool) {
	if r.stopped {
		return nil, false
	}
	return r.scan.next()
}

// skipTo reads up to line n and returns it.
func (r *reading) skipTo(n int) []byte {
	for {
		line, ok := r.line()
		if !ok || r.scan.line >= n {
			return line
		}
	}
}

// fields reads the next row that is not blank and splits it at sep into r.row;
// a sep of ' ' means any run of blanks.
func (r *reading) fields(sep byte) bool {
	for {
		line, ok := r.line()
		if !ok {
			return false
		}
		if blank(line) {
			continue
		}
		if sep == ' ' {
			r.row = splitBlank(r.row, line)
			return true
		}
		var bad *badQuote
		r.row, bad = split(r.row, line, sep)
		if bad != nil {
			r.fault(diag.BadSyntax, r.scan.line, bad.col, "close the quote, or remove it", "%s", bad.msg)
			continue
		}
		return true
	}
}

// at makes the station with this id current and reports whether it is selected.
// Layouts without stations in their rows call it with nil.
func (r *reading) at(id, name []byte) bool {
	if r.curID != nil && bytes.Equal(id, r.curID) {
		return !r.skip
	}
	r.change(string(id), string(name))
	r.curID = append(r.curID[:0], id...)
	if r.curID == nil {
		r.curID = []byte{}
	}
	return !r.skip
}

func (r *reading) change(id, name string) {
	b, known := r.seen[id]
	if len(id) > longestID || len(r.stations) >= mostStations {
		r.fault(diag.TooLarge, r.scan.line, 0, "check that the first columns are the station's", "too many stations, or station names too long")
		r.stopped, r.skip = true, true
		return
	}
	if r.days > mostHeld {
		r.fault(diag.TooLarge, r.scan.line, 0, "sort the file by station, or select one station",
			"the file is ordered by date over too many stations to keep in memory")
		r.stopped, r.skip = true, true
		return
	}
	if !known {
		if len(r.stations) == 1 {
			r.second = r.scan.line
		}
		r.stations = append(r.stations, strings.TrimSpace(id+" "+name))
	}
	r.skip = false
	switch {
	case r.o.Station != "":
		if !strings.EqualFold(id, r.o.Station) && !strings.EqualFold(name, r.o.Station) {
			r.seen[id] = nil
			r.skip = true
			return
		}
	case !r.streaming:
		if len(r.stations) > 1 && !known {
			r.seen[id] = nil
		}
		if r.skip = r.seen[id] == nil && len(r.stations) > 1; r.skip {
			return
		}
	case known && b == nil:
		r.fault(diag.NotSorted, r.scan.line, 0, "sort the file by station, or select one station", "station %s occurs again after others",
			strings.TrimSpace(id+" "+name))
		r.stopped, r.skip = true, true
		return
	case r.cur != nil && !known:
		r.leave()
	case r.cur != nil && !r.cur.held:
		r.cur.held = true
		r.held = append(r.held, r.cur)
	}
	if known && r.streaming {
		r.mixed = true
	}
	if b == nil {
		b = &builder{id: id, name: name, st: r.proto, days: &r.days}
		r.seen[id] = b
	}
	r.cur = b
}

// leave is called when a new station begins, and emits the previous one. A
// station with a single day suggests that the file is ordered by date: it is
// held until it occurs again, which proves it, or until a longer station
// disproves it.
func (r *reading) leave() {
	if !r.cur.held {
		r.cur.held = true
		r.held = append(r.held, r.cur)
	}
	if len(r.cur.lines) > 1 && !r.mixed {
		held := r.held
		r.held = nil
		for _, b := range held {
			if r.seen[b.id] = nil; !r.stopped {
				r.finish(b)
			}
		}
		return
	}
}

// finish emits a station, or its errors.
func (r *reading) finish(b *builder) {
	r.days -= len(b.lines)
	if r.faults.Len() > 0 {
		err := r.faults.Err()
		r.faults = diag.List{}
		r.stopped = !r.emit(nil, err)
		return
	}
	if len(b.lines) == 0 {
		return
	}
	r.stopped = !r.emit(b.record(r))
}
