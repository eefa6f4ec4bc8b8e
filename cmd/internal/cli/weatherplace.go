package cli

import (
	"errors"
	"fmt"

	"loamledger/scenarios/study"
	"loamledger/weather/diag"
)

// placeAlone returns the errors in err if each is that the site's place is
// unknown: the file itself can be used; else none.
func placeAlone(err error) []*diag.Error {
	var many *diag.Errors
	if !errors.As(err, &many) || many.More > 0 {
		return nil
	}
	for _, e := range many.List {
		if e.Code != diag.MissingPlace {
			return nil
		}
	}
	return many.List
}

// printUnplaced prints a record that lacks only the site's place, and what a
// replay will ask for.
func (o *weatherOptions) printUnplaced(s Streams, l *study.Study, asks []*diag.Error) error {
	if err := o.plot(l); err != nil {
		return err
	}
	if o.JSON {
		return printJSON(s.Out, struct {
			study.WeatherRecord
			Warnings []study.WarningRecord `json:"warnings"`
			Asks     []errorJSON           `json:"replay_asks_for"`
		}{l.WeatherRecord(), l.Warnings(nil), newErrorsJSON(&diag.Errors{List: asks}, exitInput).Errors})
	}
	fmt.Fprint(s.Out, l.WeatherText())
	fmt.Fprintln(s.Out, "\nThe file itself is fine. A replay, or --out, will ask for:")
	for _, e := range asks {
		fmt.Fprintf(s.Out, "  %s\n    fix: %s\n", e.Msg, e.Fix)
	}
	return nil
}
