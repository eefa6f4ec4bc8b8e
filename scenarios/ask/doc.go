// Package ask turns ten questions that a homeowner can answer into a scenario. The
// list of questions is the only one: the terminal and the page both ask from it.
//
// Every answer is a text as typed, with its unit; an empty text means "don't know"
// and is answered with a default, which [Result.Assumed] lists with its source and
// grade. [Scenario] reads all answers at once and reports all faults at once.
package ask
