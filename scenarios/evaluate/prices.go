package evaluate

import (
	"fmt"

	"loamledger/plots"
	"loamledger/sim/portfolio"
	"loamledger/weather/diag"
)

// A priceSource is where the participant and the rate impact test have the money from that participants pay for water.
type priceSource string

// The sources.
const (
	pricesOfBills priceSource = "bills"  // of each account, by rates
	onePrice      priceSource = "retail" // one price for all, of the costs file
	noPrice       priceSource = "none"
)

// prices returns the source.
func (e *Evaluation) prices() priceSource {
	switch {
	case e.Input.Table.HasMoney:
		return pricesOfBills
	case e.Plan.HasRetail:
		return onePrice
	}
	return noPrice
}

// priceWords says what the tests rest on that need to know what participants pay: it stands wherever they are shown.
func (e *Evaluation) priceWords() string {
	switch e.prices() {
	case pricesOfBills:
		text := "The participant and rate impact tests use what each account’s bill changes by"
		if name := e.Input.Meta[portfolio.MetaRates]; name != "" {
			text += ", by the rates “" + name + "”"
		}
		if day := e.Input.Meta[portfolio.MetaPrices]; day != "" {
			text += " with the prices of " + day
		}
		if e.Plan.HasRetail {
			text += "; retail of the costs file is not used"
		}
		return text + "."
	case onePrice:
		return "The participant and rate impact tests use one price of water for all accounts, retail of the costs file: the results have no " +
			"bills."
	}
	return "The participant and rate impact tests are not known: the results have no bills, and the costs file has no retail."
}

// sameCurrency refuses bills in another currency than the costs.
func (e *Evaluation) sameCurrency() error {
	own := e.Input.Meta[portfolio.MetaCurrency]
	if own == "" || own == e.Plan.Currency || !e.Input.Table.HasMoney {
		return nil
	}
	return &diag.Error{Code: diag.Conflict, Pos: e.Plan.CurrencyPos, Msg: fmt.Sprintf("the bills of the results are in %s, the costs in "+
		"%s", own, e.Plan.Currency),
		Fix: "write the costs in the currency of the rates: nothing is converted"}
}

// billTable has what the measures do to the bills of accounts; without rows if the results have no bills.
func (e *Evaluation) billTable() plots.Table {
	money := e.Plan.Currency + "/yr"
	t := plots.Table{
		Caption: "What a measure takes off the bill of an account, whole bills compared; below 0 the bill rises. As found is what irrigation " +
			"adds " +
			"to the bill.",
		First: "Measure",
		Head:  []string{"as found (" + money + ")", "mean saving (" + money + ")", "P10", "median", "P90", "bill falls", "stays", "rises"},
	}
	if !e.Input.Table.HasMoney {
		return t
	}
	for i := range e.Measures {
		b := &e.Measures[i].bills
		t.Rows = append(t.Rows, plots.TableRow{Name: e.Measures[i].name, Cells: []string{plots.Fixed(b.Reference, 0), plots.Fixed(b.Mean, 2),
			plots.Fixed(b.P10, 2),
			plots.Fixed(b.Median, 2), plots.Fixed(b.P90, 2), percent(b.Falls), percent(b.Stays), percent(b.Rises)}})
	}
	return t
}
