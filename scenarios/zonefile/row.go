package zonefile

import (
	"fmt"
	"reflect"

	"loamledger/scenarios"
)

// columnsOf returns the parameters that have a column, in order.
func columnsOf(list []scenarios.ZoneParam) []scenarios.ZoneParam {
	var out []scenarios.ZoneParam
	for _, p := range list {
		if p.Column != "" {
			out = append(out, p)
		}
	}
	return out
}

// rowType makes the type of one table row for the CSV library: a field for each
// column. All fields are texts, since the library would silently turn empty
// cells and missing columns into zeros.
func rowType(columns []scenarios.ZoneParam) reflect.Type {
	fields := make([]reflect.StructField, len(columns))
	for i, p := range columns {
		tag := reflect.StructTag(fmt.Sprintf("csv:%q", p.Column))
		fields[i] = reflect.StructField{Name: fmt.Sprintf("Column%d", i), Type: reflect.TypeFor[string](), Tag: tag}
	}
	return reflect.StructOf(fields)
}

// names returns the names of the valid columns.
func (t *table) names() []string {
	var out []string
	for _, p := range t.columns {
		out = append(out, p.Column)
	}
	return out
}
