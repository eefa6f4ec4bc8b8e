package cli

import (
	"fmt"
	"io"
	"strings"

	"github.com/spf13/cobra"

	"loamledger/scenarios/study"
	"loamledger/scenarios/studyfile"
	"loamledger/sim/bill"
	"loamledger/sim/meter"
	"loamledger/sim/readsfile"
	"loamledger/weather/diag"
	"loamledger/weather/quantity"
)

func newBill(s Streams) *cobra.Command {
	var reads, site string
	var asJSON bool
	cmd := &cobra.Command{
		Use:   "bill RATES --reads FILE",
		Short: "Work out water bills line by line",
		Long: `Works out the bill of each meter read from a file of rates, line by line and to
the cent.

The rates are YAML: prices, tiers, seasons, fixed charges, sewer, surcharges and
budgets, and the account they are for. The reads are CSV with the columns date
and volume, the unit in the heading or in a column unit, and optionally from,
meter, read_type and billed.

The column billed has the amounts of real bills. The rates count as checked if
at least one is given and every one is reproduced to the cent.

A budget may follow the weather (budget: {eto: weather}). Its ETo is then that of
each day in the weather of the scenario that --site names.`,
		Example: "  loamledger bill rates.yaml --reads reads.csv\n  loamledger bill rates.yaml --reads reads.csv --json",
		Args:    exactly(1, "one file of rates"),
		RunE: func(_ *cobra.Command, args []string) error {
			if reads == "" {
				return &usageError{diag.MissingFlag, "--reads is required", "add --reads FILE with the reads of the meters"}
			}
			var in inputs
			b, err := in.readBills(args[0], reads, site)
			if err != nil {
				return err
			}
			if asJSON {
				return printJSON(s.Out, b.record())
			}
			b.print(s.Out)
			return nil
		},
	}
	cmd.Flags().StringVar(&reads, "reads", "", "CSV `FILE` of meter reads; required")
	cmd.Flags().StringVar(&site, "site", "", "scenario `FILE` whose weather a budget follows")
	cmd.Flags().BoolVar(&asJSON, "json", false, "print the bills as JSON")
	return cmd
}

// billing is a file of rates, reads and the bills they make.
type billing struct {
	rates   *bill.Rates
	rows    []readsfile.Row
	reads   []bill.Read // of rows
	bills   []bill.Bill
	rowOf   []int // of each bill
	matches []bill.Match
}

// readBills works out the bills of reads. site is the scenario whose weather a budget
// follows; empty for none.
func (in *inputs) readBills(ratesName, readsName, site string) (*billing, error) {
	rates, err := in.files("").Rates(ratesName, diag.Pos{})
	if err != nil {
		return nil, err
	}
	switch {
	case rates.NeedsETo() && site == "":
		return nil, &diag.Error{Code: diag.MissingFlag, Pos: rates.Budget.EToPos, Msg: "the budget follows the weather, and none is given",
			Fix: "add --site SCENARIO, whose weather it follows, or write 12 depths"}
	case rates.NeedsETo():
		l, err := load(site, scenarioFlags{})
		if err != nil {
			return nil, err
		}
		rates.WithETo(l.Job.Weather.Start, l.Job.Weather.EToMM)
	case site != "":
		return nil, &usageError{diag.FlagConflict, "--site has no effect: no budget of the rates follows the weather", "omit --site"}
	}
	return in.billsOf(rates, readsName, diag.Pos{})
}

// billsOf works out the bills of a file of reads, named at the given position.
func (in *inputs) billsOf(rates *bill.Rates, readsName string, at diag.Pos) (*billing, error) {
	rows, err := in.files("").Reads(readsName, at)
	if err != nil {
		return nil, err
	}
	return newBilling(rates, rows)
}

// newBilling works out the bills of reads.
func newBilling(rates *bill.Rates, rows []readsfile.Row) (*billing, error) {
	b, err := studyfile.NewBilling(rates, rows)
	if err != nil {
		return nil, err
	}
	return &billing{rates: rates, rows: rows, reads: b.Reads, bills: b.Bills, rowOf: b.RowOf, matches: b.Matches}, nil
}

func (b *billing) print(w io.Writer) {
	r := b.rates
	title := r.File
	if r.Name != "" {
		title = r.Name + " (" + r.File + ")"
	}
	fmt.Fprintf(w, "%s: %s, amounts in %s, volumes in %s\n", title, quantity.Count(len(b.bills), "bill", "bills"), r.Currency, r.Unit)
	if _, dated := r.Newest(&r.Account); dated && r.ByReadDate {
		fmt.Fprintln(w, "Each bill has the prices of the day of its read.")
	} else if dated {
		fmt.Fprintln(w, "Each bill has the prices of its own days; where they change, use is split by days.")
	}
	if n := len(r.Doubts); n > 0 {
		fmt.Fprintf(w, "%s of the rates given as a range: the bills have the middle, or the likeliest value.\n",
			quantity.Count(n, "number", "numbers"))
	}
	for i := range b.bills {
		b.printBill(w, i)
	}
	sums := bill.TotalOf(b.bills)
	fmt.Fprintf(w, "\nAll bills: %s %s\n", r.Currency, sums.Total().Text())
	for i, v := range sums.List() {
		if i == bill.IndoorSum && !b.split() {
			continue
		}
		fmt.Fprintf(w, "  %-15s %12s\n", b.sumName(i), v.Text())
	}
	fmt.Fprintln(w)
	printLines(w, b.verdict())
}

// sumName names a part; water is all in one if use indoors is not known.
func (b *billing) sumName(i int) string {
	if i == bill.OutdoorSum && !b.split() {
		return bill.Water.String()
	}
	return bill.SumNames()[i]
}

// split reports whether use indoors is known for every bill.
func (b *billing) split() bool {
	for i := range b.bills {
		if b.bills[i].Indoor == nil {
			return false
		}
	}
	return true
}

func (b *billing) printBill(w io.Writer, i int) {
	one, unit, row := &b.bills[i], b.rates.Unit, b.rows[b.rowOf[i]]
	head := fmt.Sprintf("%v to %v, %s", one.From, one.To, quantity.Count(one.Days(), "day", "days"))
	if one.Meter != "" {
		head = "Meter " + one.Meter + ", " + head
	}
	head += fmt.Sprintf(": %s %s", one.Billed.Short(3), unit)
	if row.Type != meter.Actual {
		head += ", " + string(row.Type) + " read"
	}
	fmt.Fprintf(w, "\n%s\n", head)
	if b.rates.WholeUnits {
		fmt.Fprintf(w, "Whole units: %s read and %s carried in; %s carried to the next read\n",
			one.Volume.Short(3), one.CarriedIn.Short(3), one.CarriedOut.Short(3))
	}
	for _, n := range one.Notes {
		fmt.Fprintf(w, "Note: %s\n", n.Text(unit))
	}
	if row.GapDays > 0 {
		fmt.Fprintf(w, "Note: no read covers the %s before\n", quantity.Count(row.GapDays, "day", "days"))
	}
	printGrid(w, b.grid(one))
	for _, m := range b.matches {
		if m.At == i {
			fmt.Fprintf(w, "The bill received: %s %s, %s\n", b.rates.Currency, m.Received.Text(), b.offText(m))
		}
	}
}

func (b *billing) grid(one *bill.Bill) *study.Grid {
	g := &study.Grid{Head: []string{"charge", "part", "for", b.rates.Unit, "price", "amount"},
		Columns: []study.GridColumn{{Width: 24}, {}, {Width: 44}, {Right: true}, {Right: true}, {Right: true}}, Rule: len(one.Lines)}
	for _, l := range one.Lines {
		units, price := "", ""
		switch l.Kind {
		case bill.Volume, bill.Covered, bill.Established:
			units, price = l.Units.Fixed(3), l.Price.Price()
		case bill.FixedAmount:
			price = l.Price.Price()
		}
		g.Rows = append(g.Rows, []string{l.Charge, l.Part.String(), l.What(b.rates.Unit, one.Days()), units, price, l.Amount.Text()})
	}
	g.Rows = append(g.Rows, []string{"total", "", "", "", "", one.Total.Text()})
	return g
}

// offText says how far a bill that was received is from the one worked out.
func (b *billing) offText(m bill.Match) string {
	switch m.Off.Sign() {
	case 1:
		return m.Off.Text() + " less than worked out"
	case -1:
		return m.Off.Neg().Text() + " more than worked out"
	}
	return "reproduced to the cent"
}

// verdict says whether the rates are checked.
func (b *billing) verdict() []string {
	if len(b.matches) == 0 {
		return []string{"Rates not checked: no real bill is given. Add the amount of one to the column billed of the reads."}
	}
	if bill.Reproduced(b.matches) == bill.Checked {
		return []string{fmt.Sprintf("Rates checked: %s of %d given, all reproduced to the cent.",
			quantity.Count(len(b.matches), "real bill", "real bills"), len(b.bills))}
	}
	var off []string
	for _, m := range b.matches {
		if m.Off.Sign() != 0 {
			off = append(off, b.bills[m.At].To.String())
		}
	}
	return []string{fmt.Sprintf("Rates not checked: %d of %s not reproduced, read on %s.", len(off),
		quantity.Count(len(b.matches), "real bill", "real bills"), strings.Join(off, ", ")),
		"Compare the lines with the bill: dates, units, class, proration or a missing charge."}
}
