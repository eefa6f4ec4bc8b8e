package ask

import "loamledger/weather/quantity"

// A Kind says how a part of a question is answered. In all of them the answer is a
// text, and an empty text is "don't know".
type Kind string

// The kinds.
const (
	Choice Kind = "choice" // the ID of one of Choices
	Number Kind = "number" // a number with its unit, or a bare number in Part.Unit if that is stated
	Text   Kind = "text"   // any one line
	Place  Kind = "place"  // latitude, or latitude and longitude, in decimal degrees
	Days   Kind = "days"   // weekdays, odd, even, any, or every 3 days
	Times  Kind = "times"  // start times, such as 05:30, 22:00
	Hours  Kind = "hours"  // hours between two times, such as 20:00-08:00
	Months Kind = "months" // a range of months, such as Apr-Oct, or all
	File   Kind = "file"   // the name of a file
)

// A Question is one of the ten. Parts are asked in order; those of a question with
// Many are asked once for each zone.
type Question struct {
	ID    string `json:"id"`
	Title string `json:"title"` // two or three words, a heading
	Text  string `json:"text"`  // the question
	Help  string `json:"help"`  // why it is asked and how to find out
	Many  bool   `json:"many"`  // parts are repeated: one set for each zone
	Parts []Part `json:"parts"`
}

// A Part is one entry of a question.
type Part struct {
	ID      string `json:"id"`
	Name    string `json:"name"` // a word or two, for a list
	Text    string `json:"text"`
	Help    string `json:"help,omitempty"`
	Kind    Kind   `json:"kind"`
	Later   bool   `json:"later,omitempty"`   // not asked in turn: its default is listed at the end, where it can be changed
	Each    bool   `json:"each,omitempty"`    // asked once for each zone
	Several bool   `json:"several,omitempty"` // asked only if there are several zones
	// Unit is the unit of a bare number, and Example an answer that would be read, in US
	// units and in SI. Without a Unit, a bare number is an error.
	Unit    Pair     `json:"unit"`
	Example Pair     `json:"example"`
	Choices []Option `json:"choices,omitempty"`
	When    *When    `json:"when,omitempty"` // nil: always asked

	at     func(*Answers, int) *string
	unsaid func(*Answers, int) Default
}

// A Pair is a text in both systems of units.
type Pair struct {
	US string `json:"us,omitempty"`
	SI string `json:"si,omitempty"`
}

// same is a text that is the same in both.
func same(text string) Pair { return Pair{text, text} }

// In returns the text for the units of answers.
func (p Pair) In(a *Answers) string {
	if a.si() {
		return p.SI
	}
	return p.US
}

// An Option is one choice.
type Option struct {
	ID   string `json:"id"`
	Text string `json:"text"`
	Help string `json:"help,omitempty"`
}

// A When says that a part is asked only if another part of the same question, or
// of the question named, has one of the answers. An empty text in Is is "don't know".
type When struct {
	Question string   `json:"question"`
	Part     string   `json:"part"`
	Is       []string `json:"is"`
}

// A Default is what answers "don't know".
type Default struct {
	Answer string         `json:"answer"` // as it would have been typed; empty if the scenario's own default is used, or nothing is
	Text   string         `json:"text"`   // what is used, in words with units
	Source string         `json:"source"`
	Grade  quantity.Grade `json:"grade"`
	None   bool           `json:"none,omitempty"` // nothing is assumed: the matter is left out
}

// An At locates an answer. Zone counts from 0; it is -1 for what is asked once.
type At struct {
	Question string `json:"question"`
	Part     string `json:"part"`
	Zone     int    `json:"zone"`
}
