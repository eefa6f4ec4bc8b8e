package yamlfile

import (
	"errors"
	"strings"
	"unicode/utf8"

	"github.com/goccy/go-yaml"
	"github.com/goccy/go-yaml/ast"
	"github.com/goccy/go-yaml/lexer"
	"github.com/goccy/go-yaml/parser"
	"github.com/goccy/go-yaml/token"

	"loamledger/scenarios"
	"loamledger/weather/diag"
)

const (
	maxNesting = 16    // levels of groups and lists; a scenario needs 6
	maxIndent  = 200   // columns before the first word of a line
	maxTokens  = 1e5   // words and punctuation; a site of 500 zones has about 20,000
	maxLine    = 20000 // bytes
)

// file converts positions of the YAML library to ours.
type file struct {
	name   string
	lines  []string
	faults diag.List
}

// pos returns the position of a token; the library counts columns in runes.
func (f *file) pos(t *token.Token) diag.Pos {
	p := diag.Pos{File: f.name}
	if t == nil || t.Position == nil {
		return p
	}
	p.Line, p.Col = t.Position.Line, t.Position.Column
	if p.Line >= 1 && p.Line <= len(f.lines) {
		col := 1
		for i := range f.lines[p.Line-1] {
			if col == p.Col {
				p.Col = i + 1
				break
			}
			col++
		}
	}
	return p
}

// parse reads the text of a scenario into a tree.
func parse(text, name string) (*scenarios.Node, error) {
	f := &file{name: name, lines: strings.Split(text, "\n")}
	for i, line := range f.lines {
		if len(line) > maxLine {
			f.faults.Add(diag.TooLarge, diag.Pos{File: name, Line: i + 1}, "break the line", "line too long: %d bytes", len(line))
			return nil, f.faults.Err()
		}
	}
	for i, line := range f.lines {
		rest := strings.TrimLeft(line, " \t")
		if indent := line[:len(line)-len(rest)]; strings.Contains(indent, "\t") && rest != "" && rest[0] != '#' {
			f.faults.Add(diag.BadSyntax, diag.Pos{File: name, Line: i + 1, Col: strings.IndexByte(indent, '\t') + 1}, "indent with spaces",
				"the line is indented with a tab")
		}
	}
	if f.faults.Len() > 0 {
		return nil, f.faults.Err()
	}
	tokens := lexer.Tokenize(text)
	if !f.tame(tokens) {
		return nil, f.faults.Err()
	}
	doc, err := parser.Parse(tokens, 0, parser.AllowDuplicateMapKey()) // node reports duplicates
	if err != nil {
		f.syntax(err)
		return nil, f.faults.Err()
	}
	var body ast.Node
	for _, d := range doc.Docs {
		if d.Body == nil {
			continue
		}
		if body != nil {
			f.faults.Add(diag.BadSyntax, f.node(d.Body).Pos, "keep one scenario per file", "a second document begins here")
			return nil, f.faults.Err()
		}
		body = d.Body
	}
	if body == nil {
		return nil, nil
	}
	root := f.node(body) // go on with the valid part, to find its errors too
	return root, f.faults.Err()
}

// syntax reports an error from the parser.
func (f *file) syntax(err error) {
	const fix = "check the indentation, the space after each colon and dash, and the quotes around text with special characters"
	var at yaml.Error
	if errors.As(err, &at) {
		f.faults.Add(diag.BadSyntax, f.pos(at.GetToken()), fix, "invalid YAML: %s", oneLine(at.GetMessage()))
		return
	}
	f.faults.Add(diag.BadSyntax, diag.Pos{File: f.name}, fix, "invalid YAML: %s", oneLine(err.Error()))
}

func oneLine(s string) string {
	s, _, _ = strings.Cut(s, "\n")
	const most = 200
	for len(s) > most || !utf8.ValidString(s) {
		s = strings.ToValidUTF8(s[:min(len(s), most)], "")
	}
	return s
}

// tame rejects tokens that a scenario does not need before they reach the
// parser, which is recursive.
func (f *file) tame(tokens token.Tokens) bool {
	depth, dashes, line := 0, 0, 0
	for i, t := range tokens {
		if i > maxTokens {
			f.faults.Add(diag.TooLarge, f.pos(t), "move the zones to a CSV table, or split the site",
				"the scenario has more than %d words and symbols", int(maxTokens))
			return false
		}
		first := t.Position.Line != line
		if first {
			line, dashes = t.Position.Line, 0
		}
		switch t.Type {
		case token.AnchorType, token.AliasType, token.MergeKeyType:
			f.faults.Add(diag.Unsupported, f.pos(t), "write the values out", "anchors, aliases and merge keys (& * <<) are not supported")
			return false
		case token.TagType, token.DirectiveType:
			f.faults.Add(diag.Unsupported, f.pos(t), "remove it, or put quotes around the text", "tags and directives (! %%) are not supported")
			return false
		case token.MappingKeyType:
			f.faults.Add(diag.Unsupported, f.pos(t), "write the key before a colon", "keys after a question mark are not supported")
			return false
		case token.SequenceStartType, token.MappingStartType:
			depth++
		case token.SequenceEndType, token.MappingEndType:
			depth--
		case token.SequenceEntryType:
			dashes++
		}
		if depth > maxNesting || dashes > maxNesting || first && t.Position.Column > maxIndent {
			f.faults.Add(diag.TooLarge, f.pos(t), "nest it less", "lists and groups are nested too deeply")
			return false
		}
	}
	return true
}

// node converts a node of the library to ours.
func (f *file) node(n ast.Node) *scenarios.Node {
	out := &scenarios.Node{Pos: f.pos(n.GetToken())}
	switch n := n.(type) {
	case *ast.MappingNode:
		out.Kind = scenarios.Map
		places := make(map[string]diag.Pos, len(n.Values))
		for _, v := range n.Values {
			f.entry(out, v, places)
		}
		if !n.IsFlowStyle && len(out.Entries) > 0 {
			out.Pos = out.Entries[0].Pos
		}
	case *ast.MappingValueNode:
		out.Kind = scenarios.Map
		f.entry(out, n, map[string]diag.Pos{})
		if len(out.Entries) > 0 {
			out.Pos = out.Entries[0].Pos
		}
	case *ast.SequenceNode:
		out.Kind = scenarios.List
		for _, v := range n.Values {
			if text, at := timeOfDay(v); text != "" {
				out.Items = append(out.Items, &scenarios.Node{Pos: f.pos(at), Kind: scenarios.Scalar, Text: text})
				continue
			}
			out.Items = append(out.Items, f.node(v))
		}
	case *ast.NullNode:
	case *ast.StringNode:
		out.Kind, out.Text = scenarios.Scalar, n.Value
	case *ast.LiteralNode:
		out.Kind, out.Text = scenarios.Scalar, n.Value.Value
	case *ast.CommentGroupNode:
	case ast.ScalarNode: // numbers, true and false, inf: as written
		out.Kind, out.Text = scenarios.Scalar, strings.TrimSpace(n.GetToken().Value)
	default:
		f.faults.Add(diag.Unsupported, out.Pos, "write a value, a list or keys with values", "a %s is not supported",
			strings.ToLower(n.Type().String()))
		out.Kind = scenarios.Broken
	}
	return out
}

// timeOfDay returns the text of a time of day in a list that stands in braces, as in
// {starts: [4:30]}, which the library reads as a key and its value, and its token;
// "" for any other node. The digits are next to the colon.
func timeOfDay(n ast.Node) (string, *token.Token) {
	v, ok := n.(*ast.MappingValueNode)
	if m, is := n.(*ast.MappingNode); is && len(m.Values) == 1 && m.Start.Type != token.MappingStartType {
		v, ok = m.Values[0], true
	}
	if !ok || v.Value == nil {
		return "", nil
	}
	hour, minute := v.Key.GetToken(), v.Value.GetToken()
	h, m := hour.Value, minute.Value
	beside := hour.Position.Line == minute.Position.Line && hour.Position.Column+len(h)+1 == minute.Position.Column
	if !beside || len(h) > 2 || len(m) < 2 || strings.Trim(h, "0123456789") != "" || strings.Trim(m[:2], "0123456789") != "" {
		return "", nil
	}
	return h + ":" + strings.TrimSpace(m), hour
}

// entry adds a key and its value to the group out; places has the position of
// each key so far.
func (f *file) entry(out *scenarios.Node, v *ast.MappingValueNode, places map[string]diag.Pos) {
	e := scenarios.Entry{Pos: f.pos(v.Key.GetToken()), Key: strings.TrimSpace(v.Key.GetToken().Value)}
	if first, ok := places[e.Key]; ok {
		f.faults.Add(diag.Duplicate, e.Pos, "remove one", "duplicate key %q, see %v", e.Key, first)
		return
	}
	places[e.Key] = e.Pos
	if v.Value == nil {
		e.Value = &scenarios.Node{Pos: e.Pos}
	} else {
		e.Value = f.node(v.Value)
		if e.Value.Kind == scenarios.Empty {
			e.Value.Pos = e.Pos
		}
	}
	out.Entries = append(out.Entries, e)
}
