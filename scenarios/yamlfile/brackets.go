package yamlfile

import (
	"fmt"
	"strconv"
	"strings"

	"loamledger/scenarios"
)

// appendInBrackets finds where items are to be added to a list whose bracket opens at a
// place, and writes them as the list is written.
func appendInBrackets(text string, at int, of *Items) (cut, error) {
	end := closing(text, at)
	if end < 0 {
		return cut{}, fmt.Errorf("%w: %s", errNoEdit, of.Key)
	}
	before := strings.TrimRight(text[:end], " \n")
	if last := before[strings.LastIndexByte(before, '\n')+1:]; strings.Contains(last, " #") {
		return cut{}, fmt.Errorf("%w: a comment is in the way in %s", errNoEdit, of.Key)
	}
	added := ""
	for _, item := range of.Items {
		tree, err := parse(strings.Join(item, "\n"), "")
		if err != nil || tree == nil || len(tree.Items) != 1 {
			return cut{}, fmt.Errorf("%w: %s", errNoEdit, of.Key)
		}
		if !strings.HasSuffix(before+added, ",") {
			added += ","
		}
		added += "\n  " + inBrackets(tree.Items[0])
	}
	return cut{len(before), end - len(before), added}, nil
}

// closing returns where the bracket that opens at a place closes; -1 if it does not.
func closing(text string, at int) int {
	depth, quote := 0, byte(0)
	for i := at; i < len(text); i++ {
		c := text[i]
		switch {
		case quote == '"' && c == '\\':
			i++
		case quote != 0:
			if c == quote {
				quote = 0
			}
		case (c == '"' || c == '\'') && strings.IndexByte(" [{,:", text[i-1]) >= 0:
			quote = c
		case c == '#' && strings.IndexByte(" \n", text[i-1]) >= 0:
			n := strings.IndexByte(text[i:], '\n')
			if n < 0 {
				return -1
			}
			i += n
		case c == '[' || c == '{':
			depth++
		case c == ']' || c == '}':
			if depth--; depth == 0 {
				return i
			}
		}
	}
	return -1
}

// inBrackets writes a tree on one line. Texts are quoted unless they are plain words.
func inBrackets(n *scenarios.Node) string {
	var parts []string
	switch n.Kind {
	case scenarios.Map:
		for _, e := range n.Entries {
			parts = append(parts, quotedText(e.Key)+": "+inBrackets(e.Value))
		}
		return "{" + strings.Join(parts, ", ") + "}"
	case scenarios.List:
		for _, item := range n.Items {
			parts = append(parts, inBrackets(item))
		}
		return "[" + strings.Join(parts, ", ") + "]"
	}
	return quotedText(n.Text)
}

func quotedText(text string) string {
	if strings.Trim(text, "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789._") == "" && text != "" {
		return text
	}
	return strconv.Quote(text)
}
