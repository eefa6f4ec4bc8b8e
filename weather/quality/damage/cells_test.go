package damage

import (
	"math/rand/v2"
	"strings"

	"loamledger/weather"
)

// Damages of cells.

// cellColumn is the column whose cells are damaged: Tmax, or rain if the layout
// has only that.
func cellColumn(f *file) weather.Column {
	if f.l.has([]weather.Column{weather.Tmax}) {
		return weather.Tmax
	}
	return weather.Rain
}

// inCell replaces a number.
func inCell(by func(was string) string) texts {
	return func(rng *rand.Rand, f *file) (string, place, bool) {
		i := f.some(rng)
		from, to := f.cell(i, cellColumn(f))
		return f.with(from, to, by(f.text[from:to])), f.line(from, i), true
	}
}

func cellIs(text string) texts { return inCell(func(string) string { return text }) }

// inDate replaces the digits of a date that change from day to day.
func inDate(by func(digits string) string) texts {
	return func(rng *rand.Rand, f *file) (string, place, bool) {
		if f.starts == nil {
			return "", place{}, false
		}
		i := f.some(rng)
		_, _, from, to := f.date(i)
		return f.with(from, to, by(f.text[from:to])), f.line(from, i), true
	}
}

// cellFaults lists them.
func cellFaults(add func(string, texts, ...weather.Code)) {
	add("a letter in a number", inCell(func(w string) string { return w[:len(w)-1] + "O" }))
	add("a unit in a number", inCell(func(w string) string { return w + "C" }))
	add("#REF! instead of a number", cellIs("#REF!"))
	add("a word instead of a number", cellIs("error"))
	add("two decimal points", cellIs("1.2.3"))
	add("a decimal comma", cellIs("12,3"))
	add("a sign twice", cellIs("--5"))
	add("a typographic minus sign", cellIs("−5"))
	add("digits of another script", cellIs("１２"))
	add("a number in hexadecimal", cellIs("0x1F"))
	add("infinity", cellIs("inf"))
	add("a control character in a number", inCell(func(w string) string { return w[:1] + "\x07" + w[1:] }))
	absurd := []weather.Code{weather.CodePastLimits, weather.CodeOddCell, weather.CodeMissingHours}
	add("a number of 400 digits", cellIs(strings.Repeat("9", 400)), absurd...)
	add("an exponent slipped into a number", cellIs("1e9"), absurd...)
	add("a missing-value code of another archive", cellIs("-8888"), absurd...)
	add("an emptied cell", inCell(func(w string) string { return strings.Repeat(" ", len(w)) }), weather.CodeMissingValues,
		weather.CodePartialDay)
	add("a zero byte", inCell(func(w string) string { return w[:1] + "\x00" + w[1:] }))
	add("a day that does not exist", inDate(func(d string) string {
		if len(d) <= 3 {
			return strings.Repeat("9", max(2, len(d)))
		}
		return d[:len(d)-2] + "99"
	}))
	add("a date in words", inDate(func(string) string { return "yesterday" }))
	add("a date with a letter", inDate(func(d string) string { return d[:len(d)-1] + "l" }))
	add("a date without its last digit", inDate(func(d string) string { return d[:len(d)-1] }), weather.CodeMissingDays)
	add("a date one day late", func(rng *rand.Rand, f *file) (string, place, bool) {
		i := f.some(rng)
		if f.starts == nil {
			return "", place{}, false
		}
		d := f.days[i]
		d.date++
		at := f.at(i)
		at.to = f.at(i + 1).to
		at.last++
		return f.with(f.starts[i], f.starts[i+1], f.l.row(d)), at, true
	}, weather.CodeMissingDays)
}
