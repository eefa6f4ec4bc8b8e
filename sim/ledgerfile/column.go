// Package ledgerfile writes the ledger and the tally of a replay: daily rows as
// CSV or Parquet, sums by year as CSV.
//
// # Units
//
// Files are always SI and keep full precision: a float is written in the
// fewest digits that read back as the same float64. Rounding is for people.
//
// # Promises
//
// Neither NaN nor an infinity is ever written: a day that holds one is
// refused. Equal replays give equal bytes. Names are written as they are,
// quoted as [RFC 4180] asks: a name that a spreadsheet would take for a formula
// (starting with =, +, - or @) must have been refused before it gets here.
//
// [RFC 4180]: https://www.rfc-editor.org/rfc/rfc4180
package ledgerfile

// A Column describes one column of a file: its name, its unit ("" for text,
// dates and plain numbers) and what it holds.
type Column struct {
	Key, Unit, About string
}

// Columns returns the columns of the ledger, in order.
func Columns() []Column {
	return []Column{
		{"date", "", "day of the record"},
		{"strategy", "", "name of the strategy"},
		{"zone", "", "name of the zone"},
		{"minutes", "min", "run time of the valve"},
		{"cycles", "", "number of cycles the run time was split into"},
		{"reason", "", "why the zone was watered or not"},
		{"eto_mm", "mm", "reference evapotranspiration ETo"},
		{"k", "", "plant coefficient K"},
		{"etc_mm", "mm", "unstressed plant water use ETc = K ETo"},
		{"rain_mm", "mm", "rain"},
		{"gross_mm", "mm", "irrigation that passed the meter"},
		{"spray_loss_mm", "mm", "part of gross lost in the air"},
		{"irrigation_runoff_mm", "mm", "irrigation that ran off"},
		{"rain_runoff_mm", "mm", "rain that ran off"},
		{"rain_evaporated_mm", "mm", "light rain that evaporated before it entered the soil"},
		{"percolation_irrigation_mm", "mm", "irrigation that drained below the root zone"},
		{"percolation_rain_mm", "mm", "rain that drained below the root zone"},
		{"eta_mm", "mm", "actual plant water use ETa"},
		{"depletion_mm", "mm", "depletion Dr at the end of the day, mean of the zone"},
		{"low_quarter_depletion_mm", "mm", "depletion after watering and rain, mean of the quarter watered least"},
		{"taw_mm", "mm", "total available water TAW"},
		{"raw_mm", "mm", "readily available water RAW of the day"},
		{"ks", "", "water stress coefficient Ks, mean of the zone; 1 is unstressed"},
		{"stress", "", "stress day: low-quarter depletion above RAW (in CSV 1 for yes, 0 for no)"},
		{"overspray_mm", "mm", "part of gross that landed outside the zone"},
		{"broken_mm", "mm", "part of gross lost through broken heads"},
		{"fill_drain_mm", "mm", "part of gross lost in filling and draining the pipes"},
		{"leak_mm", "mm", "part of gross that leaked"},
		{"filled", "", "the day's weather was put in or invented, not observed (in CSV 1 for yes, 0 for no)"},
	}
}

// TallyColumns returns the columns of the tally, in order. The balance can be
// checked from any line:
//
//	gross + rain − spray loss − overspray − broken − fill and drain − leak
//	  − irrigation runoff − rain runoff − rain evaporated
//	  − percolation (both) − ETa − storage change = 0
func TallyColumns() []Column {
	return []Column{
		{"strategy", "", "name of the strategy"},
		{"zone", "", "name of the zone"},
		{"year", "", "calendar year"},
		{"days", "d", "days of the year that the record holds"},
		{"watering_days", "d", "days on which water was applied"},
		{"stress_days", "d", "days with low-quarter depletion above RAW"},
		{"longest_streak_days", "d", "longest run of stress days up to a day of the year; it may have begun the year before"},
		{"severity_days", "d", "stress severity: sum of 1 - Ks, in day-equivalents"},
		{"runoff_events", "d", "days with irrigation runoff of at least 0.25 mm"},
		{"rain_runoff_days", "d", "days with rain runoff of at least 0.25 mm"},
		{"minutes", "min", "run time of the valve"},
		{"eto_mm", "mm", "reference evapotranspiration ETo"},
		{"etc_mm", "mm", "unstressed plant water use ETc"},
		{"rain_mm", "mm", "rain"},
		{"gross_mm", "mm", "irrigation that passed the meter"},
		{"spray_loss_mm", "mm", "part of gross lost in the air"},
		{"irrigation_runoff_mm", "mm", "irrigation that ran off"},
		{"rain_runoff_mm", "mm", "rain that ran off"},
		{"rain_evaporated_mm", "mm", "light rain that evaporated before it entered the soil"},
		{"percolation_irrigation_mm", "mm", "irrigation that drained below the root zone"},
		{"percolation_rain_mm", "mm", "rain that drained below the root zone"},
		{"eta_mm", "mm", "actual plant water use ETa"},
		{"storage_change_mm", "mm", "gain of soil water: depletion before minus after"},
		{"area_m2", "m²", "area of the zone"},
		{"volume_m3", "m³", "gross depth times area"},
		{"requirement_mm", "mm", "gross depth of the least water without stress in the same year"},
		{"adequacy", "", "ETa/ETc; 1 where nothing was asked for"},
		{"excess", "", "(irrigation runoff + percolation_irrigation + spray loss and the other losses)/gross; 0 where nothing was applied"},
		{"application_ratio", "", "gross/requirement; empty where nothing was required"},
		{"overspray_mm", "mm", "part of gross that landed outside the zone"},
		{"broken_mm", "mm", "part of gross lost through broken heads"},
		{"fill_drain_mm", "mm", "part of gross lost in filling and draining the pipes"},
		{"leak_mm", "mm", "part of gross that leaked"},
	}
}

func keys(cols []Column) []string {
	names := make([]string, len(cols))
	for i, c := range cols {
		names[i] = c.Key
	}
	return names
}
