package cli

import "github.com/spf13/cobra"

// renamedCommands lists commands whose name has changed: old name, new name.
var renamedCommands = [...][2]string{
	{"catalogue", "catalog"},
	{"deficit", "tradeoff"},
	{"forecast", "score"},
	{"invent", "generate"},
}

// currentCommand returns the new name of a command that was renamed.
func currentCommand(old string) (name string, ok bool) {
	for _, r := range renamedCommands {
		if r[0] == old {
			return r[1], true
		}
	}
	return "", false
}

// renamedFlags lists flags whose name has changed: old name, new name.
var renamedFlags = [...][2]string{
	{"above", "rain-threshold"},
	{"coast", "coastal"},
	{"coming", "outlook"},
	{"declared", "layout-file"},
	{"dew-point-below", "dew-point-offset"},
	{"file", "out"},
	{"first", "start-year"},
	{"no-hold-out", "no-holdout"},
	{"output", "out"},
	{"probability", "min-probability"},
	{"usual-wind", "default-wind"},
}

// currentFlag returns the new name of a flag that was renamed, if cmd has it.
func currentFlag(cmd *cobra.Command, old string) (name string, ok bool) {
	for _, r := range renamedFlags {
		if r[0] == old && cmd.Flags().Lookup(r[1]) != nil {
			return r[1], true
		}
	}
	return "", false
}
