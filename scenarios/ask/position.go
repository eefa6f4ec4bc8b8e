package ask

import (
	"errors"
	"strings"

	"loamledger/weather/quantity"
)

// signed returns text with each number that has the letter of a side of the globe, as in
// 105 W, written as a number with a sign: south and west are negative.
func signed(text string) string {
	var out strings.Builder
	for text != "" {
		rest := strings.TrimLeft(text, "0123456789.")
		number := text[:len(text)-len(rest)]
		if number == "" {
			out.WriteByte(text[0])
			text = text[1:]
			continue
		}
		side := skipSpace(strings.TrimPrefix(skipSpace(rest), "°"))
		if side == "" || !strings.ContainsRune("nsewNSEW", rune(side[0])) || beginsInWord(side[1:]) {
			out.WriteString(number)
			text = rest
			continue
		}
		if strings.ContainsRune("sSwW", rune(side[0])) {
			out.WriteByte('-')
		}
		out.WriteString(number)
		text = side[1:]
	}
	return out.String()
}

// position reads a latitude, or a latitude and a longitude, in decimal degrees,
// with or without the letters N, S, E and W.
// The longitude is returned as typed, "" without one.
func position(text string) (lat float64, lon string, err error) {
	fields := strings.FieldsFunc(signed(text), func(r rune) bool { return strings.ContainsRune(", ;°", r) })
	if len(fields) == 0 || len(fields) > 2 {
		return 0, "", errors.New("it is not a latitude, or a latitude and a longitude")
	}
	lat, err = quantity.ParseNumber(fields[0])
	if err == nil && !(lat >= -90 && lat <= 90) {
		err = errors.New("the latitude is outside -90 to 90")
	}
	if err != nil || len(fields) == 1 {
		return lat, "", err
	}
	v, err := quantity.ParseNumber(fields[1])
	if err == nil && !(v >= -180 && v <= 180) {
		err = errors.New("the longitude is outside -180 to 180")
	}
	return lat, fields[1], err
}
