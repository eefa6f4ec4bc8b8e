// Package study carries a scenario and the weather read for it through a whole
// run: the record is made ready, the job is set up, and what a replay of it
// gave is told as values: figures for scripts, sentences for people, facts for
// a page, charts as data. It opens no file, asks no clock and prints nothing,
// so that a command, a web page and a run over many sites share it.
//
// Three steps, each of which can be kept and used again:
//
//   - [Prepare] makes a record ready. It takes the longest, and its result is
//     not changed by what follows: a thousand sites of one station and one set
//     of weather rules share it, from several goroutines at once.
//   - [Announce] reads from an archive, or makes, what was forecast; only for
//     scenarios that have forecasts.
//   - [New] sets up one scenario on the two. It is cheap.
//
// The study's job is then replayed by a [replay.Runner], which keeps its memory
// from one replay to the next: a page changes the numbers of a zone in
// [Study.Job] and replays many times a second. The methods of [Study] tell of
// the resulting table; what they say of the inputs is what the scenario says.
package study
