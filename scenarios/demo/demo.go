// Package demo holds the demonstration: a scenario of an invented place, whose
// weather package generate invents.
package demo

import _ "embed"

// Scenario is the text of the scenario. It names [WeatherFile].
//
//go:embed juniper-flat.yaml
var Scenario string

// The names under which the demonstration's inputs are written.
const (
	ScenarioFile = "juniper-flat.yaml"
	WeatherFile  = "juniper-flat-weather.csv"
)
