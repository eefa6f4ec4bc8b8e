package accounts

import (
	"loamledger/scenarios"
	"loamledger/weather/quantity"
)

// A Column is a column of the table of accounts.
type Column struct {
	Key     string
	Unit    string // how its values are written: a dimension, or "" for text and bare numbers
	Account bool   // of the account; else of a zone, or of all zones on a row without a zone
	About   string
}

// The columns that are not parameters of a zone.
const (
	ColumnAccount   = "account"
	ColumnZone      = "zone"
	ColumnLike      = "like"
	ColumnTemplate  = "template"
	ColumnStation   = "station"
	ColumnLatitude  = "latitude"
	ColumnLongitude = "longitude"
	ColumnElevation = "elevation"
	ColumnClass     = "class"
	ColumnDistrict  = "district"
	ColumnExclude   = "exclude"
	ColumnUse       = "outdoor_use" // and outdoor_use_2019 for that of a year
	ColumnUseFrom   = "use_from"    // when outdoor_use was metered
	ColumnUseTo     = "use_to"
	ColumnMinutes   = "minutes"
	columnArea      = "area"
)

// UsePrefix begins the columns with the outdoor use of one year.
const UsePrefix = ColumnUse + "_"

// Columns is the one list of the columns of a table of accounts, those of the account
// first.
func Columns() []Column {
	list := []Column{
		{ColumnAccount, "", true, "the account: text, with leading zeros; required on every row"},
		{ColumnZone, "", true, "name of a zone of its own; empty on a row for all zones"},
		{ColumnLike, "", true, "zone of the program that it is like; empty if it has its name"},
		{ColumnTemplate, "", true, "list of zones of the program; empty for all"},
		{ColumnStation, "", true, "weather station of the program; empty for the nearest"},
		{ColumnLatitude, "", true, "decimal degrees, south negative"},
		{ColumnLongitude, "", true, "decimal degrees, west negative"},
		{ColumnElevation, "length", true, "elevation"},
		{ColumnClass, "", true, "class of the account, such as that of its meter"},
		{ColumnDistrict, "", true, "district"},
		{ColumnExclude, "", true, "why the account is excluded; it is counted and not replayed"},
		{ColumnUse, "volume", true, "metered outdoor use of a usual year; outdoor_use_2019 for that of 2019"},
		{ColumnUseFrom, "", true, "first day on which outdoor_use was metered, such as 2020-01-01"},
		{ColumnUseTo, "", true, "last day on which it was metered"},
	}
	for _, c := range CustomerColumns() {
		unit := c.Dim.String()
		if c.Bare || c.Words {
			unit = ""
		}
		list = append(list, Column{c.Key, unit, true, c.About + ", if the program has money"})
	}
	list = append(list,
		Column{ColumnMinutes, "", false, "as-found run time of the zone at each start [min]"})
	for _, p := range zoneParams() {
		unit := p.Dim.String()
		if p.Bare || p.Words {
			unit = ""
		}
		list = append(list, Column{Key: p.Column, Unit: unit, About: p.Doc})
	}
	return list
}

// Written says how the values of a column are written.
type Written struct {
	Dim      quantity.Dimension // of a quantity with a unit
	Quantity bool
	Number   bool // a number without a unit, or text and numbers: it has no unit either
	NoRange  bool
}

// WrittenAs returns how the values of a column are written; neither a quantity nor a number is
// text.
func WrittenAs(column string) Written {
	if c, is := CustomerColumnOf(column); is {
		return Written{Dim: c.Dim, Quantity: !c.Bare && !c.Words, Number: c.Bare}
	}
	switch column {
	case ColumnElevation:
		return Written{Dim: quantity.Length, Quantity: true, NoRange: true}
	case ColumnUse:
		return Written{Dim: quantity.Volume, Quantity: true, NoRange: true}
	case ColumnMinutes:
		return Written{Dim: quantity.Duration, Quantity: true}
	case ColumnLatitude, ColumnLongitude:
		return Written{Number: true, NoRange: true}
	}
	for _, p := range zoneParams() {
		if p.Column == column {
			return Written{Dim: p.Dim, Quantity: !p.Bare && !p.Words, Number: p.Bare}
		}
	}
	return Written{}
}

// zoneParams are the parameters of a zone that a table of accounts can give. An account has
// one controller and one meter.
func zoneParams() (list []scenarios.ZoneParam) {
	for _, p := range scenarios.ZoneParams() {
		switch p.Column {
		case "", "name", "controller", "meter":
		default:
			list = append(list, p)
		}
	}
	return list
}

// ZoneKey returns the key of a zone's parameter in a scenario; ok is false if the column is
// not one of a zone.
func ZoneKey(column string) (key string, ok bool) {
	for _, p := range zoneParams() {
		if p.Column == column {
			return p.Key, true
		}
	}
	return "", column == ColumnMinutes
}
