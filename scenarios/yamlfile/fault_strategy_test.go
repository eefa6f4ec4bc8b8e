package yamlfile_test

// Errors in programs and strategies.
func strategyFaults() []faultCase {
	return []faultCase{
		{"minutes for an unknown zone", "minutes: {front lawn: 20}", "minutes: {front lwan: 20}",
			`yard.yaml:21:15: program "lawns": unknown zone "front lwan"
fix: did you mean "front lawn"? Valid: front lawn, bed`},
		{"minutes above a day", "minutes: {front lawn: 20}", "minutes: {front lawn: 2000}",
			`yard.yaml:21:27: program "lawns": minutes of front lawn 2000 is outside 0 to 1,440
fix: write 0 to 1440 minutes per start`},
		{"minutes in a wrong unit", "minutes: {front lawn: 20}", "minutes: {front lawn: 20 in}",
			`yard.yaml:21:27: program "lawns": minutes of front lawn 20 in: "in" is not a unit of time
fix: use min, h or s, as in "20 min"`},
		{"minutes as a list", "minutes: {front lawn: 20}", "minutes: [20]",
			`yard.yaml:21:14: program "lawns": minutes is a list, not zones with run times
fix: write zones with their run times, as in {front lawn: 20}`},
		{"a strategy with an empty list of programs", "  - name: as found\n    programs: [lawns]", "  - name: as found\n    programs: []",
			`yard.yaml:26:15: strategy "as found": programs is empty
fix: write at least one program, or remove programs`},
		{"weekday typo", "days: [mon, wed, fri]", "days: [mon, wde, fri]",
			`yard.yaml:19:17: program "lawns": days: the value "wde" is not a weekday
fix: did you mean "wed"? Valid: sun, mon, tue, wed, thu, fri, sat`},
		{"weekday twice", "days: [mon, wed, fri]", "days: [mon, wed, monday]",
			`yard.yaml:19:22: program "lawns": days: duplicate day monday
fix: remove one`},
		{"days that are none", "days: [mon, wed, fri]", "days: sometimes",
			`yard.yaml:19:11: program "lawns": days: the value "sometimes" is not a rule for days
fix: write one of: any, odd, even, sun, mon, tue, wed, thu, fri, sat`},
		{"an interval in a sentence", "days: [mon, wed, fri]", "days: every 3 days",
			`yard.yaml:19:11: program "lawns": days: the value "every 3 days" is not a rule for days
fix: write {every: 3 days, from: 2024-01-01}, where from is a watering day`},
		{"every second day", "days: [mon, wed, fri]", "days: every other day",
			`yard.yaml:19:11: program "lawns": days: "every other day" could mean {every: 2 days, from: 2024-01-01}, odd or even
fix: write {every: 2 days, from: 2024-01-01}, odd or even`},
		{"two days a week", "days: [mon, wed, fri]", "days: 2 x week",
			`yard.yaml:19:11: program "lawns": days: "2 x week" could mean [mon, thu] or [tue, fri]
fix: write [mon, thu] or [tue, fri]`},
		{"a letter of two days", "days: [mon, wed, fri]", "days: [mon, T]",
			`yard.yaml:19:17: program "lawns": days: "T" could mean "tue" or "thu"
fix: write "tue" or "thu"`},
		{"a season in place of a date", "    starts: [\"05:30\"]", "    starts: [\"05:30\"]\n    from: 05-01\n    to: 2014-10-15",
			`yard.yaml:21:11: program "lawns": from is the value "05-01", not a date: it has no year
fix: write a date with its year, as in 2012-05-01, or, for every year, remove it and add season: {start: 05-01, end: 10-31} to a strategy`},
		{"a day of two months", "    et_percent: {design_eto: 0.25 in, days: 7 days}", "    season: {start: 4/5, end: 10-15}",
			`yard.yaml:29:21: strategy "weather": season: start "4/5" could mean 04-05 or 05-04
fix: write 04-05 or 05-04`},
		{"a date of one year in a season", "    et_percent: {design_eto: 0.25 in, days: 7 days}", "    season: {start: 2014-04-05, end: 10-15}",
			`yard.yaml:29:21: strategy "weather": season: start is the value "2014-04-05", not a day of the year
fix: write month and day, 04-05, which are for every year`},
		{"a zone twice in one program", "minutes: {front lawn: 20}", "minutes: {front lawn: 20, Front-Lawn: 10}",
			`yard.yaml:21:31: program "lawns": duplicate zone "Front-Lawn", see yard.yaml:21:15
fix: remove one`},
		{"a strategy called all", "  - name: weather", "  - name: all",
			`yard.yaml:27:11: strategy name "all" is reserved: it means every strategy
fix: choose another name`},
		{"minutes like a clock", "minutes: {front lawn: 20}", "minutes: {front lawn: '1:30'}",
			`yard.yaml:21:27: program "lawns": minutes of front lawn "1:30" looks like a time of day, not a duration
fix: write "90 min" if these are hours and minutes, or "1.5 min" if minutes and seconds`},
		{"a share without unit", "    et_percent: {design_eto: 0.25 in, days: 7 days}", "    refill: {zones: all, mad: 0.5}",
			`yard.yaml:29:31: strategy "weather": refill: mad 0.5 has no unit
fix: add a unit: % or share, as in "50%"`},
		{"interval without a first day", "days: [mon, wed, fri]", "days: {every: 3 days}",
			`yard.yaml:19:11: program "lawns": days: from is missing
fix: add from, a watering day, as in from: 2012-01-01`},
		{"interval of half days", "days: [mon, wed, fri]", "days: {every: 36 h, from: 2012-01-01}",
			`yard.yaml:19:19: program "lawns": days: every 36 h is not a whole number
fix: write a whole number`},
		{"interval from no day", "days: [mon, wed, fri]", "days: {every: 3 days, from: 2012-02-30}",
			`yard.yaml:19:33: program "lawns": days: from is the value "2012-02-30", not a date
fix: write a date as in 2012-01-01`},
		{"start after the day", `["05:30"]`, `["25:30"]`,
			`yard.yaml:20:14: program "lawns": start "25:30" is not a time of day
fix: write the hour from 00 to 23 and the minute, as in "05:30"`},
		{"start without its half of the day", `["05:30"]`, "[5]",
			`yard.yaml:20:14: program "lawns": start "5" could mean "05:00" or "17:00"
fix: write "05:00" or "17:00"`},
		{"start as a number of minutes", `["05:30"]`, "[330]",
			`yard.yaml:20:14: program "lawns": start "330" could mean "03:30" or "05:30"
fix: write "03:30" or "05:30"`},
		{"start twice", `["05:30"]`, `["05:30", "5:30"]`,
			`yard.yaml:20:23: program "lawns": duplicate start 5:30
fix: remove or change one`},
		{"soak without cycle", "    cycle: 8 min\n", "",
			`yard.yaml:22:11: program "lawns": soak has no effect without cycle
fix: add cycle, the maximum run at a time, or remove soak`},
		{"unknown program", "  - name: as found\n    programs: [lawns]", "  - name: as found\n    programs: [lawn]",
			`yard.yaml:26:16: strategy "as found": unknown program "lawn"
fix: did you mean "lawns"?`},
		{"program twice", "  - name: as found\n    programs: [lawns]", "  - name: as found\n    programs: [lawns, lawns]",
			`yard.yaml:26:23: strategy "as found": duplicate program "lawns"
fix: remove one; to water twice, add a start to the program`},
		{"two strategies of one name", "  - name: weather", "  - name: as found",
			`yard.yaml:27:11: duplicate strategy name "as found", see yard.yaml:25:11
fix: give each its own name; case, spaces, hyphens and the form of accented letters make no difference`},
		{"the name of a reference", "  - name: weather", "  - name: No watering",
			`yard.yaml:27:11: strategy name "No watering" is reserved for a reference strategy
fix: choose another name`},
		{"strategy without water", "  - name: as found\n    programs: [lawns]", "  - name: as found\n    monthly: [1,1,1,1,1,1,1,1,1,1,1,1]",
			`yard.yaml:25:5: strategy "as found": never waters
fix: add programs or refill; every replay already includes no watering`},
		{"unknown part", "    et_percent", "    et_procent",
			`yard.yaml:29:5: strategy "weather": unknown key "et_procent"
fix: did you mean "et_percent"?`},
		{"unknown parameter", "days: 7 days", "dayz: 7 days",
			`yard.yaml:29:39: strategy "weather": et_percent: unknown key "dayz"
fix: did you mean "days"?`},
		{"required parameter", "    et_percent: {design_eto: 0.25 in, days: 7 days}", "    sensor: {error: 5%}",
			`yard.yaml:29:13: strategy "weather": sensor: permit_at is missing
fix: add it: depletion, as a share of TAW, at or above which watering is permitted; ` +
				`for example sensor: {permit_at: 40%, placement: average, error: 5%}`},
		{"a word that is no design ETo", "design_eto: 0.25 in", "design_eto: high",
			`yard.yaml:29:30: strategy "weather": et_percent: design_eto "high" is not a number with a unit
fix: write a number and a unit: in, mm or cm, as in "0.25 in"`},
		{"parameter out of range", "days: 7 days", "days: 400 days",
			`yard.yaml:29:45: strategy "weather": et_percent: days 400 days is outside 1 day to 60 days
fix: write a value from 1 day to 60 days`},
		{"unknown hold", "hold: {rain:", "hold: {rian:",
			`yard.yaml:30:12: strategy "weather": hold: unknown key "rian"
fix: did you mean "rain"?`},
		{"eleven percentages", "    et_percent: {design_eto: 0.25 in, days: 7 days}", "    monthly: [0,0,0,0,0,0,0,0,0,0,0]",
			`yard.yaml:29:14: strategy "weather": monthly is 11 values, not twelve percentages
fix: write 12 percentages, one for each month, starting with January`},
		{"negative percentage", "    et_percent: {design_eto: 0.25 in, days: 7 days}", "    monthly: [0,0,0,0,0,-5,0,0,0,0,0,0]",
			`yard.yaml:29:25: strategy "weather": monthly -5 is outside 0 to 1,000
fix: write a value from 0 to 1,000`},
		{"refill of an unknown zone", "    et_percent: {design_eto: 0.25 in, days: 7 days}", "    refill: {zones: [bde]}",
			`yard.yaml:29:22: strategy "weather": refill: unknown zone "bde"
fix: did you mean "bed"? Valid: front lawn, bed`},
		{"sensor placed elsewhere", "    et_percent: {design_eto: 0.25 in, days: 7 days}", "    sensor: {permit_at: 40 %, placement: middle}",
			`yard.yaml:29:42: strategy "weather": sensor: placement is the value "middle", which is not a valid choice
fix: write one of: driest, average, wettest`},
	}
}
