package ask

import (
	"errors"
	"regexp"
	"strings"

	"loamledger/weather/quantity"
)

// sided is a number with the letter of a side of the globe.
var sided = regexp.MustCompile(`(?i)([0-9.]+)\s*°?\s*([nsew])\b`)

// signed writes a number with a side as one with a sign: south and west are negative.
func signed(text string) string {
	m := sided.FindStringSubmatch(text)
	if strings.ContainsAny(m[2], "sSwW") {
		return "-" + m[1]
	}
	return m[1]
}

// position reads a latitude, or a latitude and a longitude, in decimal degrees,
// with or without the letters N, S, E and W.
// The longitude is returned as typed, "" without one.
func position(text string) (lat float64, lon string, err error) {
	text = sided.ReplaceAllStringFunc(text, signed)
	fields := strings.FieldsFunc(text, func(r rune) bool { return strings.ContainsRune(", ;°", r) })
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
