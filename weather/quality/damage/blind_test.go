package damage

// A blindSpot is damage that a reader cannot know from the file, with the
// reason. Only then may a wrong value pass without a word.
type blindSpot struct {
	fault   string
	layouts []string // nil for every layout
	why     string
}

// blindSpots is the one list of them.
func blindSpots() []blindSpot {
	rainAlone := []string{"bom"}
	return []blindSpot{
		{"a Tmax wrong by 1 °C", nil, "smaller than the weather's own changes from day to day"},
		{"a rain day lost", nil, "a dry day is possible on any day"},
		{"a day of 20 mm that did not fall", nil, "a day of 20 mm is possible on any day"},
		{"dates one day late", nil, "a day is less than the seasons and the weather vary"},
		{"a gauge that catches 10% too little", nil, "less than years differ; only a second gauge shows it"},
		{"an anemometer that reads 10% too low", nil, "less than places differ; only a second anemometer shows it"},
		{"a download that ends between rows", nil, "a shorter record is a record; its last day is printed"},
		{"a download that ends within the last number", nil, "the digits that arrived are a number"},
		{"rain of one day in 60", rainAlone, "the envelope of rain needs temperatures, and the file has one element"},
		{"drizzle every day", rainAlone, "the envelope of rain needs temperatures, and the file has one element"},
		{"rain in June alone", rainAlone, "the envelope of rain needs temperatures, and the file has one element"},
	}
}

// blind returns the reason for which a fault may pass unseen in a layout.
func blind(fault, layout string) (why string, ok bool) {
	for _, b := range blindSpots() {
		if b.fault != fault {
			continue
		}
		for _, l := range b.layouts {
			ok = ok || l == layout
		}
		if ok || b.layouts == nil {
			return b.why, true
		}
	}
	return "", false
}
