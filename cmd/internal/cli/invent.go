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
	"loamledger/weather/quality"
	"loamledger/weather/quantity"
)

// inventOptions are the flags of the invent command.
type inventOptions struct {
	Normals, Fit  string
	Years, First  int
	Seed          uint64
	Output        string
	Units         string
	Latitude      float64
	Elevation     string
	Template      bool
	elevationM    float64
	givenSeed     bool
	givenLatitude bool
}

func newInvent(s Streams) *cobra.Command {
	var o inventOptions
	cmd := &cobra.Command{
		Use:   "invent --normals FILE | --fit FILE",
		Short: "Invent daily weather from monthly figures or in the likeness of a record",
		Long: `Invents years of daily weather for a place that has no station record: wet and
dry days in a chain, amounts of rain, temperatures and radiation that hang
together. It draws from monthly figures (--normals) or fits itself to a record
(--fit). Every day is marked as invented, and so is every result made of it.
The same seed gives the same weather.`,
		Example: "  loamledger invent --template > normals.yaml\n  loamledger invent --normals normals.yaml --years 30 --seed 1 -o weather.csv\n  loamledger invent --fit station.csv --latitude 38.9 --elevation \"490 m\" --seed 7 -o weather.csv",
		Args:    exactly(0, "no argument"),
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
	f.StringVar(&o.Normals, "normals", "", "YAML `FILE` of monthly figures; --template prints one")
	f.StringVar(&o.Fit, "fit", "", "weather `FILE` whose likeness is wanted, of three years or more")
	f.IntVar(&o.Years, "years", 30, "`NUMBER` of years to invent")
	f.IntVar(&o.First, "first", 2001, "first calendar `YEAR`")
	f.Uint64Var(&o.Seed, "seed", 0, "whole `NUMBER`; must be given")
	f.StringVarP(&o.Output, "output", "o", "", "`FILE` to write the weather to, as CSV of loamledger's own layout;\nmust be given")
	f.StringVar(&o.Units, "units", "", "`UNITS` of a record that states none: si, us or tenths")
	f.Float64Var(&o.Latitude, "latitude", math.NaN(), "latitude in decimal `DEGREES`, where --fit's file has none")
	f.Lookup("latitude").DefValue = "0" // help shows no default: there is none
	f.StringVar(&o.Elevation, "elevation", "", "elevation, a `LENGTH` with its unit, where --fit's file has none")
	f.BoolVar(&o.Template, "template", false, "print a commented file of monthly figures to edit, and stop")
	return cmd
}

// mostInventedYears bounds the work; no one reads more.
const mostInventedYears = 1000

func (o *inventOptions) parse() error {
	fault := func(code diag.Code, fix, format string, args ...any) error {
		return &usageError{code, fmt.Sprintf(format, args...), fix}
	}
	switch {
	case o.Normals == "" && o.Fit == "":
		return fault(diag.MissingFlag, "add --normals FILE, or --fit FILE", "neither monthly figures nor a record is named")
	case o.Normals != "" && o.Fit != "":
		return fault(diag.FlagConflict, "keep one of the two", "both --normals and --fit are given")
	case o.Output == "":
		return fault(diag.MissingFlag, "add --output weather.csv", "no file to write is named")
	case !o.givenSeed:
		return fault(diag.MissingFlag, "add --seed 1, or any other whole number", "no seed is given, so that the weather could not be made again")
	case o.Years < 1 || o.Years > mostInventedYears:
		return fault(diag.BadFlag, "write a number of years", "--years %d is outside 1 to %d", o.Years, mostInventedYears)
	case o.First < 1800 || o.First+o.Years > 2500:
		return fault(diag.BadFlag, "write a year such as 2001", "the years %d to %d are outside 1800 to 2500", o.First, o.First+o.Years-1)
	case o.Normals != "" && (o.givenLatitude || o.Elevation != ""):
		return fault(diag.FlagConflict, "write latitude and elevation into "+o.Normals, "--latitude and --elevation belong to --fit")
	case o.givenLatitude && !(o.Latitude >= -90 && o.Latitude <= 90):
		return fault(diag.BadFlag, "write it in decimal degrees, south negative", "--latitude %g is outside -90 to 90", o.Latitude)
	}
	o.elevationM = math.NaN()
	if o.Elevation != "" {
		v, err := quantity.Parse(o.Elevation, quantity.Length)
		if err != nil {
			return fault(diag.BadFlag, "write a length with its unit, such as 1600 ft or 490 m", "--elevation: %v", err)
		}
		o.elevationM = v
	}
	return keepIt.free(o.Output)
}

func (o *inventOptions) run(s Streams) error {
	p, st, found, source, err := o.params()
	if err != nil {
		return err
	}
	first, last := cal.Of(o.First, 1, 1), cal.Of(o.First+o.Years-1, 12, 31)
	rec, err := generate.Generate(p, st, first, int(last-first)+1, o.Seed)
	if err != nil {
		return inputFault(source, err, "correct the figures")
	}
	if err := writeWhole(o.Output, keepIt, func(w io.Writer) error { return csvfile.WriteOwn(w, &rec.Series) }); err != nil {
		return err
	}
	fmt.Fprintf(s.Out, "Invented weather, observed nowhere: %v to %v, %s days, seed %d, from %s\n", rec.Start, rec.End(), quantity.Whole(rec.Days), o.Seed, source)
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
	fmt.Fprintf(s.Out, "  mean a year rain %s on %.0f wet days\n", study.DepthPerYear(rec.Data[weather.Rain]), float64(wet)*365.25/float64(rec.Days))
	for _, f := range append(found, rec.Findings...) {
		if f.Code != weather.CodeSyntheticDays { // said above
			fmt.Fprintf(s.Out, "  %s %s: %s; %s; %s\n", f.Code, f.Column, f.What, quantity.Count(f.Count, "case", "cases"), f.Action)
		}
	}
	fmt.Fprintf(s.Out, "\nWrote %s\n", o.Output)
	return nil
}

// params works out what to draw from, the place, and where the figures are from.
func (o *inventOptions) params() (p generate.Params, st weather.Station, found []weather.Finding, source string, err error) {
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
		return p, st, nil, source, inputFault(o.Normals, err, "correct the figures of that month")
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
		return p, st, nil, source, &usageError{diag.MissingPlace, filepath.Base(o.Fit) + " has radiation, which is held to that of a clear sky, and states no latitude or no elevation", "add --latitude and --elevation"}
	}
	quality.Check(rec)
	p, found, err = generate.Fit(&rec.Series, 0)
	return p, rec.Station, found, source, inputFault(o.Fit, err, "give a longer record, or monthly figures with --normals")
}

// inputFault makes a fault of the named file out of err, nil out of nil.
func inputFault(name string, err error, fix string) error {
	if err == nil {
		return nil
	}
	if diag.IsInput(err) {
		return err
	}
	return &diag.Error{Code: diag.TooFewDays, Pos: diag.Pos{File: name}, Msg: err.Error(), Fix: fix}
}
