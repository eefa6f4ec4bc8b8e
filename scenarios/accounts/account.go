package accounts

import (
	"loamledger/scenarios"
	"loamledger/weather/cal"
	"loamledger/weather/diag"
)

// An Account is what a table says of one account.
type Account struct {
	ID  string   // text, never read as a number
	Pos diag.Pos // of its first row
	// Exclude says why the account is left out; empty for one that is replayed.
	Exclude         string
	Template        string // name of a list of zones of the program; empty for all
	Station         string // name of a station; empty for the nearest
	Class, District string
	LatDeg, LonDeg  float64    // NaN if not stated
	ElevM           float64    // NaN if not stated
	Use             []Use      // metered outdoor use
	UsePeriod       Period     // of the use of a usual year, as the account states it
	Customer        []Customer // what rates need to know
	Values          Values     // of all zones
	Zones           []Zone     // zones of its own; none for those of the template
}

// A Period is days, both included; the zero value is none. Only one of its ends may be given.
type Period struct{ From, To cal.Date }

// Known reports whether both ends are given.
func (p Period) Known() bool { return p.From != 0 && p.To != 0 }

// A Use is the outdoor use of a year [m³].
type Use struct {
	Year int // 0 for that of a usual year
	M3   float64
	Pos  diag.Pos
}

// A Zone is what a table says of one zone.
type Zone struct {
	Name   string
	Like   string // the zone of the program that it is like
	Pos    diag.Pos
	Values Values
}

// A Value is one cell: a parameter of a zone as written.
type Value struct {
	Column string // of [Columns]
	Key    string // in a zone of a scenario; empty for run times
	Node   *scenarios.Node
}

// Values are the cells that are not empty.
type Values []Value

// get returns the value of a column, nil for none.
func (v Values) get(column string) *Value {
	for i := range v {
		if v[i].Column == column {
			return &v[i]
		}
	}
	return nil
}

// Shard returns the shard, 0 to n − 1, that an account belongs to: a hash of its
// ID, so the same on every machine and in any order of rows.
func Shard(id string, n int) int {
	if n < 2 {
		return 0
	}
	return int(hashed(0, "shard", id) % uint64(n))
}
