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
	{"0.1 gpm", "0.4 L/min", "leak"},
	{"3 gal", "11 L", "pipes"},
	{"40 gpm", "150 L/min", "capacity"},
	{"0.25 in", "6 mm", "rain"},
	{"0.2 in", "5 mm", "rain ahead"},
	{"0.25 in", "6.5 mm", "design"},
	{"37 F", "3 C", "cold"},
	{"12 mph", "5 m/s", "windy"},
	{"4 mph", "2 m/s", "breeze"},
	{"28 F", "-2 C", "frost"},
	{"2 in/ft", "150 mm/m", "awc"},
	{"0.35 in/h", "9 mm/h", "intake"},
	{"0.25 in", "6 mm", "storage"},
	{"ft2 or acre", "m2 or ha", "areas"},
}

// templateText holds examples in comments: a line whose comment begins with a
// key in small letters can be used by taking its "# " away. Prose in comments
// must not begin so.
const templateText = `# A scenario: one site, its zones, the programs on its controller and the
# strategies to compare. Change what is yours and leave out what you do not
# know; every default is listed in the report with its source. Every quantity
# carries its unit, such as 20 min, 40 % or <lawn area>. To use a line that is
# commented out, take its "# " away.

site:
  name: My place
  latitude: 38.9              # decimal degrees, south negative
  # longitude: -104.8         # west negative; only to tell how far the station is
  elevation: <elevation>

units: <system>                     # us or si: what is printed; files are always SI

weather:
  file: weather.csv           # beside this file; date,tmax_c,tmin_c,rain_mm and more
  wind_height: 2 m            # of the wind gauge, where the file has wind
  # from: 2012-01-01          # first day to use, and with "to" the last
  # station: "A1"             # which one, where the file holds several
  # units: <system>                 # of a layout that does not state them
  # layout_file: map.yaml     # describes the columns of an unknown layout
  # rain_file: gauge.csv      # a nearer rain gauge
  # fill_files: second.csv    # another station to fill gaps from, or a list, first choice first
  # max_fill_days: 30 days    # most of a year that may be filled
  # max_fill_run: 10 days     # most in a row
  # exclude_years: [2011]     # years too full of gaps to count
  # dew_point_offset: 2 C     # if humidity is unknown: 0 C in humid places, 2 C in dry ones
  # default_wind: <breeze>       # at 2 m, if the wind is unknown
  # coastal: true             # radiation from temperatures as on a coast
  # calibrate: true           # scale reference ET from temperatures by the days that have more
  # compute_eto: true         # even where the file carries it

# Forecasts are for strategies with skip: {forecast: ...}.
# forecast: {file: forecasts.csv}
# forecast: {synthetic: {seed: 1}}      # instead of a file: made from the weather, as good as a public forecast

zones:                        # one for each valve; or the name of a CSV table of zones
  - name: front lawn
    area: <lawn area>            # in <areas>
    plant: cool-season turf   # the catalogue command lists the names
    soil: clay loam           # or {awc: <awc>, intake: <intake>, surface_storage: <storage>, curve_number: 74}
    slope: 4 %
    root_depth: <roots>
    sprinkler:
      kind: spray
      rate: <rate>
      uniformity: 55 %        # of the lowest quarter
      # cans: [10, 12, 14, 16, 18, 20, 22, 24]    # instead of uniformity: catches of a can test, in any unit
      # loss: 3 %             # evaporates or drifts away in the air
      # overspray: 5 %        # lands outside the zone
      # broken: 2 %           # is lost through broken heads
      # fill_drain: <pipes>      # fills the pipes and drains out at each cycle
    # leak: <leak>             # day and night
    # density: 1.1            # of the planting, 1 being average
    # coefficients: FAO-56    # another set of plant coefficients
    # rain: {method: share, effective: 80 %}      # otherwise by curve number
    # strips: 8               # parts that stand for uneven watering

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
    # from: 2012-04-15        # first day on which the program runs
    # to: 2012-06-15          # last day
    # ramp_to: 40 %           # of its minutes on the last day; with the two lines above
  - name: beds
    days: {every: 4 days, from: 2012-01-01}
    starts: ["06:30"]
    minutes: {shrub bed: 45}

# What local rules and the plumbing allow:
# limits:
#   days: [tue, sat]
#   window: "20:00-08:00"     # or a list of them
#   most_minutes: 60 min      # of a zone in one start
#   exempt: [shrub bed]       # zones that the rules do not bind, such as drip
#   exempt_by_hand: true      # runs started by hand are not bound either
#   flow: <capacity>             # what meter, main and pump allow at a time
#   what_does_not_fit: flag   # otherwise it is left out
#   stages: [{name: stage two, from: 2012-07-01, to: 2012-09-30, days: [sat]}]    # window, most_minutes, ban and exempt, too

# start: {depletion: 30 %}    # of the root zone on the first day; otherwise the first year is run twice

strategies:                   # what is compared, the first being what is done now
  - name: as found
    programs: [lawns, beds]
    # Any of these can be added, here or in a strategy of its own; the command
    # "loamledger catalogue --parts" lists them all and what each can take.
    # monthly: [0, 0, 40, 60, 80, 100, 100, 95, 75, 50, 25, 0]
    # monthly: auto           # twelve percentages from the weather record
    # round: 1 min
    # et_percent: {design: <design>, over: 7 days, count_rain: true, most: 150 %}
    # zone_percent: {front lawn: 80 %}
    # habit: {edits: 3, late_least: 14 days, late_most: 42 days, seed: 1, up: 20 %}
    # skip: {rain: {above: <rain>, dry_out: 2 days}}
    # skip: {freeze: {below: <cold>}}
    # skip: {wind: {above: <windy>}}
    # skip: {forecast: {above: <rain ahead>, days: 2 days, most: 3 days}}
    # season: {start: 04-15, end: 10-15}
    # season: {frost: <frost>, clear_days: 21 days}
    # suspend: [{from: 2012-07-01, to: 2012-07-14, zones: all}]
    # manual: [{date: 2012-07-03, zone: front lawn, minutes: 15 min}]
    # sensor: {permit_at: 40 %, placement: average, error: 5 %}

  - name: twelve percentages
    programs: [lawns, beds]
    monthly: [0, 0, 40, 60, 80, 100, 100, 95, 75, 50, 25, 0]

  - name: follow the weather
    programs: [lawns, beds]
    et_percent: {design: <design>, over: 7 days, count_rain: true, most: 150 %}
    skip: {rain: {above: <rain>, dry_out: 2 days}, freeze: {below: <cold>}}
    round: 1 min

  - name: refill when due
    refill: {zones: all, mad: 35 %, days: any, cycle: 6 min, soak: 60 min}
    # refill: {zones: all, mad: 35 %, share: 80 %, cycle: 6 min, soak: 60 min}    # instead of refill: only 80 % of the need
`
