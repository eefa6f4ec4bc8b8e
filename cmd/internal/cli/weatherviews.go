package cli

import (
	"cmp"
	"fmt"
	"io"
	"path/filepath"

	"github.com/spf13/pflag"

	"loamledger/scenarios/study"
	"loamledger/weather"
	"loamledger/weather/csvfile"
	"loamledger/weather/quantity"
)

// weatherViews holds the flags that show a record in other ways than as text.
type weatherViews struct {
	Plot     string
	Stations bool
}

func (o *weatherViews) addFlags(f *pflag.FlagSet) {
	f.StringVar(&o.Plot, "plot", "", "PNG `FILE` to draw: temperatures, rain, radiation and reference ET,\nwith gaps and filled days")
	f.BoolVar(&o.Stations, "stations", false, "list the stations in each file and exit; files sorted by station\nmay be of any size")
}

// check rejects bad output names before anything is read.
func (o *weatherViews) check() error {
	return freePNG(o.Plot, keepIt, "record.png")
}

// plotRecord draws the record to a file, atomically.
func plotRecord(name string, l *study.Study) error {
	chart := l.RecordChart()
	return writePNG(name, keepIt, &chart)
}

// listStations prints a line for each station of each file as it is read.
func (o *weatherOptions) listStations(s Streams, files []string) error {
	co := csvfile.Options{Layout: o.Layout, Units: o.Units, Station: o.Station}
	var in inputs
	if o.parsed.Declared != nil {
		d, err := in.files("").Declared(o.parsed.Declared.Name, o.parsed.Declared.Pos)
		if err != nil {
			return err
		}
		co.Declared = d
	}
	var list []stationJSON
	if !o.JSON {
		fmt.Fprintf(s.Out, stationLine, "id", "from", "to", "days", "no tmax", "no tmin", "no rain", "name or file")
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
				ID: rec.Station.ID, Name: rec.Station.Name, File: name,
				Latitude: study.Number(rec.Station.LatDeg), Longitude: study.Number(rec.Station.LonDeg), Elevation: study.Number(rec.Station.ElevM),
				From: rec.Start.String(), To: rec.End().String(), Days: rec.Days,
				NoTmax: rec.CountMissing(weather.Tmax), NoTmin: rec.CountMissing(weather.Tmin), NoRain: rec.CountMissing(weather.Rain),
			}
			if o.JSON {
				list = append(list, one)
				continue
			}
			one.print(s.Out)
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
		fmt.Fprintf(s.Out, "%s; pick one with --station\n", quantity.Count(count, "station", "stations"))
	}
	return first
}

// stationLine is the format of a line of the list of stations.
const stationLine = "%-24s %-10s  %-10s  %8s  %8s  %8s  %8s  %s\n"

// print prints the station's line.
func (s *stationJSON) print(w io.Writer) {
	id := cmp.Or(s.ID, "-")
	name := cmp.Or(s.Name, filepath.Base(s.File))
	days, noTmax, noTmin, noRain := quantity.Whole(s.Days), quantity.Whole(s.NoTmax), quantity.Whole(s.NoTmin), quantity.Whole(s.NoRain)
	fmt.Fprintf(w, stationLine, id, s.From, s.To, days, noTmax, noTmin, noRain, name)
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
