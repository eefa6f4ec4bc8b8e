package accounts

import (
	"math"

	"loamledger/scenarios"
	"loamledger/scenarios/names"
	"loamledger/sim/draw"
	"loamledger/weather"
	"loamledger/weather/diag"
)

// Version is the version of the layout of programs and of the table of accounts.
const Version = "1"

// A Program is what all accounts share.
type Program struct {
	File     string
	Name     string
	Seed     uint64
	Stations []Station
	// AsFound is the range of the factor on as-found run times of accounts whose outdoor
	// use is not known; not known if the program states none.
	AsFound   draw.Range
	Choices   []Choice
	Templates []Template
	DonorFile *scenarios.File // nil for none
	Donors    []Donor         // read from it
	// UsePeriod is when the metered use of accounts that do not say it was measured.
	UsePeriod Period
	Money     *Money // nil if water has no price
	// Root has the keys that a scenario has, too, without site and weather.
	Root *scenarios.Node

	keys     map[string]string // column by key of the parameter
	donors   map[donorKey][]*Donor
	programs []string // that the baseline runs
}

// A Station is a weather station of the program.
type Station struct {
	Name    string
	Pos     diag.Pos
	LatDeg  float64
	LonDeg  float64
	ElevM   float64
	Place   *scenarios.Node // latitude, longitude and elevation as written
	Weather *scenarios.Node // the keys of a scenario's weather
}

// A Choice is words from which a missing value is drawn, with their shares.
type Choice struct {
	Column string
	Key    string
	Words  []Word
}

// A Word is one of them.
type Word struct {
	Share float64 // above 0
	Node  *scenarios.Node
}

// ofSite reports whether all zones of an account have the same word.
func (c *Choice) ofSite() bool { return c.Column == "soil" || c.Column == "group" }

func (c *Choice) total() (sum float64) {
	for i := range c.Words {
		sum += c.Words[i].Share
	}
	return sum
}

// A Template is a list of zones of the program, for accounts of one kind.
type Template struct {
	Name  string
	Zones []string
}

// A Donor is a zone that is known, whose values stand in for missing ones.
type Donor struct {
	Class  string
	Like   string // zone of the program; empty for any
	Values Values
}

// Prepare readies the program for accounts, after it was built for a station.
func (p *Program) Prepare(sc *scenarios.Scenario) {
	p.programs = sc.Strategies[sc.Baseline].ProgramNames()
	p.indexDonors()
	p.keys = map[string]string{}
	for _, z := range scenarios.ZoneParams() {
		if p.keys[z.Key] = z.Column; z.Column == "" {
			p.keys[z.Key] = z.Key
		}
	}
}

// columnOf names the parameter of a doubt as in the table of accounts.
func (p *Program) columnOf(key string) string {
	if c, known := p.keys[key]; known {
		return c
	}
	return key
}

// StationTree returns the program as a scenario at station i, with the zones as the program
// has them. Building it checks the program.
func (p *Program) StationTree(i int) *scenarios.Node {
	st := &p.Stations[i]
	root := p.Root.Clone()
	site := st.Place.Clone()
	site.Entries = append(site.Entries, scenarios.Entry{Key: "name", Pos: st.Pos,
		Value: &scenarios.Node{Pos: st.Pos, Kind: scenarios.Scalar, Text: siteName}})
	root.Entries = append(root.Entries, scenarios.Entry{Key: "site", Pos: st.Pos, Value: site},
		scenarios.Entry{Key: "weather", Pos: st.Pos, Value: st.Weather.Clone()})
	return root
}

// siteName is the name of every site: no output has it.
const siteName = "account"

// station finds the station of an account.
func (p *Program) station(a *Account) (at int, km, elevM float64, err error) {
	if a.Station != "" {
		for i := range p.Stations {
			if same(p.Stations[i].Name, a.Station) {
				return i, p.distance(a, i), a.ElevM - p.Stations[i].ElevM, nil
			}
		}
		return 0, 0, 0, &diag.Error{Code: diag.UnknownStation, Pos: a.Pos, Msg: "the program has no station " + quoted(a.Station),
			Fix: "write the name of one of its stations, or leave the cell empty for the nearest"}
	}
	best, far := -1, math.NaN()
	for i := range p.Stations {
		if d := p.distance(a, i); best < 0 && !math.IsNaN(d) || d < far {
			best, far = i, d
		}
	}
	if best < 0 && len(p.Stations) > 1 {
		return 0, 0, 0, &diag.Error{Code: diag.MissingPlace, Pos: a.Pos,
			Msg: "the account has neither a station nor latitude and longitude, and the program has several stations",
			Fix: "add latitude and longitude, or station"}
	}
	best = max(best, 0)
	return best, far, a.ElevM - p.Stations[best].ElevM, nil
}

// distance returns the distance of a station from an account [km]; NaN if unknown.
func (p *Program) distance(a *Account, i int) float64 {
	from, to := weather.UnknownStation(), weather.UnknownStation()
	from.LatDeg, from.LonDeg = a.LatDeg, a.LonDeg
	to.LatDeg, to.LonDeg = p.Stations[i].LatDeg, p.Stations[i].LonDeg
	return weather.DistanceKM(from, to)
}

// same reports whether two names are the same as people type them.
func same(a, b string) bool { return a == b || names.Key(a) == names.Key(b) }

func quoted(text string) string { return "\"" + text + "\"" }
