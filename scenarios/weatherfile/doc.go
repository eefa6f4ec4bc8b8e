// Package weatherfile reads the small YAML files that accompany weather: the
// declaration of a layout, and the monthly figures for synthetic weather.
//
// # Promises
//
// An unknown key is an error, so that a typo loses nothing. All errors in a
// file are reported together as one error that [diag.IsInput] recognizes, with
// line and column if known; other errors are system errors.
package weatherfile
