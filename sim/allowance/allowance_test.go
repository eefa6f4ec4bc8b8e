package allowance

import (
	"math"
	"testing"

	"loamledger/weather/quantity"

	"pgregory.net/rapid"
)

const (
	inch  = 25.4
	foot2 = 0.09290304
)

func near(t *testing.T, what string, got, want, tol float64) {
	t.Helper()
	if math.Abs(got-want) > tol {
		t.Errorf("%s: %.6g, want %.6g", what, got, want)
	}
}

// Published: the example of California's model ordinance of 2009, as a trade page repeats
// it: 51.1 in, 50,000 ft², factor 0.7, 0.62 gal: 1,108,870 gal a year. Exactly, 51.1 · 0.62 ·
// 0.7 · 50,000 = 1,108,870.
func TestPublishedMAWA(t *testing.T) {
	r := Rule{Factor: 0.7, Special: 1, AreaM2: 50000 * foot2, Conversion: 0.62}
	near(t, "MAWA", gallons(r.M3(51.1*inch, 0)), 1_108_870, 0.5)
	// Hand, with a special area of 2,000 ft²: 51.1·0.62·(0.7·50,000 + 0.3·2,000) = 31.682·35,600.
	r.SpecialM2 = 2000 * foot2
	near(t, "with a special area", gallons(r.M3(51.1*inch, 0)), 31.682*35600, 0.5)
}

// Hand: homes, ETo 50 in, 4,000 ft² of which 500 special: 50·0.62·(0.55·4000 + 0.45·500) =
// 31·2425 = 75,175 gal. With a quarter of 16 in of rain subtracted, 46·0.62·2425 = 69,161.
// With the exact constant it is 0.6234/0.62 times as much: 75,175·1.005446 = 75,584.4.
func TestForms(t *testing.T) {
	r := Rule{Factor: 0.55, Special: 1, AreaM2: 4000 * foot2, SpecialM2: 500 * foot2, Conversion: 0.62}
	near(t, "homes", gallons(r.M3(50*inch, 16*inch)), 75_175, 0.5)
	r.RainShare = 0.25
	near(t, "less rain", gallons(r.M3(50*inch, 16*inch)), 69_161, 0.5)
	near(t, "wet", r.M3(3*inch, 16*inch), 0, 0)
	r.RainShare, r.Conversion = 0, 0
	near(t, "exact", gallons(r.M3(50*inch, 0)), 75_175.0*144/231/0.62, 0.01)
	near(t, "constant", galPerInFt2(), 0.623377, 1e-6) // published: 0.623377
	// 1 mm on 1 m² is 1 L.
	near(t, "SI", (&Rule{Factor: 1, AreaM2: 1}).M3(1, 0), 0.001, 1e-15)
}

// Hand: 100 mm and 20 mm of ETo, 40 and 60 of rain, all of it subtracted: by month 60 + 0,
// by year 120 - 100 = 20 L/m². Uses of 50 and 5 L exceed the second month, and the year.
func TestMonthsAndYear(t *testing.T) {
	r := Rule{Factor: 1, AreaM2: 1, RainShare: 1, ByMonth: true}
	months := []Month{{UseM3: 0.050, EToMM: 100, RainMM: 40}, {UseM3: 0.005, EToMM: 20, RainMM: 60}}
	for i := range months {
		months[i].AllowedM3 = r.M3(months[i].EToMM, months[i].RainMM)
	}
	if got := r.Total(months); got.Over != 1 || got.Within || math.Abs(got.AllowedM3-0.060) > 1e-12 {
		t.Errorf("by month %+v", got)
	}
	r.ByMonth = false
	if got := r.Total(months); got.Within || math.Abs(got.AllowedM3-0.020) > 1e-12 || math.Abs(got.UseM3-0.055) > 1e-12 {
		t.Errorf("by year %+v", got)
	}
	months[0].UseM3 = 0.015
	if got := r.Total(months); !got.Within || got.Over != 1 {
		t.Errorf("exactly used up %+v", got)
	}
}

// Laws: an allowance is linear in area, never falls with ETo, never rises with rain, and use
// equal to it is within it.
func TestLaws(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		f := func(label string, high float64) float64 { return rapid.Float64Range(0, high).Draw(t, label) }
		r := Rule{Factor: f("factor", 2), Special: f("special", 2), AreaM2: f("area", 1e5), RainShare: f("share", 1)}
		r.SpecialM2 = r.AreaM2 * f("part", 1)
		eto, rain := f("eto", 300), f("rain", 300)
		v := r.M3(eto, rain)
		twice := r
		twice.AreaM2, twice.SpecialM2 = 2*r.AreaM2, 2*r.SpecialM2
		if math.Abs(twice.M3(eto, rain)-2*v) > 1e-6*(1+v) || r.M3(eto+1, rain) < v || r.M3(eto, rain+1) > v || !within(v, v) || v < 0 {
			t.Fatalf("%+v: %g", r, v)
		}
	})
}

// gallons converts a volume in m³.
func gallons(m3 float64) float64 { return quantity.Convert(m3, quantity.Volume, quantity.US) }
