package cli

import (
	"context"
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"runtime"
	"strings"

	"github.com/spf13/cobra"

	"loamledger/plots"
	"loamledger/plots/htmlfile"
	"loamledger/plots/pdffile"
	"loamledger/plots/pngfile"
	"loamledger/scenarios/accountsfile"
	"loamledger/scenarios/evaluate"
	"loamledger/scenarios/evaluate/costsfile"
	"loamledger/scenarios/study"
	rows "loamledger/sim/portfolio"
	"loamledger/sim/portfolio/portfoliofile"
	"loamledger/weather/cal"
	"loamledger/weather/diag"
)

// evaluateOptions holds the flags of portfolio evaluate.
type evaluateOptions struct {
	Costs, Bills, Out, Date string
	JSON                    bool
	Template                bool
}

func newEvaluate(s Streams) *cobra.Command {
	var o evaluateOptions
	cmd := &cobra.Command{
		Use:   "evaluate RESULTS --costs FILE",
		Short: "Judge a program by its savings, costs and targets",
		Long: `Judges the measures of a program from what "loamledger portfolio" wrote: how
savings spread over accounts, and who uses more; by application ratio, climate
and size; peak month and day; levelized cost; the participant, utility, total
resource and rate impact tests; what rebates bring; whether to renew, retarget
or stop, with 90% bounds. Nothing is printed of groups of few accounts.

RESULTS is the folder, or its results.parquet. The costs file is YAML: "loamledger
portfolio evaluate --template" prints one with every key explained.

Targets are ranked by bills of earlier years and scored on later years. Without
--bills the bills are simulated, with the error that the costs file states: to
rank accounts on what only the simulation knows is an error. With --bills they
are metered: a table with the columns account, from, to (days of the reads),
volume (HCF) or, without the use indoors, outdoor_volume (HCF), with any unit of
volume, and optionally read_type (actual, estimated, customer, corrected). Bills of
the days on which the accounts' outdoor use was metered, to which their run times
are scaled, are an error, and so is not to know that: see use_from and use_to in
"loamledger portfolio --columns". Every output says which bills were used.

The participant and rate impact tests use the bills of the results, if the
program has rates (money), and else one price of water of the costs file.

With --out a folder gets every table as CSV, the charts, evaluation.json, and the
page for a decision with its charts, evaluation.html and evaluation.pdf.`,
		Example: `  loamledger portfolio evaluate --template > costs.yaml
  loamledger portfolio evaluate results --costs costs.yaml
  loamledger portfolio evaluate results --costs costs.yaml --out evaluation
  loamledger portfolio evaluate results --costs costs.yaml --bills bills.csv`,
		Args: func(cmd *cobra.Command, args []string) error {
			if o.Template {
				return exactly(0, "no file with --template")(cmd, args)
			}
			return exactly(1, "one folder of results")(cmd, args)
		},
		RunE: func(cmd *cobra.Command, args []string) error {
			if o.Template {
				_, err := io.WriteString(s.Out, costsfile.Template)
				return err
			}
			if o.Costs == "" {
				return &usageError{diag.MissingFlag, "--costs is missing", "add --costs FILE; portfolio evaluate --template prints one"}
			}
			date, err := dayFlag("date", o.Date, "2026-03-01")
			if err != nil {
				return err
			}
			if o.Out != "" {
				if err := freeFolder(o.Out); err != nil {
					return err
				}
			}
			return o.run(cmd.Context(), s, args[0], date)
		},
	}
	f := cmd.Flags()
	f.StringVar(&o.Costs, "costs", "", "YAML `FILE` of costs, prices and targets; required")
	f.StringVar(&o.Bills, "bills", "", "rank accounts on metered bills in `FILE`, CSV or Parquet")
	f.StringVar(&o.Out, "out", "", "new folder `DIR` for tables, charts and the page")
	f.StringVar(&o.Date, "date", "", "`DATE` to print on the page, such as 2026-03-01")
	f.BoolVar(&o.Template, "template", false, "print a costs file to edit and exit")
	f.BoolVar(&o.JSON, "json", false, "print the evaluation as JSON")
	return cmd
}

func (o *evaluateOptions) run(ctx context.Context, s Streams, results string, date cal.Date) error {
	var in inputs
	f, err := in.open(o.Costs)
	if err != nil {
		return err
	}
	plan, err := costsfile.Read(f, o.Costs)
	if cerr := f.Close(); err == nil {
		err = cerr
	}
	if err != nil {
		return err
	}
	data, err := in.readResults(ctx, results, plan)
	if err != nil {
		return err
	}
	if o.Bills != "" {
		if data.Bills, err = in.readMetered(ctx, o.Bills, plan); err != nil {
			return err
		}
		data.BillsName = o.Bills
	}
	e, err := evaluate.Evaluate(plan, data)
	if err != nil {
		return err
	}
	if o.Out != "" {
		files, err := evaluationFiles(ctx, e, &in, date)
		if err != nil {
			return err
		}
		if err := placeFolder(o.Out, files); err != nil {
			return err
		}
	}
	if o.JSON {
		return printJSON(s.Out, e.Record())
	}
	printEvaluation(s.Out, e)
	if o.Out != "" {
		fmt.Fprintf(s.Out, "\nWrote %s\n", o.Out)
	}
	return nil
}

// readResults reads the rows of many accounts, file by file, and keeps their sums.
func (in *inputs) readResults(ctx context.Context, name string, plan *evaluate.Plan) (*evaluate.Input, error) {
	folder := ""
	if info, err := os.Stat(name); err == nil && info.IsDir() {
		folder, name = name, filepath.Join(name, resultsName)
	} else if err == nil {
		folder = filepath.Dir(name)
	}
	c := rows.NewCollector(plan.Bills)
	out := &evaluate.Input{Name: name}
	n := 0
	meta, err := readRows(in, name, portfoliofile.ReadResults, func(r *rows.Result) error {
		c.Add(r)
		if n++; n%4096 == 0 {
			return ctx.Err()
		}
		return nil
	})
	if err != nil {
		return nil, err
	}
	out.Meta = meta
	if out.Table, err = c.Table(); err != nil {
		return nil, &diag.Error{
			Code: diag.BadResults,
			Pos:  diag.Pos{File: name},
			Msg:  err.Error(),
			Fix: "replay the accounts again, as found and under " +
				"one measure or more, over whole years",
		}
	}
	if beside := filepath.Join(folder, monthsName); folder != "" && exists(beside) {
		out.Months = rows.NewMonths()
		if _, err := readRows(in, beside, portfoliofile.ReadMonths, func(m *rows.Month) error { out.Months.Add(m); return nil }); err != nil {
			return nil, err
		}
	}
	if beside := filepath.Join(folder, accountsName); folder != "" && exists(beside) {
		out.About = map[string]rows.Account{}
		climates := climates{}
		_, err := readRows(in, beside, portfoliofile.ReadAccounts, func(a *rows.Account) error {
			one := *a
			one.ID, one.Station, one.Class, one.Area = strings.Clone(a.ID), strings.Clone(a.Station), strings.Clone(a.Class), strings.Clone(a.Area)
			one.AsFound, one.Drawn, one.Alarms = strings.Clone(a.AsFound), "", ""
			climates.share(&one)
			out.About[one.ID] = one
			return nil
		})
		if err != nil {
			return nil, err
		}
	}
	if beside := filepath.Join(folder, billsName); folder != "" && exists(beside) {
		out.Uses = &evaluate.Uses{Days: map[string][]evaluate.Days{}, Unknown: map[string]bool{}}
		_, err := readRows(in, beside, portfoliofile.ReadBills, func(b *rows.Bill) error {
			id := strings.Clone(b.Account)
			if b.From == nil || b.To == nil {
				out.Uses.Unknown[id] = true
			} else {
				out.Uses.Days[id] = append(out.Uses.Days[id], evaluate.Days{From: cal.Date(*b.From), To: cal.Date(*b.To)})
			}
			return nil
		})
		if err != nil {
			return nil, err
		}
	}
	return out, nil
}

// climates are those of stations: the accounts of one share them.
type climates map[string][2]*float64

func (c climates) share(a *rows.Account) {
	if _, met := c[a.Station]; !met {
		c[a.Station] = [2]*float64{a.RainMM, a.EToMM}
	}
	a.RainMM, a.EToMM = c[a.Station][0], c[a.Station][1]
	a.DistanceKM, a.ElevDiffM, a.IndoorLDay, a.IndoorMoney = nil, nil, nil, nil // not used, and a million of them is memory
}

// readMetered reads metered bills by which accounts are ranked.
func (in *inputs) readMetered(ctx context.Context, name string, plan *evaluate.Plan) (*rows.Metered, error) {
	f, err := in.open(name) // hashed as it is read
	if err != nil {
		return nil, err
	}
	b := rows.NewMetered(plan.Bills.Early, plan.FirstYear)
	begin := func(outdoor bool) { b.Outdoor = outdoor }
	if !parquetFile(name) {
		err := accountsfile.ReadBills(accountsfile.CSV(f, name), name, begin, b.Add)
		return b, errors.Join(err, f.Close(), ctx.Err())
	}
	if err := f.Close(); err != nil {
		return nil, err
	}
	file, err := os.Open(name)
	if err != nil {
		return nil, openError(name, err)
	}
	defer file.Close()
	info, err := file.Stat()
	if err != nil {
		return nil, openError(name, err)
	}
	table, err := accountsfile.Parquet(file, info.Size(), name)
	if err != nil {
		return nil, err
	}
	return b, errors.Join(accountsfile.ReadBills(table, name, begin, b.Add), ctx.Err())
}

func exists(name string) bool {
	_, err := os.Stat(name)
	return err == nil
}

// readRows reads one file of rows and records its hash.
func readRows[T any](in *inputs, name string, read rowReader[T], take func(*T) error) (map[string]string, error) {
	info, err := os.Stat(name)
	if err != nil {
		return nil, openError(name, err)
	}
	if what, fix := kindOf(info.Mode()); what != "" {
		return nil, &diag.Error{Code: diag.NotAFile, Pos: diag.Pos{File: name}, Msg: "this is a " + what + ", not a file", Fix: fix}
	}
	f, err := os.Open(name)
	if err != nil {
		return nil, openError(name, err)
	}
	defer f.Close()
	h := sha256.New()
	if _, err := io.Copy(h, f); err != nil {
		return nil, err
	}
	in.read = append(in.read, study.InputFile{Name: name, SHA256: hex.EncodeToString(h.Sum(nil))})
	return read(f, info.Size(), name, take)
}

// evaluationFiles draws the charts and prepares every file of the folder.
func evaluationFiles(ctx context.Context, e *evaluate.Evaluation, in *inputs, date cal.Date) ([]wholeFile, error) {
	charts := e.Charts()
	drawn, err := pngfile.DrawFiles(ctx, charts, runtime.GOMAXPROCS(0))
	if err != nil {
		return nil, err
	}
	facts := &evaluate.Facts{Version: Version, Date: date}
	for _, f := range in.read {
		facts.Files = append(facts.Files, plots.InputFile{Name: f.Name, SHA256: f.SHA256})
	}
	brief := e.Brief(facts)
	figures := figuresOf(charts, drawn)
	var files []wholeFile
	for i := range charts {
		png := drawn[i].Whole
		files = append(files, wholeFile{charts[i].Name + ".png", func(w io.Writer) error { _, err := w.Write(png); return err }})
	}
	for _, sheet := range e.Sheets() {
		if len(sheet.Rows) > 1 {
			files = append(files, wholeFile{sheet.Name + ".csv", func(w io.Writer) error { return writeRows(w, sheet.Rows) }})
		}
	}
	paper := pdffile.Letter
	if e.Plan.Units == plots.SI {
		paper = pdffile.A4
	}
	dated := date
	if dated == 0 {
		dated = cal.Of(e.Input.Table.Years[len(e.Input.Table.Years)-1], 12, 31)
	}
	return append(files,
		wholeFile{"evaluation.json", func(w io.Writer) error { return printJSON(w, e.Record()) }},
		wholeFile{"evaluation.html", func(w io.Writer) error {
			return htmlfile.WriteBrief(w, &htmlfile.BriefPage{Brief: brief, Figures: figures})
		}},
		wholeFile{"evaluation.pdf", func(w io.Writer) error {
			return pdffile.WriteBrief(w, &pdffile.BriefDocument{Brief: brief, Figures: figures, Paper: paper, Dated: dated})
		}}), nil
}

// figuresOf joins charts with their pictures.
func figuresOf(charts []plots.Chart, drawn []pngfile.Files) (out []plots.Figure) {
	for i := range charts {
		f := plots.Figure{Chart: &charts[i]}
		for _, b := range drawn[i].Bare {
			f.Pictures = append(f.Pictures, plots.Picture(b))
		}
		out = append(out, f)
	}
	return out
}

// printEvaluation prints verdicts and tables.
func printEvaluation(w io.Writer, e *evaluate.Evaluation) {
	if text := e.DominanceWords(); text != "" {
		printLines(w, wrapped(text))
		fmt.Fprintln(w)
	}
	for i := range e.Measures {
		printLines(w, wrapped(e.VerdictWords(&e.Measures[i])))
	}
	fmt.Fprintln(w)
	printLines(w, wrapped(e.AssumedWords()))
	if text := e.BillWords(); text != "" {
		printLines(w, wrapped(text))
	}
	if n := len(e.Input.Table.Unpaired); n > 0 {
		fmt.Fprintf(w, "Omitted: %d accounts without the same years under every measure.\n", n)
	}
	if n := e.Input.Table.Partial; n > 0 {
		fmt.Fprintf(w, "Omitted: %d results of years that are not whole.\n", n)
	}
	tables := e.Tables()
	for i := range tables {
		t := &tables[i]
		fmt.Fprintln(w)
		printLines(w, wrapped(t.Caption))
		printGrid(w, gridOfTable(t))
	}
	if len(e.Plan.Defaults) > 0 {
		fmt.Fprintf(w, "\nDefaults used:\n")
		for _, d := range e.Plan.Defaults {
			printLines(w, wrapped(fmt.Sprintf("  %s: %s (%s; %s)", d.Key, d.Value, d.Grade, d.Source)))
		}
	}
	fmt.Fprintln(w)
	printLines(w, wrapped(evaluate.RuleWords))
	printLines(w, wrapped(evaluate.Caution))
}

// gridOfTable turns a table of a page into one for a terminal.
func gridOfTable(t *plots.Table) *study.Grid {
	g := &study.Grid{Head: append([]string{t.First}, t.Head...), Columns: []study.GridColumn{{Width: 34}}}
	for i := range t.Head {
		g.Columns = append(g.Columns, study.GridColumn{Right: !t.IsWords(i), HeadWidth: 13})
	}
	for i := range t.Rows {
		r := &t.Rows[i]
		g.Rows = append(g.Rows, append([]string{r.Name}, r.Cells...))
	}
	return g
}

// lineWide is how many characters a printed line has at most.
const lineWide = 110

// wrapped breaks a text into lines.
func wrapped(text string) (out []string) {
	line := ""
	for _, word := range strings.Fields(text) {
		if line != "" && len([]rune(line))+1+len([]rune(word)) > lineWide {
			out, line = append(out, line), ""
		}
		if line != "" {
			line += " "
		}
		line += word
	}
	if strings.HasPrefix(text, "  ") && len(out) == 0 {
		line = "  " + line
	}
	return append(out, line)
}
