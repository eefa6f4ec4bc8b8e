// Package pngfile draws a chart of package plots as a PNG picture.
//
// # Units
//
// Lengths are points on a sheet [widthPt] wide, from the top left corner down; a
// picture has [dotsPerInch] dots per 72 points. At that width text is legible on
// a phone.
//
// # Promises
//
// Equal charts give equal bytes. Texts never overlap and never leave the sheet,
// however long the names; the full form of a shortened name appears below.
// Several goroutines may draw at the same time, each with its own [drawer] or
// through [DrawFiles].
package pngfile
