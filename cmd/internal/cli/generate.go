package cli

import (
	"fmt"
	"io"
	"math"
	"path/filepath"

	"github.com/spf13/cobra"

	"loamledger/scenarios/study"
	"loamledger/scenarios/weatherfile"
	"loamledger/weather"
	"loamledger/weather/cal"
	"loamledger/weather/csvfile"
	"loamledger/weather/diag"
	"loamledger/weather/generate"
	"loamledger/weather/quantity"
)

// generateOptions holds the flags of the generate command.
type generateOptions struct {
	Normals, Fit  string
	Years, Start  int // number of years, first year
	Seed          uint64
	Out           string
	Units         string
	Latitude      float64
	Elevation     string
	Template      bool
	Accept        []string
	doubts        study.Doubts
	elevationM    float64
	givenSeed     bool
	givenLatitude bool
}

func newGenerate(s Streams) *cobra.Command {
	var o generateOptions
	cmd := &cobra.Command{
		Use:   "generate --normals FILE | --fit FILE",
		Short: "Generate synthetic weather from monthly normals or from a weather record",
		Long: `Generates years of daily synthetic weather for a site without a station record:
a wet-day Markov chain, rain amounts, and correlated temperatures and radiation.
It uses monthly normals (--normals), or is fitted to a weather record (--fit).
Every day is marked as synthetic, as is every result from it. The same seed
gives the same weather.`,
		Example: `  loamledger generate --template > normals.yaml
  loamledger generate --normals normals.yaml --years 30 --seed 1 --out weather.csv
  loamledger generate --fit station.csv --latitude 38.9 --elevation "490 m" --seed 7 --out more.csv`,
		Args: exactly(0, ""),
		RunE: func(cmd *cobra.Command, _ []string) error {
			if o.Template {
				_, err := io.WriteString(s.Out, weatherfile.NormalsExample)
				return err
			}
			o.givenSeed, o.givenLatitude = cmd.Flags().Changed("seed"), cmd.Flags().Changed("latitude")
			if err := o.parse(); err != nil {
				return err
			}
			return o.run(s)
		},
	}
	f := cmd.Flags()
	f.StringVar(&o.Normals, "normals", "", "YAML `FILE` of monthly normals; --template prints one")
	f.StringVar(&o.Fit, "fit", "", "weather `FILE` to imitate, spanning three years or more")
	f.IntVar(&o.Years, "years", 30, "`NUMBER` of years to generate")
	f.IntVar(&o.Start, "start-year", 2001, "first calendar `YEAR`")
	f.Uint64Var(&o.Seed, "seed", 0, "random seed `NUMBER`, such as 1; required")
	f.StringVarP(&o.Out, "out", "o", "", "CSV `FILE` to write the weather to; required")
	f.StringVar(&o.Units, "units", "", "`UNITS` of the --fit file, if it states none: si, us or tenths")
	f.Float64Var(&o.Latitude, "latitude", math.NaN(), "latitude in decimal `DEGREES`, if the --fit file has none")
	f.Lookup("latitude").DefValue = "0" // help shows no default: there is none
	f.StringVar(&o.Elevation, "elevation", "", "elevation, a `LENGTH` with its unit, if the --fit file has none")
	acceptFlag(f, &o.Accept, "run")
	f.BoolVar(&o.Template, "template", false, "print a sample file of monthly normals, then exit")
	return cmd
}

// maxYears limits the work.
const maxYears = 1000

func (o *generateOptions) parse() error {
	bad := func(code diag.Code, fix, format string, args ...any) error {
		return &usageError{code, fmt.Sprintf(format, args...), fix}
	}
	switch {
	case o.Normals == "" && o.Fit == "":
		return bad(diag.MissingFlag, "add --normals FILE or --fit FILE", "missing monthly normals or weather record")
	case o.Normals != "" && o.Fit != "":
		return bad(diag.FlagConflict, "omit one of them", "--normals and --fit conflict")
	case o.Out == "":
		return bad(diag.MissingFlag, "add --out weather.csv", "--out is required")
	case !o.givenSeed:
		return bad(diag.MissingFlag, "add --seed 1, or any other whole number", "--seed is required to make the weather repeatable")
	case o.Years < 1 || o.Years > maxYears:
		return bad(diag.BadFlag, "write a number of years", "--years %d is outside 1 to %d", o.Years, maxYears)
	case o.Start < 1800 || o.Start+o.Years > 2500:
		return bad(diag.BadFlag, "write a year such as 2001", "the years %d to %d are outside 1800 to 2500", o.Start, o.Start+o.Years-1)
	case o.Normals != "" && len(o.Accept) > 0:
		return bad(diag.FlagConflict, "omit --accept", "--accept applies to --fit only")
	case o.Normals != "" && (o.givenLatitude || o.Elevation != ""):
		return bad(diag.FlagConflict, "put latitude and elevation in "+o.Normals, "--latitude and --elevation apply to --fit only")
	case o.givenLatitude && !(o.Latitude >= -90 && o.Latitude <= 90):
		return bad(diag.BadFlag, "write decimal degrees, south negative", "--latitude %g is outside -90 to 90", o.Latitude)
	}
	if err := knownCodes(o.Accept); err != nil {
		return err
	}
	o.elevationM = math.NaN()
	if o.Elevation != "" {
		v, err := quantity.Parse(o.Elevation, quantity.Length)
		if err != nil {
			return bad(diag.BadFlag, "write a length with its unit, such as 1600 ft or 490 m", "--elevation: %v", err)
		}
		o.elevationM = v
	}
	return keepIt.free(o.Out)
}

func (o *generateOptions) run(s Streams) error {
	p, st, found, source, err := o.params()
	if err != nil {
		return err
	}
	first, last := cal.Of(o.Start, 1, 1), cal.Of(o.Start+o.Years-1, 12, 31)
	rec, err := generate.Generate(p, st, first, int(last-first)+1, o.Seed)
	if err != nil {
		return inputError(source, err, "correct the normals")
	}
	err = writeWhole(o.Out, keepIt, func(w io.Writer) error { return csvfile.WriteOwn(w, &rec.Series) })
	if err != nil {
		return err
	}
	days := quantity.Whole(rec.Days)
	printLines(s.Out, o.doubts.Lines)
	fmt.Fprintf(s.Out, "Synthetic weather, %v to %v, %s days, seed %d, from %s\n", rec.Start, rec.End(), days, o.Seed, source)
	for _, a := range rec.Assumptions {
		fmt.Fprintf(s.Out, "  assumed     %s\n", a)
	}
	wet, threshold := 0, p.WetMM
	if threshold == 0 {
		threshold = generate.DefaultWetMM
	}
	for _, v := range rec.Data[weather.Rain] {
		if v >= threshold {
			wet++
		}
	}
	wetDays := float64(wet) * 365.25 / float64(rec.Days)
	fmt.Fprintf(s.Out, "  mean a year %s of rain on %.0f wet days\n", study.DepthPerYear(rec.Data[weather.Rain]), wetDays)
	for _, f := range append(found, rec.Findings...) {
		if f.Code != weather.CodeSyntheticDays { // reported above
			fmt.Fprintf(s.Out, "  %s %s: %s; %s; %s\n", f.Code, f.Column, f.What, quantity.Count(f.Count, "case", "cases"), f.Action)
		}
	}
	fmt.Fprintf(s.Out, "\nWrote %s\n", o.Out)
	return nil
}

// params returns the parameters to draw from, the station, the findings, and the
// name of the source.
func (o *generateOptions) params() (p generate.Params, st weather.Station, found []weather.Finding, source string, err error) {
	var in inputs
	if o.Normals != "" {
		source = o.Normals
		f, err := in.open(o.Normals)
		if err != nil {
			return p, st, nil, source, err
		}
		defer f.Close()
		n, st, err := weatherfile.ReadNormals(f, o.Normals)
		if err != nil {
			return p, st, nil, source, err
		}
		p, err = n.Params()
		return p, st, nil, source, inputError(o.Normals, err, "correct the normals for that month")
	}
	source = o.Fit
	co := csvfile.Options{Units: o.Units}
	if o.givenLatitude {
		co.LatDeg = &o.Latitude
	}
	if !math.IsNaN(o.elevationM) {
		co.ElevM = &o.elevationM
	}
	rec, err := in.readRecord(o.Fit, diag.Pos{}, co)
	if err != nil {
		return p, st, nil, source, err
	}
	if rec.Has(weather.Rs) && (math.IsNaN(rec.Station.LatDeg) || math.IsNaN(rec.Station.ElevM)) {
		msg := filepath.Base(o.Fit) + " has radiation, which needs the latitude and elevation for comparison with a clear sky"
		return p, st, nil, source, &usageError{diag.MissingPlace, msg, "add --latitude and --elevation"}
	}
	if o.doubts, err = study.JudgeRecord(rec, o.Accept); err != nil {
		return p, st, nil, source, err
	}
	p, found, err = generate.Fit(&rec.Series, 0)
	return p, rec.Station, found, source, inputError(o.Fit, err, "use a longer record, or monthly normals with --normals")
}

// inputError turns err into an error in the named file; it returns nil for nil.
func inputError(name string, err error, fix string) error {
	if err == nil {
		return nil
	}
	if diag.IsInput(err) {
		return err
	}
	return &diag.Error{Code: diag.TooFewDays, Pos: diag.Pos{File: name}, Msg: err.Error(), Fix: fix}
}
