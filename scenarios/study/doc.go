// Package study takes a scenario and its weather through a whole run: it
// prepares the record, sets up the job, and returns the results of a replay as
// values: figures for scripts, sentences for people, facts for the report,
// charts as data. It opens no file, reads no clock and prints nothing, so that
// a command, a web page and a run over many sites can share it.
//
// There are three steps, each with a result that can be kept and reused:
//
//   - [Prepare] prepares a record. It takes the longest, and later steps do not
//     change its result: a thousand sites with the same station and weather
//     rules can share it, from several goroutines at once.
//   - [Announce] reads forecasts from an archive, or makes them; only for
//     scenarios with forecasts.
//   - [New] sets up one scenario on both. It is cheap.
//
// The study's job is then replayed by a [replay.Runner], which reuses its
// memory between replays: a page changes the numbers of a zone in [Study.Job]
// and replays many times a second. The methods of [Study] describe the
// resulting table; for inputs, they describe the scenario.
package study
