package strategy

func programsKind() Kind {
	return Kind{
		Key:     "programs",
		Doc:     "runs the named programs; a zone in several of them is watered by each",
		Example: "programs: [lawns]",
		Params:  []Param{{Type: ProgramNames, Required: true, Doc: "names of programs of the scenario"}},
		Make:    func(a Args) Part { return Programs{a[""].Programs} },
	}
}

// Programs waters by fixed programs, as a controller is set by hand.
type Programs struct{ List []Program }

// Stage returns [Water].
func (Programs) Stage() Stage { return Water }

// Apply adds the programs to the draft.
func (p Programs) Apply(d *Draft) { d.Programs = append(d.Programs, p.List...) }
