package tally

import "math"

// Measures returns the measures of a replay, in the order of the tally. Every
// row closes the water balance:
//
//	gross + rain − spray loss − overspray − broken − fill and drain − leak
//	  − irrigation runoff − rain runoff − rain evaporated
//	  − percolation (both) − ETa − storage change = 0
func Measures() []Measure {
	return []Measure{
		sum("days", Days, "days of the year in the record", func(c *Cell) float64 { return float64(c.Sums.Days) }),
		sum("watering_days", Days, "days on which water was applied", func(c *Cell) float64 { return float64(c.Sums.WateringDays) }),
		stressZone(),
		brownQuarter(),
		stressQuarter(),
		brownZone(),
		dryWinter(),
		pastRAW(),
		longestStreak(),
		severity(),
		runoffEvents(),
		runoffVolume(),
		runoffNights(),
		sum("rain_runoff_days", Days, "days with rain runoff of at least 0.25 mm",
			func(c *Cell) float64 { return float64(c.Sums.RainRunoffDays) }),
		sum("minutes", Minutes, "run time of the valve", func(c *Cell) float64 { return c.Sums.Minutes }),
		sum("eto_mm", Depth, "reference evapotranspiration ETo", func(c *Cell) float64 { return c.Sums.EToMM }),
		sum("etc_mm", Depth, "unstressed plant water use ETc", func(c *Cell) float64 { return c.Sums.ETcMM }),
		sum("rain_mm", Depth, "rain", func(c *Cell) float64 { return c.Sums.RainMM }),
		gross(),
		sum("spray_loss_mm", Depth, "part of gross lost to the air", func(c *Cell) float64 { return c.Sums.SprayLossMM }),
		sum("irrigation_runoff_mm", Depth, "irrigation that ran off", func(c *Cell) float64 { return c.Sums.IrrRunoffMM }),
		sum("rain_runoff_mm", Depth, "rain that ran off", func(c *Cell) float64 { return c.Sums.RainRunoffMM }),
		sum("rain_evaporated_mm", Depth, "light rain that evaporated before it reached the soil",
			func(c *Cell) float64 { return c.Sums.RainEvapMM }),
		percolationOfIrrigation(),
		sum("percolation_rain_mm", Depth, "rain that drained below the root zone", func(c *Cell) float64 { return c.Sums.PercRainMM }),
		percolation(),
		sum("eta_mm", Depth, "actual plant water use ETa", func(c *Cell) float64 { return c.Sums.ETaMM }),
		sum("storage_change_mm", Depth, "gain of soil water: depletion before minus after",
			func(c *Cell) float64 { return c.Sums.StorageMM }),
		sum("area_m2", Area, "area of the zone", func(c *Cell) float64 { return c.areaM2 }),
		volume(),
		change(),
		sum("requirement_mm", Depth, "gross depth of the least water at full supply in the same year",
			func(c *Cell) float64 { return c.least.GrossMM }),
		needMet(),
		shareLost(),
		applicationRatio(),
		sum("overspray_mm", Depth, "part of gross that fell outside the zone", func(c *Cell) float64 { return c.Sums.OversprayMM }),
		sum("broken_mm", Depth, "part of gross lost through broken heads", func(c *Cell) float64 { return c.Sums.BrokenMM }),
		sum("fill_drain_mm", Depth, "part of gross lost when pipes fill and drain",
			func(c *Cell) float64 { return c.Sums.FillDrainMM }),
		sum("leak_mm", Depth, "part of gross that leaked", func(c *Cell) float64 { return c.Sums.LeakMM }),
	}
}

// sum is a measure for the tally only.
func sum(key string, kind Kind, about string, get func(*Cell) float64) Measure {
	return Measure{Key: key, Kind: kind, About: about, In: InTally, Get: get}
}

// stressZone and brownQuarter are the pair by which strategies are judged: whether
// the planting as a whole is short of water, and whether its worst part dies back.
func stressZone() Measure {
	return Measure{
		Key: "stress_days_zone", Title: "Stress days", Kind: Days, Better: Less,
		About:     "active days on which ETa/ETc of the last seven days, of the whole zone, is below the plant's tolerance",
		Get:       func(c *Cell) float64 { return float64(c.Sums.StressZoneDays) },
		Plain:     "over the last seven days, plants of a zone as a whole got clearly less water than they need; else the day is fine.",
		PlainName: "Thirsty day (stress day)",
		Views: []View{
			{Over: MedianYear, Head: "stress\ndays,\nmedian", Minor: true, Front: "Thirsty days, typical year",
				frontDays: "Thirsty days %p", Beside: "stress_days_quarter", Rest: true},
			{Over: DryYear, Head: "stress\ndays,\ndry", Front: "Thirsty days, dry year", Beside: "stress_days_quarter", Rest: true},
		},
	}
}

func brownQuarter() Measure {
	return Measure{
		Key: "browning_days_quarter", Title: "Browning days, driest quarter", Kind: Days, Better: Less,
		About:     "active days on which ETa/ETc of the last seven days, of the driest quarter, is below the browning mark",
		Get:       func(c *Cell) float64 { return float64(c.Sums.BrownDays) },
		Plain:     "in the driest part, the quarter of a zone’s area that sprinklers reach least, plants got so little that they turn brown.",
		PlainName: "Browning day",
		Views: []View{{Over: DryYear, Head: "brown\ndays,\ndry", Front: "Browning days, driest part, dry year",
			frontDays: "Browning days, driest part, %p",
			Beside:    "browning_days_zone"}},
	}
}

func stressQuarter() Measure {
	return Measure{
		Key: "stress_days_quarter", Title: "Stress days, driest quarter", Kind: Days, Better: Less, In: InTally | InJSON,
		About: "active days on which ETa/ETc of the last seven days, of the driest quarter, is below the plant's tolerance",
		Get:   func(c *Cell) float64 { return float64(c.Sums.StressDays) },
		Part:  "thirsty days in driest parts",
		Views: []View{{Over: MedianYear}, {Over: DryYear}},
	}
}

func brownZone() Measure {
	return Measure{
		Key: "browning_days_zone", Title: "Browning days", Kind: Days, Better: Less, In: InTally | InJSON,
		About: "active days on which ETa/ETc of the last seven days, of the whole zone, is below the browning mark",
		Get:   func(c *Cell) float64 { return float64(c.Sums.BrownZoneDays) },
		Part:  "browning days of whole zones",
		Views: []View{{Over: MedianYear}, {Over: DryYear}},
	}
}

func dryWinter() Measure {
	return Measure{
		Key: "dry_winter_days", Title: "Dry winter days", Kind: Days, Better: Less, In: InTally | InJSON,
		About: "dormant days, the ground not frozen, on which the driest quarter is depleted beyond 80% of TAW",
		Get:   func(c *Cell) float64 { return float64(c.Sums.DryWinterDays) },
	}
}

func pastRAW() Measure {
	return Measure{
		Key: "past_raw_days", Title: "Days past RAW", Kind: Days, Better: Less, In: InTally | InJSON,
		About: "days of any season on which depletion of the driest quarter exceeds RAW",
		Get:   func(c *Cell) float64 { return float64(c.Sums.PastRAWDays) },
	}
}

func longestStreak() Measure {
	return Measure{
		Key: "longest_streak_days", Title: "Longest streak [days]",
		About: "longest run of stress days of the driest quarter that ends in the year; it may begin in the year before",
		Kind:  Days, Better: Less, Site: Worst,
		Get:   func(c *Cell) float64 { return float64(c.Sums.LongestStreak) },
		Views: []View{{Over: Record, Head: "worst\nstreak\n[days]", Minor: true}},
	}
}

func severity() Measure {
	return Measure{
		Key: "severity_days", Title: "Stress severity",
		About: "stress severity: sum of 1 - Ks over active days, in full-stress days",
		Kind:  Days, Better: Less, In: InTally | InJSON,
		Get: func(c *Cell) float64 { return c.Sums.SeverityDays },
	}
}

func runoffEvents() Measure {
	return Measure{
		Key: "runoff_events", Title: "Runoff events", zoneTitle: "Runoff days",
		About: "days with irrigation runoff of at least 0.25 mm",
		Kind:  Days, Digits: 1, Better: Less, Site: Sum,
		Get:   func(c *Cell) float64 { return float64(c.Sums.RunoffEvents) },
		Plain: "water runs off one zone on one day.", PlainName: "Runoff event",
		Views: []View{{Over: PerYear, Head: "runoff\nevents\n%p", Front: "Runoff events %p"}},
	}
}

func runoffVolume() Measure {
	return Measure{
		Key: "runoff_m3", Title: "Runoff", About: "irrigation that ran off, times area", Kind: Volume, Better: Less, Site: Sum,
		In:    InReport | InZones | InJSON,
		Get:   func(c *Cell) float64 { return c.Sums.IrrRunoffMM / 1000 * c.areaM2 },
		Views: []View{{Over: PerYear, Head: "runoff\n[%s/yr]", Minor: true}},
	}
}

func runoffNights() Measure {
	return Measure{
		Key: "runoff_nights_per_week", Title: "Runoff nights a week in season, worst zone", zoneTitle: "Runoff nights a week in season",
		About: "days with irrigation runoff of at least 0.25 mm per week of the months with watering; of a site, those of its worst zone",
		Kind:  Number, Digits: 1, Better: Less, Site: Worst,
		In:    InTally | InReport | InZones | InJSON,
		Get:   func(c *Cell) float64 { return 7 * float64(c.Sums.RunoffEvents) },
		Per:   func(c *Cell) float64 { return float64(c.Sums.SeasonDays) },
		Views: []View{{Over: Record, Head: "runoff\nnights/\nweek,\nworst", Minor: true}},
	}
}

func gross() Measure {
	return Measure{
		Key: "gross_mm", Title: "Water",
		About: "irrigation through the meter",
		Kind:  Depth, Digits: 1, Better: Less, Lead: true, In: InTally | InZones,
		Get: func(c *Cell) float64 { return c.Sums.GrossMM },
	}
}

func percolationOfIrrigation() Measure {
	return sum("percolation_irrigation_mm", Depth, "irrigation that drained below the root zone",
		func(c *Cell) float64 { return c.Sums.PercIrrMM })
}

func percolation() Measure {
	return Measure{
		Key: "percolation_mm", Title: "Percolation",
		About: "irrigation and rain that drained below the root zone",
		Kind:  Depth, Digits: 1, In: InComparison | InZones | InJSON,
		Get:   func(c *Cell) float64 { return c.Sums.PercIrrMM + c.Sums.PercRainMM },
		Views: []View{{Over: PerYear, Head: "perco-\nlation\n[%s%r]", Minor: true}},
	}
}

func volume() Measure {
	return Measure{
		Key: "volume_m3", Title: "Water",
		About: "gross depth times area",
		Kind:  Volume, Better: Less, Site: Sum, Lead: true, In: InTally | InComparison | InJSON,
		Get:   func(c *Cell) float64 { return c.Sums.GrossMM / 1000 * c.areaM2 },
		Views: []View{{Over: PerYear, Head: "%s\n%p", Front: "Water"}},
	}
}

func change() Measure {
	water := volume()
	return Measure{
		Key: "change_against_baseline", Title: "Change",
		About: "volume relative to the baseline, minus 1: -0.2 is 20% less",
		Kind:  Change, Better: Less, Lead: true,
		Whole: func(c *Cells, s int, over Over) float64 {
			base := c.Site(&water, c.Table.Baseline, over)
			if base == 0 {
				return math.NaN()
			}
			return c.Site(&water, s, over)/base - 1
		},
		Views: []View{{Over: Record, Head: "vs.\nbase-\nline", Front: "Change"}},
	}
}

func needMet() Measure {
	return Measure{
		Key: "need_met", Title: "Share of need met", Kind: Share, Better: More, Empty: 1,
		About: "ETa/ETc, actual over unstressed plant water use; 1 if ETc is 0",
		Get:   func(c *Cell) float64 { return c.Sums.ETaMM },
		Per:   func(c *Cell) float64 { return c.Sums.ETcMM },
		Views: []View{{Over: Record, Head: "need\nmet\n[%]", Minor: true}},
	}
}

func shareLost() Measure {
	return Measure{
		Key: "share_lost", Title: "Share lost", Kind: Share, Better: Less,
		About: "(irrigation runoff + percolation_irrigation + spray and other losses)/gross; 0 if nothing was applied",
		Get:   func(c *Cell) float64 { return c.Sums.IrrRunoffMM + c.Sums.PercIrrMM + c.Sums.LossesMM() },
		Per:   func(c *Cell) float64 { return c.Sums.GrossMM },
		Views: []View{{Over: Record, Head: "share\nlost\n[%]", Minor: true}},
	}
}

func applicationRatio() Measure {
	return Measure{
		Key: "application_ratio", Title: "Application ratio",
		About: "gross/requirement; empty if nothing was required",
		Kind:  Number, Digits: 2,
		Empty: math.NaN(), Site: Sum, In: InTally | InComparison | InJSON,
		Get:   func(c *Cell) float64 { return c.Sums.GrossMM / 1000 * c.areaM2 },
		Per:   func(c *Cell) float64 { return c.least.GrossMM / 1000 * c.areaM2 },
		Views: []View{{Over: Record, Head: "appl.\nratio", Minor: true}},
	}
}
