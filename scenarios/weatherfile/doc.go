// Package weatherfile reads the small YAML files that go with weather: the
// declaration of a layout, and the monthly figures that weather is invented
// from.
//
// # Promises
//
// A key that is not known is refused, so that a slip loses nothing. All faults
// of a file are reported together as one error that [diag.IsInput] knows, with
// line and column where they have one; other errors are the machine's.
package weatherfile
