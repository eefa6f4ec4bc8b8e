package csvfile

import (
	"errors"
	"strings"

	"loamledger/weather/cal"
)

// A dateForm is a way to write a date in one cell: parts and the text between them.
type dateForm []datePart

// A datePart is a part of a date ('y', 'Y' for two digits of the year, 'm',
// 'd', 'j' day of the year, 'b' month name), or with kind 0 text between parts.
type datePart struct {
	kind  byte
	text  string
	width int // digits to read; 0 means one up to the part's maximum
}

var errDateForm = errors.New("a date needs a year and either month and day or the day of the year")

// parseDateForm reads a form such as MM/DD/YYYY; "" is YYYY-MM-DD.
func parseDateForm(form string) (dateForm, error) {
	if form == "" {
		form = "YYYY-MM-DD"
	}
	tokens := []struct {
		text string
		kind byte
	}{{"YYYY", 'y'}, {"YY", 'Y'}, {"Mon", 'b'}, {"MM", 'm'}, {"M", 'm'}, {"DDD", 'j'}, {"DD", 'd'}, {"D", 'd'}}
	var f dateForm
	var have [256]int
next:
	for form != "" {
		for _, t := range tokens {
			if rest, ok := strings.CutPrefix(form, t.text); ok {
				f = append(f, datePart{kind: t.kind})
				have[t.kind]++
				form = rest
				continue next
			}
		}
		if n := len(f); n > 0 && f[n-1].kind == 0 {
			f[n-1].text += form[:1]
		} else {
			f = append(f, datePart{text: form[:1]})
		}
		form = form[1:]
	}
	years, months := have['y']+have['Y'], have['m']+have['b']
	if years != 1 || !(have['j'] == 1 && months == 0 && have['d'] == 0 || have['j'] == 0 && months == 1 && have['d'] == 1) {
		return nil, errDateForm
	}
	// Without separators, parts have their full width.
	for i := range f {
		touching := i+1 < len(f) && f[i+1].kind != 0 || i > 0 && f[i-1].kind != 0
		switch f[i].kind {
		case 'y':
			f[i].width = 4
		case 'Y':
			f[i].width = 2
		case 'm', 'd':
			if touching {
				f[i].width = 2
			}
		case 'j':
			if touching {
				f[i].width = 3
			}
		}
	}
	return f, nil
}

// read reads a date in this form, optionally followed by midnight.
func (f dateForm) read(b []byte) (cal.Date, bool) {
	year, month, day, doy := 0, 0, 0, 0
	for _, p := range f {
		if p.kind == 0 {
			if len(b) < len(p.text) || string(b[:len(p.text)]) != p.text {
				return 0, false
			}
			b = b[len(p.text):]
			continue
		}
		if p.kind == 'b' {
			m, ok := monthName(b)
			if !ok {
				return 0, false
			}
			month, b = m, b[3:]
			continue
		}
		most := p.width
		if most == 0 {
			most = 2
			if p.kind == 'j' {
				most = 3
			}
		}
		n := 0
		for n < len(b) && n < most && b[n]-'0' <= 9 {
			n++
		}
		v, ok := natural(b[:n])
		if !ok || p.width > 0 && n != p.width {
			return 0, false
		}
		b = b[n:]
		switch p.kind {
		case 'y':
			year = v
		case 'Y':
			year = 1900 + v
			if v < 70 {
				year = 2000 + v
			}
		case 'm':
			month = v
		case 'd':
			day = v
		case 'j':
			doy = v
		}
	}
	if len(b) > 0 && !midnight(b) {
		return 0, false
	}
	if doy > 0 {
		return yearDay(year, doy)
	}
	return ymd(year, month, day)
}
