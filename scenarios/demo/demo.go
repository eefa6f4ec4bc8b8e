// Package demo has the demo: a scenario of a fictional place, with synthetic
// weather from package generate.
package demo

import _ "embed"

// Scenario is the text of the scenario, which names [WeatherFile].
//
//go:embed juniper-flat.yaml
var Scenario string

// The file names of the inputs of the demo.
const (
	ScenarioFile = "juniper-flat.yaml"
	WeatherFile  = "juniper-flat-weather.csv"
)
