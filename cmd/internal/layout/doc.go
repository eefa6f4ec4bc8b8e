// Package layout tests the rules of the project: which package may import
// which, which package may use each library, what a pure package may not do,
// what the top level contains, that every key and column is in the table of
// words, and that texts use plain words. It has no other code.
package layout
