package cli

import (
	"cmp"
	"fmt"
	"maps"
	"math"
	"slices"
	"strconv"
	"strings"

	"loamledger/cmd/internal/outdir"
	"loamledger/scenarios/accounts"
	"loamledger/scenarios/accountsfile"
	"loamledger/scenarios/study"
	"loamledger/sim/bill"
	rows "loamledger/sim/portfolio"
	"loamledger/weather/quantity"
)

// A portfolioRecord is the content of run.json: what the results are made of, and totals. It
// depends neither on the number of shards nor on the time they took.
type portfolioRecord struct {
	Version  string                  `json:"loamledger"`
	Columns  string                  `json:"columns_version"`
	Program  string                  `json:"program"`
	Seed     uint64                  `json:"seed"`
	Units    string                  `json:"units"` // of printed output
	Money    *accountsfile.MoneyWork `json:"money,omitempty"`
	Inputs   []accountsfile.Input    `json:"inputs"`
	Accounts accountsfile.Counts     `json:"accounts"`
	AsFound  asFoundRecord           `json:"as_found"`
	Imputed  float64                 `json:"imputed_share_mean"`
	Drawn    map[string]int          `json:"accounts_with_drawn_value"`
	Alarms   map[string]int          `json:"accounts_with_alarm"`
	Reasons  map[string]int          `json:"failed_by_code"`
	Stations []stationTotal          `json:"stations"`
	Measures []measureTotal          `json:"measures"`
	Notes    []string                `json:"notes"`
	Outputs  []outdir.Output         `json:"outputs"`

	imputed float64
}

// An asFoundRecord counts accounts by where their as-found run times come from.
type asFoundRecord struct {
	Bills int `json:"bills"`
	Drawn int `json:"drawn"`
	Given int `json:"given"`
}

// A stationTotal is what one station was used for.
type stationTotal struct {
	Name     string   `json:"name"`
	Accounts int      `json:"accounts"`
	MeanKM   *float64 `json:"distance_km_mean"` // of those whose distance is known
	MaxKM    *float64 `json:"distance_km_max"`
	Unknown  int      `json:"accounts_without_place"`

	km float64
}

// A measureTotal adds up one measure over all accounts, whole years alone.
type measureTotal struct {
	Name        string   `json:"name"`
	Reference   bool     `json:"reference"`
	Accounts    int      `json:"accounts"`
	M3          float64  `json:"volume_m3_per_year"`
	Requirement float64  `json:"requirement_m3_per_year"`
	Stress      float64  `json:"stress_zone_days_per_year_mean"` // over accounts
	Runoff      float64  `json:"runoff_m3_per_year"`
	Money       *float64 `json:"money_per_year,omitempty"` // what irrigation adds to the bills; nil without rates
}

func newPortfolioRecord(w *accountsfile.Work) *portfolioRecord {
	return &portfolioRecord{Version: w.Program, Columns: rows.Version, Program: w.Name, Seed: w.Seed, Units: w.Units, Money: w.Money,
		Inputs: w.Inputs,
		Drawn:  map[string]int{}, Alarms: map[string]int{}, Reasons: map[string]int{}}
}

// metaOf is the metadata of the tables.
func metaOf(w *accountsfile.Work) map[string]string {
	meta := map[string]string{"version": w.Program, "program": w.Name, "seed": strconv.FormatUint(w.Seed, 10)}
	if m := w.Money; m != nil {
		meta[rows.MetaCurrency], meta[rows.MetaRates], meta[rows.MetaPrices] = m.Currency, m.Rates, m.Prices
	}
	return meta
}

// addResults adds the results of one account.
func (r *portfolioRecord) addResults(list []rows.Result) {
	for i := 0; i < len(list); {
		at := slices.IndexFunc(r.Measures, func(m measureTotal) bool { return m.Name == list[i].Measure })
		if at < 0 {
			at = len(r.Measures)
			r.Measures = append(r.Measures, measureTotal{Name: list[i].Measure, Reference: list[i].Reference})
		}
		m, own, years := &r.Measures[at], measureTotal{}, 0.0
		paid, billed := 0.0, false
		for k := i; i < len(list) && list[i].Measure == list[k].Measure; i++ {
			if row := &list[i]; row.WholeYear {
				own.M3 += row.VolumeM3
				own.Requirement += row.RequirementM3
				own.Stress += row.StressZoneDays
				own.Runoff += row.RunoffM3
				if row.Money != nil {
					paid, billed = paid+*row.Money, true
				}
				years++
			}
		}
		if years > 0 {
			m.Accounts++
			m.M3 += own.M3 / years
			m.Requirement += own.Requirement / years
			m.Stress += own.Stress / years
			m.Runoff += own.Runoff / years
			if billed {
				if m.Money == nil {
					m.Money = new(float64)
				}
				*m.Money += paid / years
			}
		}
	}
}

// addAccount adds what was understood of one account.
func (r *portfolioRecord) addAccount(a *rows.Account) {
	switch a.AsFound {
	case rows.FromBills:
		r.AsFound.Bills++
	case rows.Drawn:
		r.AsFound.Drawn++
	default:
		r.AsFound.Given++
	}
	r.imputed += a.ImputedShare
	countCodes(r.Drawn, a.Drawn)
	countCodes(r.Alarms, a.Alarms)
	at := slices.IndexFunc(r.Stations, func(s stationTotal) bool { return s.Name == a.Station })
	if at < 0 {
		at = len(r.Stations)
		r.Stations = append(r.Stations, stationTotal{Name: a.Station})
	}
	s := &r.Stations[at]
	s.Accounts++
	if a.DistanceKM == nil {
		s.Unknown++
		return
	}
	s.km += *a.DistanceKM
	if s.MaxKM == nil || *a.DistanceKM > *s.MaxKM {
		s.MaxKM = a.DistanceKM
	}
}

// addFailures counts accounts without a result by the codes of their errors.
func (r *portfolioRecord) addFailures(list []accountsfile.Failure) {
	last := ""
	seen := map[string]bool{}
	for i := range list {
		if f := &list[i]; f.Account != last || i == 0 || f.Account == "" {
			last = f.Account
			clear(seen)
		}
		if code := string(list[i].Code); !seen[code] {
			seen[code] = true
			r.Reasons[code]++
		}
	}
}

// finish works out means and notes.
func (r *portfolioRecord) finish() {
	if n := r.Accounts.Done; n > 0 {
		r.Imputed = r.imputed / float64(n)
	}
	for i := range r.Measures {
		if m := &r.Measures[i]; m.Accounts > 0 {
			m.Stress /= float64(m.Accounts)
		}
	}
	for i := range r.Stations {
		if s := &r.Stations[i]; s.Accounts > s.Unknown {
			mean := s.km / float64(s.Accounts-s.Unknown)
			s.MeanKM = &mean
		}
	}
	slices.SortFunc(r.Stations, func(a, b stationTotal) int { return b.Accounts - a.Accounts })
	if n := r.AsFound.Drawn; n > 0 {
		r.Notes = append(r.Notes, fmt.Sprintf(
			"As-found run times of %d of %d accounts are drawn from a distribution that is assumed: savings rest on it.", n, r.Accounts.Done))
	}
	if note := r.alarmNote(); note != "" {
		r.Notes = append(r.Notes, note)
	}
	if note := r.moneyNote(); note != "" {
		r.Notes = append(r.Notes, note)
	}
	r.Notes = append(r.Notes,
		fmt.Sprintf("Of the values of an account, %.0f%% on average were not given and come from the program, a donor or the catalog.",
			100*r.Imputed),
		"Results are estimates made before any change; nothing here is measured savings.")
}

// alarmNote counts the accounts to be looked at by the codes of their alarms; empty without any.
func (r *portfolioRecord) alarmNote() string {
	var parts []string
	for _, alarm := range slices.Sorted(maps.Keys(r.Alarms)) {
		parts = append(parts, alarm+" "+quantity.Whole(r.Alarms[alarm]))
	}
	if len(parts) == 0 {
		return ""
	}
	return "Accounts to look at, by alarm (column alarms of " + accountsName + "): " + strings.Join(parts, ", ") + "."
}

// moneyNote says how bills were worked out; empty without rates.
func (r *portfolioRecord) moneyNote() string {
	m := r.Money
	if m == nil {
		return ""
	}
	text := "Bills are what irrigation adds to the bill by the rates " + m.Rates
	if m.Prices != "" {
		text += ", with the prices of " + m.Prices + " in all years"
	}
	if text += "."; m.Meter == bill.Mixed.String() {
		text += fmt.Sprintf(" The use indoors, which lies under it in the tiers, was drawn for %d of %d accounts.",
			r.Drawn[accounts.ColumnIndoor],
			r.Accounts.Done)
	}
	return text
}

func countCodes(to map[string]int, codes string) {
	for code := range splitCodes(codes) {
		to[code]++
	}
}

func splitCodes(codes string) func(yield func(string) bool) {
	return func(yield func(string) bool) {
		for begin, i := 0, 0; i <= len(codes); i++ {
			if i < len(codes) && codes[i] != ';' {
				continue
			}
			if i > begin && !yield(codes[begin:i]) {
				return
			}
			begin = i + 1
		}
	}
}

// alarmLine lists alarms with the number of their accounts, the most frequent first.
func (r *portfolioRecord) alarmLine() string {
	codes := slices.SortedFunc(maps.Keys(r.Alarms), func(a, b string) int { return cmp.Or(r.Alarms[b]-r.Alarms[a], cmp.Compare(a, b)) })
	for i, code := range codes {
		codes[i] = fmt.Sprintf("%s %d", code, r.Alarms[code])
	}
	return strings.Join(codes, ", ")
}

// print prints the summary.
func (r *portfolioRecord) print(s Streams, out string, asJSON bool) error {
	if asJSON {
		return printJSON(s.Out, r)
	}
	fmt.Fprintf(s.Out, "%s: %s\n", r.Program, countsLine(&r.Accounts))
	base := math.NaN()
	for i := range r.Measures {
		if r.Measures[i].Reference {
			base = r.Measures[i].M3
		}
	}
	unit, factor := "m³", 1.0
	if r.Units == quantity.US.String() {
		unit, factor = "kgal", quantity.Convert(1, quantity.Volume, quantity.US)/1000
	}
	g := study.Grid{Head: []string{"measure", "accounts", unit + "\na year", "change", "stress days\na year, mean",
		"runoff\n" + unit + " a year"},
		Columns: make([]study.GridColumn, 6)}
	for i := 1; i < 6; i++ {
		g.Columns[i].Right = true
	}
	volume := func(m3 float64) string { return quantity.Whole(int(math.Round(factor * m3))) }
	billed := slices.ContainsFunc(r.Measures, func(m measureTotal) bool { return m.Money != nil })
	if billed {
		g.Head = append(g.Head, "bill of irrigation\n"+r.Money.Currency+" a year")
		g.Columns = append(g.Columns, study.GridColumn{Right: true})
	}
	for i := range r.Measures {
		m := &r.Measures[i]
		change := "as found"
		if !m.Reference && base > 0 {
			change = fmt.Sprintf("%+.1f%%", 100*(m.M3/base-1))
		}
		g.Rows = append(g.Rows, []string{m.Name, quantity.Whole(m.Accounts), volume(m.M3), change,
			strconv.FormatFloat(m.Stress, 'f', 1, 64), volume(m.Runoff)})
		if billed && m.Money != nil {
			g.Rows[i] = append(g.Rows[i], quantity.Whole(int(math.Round(*m.Money))))
		}
	}
	if len(g.Rows) > 0 {
		fmt.Fprintln(s.Out)
		printGrid(s.Out, &g)
		fmt.Fprintln(s.Out)
	}
	fmt.Fprintf(s.Out, "As-found run times: from bills %d, drawn %d, given %d.\n", r.AsFound.Bills, r.AsFound.Drawn, r.AsFound.Given)
	for i := range r.Stations {
		st := &r.Stations[i]
		line := fmt.Sprintf("Station %s: %s", st.Name, quantity.Count(st.Accounts, "account", "accounts"))
		if st.MeanKM != nil {
			line += fmt.Sprintf(", %.1f km away on average, at most %.1f km", *st.MeanKM, *st.MaxKM)
		}
		if st.Unknown > 0 {
			line += fmt.Sprintf(", distance unknown for %d", st.Unknown)
		}
		fmt.Fprintln(s.Out, line+".")
	}
	if len(r.Alarms) > 0 {
		fmt.Fprintf(s.Out, "Accounts with alarms, by code, in %s: %s.\n", accountsName, r.alarmLine())
	}
	for _, note := range r.Notes {
		fmt.Fprintln(s.Out, note)
	}
	if r.Accounts.Failed > 0 {
		fmt.Fprintf(s.Out, "Accounts without a result are in %s, with place, reason and fix.\n", failedName)
	}
	fmt.Fprintf(s.Out, "Wrote %s\n", out)
	return nil
}
