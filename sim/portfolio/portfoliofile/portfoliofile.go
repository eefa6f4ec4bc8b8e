// Package portfoliofile writes and reads the rows of package portfolio as Parquet,
// for many accounts: nothing is kept in memory beyond one row group.
//
// # Files
//
// results has a row for each account, measure and year, months one for each account,
// measure and month of chosen years, accounts one for each account, bills one for each
// year of metered use that an account states. The metadata of
// each file has its table and version ("loamledger.table", "loamledger.columns") and a
// line for each column with its meaning and unit ("column.<name>").
//
// # Promises
//
// A number that is not finite is refused on writing and on reading: an unknown value
// is null. A file of another version, table or set of columns is an input error.
package portfoliofile

import (
	"fmt"
	"io"
	"maps"
	"math"

	"loamledger/sim/ledgerfile"
	"loamledger/sim/portfolio"
	"loamledger/weather/diag"
)

// The keys of the metadata that say what a file has.
const (
	tableKey   = "loamledger.table"
	versionKey = "loamledger.columns"
)

// The tables.
const (
	resultsTable  = "results"
	monthsTable   = "months"
	accountsTable = "accounts"
	billsTable    = "bills"
)

// groupRows is the number of rows in a row group. Rows are sorted by account, so the
// statistics of a group tell which accounts it has.
const groupRows = 1 << 16

// A Writer writes the rows of one table. It is not safe for concurrent use.
type Writer[T any] struct {
	rows  *ledgerfile.Rows[T]
	check func(*T) error
}

// Write appends rows. It fails if a number is not finite, or the underlying writer
// fails; after a failure of the writer it writes nothing more.
func (w *Writer[T]) Write(rows ...T) error {
	for i := range rows {
		if err := w.check(&rows[i]); err != nil {
			return err
		}
	}
	return w.rows.Write(rows)
}

// Close writes the footer, without which the file cannot be read. It does not close
// the underlying writer.
func (w *Writer[T]) Close() error { return w.rows.Close() }

// NewResults returns a writer of results. meta is added to the metadata of the file,
// for instance "version" of the program, "seed" or "currency".
func NewResults(w io.Writer, meta map[string]string) *Writer[portfolio.Result] {
	return open(w, resultsTable, meta, portfolio.ResultColumns(), checkResult)
}

// NewMonths returns a writer of months; meta is as of [NewResults].
func NewMonths(w io.Writer, meta map[string]string) *Writer[portfolio.Month] {
	return open(w, monthsTable, meta, portfolio.MonthColumns(), checkMonth)
}

// NewAccounts returns a writer of accounts; meta is as of [NewResults].
func NewAccounts(w io.Writer, meta map[string]string) *Writer[portfolio.Account] {
	return open(w, accountsTable, meta, portfolio.AccountColumns(), checkAccount)
}

// NewBills returns a writer of bills; meta is as of [NewResults].
func NewBills(w io.Writer, meta map[string]string) *Writer[portfolio.Bill] {
	return open(w, billsTable, meta, portfolio.BillColumns(), checkBill)
}

func open[T any](w io.Writer, table string, meta map[string]string, columns []portfolio.Column, check func(*T) error) *Writer[T] {
	all := map[string]string{tableKey: table, versionKey: portfolio.Version}
	maps.Copy(all, meta)
	about := make([]ledgerfile.Column, len(columns))
	for i, c := range columns {
		about[i] = ledgerfile.Column{Key: c.Key, Unit: c.Unit, About: c.About}
	}
	return &Writer[T]{ledgerfile.NewRows[T](w, all, about, groupRows), check}
}

// ReadResults calls take for each result in r, a file of size bytes, in its order; the
// row is valid during the call only. name is the file name for messages. It returns
// the metadata of the file. An error of take is returned as it is; any other is a
// [*diag.Error].
func ReadResults(r io.ReaderAt, size int64, name string, take func(*portfolio.Result) error) (map[string]string, error) {
	return read(r, size, name, resultsTable, checkResult, take)
}

// ReadMonths reads months as [ReadResults] reads results.
func ReadMonths(r io.ReaderAt, size int64, name string, take func(*portfolio.Month) error) (map[string]string, error) {
	return read(r, size, name, monthsTable, checkMonth, take)
}

// ReadAccounts reads accounts as [ReadResults] reads results.
func ReadAccounts(r io.ReaderAt, size int64, name string, take func(*portfolio.Account) error) (map[string]string, error) {
	return read(r, size, name, accountsTable, checkAccount, take)
}

// ReadBills reads bills as [ReadResults] reads results.
func ReadBills(r io.ReaderAt, size int64, name string, take func(*portfolio.Bill) error) (map[string]string, error) {
	return read(r, size, name, billsTable, checkBill, take)
}

// taken is an error of the caller's function, passed on as it is.
type taken struct{ err error }

func (t *taken) Error() string { return t.err.Error() }

func read[T any](r io.ReaderAt, size int64, name, table string, check, take func(*T) error) (meta map[string]string, err error) {
	fault := func(code diag.Code, fix, format string, args ...any) error {
		return &diag.Error{Code: code, Pos: diag.Pos{File: name}, Msg: fmt.Sprintf(format, args...), Fix: fix}
	}
	begin := func(m map[string]string) error {
		meta = m
		switch {
		case m[tableKey] != table:
			return fault(diag.WrongShape, "name a file that loamledger portfolio wrote", "this is not a file of %s", table)
		case m[versionKey] != portfolio.Version:
			return fault(diag.OtherVersion, "replay the accounts again with this version of loamledger",
				"the columns have version %q; this loamledger reads version %s", m[versionKey], portfolio.Version)
		}
		return nil
	}
	err = ledgerfile.EachRow(r, size, begin, func(row *T) error {
		if err := check(row); err != nil {
			return fault(diag.DamagedFile, "replay the accounts again", "%v", err)
		}
		if err := take(row); err != nil {
			return &taken{err}
		}
		return nil
	})
	switch e := err.(type) {
	case nil, *diag.Error:
		return meta, err
	case *taken:
		return meta, e.err
	}
	return meta, fault(diag.DamagedFile, "name a file that loamledger portfolio wrote, or replay the accounts again", "%v", err)
}

// A number is a value with the name of its column.
type number struct {
	key string
	v   float64
}

// finite returns an error for the first number that is not finite.
func finite(account string, list ...number) error {
	for _, n := range list {
		if math.IsNaN(n.v) || math.IsInf(n.v, 0) {
			return fmt.Errorf("account %q: %s is %g, not a finite number", account, n.key, n.v)
		}
	}
	return nil
}

// optional returns the number at p, 0 for none.
func optional(p *float64) float64 {
	if p == nil {
		return 0
	}
	return *p
}

func checkResult(r *portfolio.Result) error {
	if r.Account == "" || r.Measure == "" {
		return fmt.Errorf("account %q, measure %q: a name is empty", r.Account, r.Measure)
	}
	return finite(r.Account, number{"area_m2", r.AreaM2}, number{"volume_m3", r.VolumeM3}, number{"requirement_m3", r.RequirementM3},
		number{"application_ratio", optional(r.ApplicationRatio)}, number{"stress_zone_days", r.StressZoneDays},
		number{"stress_quarter_days", r.StressQuarterDays}, number{"browning_days", r.BrowningDays},
		number{"worst_stress_days", r.WorstStressDays}, number{"runoff_m3", r.RunoffM3}, number{"runoff_events", r.RunoffEvents},
		number{"percolation_m3", r.PercolationM3}, number{"peak_month_m3", r.PeakMonthM3}, number{"peak_day_m3", r.PeakDayM3},
		number{"money", optional(r.Money)}, number{"money_saving", optional(r.MoneySaving)})
}

func checkMonth(m *portfolio.Month) error {
	if m.Month < 1 || m.Month > 12 {
		return fmt.Errorf("account %q: month is %d", m.Account, m.Month)
	}
	return finite(m.Account, number{"volume_m3", m.VolumeM3}, number{"requirement_m3", m.RequirementM3})
}

func checkAccount(a *portfolio.Account) error {
	if a.ID == "" {
		return fmt.Errorf("an account has no id")
	}
	return finite(a.ID, number{"distance_km", optional(a.DistanceKM)}, number{"elevation_difference_m", optional(a.ElevDiffM)},
		number{"area_m2", a.AreaM2}, number{"as_found_scale", a.AsFoundScale}, number{"imputed_share", a.ImputedShare},
		number{"rain_mm", optional(a.RainMM)}, number{"eto_mm", optional(a.EToMM)}, number{"indoor_l_per_day", optional(a.IndoorLDay)},
		number{"indoor_money", optional(a.IndoorMoney)})
}

func checkBill(b *portfolio.Bill) error {
	if b.Account == "" {
		return fmt.Errorf("a bill has no account")
	}
	if (b.From == nil) != (b.To == nil) || b.From != nil && *b.From > *b.To {
		return fmt.Errorf("account %q: the days of its use are not a period", b.Account)
	}
	return finite(b.Account, number{"volume_m3", b.VolumeM3})
}
