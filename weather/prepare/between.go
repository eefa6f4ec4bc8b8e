package prepare

import (
	"fmt"
	"math"

	"loamledger/weather"
)

// earthKM is the mean radius of the Earth (IUGG).
const earthKM = 6371.0088

// DistanceKM returns the great-circle distance between two places [km] by the
// haversine formula; NaN where a coordinate is unknown.
func DistanceKM(lat1, lon1, lat2, lon2 float64) float64 {
	const rad = math.Pi / 180
	s1, s2 := math.Sin((lat2-lat1)*rad/2), math.Sin((lon2-lon1)*rad/2)
	h := s1*s1 + math.Cos(lat1*rad)*math.Cos(lat2*rad)*s2*s2
	return 2 * earthKM * math.Asin(math.Sqrt(min(h, 1)))
}

// Between says how far apart two stations are, as far as that is known, as a
// phrase that starts with a comma; empty where nothing is known.
func Between(a, b weather.Station) string {
	text := ""
	if d := DistanceKM(a.LatDeg, a.LonDeg, b.LatDeg, b.LonDeg); !math.IsNaN(d) {
		text += fmt.Sprintf(", %.1f km away", d)
	}
	if dz := b.ElevM - a.ElevM; !math.IsNaN(dz) {
		word := "higher"
		if dz < 0 {
			word = "lower"
		}
		text += fmt.Sprintf(", %.0f m %s", math.Abs(dz), word)
	}
	return text
}
