package yamlfile_test

// Errors in what the timer can be set to.
func timerFaults() []faultCase {
	return []faultCase{
		{"an unknown timer", "units: us", "units: us\ntimer: plane",
			`yard.yaml:3:8: unknown timer "plane"
fix: write one of: plain, with cycle and soak; or write its values, as in ` +
				`timer: {programs: 3, starts: 4, percent_step: 10%, min_minutes: 1, cycle: no}`},
		{"an unknown key of a timer", "units: us", "units: us\ntimer: {program: 3}",
			`yard.yaml:3:9: timer: unknown key "program"
fix: did you mean "programs"?`},
		{"no programs", "units: us", "units: us\ntimer: {programs: 0}",
			`yard.yaml:3:19: timer: programs 0 is outside 1 to 24
fix: write a value from 1 to 24`},
		{"half a start", "units: us", "units: us\ntimer: {starts: 2.5}",
			`yard.yaml:3:17: timer: starts 2.5 is not a whole number
fix: write a whole number`},
		{"a step that does not divide", "units: us", "units: us\ntimer: {percent_step: 15%}",
			`yard.yaml:3:23: timer: percent_step 15% does not divide 100% evenly
fix: write 1%, 2%, 5%, 10%, 20%, 25%, 50%`},
		{"a step without a unit", "units: us", "units: us\ntimer: {percent_step: 10}",
			`yard.yaml:3:23: timer: percent_step 10 has no unit
fix: add a unit: % or share, as in "10%"`},
		{"half a minute", "units: us", "units: us\ntimer: {min_minutes: 30 s}",
			`yard.yaml:3:22: timer: min_minutes 30 s is outside 60 s to 3,600 s
fix: write whole minutes from 1 to 60`},
		{"an unclear cycle", "units: us", "units: us\ntimer: {cycle: 8 min}",
			`yard.yaml:3:16: timer: cycle is the value "8 min", not true or false
fix: write true or false`},
	}
}
