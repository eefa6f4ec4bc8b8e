package strategy

// SetAhead reports whether what the strategy does on each day follows from calendar, weather
// and its own settings alone: none of its parts looks at what grows in a zone, at its soil
// or at its sprinklers. Limits, and flows that are limited, may still change it. A part that
// is not listed here counts as one that looks.
func (st *Strategy) SetAhead() bool {
	for _, p := range st.Parts {
		switch p.(type) {
		case Programs, Monthly, ETPercent, RainHold, FrostHold, WindHold, ForecastHold, Round, ZonePercent, Season, Suspend, Manual, Habit:
		default:
			return false
		}
	}
	return true
}
