package portfolio

import (
	"reflect"
	"strings"
	"testing"
)

// Every field has its column, in order, and a unit that its name ends with.
func TestColumnsAreTheFields(t *testing.T) {
	suffix := map[string]string{"m2": "_m2", "m3": "_m3", "d": "_days", "km": "_km", "m": "_m", "mm": "_mm", "L/d": "_l_per_day"}
	for _, of := range []struct {
		row     any
		columns []Column
	}{{Result{}, ResultColumns()}, {Month{}, MonthColumns()}, {Account{}, AccountColumns()}, {Bill{}, BillColumns()}} {
		typ := reflect.TypeOf(of.row)
		if typ.NumField() != len(of.columns) {
			t.Errorf("%v has %d fields and %d columns", typ, typ.NumField(), len(of.columns))
			continue
		}
		for i, c := range of.columns {
			name, _, _ := strings.Cut(typ.Field(i).Tag.Get("parquet"), ",")
			if name != c.Key || c.About == "" {
				t.Errorf("%v.%s: tag %q, column %+v", typ, typ.Field(i).Name, name, c)
			}
			if s := suffix[c.Unit]; c.Unit != "" && (s == "" || !strings.HasSuffix(c.Key, s)) {
				t.Errorf("%v: column %s has unit %s", typ, c.Key, c.Unit)
			}
		}
	}
}
