package cli

import (
	"fmt"
	"slices"

	"loamledger/weather/cal"
	"loamledger/weather/diag"
	"loamledger/weather/quantity"
)

// dayFlag parses the value of a date flag; it returns 0 if text is empty.
func dayFlag(flag, text, example string) (cal.Date, error) {
	if text == "" {
		return 0, nil
	}
	d, err := cal.Parse(text)
	if err != nil {
		return 0, &usageError{diag.BadFlag, fmt.Sprintf("--%s %q is not a valid date", flag, text), "use YYYY-MM-DD, for example " + example}
	}
	return d, nil
}

// systemFlag parses the flag --units for printed values.
func systemFlag(text string) (quantity.System, error) {
	switch text {
	case "us":
		return quantity.US, nil
	case "si":
		return quantity.SI, nil
	}
	return 0, &usageError{diag.UnknownName, fmt.Sprintf("unknown units %q", text), "write us or si"}
}

// checkRound rejects steps of monthly percentages that do not divide 100%.
func checkRound(percent int) error {
	if slices.Contains([]int{1, 2, 5, 10, 20, 25, 50}, percent) {
		return nil
	}
	msg := fmt.Sprintf("--round-percent %d does not divide 100%% evenly", percent)
	return &usageError{diag.BadFlag, msg, "write 1, 2, 5, 10, 20, 25 or 50"}
}
