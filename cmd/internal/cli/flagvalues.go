package cli

import (
	"fmt"
	"slices"

	"loamledger/weather/cal"
	"loamledger/weather/diag"
	"loamledger/weather/quantity"
)

// dayFlag reads a flag that is a date, 0 where it is not given.
func dayFlag(flag, text, example string) (cal.Date, error) {
	if text == "" {
		return 0, nil
	}
	d, err := cal.Parse(text)
	if err != nil {
		return 0, &usageError{diag.BadFlag, fmt.Sprintf("--%s %q is not a calendar day", flag, text), "write it as " + example}
	}
	return d, nil
}

// systemFlag reads the flag --units of what is printed.
func systemFlag(text string) (quantity.System, error) {
	switch text {
	case "us":
		return quantity.US, nil
	case "si":
		return quantity.SI, nil
	}
	return 0, &usageError{diag.UnknownName, fmt.Sprintf("--units %q is not known", text), "write us or si"}
}

// checkRound refuses steps of monthly percentages that do not come out even.
func checkRound(percent int) error {
	if slices.Contains([]int{1, 2, 5, 10, 20, 25, 50}, percent) {
		return nil
	}
	return &usageError{diag.BadFlag, fmt.Sprintf("--round-percent %d does not divide 100 %% into equal steps", percent), "write 1, 2, 5, 10, 20, 25 or 50"}
}
