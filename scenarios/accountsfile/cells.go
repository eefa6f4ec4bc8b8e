package accountsfile

import (
	"errors"
	"strings"

	"loamledger/weather/diag"
	"loamledger/weather/quantity"
)

// checkUnit checks the unit in a heading: one of the column's own, and none for a column without.
func (h *head) checkUnit(text string, at diag.Pos) *diag.Error {
	switch {
	case h.unit == "":
		return nil
	case !h.written.Quantity:
		return &diag.Error{Code: diag.UnknownUnit, Pos: at, Msg: "column " + quoted(text) + " has no unit", Fix: "write " + h.column}
	}
	if _, known := quantity.Find(h.unit, h.written.Dim); !known {
		return &diag.Error{Code: diag.UnknownUnit, Pos: at, Msg: quoted(h.unit) + " is not a unit of " + h.written.Dim.String(),
			Fix: "use " + quantity.Names(h.written.Dim)}
	}
	return nil
}

// checkCell checks that a cell of a column with a unit in its heading is a number, a range, or either with a unit of its own;
// nil if it is. What the numbers mean is checked later.
func (h *head) checkCell(text string, at diag.Pos) *diag.Error {
	if h.unit == "" {
		return nil
	}
	parts := strings.Split(text, " to ")
	for i, part := range parts {
		number, own := quantity.Cut(part)
		_, err := quantity.ParseNumber(number)
		_, known := quantity.Find(own, h.written.Dim)
		if err == nil && (known || own == "") && (i == 0 || !h.written.NoRange) && len(parts) < 4 {
			continue
		}
		msg := quoted(part) + " is not a number"
		switch {
		case i > 0 && h.written.NoRange:
			msg = quoted(text) + " is a range, and this column takes one number"
		case err == nil && own != "" && !known:
			msg = quoted(own) + " is not a unit of " + h.written.Dim.String()
		case len(parts) > 3:
			msg = quoted(text) + " has more than three numbers"
		}
		return &diag.Error{Code: diag.BadQuantity, Pos: at, Msg: h.column + ": " + msg, Fix: h.unitFix()}
	}
	return nil
}

// unitFix says how to write a quantity of the column, in the unit of its heading if that has one.
func (h *head) unitFix() string {
	if h.unit == "" {
		return "write the unit in the heading, such as " + h.column + " (" + h.written.Dim.BaseUnit() + "), or behind the number: " +
			quantity.Names(h.written.Dim)
	}
	fix := "write a number in " + h.unit + ", as the heading says, with digits and a decimal point"
	if !h.written.NoRange {
		fix += ", or a range of them, such as 10 to 20"
	}
	return fix
}

// why says what is wrong with a quantity, without a fix that knows nothing of the heading.
func why(err error) string {
	var f *quantity.Fault
	if errors.As(err, &f) {
		return f.Msg
	}
	return err.Error()
}
