package scenarios

import (
	"strconv"
	"strings"

	"loamledger/scenarios/names"
	"loamledger/weather/diag"
)

// understand records that node n was understood as the word as, so that inputs
// show it and the canonical scenario has it. Only case is not worth showing.
func (b *builder) understand(n *Node, as string) {
	if text := strings.TrimSpace(n.Text); text != as {
		b.exact[n] = as
		if !strings.EqualFold(text, as) {
			b.readAs[n] = as
		}
	}
}

// several reports a word that can mean any of the given values, of which the user
// must choose one. subject is what the word is for, such as `zone "bed": plant`.
func (g group) several(n *Node, subject string, values []string) {
	texts := make([]string, len(values))
	for i, v := range values {
		texts[i] = strconv.Quote(v)
	}
	g.fault(diag.Ambiguous, n.Pos, "write "+listed(texts), "%s %s could mean %s", subject, quoted(n.Text), listed(texts)).
		Suggest(diag.Value, texts...)
}

// severalForms is like several for YAML that is not a plain word.
func (g group) severalForms(n *Node, subject string, forms []string) {
	g.fault(diag.Ambiguous, n.Pos, "write "+listed(forms), "%s %s could mean %s", subject, quoted(n.Text), listed(forms)).
		Suggest(diag.Value, forms...)
}

// known returns the index of the name in a list that node n means, as it is or in
// another spelling; -1 for none.
func (b *builder) known(n *Node, list []string) int {
	i := names.Find(n.Text, list)
	if i >= 0 {
		b.understand(n, list[i])
	}
	return i
}
