package quantity

// A Grade says how reliable a value is. It appears next to every source.
type Grade uint8

// The grades, best first. Given is for what the user states.
const (
	Given        Grade = iota // stated in the scenario
	Measured                  // averages of field measurements at other sites
	LocalTable                // a table for the region
	GeneralTable              // a published general table
	Memory                    // a published table, quoted from memory
	Guess                     // assumption by loamledger
	Grades                    // how many grades there are
)

var gradeNames = [Grades]string{"given", "measured elsewhere", "local table", "general table", "published table, from memory", "guess"}

func (g Grade) String() string { return gradeNames[g] }

// MarshalText writes the name, for JSON.
func (g Grade) MarshalText() ([]byte, error) { return []byte(g.String()), nil }
