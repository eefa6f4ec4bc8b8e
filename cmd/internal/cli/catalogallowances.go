package cli

import (
	"fmt"
	"io"

	"loamledger/scenarios/catalog"
	"loamledger/scenarios/study"
)

// printAllowances prints the forms of allowances.
func printAllowances(w io.Writer) {
	fmt.Fprintln(w, "ALLOWANCES  (examples of rules; ask your water provider for the one in force)")
	fmt.Fprintln(w, "\n  LA is the landscape area, SLA the part of it with a factor of its own; ETo in inches, areas in square feet.")
	for _, f := range catalog.AllowanceForms() {
		fmt.Fprintf(w, "\n  %s\n    %s\n    example: allowance: {form: %s}\n", f.Name, f.Doc, f.Name)
		for _, line := range study.Wrap(f.Factor.Source, 84) {
			fmt.Fprintf(w, "        %s\n", line)
		}
	}
	fmt.Fprintln(w, "\n  a rule of your own\n    ETo · factor · area, less a share of the rain; the year or every month counts"+
		"\n    example: allowance: {factor: 80%, rain: 25%, period: month}")
}
