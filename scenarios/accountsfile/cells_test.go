package accountsfile

import (
	"fmt"
	"regexp"
	"slices"
	"strings"
	"testing"

	"loamledger/scenarios/accounts"
	"loamledger/weather/quantity"
)

// Each column that has a unit, with each of its units in the heading and each kind of bad cell: the error is at the cell, and its fix
// speaks of the heading's unit and of no other.
func TestFixesSpeakTheUnitOfTheHeading(t *testing.T) {
	bad := []string{"abc", "12 bananas", "1,200", "1 to abc", "1 to 2 to 3 to 4", "--"}
	walked := 0
	for _, c := range accounts.Columns() {
		w := accounts.WrittenAs(c.Key)
		if !w.Quantity {
			continue
		}
		walked++
		var units []string
		for _, u := range quantity.Units(w.Dim) {
			units = append(units, u.Name)
		}
		for _, unit := range units {
			for _, cell := range bad {
				text := fmt.Sprintf("account,%s (%s)\n1,\"%s\"\n", c.Key, unit, cell)
				_, faults, err := read(t, text)
				if err != nil || len(faults) != 1 {
					t.Fatalf("%s: %v, %q", text, err, faults)
				}
				message, fix, _ := strings.Cut(faults[0], "fix: ")
				at := "a.csv:2:3"
				if !strings.Contains(message, at) || !strings.Contains(fix, "in "+unit+", as the heading says") {
					t.Errorf("%s answers\n%s", text, faults[0])
				}
				for _, other := range units {
					if other != unit && other != "in" && regexp.MustCompile(`(^|[ "(])`+regexp.QuoteMeta(other)+`($|[ ",)])`).MatchString(fix) {
						t.Errorf("%s answers with %s\n%s", text, other, faults[0])
					}
				}
			}
		}
	}
	if walked < 15 {
		t.Errorf("%d columns walked", walked)
	}
}

// A heading with a unit that is not the column's, or for a column without units, is an error there: it would fail every account.
func TestHeadingsHaveTheirUnits(t *testing.T) {
	for _, c := range accounts.Columns() {
		if c.Key == accounts.ColumnAccount {
			continue
		}
		_, _, err := read(t, "account,"+c.Key+" (bananas)\n1,\n")
		if err == nil || !strings.Contains(err.Error(), "a.csv:1:9: ") || !strings.Contains(err.Error(), "unit") {
			t.Errorf("%s: %v", c.Key, err)
		}
	}
}

// Good cells are no errors: a number, a range, and either with a unit of its own.
func TestGoodCells(t *testing.T) {
	for _, cell := range []string{"220", "2400 ft2", "100 to 200", "100 to 150 to 200", "1000 to 2000 ft2", ""} {
		list, faults, err := read(t, "account,area (m2),elevation (ft)\n1,\""+cell+"\",5\n")
		if err != nil || faults[0] != "" || (cell != "") != (len(list[0].Values) == 1) {
			t.Errorf("%q: %q, %v", cell, faults, err)
		}
	}
	// A range where one number is needed.
	for _, column := range []string{"outdoor_use (m3)", "elevation (m)"} {
		if _, faults, err := read(t, "account,"+column+"\n1,5 to 9\n"); err != nil || !strings.Contains(faults[0], "takes one number") {
			t.Errorf("%s: %q, %v", column, faults, err)
		}
	}
}

// The columns of what rates need are read in their units; ranges stay ranges.
func TestCustomerColumns(t *testing.T) {
	list, faults, err := read(t, "account,indoor_use (gal),persons,lot (ft2),landscape (m2),meter_size,use_from,use_to\n"+
		"1,100 to 200,3,10000,50,5/8 in,2020-01-01,2021-12-31\n2,-1,abc,,,,2021-01-01,2020-01-01\n3,,,,,,2021-13-01,\n")
	if err != nil || len(list) != 3 || faults[0] != "" {
		t.Fatalf("%q, %v", faults, err)
	}
	a := list[0]
	find := func(key string) accounts.Customer {
		return a.Customer[slices.IndexFunc(a.Customer, func(c accounts.Customer) bool { return c.Column == key })]
	}
	// 100 gal are 0.3785 m³, 10,000 ft² are 929.03 m².
	if r := find(accounts.ColumnIndoor).Range; r.Low < 0.3785 || r.Low > 0.3786 || r.High < 0.757 || r.High > 0.7571 {
		t.Errorf("%+v", r)
	}
	if r := find(accounts.ColumnLot).Range; r.Mode < 929 || r.Mode > 929.1 || find(accounts.ColumnMeterSize).Words[0].Node.Text != "5/8 in" {
		t.Errorf("%+v", a.Customer)
	}
	if a.UsePeriod.From.String() != "2020-01-01" || a.UsePeriod.To.String() != "2021-12-31" {
		t.Errorf("%+v", a.UsePeriod)
	}
	for i, want := range []string{"a.csv:3:3: indoor_use: ", "a.csv:3:6: persons: "} {
		if !strings.Contains(faults[1], want) {
			t.Errorf("%d: %q", i, faults[1])
		}
	}
	if !strings.Contains(faults[2], `use_from "2021-13-01" is not a date`) {
		t.Errorf("%q", faults[2])
	}
}
