package weather

import (
	"math"
	"testing"
)

func place(lat, lon, elev float64) Station {
	st := UnknownStation()
	st.LatDeg, st.LonDeg, st.ElevM = lat, lon, elev
	return st
}

// A degree of latitude is 111.195 km on a sphere of the mean radius: 2πR/360.
func TestDistance(t *testing.T) {
	if d := DistanceKM(place(40, -100, 0), place(41, -100, 0)); math.Abs(d-111.195) > 0.001 {
		t.Errorf("a degree of latitude is %g km", d)
	}
	if d := DistanceKM(place(0, 0, 0), place(0, 180, 0)); math.Abs(d-math.Pi*earthKM) > 1e-6 {
		t.Errorf("half the equator is %g km", d)
	}
}

func TestBetween(t *testing.T) {
	if got, want := Between(place(40, -100, 300), place(41, -100, 250)), ", 111.2 km away, 50 m lower"; got != want {
		t.Errorf("%q, want %q", got, want)
	}
	if got := Between(place(40, -100, 300), UnknownStation()); got != "" {
		t.Errorf("an unknown place is%q", got)
	}
}
