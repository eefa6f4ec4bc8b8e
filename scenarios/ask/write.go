package ask

import (
	"fmt"
	"strings"

	"loamledger/scenarios"
	"loamledger/scenarios/catalog"
	"loamledger/scenarios/names"
	"loamledger/weather/diag"
	"loamledger/weather/quantity"
)

func (w *writer) header() []string {
	return []string{
		"A scenario made from the answers to ten questions. Values marked ASSUMED are defaults for what was",
		"not known; the end of the file has their sources.",
		"\"loamledger init FILE\" writes a template that shows every key.",
	}
}

// assumption is the comment above a default, whose source is given at the end; none
// for an answer.
func assumption(d *Default) []string {
	if d == nil {
		return nil
	}
	return []string{"ASSUMED"}
}

// fault records an answer that cannot be used.
func (w *writer) fault(at At, code diag.Code, fix, format string, args ...any) {
	w.faults = append(w.faults, Fault{At: at, Code: code, Msg: fmt.Sprintf(format, args...), Fix: fix})
}

// once is the place of a part that is asked once.
func once(question, part string) At { return At{question, part, -1} }

func (w *writer) scenario() *scenarios.Node {
	root := group()
	w.put(root, "site", w.site())
	w.put(root, "units", word(w.a.system().String()), "Of printed results: us or si. Files are always in SI.")
	w.put(root, "weather", w.weather())
	w.put(root, "zones", w.zones())
	programs, programNames := w.programs()
	w.put(root, "programs", programs, "What the timer is set to today. Minutes are for each start.")
	w.limits(root)
	w.timer(root)
	w.put(root, "baseline", word("as found"), "What all else is compared with.")
	w.put(root, "strategies", w.strategies(programNames))
	w.money(root)
	return root
}

func (w *writer) site() *scenarios.Node {
	g := group()
	name := strings.TrimSpace(w.a.Name)
	if name == "" {
		name = "My yard"
	}
	w.put(g, "name", word(name))
	at := once("place", "position")
	text, d := w.said(at)
	if lat, lon, err := position(text); err != nil {
		w.fault(at, diag.NotANumber, "write decimal degrees, such as 38.9, or 38.9, -104.8; south and west are negative", "%q: %v", text, err)
	} else {
		w.put(g, "latitude", w.text(at, fmt.Sprint(lat)), assumption(d)...)
		if lon != "" {
			w.put(g, "longitude", w.text(at, lon))
		}
	}
	at = once("place", "elevation")
	text, d = w.number(at)
	w.put(g, "elevation", w.text(at, text), assumption(d)...)
	w.said(once("place", "climate"))
	w.choice(once("place", "climate"), climateChoices())
	return g
}

// choice returns the option that was chosen, -1 for none; another answer is a fault.
func (w *writer) choice(at At, options []Option) int {
	text := strings.TrimSpace(w.a.Answer(at))
	i := chosen(options, text)
	if text != "" && i < 0 {
		var ids []string
		for _, o := range options {
			ids = append(ids, o.ID)
		}
		fix := fmt.Sprintf("write a number from 1 to %d, or one of: %s", len(options), strings.Join(ids, ", "))
		w.fault(at, diag.UnknownName, fix, "unknown answer %q", text)
	}
	return i
}

func (w *writer) zones() *scenarios.Node {
	l := list()
	slope := w.slope()
	soil, soilComment := w.soil()
	taken := map[string]int{}
	for z := range w.a.Zones {
		g := group()
		at := func(part string) At { return At{"zones", part, z} }
		name, _ := w.said(at("name"))
		if first, dup := taken[names.Key(name)]; dup {
			where := at("name")
			if strings.TrimSpace(w.a.Zones[z].Name) == "" { // its default was given to another
				where.Zone = first
			}
			w.fault(where, diag.Duplicate, "give each zone its own name", "two zones are called %q", name)
			name = fmt.Sprintf("zone %d once more", z+1) // so that no other error follows
		}
		taken[names.Key(name)] = z
		w.zoneNames = append(w.zoneNames, name)
		w.put(g, "name", w.text(at("name"), name))
		text, d := w.number(at("area"))
		comment := assumption(d)
		if area, product, err := w.area(text); err != nil {
			examples := Pair{"40 ft x 25 ft, or an area, such as 1000 ft2", "12 m x 8 m, or an area, such as 100 m2"}.In(w.a)
			w.fault(at("area"), diag.BadQuantity, "write length x width, such as "+examples, "%q: %v", text, err)
		} else {
			if product {
				comment = append(comment, text)
			}
			w.put(g, "area", w.text(at("area"), area), comment...)
		}
		text, d = w.said(at("plant"))
		if len(catalog.FindPlants(w.a.plantName(text))) == 0 {
			w.choice(at("plant"), plantChoices)
		}
		if i := chosen(plantChoices, text); d == nil && i >= 0 && plantChoices[i].ID == "lawn" { // its kind is a guess all the same
			guessed := unsaidPlant(w.a, z)
			guessed.Source = "the kind of lawn is not known: cool-season or warm-season by the climate; " + ours
			w.assume(at("plant"), guessed)
			d = &guessed
		}
		w.put(g, "plant", w.text(at("plant"), w.a.plantName(text)), assumption(d)...)
		if soil != "" {
			w.put(g, "soil", w.text(once("soil", "texture"), soil), soilComment...)
		}
		if slope != "" {
			w.put(g, "slope", w.text(once("slope", "slope"), slope))
		}
		w.put(g, "sprinkler", w.sprinkler(z))
		w.sun(g, z)
		l.Items = append(l.Items, g)
	}
	return l
}

func (w *writer) sprinkler(z int) *scenarios.Node {
	g := group()
	at := func(part string) At { return At{"zones", part, z} }
	text, d := w.said(at("sprinkler"))
	kind := text
	if i := chosen(sprinklerChoices, text); i >= 0 {
		kind = sprinklerChoices[i].ID
	}
	if len(catalog.FindSprinklers(kind)) == 0 {
		w.choice(at("sprinkler"), sprinklerChoices)
	}
	w.put(g, "kind", w.text(at("sprinkler"), kind), assumption(d)...)
	text, d = w.number(at("flow"))
	switch {
	case d == nil:
		w.put(g, "flow", w.text(at("flow"), text))
	case text != "":
		w.put(g, "rate", w.text(at("flow"), text), assumption(d)...)
	}
	return g
}

func (w *writer) sun(zone *scenarios.Node, z int) {
	at := At{"zones", "sun", z}
	w.said(at)
	i := w.choice(at, sunChoices)
	if i < 0 || sunFactors[i] == "1" {
		return
	}
	usual := catalog.DefaultMicroclimate()
	d := Default{Text: sunFactors[i] + " of the need in the open", Source: usual.Source + "; the value is " + ours, Grade: quantity.Guess}
	w.assume(at, d)
	w.put(zone, "microclimate", w.text(at, sunFactors[i]), append([]string{sunChoices[i].Text}, assumption(&d)...)...)
}

// slope returns the slope of all zones, "" to leave it to the scenario's default.
func (w *writer) slope() string {
	w.said(once("slope", "slope"))
	if i := w.choice(once("slope", "slope"), slopeChoices); i >= 0 {
		return slopeShares[i]
	}
	return ""
}

// soil returns the texture of all zones, "" to leave it to the scenario's default.
func (w *writer) soil() (name string, comment []string) {
	for _, part := range []string{"ribbon", "grit"} {
		if at := once("soil", part); w.a.Asked(at) {
			w.said(at)
			w.choice(at, find(at).Choices)
		}
	}
	at := once("soil", "texture")
	if w.a.Asked(at) {
		text, _ := w.said(at)
		if i := chosen(textureChoices(), text); i >= 0 {
			text = textureChoices()[i].ID
		} else if len(catalog.FindSoils(text)) == 0 {
			w.choice(at, textureChoices())
		}
		return text, nil
	}
	name, ok := w.a.soilByFeel()
	if !ok {
		return "", nil
	}
	return name, []string{"By feel, after the NRCS guide to texture by feel."}
}

func (w *writer) limits(root *scenarios.Node) {
	g := group()
	if at := once("rules", "days"); strings.TrimSpace(w.a.Answer(at)) != "" {
		if n := w.days(at, w.a.Answer(at)); n != nil {
			w.put(g, "days", n)
		}
	}
	if at := once("rules", "hours"); strings.TrimSpace(w.a.Answer(at)) != "" {
		w.put(g, "window", w.text(at, strings.TrimSpace(w.a.Answer(at))))
	}
	if len(g.Entries) > 0 {
		w.put(root, "limits", g, "Rules of the town or the supplier. What runs today is compared as it is, even if it breaks them.")
	}
}

func (w *writer) timer(root *scenarios.Node) {
	g := group()
	at := once("timer", "percent")
	text, d := w.said(at)
	if i := w.choice(at, percentChoices); i >= 0 {
		text = percentChoices[i].ID
	}
	w.put(g, "percent_step", w.text(at, text), assumption(d)...)
	at = once("timer", "cycle")
	text, d = w.said(at)
	if i := w.choice(at, yesNo); i >= 0 {
		text = yesNo[i].ID
	}
	w.put(g, "cycle", w.text(at, text), assumption(d)...)
	w.put(root, "timer", g, "What the timer can be set to; a settings sheet fits it.")
}
