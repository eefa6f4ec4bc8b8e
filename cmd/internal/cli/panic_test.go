package cli

import (
	"bytes"
	"context"
	"io"
	"strings"
	"testing"
)

// A panicking writer stands for any mistake in the program.
type panicking struct{}

func (panicking) Write([]byte) (int, error) { panic("a mistake") }

// TestPanicIsOneLine: a mistake in the program ends in one line with what to do
// about it and in the code of a system error, unless the trace is asked for.
func TestPanicIsOneLine(t *testing.T) {
	var errs bytes.Buffer
	code := Main(context.Background(), []string{"catalog"}, Streams{Out: panicking{}, Err: &errs})
	text := errs.String()
	if code != exitMachine || strings.Count(text, "\n") != 2 ||
		!strings.HasPrefix(text, "loamledger: mistake in the program: a mistake\n\tfix: ") ||
		strings.Contains(text, "goroutine") {
		t.Errorf("code %d, %q", code, text)
	}
	t.Setenv(traceVariable, "1")
	defer func() {
		if recover() == nil {
			t.Error("the trace is asked for and the panic is hidden")
		}
	}()
	Main(context.Background(), []string{"catalog"}, Streams{Out: panicking{}, Err: io.Discard})
}
