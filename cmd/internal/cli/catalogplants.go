package cli

import (
	"fmt"
	"strings"

	"loamledger/scenarios/catalog"
	"loamledger/scenarios/study"
	"loamledger/weather/quantity"
)

// printPlants prints the plants, sprinklers and covers of the catalog.
func (p *figureWriter) printPlants() {
	w := p.w
	fmt.Fprintln(w, "\nPLANTS  (coefficient sets for one plant differ by 20% to 40%; the first is the default, and results name "+
		"the set used;\n"+
		"  \"stressed below\" and \"browning below\" are shares of the last seven days' need)")
	for _, plant := range catalog.Plants() {
		p.printPlant(&plant)
	}
	fmt.Fprintln(w, "\nSPRINKLERS")
	for _, k := range catalog.Sprinklers() {
		p.entry("%s", k.Name)
		p.aliases(k.Aliases)
		p.figure("precipitation rate", k.Rate, quantity.Rate)
		p.figure("uniformity DU_LQ", k.DU, quantity.Fraction)
		p.figure("DU_LQ of new heads", k.NewDU, quantity.Fraction)
		p.figure("spray loss", k.Loss, quantity.Fraction)
	}
	fmt.Fprintf(w, "\nCOVERS  curve numbers for hydrologic groups A, B, C, D; %s\n", catalog.CoverSource)
	for _, c := range catalog.Covers() {
		fmt.Fprintf(w, "  %-28s %.0f %.0f %.0f %.0f\n", c.Name, c.CN[0], c.CN[1], c.CN[2], c.CN[3])
	}
	p.printRainSensors()
	p.printWaterings()
}

func (p *figureWriter) printPlant(plant *catalog.Plant) {
	p.entry("%s  (group: %s)", plant.Name, plant.Group)
	p.aliases(plant.Aliases)
	for _, c := range plant.Coefficients {
		value := months(c.K)
		if c.Low != 0 || c.High != 0 {
			value += fmt.Sprintf("  (usually %.2f to %.2f)", c.Low, c.High)
		}
		if c.Stages != [3]float64{} {
			value += fmt.Sprintf("  (start %.2f, middle %.2f, end of season %.2f)", c.Stages[0], c.Stages[1], c.Stages[2])
		}
		p.row("K, set "+c.Set, value, c.Grade.String(), c.Source)
	}
	if plant.Seasonal() {
		p.number("K in full growth", plant.Ka)
		p.number("K at rest", plant.Kd)
		p.figure("growth begins, 30-day mean", plant.T0C, quantity.Temperature)
		p.figure("full growth, 30-day mean", plant.T1C, quantity.Temperature)
	} else {
		p.row("K by season", "constant", catalog.Guess.String(), plant.Constant)
	}
	p.figure("stressed below", plant.Tolerance, quantity.Fraction)
	p.figure("browning below", plant.Browning, quantity.Fraction)
	p.figure("stress fraction p", plant.P, quantity.Fraction)
	p.figure("root depth", plant.RootDepth, quantity.Length)
	if plant.Note != "" {
		for i, line := range study.Wrap(plant.Note, 80) {
			fmt.Fprintf(p.w, "    %s%s\n", []string{"note: ", "      "}[min(i, 1)], line)
		}
	}
}

func (p *figureWriter) printRainSensors() {
	r := catalog.RainSensors()
	fmt.Fprintln(p.w, "\nRAIN SENSORS IN THE FIELD")
	p.last = ""
	p.figure("rain missed", r.MissRate, quantity.Fraction)
	p.figure("real trip depth / set point", r.TripShare, quantity.Fraction)
	p.written("dry-out", r.DryOut, func(v float64) string { return fmt.Sprintf("%g days", v) })
	p.figure("set point advised", r.SetPoint, quantity.Depth)
	p.figure("homes with a sensor", r.Homes, quantity.Fraction)
	p.figure("of these, working", r.Working, quantity.Fraction)
}

func (p *figureWriter) printWaterings() {
	fmt.Fprintln(p.w, "\nDAYS BETWEEN WATERINGS  low desert only, plants two years in the ground: "+
		"shortest to longest (printed by cities for one month)")
	for _, w := range catalog.Waterings() {
		depth := func(m float64) string { return quantity.Format(m, quantity.Length, p.sys) }
		p.entry("%s  (wet the soil to %s to %s)", w.Name, depth(w.DepthLowM), depth(w.DepthHighM))
		fmt.Fprintf(p.w, "    %-28s %s\n    %-28s %s\n    %-28s %s\n", "summer (June)", days(w.Summer), "spring, fall", days(w.SpringFall),
			"winter (December)", days(w.Winter))
		p.figure("MAD", w.MAD, quantity.Fraction)
	}
	for _, source := range []string{catalog.WateringSource, catalog.WateringSource2} {
		for _, line := range study.Wrap(catalog.LocalTable.String()+"; "+source, 92) {
			fmt.Fprintf(p.w, "  %s\n", line)
		}
	}
}

// days writes an interval.
func days(i catalog.Interval) string {
	var text []string
	if i.Known() {
		text = append(text, fmt.Sprintf("%g to %g days", i.Low, i.High))
		if i.Printed > 0 {
			text[0] += fmt.Sprintf(" (%g)", i.Printed)
		}
	}
	if i.Note != "" {
		text = append(text, i.Note)
	}
	return strings.Join(text, "; ")
}

// aliases prints the other names of an entry.
func (p *figureWriter) aliases(names []string) {
	line := "    also called:"
	for i, name := range names {
		if i > 0 {
			line += ","
		}
		if len(line)+1+len(name) > 110 {
			fmt.Fprintln(p.w, line)
			line = "     "
		}
		line += " " + name
	}
	if len(names) > 0 {
		fmt.Fprintln(p.w, line)
	}
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
