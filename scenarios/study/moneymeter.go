package study

import (
	"fmt"
	"strings"

	"loamledger/scenarios"
	"loamledger/sim/bill"
	"loamledger/weather/diag"
)

// moneyError is an error at a place in the scenario.
func moneyError(code diag.Code, pos diag.Pos, fix, format string, args ...any) error {
	return &diag.Error{Code: code, Pos: pos, Msg: fmt.Sprintf(format, args...), Fix: fix}
}

// AccountMeters returns the meters of the account in the rates that the meters of
// the scenario are, in their order: those of the same names. The only meter of a site
// is the account's only one, or the one that money: meter names. An error is a
// [*diag.Error] at the place in the scenario.
func (l *Study) AccountMeters(rates *bill.Rates) ([]bill.Meter, error) {
	var known []string
	for _, m := range rates.Account.Meters {
		known = append(known, m.Name)
	}
	own := l.Scenario.Money
	list := l.Scenario.Meters
	if len(list) > 1 && own.Meter != "" {
		return nil, moneyError(diag.Conflict, own.MeterPos, "remove it; each meter of the scenario is the one of its name in the rates",
			"money: meter names one, and the site has %d meters", len(list))
	}
	var out []bill.Meter
	for i := range list {
		meter := &list[i]
		m, err := l.accountMeter(rates, meter, known)
		if err != nil {
			return nil, err
		}
		name := "the meter"
		if m.Name != "" {
			name = fmt.Sprintf("meter %q", m.Name)
		}
		pos := meter.Pos
		if meter.Name == "" {
			pos = own.Pos
		}
		switch {
		case m.Use == bill.DeductUse:
			return nil, moneyError(diag.Conflict, pos, "name the meter that is billed", "money: %s is a deduct meter, which has no bill", name)
		case meter.Serves == scenarios.ServesIrrigation && m.Use == bill.Mixed:
			return nil, moneyError(diag.Conflict, pos, "write use: irrigation to the meter in the rates, or serves: mixed here",
				"%s serves irrigation, but is mixed in the rates", name)
		case meter.Serves == scenarios.ServesMixed && m.Use == bill.Irrigation:
			return nil, moneyError(diag.Conflict, pos, "write use: mixed to the meter in the rates, or serves: irrigation here",
				"%s is mixed, but serves irrigation in the rates", name)
		case m.Use == bill.Mixed && rates.Account.IndoorOf(m).Sign() == 0:
			return nil, moneyError(diag.MissingKey, own.Pos, "add account: {indoor: 150 gal}, the use indoors a day, to the rates; "+
				"or use: irrigation to the meter",
				"money: %s also serves the house, and how much is not given; the price of water outdoors depends on it", name)
		}
		out = append(out, m)
	}
	return out, nil
}

// accountMeter finds the meter of the account that a meter of the scenario is.
func (l *Study) accountMeter(rates *bill.Rates, meter *scenarios.Meter, known []string) (bill.Meter, error) {
	own := l.Scenario.Money
	all := strings.Join(known, ", ")
	for _, m := range rates.Account.Meters {
		if m.Name != "" && m.Name == meter.Name && own.Meter == "" {
			return m, nil
		}
	}
	if len(l.Scenario.Meters) > 1 {
		return bill.Meter{}, moneyError(diag.UnknownName, meter.Pos, "give both the same name; meters of the account: "+all,
			"money: the account in the rates has no meter %q", meter.Name)
	}
	m, ok := rates.Account.Meter(own.Meter)
	switch {
	case ok:
		return m, nil
	case own.Meter == "":
		return m, moneyError(diag.MissingKey, own.Pos, "add meter, through which the site is watered: "+all,
			"money: the account in the rates has %d meters", len(known))
	}
	return m, moneyError(diag.UnknownName, own.MeterPos, "write one of: "+all, "money: the account in the rates has no meter %q", own.Meter)
}

// apart returns the meters of the account that are not meters of the site.
func (m *siteMoney) apart() (out []string) {
	for _, a := range m.rates.Account.Meters {
		here := false
		for i := range m.meters {
			here = here || m.meters[i].Name == a.Name
		}
		if !here {
			out = append(out, a.Name)
		}
	}
	return out
}

// names lists the meters.
func (m *siteMoney) names() (out []string) {
	for i := range m.meters {
		if m.meters[i].Name != "" {
			out = append(out, m.meters[i].Name)
		}
	}
	return out
}

// read reports whether a meter has real read dates.
func (m *siteMoney) read() bool {
	for i := range m.meters {
		if len(m.meters[i].real) > 0 {
			return true
		}
	}
	return false
}

// mixed reports whether a meter also serves a house.
func (m *siteMoney) mixed() bool {
	for i := range m.meters {
		if m.meters[i].Use == bill.Mixed {
			return true
		}
	}
	return false
}
