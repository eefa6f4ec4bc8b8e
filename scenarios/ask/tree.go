package ask

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"loamledger/scenarios"
	"loamledger/weather/diag"
)

// text makes a value of an answer.
func (w *writer) text(at At, text string) *scenarios.Node {
	return &scenarios.Node{Pos: w.pos(at), Kind: scenarios.Scalar, Text: text}
}

// word makes a value that no answer is behind.
func word(text string) *scenarios.Node { return &scenarios.Node{Kind: scenarios.Scalar, Text: text} }

// group makes an empty group of keys.
func group() *scenarios.Node { return &scenarios.Node{Kind: scenarios.Map} }

// list makes a list.
func list(items ...*scenarios.Node) *scenarios.Node {
	return &scenarios.Node{Kind: scenarios.List, Items: items}
}

// put adds a value to a group, with the lines of a comment above it.
func (w *writer) put(to *scenarios.Node, key string, v *scenarios.Node, comment ...string) {
	to.Entries = append(to.Entries, scenarios.Entry{Key: key, Pos: v.Pos, Value: v})
	if len(comment) > 0 {
		w.comments[v] = comment
	}
}

// onOneLine marks a value that is written on one line.
func (w *writer) onOneLine(v *scenarios.Node) *scenarios.Node {
	w.inline[v] = true
	return v
}

// isPlain reports whether YAML takes a text as it is, in a list on one line, too: it
// begins with a digit, a letter, or a minus and a digit.
func isPlain(text string) bool {
	rest := strings.TrimPrefix(text, "-")
	if rest == "" || !beginsInWord(rest) || rest[0] == '_' || len(rest) < len(text) && skipDigits(rest) == rest {
		return false
	}
	for i := range len(rest) {
		if !beginsInWord(rest[i:]) && !strings.ContainsRune(" ./%+-", rune(rest[i])) {
			return false
		}
	}
	return true
}

// quoted writes a text for YAML. Only texts that cannot mean anything else have no quotes.
func quoted(text string) string {
	plain := isPlain(text) && !strings.HasSuffix(text, " ")
	switch strings.ToLower(text) {
	case "true", "false", "yes", "no", "on", "off", "null", "y", "n":
		plain = false
	}
	if plain {
		return text
	}
	var out strings.Builder
	out.WriteByte('"')
	for _, r := range strings.ToValidUTF8(text, "\uFFFD") {
		switch {
		case r == '"' || r == '\\':
			out.WriteByte('\\')
			out.WriteRune(r)
		case strconv.IsPrint(r):
			out.WriteRune(r)
		case r < 0x100:
			fmt.Fprintf(&out, `\x%02x`, r)
		case r < 0x10000:
			fmt.Fprintf(&out, `\u%04x`, r)
		default:
			fmt.Fprintf(&out, `\U%08x`, r)
		}
	}
	out.WriteByte('"')
	return out.String()
}

// render writes the tree as YAML.
func (w *writer) render(root *scenarios.Node) []byte {
	var out strings.Builder
	for _, line := range w.header() {
		out.WriteString(strings.TrimRight("# "+line, " ") + "\n")
	}
	for _, e := range root.Entries {
		out.WriteByte('\n')
		w.entry(&out, e, "")
	}
	return []byte(out.String())
}

const maxLine = 110 // of a comment, in bytes

func (w *writer) comment(out *strings.Builder, v *scenarios.Node, indent string) {
	for _, text := range w.comments[v] {
		line := indent + "#"
		for _, word := range strings.Fields(printable(text)) {
			if len(line)+1+len(word) > maxLine && len(line) > len(indent)+1 {
				out.WriteString(line + "\n")
				line = indent + "#"
			}
			line += " " + word
		}
		out.WriteString(line + "\n")
	}
}

// printable replaces what would end a comment or hide in it.
func printable(text string) string {
	return strings.Map(func(r rune) rune {
		if strconv.IsPrint(r) {
			return r
		}
		return '?'
	}, strings.ToValidUTF8(text, "?"))
}

// printableName rejects the name of a file that a scenario cannot show as it is.
func (w *writer) printableName(at At, name string) {
	if printable(name) != name {
		w.fault(at, diag.BadName, "rename the file", "the name %q has a character that is not printable", name)
	}
}

func (w *writer) entry(out *strings.Builder, e scenarios.Entry, indent string) {
	w.comment(out, e.Value, indent)
	out.WriteString(indent + quoted(e.Key) + ":")
	switch {
	case w.short(e.Value):
		out.WriteString(" " + shortUnder(e) + "\n")
	case e.Value.Kind == scenarios.Map:
		out.WriteByte('\n')
		for _, inner := range e.Value.Entries {
			w.entry(out, inner, indent+"  ")
		}
	default:
		out.WriteByte('\n')
		for _, item := range e.Value.Items {
			w.item(out, item, indent+"  ")
		}
	}
}

// item writes a group of keys as an entry of a list.
func (w *writer) item(out *strings.Builder, v *scenarios.Node, indent string) {
	w.comment(out, v, indent)
	if w.inline[v] {
		out.WriteString(indent + "- " + short(v) + "\n")
		return
	}
	for i, e := range v.Entries {
		if i == 0 { // its comment would come after the dash
			out.WriteString(indent + "- " + quoted(e.Key) + ": " + short(e.Value) + "\n")
			continue
		}
		w.entry(out, e, indent+"  ")
	}
}

// short reports whether a value is written on one line.
func (w *writer) short(v *scenarios.Node) bool {
	return v.Kind == scenarios.Scalar || w.inline[v] || v.Kind == scenarios.List &&
		!slices.ContainsFunc(v.Items, func(n *scenarios.Node) bool { return n.Kind != scenarios.Scalar })
}

// short writes a value on one line.
func short(v *scenarios.Node) string {
	var parts []string
	switch v.Kind {
	case scenarios.Scalar:
		return quoted(v.Text)
	case scenarios.List:
		for _, item := range v.Items {
			parts = append(parts, short(item))
		}
		return "[" + strings.Join(parts, ", ") + "]"
	}
	for _, e := range v.Entries {
		parts = append(parts, quoted(e.Key)+": "+shortUnder(e))
	}
	return "{" + strings.Join(parts, ", ") + "}"
}

// flagKeys are the keys whose values are true or false, which need no quotes.
var flagKeys = []string{"cycle", "subtract_rain"}

func shortUnder(e scenarios.Entry) string {
	if slices.Contains(flagKeys, e.Key) && isPlain(e.Value.Text) {
		return e.Value.Text
	}
	return short(e.Value)
}
