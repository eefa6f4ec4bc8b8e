package cli

import (
	"fmt"
	"strings"

	"github.com/spf13/cobra"

	"loamledger/weather/diag"
)

// noCommand rejects a word that is no command, also beside --help or --version, which the library answers before it
// looks at words.
func noCommand(root *cobra.Command, args []string) error {
	root.InitDefaultHelpCmd()
	root.InitDefaultCompletionCmd(args...)
	found, rest, err := root.Find(args)
	switch {
	case err != nil:
		return err
	case !found.Runnable() && len(rest) > 0 && !strings.HasPrefix(rest[0], "-"):
		return unknownCommand(found, rest)
	case found != root:
		return nil
	}
	for i, a := range args {
		switch {
		case a == "--help", a == "-h", a == "--version", a == "-v", a == "--json":
		case a == cobra.ShellCompRequestCmd, a == cobra.ShellCompNoDescRequestCmd:
			return nil // the library adds these later
		case a == "--" && i+1 < len(args) && nameOf(root, args[i+1]) != "":
			return &usageError{diag.WrongArguments, "no command before --", "write: loamledger " + nameOf(root, args[i+1])}
		case a == "--":
		case strings.HasPrefix(a, "-") && a != "-":
			return nil // another flag, which the library rejects
		default:
			return unknownCommand(root, args[i:])
		}
	}
	return nil
}

// nameOf returns word if it is the name of a command of cmd, else "".
func nameOf(cmd *cobra.Command, word string) string {
	for _, c := range cmd.Commands() {
		if c.Name() == word {
			return word
		}
	}
	return ""
}

// unknownCommand rejects a word that is not a command of cmd.
func unknownCommand(cmd *cobra.Command, args []string) error {
	if len(args) == 0 {
		return nil
	}
	word, path := args[0], cmd.CommandPath()
	if name, ok := currentCommand(word); ok && !cmd.HasParent() {
		msg := fmt.Sprintf("command %q is now called %q", word, name)
		return &usageError{diag.UnknownCommand, msg, "write: loamledger " + name}
	}
	var names, begun []string
	for _, c := range cmd.Commands() {
		if c.Hidden {
			continue
		}
		names = append(names, c.Name())
		if word != "" && strings.HasPrefix(c.Name(), strings.ToLower(word)) {
			begun = append(begun, c.Name())
		}
	}
	fix := "use one of " + strings.Join(names, ", ")
	if near := diag.Nearest(word, names); near != "" {
		fix = "did you mean " + near + "?"
	} else if len(begun) > 0 {
		fix = "did you mean " + strings.Join(begun, " or ") + "?"
	}
	msg := fmt.Sprintf("unknown command %q", word)
	if cmd.HasParent() {
		msg += " of " + path
	}
	return &usageError{diag.UnknownCommand, msg, fix}
}

// newHelp returns the help command. Unlike the library's, it rejects a word that
// is not a command.
func newHelp(s Streams) *cobra.Command {
	return &cobra.Command{
		Use:     "help [COMMAND]",
		Short:   "Show help for a command",
		Long:    "Shows what a command does, its flags, and an example to paste.",
		Example: "  loamledger help replay",
		Args:    cobra.ArbitraryArgs,
		RunE: func(cmd *cobra.Command, args []string) error {
			root := cmd.Root()
			if len(args) == 0 {
				return root.Help()
			}
			found, rest, err := root.Find(args)
			switch {
			case err != nil:
				return err
			case len(rest) > 0 && found.HasSubCommands():
				return unknownCommand(found, rest)
			case len(rest) > 0:
				msg := fmt.Sprintf("%s has no command %q", found.CommandPath(), rest[0])
				return &usageError{diag.UnknownCommand, msg, "write: loamledger help " + strings.TrimPrefix(found.CommandPath(), "loamledger ")}
			}
			found.InitDefaultHelpFlag()
			return found.Help()
		},
	}
}
