// Package demo holds the demonstration: a scenario of a sample site. Package
// generate makes its synthetic weather.
package demo

import _ "embed"

// Scenario is the text of the scenario, which reads [WeatherFile].
//
//go:embed juniper-flat.yaml
var Scenario string

// File names of the demonstration's inputs.
const (
	ScenarioFile = "juniper-flat.yaml"
	WeatherFile  = "juniper-flat-weather.csv"
)
