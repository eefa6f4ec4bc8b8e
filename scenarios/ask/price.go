package ask

import (
	"fmt"
	"regexp"
	"strings"

	"loamledger/scenarios"
	"loamledger/sim/money"
	"loamledger/weather/diag"
	"loamledger/weather/quantity"
)

// priceText is a price: money before or after the number, and the volume it is for.
var priceText = regexp.MustCompile(`^(?i)([$€£]|[a-z]{3}|dollars|euros)?\s*([0-9]+(?:\.[0-9]+)?)\s*` +
	`([$€£]|[a-z]{3}|dollars?|euros?)?\s*(?:/|\bper\b|\ba\b)\s*(.+)$`)

// currencies are the codes of the signs that are read.
var currencies = map[string]string{"$": "USD", "dollar": "USD", "dollars": "USD",
	"€": "EUR", "euro": "EUR", "euros": "EUR", "£": "GBP"}

// price reads a price of water: its currency, the number and the unit of volume.
func price(text string) (currency, number, unit string, err error) {
	m := priceText.FindStringSubmatch(strings.TrimSpace(text))
	if m == nil {
		return "", "", "", fmt.Errorf("it is not a price of a volume")
	}
	sign := m[1]
	if sign == "" {
		sign = m[3]
	} else if m[3] != "" {
		return "", "", "", fmt.Errorf("it names a currency twice")
	}
	currency = strings.ToUpper(sign)
	if code, ok := currencies[strings.ToLower(sign)]; ok {
		currency = code
	}
	if currency == "" {
		return "", "", "", fmt.Errorf("it has no currency")
	}
	unit = strings.TrimSpace(m[4])
	switch key := strings.ToLower(strings.NewReplacer(",", "", ".", "", " ", "").Replace(unit)); key {
	case "1000gal", "1000gallons", "thousandgallons", "1kgal":
		unit = "kgal"
	case "100cubicfeet", "100ft3", "100cf", "hundredcubicfeet", "100cuft":
		unit = "HCF"
	case "cubicmeter", "cubicmetre", "m³":
		unit = "m3"
	}
	if u, ok := quantity.Find(unit, quantity.Volume); ok {
		return currency, m[2], u.Name, nil
	}
	return "", "", "", fmt.Errorf("%q is not a unit of volume; units: %s", unit, quantity.Names(quantity.Volume))
}

// money adds the rates, if a price or a file is known.
func (w *writer) money(root *scenarios.Node) {
	g := group()
	at := once("price", "price")
	text := strings.TrimSpace(w.a.Answer(at))
	if text == "" {
		at = once("price", "rates")
		if file := strings.TrimSpace(w.a.Answer(at)); file != "" {
			w.printableName(at, file)
			w.put(g, "rates", w.text(at, file))
			w.files = append(w.files, NamedFile{Name: file, Kind: Rates})
			w.put(root, "money", g, "What water costs.")
		}
		return
	}
	currency, number, unit, err := price(text)
	if err == nil {
		var n money.Num
		if n, err = money.Parse(number); err == nil && n.Sign() <= 0 {
			err = fmt.Errorf("the price is not above 0")
		}
	}
	if err != nil {
		w.fault(at, diag.BadQuantity, "write money, a number and the volume, such as $6.50 per kgal, $4.10 per CCF or EUR 3.20 per m3",
			"%q: %v", text, err)
		return
	}
	if !strings.Contains(strings.ToUpper(text), currency) && currency == "USD" {
		w.note(at, Default{Text: "USD", Source: "dollars are read as US dollars; " + ours, Grade: guessGrade})
	}
	name := w.base() + "-rates.yaml"
	w.files = append(w.files, NamedFile{Name: name, Kind: Rates, Text: fmt.Appendf(nil, ratesText, currency, unit, number)})
	w.put(g, "rates", w.text(at, name))
	w.put(root, "money", g, "What water costs: "+text)
}

// ratesText is a file of rates with one price.
const ratesText = `# One price for all water, from an answer. A bill has more: fixed charges, steps of price, sewer.
# They matter for the size of a bill; for what water saves, the price of the last unit does.
# "loamledger bill --help" describes this file.
name: One price
currency: %s
unit: %s
charges:
  - {name: water, part: water, price: %s}
account: {meters: [{use: irrigation}]}    # with one price, what the house uses changes nothing
`
