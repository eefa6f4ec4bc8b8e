package cli

import (
	"bufio"
	"errors"
	"os"
	"path/filepath"
	"strings"

	"loamledger/scenarios"
	"loamledger/scenarios/accounts"
	"loamledger/scenarios/accountsfile"
	"loamledger/scenarios/ratesfile"
	"loamledger/scenarios/study"
	"loamledger/sim/bill"
)

// A portfolio is a program with the weather of its stations, and a table of accounts.
type portfolio struct {
	inputs
	options *portfolioOptions
	program *accounts.Program
	sites   []accounts.Site
	table   string      // name of the file of accounts
	count   int         // accounts in it
	rates   *bill.Rates // nil if water has no price
	work    accountsfile.Work
}

// loadPortfolio reads the program, its weather and its donors, and counts the accounts.
func loadPortfolio(table string, o *portfolioOptions) (*portfolio, error) {
	p := &portfolio{options: o, table: table}
	p.fence = fenceOf(o.Program, &o.scenarioFlags, &forecastFlags{})
	if err := p.readProgram(); err != nil {
		return nil, err
	}
	if err := p.readDonors(); err != nil {
		return nil, err
	}
	if err := p.readRates(); err != nil {
		return nil, err
	}
	if err := p.readStations(); err != nil {
		return nil, err
	}
	if err := p.countAccounts(); err != nil {
		return nil, err
	}
	p.work = accountsfile.Work{Program: Version, Name: p.program.Name, Seed: p.program.Seed,
		Units: p.sites[0].Scenario.Units.String(), AllMonths: o.AllMonths}
	if p.rates != nil {
		use, day := p.sites[0].Billing()
		p.work.Money = &accountsfile.MoneyWork{Rates: p.rates.Name, Currency: p.rates.Currency, Prices: day, Meter: use.String()}
	}
	for _, f := range p.read {
		p.work.Inputs = append(p.work.Inputs, accountsfile.Input{Name: filepath.Base(f.Name), SHA256: f.SHA256, Bytes: f.Bytes})
	}
	return p, nil
}

func (p *portfolio) readProgram() error {
	f, err := p.open(p.options.Program)
	if err != nil {
		return err
	}
	defer f.Close()
	if p.program, err = accountsfile.ReadProgram(f, p.options.Program); err != nil {
		return err
	}
	for i := range p.program.Stations { // as the flag accepts findings, so do all accounts
		st := &p.program.Stations[i]
		p.options.put(&scenarios.Node{Kind: scenarios.Map, Entries: []scenarios.Entry{{Key: "weather", Value: st.Weather}}})
	}
	return nil
}

func (p *portfolio) readDonors() error {
	file := p.program.DonorFile
	if file == nil {
		return nil
	}
	name := beside(p.options.Program, file.Name)
	f, err := p.openAt(name, file.Pos)
	if err != nil {
		return err
	}
	defer f.Close()
	p.program.Donors, err = accountsfile.ReadDonors(accountsfile.CSV(f, name), name)
	return err
}

// readStations builds the program for each station and prepares the weather, once.
func (p *portfolio) readStations() error {
	var errs []error
	for i := range p.program.Stations {
		sc, err := scenarios.Build(p.program.StationTree(i), p.options.Program)
		if err != nil { // the rest would have the same errors
			return err
		}
		p.program.Prepare(sc)
		site, err := p.site(sc)
		if err != nil {
			errs = append(errs, err)
			continue
		}
		p.sites = append(p.sites, site)
	}
	return errors.Join(errs...)
}

// readRates reads the rates of the program.
func (p *portfolio) readRates() error {
	m := p.program.Money
	if m == nil {
		return nil
	}
	name := beside(p.options.Program, m.Rates.Name)
	f, err := p.openAt(name, m.Rates.Pos)
	if err != nil {
		return err
	}
	defer f.Close()
	p.rates, err = ratesfile.Read(f, name)
	return err
}

// site prepares the weather of a station.
func (p *portfolio) site(sc *scenarios.Scenario) (accounts.Site, error) {
	records, err := p.files(p.options.Program).Records(sc)
	if err != nil {
		return accounts.Site{}, err
	}
	ready, err := study.Prepare(sc, records)
	if err != nil {
		return accounts.Site{}, err
	}
	forecasts, err := study.Announce(sc, ready, nil)
	if err != nil {
		return accounts.Site{}, err
	}
	return accounts.NewSite(p.program, sc, ready, forecasts, p.rates)
}

// countAccounts hashes and counts the accounts, and finds errors in the heading.
func (p *portfolio) countAccounts() error {
	f, err := p.open(p.table) // hashed as it is read
	if err != nil {
		return err
	}
	if parquetFile(p.table) {
		if err := f.Close(); err != nil {
			return err
		}
		return p.eachAccount(func(string) bool { p.count++; return true }, nil)
	}
	r, err := accountsfile.NewReader(accountsfile.CSV(f, p.table), p.table)
	if err == nil {
		_, _, err = r.Next(func(string) bool { p.count++; return true })
	}
	return errors.Join(err, f.Close())
}

func parquetFile(name string) bool { return strings.EqualFold(filepath.Ext(name), ".parquet") }

// eachAccount reads the accounts that skip does not leave out, with what is wrong with each.
func (p *portfolio) eachAccount(skip accountsfile.Skip, take func(a *accounts.Account, faults error) error) error {
	f, err := os.Open(p.table)
	if err != nil {
		return openError(p.table, err)
	}
	defer f.Close()
	rows := accountsfile.CSV(bufio.NewReaderSize(f, 1<<18), p.table)
	if parquetFile(p.table) {
		info, err := f.Stat()
		if err != nil {
			return openError(p.table, err)
		}
		if rows, err = accountsfile.Parquet(f, info.Size(), p.table); err != nil {
			return err
		}
	}
	r, err := accountsfile.NewReader(rows, p.table)
	if err != nil {
		return err
	}
	for {
		a, faults, err := r.Next(skip)
		if err != nil {
			return err
		}
		if a == nil {
			return nil
		}
		if err := take(a, faults); err != nil {
			return err
		}
	}
}
