// Package ledgerfile writes the ledger and the tally of a replay: daily rows as
// CSV or Parquet, sums by year as CSV.
//
// # Units
//
// Files always use SI units. Parquet keeps full precision. CSV is for spreadsheets
// and rounds to 0.0001, so the balance of a row closes to 0.002 mm.
//
// # Promises
//
// NaN and infinities are never written: a day with one is an error. Equal replays
// give equal bytes. Names are written unchanged, quoted as in [RFC 4180]. The
// caller must reject names that a spreadsheet would read as a formula (those that
// start with =, +, - or @).
//
// [RFC 4180]: https://www.rfc-editor.org/rfc/rfc4180
package ledgerfile
