// Package sim steps the water in a root zone through a weather history, one
// day at a time.
//
// # Units
//
// All water is depth over the zone [mm]; 1 mm is 1 L/m². Rates are [mm/h],
// times are minutes, areas [m²], temperatures [°C]. Fractions run from 0 to 1.
// Edge packages convert; sim never does.
//
// # Strips
//
// A zone is split into N strips of equal area that represent uneven sprinkler
// coverage. Each has its own depletion. Rain is even over all of them.
//
// # Order of a day
//
// The strategy decides before dawn. Watering then loses water to the air, to the
// ground outside the zone, to broken heads and to the pipes; what soil and surface
// cannot take runs off, the rest enters, and any overflow drains. Rain then
// enters, and any overflow drains. Last, the plants draw water. This is the early
// order of FAO-56 examples 35 and 38, which differs from eq. 88 by one day of ETc
// for each wetting event. A zone of working storage nets the day's water and draw
// instead.
//
// # Promises
//
// sim reads no file, clock or random source and starts no goroutine, so equal
// inputs give equal outputs. Every zone's balance closes every day to 1e-9 mm;
// gross is all water through the meter:
//
//	gross + rain = spray loss + overspray + broken heads + fill and drain + leak
//	             + irrigation runoff + rain runoff + rain evaporated
//	             + percolation (both) + ETa + (depletion before − after)
//
// Ks stays within 0..1, ETa within 0..ETc and mean depletion within 0..TAW,
// exactly: not even rounding exceeds these bounds.
//
// Equation numbers refer to [FAO56].
//
// [FAO56]: Allen, Pereira, Raes and Smith (1998), Crop evapotranspiration,
// FAO Irrigation and Drainage Paper 56.
package sim

import (
	"math"

	"loamledger/weather/cal"
)

// Weather is the part of a station record that a replay needs: one value a day,
// without gaps. TmaxC and TminC are for strategies and for plants that follow the
// season; either may be nil, and such plants then keep to the calendar.
type Weather struct {
	Start  cal.Date
	RainMM []float64 // at least 0
	EToMM  []float64 // at least 0
	TmaxC  []float64
	TminC  []float64
	WindMS []float64 // at 2 m; for strategies only, nil where unknown
	// Filled marks the days on which a value was filled or synthetic rather than
	// observed; nil for none. No arithmetic depends on it.
	Filled []bool
}

// Days returns the number of days.
func (w Weather) Days() int { return len(w.RainMM) }

// A RainMethod is a way to split a day's rain between soil and runoff.
type RainMethod uint8

const (
	// CurveNumber is the NRCS method with initial abstraction 0.2 S.
	CurveNumber RainMethod = iota
	// FixedShare lets a fixed share of the rain enter; the rest runs off.
	FixedShare
)

// Rain is a zone's rain rule.
type Rain struct {
	Method         RainMethod
	CN             float64 // curve number, above 0 to 100; for CurveNumber
	EffectiveShare float64 // 0 to 1; for FixedShare
	KeepLight      bool    // also count rain below 0.2 ETo, which otherwise evaporates
}

// A Zone describes the area of one valve. sim does not check the ranges; package
// scenarios does.
type Zone struct {
	Name             string
	AreaM2           float64     // above 0
	TAWMM            float64     // total available water, eq. 82, above 0 [mm]
	P                float64     // tabled stress fraction of the plant, 0.1 to 0.8
	PConstant        bool        // do not adjust P for the day's ETc
	K                [12]float64 // plant coefficient by calendar month, at least 0; what a controller knows
	PRMMH            float64     // gross precipitation rate [mm/h], above 0
	LossShare        float64     // share of gross lost in the air, 0 to below 1
	OversprayShare   float64     // share of gross that lands outside the zone, 0 to below 1
	BrokenShare      float64     // share of gross lost through broken heads, 0 to below 1
	FillDrainMM      float64     // gross depth lost in filling and draining the pipes at each cycle [mm], at least 0
	LeakMMDay        float64     // depth that leaks away each day whether or not the zone runs [mm/d], at least 0
	DULQ             float64     // low-quarter distribution uniformity, 0.25 to 1
	Strips           int         // 1, 4, 8, 12, 16 or 20
	IntakeMMH        float64     // intake rate of the soil [mm/h], above 0
	SurfaceStorageMM float64     // allowable surface storage ASA [mm], at least 0
	Rain             Rain
	// WorkingStorage makes the zone a plain store, as in public test
	// landscapes. TAWMM is then the working storage, stress begins only when it
	// is empty, and a day's water and draw are netted before the limits of the
	// store apply. P, DULQ and Strips have no effect and must be 0.5, 1 and 1.
	WorkingStorage bool
	// Season lets coefficient and activity follow temperature; nil if K holds and
	// the plant is active whenever K is above 0, as evergreens are.
	Season *Season
	// ToleranceR7 and BrowningR7, 0 to 1, are the shares of the last seven days'
	// need below which the plant is stressed and turns brown.
	ToleranceR7, BrowningR7 float64
	Overseed                *Overseed // nil for none
}

// Shares returns the share w_i of the mean application that each of n strips
// receives, ascending:
//
//	w_i = 1 − c + c(2i+1)/n,  c = (1 − DU_LQ)/0.75
//
// The mean of the lowest n/4 shares is DU_LQ (n a multiple of 4), and the mean of
// all is 1. n = 1 gives the single share 1. du must be at least 0.25; below that,
// a share would be negative.
func Shares(n int, du float64) []float64 { return AppendShares(nil, n, du) }

// AppendShares appends [Shares] to dst.
func AppendShares(dst []float64, n int, du float64) []float64 {
	if n == 1 {
		return append(dst, 1)
	}
	c := (1 - du) / 0.75
	for i := range n {
		dst = append(dst, 1-c+c*float64(2*i+1)/float64(n))
	}
	return dst
}

// StressFraction returns p for a day with unstressed plant water use etcMM
// [mm/d]:
//
//	p = p_table + 0.04 (5 − ETc), limited to 0.1..0.8
//
// Source: [FAO56] chapter 8, text below eq. 83 and note to table 22.
func StressFraction(pTable, etcMM float64) float64 {
	return min(max(pTable+float64(0.04*(5-etcMM)), 0.1), 0.8)
}

// Ks returns the water stress coefficient, 0 to 1, at depletion drMM:
//
//	Ks = (TAW − Dr) / ((1 − p) TAW)  for Dr > RAW = p TAW, else 1
//
// Source: [FAO56] eq. 83 and 84. tawMM must be above 0 and p below 1.
func Ks(drMM, tawMM, p float64) float64 {
	if drMM <= p*tawMM {
		return 1
	}
	return min(max((tawMM-drMM)/((1-p)*tawMM), 0), 1)
}

// CurveNumberRunoff returns the direct runoff [mm] of a day's rain rainMM by
// the NRCS curve-number method:
//
//	S = 25400/CN − 254,  Ia = 0.2 S,  Q = (P − Ia)²/(P − Ia + S) for P > Ia, else 0
//
// Source: NRCS Technical Release 55 (1986) eq. 2-1 to 2-4, in millimeters. cn
// must be above 0 and at most 100. This is a storm method; do not use it for
// irrigation.
func CurveNumberRunoff(rainMM, cn float64) float64 {
	s := 25400/cn - 254
	over := rainMM - float64(0.2*s)
	if over <= 0 {
		return 0
	}
	return over * over / (over + s)
}

// Split splits a day's rain [mm] into the depth that enters the soil, the runoff,
// and the depth that evaporates from leaves and surface. Rain below 0.2 ETo
// evaporates entirely ([FAO56] chapter 8 ignores such light rain).
func (r Rain) Split(rainMM, etoMM float64) (in, runoff, evaporated float64) {
	switch {
	case rainMM <= 0:
		return 0, 0, 0
	case rainMM < 0.2*etoMM && !r.KeepLight:
		return 0, 0, rainMM
	case r.Method == FixedShare:
		in = float64(r.EffectiveShare * rainMM)
		return in, rainMM - in, 0
	}
	runoff = CurveNumberRunoff(rainMM, r.CN)
	return rainMM - runoff, runoff, 0
}

// EventRunoffMM is the minimum daily runoff, mean over the zone, that counts as a
// runoff event: 0.25 mm, about 0.01 in.
const EventRunoffMM = 0.25

// closeTo is the tolerance to which a balance closes [mm].
const closeTo = 1e-9

// Closed reports whether a residual [mm] is within the promised tolerance.
func Closed(residualMM float64) bool { return math.Abs(residualMM) <= closeTo }

// Stressed reports whether a low-quarter depletion [mm] after watering and rain
// makes a day past RAW. It must exceed RAW by more than the tolerance of the
// balance, so that rounding does not stress a zone kept exactly at RAW.
func Stressed(lowQuarterMM, rawMM float64) bool { return lowQuarterMM-rawMM > closeTo }

// FlowLMin returns the flow of the zone while it runs [L/min].
func (z *Zone) FlowLMin() float64 { return z.PRMMH * z.AreaM2 / 60 }
