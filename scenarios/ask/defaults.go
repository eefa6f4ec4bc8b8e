package ask

import (
	"fmt"
	"math"
	"strings"

	"loamledger/scenarios/catalog"
	"loamledger/scenarios/names"
	"loamledger/sim/timer"
	"loamledger/weather/quantity"
)

const ours = "our choice"

// guess is a default that is our choice, answered as text, for the reason why.
func guess(answer, text, why string) Default {
	return Default{Answer: answer, Text: text, Source: why + "; " + ours, Grade: quantity.Guess}
}

// none is a default that assumes nothing.
func none(text string) func(*Answers, int) Default {
	return func(*Answers, int) Default { return Default{Text: text, None: true} }
}

// chosen returns the index of the option that a text names: by its ID, by its
// number from 1, or by its text; -1 for none.
func chosen(options []Option, text string) int {
	text = strings.TrimSpace(text)
	for i, o := range options {
		if key := names.Key(text); key != "" && (key == names.Key(o.ID) || key == names.Key(o.Text) || text == fmt.Sprint(i+1)) {
			return i
		}
	}
	return -1
}

// si reports whether results and examples are in SI units.
func (a *Answers) si() bool { return strings.EqualFold(strings.TrimSpace(a.Units), "si") }

// system returns the units of printed results.
func (a *Answers) system() quantity.System {
	if a.si() {
		return quantity.SI
	}
	return quantity.US
}

// write writes a value in the base unit of dim as a person would type it.
func (a *Answers) write(v float64, dim quantity.Dimension, decimals int) string {
	u, _ := quantity.Find(quantity.UnitName(dim, a.system()), dim)
	scale := math.Pow10(decimals)
	return fmt.Sprintf("%v %s", math.Round(u.Of(v)*scale)/scale, u.Name)
}

const middleLat = 39 // of the contiguous United States, in whole degrees

func unsaidPosition(*Answers, int) Default {
	return guess(fmt.Sprint(middleLat), fmt.Sprintf("latitude %d°", middleLat), "the middle of the contiguous United States")
}

func unsaidElevation(a *Answers, _ int) Default {
	text := "500 ft"
	if a.si() {
		text = "150 m"
	}
	return guess(text, text, "low ground; it changes water use by a few percent at most")
}

func unsaidClimate(a *Answers, _ int) Default {
	b := *a
	b.Climate = ""
	c, _ := b.climate()
	return guess(c.id, c.text, "from the latitude alone, which cannot tell wet from dry places: answer this one if you can")
}

func unsaidWeather(*Answers, int) Default {
	return Default{Text: "synthetic weather", Source: "monthly figures of the climate; no station", Grade: quantity.Guess}
}

func unsaidFigure(f figure) func(*Answers, int) Default {
	return func(a *Answers, _ int) Default {
		c, _ := a.climate()
		v, dim, decimals := c.of(f)*quantity.InchMM, quantity.Depth, 1
		if f != yearRain {
			v, dim = (c.of(f)-32)*5/9, quantity.Temperature
		}
		if dim == quantity.Temperature || a.si() {
			decimals = 0
		}
		text := a.write(v, dim, decimals)
		return guess(text, text, "typical of the climate, not of your town")
	}
}

// unsaidFigures is the figures of the climate, in one line.
func unsaidFigures(a *Answers, _ int) Default {
	var t [5]string
	for f := range t {
		t[f] = unsaidFigure(figure(f))(a, -1).Answer
	}
	text := fmt.Sprintf("summer %s to %s, winter %s to %s, rain %s", t[summerLow], t[summerHigh], t[winterLow], t[winterHigh], t[yearRain])
	return guess("no", text, "synthetic figures, typical of the climate and not of your town")
}

func unsaidName(_ *Answers, z int) Default {
	name := fmt.Sprintf("zone %d", z+1)
	return Default{Answer: name, Text: name, None: true}
}

func unsaidArea(a *Answers, _ int) Default {
	text := "1000 ft2"
	if a.si() {
		text = "100 m2"
	}
	return guess(text, text, "gallons and money follow it in proportion: pace it off")
}

func unsaidPlant(a *Answers, _ int) Default {
	name := a.plantName("lawn")
	return guess(name, name, "most water for yards goes to lawns; cool-season or warm-season by the climate")
}

func unsaidSprinkler(*Answers, int) Default {
	return guess("spray", "fixed spray heads", "the most common kind")
}

func unsaidFlow(a *Answers, z int) Default {
	s, _ := catalog.FindSprinkler(a.sprinklerName(z))
	rate := s.Rate
	if !rate.Known() {
		rate = dripRate()
		text := a.write(rate.Value, quantity.Rate, 2)
		return Default{Answer: text, Text: text + " over the zone", Source: rate.Source, Grade: rate.Grade}
	}
	return Default{Text: a.write(rate.Value, quantity.Rate, 2) + " over the zone", Source: rate.Source, Grade: rate.Grade}
}

// dripRate is the rate of drip whose flow is not known [mm/h].
func dripRate() catalog.Figure {
	usual := (&catalog.Sprinkler{}).UsualRate()
	return catalog.Figure{Value: 0.4 * quantity.InchMM, Low: usual.Low, High: usual.High, Grade: quantity.Guess,
		Source: "emitters of 1 gal/h (3.8 L/h), one for each 4 ft² (0.37 m²); " + ours}
}

func unsaidSun(*Answers, int) Default { return guess("sun", "sun most of the day", "most lawns") }

func unsaidSoil(*Answers, int) Default {
	return Default{Text: catalog.DefaultSoil, Source: catalog.DefaultSoilSource, Grade: quantity.Guess}
}

func unsaidGrit(*Answers, int) Default { return guess("neither", "neither", "the middle of the three") }

func unsaidDays(a *Answers, _ int) Default {
	if strings.TrimSpace(a.RuleDays) != "" {
		return guess(a.RuleDays, a.RuleDays, "the days that the rule allows")
	}
	return guess("mon, wed, fri", "mon, wed, fri", "a common setting")
}

func unsaidStarts(*Answers, int) Default { return guess("05:00", "05:00", "one start before sunrise") }

func unsaidSame(*Answers, int) Default { return guess("yes", "yes", "the usual case") }

func unsaidZoneDays(a *Answers, z int) Default {
	days := a.Days
	if strings.TrimSpace(days) == "" {
		days = unsaidDays(a, 0).Answer
	}
	return guess(days, days, "the days of the other zones")
}

// unsaidMinutes is an inch a week in three runs at the default rate of the sprinklers.
func unsaidMinutes(a *Answers, z int) Default {
	s, _ := catalog.FindSprinkler(a.sprinklerName(z))
	rate := s.Rate.Value
	if !s.Rate.Known() {
		rate = dripRate().Value
	}
	minutes := 5 * math.Round(60*quantity.InchMM/3/rate/5)
	return guess(fmt.Sprint(minutes), fmt.Sprintf("%v min", minutes),
		"three runs a week that add up to an inch, a rule of thumb for lawns: read the timer, all is compared with this")
}

func unsaidMonths(a *Answers, _ int) Default {
	switch lat := a.latitude(); {
	case math.Abs(lat) < 30:
		return guess("all", "all year", "no frost this close to the equator")
	case lat < 0:
		return guess("Oct-Apr", "Oct-Apr", "the months without frost in most places at this latitude")
	}
	return guess("Apr-Oct", "Apr-Oct", "the months without frost in most places at this latitude")
}

// plain is a default of the ready profile of a plain timer.
func plain(answer, text string) Default {
	return Default{Answer: answer, Text: text, Source: timer.Source, Grade: quantity.Memory}
}

func unsaidPercent(*Answers, int) Default {
	p, _ := timer.Named(timer.Plain)
	step := fmt.Sprintf("%.0f%%", 100*p.PercentStep)
	return plain(step, "in steps of "+step)
}

func unsaidCycle(*Answers, int) Default { return plain("no", "no") }

var (
	unsaidRates     = none("no bills: water in volumes only")
	unsaidPrice     = none("not known")
	unsaidRuleDays  = none("any day; check with your town")
	unsaidRuleHours = none("any hour; check with your town")
)

func unsaidSlope(*Answers, int) Default {
	f := catalog.DefaultSlope()
	return Default{Text: fmt.Sprintf("%.0f%%, nearly level", 100*f.Value), Source: f.Source, Grade: f.Grade}
}
