package weather

import "loamledger/weather/cal"

// A Finding is one kind of defect in one record: what it is, how often it was
// met, the worst case and what was done. Findings travel with the record to
// the screen, the report and run.json.
type Finding struct {
	Code    Code      // which of [Codes] it is
	What    string    // the rule in words, with the numbers it uses
	Column  string    // the key of the column concerned, or "" for whole days
	Count   int       // number of days or rows
	Worst   cal.Date  // date of the worst case
	Detail  string    // the worst case in words, with its line where known
	Suspect Suspicion // what the whole column looks like; empty for nothing
	Action  string    // what was done: "kept", "value dropped", "day refused", ...
	Source  string    // the publication the rule is from, or "common practice, no source"
}

// A Record is a station's series with all that was learned in reading it.
type Record struct {
	Series
	File        string    // display name of the file
	Layout      string    // name of the recognised layout
	Assumptions []string  // what the file does not state and how it was settled
	Findings    []Finding // in the order met
}
