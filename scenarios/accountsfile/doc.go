// Package accountsfile reads a program of measures from YAML and the accounts that it is
// for from a table, CSV or another source of rows, one account at a time.
//
// A table is never read as a whole. The rows of one account stand together. Each row is a
// line: a cell has no line breaks. What is wrong with an account is collected, with file,
// row and column, and costs that account alone; only a bad heading stops the table.
package accountsfile
