package forecastfile

import (
	"bufio"
	"io"
	"math"
	"strconv"
	"strings"

	"loamledger/weather/forecast"
)

// Write writes the archive in the form Read accepts, by valid day and then by
// issue day. Besides issued, valid and rain_mm it writes the columns that have
// values. Numbers are the shortest that read back as the same float64. Errors
// come from w.
func Write(w io.Writer, a *forecast.Archive) error {
	use := [columns]bool{issued: true, valid: true, rain: true}
	for f := range a.All() {
		use[chance] = use[chance] || !math.IsNaN(f.ProbabilityPct)
		use[tmax] = use[tmax] || !math.IsNaN(f.TmaxC)
		use[tmin] = use[tmin] || !math.IsNaN(f.TminC)
		use[eto] = use[eto] || !math.IsNaN(f.EToMM)
	}
	var names []string
	for k, name := range columnNames {
		if use[k] {
			names = append(names, name)
		}
	}
	bw := bufio.NewWriter(w)
	buf := append([]byte(strings.Join(names, ",")), '\n')
	for f := range a.All() {
		buf = append(buf, f.Issued.String()...)
		buf = append(append(buf, ','), f.Valid.String()...)
		for k, v := range [columns]float64{rain: f.RainMM, chance: f.ProbabilityPct, tmax: f.TmaxC, tmin: f.TminC, eto: f.EToMM} {
			if k < rain || !use[k] {
				continue
			}
			buf = append(buf, ',')
			if !math.IsNaN(v) {
				buf = strconv.AppendFloat(buf, v, 'f', -1, 64)
			}
		}
		buf = append(buf, '\n')
		if _, err := bw.Write(buf); err != nil {
			return err
		}
		buf = buf[:0]
	}
	if _, err := bw.Write(buf); err != nil {
		return err
	}
	return bw.Flush()
}
