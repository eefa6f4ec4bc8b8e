package damage

import (
	"errors"
	"fmt"
	"hash/fnv"
	"math"
	"math/rand/v2"
	"slices"
	"strings"

	"loamledger/weather"
	"loamledger/weather/csvfile"
	"loamledger/weather/diag"
	"loamledger/weather/prepare"
	"loamledger/weather/quality"
)

// An outcome is what became of a damaged file.
type outcome int

const (
	refused  outcome = iota // an error at the line of the damage
	reported                // a finding with the code of the damage, at its line
	same                    // every value as without damage
	silent                  // a wrong value and not a word
	astray                  // an error or finding at another line
	outcomes
)

func (o outcome) String() string {
	return [outcomes]string{"refused", "reported", "same", "silent", "astray"}[o]
}

// read reads and checks a file as a replay does.
func read(l *layout, text string) (*weather.Record, error) {
	lat, elev, height := float64(latitude), 300.0, 2.0
	o := l.o
	o.LatDeg, o.ElevM, o.WindHeightM = &lat, &elev, &height
	rec, err := csvfile.Read(strings.NewReader(text), "f", o)
	if err != nil {
		return nil, err
	}
	if !l.has([]weather.Column{weather.Tmax}) {
		rec.Findings = append(rec.Findings, quality.Check(rec)...) // a file of rain goes with another
		return rec, nil
	}
	_, err = prepare.Record(rec, prepare.Options{})
	return rec, err
}

// try damages a file once and says what became of it.
func try(x *fault, l *layout, seed uint64) (o outcome, detail string, ok bool) {
	h := fnv.New64a()
	fmt.Fprintf(h, "%s %s", x.name, l.name)
	rng := rand.New(rand.NewPCG(seed, h.Sum64()))
	if !l.has(x.needs) {
		return 0, "", false
	}
	days := temperate(x.years, 34+seed)
	text, where := "", place{}
	if x.days != nil {
		damaged, at := x.days(rng, slices.Clone(days))
		f := newFile(l, damaged)
		text = f.text
		if at >= 0 {
			a, b := max(0, at-x.slack), min(len(damaged)-1, at+x.slack)
			where = place{f.at(a).from, f.at(b).to, damaged[a].date, damaged[b].date}
		}
	} else if text, where, ok = x.text(rng, newFile(l, days)); !ok {
		return 0, "", false
	}
	rec, err := read(l, text)
	if err != nil {
		return judgeError(err, where, x.text != nil), err.Error(), true
	}
	o, detail = judgeFindings(x, rec, where)
	if o == silent {
		clean, err := read(l, l.write(days))
		if err != nil {
			return astray, "undamaged: " + err.Error(), true
		}
		if equal(clean, rec) {
			return same, "", true
		}
	}
	return o, detail, true
}

// judgeError wants an error in an input file, with a remedy, at the damage.
// Damage of values may also be refused at the first line of what is judged.
func judgeError(err error, where place, exact bool) outcome {
	var one *diag.Error
	var many *diag.Errors
	list := []*diag.Error{}
	switch {
	case errors.As(err, &many):
		list = many.List
	case errors.As(err, &one):
		list = append(list, one)
	default:
		return astray
	}
	for _, e := range list {
		at := e.Pos.Line >= where.from && e.Pos.Line <= where.to
		if e.Fix != "" && (where.from == 0 || at || !exact) {
			return refused
		}
	}
	return astray
}

// judgeFindings wants a finding with one of the codes at the damage.
func judgeFindings(x *fault, rec *weather.Record, where place) (outcome, string) {
	o, detail := silent, ""
	for _, f := range rec.Findings {
		if !slices.Contains(x.codes, f.Code) {
			if f.Code.Weight() > weather.Note && o == silent {
				detail += string(f.Code) + " "
			}
			continue
		}
		if f.Detail == "" {
			return astray, fmt.Sprintf("%+v", f)
		}
		line := where.from > 0 && f.Line >= where.from && f.Line <= where.to
		if where == (place{}) || line || where.date > 0 && f.Worst >= where.date && f.Worst <= where.last {
			return reported, ""
		}
		o, detail = astray, fmt.Sprintf("%s at line %d, %v; want %d to %d: %s", f.Code, f.Line, f.Worst, where.from, where.to, f.Detail)
	}
	return o, detail
}

// equal reports whether two records have the same days and values.
func equal(a, b *weather.Record) bool {
	if a.Start != b.Start || a.Days != b.Days {
		return false
	}
	for c := range weather.Columns {
		if a.Has(c) != b.Has(c) {
			return false
		}
		for i := range a.Data[c] {
			if math.Float64bits(a.Data[c][i]) != math.Float64bits(b.Data[c][i]) || a.Mark[c][i] != b.Mark[c][i] {
				return false
			}
		}
	}
	return true
}
