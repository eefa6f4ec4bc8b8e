package tune

// A Timer is what the controller can do. All limits of a timer on the search enter
// here. The zero Timer is one of common practice, no source: 4 programs, run times
// from 1 min, percentages in steps of 5%, cycle and soak.
type Timer struct {
	Programs     int     // maximum number of programs; 0 means 4
	Starts       int     // maximum starts of a program a day; the search uses one, so any number is enough
	LeastMinutes int     // shortest run time of a zone at 100%; 0 means 1
	PercentStep  float64 // step of monthly percentages as a share; 0 means 0.05
	NoCycle      bool    // it cannot split a run into cycles with soaks
}

// filled returns the timer with defaults in empty fields.
func (t Timer) filled() Timer {
	if t.Programs == 0 {
		t.Programs = 4
	}
	if t.LeastMinutes == 0 {
		t.LeastMinutes = 1
	}
	if t.PercentStep == 0 {
		t.PercentStep = 0.05
	}
	return t
}
