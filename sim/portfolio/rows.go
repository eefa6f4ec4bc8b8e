package portfolio

// A Result is a year of one account under one measure: one row of the results,
// sorted by account, measure in the order of the program, and year.
type Result struct {
	// Account identifies the account. It is text and is never read as a number.
	Account string `parquet:"account,dict"`
	// Measure is the name of the measure in the program.
	Measure string `parquet:"measure,dict"`
	// Reference marks the rows of the measure that the others are compared with.
	Reference bool `parquet:"reference"`
	// Year is the calendar year of the weather, for instance 2014.
	Year int32 `parquet:"year"`
	// WholeYear is false for a year of which the weather has only a part.
	WholeYear bool `parquet:"whole_year"`
	// AreaM2 is the irrigated area under this measure [m²], 0 or more: a measure may
	// take area out of irrigation.
	AreaM2 float64 `parquet:"area_m2"`
	// VolumeM3 is the irrigation of the year at the meter [m³], 0 or more.
	VolumeM3 float64 `parquet:"volume_m3"`
	// RequirementM3 is the theoretical irrigation requirement of the year [m³] as
	// found, 0 or more: what the planting would need at full supply.
	RequirementM3 float64 `parquet:"requirement_m3"`
	// ApplicationRatio is VolumeM3 ÷ RequirementM3; nil if nothing is required.
	ApplicationRatio *float64 `parquet:"application_ratio,optional"`
	// StressZoneDays is the number of days on which the mean of a zone was under
	// stress [d], the area-weighted mean over the zones, 0 to 366.
	StressZoneDays float64 `parquet:"stress_zone_days"`
	// StressQuarterDays is the same for the driest quarter of each zone [d].
	StressQuarterDays float64 `parquet:"stress_quarter_days"`
	// BrowningDays is the number of days with browning [d], the area-weighted mean
	// over the zones, 0 to 366.
	BrowningDays float64 `parquet:"browning_days"`
	// WorstStressDays is the number of stress days of the zone with the most [d].
	WorstStressDays float64 `parquet:"worst_stress_days"`
	// RunoffM3 is the irrigation that ran off [m³], 0 or more.
	RunoffM3 float64 `parquet:"runoff_m3"`
	// RunoffEvents is the number of days on which irrigation of a zone ran off, the
	// sum over the zones.
	RunoffEvents float64 `parquet:"runoff_events"`
	// PercolationM3 is the irrigation that passed below the roots [m³], 0 or more.
	PercolationM3 float64 `parquet:"percolation_m3"`
	// PeakMonthM3 is the volume of the month of the year with the most [m³].
	PeakMonthM3 float64 `parquet:"peak_month_m3"`
	// PeakDayM3 is the volume of the day of the year with the most [m³].
	PeakDayM3 float64 `parquet:"peak_day_m3"`
	// Money is what irrigation adds to the bill of the year, in the currency of the rates:
	// the whole bill less that of the use indoors alone; nil without rates.
	Money *float64 `parquet:"money,optional"`
	// MoneySaving is by how much Money is below that of the reference; below 0 if it
	// is above; nil without rates.
	MoneySaving *float64 `parquet:"money_saving,optional"`
	// Alarms lists the codes of the alarms of this account and measure, joined by
	// ";"; empty for none.
	Alarms string `parquet:"alarms,dict"`
}

// A Month is a month of one account under one measure, sorted like [Result] and
// then by weather and month.
type Month struct {
	// Account identifies the account, as in [Result].
	Account string `parquet:"account,dict"`
	// Measure is the name of the measure in the program.
	Measure string `parquet:"measure,dict"`
	// Weather is [MedianYear], [DryYear] or [AllYears].
	Weather string `parquet:"weather,dict"`
	// Year is the calendar year of the weather.
	Year int32 `parquet:"year"`
	// Month is 1 to 12.
	Month int32 `parquet:"month"`
	// VolumeM3 is the irrigation of the month at the meter [m³], 0 or more.
	VolumeM3 float64 `parquet:"volume_m3"`
	// RequirementM3 is the theoretical irrigation requirement [m³], 0 or more.
	RequirementM3 float64 `parquet:"requirement_m3"`
}

// The values of [Month.Weather]: the months of the account's median year, those of
// its 1-in-10 dry year, or those of every year.
const (
	MedianYear = "median"
	DryYear    = "dry"
	AllYears   = "all"
)

// An Account is what was understood of one account, sorted by ID.
type Account struct {
	// ID identifies the account. It is text and is never read as a number.
	ID string `parquet:"account"`
	// Station is the name of the weather station that was used.
	Station string `parquet:"station,dict"`
	// DistanceKM is the distance to that station [km], 0 or more; nil if unknown.
	DistanceKM *float64 `parquet:"distance_km,optional"`
	// ElevDiffM is the elevation of the account minus that of the station [m]; nil
	// if unknown.
	ElevDiffM *float64 `parquet:"elevation_difference_m,optional"`
	// Zones is the number of irrigated zones.
	Zones int32 `parquet:"zones"`
	// AreaM2 is the irrigated area as found [m²], above 0.
	AreaM2 float64 `parquet:"area_m2"`
	// RainMM is the mean yearly rain of the station's record [mm], over its whole years;
	// nil if it has none.
	RainMM *float64 `parquet:"rain_mm,optional"`
	// EToMM is the mean yearly reference ET of the same years [mm].
	EToMM *float64 `parquet:"eto_mm,optional"`
	// IndoorLDay is the use indoors a day with which bills were worked out [L]; nil
	// without rates.
	IndoorLDay *float64 `parquet:"indoor_l_per_day,optional"`
	// IndoorMoney is the mean yearly bill of the use indoors alone, with fixed charges, in
	// the currency of the rates; nil without rates.
	IndoorMoney *float64 `parquet:"indoor_money,optional"`
	// Class is the account's class, for instance of its meter or customer.
	Class string `parquet:"class,dict"`
	// Area is the name of the district.
	Area string `parquet:"district,dict"`
	// AsFound tells where the as-found run times come from: [FromBills], [Drawn] or
	// [Given].
	AsFound string `parquet:"as_found,dict"`
	// AsFoundScale is the factor on the as-found run times; 1 if given, 0 if the metered use is 0.
	AsFoundScale float64 `parquet:"as_found_scale"`
	// ImputedShare is the share of the account's values that were not given, 0 to 1.
	ImputedShare float64 `parquet:"imputed_share"`
	// Drawn lists the codes of the values that were drawn, joined by ";".
	Drawn string `parquet:"drawn,dict"`
	// Alarms lists the codes of the alarms of the account, joined by ";".
	Alarms string `parquet:"alarms,dict"`
}

// The values of [Account.AsFound]: scaled to the outdoor use of the account's bills,
// drawn from stated ranges, or given zone by zone.
const (
	FromBills = "bills"
	Drawn     = "drawn"
	Given     = "given"
)

// A Bill is the metered outdoor use of one account in one year, as given, sorted by account
// and year.
type Bill struct {
	// Account identifies the account, as in [Result].
	Account string `parquet:"account,dict"`
	// Year is the calendar year; 0 for a usual year.
	Year int32 `parquet:"year"`
	// From and To are the first and the last day on which it was metered, as days since
	// 1970-01-01; nil if not stated.
	From *int32 `parquet:"from,date,optional"`
	To   *int32 `parquet:"to,date,optional"`
	// VolumeM3 is the outdoor use of the year [m³], 0 or more.
	VolumeM3 float64 `parquet:"volume_m3"`
}

// ExtremeScale reports whether a factor on the as-found run times of a program, 0 for an account that does not water, is so far
// from 1 that a unit or an area may be wrong. No source: a choice.
func ExtremeScale(scale float64) bool { return scale > 0 && scale < 0.2 || scale > 5 }
