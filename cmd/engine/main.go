//go:build js && wasm

// Command engine is package pagefile for a worker of the page that computes: it puts
// one object, loamledger, into the worker and waits for calls.
package main

import (
	"context"
	"syscall/js"

	"loamledger/scenarios/pagefile"
)

// version is set by the linker.
var version = "0.1.0"

func main() {
	e := &pagefile.Engine{Version: version}
	object := map[string]any{
		// put(name, bytes) adds a file.
		"put": js.FuncOf(func(_ js.Value, args []js.Value) any {
			data := make([]byte, args[1].Length())
			js.CopyBytesToGo(data, args[1])
			e.Put(args[0].String(), data)
			return nil
		}),
		// answer(text, step) answers a request in JSON. step is called with the steps done
		// and all steps of long work.
		"answer": js.FuncOf(func(_ js.Value, args []js.Value) any {
			e.Step = func(done, all int) { args[1].Invoke(done, all) }
			return string(e.Answer(context.Background(), []byte(args[0].String())))
		}),
	}
	js.Global().Set("loamledger", object)
	js.Global().Call("engineReady")
	select {}
}
