package cli

import (
	"fmt"
	"runtime"
	"runtime/debug"

	"github.com/spf13/cobra"
)

// A built says what the program was built from, as far as its file states it.
type built struct {
	Program  string        `json:"program"`
	Version  string        `json:"version"`
	Revision string        `json:"revision,omitempty"` // of the source, in its version control
	Time     string        `json:"time,omitempty"`     // of the revision
	Modified bool          `json:"modified"`           // the source had changes beside the revision
	Go       string        `json:"go"`
	OS       string        `json:"os"`
	Arch     string        `json:"arch"`
	Modules  []builtModule `json:"modules"`
}

// A builtModule is a library in the program.
type builtModule struct {
	Path    string `json:"path"`
	Version string `json:"version"`
	Sum     string `json:"sum,omitempty"`
}

// builtFrom returns what info states; nil states nothing.
func builtFrom(info *debug.BuildInfo) built {
	b := built{Program: "loamledger", Version: Version, Go: runtime.Version(), OS: runtime.GOOS, Arch: runtime.GOARCH,
		Modules: []builtModule{}}
	if info == nil {
		return b
	}
	for _, s := range info.Settings {
		switch s.Key {
		case "vcs.revision":
			b.Revision = s.Value
		case "vcs.time":
			b.Time = s.Value
		case "vcs.modified":
			b.Modified = s.Value == "true"
		}
	}
	for _, m := range info.Deps {
		if m.Replace != nil {
			m = m.Replace
		}
		b.Modules = append(b.Modules, builtModule{m.Path, m.Version, m.Sum})
	}
	return b
}

// lines returns the same in words.
func (b *built) lines() []string {
	source := "source   not stated in this build"
	if b.Revision != "" {
		source = "source   " + b.Revision + " of " + b.Time
		if b.Modified {
			source += ", with changes that are not in it"
		}
	}
	return []string{
		"loamledger " + b.Version,
		source,
		fmt.Sprintf("built    with %s for %s on %s", b.Go, b.OS, b.Arch),
		fmt.Sprintf("modules  %d (--json lists them)", len(b.Modules)),
	}
}

func newVersion(s Streams) *cobra.Command {
	asJSON := false
	cmd := &cobra.Command{
		Use:   "version",
		Short: "Show the version and what it was built from",
		Long: `Shows the version of the program, the revision of its source and the version of
Go it was built with. Quote it if you report a mistake.`,
		Example: "  loamledger version --json",
		Args:    exactly(0, "no arguments"),
		RunE: func(*cobra.Command, []string) error {
			info, _ := debug.ReadBuildInfo()
			b := builtFrom(info)
			if asJSON {
				return printJSON(s.Out, &b)
			}
			printLines(s.Out, b.lines())
			return nil
		},
	}
	cmd.Flags().BoolVar(&asJSON, "json", false, "print JSON, with the version of each library")
	return cmd
}
