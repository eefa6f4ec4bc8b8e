package cli

import (
	"fmt"
	"strings"

	"loamledger/scenarios/catalog"
	"loamledger/weather/quantity"
)

// printPlants prints the plants, sprinklers and covers of the catalog.
func (p *figureWriter) printPlants() {
	w := p.w
	fmt.Fprintln(w, "\nPLANTS  (coefficient sets for one plant differ by 20% to 40%; the first is the default, and results name the set used)")
	for _, plant := range catalog.Plants() {
		p.entry("%s%s", plant.Name, aliases(plant.Aliases))
		for _, c := range plant.Coefficients {
			p.row("K, set "+c.Set, months(c.K), c.Grade.String(), c.Source)
		}
		p.figure("stress fraction p", plant.P, quantity.Fraction)
		p.figure("root depth", plant.RootDepth, quantity.Length)
	}
	fmt.Fprintln(w, "\nSPRINKLERS")
	for _, k := range catalog.Sprinklers() {
		p.entry("%s%s", k.Name, aliases(k.Aliases))
		p.figure("precipitation rate", k.Rate, quantity.Rate)
		p.figure("uniformity DU_LQ", k.DU, quantity.Fraction)
		p.figure("spray loss", k.Loss, quantity.Fraction)
	}
	fmt.Fprintf(w, "\nCOVERS  curve numbers for hydrologic groups A, B, C, D; %s\n", catalog.CoverSource)
	for _, c := range catalog.Covers() {
		fmt.Fprintf(w, "  %-28s %.0f %.0f %.0f %.0f\n", c.Name, c.CN[0], c.CN[1], c.CN[2], c.CN[3])
	}
}

func aliases(names []string) string {
	if len(names) == 0 {
		return ""
	}
	return "  (also: " + strings.Join(names, ", ") + ")"
}

// months writes twelve coefficients, or one if all are equal.
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
