package ask

import (
	"slices"
	"strings"
)

// Questions returns the questions in order. The slice is the caller's, what it
// holds is shared and must not be changed.
func Questions() []Question { return slices.Clone(questions) }

// questions is the one list.
var questions = []Question{
	{ID: "place", Title: "Place", Text: "Where is the yard?",
		Help: "The sun at your latitude drives how much water plants use. A map on a phone shows the coordinates: hold a finger on your " +
			"house. Whole degrees are close enough, such as 39.",
		Parts: placeParts},
	{ID: "weather", Title: "Weather", Text: "What is the weather like?",
		Help: "Best is a file of daily weather from a station nearby, with highs, lows and rain of five years or more. Without one, " +
			"loamledger generates weather from typical monthly figures: good for comparing settings, not for any one year.",
		Parts: weatherParts},
	{ID: "zones", Title: "Zones", Text: "Which zones does the timer water?", Many: true,
		Help: "A zone is what one valve waters. Turn them on one by one and look. Area and sprinklers decide the gallons, so pace off " +
			"length and width: one long step is about 3 ft (1 m).",
		Parts: zoneParts},
	{ID: "soil", Title: "Soil", Text: "How does the soil feel?",
		Help: "Soil decides how much water stays in reach of roots. Take a walnut of soil from 4 in (10 cm) deep, add drops of water and " +
			"knead it until it is like putty. The tests are those of the NRCS guide to texture by feel.",
		Parts: soilParts},
	{ID: "schedule", Title: "Schedule", Text: "How does the timer water now, in the hottest month?",
		Help: "This is what all else is compared with. Read it off the timer: days, start times and minutes. Look for a second start time: " +
			"each one waters every zone again.",
		Parts: scheduleParts},
	{ID: "months", Title: "Months", Text: "In which months is the timer on?",
		Help:  "From the month it is switched on to the month it is switched off. Many yards are watered weeks longer than they need.",
		Parts: monthParts},
	{ID: "timer", Title: "Timer", Text: "What can the timer do?",
		Help:  "A plan that the timer cannot hold is worth nothing. Look for a button or a menu called percent, budget or seasonal adjust.",
		Parts: timerParts},
	{ID: "price", Title: "Price", Text: "What does water cost?",
		Help: "The water bill has a price for each unit, often with sewer added. With several steps of price, use that of the last unit in " +
			"summer: water that is saved is saved at that price.",
		Parts: priceParts},
	{ID: "rules", Title: "Rules", Text: "Does the town or the water supplier limit watering?",
		Help:  "Many limit the days or hours. Their web page or the water bill says which. Every option but what runs today keeps them.",
		Parts: ruleParts},
	{ID: "slope", Title: "Slope", Text: "How steep is the ground?",
		Help:  "On a slope water runs off sooner, so it has to be applied in shorter cycles.",
		Parts: slopeParts},
}

// find returns the part at a place, or nil.
func find(at At) *Part {
	for q := range questions {
		if questions[q].ID != at.Question {
			continue
		}
		for p := range questions[q].Parts {
			part := &questions[q].Parts[p]
			if part.ID == at.Part && (at.Zone >= 0) == (part.Each || questions[q].Many) {
				return part
			}
		}
	}
	return nil
}

// Asked reports whether the part at a place is asked, given the answers so far.
func (a *Answers) Asked(at At) bool {
	p := find(at)
	if p == nil || at.Zone >= MaxZones || p.Several && a.ZoneCount() < 2 {
		return false
	}
	if p.When == nil {
		return true
	}
	on := At{p.When.Question, p.When.Part, -1}
	if w := find(on); w == nil {
		on.Zone = at.Zone
	}
	answer := strings.TrimSpace(a.Answer(on))
	if options := find(on).Choices; answer != "" && len(options) > 0 {
		if i := chosen(options, answer); i >= 0 {
			answer = options[i].ID
		}
	}
	return a.Asked(on) && slices.Contains(p.When.Is, answer)
}

// Default returns what answers "don't know" at a place, given the other answers.
func (a *Answers) Default(at At) Default {
	p := find(at)
	if p == nil || at.Zone >= MaxZones {
		return Default{None: true}
	}
	return p.unsaid(a, at.Zone)
}

// Places returns the places of all parts that are asked, given the answers so far,
// in the order in which they are asked.
func (a *Answers) Places() (out []At) {
	add := func(at At) {
		if a.Asked(at) {
			out = append(out, at)
		}
	}
	for q := range questions {
		id, parts := questions[q].ID, questions[q].Parts
		if questions[q].Many {
			for z := range a.ZoneCount() {
				for p := range parts {
					add(At{id, parts[p].ID, z})
				}
			}
			continue
		}
		for p := range parts {
			if !parts[p].Each {
				add(At{id, parts[p].ID, -1})
				continue
			}
			for z := range a.ZoneCount() {
				add(At{id, parts[p].ID, z})
			}
		}
	}
	return out
}

// Find returns the question and the part at a place, and the number of the question
// from 1; nil for an unknown place.
func Find(at At) (n int, q *Question, p *Part) {
	p = find(at)
	for i := range questions {
		if p != nil && questions[i].ID == at.Question {
			n, q = i+1, &questions[i]
		}
	}
	return n, q, p
}

// ZoneName returns the name of a zone, as answered or by default.
func (a *Answers) ZoneName(z int) string {
	if z >= 0 && z < len(a.Zones) {
		if name := strings.TrimSpace(a.Zones[z].Name); name != "" {
			return name
		}
	}
	return unsaidName(a, z).Answer
}
