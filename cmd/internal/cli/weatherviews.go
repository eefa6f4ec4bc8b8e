package cli

import (
	"fmt"
	"path/filepath"

	"github.com/spf13/pflag"

	"loamledger/scenarios/study"
	"loamledger/weather"
	"loamledger/weather/csvfile"
	"loamledger/weather/quantity"
)

// weatherViews are the flags that show a record otherwise than in words.
type weatherViews struct {
	Plot     string
	Stations bool
}

func (o *weatherViews) addFlags(f *pflag.FlagSet) {
	f.StringVar(&o.Plot, "plot", "", "PNG `FILE` to draw the record to: temperatures, rain, radiation and\nreference ET, with gaps and filled days")
	f.BoolVar(&o.Stations, "stations", false, "list the stations of each file, and stop; memory stays flat\nwhere a file is sorted by station")
}

// check refuses names that cannot be written before anything is read.
func (o *weatherViews) check() error {
	return freePNG(o.Plot, keepIt, "record.png")
}

// plotRecord draws the record, whole or not at all.
func plotRecord(name string, l *study.Study) error {
	chart := l.RecordChart()
	return writePNG(name, keepIt, &chart)
}

// listStations prints a line for each station of each file as it is read.
func (o *weatherOptions) listStations(s Streams, files []string) error {
	co := csvfile.Options{Layout: o.Layout, Units: o.Units, Station: o.Station}
	var in inputs
	if o.parsed.Declared != nil {
		d, err := in.readDeclared(o.parsed.Declared.Name, o.parsed.Declared.Pos)
		if err != nil {
			return err
		}
		co.Declared = d
	}
	var list []stationJSON
	if !o.JSON {
		fmt.Fprintf(s.Out, "%-24s %-10s  %-10s  %8s  %8s  %8s  %8s  %s\n", "id", "from", "to", "days", "no tmax", "no tmin", "no rain", "name, or else the file")
	}
	var first error
	count := 0
	for _, name := range files {
		f, err := in.open(name)
		if err != nil {
			return err
		}
		for rec, err := range csvfile.ReadAll(f, name, co) {
			if err != nil {
				if first == nil {
					first = err
				}
				continue
			}
			count++
			one := stationJSON{
				ID: rec.Station.ID, Name: rec.Station.Name, File: name, Latitude: study.Number(rec.Station.LatDeg), Longitude: study.Number(rec.Station.LonDeg), Elevation: study.Number(rec.Station.ElevM),
				From: rec.Start.String(), To: rec.End().String(), Days: rec.Days,
				NoTmax: rec.CountMissing(weather.Tmax), NoTmin: rec.CountMissing(weather.Tmin), NoRain: rec.CountMissing(weather.Rain),
			}
			if o.JSON {
				list = append(list, one)
				continue
			}
			id := one.ID
			if id == "" {
				id = "-"
			}
			known := one.Name
			if known == "" {
				known = filepath.Base(name)
			}
			fmt.Fprintf(s.Out, "%-24s %-10s  %-10s  %8s  %8s  %8s  %8s  %s\n", id, one.From, one.To, quantity.Whole(one.Days), quantity.Whole(one.NoTmax), quantity.Whole(one.NoTmin), quantity.Whole(one.NoRain), known)
		}
		if err := f.Close(); err != nil {
			return err
		}
	}
	if o.JSON {
		if err := printJSON(s.Out, list); err != nil {
			return err
		}
	} else {
		fmt.Fprintf(s.Out, "%s; --station reads one of them\n", quantity.Count(count, "station", "stations"))
	}
	return first
}

type stationJSON struct {
	ID        string   `json:"id"`
	Name      string   `json:"name"`
	File      string   `json:"file"`
	Latitude  *float64 `json:"latitude_deg"`
	Longitude *float64 `json:"longitude_deg"`
	Elevation *float64 `json:"elevation_m"`
	From      string   `json:"from"`
	To        string   `json:"to"`
	Days      int      `json:"days"`
	NoTmax    int      `json:"missing_tmax_days"`
	NoTmin    int      `json:"missing_tmin_days"`
	NoRain    int      `json:"missing_rain_days"`
}
