// Package examples checks the bundled scenarios and keeps their synthetic
// weather as its generator writes it.
package examples

import (
	"bytes"
	"fmt"
	"math"
	"math/rand/v2"
	"os"
	"testing"

	"loamledger/weather/cal"
)

// A climate is a fictional place for synthetic weather.
type climate struct {
	file               string
	seed               uint64
	latDeg, elevM      float64
	from, years        int
	meanC, swingC      float64 // of daily mean temperature over the year
	rangeC             float64 // of a dry day
	wetShare, swingWet float64 // share of wet days and its swing, most in the warm half where positive
	wetMM              float64 // mean rain of a wet day
	dewBelowC          float64 // dew point below the lowest temperature
	windMS             float64
}

var climates = []climate{
	{"juniper-court-weather.csv", 11, 38.9, 490, 2019, 5, 11, 13, 16, 0.18, 0.06, 5, 2, 2.4},
	{"alder-commons-weather.csv", 12, 35.4, 240, 2020, 4, 16, 10, 11, 0.30, 0.04, 10, 1, 1.8},
	{"saltbush-lane-weather.csv", 13, -31.2, 120, 2020, 4, 19, 8, 15, 0.10, -0.04, 6, 6, 2.8},
	{"weir-meadow-weather.csv", 14, 52.1, 8, 2021, 3, 10, 7.5, 8, 0.42, -0.05, 5, 0.6, 4.5},
	{"test-landscape-weather.csv", 15, 33.4, 250, 2022, 1, 18, 9, 14, 0.13, 0.03, 7, 3, 2.0},
}

// draw writes synthetic weather in loamledger's own layout: a yearly cycle,
// spells of rain from a two-state chain, and radiation below that of a clear
// sky.
func (c climate) draw() []byte {
	var b bytes.Buffer
	b.WriteString("date,tmax_c,tmin_c,rain_mm,rhmax_pct,rhmin_pct,rs_mj_m2,wind_m_s,origin\n")
	r := rand.New(rand.NewPCG(c.seed, 1))
	phase := 200.0 // warmest day of the year
	if c.latDeg < 0 {
		phase = 17
	}
	wet, spell := false, 0.0
	for d := cal.Of(c.from, 1, 1); d < cal.Of(c.from+c.years, 1, 1); d++ {
		doy := float64(d.YearDay())
		season := math.Cos(2 * math.Pi * (doy - phase) / 365)
		share := c.wetShare + c.swingWet*season
		if wet {
			share += 0.25
		} else {
			share -= 0.25 * share
		}
		wet = r.Float64() < share
		rain := 0.0
		if wet {
			rain = max(0.2, c.wetMM*r.ExpFloat64())
		}
		spell = 0.7*spell + 2.2*r.NormFloat64()
		dayRange := c.rangeC * (0.8 + 0.4*r.Float64())
		if wet {
			dayRange *= 0.6
		}
		mean := c.meanC + c.swingC*season + spell
		tmax, tmin := mean+dayRange/2, mean-dayRange/2
		ea := vapor(tmin - c.dewBelowC*r.Float64())
		cloud := r.Float64()
		sky := (0.745 + 2e-5*c.elevM) * (1 - 0.2*cloud*cloud) // clear: FAO-56 eq. 37
		if wet {
			sky *= 0.35 + 0.4*cloud
		}
		wind := max(0.4, c.windMS*(0.5+r.Float64()))
		fmt.Fprintf(&b, "%v,%.1f,%.1f,%.1f,%.0f,%.0f,%.1f,%.1f,synthetic\n", d, tmax, tmin, rain,
			min(100, 100*ea/vapor(tmin)), 100*ea/vapor(tmax), sky*extraterrestrial(c.latDeg, doy), wind)
	}
	return b.Bytes()
}

// vapor is the saturation vapor pressure, FAO-56 eq. 11.
func vapor(tC float64) float64 { return 0.6108 * math.Exp(17.27*tC/(tC+237.3)) }

// extraterrestrial is FAO-56 eq. 21 to 25 [MJ/m²].
func extraterrestrial(latDeg, doy float64) float64 {
	phi := latDeg * math.Pi / 180
	dr := 1 + 0.033*math.Cos(2*math.Pi*doy/365)
	dec := 0.409 * math.Sin(2*math.Pi*doy/365-1.39)
	ws := math.Acos(-math.Tan(phi) * math.Tan(dec))
	return 24 * 60 / math.Pi * 0.0820 * dr * (ws*math.Sin(phi)*math.Sin(dec) + math.Cos(phi)*math.Cos(dec)*math.Sin(ws))
}

// The weather files are golden: UPDATE=1 rewrites them.
func TestWeatherIsAsDrawn(t *testing.T) {
	for _, c := range climates {
		want := c.draw()
		if os.Getenv("UPDATE") == "1" {
			if err := os.WriteFile(c.file, want, 0o644); err != nil {
				t.Fatal(err)
			}
			continue
		}
		got, err := os.ReadFile(c.file)
		if err != nil {
			t.Fatal(err)
		}
		if !bytes.Equal(got, want) {
			t.Errorf("%s is not what its generator writes; UPDATE=1 writes it anew", c.file)
		}
	}
}
