package weather

import (
	"fmt"
	"math"

	"loamledger/weather/portable"
)

// earthKM is the mean radius of the Earth (IUGG).
const earthKM = 6371.0088

// DistanceKM returns the great-circle distance between two stations [km] by the
// haversine formula; NaN if a location is unknown.
func DistanceKM(a, b Station) float64 {
	const rad = math.Pi / 180
	s1, s2 := portable.Sin((b.LatDeg-a.LatDeg)*rad/2), portable.Sin((b.LonDeg-a.LonDeg)*rad/2)
	h := float64(s1*s1) + float64(portable.Cos(a.LatDeg*rad)*portable.Cos(b.LatDeg*rad)*s2*s2)
	return 2 * earthKM * portable.Asin(math.Sqrt(min(h, 1)))
}

// Between says how far and how much higher or lower station b is than a, as a
// phrase that starts with a comma; empty if nothing is known.
func Between(a, b Station) string {
	text := ""
	if d := DistanceKM(a, b); !math.IsNaN(d) {
		text += fmt.Sprintf(", %.1f km away", d)
	}
	switch dz := b.ElevM - a.ElevM; {
	case dz < 0:
		text += fmt.Sprintf(", %.0f m lower", -dz)
	case dz >= 0:
		text += fmt.Sprintf(", %.0f m higher", dz)
	}
	return text
}
