package yamlfile_test

// Faults in programs and strategies.
func strategyFaults() []faultCase {
	return []faultCase{
		{"minutes for an unknown zone", "minutes: {front lawn: 20}", "minutes: {front lwan: 20}",
			`yard.yaml:21:15: program "lawns": there is no zone "front lwan"
fix: did you mean "front lawn"? Known: front lawn, bed`},
		{"minutes above a day", "minutes: {front lawn: 20}", "minutes: {front lawn: 2000}",
			`yard.yaml:21:27: program "lawns": minutes of front lawn 2000 is outside 0 to 1,440
fix: write minutes, from 0 to 1440 for each start`},
		{"minutes in a wrong unit", "minutes: {front lawn: 20}", "minutes: {front lawn: 20 in}",
			`yard.yaml:21:27: program "lawns": minutes of front lawn 20 in: "in" is not a unit of time
fix: use min, h or s, as in "20 min"`},
		{"minutes as a list", "minutes: {front lawn: 20}", "minutes: [20]",
			`yard.yaml:21:14: program "lawns": minutes is a list, not zones with their minutes
fix: write zones with their minutes, as in {front lawn: 20}`},
		{"weekday typo", "days: [mon, wed, fri]", "days: [mon, wde, fri]",
			`yard.yaml:19:17: program "lawns": days: the value "wde" is no weekday
fix: did you mean "wed"? Known: sun, mon, tue, wed, thu, fri, sat`},
		{"weekday twice", "days: [mon, wed, fri]", "days: [mon, wed, monday]",
			`yard.yaml:19:22: program "lawns": days: monday is given twice
fix: take one out`},
		{"days that are none", "days: [mon, wed, fri]", "days: sometimes",
			`yard.yaml:19:11: program "lawns": days: the value "sometimes" names no days
fix: write one of: any, odd, even, sun, mon, tue, wed, thu, fri, sat`},
		{"an interval in a sentence", "days: [mon, wed, fri]", "days: every 3 days",
			`yard.yaml:19:11: program "lawns": days: the value "every 3 days" names no days
fix: write {every: 3 days, from: 2024-01-01}, from being a day on which it waters`},
		{"every second day", "days: [mon, wed, fri]", "days: every other day",
			`yard.yaml:19:11: program "lawns": days: the value "every other day" names no days
fix: write {every: 2 days, from: 2024-01-01}, from being a day on which it waters`},
		{"days without brackets", "days: [mon, wed, fri]", "days: Tuesdays, sat",
			`yard.yaml:19:11: program "lawns": days: the value "Tuesdays, sat" names no days
fix: write a list: [tue, sat]`},
		{"every day", "days: [mon, wed, fri]", "days: daily",
			`yard.yaml:19:11: program "lawns": days: the value "daily" names no days
fix: write any`},
		{"minutes like a clock", "minutes: {front lawn: 20}", "minutes: {front lawn: '1:30'}",
			`yard.yaml:21:27: program "lawns": minutes of front lawn "1:30" looks like a time of day, not a duration
fix: write "90 min" if these are hours and minutes, or "1.5 min" if minutes and seconds`},
		{"a share without unit", "    et_percent: {design: 0.25 in, over: 7 days}", "    refill: {zones: all, mad: 0.5}",
			`yard.yaml:29:31: strategy "weather": refill: mad 0.5 has no unit
fix: add a unit: % or share, as in "50 %"`},
		{"interval without a first day", "days: [mon, wed, fri]", "days: {every: 3 days}",
			`yard.yaml:19:11: program "lawns": days: from is missing
fix: add from, a day on which it waters, as in from: 2012-01-01`},
		{"interval of half days", "days: [mon, wed, fri]", "days: {every: 36 h, from: 2012-01-01}",
			`yard.yaml:19:19: program "lawns": days: every 36 h is not a whole number
fix: write a whole number`},
		{"interval from no day", "days: [mon, wed, fri]", "days: {every: 3 days, from: 2012-02-30}",
			`yard.yaml:19:33: program "lawns": days: from is the value "2012-02-30", not a calendar day
fix: write a day as in 2012-01-01`},
		{"start after the day", `["05:30"]`, `["25:30"]`,
			`yard.yaml:20:14: program "lawns": start "25:30" is not a time of day
fix: write the hour from 00 to 23 and the minute, as in "05:30"`},
		{"start with a half of the day", `["05:30"]`, "[5:30 am]",
			`yard.yaml:20:14: program "lawns": start "5:30 am" is not a time of day
fix: write the hour from 00 to 23 and the minute, as in "05:30"`},
		{"start twice", `["05:30"]`, `["05:30", "5:30"]`,
			`yard.yaml:20:23: program "lawns": start 5:30 is given twice
fix: take one out, or change it`},
		{"soak without cycle", "    cycle: 8 min\n", "",
			`yard.yaml:22:11: program "lawns": soak without cycle does nothing
fix: add cycle, the longest run at a time, or take soak out`},
		{"unknown program", "  - name: as found\n    programs: [lawns]", "  - name: as found\n    programs: [lawn]",
			`yard.yaml:26:16: strategy "as found": there is no program "lawn"
fix: did you mean "lawns"?`},
		{"program twice", "  - name: as found\n    programs: [lawns]", "  - name: as found\n    programs: [lawns, lawns]",
			`yard.yaml:26:23: strategy "as found": program "lawns" is named twice
fix: take one out; to water twice give the program another start`},
		{"two strategies of one name", "  - name: weather", "  - name: as found",
			`yard.yaml:27:11: strategy name "as found" is taken already at yard.yaml:25:11
fix: give each its own name`},
		{"the name of a reference", "  - name: weather", "  - name: No watering",
			`yard.yaml:27:11: strategy name "No watering" is that of a reference strategy, which is in every replay
fix: choose another name`},
		{"strategy without water", "  - name: as found\n    programs: [lawns]", "  - name: as found\n    monthly: [1,1,1,1,1,1,1,1,1,1,1,1]",
			`yard.yaml:25:5: strategy "as found": nothing in it waters
fix: add programs or refill; a strategy without water is in every replay`},
		{"unknown part", "    et_percent", "    et_procent",
			`yard.yaml:29:5: strategy "weather": unknown key "et_procent"
fix: did you mean "et_percent"?`},
		{"unknown parameter", "over: 7 days", "ovr: 7 days",
			`yard.yaml:29:35: strategy "weather": et_percent: unknown key "ovr"
fix: did you mean "over"?`},
		{"required parameter", "design: 0.25 in, ", "",
			`yard.yaml:29:17: strategy "weather": et_percent: design is missing
fix: add it: ETo of a day for which the program's minutes are meant; for example et_percent: {design: 0.25 in, over: 7 days, count_rain: true, most: 150 %}`},
		{"parameter out of range", "over: 7 days", "over: 400 days",
			`yard.yaml:29:41: strategy "weather": et_percent: over 400 days is outside 1 day to 60 days
fix: write a value from 1 day to 60 days`},
		{"unknown skip", "skip: {rain:", "skip: {rian:",
			`yard.yaml:30:12: strategy "weather": skip: unknown key "rian"
fix: did you mean "rain"?`},
		{"eleven percentages", "    et_percent: {design: 0.25 in, over: 7 days}", "    monthly: [0,0,0,0,0,0,0,0,0,0,0]",
			`yard.yaml:29:14: strategy "weather": monthly is 11 values, not twelve percentages
fix: write twelve percentages, January first`},
		{"negative percentage", "    et_percent: {design: 0.25 in, over: 7 days}", "    monthly: [0,0,0,0,0,-5,0,0,0,0,0,0]",
			`yard.yaml:29:25: strategy "weather": monthly -5 is outside 0 to 1,000
fix: write a value from 0 to 1,000`},
		{"refill of an unknown zone", "    et_percent: {design: 0.25 in, over: 7 days}", "    refill: {zones: [bde]}",
			`yard.yaml:29:22: strategy "weather": refill: there is no zone "bde"
fix: did you mean "bed"? Known: front lawn, bed`},
		{"sensor placed elsewhere", "    et_percent: {design: 0.25 in, over: 7 days}", "    sensor: {permit_at: 40 %, placement: middle}",
			`yard.yaml:29:42: strategy "weather": sensor: placement is the value "middle", which is not known
fix: write one of: driest, average, wettest`},
	}
}
