package portfolio

// Version is the version of the files' columns. A reader refuses any other.
const Version = "2"

// The keys of the metadata of results that say by which rates bills were worked out.
const (
	MetaCurrency = "currency"
	MetaRates    = "rates"
	MetaPrices   = "prices" // the day whose prices count; empty if they have no dates
)

// A Column describes one column of a file: its name, its unit ("" for text and
// plain numbers) and its meaning.
type Column struct {
	Key, Unit, About string
}

// ResultColumns returns the columns of [Result], in order.
func ResultColumns() []Column {
	return []Column{
		{"account", "", "the account"},
		{"measure", "", "name of the measure"},
		{"reference", "", "whether this is the measure that others are compared with"},
		{"year", "", "calendar year of the weather"},
		{"whole_year", "", "whether the weather covers all of the year"},
		{"area_m2", "m2", "irrigated area under this measure"},
		{"volume_m3", "m3", "irrigation at the meter"},
		{"requirement_m3", "m3", "theoretical irrigation requirement as found"},
		{"application_ratio", "", "volume divided by requirement; none if nothing is required"},
		{"stress_zone_days", "d", "stress days of the zones' means, area-weighted"},
		{"stress_quarter_days", "d", "stress days of the driest quarters, area-weighted"},
		{"browning_days", "d", "days with browning, area-weighted"},
		{"worst_stress_days", "d", "stress days of the zone with the most"},
		{"runoff_m3", "m3", "irrigation that ran off"},
		{"runoff_events", "", "days on which irrigation of a zone ran off, summed over zones"},
		{"percolation_m3", "m3", "irrigation that passed below the roots"},
		{"peak_month_m3", "m3", "volume of the month with the most"},
		{"peak_day_m3", "m3", "volume of the day with the most"},
		{"money", "", "what irrigation adds to the bill of the year, in the currency of the metadata; none without rates"},
		{"money_saving", "", "how much less that is than under the reference; below 0 for more; none without rates"},
		{"alarms", "", "codes of alarms, joined by ;"},
	}
}

// MonthColumns returns the columns of [Month], in order.
func MonthColumns() []Column {
	return []Column{
		{"account", "", "the account"},
		{"measure", "", "name of the measure"},
		{"weather", "", "median, dry or all: which year this is of the account"},
		{"year", "", "calendar year of the weather"},
		{"month", "", "1 to 12"},
		{"volume_m3", "m3", "irrigation at the meter"},
		{"requirement_m3", "m3", "theoretical irrigation requirement as found"},
	}
}

// AccountColumns returns the columns of [Account], in order.
func AccountColumns() []Column {
	return []Column{
		{"account", "", "the account"},
		{"station", "", "weather station used"},
		{"distance_km", "km", "distance to the station; none if unknown"},
		{"elevation_difference_m", "m", "elevation of the account minus that of the station; none if unknown"},
		{"zones", "", "number of irrigated zones"},
		{"area_m2", "m2", "irrigated area as found"},
		{"rain_mm", "mm", "mean yearly rain of the station's record; none without a whole year"},
		{"eto_mm", "mm", "mean yearly reference ET of the station's record; none without a whole year"},
		{"indoor_l_per_day", "L/d", "use indoors with which bills were worked out; none without rates"},
		{"indoor_money", "", "mean yearly bill of the use indoors alone, with fixed charges; none without rates"},
		{"class", "", "class of the account"},
		{"district", "", "district of the account"},
		{"as_found", "", "where as-found run times come from: bills, drawn or given"},
		{"as_found_scale", "", "factor on the as-found run times"},
		{"imputed_share", "", "share of the account's values that were not given, 0 to 1"},
		{"drawn", "", "codes of the values that were drawn, joined by ;"},
		{"alarms", "", "codes of alarms, joined by ;"},
	}
}

// BillColumns returns the columns of [Bill], in order.
func BillColumns() []Column {
	return []Column{
		{"account", "", "the account"},
		{"year", "", "calendar year; 0 for a usual year"},
		{"from", "", "first day on which it was metered; none if not stated"},
		{"to", "", "last day on which it was metered; none if not stated"},
		{"volume_m3", "m3", "metered outdoor use of the year, as given"},
	}
}
