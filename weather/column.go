package weather

// A Column names one daily quantity. The unit is part of the name, in files and
// in code: see [Column.Key].
type Column uint8

// The columns a record may hold. Missing values are NaN.
const (
	Tmax    Column = iota // highest air temperature of the day [°C]
	Tmin                  // lowest air temperature of the day [°C]
	Rain                  // precipitation of the day [mm]
	RHmax                 // highest relative humidity [%]
	RHmin                 // lowest relative humidity [%]
	RHmean                // mean relative humidity [%]
	Tdew                  // mean dew point [°C]
	Ea                    // mean actual vapor pressure [kPa]
	Rs                    // solar radiation on a horizontal surface [MJ m⁻² d⁻¹]
	Sun                   // hours of bright sunshine [h]
	Wind                  // mean wind speed at Station.WindHeightM [m/s]
	ETo                   // short (grass) reference ET supplied with the record [mm]
	ETr                   // tall (alfalfa) reference ET supplied with the record [mm]
	Columns               // how many columns there are
)

var columnInfo = [Columns]struct{ key, label, unit string }{
	Tmax:   {"tmax_c", "highest temperature", "°C"},
	Tmin:   {"tmin_c", "lowest temperature", "°C"},
	Rain:   {"rain_mm", "rain", "mm"},
	RHmax:  {"rhmax_pct", "highest relative humidity", "%"},
	RHmin:  {"rhmin_pct", "lowest relative humidity", "%"},
	RHmean: {"rhmean_pct", "mean relative humidity", "%"},
	Tdew:   {"tdew_c", "dew point", "°C"},
	Ea:     {"ea_kpa", "vapor pressure", "kPa"},
	Rs:     {"rs_mj_m2", "solar radiation", "MJ/m²"},
	Sun:    {"sun_h", "sunshine", "h"},
	Wind:   {"wind_m_s", "wind", "m/s"},
	ETo:    {"eto_mm", "reference ET (ETo)", "mm"},
	ETr:    {"etr_mm", "tall reference ET (ETr)", "mm"},
}

// Key returns the column's name in files, unit included, such as "tmax_c".
func (c Column) Key() string { return columnInfo[c].key }

// Label returns the name for a reader, without the unit.
func (c Column) Label() string { return columnInfo[c].label }

// Unit returns the printed unit.
func (c Column) Unit() string { return columnInfo[c].unit }

// ColumnByKey finds the column with the given file name.
func ColumnByKey(key string) (Column, bool) {
	for c := range Columns {
		if columnInfo[c].key == key {
			return c, true
		}
	}
	return 0, false
}
