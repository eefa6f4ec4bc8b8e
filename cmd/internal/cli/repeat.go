package cli

import (
	"path/filepath"
	"slices"

	"loamledger/cmd/internal/outdir"
	"loamledger/scenarios"
	"loamledger/scenarios/runfile"
	"loamledger/scenarios/study"
	"loamledger/sim/tally"
)

// warnOfChanges warns if a repeated run differs from the original: if the
// scenario in run.json was edited or an input file has changed.
func (l *loaded) warnOfChanges() {
	if l.repeated == nil {
		return
	}
	if l.repeated.Changed {
		name := filepath.Base(l.read[0].Name)
		l.Scenario.Warn(scenarios.Warning{Code: scenarios.RecordEdited}, "the scenario in %s was edited after the run", name)
	}
	for _, then := range l.repeated.Files {
		for _, now := range l.read {
			if filepath.Base(now.Name) == then.Name && now.SHA256 != then.SHA256 {
				l.Scenario.Warn(scenarios.Warning{Code: scenarios.OtherFile}, "%s differs from the file in the recorded run", then.Name)
			}
		}
	}
}

// A runRecord is the content of run.json: what is needed to repeat the run, and
// the results. The replay command reads it with package runfile.
type runRecord struct {
	study.RunRecord
	runfile.Record
	Skill  []study.SkillRecord   `json:"forecast_skill,omitempty"`
	Coming *study.ComingRecord   `json:"coming_days,omitempty"`
	Meters []study.MeteredRecord `json:"metered,omitempty"`
	// Ranges are what draws say; nil without draws.
	Ranges *study.DrawRecord `json:"ranges,omitempty"`
	// Outputs has the hash of each file that the run wrote, run.json included, whose
	// own hash counts as zeros: only what still is as written may be replaced.
	Outputs []outdir.Output `json:"outputs"`
}

// record returns the content of run.json.
func (l *loaded) record(t *tally.Table, ahead *study.Coming) runRecord {
	if l.Ranges != nil {
		l.Scenario.RecordRanges(l.Ranges.Draws)
	}
	out := runRecord{l.RunRecord(t), runfile.New(l.Scenario), l.SkillRecords(), l.ComingRecord(ahead), l.MeteredRecords(l.metered),
		l.DrawRecords(t), nil}
	if l.repeats() {
		out.ScenarioFile = l.repeated.Name
	}
	return out
}

// repeats reports whether this repeats an earlier run with the same scenario.
func (l *loaded) repeats() bool { return l.repeated != nil && !l.repeated.Changed }

// sources returns the input files, without their folders. For a run repeated
// from its unedited run.json, these are the files of that run.
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
