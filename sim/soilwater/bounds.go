package soilwater

import (
	"math"
	"slices"
)

// frozenBelowC is the temperature of the soil at 10 cm below which a day does not
// count: sensors that measure the soil's permittivity see ice as dry soil.
const frozenBelowC = 1

// fieldCapacityQuantile and wiltingPointQuantile are the quantiles of the water
// content on unfrozen days that stand for field capacity and wilting point.
// Choices of ours.
const (
	fieldCapacityQuantile = 0.90
	wiltingPointQuantile  = 0.005
)

// LeastRange is the range between field capacity and wilting point, as a share of
// the soil's volume, below which a record has dried too little to judge a model
// by: 50 mm in half a meter. A choice of ours.
const LeastRange = 0.10

// LeastRangeStated is the same where the wilting point does not come from the
// record, so that the range need only be well above the noise of sensors. A choice
// of ours.
const LeastRangeStated = 0.04

// LeastDays is the number of measured days below which nothing is scored.
const LeastDays = 60

// Bounds are field capacity and wilting point of each level [m³/m³].
type Bounds struct {
	FieldCapacity, WiltingPoint []float64
}

// RangeMM returns the water between field capacity and wilting point, given the
// thickness of each level [mm].
func (b *Bounds) RangeMM(thickness []float64) float64 {
	sum := 0.0
	for i, t := range thickness {
		if t > 0 {
			sum += float64((b.FieldCapacity[i] - b.WiltingPoint[i]) * t)
		}
	}
	return sum
}

// Frozen marks the days on which the soil is frozen, from its temperature at
// 10 cm. A day without a temperature counts as the last one before that has one.
func Frozen(soilTempC []float64) []bool {
	out, last := make([]bool, len(soilTempC)), false
	for i, t := range soilTempC {
		if !math.IsNaN(t) {
			last = t < frozenBelowC
		}
		out[i] = last
	}
	return out
}

// FrozenByAir marks the days on which the soil is taken for frozen where its
// temperature is not measured: the mean air temperature of the seven days up to
// the day is below that of [frozenBelowC]. A choice of ours.
func FrozenByAir(meanC []float64) []bool {
	const days = 7
	out, sum := make([]bool, len(meanC)), 0.0
	for i, t := range meanC {
		sum += t
		if i >= days {
			sum -= meanC[i-days]
		}
		out[i] = sum/float64(min(i+1, days)) < frozenBelowC
	}
	return out
}

// BoundsFromRecord returns the bounds of each level from its own record:
//
//	field capacity = 0.90 quantile, wilting point = 0.005 quantile
//
// of the water content on days that are not frozen. A level without a reading has
// NaN.
func BoundsFromRecord(r *Record, frozen []bool) Bounds {
	var b Bounds
	for _, l := range r.Levels {
		var free []float64
		for i, v := range l.Theta {
			if !math.IsNaN(v) && !frozen[i] {
				free = append(free, v)
			}
		}
		slices.Sort(free)
		b.FieldCapacity = append(b.FieldCapacity, quantile(free, fieldCapacityQuantile))
		b.WiltingPoint = append(b.WiltingPoint, quantile(free, wiltingPointQuantile))
	}
	return b
}

// SameBounds returns the stated pair for n levels.
func SameBounds(n int, fieldCapacity, wiltingPoint float64) Bounds {
	return Bounds{slices.Repeat([]float64{fieldCapacity}, n), slices.Repeat([]float64{wiltingPoint}, n)}
}

// A Profile is the measured depletion of a root zone.
type Profile struct {
	// SignedMM is the depletion [mm], below 0 while the soil is wetter than field
	// capacity; NaN on days that do not count.
	SignedMM []float64
	// DepletionMM is the same, but not below 0.
	DepletionMM []float64
	// BelowMM is the water below the root zone [mm], relative to field capacity; nil
	// if no sensor is deeper. Larger is drier, as in SignedMM.
	BelowMM []float64

	Measured, FrozenDays, GapDays int // days that count, that were frozen, and without a reading
}

// Deplete returns the depletion of the profile:
//
//	Dr = Σ (field capacity − θ)·thickness, not below 0
//
// A day with a frozen soil, or without a reading of a level in the root zone, has
// none.
func Deplete(r *Record, b *Bounds, thickness []float64, frozen []bool) *Profile {
	p := &Profile{SignedMM: make([]float64, r.Days), DepletionMM: make([]float64, r.Days)}
	deeper := len(thickness) - 1
	if thickness[deeper] > 0 {
		deeper = -1
	} else {
		p.BelowMM = make([]float64, r.Days)
	}
	for i := range r.Days {
		sum := 0.0
		for k, t := range thickness {
			if t > 0 {
				sum += float64((b.FieldCapacity[k] - r.Levels[k].Theta[i]) * t)
			}
		}
		switch {
		case math.IsNaN(sum):
			p.GapDays++
		case frozen[i]:
			p.FrozenDays++
			sum = math.NaN()
		default:
			p.Measured++
		}
		p.SignedMM[i], p.DepletionMM[i] = sum, math.NaN()
		if !math.IsNaN(sum) {
			p.DepletionMM[i] = max(sum, 0)
		}
		if deeper >= 0 {
			p.BelowMM[i] = math.NaN()
			if !frozen[i] {
				p.BelowMM[i] = r.below(b, thickness, i)
			}
		}
	}
	return p
}

// below returns the water missing below the root zone on day i [mm]: of each
// level without a share in the root zone, over the distance to the one above.
func (r *Record) below(b *Bounds, thickness []float64, i int) float64 {
	sum := 0.0
	for k, t := range thickness {
		if t == 0 && k > 0 {
			sum += float64((b.FieldCapacity[k] - r.Levels[k].Theta[i]) * 1000 * (r.Levels[k].DepthM - r.Levels[k-1].DepthM) / 2)
		}
	}
	return sum
}
