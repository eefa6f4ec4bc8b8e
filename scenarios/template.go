package scenarios

import (
	"strings"

	"loamledger/weather/quantity"
)

// Template returns the text of a commented scenario to edit, in the units of
// system s. It is valid as is, given a file weather.csv.
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
	{"1588 ft", "484 m", "elevation"},
	{"2400 ft2", "220 m2", "lawn area"},
	{"600 ft2", "55 m2", "bed area"},
	{"6 in", "150 mm", "roots"},
	{"1.5 in/h", "38 mm/h", "rate"},
	{"0.5 in/h", "13 mm/h", "new rate"},
	{"4 gpm", "15 L/min", "flow"},
	{"0.1 gpm", "0.4 L/min", "leak"},
	{"3 gal", "11 L", "pipes"},
	{"40 gpm", "150 L/min", "capacity"},
	{"0.25 in", "6 mm", "rain"},
	{"0.2 in", "5 mm", "rain ahead"},
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
// key in lowercase works once its "# " is removed. No prose in a comment may
// begin like that.
const templateText = `# A scenario: one site, its zones, the programs on its controller and the
# strategies to compare. Change what applies to your site and remove what you do
# not know; the report lists every default with its source. Every quantity has a
# unit, such as 20 min, 40% or <lawn area>. To use a line that is commented out,
# remove its "# ".

site:
  name: My place
  latitude: 38.8888           # REPLACE: that of your site in decimal degrees, negative in the south
  # longitude: -104.8         # negative in the west; only for the distance to the station
  elevation: <elevation>          # REPLACE: that of your site

units: <system>                     # us or si, for printed results; files are always SI

weather:
  file: weather.csv           # next to this file; date,tmax_c,tmin_c,rain_mm and more
  wind_height: 2 m            # height of the anemometer, if the file has wind
  # from: 2012-01-01          # first day to use; "to" is the last
  # station: "A1"             # which one, if the file has several
  # units: <system>                 # if the layout does not state them
  # layout_file: map.yaml     # describes the columns of an unknown layout
  # rain_file: gauge.csv      # a rain gauge closer to the site
  # fill_files: second.csv    # another station to fill gaps from, or a list in order of preference
  # max_fill_days: 30 days    # maximum filled days in a year
  # max_fill_run: 10 days     # maximum in a row
  # exclude_years: [2011]     # years with too many gaps to count
  # dew_point_offset: 2 C     # if humidity is unknown: 0 C in humid places, 2 C in dry ones
  # default_wind: <breeze>       # at 2 m, if wind is unknown
  # coastal: true             # estimate radiation from temperatures as on a coast
  # calibrate: true           # scale reference ET from temperatures by the days with more data
  # compute_eto: true         # even if the file has it
  # accept: [rain-year]       # findings that you have looked at, which no longer stop a replay

# Forecasts are used by strategies with hold: {forecast: ...}.
# forecast: {file: forecasts.csv}       # issued,valid,rain_mm ...; or the coming days as a daily weather file
# forecast: {synthetic: {seed: 1}}      # instead of a file: generated from the weather, as good as a public forecast

zones:                        # one per valve; or the name of a CSV table of zones
  - name: front lawn
    area: <lawn area>            # in <areas>
    plant: cool-season turf   # "loamledger catalog" lists the names
    soil: clay loam           # or {awc: <awc>, intake: <intake>, surface_storage: <storage>, curve_number: 74}
    slope: 4%
    root_depth: <roots>
    sprinkler:
      kind: spray
      rate: <rate>
      uniformity: 55%         # of the lowest quarter
      # catch_cans: [10, 12, 14, 16, 18, 20, 22, 24]    # instead of uniformity: a catch-can test, in any unit
      # spray_loss: 3%        # evaporates or drifts away
      # overspray: 5%         # lands outside the zone
      # broken_heads: 2%      # is lost through broken heads
      # fill_drain: <pipes>      # fills the pipes and drains out in each cycle
    # leak: <leak>             # day and night
    # density: 1.1            # of the planting; 1 is average
    # coefficients: FAO-56    # another set of plant coefficients
    # rain: {method: share, effective: 80%}       # the default is the curve number
    # strips: 8               # parts that represent uneven watering

  - name: shrub bed
    area: <bed area>
    plant: shrubs, dry climate
    soil: loam
    microclimate: 0.8         # 1 in the open, less in shade, more next to hot walls
    sprinkler: {kind: drip, flow: <flow>}

programs:                     # as set on the controller
  - name: lawns
    days: [mon, wed, fri]     # odd, even, any, or {every: 3 days, from: 2012-01-01}
    starts: ["05:30"]         # each start waters every zone once
    minutes: {front lawn: 20}
    cycle: 8 min              # longest run at a time, so that water can soak in
    soak: 30 min
    # from: 2012-04-15        # first day the program runs
    # to: 2012-06-15          # last day
    # ramp_to: 40%            # of its minutes on the last day; with the two lines above
  - name: beds
    days: {every: 4 days, from: 2012-01-01}
    starts: ["06:30"]
    minutes: {shrub bed: 45}

# Limits from local rules and plumbing:
# limits:
#   from: 2012-06-01          # first day of the rules, if they are new; figures then use whole years after it
#   days: [tue, sat]
#   window: "20:00-08:00"     # or a list of them
#   max_minutes: 60 min       # per zone and start
#   exempt: [shrub bed]       # zones exempt from the rules, such as drip
#   exempt_manual: true       # manual runs are exempt, too
#   flow: <capacity>             # the flow that meter, main and pump allow
#   on_conflict: flag         # the default, omit, does not apply what breaks a rule
#   stages: [{name: stage two, from: 2012-07-01, to: 2012-09-30, days: [sat]}]    # window, max_minutes, ban and exempt, too

# verdict: {stress_days: 14, browning_days: 0}    # to be recommended: maximum per zone, and maximum added to the baseline

# What water costs, for a water bill of each strategy; the rates are a file of their own, see "loamledger bill --help":
# money: {rates: rates.yaml}          # and meter, prices, discount; real read dates are the reads of a meter
# money: {rates: rates.yaml, projects: [{strategy: refill when due, cost: 600 to 900, upkeep: 40, life: 10}]}    # payback, too

# Water meters and controllers, if there are several or their figures matter; zones then name theirs:
# meters: [{name: main, flow: <capacity>, serves: irrigation}]     # and reads: reads.csv; serves mixed if it has other uses
# controllers: [{name: clock A, stations: 12, at_once: 1}]     # and timer, and window for hours of its own

# The water that a rule of the place allows, ETo times a factor times the area; strategies are compared with it:
# allowance: {factor: 80%, period: month}    # and area, special_area, special_factor, rain, eto (mean, record or 12 depths)
# allowance: {form: model ordinance for homes, rain: 25%}    # forms: see "loamledger catalog --allowances"

# How far numbers may be off, for "loamledger ranges": any number of a zone can be a range, such as rate: 20 to 30 mm/h, or three numbers
# with the most likely one in the middle; so can what programs and strategies have entered, such as minutes: {front lawn: 10 to 14}, and
# what projects and the rates of water cost. eto and rain are those of the site as a share of the station's:
# ranges: {eto: 90% to 110%, rain: 90% to 110%, seed: 1}    # and draws: 1000, to make draws in every replay

# Who made the report, on its first sheet, and who decides by when:
# prepared_by: {name: Rosa Field, company: Field Water Advice, contact: rosa@example.org, for: the board}    # date, logo: logo.png
# decision: {who: the board, by: 2026-03-15}

# What the timer can be set to, so that a settings sheet fits it; by default a sheet refuses nothing:
# timer: plain              # or with cycle and soak; or its values:
# timer: {programs: 3, starts: 4, percent_step: 10%, min_minutes: 1, cycle: no}

# start: {depletion: 30%}     # of the root zone on the first day; by default the first year runs twice

# What ran, with which the others are compared. Limits bind every strategy but this one.
baseline: as found

strategies:                   # what is compared
  - name: as found
    programs: [lawns, beds]
    # limits: binding         # or none; binding cuts the baseline, too
    # Any of these can be added here or in a strategy of its own.
    # "loamledger catalog --parts" lists them all with their parameters.
    season: {start: 04-15, end: 10-15}        # dates the system is on, every year
    # season: {frost: <frost>, frost_free_days: 21 days}    # instead of season: by frost
    # monthly: [0, 0, 40, 60, 80, 100, 100, 95, 75, 50, 25, 0]
    # monthly: auto           # twelve percentages from the weather record
    # hold: {rain: {at_least: <rain>, dry_out: 2 days}}
    # hold: {frost: {below: <cold>}}
    # hold: {wind: {above: <windy>}}
    # et_percent: {design_eto: auto, days: 7 days, subtract_rain: true, max: 150%}
    # zone_percent: {front lawn: 80%}
    # round: 1 min
    # hold: {forecast: {at_least: <rain ahead>, days: 2 days, max_held: 3 days}}
    # sensor: {permit_at: 40%, placement: average, error: 5%}
    # suspend: [{from: 2012-07-01, to: 2012-07-14, zones: all}]
    # manual: [{date: 2012-07-03, zone: front lawn, minutes: 15 min}]
    # habit: {edits: 3, min_delay: 14 days, max_delay: 42 days, seed: 1, raise_by: 20%}

  - name: seasonal percent
    # like: as found          # copies each part of a strategy above that is not given here, and its changes
    # changes: [{zones: front lawn, sprinkler: {rate: <new rate>, uniformity: 70%}, minutes: same depth, cost: 900}]
    # or other plants:
    # changes: [{zones: front lawn, plant: desert plants, from: 2014-10-15, removal: 30 days, establish: {days: 120 days}, minutes: 50%}]
    programs: [lawns, beds]
    season: {start: 04-15, end: 10-15}
    monthly: [0, 0, 40, 60, 80, 100, 100, 95, 75, 50, 25, 0]

  - name: ET-adjusted + rain skip
    programs: [lawns, beds]
    season: {start: 04-15, end: 10-15}
    et_percent: {design_eto: auto, days: 7 days, subtract_rain: true, max: 150%}    # auto: the record's peak month
    hold: {rain: {at_least: <rain>, dry_out: 2 days}, frost: {below: <cold>}}
    round: 1 min

  - name: refill when due
    season: {start: 04-15, end: 10-15}
    refill: {zones: all, mad: 35%, days: any, cycle: 6 min, soak: 60 min}
    # refill: {zones: all, mad: 35%, share: 80%, cycle: 6 min, soak: 60 min}    # instead of refill: only 80% of the need
`
