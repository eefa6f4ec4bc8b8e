package accountsfile

import (
	"io"
	"math"
	"slices"
	"strings"

	"loamledger/scenarios"
	"loamledger/scenarios/accounts"
	"loamledger/scenarios/yamlfile"
	"loamledger/weather/cal"
	"loamledger/weather/diag"
	"loamledger/weather/quantity"
)

var (
	ownKeys = []string{"portfolio", "name", "seed", "stations", "as_found", "choices", "donors", "templates", "money"}
	// asScenario are the keys that mean what they mean in a scenario.
	asScenario   = []string{"units", "zones", "programs", "strategies", "baseline", "limits", "timer", "forecast", "start"}
	placeKeys    = []string{"latitude", "longitude", "elevation"}
	foundKeys    = []string{"scale", accounts.ColumnUseFrom, accounts.ColumnUseTo}
	mostStations = 10_000
)

// A programReader reads one program.
type programReader struct {
	yamlfile.Reader
	out *accounts.Program
}

// ReadProgram reads the program in in. name is the file name for messages. What it shares with
// a scenario is checked when it is built for its stations; all other errors are reported
// together, as one error that [diag.IsInput] recognizes.
func ReadProgram(in io.Reader, name string) (*accounts.Program, error) {
	r := &programReader{Reader: yamlfile.Reader{Name: name}, out: &accounts.Program{File: name, Seed: 1}}
	root, err := r.Open(in, slices.Concat(ownKeys, asScenario))
	if err != nil {
		return nil, err
	}
	r.version(root)
	r.out.Name = r.Text(root, "name")
	if r.out.Name == "" && root.Get("name") == nil {
		r.Faults.Add(diag.MissingKey, root.Pos, "add name, which every output shows", "name is missing")
	}
	if v := r.Number(root, "seed", 0, 1<<53); v != nil {
		r.out.Seed = uint64(*v)
	}
	r.zones(root)
	r.measures(root)
	r.stations(root)
	r.asFound(root)
	r.choices(root)
	r.money(root)
	r.templates(root)
	if text := r.Text(root, "donors"); text != "" {
		r.out.DonorFile = &scenarios.File{Name: text, Pos: root.Get("donors").Pos}
	}
	r.out.Root = &scenarios.Node{Pos: root.Pos, Kind: scenarios.Map}
	for _, e := range root.Entries {
		if slices.Contains(asScenario, e.Key) {
			r.out.Root.Entries = append(r.out.Root.Entries, e)
		}
	}
	if err := r.Faults.Err(); err != nil {
		return nil, err
	}
	return r.out, nil
}

// version reads the version of the layout.
func (r *programReader) version(root *scenarios.Node) {
	n := root.Get("portfolio")
	fix := "write portfolio: " + accounts.Version
	switch {
	case n == nil:
		r.Faults.Add(diag.MissingKey, root.Pos, fix, "portfolio is missing: the version of the layout of this file")
	case r.Text(root, "portfolio") != accounts.Version:
		r.Faults.Add(diag.UnknownLayout, n.Pos, fix, "this version of loamledger reads version %s of programs", accounts.Version)
	}
}

// zones checks what the accounts need of the program's zones before it is built: a list with
// names.
func (r *programReader) zones(root *scenarios.Node) {
	n := root.Get("zones")
	switch {
	case n == nil:
		r.Faults.Add(diag.MissingKey, root.Pos, "add zones: what is known of the zones of an account that states nothing", "zones is missing")
		return
	case n.Kind != scenarios.List || len(n.Items) == 0:
		r.Faults.Add(diag.WrongShape, n.Pos, "write a list, with a dash before each zone", "zones is not a list of zones")
		return
	}
	for _, z := range n.Items {
		if name := z.Get("name"); name == nil || name.Kind != scenarios.Scalar || strings.TrimSpace(name.Text) == "" {
			r.Faults.Add(diag.MissingKey, z.Pos, "add name, which accounts refer to", "a zone has no name")
		} else {
			name.Text = strings.TrimSpace(name.Text)
		}
	}
}

func (r *programReader) stations(root *scenarios.Node) {
	n := root.Get("stations")
	const fix = "add stations: [{name: valley, file: valley.csv, latitude: 39.1, longitude: -119.8, elevation: 1400 m}]"
	switch {
	case n == nil:
		r.Faults.Add(diag.MissingKey, root.Pos, fix, "stations is missing")
		return
	case n.Kind != scenarios.List || len(n.Items) == 0:
		r.Faults.Add(diag.WrongShape, n.Pos, fix, "stations is not a list of stations")
		return
	case len(n.Items) > mostStations:
		r.Faults.Add(diag.TooLarge, n.Pos, "split the program", "stations has more than %d entries", mostStations)
		return
	}
	for i, item := range n.Items {
		st := accounts.Station{Pos: item.Pos, LatDeg: math.NaN(), LonDeg: math.NaN(), ElevM: math.NaN(),
			Place: &scenarios.Node{Pos: item.Pos, Kind: scenarios.Map}, Weather: &scenarios.Node{Pos: item.Pos, Kind: scenarios.Map}}
		if item.Kind != scenarios.Map {
			r.Faults.Add(diag.WrongShape, item.Pos, fix, "station %d is not a group of keys", i+1)
			continue
		}
		if st.Name = strings.TrimSpace(r.Text(item, "name")); st.Name == "" {
			r.Faults.Add(diag.MissingKey, item.Pos, "add name, which the results have", "station %d has no name", i+1)
		}
		if slices.ContainsFunc(r.out.Stations, func(o accounts.Station) bool { return o.Name == st.Name && st.Name != "" }) {
			r.Faults.Add(diag.Duplicate, item.Pos, "give each its own name", "duplicate station name %s", quoted(st.Name))
		}
		for _, e := range item.Entries {
			switch {
			case e.Key == "name":
			case slices.Contains(placeKeys, e.Key):
				st.Place.Entries = append(st.Place.Entries, e)
			default:
				st.Weather.Entries = append(st.Weather.Entries, e)
			}
		}
		if v := r.Number(item, "latitude", -90, 90); v != nil {
			st.LatDeg = *v
		}
		if v := r.Number(item, "longitude", -180, 180); v != nil {
			st.LonDeg = *v
		}
		if v := r.Quantity(item, "elevation", quantity.Length); v != nil {
			st.ElevM = *v
		}
		if len(n.Items) > 1 && (math.IsNaN(st.LatDeg) || math.IsNaN(st.LonDeg)) {
			r.Faults.Add(diag.MissingPlace, item.Pos, "add latitude and longitude, by which the nearest is chosen",
				"station %s has no place, and there are several", quoted(st.Name))
		}
		r.out.Stations = append(r.out.Stations, st)
	}
}

// asFound reads how accounts water whose use is not known.
func (r *programReader) asFound(root *scenarios.Node) {
	n := root.Get("as_found")
	if n == nil || !r.Group(n, "as_found", foundKeys) {
		return
	}
	const fix = "write the factor on the run times of the programs, as in scale: 40% to 100% to 250%"
	r.usePeriod(n)
	text := r.Text(n, "scale")
	if text == "" && r.out.UsePeriod.Known() && n.Get("scale") == nil {
		return // every account has its use
	}
	if text == "" {
		r.Faults.Add(diag.MissingKey, n.Pos, fix, "as_found has no scale")
		return
	}
	values, err := accounts.ParseRange(text, quantity.Fraction)
	span, ok := accounts.RangeOf(values)
	switch {
	case err != nil:
		r.Faults.Add(diag.BadQuantity, n.Get("scale").Pos, fix, "scale: %v", err)
	case !ok || !(span.Low > 0 && span.High <= 20):
		r.Faults.Add(diag.OutOfRange, n.Get("scale").Pos, fix, "scale %s is not a range between 0%% and 2000%%", quoted(text))
	default:
		r.out.AsFound = span
	}
}

// usePeriod reads when the use of a usual year was metered.
func (r *programReader) usePeriod(n *scenarios.Node) {
	at := func(key string) cal.Date {
		text := strings.TrimSpace(r.Text(n, key))
		if text == "" {
			return 0
		}
		d, err := cal.Parse(text)
		if err != nil {
			r.Faults.Add(diag.NotADate, n.Get(key).Pos, "write a day, such as 2021-01-01", "as_found: %s %s is not a date", key, quoted(text))
		}
		return d
	}
	p := accounts.Period{From: at(accounts.ColumnUseFrom), To: at(accounts.ColumnUseTo)}
	switch {
	case p == accounts.Period{} || r.Faults.Len() > 0:
	case !p.Known():
		r.Faults.Add(diag.MissingKey, n.Pos, "give both, the first and the last day", "as_found has only one of use_from and use_to")
	case p.To < p.From:
		r.Faults.Add(diag.WrongOrder, n.Get(accounts.ColumnUseTo).Pos, "write the first day, then the last",
			"as_found: use_to is before use_from")
	default:
		r.out.UsePeriod = p
	}
}

// choices reads the words from which missing ones are drawn.
func (r *programReader) choices(root *scenarios.Node) {
	n := root.Get("choices")
	if n == nil {
		return
	}
	const fix = "write words with their shares, as in soil: {loam: 60%, clay loam: 40%}"
	if n.Kind != scenarios.Map {
		r.Faults.Add(diag.WrongShape, n.Pos, fix, "choices is not a group of keys")
		return
	}
	for _, e := range n.Entries {
		key, ok := accounts.ZoneKey(e.Key)
		if !ok || key == "" {
			r.Faults.Add(diag.UnknownKey, e.Pos, "write a column of the table of accounts, such as plant, soil or sprinkler", "unknown key %s",
				quoted(e.Key))
			continue
		}
		if e.Value == nil || e.Value.Kind != scenarios.Map {
			r.Faults.Add(diag.WrongShape, e.Pos, fix, "choices of %s are not words with shares", e.Key)
			continue
		}
		if words := r.words(e.Value, e.Key, fix); len(words) > 0 {
			r.out.Choices = append(r.out.Choices, accounts.Choice{Column: e.Key, Key: key, Words: words})
		}
	}
}

// templates reads the lists of zones that accounts may name.
func (r *programReader) templates(root *scenarios.Node) {
	n := root.Get("templates")
	if n == nil {
		return
	}
	if n.Kind != scenarios.Map {
		r.Faults.Add(diag.WrongShape, n.Pos, "write names with lists of zones, as in small lot: [front lawn, shrubs]",
			"templates is not a group of keys")
		return
	}
	var known []string
	if zones := root.Get("zones"); zones != nil {
		for _, z := range zones.Items {
			if name := z.Get("name"); name != nil {
				known = append(known, name.Text)
			}
		}
	}
	for _, e := range n.Entries {
		t := accounts.Template{Name: e.Key, Zones: r.Texts(n, e.Key)}
		for i, z := range t.Zones {
			if t.Zones[i] = strings.TrimSpace(z); !slices.Contains(known, t.Zones[i]) {
				r.Faults.Add(diag.UnknownName, e.Pos, "write names of zones: "+strings.Join(known, ", "), "template %s: unknown zone %s", quoted(e.Key),
					quoted(z))
			}
		}
		if len(t.Zones) == 0 {
			r.Faults.Add(diag.EmptyValue, e.Pos, "list its zones", "template %s is empty", quoted(e.Key))
		}
		r.out.Templates = append(r.out.Templates, t)
	}
}

// ReadDonors reads the zones of a table of accounts as donors. All errors are reported
// together, as one error that [diag.IsInput] recognizes.
func ReadDonors(rows Rows, name string) ([]accounts.Donor, error) {
	r, err := NewReader(rows, name)
	if err != nil {
		return nil, err
	}
	var out []accounts.Donor
	var faults diag.List
	for {
		a, bad, err := r.Next(nil)
		if err != nil {
			return nil, err
		}
		if a == nil {
			break
		}
		faults.Append(Faults(bad)...)
		if len(a.Zones) == 0 {
			out = append(out, accounts.Donor{Class: a.Class, Values: a.Values})
		}
		for _, z := range a.Zones {
			out = append(out, accounts.Donor{Class: a.Class, Like: z.Like, Values: z.Values})
		}
	}
	if faults.Len() == 0 && len(out) == 0 {
		faults.Add(diag.EmptyFile, diag.Pos{File: name}, "add a row for each donor", "the table of donors has no rows")
	}
	return out, faults.Err()
}
