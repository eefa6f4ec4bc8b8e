package quantity

// A Grade says how far a figure can be trusted. It stands beside every source.
type Grade uint8

// The grades, best first. Given is for what the user states.
const (
	Given        Grade = iota // stated in the scenario
	Measured                  // averages of field measurements
	LocalTable                // a table made for the region
	GeneralTable              // a published table for anywhere
	Memory                    // a published table, recalled and not checked
	Guess                     // our own choice
	Grades                    // how many grades there are
)

var gradeNames = [Grades]string{"given", "measured", "local table", "general table", "table from memory", "guess"}

func (g Grade) String() string { return gradeNames[g] }

// MarshalText writes the name, as JSON has it.
func (g Grade) MarshalText() ([]byte, error) { return []byte(g.String()), nil }
