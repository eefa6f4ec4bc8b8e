package plots

import (
	"cmp"
	"fmt"
	"slices"
	"sort"

	"loamledger/weather/quantity"
)

// A doubt is one reason why the results may be off.
type doubt struct {
	text, measure string  // measure is what would settle it and how, in sentences; empty for nothing simple
	because       string  // why it matters, the end of a sentence
	weight        float64 // for the order only
	weather       bool    // it is about all weather of the record, which draws leave as it is
}

// doubtKinds are the inputs that move the results most. The weights are about
// the share by which water or thirst changes over the usual range of the input;
// they are our estimate and only set the order.
var doubtKinds = [...]struct {
	key           string  // of a [Default]
	weight        float64 // if it is a guess
	before, after string  // around the names of the zones
	given         string  // if the user stated it for every zone; empty to say nothing
	givenWeight   float64
	measure       string
	because       string
}{
	{
		key: "sprinkler.rate", weight: 0.25,
		before: "The sprinkler rate of ", after: " is a general value, not measured. Water use changes in step with it",
		given: "Sprinkler rates are used as given. Water use changes in step with them", givenWeight: 0.12,
		measure: "the flow to each zone. With all other water off, run the zone for five minutes and read the water meter before and after.",
		because: "all water use here changes in step with it",
	},
	{
		key: "sprinkler.uniformity", weight: 0.20,
		before: "The sprinkler uniformity of ", after: " is a general value, not measured. It decides how dry the driest spots get",
		given: "Sprinkler uniformity is used as given. It decides how dry the driest spots get", givenWeight: 0.09,
		measure: "the uniformity of the largest zone, with straight-sided catch cans.",
		because: "it decides how much extra water the driest spots need",
	},
	{
		key: "plant.k", weight: 0.20,
		before: "The water need of the plants in ", after: " is a general value, not measured. Your plants may need more or less",
	},
	{
		key: "root_depth", weight: 0.15,
		before: "The root depth of ", after: " is a general value, not measured. It decides how long plants last between waterings",
		measure: "the root depth. Dig at a few places in the largest zone.",
		because: "it decides how long plants last between waterings",
	},
	{
		key: "soil.awc", weight: 0.10,
		before: "The water that the soil of ", after: " can store is a general value, not measured. It decides how long plants last " +
			"between waterings",
	},
}

const (
	rainWeight = 0.08 // of rain that falls elsewhere
	snowWeight = 0.30 // of the share of the rain that falls as snow: most of it melts into soil that is full in any case
	etoWeight  = 0.10 // of reference ET from incomplete weather
)

// gradeWeight is how much of a weight counts for a default of a grade.
func gradeWeight(g quantity.Grade) float64 {
	return [quantity.Grades]float64{
		quantity.Measured: 0.5, quantity.LocalTable: 0.4, quantity.GeneralTable: 0.6, quantity.Memory: 0.8, quantity.Guess: 1,
	}[g]
}

// doubts lists what may be wrong with the results, biggest first: defaults by
// what they move, their grade and the share of the baseline's water that
// they concern, and the weather.
func (s *Study) doubts(f *Facts) []doubt {
	share := s.waterShares()
	var all []doubt
	if w := &f.Weather; w.SyntheticDays > 0 {
		text := "The weather is synthetic (made by computer), not observed. A real record can change every number here"
		if w.SyntheticDays < w.Days {
			text = "The weather is synthetic on " + fixed(float64(w.SyntheticDays), 0) + " of " + count(w.Days, "day", "days")
		}
		all = append(all, doubt{text: text, weight: float64(w.SyntheticDays) / float64(max(w.Days, 1)), weather: true})
	}
	for i := range doubtKinds {
		kind := &doubtKinds[i]
		d := doubt{measure: kind.measure, because: kind.because}
		var names []string
		for z := range s.Table.Zones {
			name := s.Table.Zones[z].Name
			at := slices.IndexFunc(f.Defaults, func(d Default) bool { return d.Key == kind.key && d.Where == name })
			if at < 0 {
				continue
			}
			names = append(names, name)
			d.weight += float64(kind.weight * gradeWeight(f.Defaults[at].Grade) * share[z])
		}
		switch {
		case len(names) > 0:
			d.text = kind.before + listed(names, len(s.Table.Zones)) + kind.after
		case kind.given != "":
			d.text, d.weight = kind.given, kind.givenWeight
		default:
			continue
		}
		all = append(all, d)
	}
	if f.Weather.EToError != "" {
		days := f.Weather.EToErrorDays // two days of eighteen years are no great doubt
		all = append(all, doubt{text: fmt.Sprintf("Reference ET is partly estimated, because the weather record is incomplete on %s%% of days",
			quantity.Number(max(100*float64(days)/float64(max(f.Weather.Days, 1)), 0.1), 1)),
			weight: etoWeight * float64(days) / float64(max(f.Weather.Days, 1))})
	}
	if snow := &f.Weather.Snow; snow.matters() {
		all = append(all, doubt{text: "About " + percent(snow.Share) + " of the rain falls as snow, which the replay lets enter the soil at once",
			weight: snowWeight * snow.Share})
	}
	all = append(all, doubt{
		text:    "Rain at the site may differ from rain at the weather station",
		measure: "rain at the site, with a gauge.", because: "the weather station may be far away", weight: rainWeight,
	})
	sort.SliceStable(all, func(a, b int) bool { return cmp.Less(all[b].weight, all[a].weight) })
	return all
}

// A Measurement is what to measure and how, in sentences, and why, the end of one.
type Measurement struct {
	What string `json:"what"`
	Why  string `json:"why"`
}

// Measurements lists what to measure, the most important first.
func (s *Study) Measurements(f *Facts) (list []Measurement) {
	for _, d := range s.doubts(f) {
		if d.measure != "" {
			list = append(list, Measurement{d.measure, d.because})
		}
	}
	return list
}

// waterShares returns the share of each zone in the water of the
// baseline, or in the area if it applies none.
func (s *Study) waterShares() []float64 {
	share := make([]float64, len(s.Table.Zones))
	water, area, basis := 0.0, 0.0, s.Table.Basis()
	for z := range share {
		sum := s.Table.Sum(&basis, s.base(), z)
		share[z] = float64(sum.GrossMM * s.Table.Zones[z].AreaM2)
		water, area = water+share[z], area+s.Table.Zones[z].AreaM2
	}
	for z := range share {
		if water > 0 {
			share[z] /= water
		} else {
			share[z] = s.Table.Zones[z].AreaM2 / area
		}
	}
	return share
}
