package cli

import (
	"bytes"
	"context"
	"fmt"
	"io"
	"path/filepath"
	"runtime"
	"strings"

	"github.com/spf13/cobra"

	"loamledger/cmd/internal/progress"
	"loamledger/plots/pdffile"
	"loamledger/scenarios/study"
	"loamledger/sim/replay"
	"loamledger/weather/cal"
	"loamledger/weather/diag"
)

// reportOptions are the flags of the report command.
type reportOptions struct {
	Out, Paper, Date string
	Draws            int // as of replay
	Force            bool
	Alive            bool // with the engine and the files of the scenario inside
	scenarioFlags
	forecastFlags

	live func(io.Writer, []byte) error // writes an HTML report with the engine; nil for a plain one
}

func newReport(s Streams) *cobra.Command {
	var o reportOptions
	cmd := &cobra.Command{
		Use:   "report SCENARIO [--out FILE]",
		Short: "Write the report of a scenario as one PDF or HTML file",
		Long: `Replays every strategy of a scenario and writes the report as one file: PDF to
print, mail or show, or HTML, by the end of its name. The first sheet is one page
for a decision: answer, options, doubts, what to do next. The rest has every
number, the charts, and every default with its source.

With --alive, an HTML report also has the engine and the files of the scenario
inside: in a browser, its numbers can be moved. It is larger by some megabytes, and
whoever gets it gets the files as well. Without scripts it is the same report.

Keys of the scenario under prepared_by put a name and a logo on the first sheet.
The same inputs give identical files, except for the date set by --date.`,
		Example: "  loamledger report yard.yaml --out report.pdf\n  loamledger report yard.yaml --out board.pdf --paper a4 --date 2026-03-01",
		Args:    exactly(1, "one scenario file"),
		RunE: func(cmd *cobra.Command, args []string) error {
			date, err := dayFlag("date", o.Date, "2026-03-01")
			if err != nil {
				return err
			}
			if err := o.check(); err != nil {
				return err
			}
			if err := o.forecastFlags.check(); err != nil {
				return err
			}
			l, err := loadWith(args[0], o.scenarioFlags, o.forecastFlags)
			if err != nil {
				return err
			}
			if o.Alive {
				if o.live, err = l.alive(cmd.Context(), &o); err != nil {
					return err
				}
			}
			return l.writeReport(cmd.Context(), s, &o, date)
		},
	}
	f := cmd.Flags()
	f.StringVarP(&o.Out, "out", "o", "report.pdf", "`FILE` to write, ending in .pdf or .html")
	f.StringVar(&o.Paper, "paper", "", "`SIZE` of the paper of a PDF, letter or a4 (default letter for US\nunits, a4 for SI)")
	f.BoolVar(&o.Force, "force", false, "replace the file")
	f.BoolVar(&o.Alive, "alive", false, "put the engine and the files of the scenario into an HTML report")
	f.IntVar(&o.Draws, "draws", 0, "`NUMBER` of draws from the ranges of the inputs (default the\nscenario's number, else none)")
	f.StringVar(&o.Date, "date", "", "`DATE` to print in the report, such as 2026-03-01")
	o.scenarioFlags.addFlags(f)
	o.forecastFlags.addFlags(f)
	return cmd
}

// check rejects flags before anything is read.
func (o *reportOptions) check() error {
	switch strings.ToLower(filepath.Ext(o.Out)) {
	case ".pdf", ".html":
	default:
		return &usageError{diag.BadFlag, fmt.Sprintf("--out %s must end in .pdf or .html", o.Out), "choose a name such as report.pdf"}
	}
	if o.Paper != "" && paperNamed(o.Paper) == nil {
		return &usageError{diag.BadFlag, fmt.Sprintf("--paper %q is not valid", o.Paper), "write --paper letter, or --paper a4"}
	}
	if err := checkDraws(o.Draws, leastDraws); err != nil {
		return err
	}
	return forced(o.Force).free(o.Out)
}

// paperNamed returns a size of paper by its name; nil for an unknown one.
func paperNamed(name string) *pdffile.Paper {
	sizes := map[string]pdffile.Paper{"letter": pdffile.Letter, "a4": pdffile.A4}
	if p, ok := sizes[strings.ToLower(name)]; ok {
		return &p
	}
	return nil
}

// writeReport replays the scenario and writes its report.
func (l *loaded) writeReport(ctx context.Context, s Streams, o *reportOptions, date cal.Date) error {
	if err := l.spare(o.Out); err != nil {
		return err
	}
	l.Job.Workers, l.Job.Brief = runtime.GOMAXPROCS(0), true
	tidyOften(&l.Job)
	meter := progress.New(s.bar, s.Terminal, len(l.Job.Strategies)+2, "replaying")
	l.Job.Step = meter.Step
	defer meter.Done()
	ahead, err := l.LookAhead(ctx)
	if err != nil {
		return err
	}
	season := study.NewSeason(&l.Job, replay.RankYears(&l.Job).Dry)
	table, err := l.Replay(ctx, season.Take)
	meter.Done()
	if err != nil {
		return err
	}
	if err := l.drawIfAsked(ctx, s, table, o.Draws, false); err != nil {
		return err
	}
	if l.metered, err = l.CompareMeters(ctx, l.meters); err != nil {
		return err
	}
	p, err := l.printed(ctx, table, season, ahead, date)
	if err != nil {
		return err
	}
	if paper := paperNamed(o.Paper); paper != nil {
		p.paper = *paper
	}
	write := p.writePDF
	if strings.EqualFold(filepath.Ext(o.Out), ".html") {
		write = p.writeHTML
	}
	if o.live != nil {
		write = func(w io.Writer) error {
			var plain bytes.Buffer
			if err := p.writeHTML(&plain); err != nil {
				return err
			}
			return o.live(w, plain.Bytes())
		}
	}
	if err := writeWhole(o.Out, forced(o.Force), write); err != nil {
		return err
	}
	fmt.Fprintf(s.Out, "%s\n\nWrote %s\n", p.report.Answer, o.Out)
	return nil
}
