package et0

import (
	"fmt"

	"loamledger/weather"
)

// A TallResult is the daily tall reference ET of a record.
type TallResult struct {
	ETrMM    []float64 // as the equation gives it [mm/d]; NaN if not computable
	Methods  []Method
	Compare  Comparison // with the ETr supplied in the record
	Findings []weather.Finding
}

// DailyTall returns the alfalfa reference ET of every day of s, only for
// comparison with published values: plant coefficients in loamledger are for
// ETo. Days with temperatures alone get none. Errors are those of [Daily].
func DailyTall(s *weather.Series, o Options) (TallResult, error) {
	o = o.withDefaults()
	if err := check(s, o); err != nil {
		return TallResult{}, err
	}
	r := TallResult{ETrMM: make([]float64, s.Days), Methods: make([]Method, s.Days)}
	newEngine(s.Station, Tall(), o).run(columnsOf(s), yearDays(s), r.ETrMM, r.Methods, nil)
	if !s.Has(weather.ETr) {
		return r, nil
	}
	r.Compare = compare(s.Data[weather.ETr], r.ETrMM, r.Methods)
	if r.Compare.Parts() {
		r.Findings = append(r.Findings, weather.Finding{Code: weather.CodeSuppliedETrParts, Column: weather.ETr.Key(), Count: r.Compare.N,
			Worst:  s.Date(r.Compare.WorstDay),
			What:   fmt.Sprintf("mean supplied and computed ETr should agree within %.0f%%, with r² of at least %.2f", 100*maxMeanPart, minR2),
			Detail: r.Compare.String(), Action: "kept, and not used", Source: "common practice, no source"})
	}
	return r, nil
}
