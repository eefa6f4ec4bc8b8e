package csvfile

import (
	"bytes"
	"fmt"
	"strings"

	"loamledger/weather"
	"loamledger/weather/diag"
)

// A reading is one file being read: where it is, what was found, and the
// station at hand.
type reading struct {
	scan   *scanner
	layout *Layout
	header int // number of the line by which the layout was recognised
	o      Options
	faults diag.List
	row    []field // fields of the row at hand

	proto   weather.Station // what the layout or the preamble says of every station
	assumed []string        // what holds for every station of the file

	cur       *builder
	curID     []byte
	skip      bool                // the rows at hand belong to a station that is not wanted
	stations  []string            // every station seen, in order
	seen      map[string]*builder // by id; nil builder: seen and closed, or not wanted
	streaming bool                // hand each station on as soon as the next begins
	held      []*builder          // stations kept because the file seems to mix them
	mixed     bool                // a held station was met again
	days      int                 // station-days held
	emit      func(*weather.Record, error) bool
	stopped   bool
}

// What bounds the memory that a file with many stations can take.
const (
	mostHeld     = 4 << 20 // station-days kept at once, at about 10 bytes a value
	mostStations = 400_000 // more than any archive has
	longestID    = 120     // bytes
)

// fault records a fault at the given line and column.
func (r *reading) fault(code diag.Code, line, col int, fix, format string, args ...any) {
	r.faults.Add(code, diag.Pos{File: r.scan.name, Line: line, Col: col}, fix, format, args...)
}

// fatal returns a fault that ends the reading.
func (r *reading) fatal(code diag.Code, line, col int, fix, format string, args ...any) error {
	return &diag.Error{Code: code, Pos: diag.Pos{File: r.scan.name, Line: line, Col: col}, Msg: fmt.Sprintf(format, args...), Fix: fix}
}

// assume says once what the file does not state and how it was settled.
func (r *reading) assume(format string, args ...any) {
	r.assumed = append(r.assumed, fmt.Sprintf(format, args...))
}

// line returns the next line as it stands.
func (r *reading) line() ([]byte, bool) {
	if r.stopped {
		return nil, false
	}
	return r.scan.next()
}

// skipTo reads on until line n has been returned, which it returns.
func (r *reading) skipTo(n int) []byte {
	for {
		line, ok := r.line()
		if !ok || r.scan.line >= n {
			return line
		}
	}
}

// fields reads on to the next row that is not blank and cuts it at sep into
// r.row; a sep of ' ' stands for any run of blanks.
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
			r.fault(diag.BadSyntax, r.scan.line, bad.col, "close the quote, or take it out", "%s", bad.msg)
			continue
		}
		return true
	}
}

// at makes the station with this id the one at hand and reports whether its
// rows are wanted. Layouts without stations in their rows call it with nil.
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
		r.fault(diag.TooLarge, r.scan.line, 0, "check that the first columns are the station's", "more stations, or longer names of them, than a weather file has")
		r.stopped, r.skip = true, true
		return
	}
	if r.days > mostHeld {
		r.fault(diag.TooLarge, r.scan.line, 0, "sort the file by station, or pick one station", "the file goes date by date over more stations than can be held at once")
		r.stopped, r.skip = true, true
		return
	}
	if !known {
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
		r.fault(diag.NotSorted, r.scan.line, 0, "sort the file by station, or pick one station", "station %s is met again after others", strings.TrimSpace(id+" "+name))
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

// leave is called when a new station begins: the one before is handed on. A
// station of a single day suggests that the file goes date by date: it is held
// until it is met again, which proves it, or until a longer station disproves it.
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

// finish hands a station on, or its faults.
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
