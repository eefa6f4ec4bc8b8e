package catalog

// A Between is the shortest and the longest interval between two waterings that
// suit established plants while they grow [d]. Both are 0 if nothing is known.
type Between struct {
	Shortest, Longest float64
	Source            string
	Grade             Grade
}

const (
	// Turf and flowers stand on shallow roots, so nothing forbids daily watering,
	// and advice in between differs: UC IPM (ipm.ucanr.edu, irrigation cycle) names
	// one or two waterings a week for warm-season and about three for cool-season
	// grass, more on shallow soil or slopes.
	dailyToWeekly = "daily to weekly: our choice, around the one to three waterings a week of University of California IPM"
	elsewhere     = "; shortest in summer, longest in spring and fall, of the low desert, used everywhere: our choice"
)

// BetweenWaterings returns the interval for a plant of the catalog: for woody and
// desert plants that of its row of [Waterings], which keeps watering deep and
// rare; for turf and flowers a day to a week. It bounds the schedules that a search
// proposes, and is a guess outside the low desert.
func (p *Plant) BetweenWaterings() Between {
	switch p.Watering {
	case "":
		return Between{}
	case warmGrassRow, coolGrassRow, flowersRow:
		return Between{1, 7, dailyToWeekly, Guess}
	}
	row, ok := FindWatering(p.Watering)
	if !ok || !row.Summer.Known() {
		return Between{}
	}
	return Between{row.Summer.Low, max(row.Summer.High, row.SpringFall.High), WateringSource + elsewhere, Guess}
}
