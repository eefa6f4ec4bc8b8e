package sim

// An EndCause is why a device stops working.
type EndCause string

// The causes.
const (
	NeverEnds  EndCause = "none"
	Failed     EndCause = "failed"
	Unplugged  EndCause = "unplugged"
	Overridden EndCause = "overridden" // from the start
)

// An Ending is the age at which a device stops working [years], +Inf for never, and why.
type Ending struct {
	Age   float64
	Cause EndCause
}
