//go:build !js

package names

import "golang.org/x/text/unicode/norm"

// compatible returns a text in Unicode form NFKC.
func compatible(text string) string { return norm.NFKC.String(text) }
