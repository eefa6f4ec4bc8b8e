// Package ledgerfile writes the ledger and the tally of a replay: daily rows as
// CSV or Parquet, sums by year as CSV.
//
// # Units
//
// Files are always SI. Parquet keeps full precision. CSV is for spreadsheets and
// rounds to 0.0001, so that the balance of a row closes to 0.002 mm.
//
// # Promises
//
// Neither NaN nor an infinity is ever written: a day that holds one is
// refused. Equal replays give equal bytes. Names are written as they are,
// quoted as [RFC 4180] asks: a name that a spreadsheet would take for a formula
// (starting with =, +, - or @) must have been refused before it gets here.
//
// [RFC 4180]: https://www.rfc-editor.org/rfc/rfc4180
package ledgerfile
