package meter

import "math"

// A Label is what may be said of a replay by its score.
type Label string

// The labels.
const (
	Calibrated    Label = "calibrated"
	Indicative    Label = "indicative"
	NotCalibrated Label = "not calibrated: relative comparison only"
)

// A LabelDoc says when a label applies. The limits are upper ones.
type LabelDoc struct {
	Label Label
	CV    float64 // [%]
	nmbe  float64 // of its size [%]
	Ours  bool    // the label and its limits are a choice of ours
	Doc   string
}

var labels = [...]LabelDoc{
	{Calibrated, 15, 5, false, "CV(RMSE) up to 15% and NMBE within 5%, the limits of ASHRAE Guideline 14 for a simulation and monthly data"},
	{Indicative, 30, math.Inf(1), true, "CV(RMSE) up to 30%; this label is ours and no guideline's"},
	{NotCalibrated, math.Inf(1), math.Inf(1), false, "above that"},
}

// Labels returns the labels, the best first. The slice is the caller's.
func Labels() []LabelDoc { return append([]LabelDoc(nil), labels[:]...) }

// LabelOf returns the label of a score.
func LabelOf(s *Score) LabelDoc {
	for _, l := range labels {
		if s.CV <= l.CV && math.Abs(s.NMBE) <= l.nmbe {
			return l
		}
	}
	return labels[len(labels)-1]
}

// A Limit is a limit of a guideline [%] for a regression of the whole meter.
type Limit struct {
	purpose  string // what it is for
	CV, nmbe float64
	Source   string
}

var limits = [...]Limit{
	{"a regression of the whole meter, less than 12 months after the change", 20, 0.005,
		"ASHRAE Guideline 14, whole-building path; from memory, not verified"},
	{"the same, 12 to 60 months after", 25, 0.005, "ASHRAE Guideline 14, whole-building path; from memory, not verified"},
	{"the same, more than 60 months after", 30, 0.005, "ASHRAE Guideline 14, whole-building path; from memory, not verified"},
}

// RegressionLimit returns the limit of CV(RMSE) of a regression of the whole meter,
// used with the given months after the change.
func RegressionLimit(months float64) Limit {
	switch {
	case months < 12:
		return limits[0]
	case months <= 60:
		return limits[1]
	}
	return limits[2]
}
