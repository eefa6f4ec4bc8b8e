package csvfile

import (
	"errors"
	"fmt"
	"io"
	"iter"
	"strings"

	"loamledger/weather"
	"loamledger/weather/diag"
)

// Read reads the only station of a file, or the one selected by o.Station.
// Errors in the file are [*diag.Error] or [*diag.Errors] with name as the file;
// every other error comes from r.
func Read(r io.Reader, name string, o Options) (*weather.Record, error) {
	var rec *weather.Record
	for one, err := range read(r, name, o, false) {
		if err != nil {
			return nil, err
		}
		rec = one
	}
	return rec, nil
}

// ReadAll reads every station of a file, or the one selected by o.Station. If a
// file is grouped by station, only one station is in memory at a time; a file
// ordered by date over its stations is kept whole, up to about four million
// station-days. A station with errors yields an error, and the next one
// follows.
func ReadAll(r io.Reader, name string, o Options) iter.Seq2[*weather.Record, error] {
	return read(r, name, o, o.Station == "")
}

func read(src io.Reader, name string, o Options, streaming bool) iter.Seq2[*weather.Record, error] {
	return func(yield func(*weather.Record, error) bool) {
		switch o.Units {
		case "", unitsSI, unitsUS, unitsTenths:
		default:
			yield(nil, fmt.Errorf("unknown units %q: use si, us or tenths", o.Units))
			return
		}
		scan, err := newScanner(src, name)
		if err != nil {
			yield(nil, err)
			return
		}
		layout, header, err := recognize(scan, o)
		if err != nil {
			yield(nil, err)
			return
		}
		ended, given := false, 0
		r := &reading{
			scan: scan, layout: layout, header: header, o: o,
			proto: weather.UnknownStation(), seen: map[string]*builder{}, streaming: streaming,
			emit: func(rec *weather.Record, err error) bool {
				given++
				ended = !yield(rec, err)
				return !ended
			},
		}
		if o.Units != "" && !layout.asksUnits {
			r.assume("the units given (%s) are ignored: layout %s states its own", o.Units, layout.Name)
		}
		err = layout.read(r)
		if ended {
			return
		}
		if err = cmpErr(scan.err, err); err != nil {
			yield(nil, merge(r, err))
			return
		}
		r.end(given)
	}
}

func cmpErr(errs ...error) error {
	for _, err := range errs {
		if err != nil {
			return err
		}
	}
	return nil
}

// merge combines the error that ended the reading with earlier ones.
func merge(r *reading, err error) error {
	var one *diag.Error
	if errors.As(err, &one) {
		r.faults.Append(one)
		return r.faults.Err()
	}
	return err
}

// end emits the stations still held after the last row, and reports errors in
// the selection of stations.
func (r *reading) end(given int) {
	if !r.streaming {
		if r.o.Station != "" && r.cur == nil && r.faults.Len() == 0 {
			r.fault(diag.UnknownStation, 0, 0, "name one of them by id or name (station under weather; --station)",
				"no station %q in the file, which has %s", r.o.Station, r.stationList())
		} else if r.o.Station == "" && len(r.stations) > 1 {
			r.fault(diag.SeveralStations, r.second, 0, "select one by id or name (station under weather; --station)", "the file has %d stations: %s",
				len(r.stations), r.stationList())
		}
	}
	if r.faults.Len() > 0 {
		r.emit(nil, r.faults.Err())
		return
	}
	if r.cur != nil && !r.cur.held {
		r.held = append(r.held, r.cur)
	}
	for _, b := range r.held {
		if given += min(1, len(b.lines)); r.stopped {
			return
		}
		r.finish(b)
	}
	if given == 0 {
		r.emit(nil, r.fatal(diag.EmptyFile, r.scan.line, 0, "check that the download is complete",
			"the file has the header of layout %s but no days", r.layout.Name))
	}
}

// stationList names the first stations seen.
func (r *reading) stationList() string {
	const most = 20
	list := r.stations
	if len(list) == 0 || len(list) == 1 && list[0] == "" {
		return "no station names"
	}
	text := strings.Join(list[:min(most, len(list))], ", ")
	if n := len(list) - most; n > 0 {
		text += fmt.Sprintf(" and %d more", n)
	}
	return text
}
