package plots

import (
	"fmt"
	"math"
	"slices"
	"strconv"

	"loamledger/weather"
	"loamledger/weather/cal"
)

// A RecordView is a weather record to draw, checked and filled or not. Slices
// over days have the length of the series, or are nil if nothing is known.
type RecordView struct {
	Station    string
	Site       string // or the name of the file
	Series     *weather.Series
	EToMM      []float64 // reference ET of a replay
	ClearSkyMJ []float64 // radiation of a clear sky
	Excluded   []int     // years that do not count
	Units      Units
}

// The resolution of a record's panels.
const (
	maxSteps = 900  // along a panel, almost one per pixel
	maxMarks = 1000 // side by side in a lane, so that each is visible
	maxYears = 14   // labeled

	laneHeightPt = 10.8 // room for a lane's name
)

// Record returns a weather record: missing and filled values, temperatures, rain,
// radiation under a clear sky, and reference ET by year, one below the other over
// the same dates. Long records are drawn in steps of several days.
func Record(r *RecordView) Chart {
	s := r.Series
	step := 1
	if s.Days > maxSteps {
		step = (s.Days + maxSteps - 1) / maxSteps
	}
	c := Chart{
		Kind: RecordKind, Name: "record", Title: "The weather record", Site: r.Site, Station: r.Station,
		From: s.Start, To: s.End(), Columns: 1, HeightPt: 76,
	}
	c.X = dateAxis(s.Start, s.Days)
	thinYears(&c.X)
	c.X.Min, c.X.Max, c.X.Once = -0.5, float64(max(s.Days, 2))-0.5, true
	c.Y = Axis{}
	lanes, said := r.lanes()
	c.Panels = append(c.Panels, lanes)
	c.HeightPt = max(c.HeightPt, laneHeightPt*float64(len(lanes.Y.Ticks)))
	if p, ok := r.temperatures(step); ok {
		c.Panels = append(c.Panels, p)
		c.Keys = append(c.Keys, Key{Form: Bars, Role: Warmth, Label: "mean low to mean high"})
	}
	if p, ok := r.rain(step); ok {
		c.Panels = append(c.Panels, p)
		c.Keys = append(c.Keys, Key{Form: Bars, Role: RainFall, Label: "rain"})
	}
	if p, ok := r.radiation(step); ok {
		c.Panels = append(c.Panels, p)
		c.Keys = append(c.Keys, Key{Form: Bars, Role: Sunshine, Label: "radiation"}, Key{Form: Line, Role: ClearSky, Label: "clear sky"})
	}
	if p, ok := r.refET(); ok {
		c.Panels = append(c.Panels, p)
		c.Keys = append(c.Keys, Key{Form: Bars, Role: RefET, Label: "reference ET"},
			Key{Form: Bars, Role: PartRefET, Label: "incomplete or excluded"})
	}
	c.Keys = append(c.Keys, Key{Form: Bars, Role: Extremes, Label: "lowest to highest"}, Key{Form: Bars, Role: Gap, Label: "no value"},
		Key{Form: Bars, Role: PutIn, Label: "filled"}, Key{Form: Bars, Role: MadeUp, Label: "synthetic"})
	c.Keys = slices.DeleteFunc(c.Keys, func(k Key) bool { return !c.holds(k.Role) })
	c.See = said
	c.Alt = fmt.Sprintf("Charts of the weather record of %s, one below the other over the same dates: "+
		"missing and filled days by column, temperatures, rain, radiation and reference ET by year. %s", r.Station, said)
	if step > 1 {
		c.Notes = append(c.Notes, fmt.Sprintf("Drawn in steps of %d days: means, rain totals, lowest and highest values of each step.", step))
	}
	if len(lanes.Series) > 0 {
		c.Notes = append(c.Notes, "Marks for missing and filled days are widened to be visible.")
	}
	return c
}

// holds reports whether any panel has a series of the role.
func (c *Chart) holds(r Role) bool {
	for i := range c.Panels {
		for k := range c.Panels[i].Series {
			if c.Panels[i].Series[k].Role == r {
				return true
			}
		}
	}
	return false
}

// thinYears removes ticks if there are too many to label.
func thinYears(ax *Axis) {
	every := (len(ax.Ticks) + maxYears - 1) / maxYears
	if every < 2 {
		return
	}
	var kept []Tick
	for i := 0; i < len(ax.Ticks); i += every {
		kept = append(kept, ax.Ticks[i])
	}
	ax.Ticks = kept
}

// recordLanes are the columns whose gaps are shown, top first.
var recordLanes = [...]struct {
	col  weather.Column
	name string
}{
	{weather.Tmax, "high"}, {weather.Tmin, "low"}, {weather.Rain, "rain"}, {weather.Rs, "solar"},
	{weather.Wind, "wind"}, {weather.RHmax, "RH high"}, {weather.RHmin, "RH low"},
	{weather.RHmean, "RH mean"}, {weather.Tdew, "dew point"}, {weather.Ea, "vapor"}, {weather.ETo, "ETo"},
}

// lanes shows missing and filled values, with a lane for each column of the
// record, and counts them in a sentence.
func (r *RecordView) lanes() (Panel, string) {
	s := r.Series
	p := Panel{Title: "Missing and filled"}
	least := float64(s.Days) / maxMarks // the minimum width of a mark
	gaps, filled, made := 0, 0, 0
	byRole := map[Role]*Series{}
	ax := &Axis{Label: "columns", Down: true, Plain: true}
	lane := 0
	for _, l := range recordLanes {
		if !s.Has(l.col) {
			continue
		}
		ax.Ticks = append(ax.Ticks, Tick{At: float64(lane), Label: l.name})
		for i := 0; i < s.Days; {
			role, marked := laneRole(s, l.col, i)
			from := i
			for i++; i < s.Days; i++ {
				if next, ok := laneRole(s, l.col, i); ok != marked || next != role {
					break
				}
			}
			if !marked {
				continue
			}
			switch role {
			case Gap:
				gaps += i - from
			case PutIn:
				filled += i - from
			case MadeUp:
				made += i - from
			}
			sr := byRole[role]
			if sr == nil {
				sr = &Series{Form: Spans, Role: role, Width: 0.62}
				byRole[role] = sr
			}
			a, b := float64(from)-0.5, float64(i)-0.5
			if short := least - (b - a); short > 0 {
				a, b = max(a-float64(short/2), -0.5), min(b+float64(short/2), float64(s.Days)-0.5)
			}
			sr.Base, sr.X, sr.Y = append(sr.Base, a), append(sr.X, b), append(sr.Y, float64(lane))
		}
		lane++
	}
	for _, role := range []Role{MadeUp, Gap, PutIn} {
		if sr := byRole[role]; sr != nil {
			p.Series = append(p.Series, *sr)
		}
	}
	ax.Min, ax.Max = -0.6, float64(max(lane, 1))-0.4
	p.Y = ax
	text := "No value is missing and none was filled."
	if gaps+filled > 0 {
		text = fmt.Sprintf("%s and %s, counted in all columns.",
			count(gaps, "value is missing", "values are missing"), count(filled, "was filled", "were filled"))
	}
	if made > 0 {
		text = "This is synthetic weather, not observed. " + text
	}
	p.Note = fmt.Sprintf("%s missing, %s filled", fixed(float64(gaps), 0), fixed(float64(filled), 0))
	return p, text
}

func laneRole(s *weather.Series, c weather.Column, i int) (Role, bool) {
	switch m := s.Mark[c][i]; {
	case math.IsNaN(s.Data[c][i]):
		return Gap, true
	case m == weather.Synthetic:
		return MadeUp, true
	case m.Filled():
		return PutIn, true
	}
	return 0, false
}

// A bucket summarizes a few days of one column.
type bucket struct{ mid, sum, low, high, n float64 }

func (b bucket) mean() float64 {
	if b.n == 0 {
		return math.NaN()
	}
	return b.sum / b.n
}

// buckets splits a column into runs of step days; low and high are NaN if nothing
// is known.
func buckets(v []float64, step int) []bucket {
	var out []bucket
	for from := 0; from < len(v); from += step {
		to := min(from+step, len(v))
		b := bucket{mid: float64(from+to-1) / 2, low: math.NaN(), high: math.NaN()}
		for _, x := range v[from:to] {
			if math.IsNaN(x) {
				continue
			}
			if b.n == 0 || x < b.low {
				b.low = x
			}
			if b.n == 0 || x > b.high {
				b.high = x
			}
			b.sum += x
			b.n++
		}
		out = append(out, b)
	}
	return out
}

func (r *RecordView) temperatures(step int) (Panel, bool) {
	s := r.Series
	if !s.Has(weather.Tmax) || !s.Has(weather.Tmin) {
		return Panel{}, false
	}
	high, low := buckets(s.Data[weather.Tmax], step), buckets(s.Data[weather.Tmin], step)
	mean, ends := Series{Form: Band, Role: Warmth}, Series{Form: Band, Role: Extremes}
	least, most := math.Inf(1), math.Inf(-1)
	for i := range high {
		warm := r.Units.temperature
		if step > 1 {
			ends.X = append(ends.X, high[i].mid)
			ends.Y, ends.Base = append(ends.Y, warm(high[i].high)), append(ends.Base, warm(low[i].low))
		}
		mean.X = append(mean.X, high[i].mid)
		mean.Y, mean.Base = append(mean.Y, warm(high[i].mean())), append(mean.Base, warm(low[i].mean()))
		if high[i].n > 0 {
			most = max(most, warm(high[i].high))
		}
		if low[i].n > 0 {
			least = min(least, warm(low[i].low))
		}
	}
	if math.IsInf(least, 0) || math.IsInf(most, 0) {
		return Panel{}, false
	}
	p := Panel{
		Title: "Temperature (" + r.Units.temperatureUnit() + ")", Series: []Series{mean},
		Note: fmt.Sprintf("lowest %s, highest %s", fixed(least, 1), fixed(most, 1)),
	}
	if step > 1 {
		p.Series = []Series{ends, mean}
	}
	ax := scaleBetween("temperature", r.Units.temperatureUnit(), min(least, most), max(least, most), 5)
	p.Y = &ax
	return p, true
}

func (r *RecordView) rain(step int) (Panel, bool) {
	s := r.Series
	if !s.Has(weather.Rain) {
		return Panel{}, false
	}
	bars := Series{Form: Bars, Role: RainFall, Width: 0.9 * float64(step)}
	most, wettest, at := 0.0, -1.0, cal.Date(0)
	for _, b := range buckets(s.Data[weather.Rain], step) {
		y := r.Units.depth(b.sum)
		most = max(most, y)
		if b.n == 0 {
			y = math.NaN()
		}
		bars.X, bars.Y = append(bars.X, b.mid), append(bars.Y, y)
	}
	for i, v := range s.Data[weather.Rain] {
		if v > wettest {
			wettest, at = v, s.Date(i)
		}
	}
	if wettest < 0 {
		return Panel{}, false
	}
	unit := r.Units.depthUnit()
	title := "Rain (" + unit + "/day)"
	if step > 1 {
		title = fmt.Sprintf("Rain (%s per %d days)", r.Units.pick("inches", "mm"), step)
	}
	ax := scaleTo("rain", unit, most, 3)
	note := fmt.Sprintf("wettest day %s on %s", r.Units.pick(r.Units.depthWords(wettest), fixed(wettest, 1)+" mm"), DayText(at))
	return Panel{Title: title, Note: note, Series: []Series{bars}, Y: &ax}, true
}

func (r *RecordView) radiation(step int) (Panel, bool) {
	s := r.Series
	if !s.Has(weather.Rs) || s.CountMissing(weather.Rs) == s.Days {
		return Panel{}, false
	}
	band := Series{Form: Band, Role: Sunshine}
	most, above, known := 0.0, 0, 0
	for _, b := range buckets(s.Data[weather.Rs], step) {
		low := b.low
		if step == 1 && b.n > 0 {
			low = 0
		}
		band.X, band.Y, band.Base = append(band.X, b.mid), append(band.Y, b.high), append(band.Base, low)
		if b.n > 0 {
			most = max(most, b.high)
		}
	}
	p := Panel{Title: "Solar radiation (MJ/m² per day)", Series: []Series{band}}
	if r.ClearSkyMJ != nil {
		line := Series{Form: Line, Role: ClearSky}
		for _, b := range buckets(r.ClearSkyMJ, step) {
			line.X, line.Y = append(line.X, b.mid), append(line.Y, b.high)
			most = max(most, b.high)
		}
		for i, v := range s.Data[weather.Rs] {
			if math.IsNaN(v) {
				continue
			}
			known++
			if v > r.ClearSkyMJ[i] {
				above++
			}
		}
		p.Series = append(p.Series, line)
		p.Note = fmt.Sprintf("above clear-sky radiation on %s of %s", fixed(float64(above), 0), count(known, "day", "days"))
	}
	ax := scaleTo("radiation", "MJ/m² per day", most, 3)
	p.Y = &ax
	return p, true
}

// refET draws the totals of calendar years, or of the months of a short record,
// over their days; incomplete ones look different.
func (r *RecordView) refET() (Panel, bool) {
	if r.EToMM == nil {
		return Panel{}, false
	}
	s := r.Series
	byMonth := s.Days < 2*365
	word := "year"
	if byMonth {
		word = "month"
	}
	p := Panel{}
	most, sum, wholes := 0.0, 0.0, 0
	for from := 0; from < s.Days; {
		y, m, _ := s.Date(from).YMD()
		first, last := cal.Of(y, 1, 1), cal.Of(y, 12, 31)
		if byMonth {
			first, last = cal.Of(y, m, 1), cal.Of(y, m, cal.DaysIn(y, m))
		}
		to := min(s.Days, int(last-s.Start)+1)
		total, unknown := 0.0, false
		for _, v := range r.EToMM[from:to] {
			if math.IsNaN(v) {
				unknown = true
				continue
			}
			total += r.Units.depth(v)
		}
		most = max(most, total)
		bar := Series{Form: Bars, Role: PartRefET, X: []float64{float64(from+to-1) / 2}, Y: []float64{total}, Width: 0.82 * float64(to-from)}
		if s.Date(from) == first && s.Date(to-1) == last && !unknown && !slices.Contains(r.Excluded, y) {
			bar.Role = RefET
			sum += total
			wholes++
		}
		p.Series = append(p.Series, bar)
		from = to
	}
	if most == 0 {
		return Panel{}, false
	}
	p.Title, p.Note = fmt.Sprintf("Reference ET (%s/%s)", r.Units.depthUnit(), word), "no whole "+word
	if wholes > 0 {
		p.Note = fmt.Sprintf("mean %s%s a %s over %s", fixed(sum/float64(wholes), r.Units.depthDigits()), r.Units.pick(" inches", " mm"),
			word, count(wholes, "whole "+word, "whole "+word+"s"))
	}
	ax := scaleTo("reference ET", r.Units.depthUnit(), most, 3)
	p.Y = &ax
	return p, true
}

// scaleBetween returns an axis of round numbers from low to high or beyond, with
// about n intervals.
func scaleBetween(label, unit string, low, high float64, n int) Axis {
	if !(high > low) {
		high = low + 1
	}
	step := roundStep((high - low) / float64(n))
	ax := Axis{Label: label, Unit: unit, Min: float64(step * math.Floor(low/step+1e-9)), Max: float64(step * math.Ceil(high/step-1e-9))}
	for i := 0; ax.Min+float64(float64(i)*step) <= ax.Max+step/1e6; i++ {
		at := ax.Min + float64(float64(i)*step)
		text := strconv.FormatFloat(math.Round(at/step)*step, 'g', 6, 64)
		if text[0] == '-' {
			text = "−" + text[1:]
		}
		ax.Ticks = append(ax.Ticks, Tick{At: at, Label: text})
	}
	return ax
}
