package cli

import (
	"errors"
	"io"

	"loamledger/scenarios/accounts"
	"loamledger/scenarios/accountsfile"
	rows "loamledger/sim/portfolio"
	"loamledger/sim/portfolio/portfoliofile"
)

// The files of a shard and of the joined output.
const (
	resultsName  = "results.parquet"
	monthsName   = "months.parquet"
	accountsName = "accounts.parquet"
	billsName    = "bills.parquet"
	failedName   = "failed.csv"
	excludedName = "excluded.csv"
)

// shardFiles lists them.
func shardFiles() []string {
	return []string{accountsName, billsName, excludedName, failedName, monthsName, resultsName}
}

// A tables writes the rows of accounts, one account at a time in the order of IDs: its bytes
// depend on the accounts alone.
type tables struct {
	results  *portfoliofile.Writer[rows.Result]
	months   *portfoliofile.Writer[rows.Month]
	accounts *portfoliofile.Writer[rows.Account]
	bills    *portfoliofile.Writer[rows.Bill]
	failed   []accountsfile.Failure
	excluded []accountsfile.Failure
	create   func(name string) (io.WriteCloser, error)
	closers  []func() error
}

// newTables creates the files of the four tables.
func newTables(create func(name string) (io.WriteCloser, error), meta map[string]string) (*tables, error) {
	t := &tables{create: create}
	files := make([]io.WriteCloser, 4)
	for i, name := range []string{resultsName, monthsName, accountsName, billsName} {
		f, err := create(name)
		if err != nil {
			return nil, errors.Join(err, closeAll(t.closers))
		}
		files[i] = f
		t.closers = append(t.closers, f.Close)
	}
	t.results, t.months = portfoliofile.NewResults(files[0], meta), portfoliofile.NewMonths(files[1], meta)
	t.accounts, t.bills = portfoliofile.NewAccounts(files[2], meta), portfoliofile.NewBills(files[3], meta)
	return t, nil
}

// put writes the rows of one account.
func (t *tables) put(r *accounts.Rows) error {
	if err := t.results.Write(r.Results...); err != nil {
		return err
	}
	if err := t.months.Write(r.Months...); err != nil {
		return err
	}
	if err := t.bills.Write(r.Bills...); err != nil {
		return err
	}
	return t.accounts.Write(r.Account)
}

// close writes the ends of all files, and the lists of accounts without a result.
func (t *tables) close() error {
	err := errors.Join(t.results.Close(), t.months.Close(), t.accounts.Close(), t.bills.Close(), closeAll(t.closers))
	t.closers = nil
	for _, list := range []struct {
		name string
		of   []accountsfile.Failure
	}{{failedName, t.failed}, {excludedName, t.excluded}} {
		if err != nil {
			return err
		}
		accountsfile.SortFailures(list.of)
		var f io.WriteCloser
		if f, err = t.create(list.name); err != nil {
			return err
		}
		err = errors.Join(accountsfile.WriteFailures(f, list.of), f.Close())
	}
	return err
}

// abandon closes the files of a run that has failed.
func (t *tables) abandon() { _ = closeAll(t.closers) } // the first error is the one to report
