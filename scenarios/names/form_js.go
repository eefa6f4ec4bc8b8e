package names

import "syscall/js"

// compatible returns a text in Unicode form NFKC. Every browser has the tables for it,
// so the engine of the page need not: they would be a fiftieth of it.
func compatible(text string) string {
	normalize := js.Global().Get("String").Get("prototype").Get("normalize")
	return normalize.Call("call", text, "NFKC").String()
}
