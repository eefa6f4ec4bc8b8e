package scenarios

import (
	"strings"

	"loamledger/weather/quantity"
)

// Template returns the text of a commented scenario to edit, in the units of
// system s. It can be read as it stands, given a file weather.csv.
func Template(s quantity.System) string {
	column := 1
	if s == quantity.US {
		column = 0
	}
	var pairs []string
	for _, p := range templateWords {
		pairs = append(pairs, "<"+p[2]+">", p[column])
	}
	return strings.NewReplacer(pairs...).Replace(templateText)
}

// templateWords are the words in which the two templates differ: US, SI, name.
var templateWords = [][3]string{
	{"us", "si", "system"},
	{"1600 ft", "490 m", "elevation"},
	{"2400 ft2", "220 m2", "lawn area"},
	{"600 ft2", "55 m2", "bed area"},
	{"6 in", "150 mm", "roots"},
	{"1.5 in/h", "38 mm/h", "rate"},
	{"4 gpm", "15 L/min", "flow"},
	{"0.25 in", "6 mm", "rain"},
	{"0.25 in", "6.5 mm", "design"},
	{"37 F", "3 C", "cold"},
	{"2 in/ft", "150 mm/m", "awc"},
	{"0.35 in/h", "9 mm/h", "intake"},
	{"0.25 in", "6 mm", "storage"},
	{"ft2 or acre", "m2 or ha", "areas"},
}

const templateText = `# A scenario: one site, its zones, the programs on its controller and the
# strategies to compare. Change what is yours and leave out what you do not
# know: every default is listed in the report with its source.
# Every quantity carries its unit, such as 20 min, 40 % or <lawn area>.

site:
  name: My place
  latitude: 38.9              # decimal degrees, south negative
  elevation: <elevation>

units: <system>                     # us or si: what is printed; files are always SI

weather:
  file: weather.csv           # beside this file; date,tmax_c,tmin_c,rain_mm and more
  wind_height: 2 m            # of the wind gauge, where the file has wind
  # rain_file: gauge.csv      # a nearer rain gauge
  # fill_files: second.csv    # a second station, to fill gaps from
  # exclude_years: [2011]     # years too full of gaps to count
  # dew_point_below: 2 C      # where humidity is unknown: 0 C in humid places, 2 C in dry ones

# forecast: {file: forecasts.csv}       # or {synthetic: {seed: 1}}; for skip: {forecast: {above: <rain>}}

zones:                        # one for each valve; or the name of a CSV table of zones
  - name: front lawn
    area: <lawn area>            # in <areas>
    plant: cool-season turf   # the catalogue command lists the names
    soil: clay loam           # or {awc: <awc>, intake: <intake>, surface_storage: <storage>, curve_number: 74}
    slope: 4 %
    root_depth: <roots>
    sprinkler: {kind: spray, rate: <rate>, uniformity: 55 %}

  - name: shrub bed
    area: <bed area>
    plant: shrubs, dry climate
    soil: loam
    microclimate: 0.8         # 1 in the open, less in shade, more beside hot walls
    sprinkler: {kind: drip, flow: <flow>}

programs:                     # as the controller is set
  - name: lawns
    days: [mon, wed, fri]     # odd, even, any, or {every: 3 days, from: 2012-01-01}
    starts: ["05:30"]         # each start runs all the minutes
    minutes: {front lawn: 20}
    cycle: 8 min              # longest run at a time, so that water can sink in
    soak: 30 min
  - name: beds
    days: {every: 4 days, from: 2012-01-01}
    starts: ["06:30"]
    minutes: {shrub bed: 45}

strategies:                   # what is compared, the first being what is done now
  - name: as found
    programs: [lawns, beds]

  - name: twelve percentages
    programs: [lawns, beds]
    monthly: [0, 0, 40, 60, 80, 100, 100, 95, 75, 50, 25, 0]

  - name: follow the weather
    programs: [lawns, beds]
    et_percent: {design: <design>, over: 7 days, count_rain: true, most: 150 %}
    skip: {rain: {above: <rain>, dry_out: 2 days}, freeze: {below: <cold>}}
    round: 1 min

  - name: refill when due
    refill: {zones: all, mad: 50 %, days: any}
`
