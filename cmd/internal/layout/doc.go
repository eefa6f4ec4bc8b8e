// Package layout holds the tests that hold the layout of the project: which
// package may import which, where each library lives, what a pure package may
// not do, what stands at the top level, and that every key and column has its
// word in the glossary. It has no other code.
package layout
