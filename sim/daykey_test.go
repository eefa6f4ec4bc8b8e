package sim

import (
	"reflect"
	"testing"

	"loamledger/weather/cal"
)

// TestDayKeyHasAllThatMatters changes every value in a zone in turn, those of its
// plants too. If that changes a day record or what the plants do, the key changes.
func TestDayKeyHasAllThatMatters(t *testing.T) {
	const n = 800
	w := Weather{Start: cal.Of(2011, 1, 1), RainMM: make([]float64, n), EToMM: make([]float64, n), TmaxC: make([]float64, n),
		TminC: make([]float64, n)}
	for i := range n {
		w.EToMM[i], w.TmaxC[i], w.TminC[i] = float64(i%9), float64(i/20%30), float64(i/20%30)-8
		if i%5 == 0 {
			w.RainMM[i] = float64(i % 60)
		}
	}
	calendar := NewCalendar(w.Start, n)
	var warmth Warmth
	warmth.Fill(w, 365)
	made := func() *Zone {
		z := &Zone{Name: "a", AreaM2: 100, TAWMM: 40, P: 0.4, PRMMH: 20, DULQ: 0.6, Strips: 8, IntakeMMH: 9, SurfaceStorageMM: 2,
			Rain: Rain{CN: 80, EffectiveShare: 0.7}, Season: &Season{Ka: 0.9, Kd: 0.4, T0C: 4, T1C: 15}, ToleranceR7: 0.8, BrowningR7: 0.5,
			Overseed: &Overseed{From: DayOfYear{10, 15}, To: DayOfYear{4, 15}, Season: &Season{Ka: 0.8, Kd: 0.3, T0C: 2, T1C: 12}, P: 0.5,
				ToleranceR7: 0.7, BrowningR7: 0.4}}
		for m := range 12 {
			z.K[m], z.Overseed.K[m] = 0.5+float64(m)/20, 0.6+float64(m)/30
		}
		return z
	}
	type outcome struct {
		days, known, head []Day
		growth            Growth
	}
	of := func(z *Zone) outcome {
		var o outcome
		o.days = o.growth.Forcing(nil, z, w, calendar, &warmth, 365)
		o.known, o.head = Forcing(nil, z, w, calendar), o.growth.Head
		o.growth.marks, o.growth.Head = [2]marks{}, nil // each zone has its own marks
		return o
	}
	for _, method := range []RainMethod{CurveNumber, FixedShare} {
		plain := made()
		plain.Rain.Method = method
		want, key := of(plain), plain.DayKey()
		matters := 0
		for field := range numbers(reflect.ValueOf(plain).Elem()) {
			z := made()
			z.Rain.Method = method
			change(numbers(reflect.ValueOf(z).Elem())[field])
			if reflect.DeepEqual(of(z), want) {
				continue
			}
			matters++
			if z.DayKey() == key {
				t.Errorf("value %d of a zone changes its days but not their key", field)
			}
		}
		if matters < 30 { // coefficients of the months that a plant grows in, seasons, dates, and more
			t.Errorf("only %d values matter", matters)
		}
	}
	for _, without := range []func(z *Zone){func(z *Zone) { z.Season = nil }, func(z *Zone) { z.Overseed = nil },
		func(z *Zone) { z.Overseed.Season = nil }} {
		z := made()
		if without(z); z.DayKey() == made().DayKey() {
			t.Error("a plant without a season, or a zone with one plant, has the key of another")
		}
	}
}

// numbers lists every number and truth value within v.
func numbers(v reflect.Value) (out []reflect.Value) {
	switch v.Kind() {
	case reflect.Pointer:
		return numbers(v.Elem())
	case reflect.Struct:
		for i := range v.NumField() {
			out = append(out, numbers(v.Field(i))...)
		}
	case reflect.Array:
		for i := range v.Len() {
			out = append(out, numbers(v.Index(i))...)
		}
	case reflect.String:
	default:
		out = append(out, v)
	}
	return out
}

func change(v reflect.Value) {
	switch {
	case v.Kind() == reflect.Bool:
		v.SetBool(!v.Bool())
	case v.CanFloat():
		v.SetFloat(v.Float() * 1.25)
	case v.CanInt():
		v.SetInt(v.Int() + 1)
	default:
		v.SetUint(1 - v.Uint())
	}
}
