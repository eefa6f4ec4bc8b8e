package ask

import (
	"fmt"
	"strings"

	"loamledger/scenarios"
	"loamledger/sim/money"
	"loamledger/weather/diag"
	"loamledger/weather/quantity"
)

// currencies are the codes of the signs that are read.
var currencies = map[string]string{"$": "USD", "dollar": "USD", "dollars": "USD",
	"€": "EUR", "euro": "EUR", "euros": "EUR", "£": "GBP"}

// price reads a price of water: its currency, the number and the unit of volume.
func price(text string) (currency, number, unit string, err error) {
	before, number, after, unit, ok := cutPrice(strings.TrimSpace(text))
	if !ok {
		return "", "", "", fmt.Errorf("it is not a price of a volume")
	}
	sign := before
	if sign == "" {
		sign = after
	} else if after != "" {
		return "", "", "", fmt.Errorf("it names a currency twice")
	}
	currency = strings.ToUpper(sign)
	if code, ok := currencies[strings.ToLower(sign)]; ok {
		currency = code
	}
	if currency == "" {
		return "", "", "", fmt.Errorf("it has no currency")
	}
	unit = strings.TrimSpace(unit)
	switch key := strings.ToLower(strings.NewReplacer(",", "", ".", "", " ", "").Replace(unit)); key {
	case "1000gal", "1000gallons", "thousandgallons", "1kgal":
		unit = "kgal"
	case "100cubicfeet", "100ft3", "100cf", "hundredcubicfeet", "100cuft":
		unit = "HCF"
	case "cubicmeter", "cubicmetre", "m³":
		unit = "m3"
	}
	if u, ok := quantity.Find(unit, quantity.Volume); ok {
		return currency, number, u.Name, nil
	}
	return "", "", "", fmt.Errorf("%q is not a unit of volume; units: %s", unit, quantity.Names(quantity.Volume))
}

// cutPrice takes a price apart: money before or after the number, and the volume it is
// for, after a slash, "per" or "a".
func cutPrice(text string) (before, number, after, unit string, ok bool) {
	for _, before := range moneyAt(text) {
		rest := skipSpace(text[len(before):])
		number := rest[:len(rest)-len(skipDigits(rest))]
		if number == "" {
			continue
		}
		rest = skipDigits(rest)
		if places, is := strings.CutPrefix(rest, "."); is && skipDigits(places) != places {
			number += "." + places[:len(places)-len(skipDigits(places))]
			rest = skipDigits(places)
		}
		tail := skipSpace(rest)
		for _, after := range moneyAt(tail) {
			unit := skipSpace(tail[len(after):])
			glued := len(unit) == len(tail[len(after):]) && (after != "" && beginsInWord(after[len(after)-1:]) ||
				after == "" && len(tail) == len(rest)) // to the word before it
			switch {
			case strings.HasPrefix(unit, "/"):
				unit = unit[1:]
			case !glued && hasWord(unit, "per"):
				unit = unit[len("per"):]
			case !glued && hasWord(unit, "a"):
				unit = unit[len("a"):]
			default:
				continue
			}
			if unit = skipSpace(unit); unit != "" && !strings.Contains(unit, "\n") {
				return before, number, after, unit, true
			}
		}
	}
	return "", "", "", "", false
}

// moneyAt lists what money may be at the begin of a text, no money last: a sign, three
// letters of a code, or a word.
func moneyAt(text string) (out []string) {
	for _, sign := range []string{"$", "€", "£"} {
		if strings.HasPrefix(text, sign) {
			out = append(out, sign)
		}
	}
	if len(text) >= 3 && strings.Trim(strings.ToLower(text[:3]), "abcdefghijklmnopqrstuvwxyz") == "" {
		out = append(out, text[:3])
	}
	for _, word := range []string{"dollars", "dollar", "euros", "euro"} {
		if len(text) >= len(word) && strings.EqualFold(text[:len(word)], word) {
			out = append(out, text[:len(word)])
		}
	}
	return append(out, "")
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
