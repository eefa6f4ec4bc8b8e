package plots

import _ "embed"

// Words is the text that is the same in every report: how it was computed, cautions
// and the glossary, each in a section with the id of its entry in [Report.Sections].
// It is well-formed HTML of a few elements without attributes that matter: section,
// h2, p, ol, ul, li, b, code, dl, div, dt, dd.
//
//go:embed words.html
var Words string
