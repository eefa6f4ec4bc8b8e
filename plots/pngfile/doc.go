// Package pngfile draws a chart of package plots as a PNG picture.
//
// # Units
//
// Lengths are points on a sheet [WidthPt] wide, counted from the top left
// corner downward; a picture has [DotsPerInch] dots to 72 points. At that
// width the text of a picture stays legible on a phone.
//
// # Promises
//
// Equal charts give equal bytes. Texts never overlap and never leave the
// sheet, however long the names; a name that is cut is written out in full
// below. Several goroutines may draw at the same time, each with a [Drawer] of
// its own or by [DrawFiles].
package pngfile
