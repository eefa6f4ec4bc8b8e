package cli

import (
	"fmt"
	"io"
	"strings"

	"loamledger/scenarios/catalogue"
	"loamledger/weather/quantity"
)

// printPlants prints the plants, sprinklers and covers of the catalogue.
func printPlants(w io.Writer, sys quantity.System, figure func(string, catalogue.Figure, quantity.Dimension)) {
	fmt.Fprintln(w, "\nPLANTS  (coefficient sets differ by 20 to 40 % for one plant; a result names the one it used, the first where none is chosen)")
	for _, p := range catalogue.Plants() {
		fmt.Fprintf(w, "  %s%s\n", p.Name, aliases(p.Aliases))
		for _, c := range p.Coefficients {
			fmt.Fprintf(w, "    K, set %-22s %s\n        %v; %s\n", c.Set, months(c.K), c.Grade, c.Source)
		}
		figure("stress fraction p", p.P, quantity.Fraction)
		figure("root depth", p.RootDepth, quantity.Length)
	}
	fmt.Fprintln(w, "\nSPRINKLERS")
	for _, k := range catalogue.Sprinklers() {
		fmt.Fprintf(w, "  %s%s\n", k.Name, aliases(k.Aliases))
		figure("precipitation rate", k.Rate, quantity.Rate)
		figure("uniformity DU_LQ", k.DU, quantity.Fraction)
		figure("spray loss", k.Loss, quantity.Fraction)
	}
	fmt.Fprintf(w, "\nCOVERS  curve numbers of hydrologic groups A, B, C, D; %s\n", catalogue.CoverSource)
	for _, c := range catalogue.Covers() {
		fmt.Fprintf(w, "  %-28s %.0f %.0f %.0f %.0f\n", c.Name, c.CN[0], c.CN[1], c.CN[2], c.CN[3])
	}
}

func aliases(names []string) string {
	if len(names) == 0 {
		return ""
	}
	return "  (also: " + strings.Join(names, ", ") + ")"
}

// months writes twelve coefficients, or one where all are equal.
func months(k [12]float64) string {
	same := true
	var parts []string
	for _, v := range k {
		same = same && v == k[0]
		parts = append(parts, fmt.Sprintf("%.2f", v))
	}
	if same {
		return parts[0]
	}
	return strings.Join(parts, " ")
}
