package yamlfile_test

// Errors in the site, its weather, its zones and the file itself.
func zoneFaults() []faultCase {
	return []faultCase{
		{"unknown key of a zone", "    slope: 4 %", "    slop: 4 %",
			`yard.yaml:9:5: zone "front lawn": unknown key "slop"
fix: did you mean "slope"?`},
		{"unknown key at the top", "units: us", "unit: us",
			`yard.yaml:2:1: scenario: unknown key "unit"
fix: did you mean "units"?`},
		{"a key in the wrong place", "units: us", "units: us\nstrips: 8",
			`yard.yaml:3:1: scenario: unknown key "strips"
fix: put it under site or in a zone`},
		{"a key no one knows", "units: us", "units: us\nflavour: mint",
			`yard.yaml:3:1: scenario: unknown key "flavour"
fix: valid keys: site, units, weather, zones, programs, strategies, baseline, start, limits, timer, controllers, meters, ` +
				"forecast, verdict, money, allowance, ranges, prepared_by, decision, assumed"},
		{"a name that a spreadsheet would run", "name: as found", `name: "=2+3"`,
			`yard.yaml:25:11: strategy 1: a spreadsheet would read the name "=2+3" as a formula
fix: begin it with a letter or a digit`},
		{"missing unit", "area: 2400 ft2", "area: 2400",
			`yard.yaml:6:11: zone "front lawn": area 2400 has no unit
fix: add a unit: ft2, m2, acre or ha, as in "2400 ft2"`},
		{"zero without a unit", "spray_loss: 3 %", "spray_loss: 0",
			`yard.yaml:11:76: zone "front lawn": sprinkler: spray_loss 0 has no unit
fix: add a unit: % or share, as in "0%"`},
		{"wrong unit", "rate: 1.5 in/h", "rate: 1.5 gpm",
			`yard.yaml:11:36: zone "front lawn": sprinkler: rate 1.5 gpm: "gpm" is not a unit of rate
fix: use in/h or mm/h, as in "1.5 in/h"`},
		{"thousands separator", "area: 2400 ft2", "area: 2,400 ft2",
			`yard.yaml:6:11: zone "front lawn": area "2,400" contains a comma or underscore
fix: write digits with a decimal point and no separators, as in "2400 ft2"`},
		{"area 0", "area: 2400 ft2", "area: 0 ft2",
			`yard.yaml:6:11: zone "front lawn": area 0 ft2 is outside 0.5 ft2 to 107,639,104 ft2
fix: write a value from 0.5 ft2 to 107,639,104 ft2`},
		{"negative area", "area: 2400 ft2", "area: -5 ft2",
			`yard.yaml:6:11: zone "front lawn": area -5 ft2 is outside 0.5 ft2 to 107,639,104 ft2
fix: write a value from 0.5 ft2 to 107,639,104 ft2`},
		{"area missing", "    area: 2400 ft2\n", "",
			`yard.yaml:5:5: zone "front lawn": area is missing
fix: add area with a unit: ft2, m2, acre or ha`},
		{"area without a value", "area: 2400 ft2", "area:",
			`yard.yaml:6:5: zone "front lawn": area has no value
fix: write a value, or remove the key`},
		{"DU above 1", "uniformity: 55 %", "uniformity: 155 %",
			`yard.yaml:11:58: zone "front lawn": sprinkler: uniformity 155 % is outside 25% to 100%
fix: write the low-quarter distribution uniformity, from 25% to 100%`},
		{"DU below a quarter", "uniformity: 55 %", "uniformity: 20 %",
			`yard.yaml:11:58: zone "front lawn": sprinkler: uniformity 20 % is outside 25% to 100%
fix: write the low-quarter distribution uniformity, from 25% to 100%`},
		{"both uniformity and cans", "uniformity: 55 %", "uniformity: 55 %, catch_cans: [1, 2, 3, 4, 5, 6, 7, 8]",
			`yard.yaml:11:76: zone "front lawn": sprinkler: both uniformity and catch_cans are given
fix: remove one`},
		{"too few cans", "uniformity: 55 %", "catch_cans: [1, 2, 3]",
			`yard.yaml:11:58: zone "front lawn": sprinkler: catch_cans is a list, not a list of catch-can readings
fix: write at least 8 readings, all in the same unit, as in [10, 12, 14, 16, 18, 20, 22, 24]`},
		{"cans of a zone that needs repair", "uniformity: 55 %", "catch_cans: [0, 0, 9, 9, 9, 9, 9, 9]",
			`yard.yaml:11:58: zone "front lawn": sprinkler: catch_cans give a low-quarter uniformity of 0%, below the minimum of 25%
fix: check the readings; below 25% the zone needs repair, not a schedule`},
		{"TAW 0 by root depth", "root_depth: 6 in", "root_depth: 0 in",
			`yard.yaml:10:17: zone "front lawn": root_depth 0 in is outside 0.25 in to 197 in
fix: write the depth that contains most of the roots, such as 6 in or 15 cm`},
		{"TAW 0 by awc", "soil: clay loam", "soil: {name: clay loam, awc: 0 mm/m}",
			`yard.yaml:8:34: zone "front lawn": soil: awc 0 mm/m is outside 10 mm/m to 500 mm/m
fix: write a value from 10 mm/m to 500 mm/m`},
		{"TAW next to 0", "soil: clay loam\n    slope: 4 %\n    root_depth: 6 in",
			"soil: {name: clay loam, awc: 10 mm/m}\n    slope: 4 %\n    root_depth: 0.3 in",
			`yard.yaml:5:5: zone "front lawn": TAW is 0.003 in: the soil holds almost no water
fix: check awc and root_depth`},
		{"two zones of one name", "  - name: bed", "  - name: Front lawn",
			`yard.yaml:12:11: duplicate zone name "Front lawn", see yard.yaml:5:11
fix: give each its own name; case, spaces, hyphens and the form of accented letters make no difference`},
		{"zone without a name", "  - name: bed\n    area", "  - area",
			`yard.yaml:12:5: zone 2: name is missing
fix: add name; the rest of the scenario refers to it`},
		{"negative K", "k: 0.5", "k: -0.5",
			`yard.yaml:14:16: zone "bed": plant: k -0.5 is outside 0 to 2
fix: write a value from 0 to 2`},
		{"K that is no number", "k: 0.5", "k: half",
			`yard.yaml:14:16: zone "bed": plant: k "half" is not a number
fix: write a bare number`},
		{"eleven months", "{k: 0.5, p: 0.5}", "[1,1,1,1,1,1,1,1,1,1,1]",
			`yard.yaml:14:12: zone "bed": plant has 11 numbers, not twelve
fix: write 12 numbers, one for each month, starting with January`},
		{"p of 1", "p: 0.5", "p: 1",
			`yard.yaml:14:24: zone "bed": plant: p 1 is outside 0.1 to 0.8
fix: write a value from 0.1 to 0.8`},
		{"p_adjust that is neither", "p: 0.5", "p_adjust: maybe",
			`yard.yaml:14:31: zone "bed": plant: p_adjust is the value "maybe", not true or false
fix: write true or false`},
		{"a group of no plants", "p: 0.5", "group: turf",
			`yard.yaml:14:28: zone "bed": plant: unknown group "turf"
fix: did you mean "cool-season turf" or "warm-season turf"?`},
		{"a plant nobody grows", "plant: cool-season turf", "plant: cool-saeson turf",
			`yard.yaml:7:12: zone "front lawn": plant "cool-saeson turf" is not in the catalog
fix: did you mean "cool-season turf"?`},
		{"a soil nobody knows", "soil: clay loam", "soil: clay laom",
			`yard.yaml:8:11: zone "front lawn": soil "clay laom" is not in the catalog
fix: did you mean "clay loam"?`},
		{"a soil half given", "soil: clay loam", "soil: {awc: 150 mm/m}",
			`yard.yaml:8:11: zone "front lawn": soil: intake is missing
fix: add intake, such as 9 mm/h, or name a soil from the catalog
yard.yaml:8:11: zone "front lawn": soil: surface_storage is missing
fix: add surface_storage, such as 6 mm, or name a soil from the catalog`},
		{"a sprinkler of no kind", "kind: spray", "kind: sprya",
			`yard.yaml:11:23: zone "front lawn": sprinkler: unknown kind "sprya"
fix: did you mean "spray"? Valid: spray, rotor, multi-stream, drip`},
		{"no sprinkler", "    sprinkler: {kind: drip, flow: 4 gpm}\n", "",
			`yard.yaml:12:5: zone "bed": sprinkler is missing
fix: add sprinkler: spray, or another of spray, rotor, multi-stream or drip`},
		{"drip without rate or flow", "kind: drip, flow: 4 gpm", "kind: drip",
			`yard.yaml:16:16: zone "bed": sprinkler: no default rate for drip
fix: add rate, such as 0.5 in/h, flow, such as 4 gpm, or emitters: 40 with emitter_flow: 1 gph`},
		{"rate against flow", "rate: 1.5 in/h", "rate: 1.5 in/h, flow: 12 gpm",
			`yard.yaml:11:36: zone "front lawn": sprinkler: rate 1.5 in/h and flow 12 gpm disagree: that flow on 2,400 ft² is 0.48 in/h
fix: correct rate, flow (at yard.yaml:11:52) or area, or remove the one you trust least`},
		{"a flood", "flow: 4 gpm", "flow: 4000 gpm",
			`yard.yaml:16:35: zone "bed": sprinkler: flow 4000 gpm on 600 ft² is 642 in/h, more than any sprinkler applies
fix: check flow and area`},
		{"strips of 10", "    slope: 4 %", "    slope: 4 %\n    strips: 10",
			`yard.yaml:10:13: zone "front lawn": strips 10 is not allowed: the low quarter must be a whole number of strips
fix: write 1, 4, 8, 12, 16 or 20`},
		{"strips of 8.5", "    slope: 4 %", "    slope: 4 %\n    strips: 8.5",
			`yard.yaml:10:13: zone "front lawn": strips 8.5 is not a whole number
fix: write a whole number`},
		{"site strips of 7", "elevation: 1600 ft", "elevation: 1600 ft, strips: 7",
			`yard.yaml:1:73: site: strips 7 is not allowed: the low quarter must be a whole number of strips
fix: write 1, 4, 8, 12, 16 or 20`},
		{"latitude", "latitude: 38.9", "latitude: 138.9",
			`yard.yaml:1:39: site: latitude 138.9 is outside -90 to 90
fix: write decimal degrees from -90 to 90, south negative`},
		{"latitude with a letter", "latitude: 38.9", "latitude: 38.9 N",
			`yard.yaml:1:39: site: latitude "38.9 N" is not a number
fix: write decimal degrees as a bare number, south negative, as in latitude: 38.9`},
		{"latitude in minutes", "latitude: 38.9", "latitude: 32° 17'",
			`yard.yaml:1:39: site: latitude "32° 17'" is not a number
fix: write decimal degrees as a bare number, south negative, as in latitude: 32.2833`},
		{"latitude with a decimal comma", "latitude: 38.9", `latitude: "32,28"`,
			`yard.yaml:1:39: site: latitude "32,28" contains a comma or underscore
fix: write decimal degrees as a bare number, south negative, as in latitude: 32.28`},
		{"latitude with a decimal comma in braces", "latitude: 38.9", "latitude: 32,28",
			`yard.yaml:1:42: site: unknown key "28"
fix: write a decimal point; a comma ends a value here`},
		{"latitude of the south", "latitude: 38.9", "latitude: S 33.9",
			`yard.yaml:1:39: site: latitude "S 33.9" is not a number
fix: write decimal degrees as a bare number, south negative, as in latitude: -33.9`},
		{"longitude of the west", "latitude: 38.9", "longitude: 106°30'36\" W",
			`yard.yaml:1:40: site: longitude "106°30'36\" W" is not a number
fix: write decimal degrees as a bare number, west negative, as in longitude: -106.51`},
		{"K with a decimal comma", "k: 0.5, p: 0.5", `k: "0,5"`,
			`yard.yaml:14:16: zone "bed": plant: k "0,5" contains a comma or underscore
fix: write a bare number with a decimal point, as in 0.5`},
		{"flow in a unit of volume", "flow: 4 gpm", "flow: 180 gallons",
			`yard.yaml:16:35: zone "bed": sprinkler: flow 180 gallons: "gallons" is not a unit of flow
fix: use gpm, gph, L/min, L/h, L/s or m3/h, as in "12 gpm"`},
		{"uniformity as a share", "uniformity: 55 %", "uniformity: 0.55",
			`yard.yaml:11:58: zone "front lawn": sprinkler: uniformity 0.55 has no unit
fix: add a unit: % or share, as in "55%"`},
		{"a grass by its season", "plant: cool-season turf", "plant: sunny warm season lawn",
			`yard.yaml:7:12: zone "front lawn": plant "sunny warm season lawn" is not in the catalog
fix: did you mean "warm-season turf"?`},
		{"a warm-season grass", "plant: cool-season turf", "plant: Old Bermuda Lawn",
			`yard.yaml:7:12: zone "front lawn": plant "Old Bermuda Lawn" is not in the catalog
fix: did you mean "bermudagrass"?`},
		{"a cool-season grass", "plant: cool-season turf", "plant: fescue",
			`yard.yaml:7:12: zone "front lawn": plant "fescue" could mean "cool-season turf" or "tall fescue"
fix: write "cool-season turf" or "tall fescue"`},
		{"some grass", "plant: cool-season turf", "plant: lawn",
			`yard.yaml:7:12: zone "front lawn": plant "lawn" could mean "cool-season turf" or "warm-season turf"
fix: write "cool-season turf" or "warm-season turf"`},
		{"a hedge", "plant: cool-season turf", "plant: hedge",
			`yard.yaml:7:12: zone "front lawn": plant "hedge" could mean "shrubs, dry climate" or "shrubs, humid climate"
fix: write "shrubs, dry climate" or "shrubs, humid climate"`},
		{"a sandy soil", "soil: clay loam", "soil: sandy",
			`yard.yaml:8:11: zone "front lawn": soil "sandy" could mean "sand", "loamy sand" or "sandy loam"
fix: write "sand", "loamy sand" or "sandy loam"`},
		{"a popup", "kind: spray", "kind: popup",
			`yard.yaml:11:23: zone "front lawn": sprinkler: kind "popup" could mean "spray" or "rotor"
fix: write "spray" or "rotor"`},
		{"a zone called all", "  - name: bed", "  - name: All",
			`yard.yaml:12:11: zone name "All" is reserved: it means every zone
fix: choose another name`},
		{"a zone twice in other letters", "  - name: bed", "  - name: front-lawn",
			`yard.yaml:12:11: duplicate zone name "front-lawn", see yard.yaml:5:11
fix: give each its own name; case, spaces, hyphens and the form of accented letters make no difference`},
		{"emitters without their flow", "kind: drip, flow: 4 gpm", "kind: drip, emitters: 40",
			`yard.yaml:16:16: zone "bed": sprinkler: emitter_flow is missing
fix: add emitter_flow, the flow of one emitter, as in emitter_flow: 1 gph`},
		{"a flow without emitters", "kind: drip, flow: 4 gpm", "kind: drip, emitter_flow: 1 gph",
			`yard.yaml:16:16: zone "bed": sprinkler: emitters is missing
fix: add emitters, their number, as in emitters: 40`},
		{"emitters of a spray", "rate: 1.5 in/h", "emitters: 40, emitter_flow: 1 gph",
			`yard.yaml:11:23: zone "front lawn": sprinkler: emitters belong to drip, not to spray
fix: write drip, or give rate or flow instead of emitters`},
		{"half an emitter", "kind: drip, flow: 4 gpm", "kind: drip, emitters: 40.5, emitter_flow: 1 gph",
			`yard.yaml:16:39: zone "bed": sprinkler: emitters 40.5 is not a whole number
fix: write a whole number`},
		{"emitters against flow", "kind: drip, flow: 4 gpm", "kind: drip, flow: 4 gpm, emitters: 40, emitter_flow: 1 gph",
			`yard.yaml:16:35: zone "bed": sprinkler: flow 4 gpm and the emitters disagree: 40 of 1 gph make 0.7 gpm
fix: correct one of them, or remove the one you trust least`},
		{"elevation in the wrong unit", "elevation: 1600 ft", "elevation: 1600 ft2",
			`yard.yaml:1:56: site: elevation 1600 ft2: "ft2" is not a unit of length
fix: use ft, in, m, cm or mm, as in "6 ft"`},
		{"rain method", "    slope: 4 %", "    slope: 4 %\n    rain: {method: curve}",
			`yard.yaml:10:20: zone "front lawn": rain: unknown method "curve"
fix: did you mean "curve number"?`},
		{"effective of a curve number", "    slope: 4 %", "    slope: 4 %\n    rain: {method: curve number, effective: 80 %}",
			`yard.yaml:10:45: zone "front lawn": rain: effective requires method: share
fix: remove it, or write method: share`},
		{"coefficient set", "    slope: 4 %", "    slope: 4 %\n    coefficients: FAO-5",
			`yard.yaml:10:19: zone "front lawn": unknown coefficient set "FAO-5"
fix: did you mean "FAO-56"? Valid: S623, FAO-56, UC, LCM, Arizona, Florida`},
		{"set without this plant", "plant: cool-season turf", "plant: desert plants\n    coefficients: UC",
			`yard.yaml:8:19: zone "front lawn": set UC has no coefficient for desert plants
fix: write coefficients: S623 in this zone, or give k`},
		{"cover", "    slope: 4 %", "    slope: 4 %\n    cover: lawn, god",
			`yard.yaml:10:12: zone "front lawn": cover is the value "lawn, god", which is not in the catalog
fix: did you mean "lawn, good"?`},
		{"start above full", "units: us", "units: us\nstart: {depletion: 130 %}",
			`yard.yaml:3:20: start: depletion 130 % is outside 0% to 100%
fix: write the depletion of all zones on the first day as a share of TAW, such as 30%`},
		{"units", "units: us", "units: both",
			`yard.yaml:2:8: scenario: unknown units "both"
fix: write one of: us, si`},
		{"two values under one key", "units: us", "units: us\nunits: si",
			`yard.yaml:3:1: duplicate key "units", see yard.yaml:2:1
fix: remove one`},
		{"no weather", "weather: {file: weather.csv, wind_height: 2 m}\n", "",
			`yard.yaml:1:1: scenario: weather is missing
fix: add weather: {file: weather.csv}`},
		{"weather without a file", "file: weather.csv, ", "",
			`yard.yaml:3:10: weather: file is missing
fix: add file, the name of a weather file in the scenario's folder`},
		{"weather file twice", "file: weather.csv", "file: [weather.csv, weather.csv]",
			`yard.yaml:3:31: weather: file: duplicate file "weather.csv", see yard.yaml:3:18
fix: name each file once`},
		{"an anchor", "units: us", "units: &u us",
			`yard.yaml:2:8: anchors, aliases and merge keys (& * <<) are not supported
fix: write the values out`},
		{"broken YAML", "units: us", "units: [us",
			`yard.yaml:3:1: invalid YAML: ',' or ']' must be specified
fix: check the indentation, the space after each colon and dash, and the quotes around text with special characters`},
		{"a tab", "    slope: 4 %", "\tslope: 4 %",
			`yard.yaml:9:1: the line is indented with a tab
fix: indent with spaces`},
		{"many faults at once", "area: 2400 ft2\n    plant: cool-season turf\n    soil: clay loam\n    slope: 4 %",
			"area: 2400\n    plant: cool turff\n    soil: caly\n    slope: 4 in",
			`yard.yaml:6:11: zone "front lawn": area 2400 has no unit
fix: add a unit: ft2, m2, acre or ha, as in "2400 ft2"
yard.yaml:7:12: zone "front lawn": plant "cool turff" is not in the catalog
fix: did you mean "cool-season turf"?
yard.yaml:8:11: zone "front lawn": soil "caly" is not in the catalog
fix: did you mean "clay"?
yard.yaml:9:12: zone "front lawn": slope 4 in: "in" is not a unit of share
fix: use % or share, as in "50%"`},
	}
}
