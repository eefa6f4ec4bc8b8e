package weather

import "loamledger/weather/cal"

// A Finding is one kind of data-quality issue in a record: what it is, how
// often it occurred, the worst case and what was done. Findings appear on the
// screen, in the report and in run.json.
type Finding struct {
	Code    Code      // one of [Codes]
	What    string    // the rule in words, with its numbers
	Column  string    // the key of the column, or "" for whole days
	Count   int       // number of days or rows
	Worst   cal.Date  // date of the worst case
	File    string    // display name of its file, if it is not [Record.File]
	Line    int       // its line in the file; 0 if unknown, or if the finding is about a whole column
	Detail  string    // the worst case in words, with its line if known
	Suspect Suspicion // what the whole column looks like; empty for no suspicion
	Action  string    // what was done: "kept", "value dropped", "day refused", ...
	Source  string    // the publication behind the rule, or "common practice, no source"
}

// A Record is a station's series with everything learned while reading it.
type Record struct {
	Series
	File        string     // display name of the file
	Layout      string     // name of the detected layout
	Assumptions []string   // what was assumed where the file is silent
	OtherET     []string   // ET columns of the file that are not read as reference ET, each with the reason
	Findings    []Finding  // in the order found
	Evidence    []Evidence // for and against each system of units, if the file states none
	Rows        []Rows     // where each day stands in its file
}
