package cli

import (
	"loamledger/scenarios"
	"loamledger/scenarios/runfile"
	"loamledger/scenarios/study"
	"loamledger/sim/tally"
	"path/filepath"
	"slices"
)

// warnOfChanges warns of what differs from the run that is repeated: a scenario
// that was edited in run.json, and files with another content.
func (l *loaded) warnOfChanges() {
	if l.repeated == nil {
		return
	}
	if l.repeated.Changed {
		l.Scenario.Warn(scenarios.Warning{Code: scenarios.RecordEdited}, "the scenario in %s was changed after the run", filepath.Base(l.read[0].Name))
	}
	for _, then := range l.repeated.Files {
		for _, now := range l.read {
			if filepath.Base(now.Name) == then.Name && now.SHA256 != then.SHA256 {
				l.Scenario.Warn(scenarios.Warning{Code: scenarios.OtherFile}, "%s is not the file of the recorded run: its content differs", then.Name)
			}
		}
	}
}

// A runRecord is run.json: what it takes to repeat the run, and what came out.
// The replay command reads it again, by package runfile.
type runRecord struct {
	study.RunRecord
	runfile.Record
}

// record returns what goes into run.json.
func (l *loaded) record(t *tally.Table) runRecord {
	out := runRecord{l.RunRecord(t), runfile.New(l.Scenario)}
	if l.repeats() {
		out.ScenarioFile = l.repeated.Name
	}
	return out
}

// repeats reports whether the scenario is that of an earlier run, unchanged.
func (l *loaded) repeats() bool { return l.repeated != nil && !l.repeated.Changed }

// sources returns the files behind the results, without their folders. Where a
// run is repeated from its run.json, unchanged, these are the files of that run.
func (l *loaded) sources() []study.InputFile {
	var out []study.InputFile
	for _, f := range l.read {
		f.Name = filepath.Base(f.Name)
		out = append(out, f)
	}
	if !l.repeats() {
		return out
	}
	read := out
	out = nil
	for _, then := range l.repeated.Files {
		if i := slices.IndexFunc(read, func(f study.InputFile) bool { return f.Name == then.Name }); i >= 0 {
			out = append(out, read[i])
		} else {
			out = append(out, study.InputFile{Name: then.Name, SHA256: then.SHA256, Bytes: then.Bytes})
		}
	}
	return out
}
