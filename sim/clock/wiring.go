package clock

// A Wiring says which controller opens the valve of each zone, and which meter its water
// passes. Controllers run beside each other and do not wait for each other. The zones of
// one controller wait for each other: no more than AtOnce run together, and no more than
// the flow of their meter allows. A nil Wiring is one controller that runs one zone at a
// time.
type Wiring struct {
	AtOnce    []int     // by controller: maximum number of zones at the same time; 0 for as many as the flow allows
	MeterLMin []float64 // by meter: the flow that it allows [L/min]; 0 for any
	// Controller and Meter are indexes by zone; nil for the first.
	Controller, Meter []int
}

// OneController returns the wiring of a site whose only controller runs as many zones at
// a time as a flow allows [L/min, above 0].
func OneController(flowLMin float64) *Wiring {
	return &Wiring{AtOnce: []int{0}, MeterLMin: []float64{flowLMin}}
}

// Controllers returns the number of controllers.
func (w *Wiring) Controllers() int {
	if w == nil {
		return 1
	}
	return max(len(w.AtOnce), 1)
}

// ControllerOf returns the controller of a zone.
func (w *Wiring) ControllerOf(zone int) int {
	if w == nil || w.Controller == nil {
		return 0
	}
	return w.Controller[zone]
}

// meterOf returns the meter of a zone.
func (w *Wiring) meterOf(zone int) int {
	if w == nil || w.Meter == nil {
		return 0
	}
	return w.Meter[zone]
}

// Shared reports whether zones of different controllers draw from a meter with a stated
// flow, so that together they can exceed it.
func (w *Wiring) Shared() bool {
	if w.Controllers() < 2 {
		return false
	}
	first := make([]int, len(w.MeterLMin)) // a controller of each meter, plus 1
	for z := range w.Controller {
		m, c := w.meterOf(z), w.Controller[z]+1
		switch {
		case m >= len(first) || w.MeterLMin[m] <= 0:
		case first[m] == 0:
			first[m] = c
		case first[m] != c:
			return true
		}
	}
	return false
}

// atOnce returns the maximum number of zones of a controller at the same time, 0 for any.
func (w *Wiring) atOnce(controller int) int {
	if w == nil || controller >= len(w.AtOnce) {
		return 1
	}
	return w.AtOnce[controller]
}

// allows returns the flow that the meter of a zone allows [L/min], 0 for any.
func (w *Wiring) allows(zone int) float64 {
	if m := w.meterOf(zone); w != nil && m < len(w.MeterLMin) {
		return w.MeterLMin[m]
	}
	return 0
}
