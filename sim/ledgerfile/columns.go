package ledgerfile

import "math"

// Columns returns the columns of the ledger, in order.
func Columns() []DayColumn {
	return []DayColumn{
		{Column: Column{"date", "", "day of the record"}, kind: kindDate, int: func(d *Day) int { return int(d.Date) }},
		{Column: Column{"strategy", "", "name of the strategy"}, kind: kindText, few: true, text: func(d *Day) string { return d.Strategy }},
		{Column: Column{"zone", "", "name of the zone"}, kind: kindText, few: true, text: func(d *Day) string { return d.Zone }},
		{Column: Column{"minutes", "min", "run time of the valve"}, few: true, Float: func(d *Day) float64 { return d.Minutes }},
		{
			Column: Column{"cycles", "", "number of cycles the run time was split into"},
			kind:   kindInt, few: true, int: func(d *Day) int { return d.Cycles },
		},
		{
			Column: Column{"reason", "", "why the zone was watered or not"},
			kind:   kindText, few: true, text: func(d *Day) string { return d.Reason.String() },
		},
		{Column: Column{"eto_mm", "mm", "reference evapotranspiration ETo"}, few: true, Float: func(d *Day) float64 { return d.EToMM }},
		{Column: Column{"k", "", "plant coefficient K"}, few: true, Float: func(d *Day) float64 { return d.K }},
		{Column: Column{"activity", "", "activity of the plant, 0 at rest to 1 in full growth"}, few: true,
			Float: func(d *Day) float64 { return d.Activity }},
		{Column: Column{"etc_mm", "mm", "unstressed plant water use ETc = K ETo"}, few: true, Float: func(d *Day) float64 { return d.ETcMM }},
		{Column: Column{"rain_mm", "mm", "rain"}, few: true, term: enters, Float: func(d *Day) float64 { return d.RainMM }},
		{
			Column: Column{"gross_mm", "mm", "irrigation that passed the meter"},
			few:    true, term: enters, Float: func(d *Day) float64 { return d.GrossMM },
		},
		{
			Column: Column{"spray_loss_mm", "mm", "part of gross lost in the air"},
			few:    true, term: leaves, Float: func(d *Day) float64 { return d.SprayLossMM },
		},
		{
			Column: Column{"irrigation_runoff_mm", "mm", "irrigation that ran off"},
			few:    true, term: leaves, Float: func(d *Day) float64 { return d.IrrRunoffMM },
		},
		{
			Column: Column{"rain_runoff_mm", "mm", "rain that ran off"},
			few:    true, term: leaves, Float: func(d *Day) float64 { return d.RainRunoffMM },
		},
		{
			Column: Column{"rain_evaporated_mm", "mm", "light rain that evaporated before it entered the soil"},
			few:    true, term: leaves, Float: func(d *Day) float64 { return d.RainEvapMM },
		},
		{
			Column: Column{"percolation_irrigation_mm", "mm", "irrigation that drained below the root zone"},
			term:   leaves, Float: func(d *Day) float64 { return d.PercIrrMM },
		},
		{
			Column: Column{"percolation_rain_mm", "mm", "rain that drained below the root zone"},
			term:   leaves, Float: func(d *Day) float64 { return d.PercRainMM },
		},
		{Column: Column{"eta_mm", "mm", "actual plant water use ETa"}, term: leaves, Float: func(d *Day) float64 { return d.ETaMM }},
		{
			Column: Column{"depletion_mm", "mm", "depletion Dr at the end of the day, zone mean"},
			term:   depletion, Float: func(d *Day) float64 { return d.DepletionMM },
		},
		{
			Column: Column{"low_quarter_depletion_mm", "mm", "depletion after watering and rain, mean of the quarter that gets the least water"},
			Float:  func(d *Day) float64 { return d.LowQuarterMM },
		},
		{Column: Column{"taw_mm", "mm", "total available water TAW"}, few: true, Float: func(d *Day) float64 { return d.TAWMM }},
		{Column: Column{"raw_mm", "mm", "readily available water RAW of the day"}, few: true, Float: func(d *Day) float64 { return d.RAWMM }},
		{
			Column: Column{"ks", "", "water stress coefficient Ks, zone mean; 1 is unstressed"},
			Float:  func(d *Day) float64 { return d.Ks },
		},
		{
			Column: Column{"past_raw", "", "low-quarter depletion above RAW (in CSV 1 for yes, 0 for no)"},
			kind:   kindBool, bool: func(d *Day) bool { return d.PastRAW },
		},
		{
			Column: Column{"r7_quarter", "", "R7: ETa/ETc of the last seven days, driest quarter; empty if that ETc is below 1 mm"},
			kind:   kindFloatOrNone, Float: func(d *Day) float64 { return r7(d, d.R7Quarter) },
		},
		{
			Column: Column{"r7_zone", "", "R7 of the whole zone; empty if ETc of the last seven days is below 1 mm"},
			kind:   kindFloatOrNone, Float: func(d *Day) float64 { return r7(d, d.R7Zone) },
		},
		{
			Column: Column{"stress_quarter", "", "stress day of the driest quarter: active, and R7 below the tolerance (in CSV 1 for " +
				"yes, 0 for no)"},
			kind: kindBool, bool: func(d *Day) bool { return d.StressQuarter },
		},
		{
			Column: Column{"stress_zone", "", "stress day of the whole zone (in CSV 1 for yes, 0 for no)"},
			kind:   kindBool, bool: func(d *Day) bool { return d.StressZone },
		},
		{
			Column: Column{"browning_quarter", "", "browning day of the driest quarter: active, and R7 below " +
				"the browning mark (in CSV 1 for yes, 0 for no)"},
			kind: kindBool, bool: func(d *Day) bool { return d.BrownQuarter },
		},
		{
			Column: Column{"browning_zone", "", "browning day of the whole zone (in CSV 1 for yes, 0 for no)"},
			kind:   kindBool, bool: func(d *Day) bool { return d.BrownZone },
		},
		{
			Column: Column{"overspray_mm", "mm", "part of gross that landed outside the zone"},
			few:    true, term: leaves, Float: func(d *Day) float64 { return d.OversprayMM },
		},
		{
			Column: Column{"broken_mm", "mm", "part of gross lost through broken heads"},
			few:    true, term: leaves, Float: func(d *Day) float64 { return d.BrokenMM },
		},
		{
			Column: Column{"fill_drain_mm", "mm", "part of gross lost by filling and draining pipes"},
			few:    true, term: leaves, Float: func(d *Day) float64 { return d.FillDrainMM },
		},
		{
			Column: Column{"leak_mm", "mm", "part of gross that leaked"},
			few:    true, term: leaves, Float: func(d *Day) float64 { return d.LeakMM },
		},
		{Column: Column{"rate_mm_h", "mm/h", "gross precipitation rate PR of the zone on the day"}, few: true,
			Float: func(d *Day) float64 { return d.RateMMH }},
		{Column: Column{"irrigated_area_m2", "m²", "irrigated area of the zone on the day"}, few: true,
			Float: func(d *Day) float64 { return d.AreaM2 }},
		{
			Column: Column{"soil_change_mm", "mm", "depletion that a change of the root zone adds in the morning; below 0 if it removes some"},
			few:    true, term: leaves, Float: func(d *Day) float64 { return d.SoilChangeMM },
		},
		{
			Column: Column{"filled", "", "the day's weather was filled or synthetic, not observed (in CSV 1 for yes, 0 for no)"},
			kind:   kindBool, bool: func(d *Day) bool { return d.Filled },
		},
	}
}

// r7 returns R7 of a day, or NaN if it has none.
func r7(d *Day, v float64) float64 {
	if !d.HasR7 {
		return math.NaN()
	}
	return v
}
