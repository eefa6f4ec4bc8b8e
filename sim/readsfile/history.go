package readsfile

import (
	"slices"
	"strings"

	"loamledger/sim/meter"
	"loamledger/weather/diag"
	"loamledger/weather/quantity"
)

// Meters returns the names of the meters in rows, in the order in which they first
// appear; the empty name is a meter that is not named.
func Meters(rows []Row) (names []string) {
	for i := range rows {
		if !slices.Contains(names, rows[i].Meter) {
			names = append(names, rows[i].Meter)
		}
	}
	return names
}

// History returns the reads of one meter and its periods. If the rows are of one
// meter only, they are its reads, whatever it is called; otherwise those of that
// name, and the error, at the first row, lists the names.
func History(rows []Row, name string) (*meter.History, error) {
	names := Meters(rows)
	if len(names) > 1 && !slices.Contains(names, name) {
		for i, n := range names {
			if n == "" {
				names[i] = "(no name)"
			}
		}
		return nil, &diag.Error{Code: diag.UnknownName, Pos: rows[0].meterPos,
			Msg: "the file has no reads of meter " + quote(name) + ", but of: " + strings.Join(names, ", "),
			Fix: "use one name for the meter, in the scenario and in the column meter"}
	}
	var own []Row
	for i := range rows {
		if len(names) == 1 || rows[i].Meter == name {
			own = append(own, rows[i])
		}
	}
	var reads []meter.Read
	for i := range own {
		r := &own[i]
		reads = append(reads, meter.Read{Meter: name, From: r.From, To: r.To, M3: r.Volume.Float64() * cubicMeters(r.Unit), Kind: r.Type,
			Replaced: r.Replaced, Unknown: r.Unknown, GapDays: r.GapDays})
	}
	return meter.Clean(reads, unitOf(own)), nil
}

func quote(name string) string { return "\"" + name + "\"" }

// cubicMeters returns a unit of volume [m³].
func cubicMeters(unit string) float64 {
	u, _ := quantity.Find(unit, quantity.Volume)
	return u.Num / u.Den
}

// leastOfUnit is the number of reads, other than 0, that show their rounding.
const leastOfUnit = 6

// unitOf returns the largest power of ten of the unit of which all volumes are
// multiples [m³]; 0 if they are too few or in several units.
func unitOf(rows []Row) float64 {
	at, n := 4, 0 // no supplier rounds to more
	for i := range rows {
		if rows[i].Unit != rows[0].Unit {
			return 0
		}
		if v := rows[i].Volume; v.Sign() != 0 {
			at, n = min(at, tens(v.String())), n+1
		}
	}
	if n < leastOfUnit {
		return 0
	}
	unit := cubicMeters(rows[0].Unit)
	for ; at > 0; at-- {
		unit *= 10
	}
	for ; at < 0; at++ {
		unit /= 10
	}
	return unit
}

// tens returns the power of ten of the last digit of a decimal number that is not 0.
func tens(text string) int {
	if _, places, has := strings.Cut(text, "."); has {
		return -len(strings.TrimRight(places, "0"))
	}
	return len(text) - len(strings.TrimRight(text, "0"))
}
