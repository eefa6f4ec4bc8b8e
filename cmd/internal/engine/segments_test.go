package engine

import (
	"bytes"
	"encoding/binary"
	"testing"

	"pgregory.net/rapid"
)

// memory is what data leave in a memory of zeros.
func memory(t *rapid.T, module []byte) []byte {
	mem := make([]byte, 1<<20)
	for rest := module[len(header):]; len(rest) > 0; {
		size, n := binary.Uvarint(rest[1:])
		body := rest[1+n : 1+n+int(size)]
		if rest[0] == dataSection {
			list, err := readSegments(body)
			if err != nil {
				t.Fatal(err)
			}
			for _, s := range list {
				copy(mem[s.at:], s.data)
			}
		}
		rest = rest[1+n+int(size):]
	}
	return mem
}

// Whatever the segments are, memory begins the same, and no other section changes.
func TestJoinedDataAreTheSame(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var list []segment
		at := 0
		for range rapid.IntRange(0, 8).Draw(t, "segments") {
			at += rapid.OneOf(rapid.IntRange(0, 100), rapid.IntRange(maxGap-2, maxGap+2)).Draw(t, "gap")
			data := rapid.SliceOfN(rapid.Byte(), 0, 200).Draw(t, "data")
			list = append(list, segment{at, data})
			at += len(data)
		}
		list = rapid.Permutation(list).Draw(t, "order")
		other := []byte{1, 3, 9, 8, 7}
		data := writeSegments(list)
		module := append([]byte(header), other...)
		module = binary.AppendUvarint(append(module, dataSection), uint64(len(data)))
		module = append(append(module, data...), other...)
		got, err := joinData(module)
		if err != nil {
			t.Fatal(err)
		}
		if !bytes.Equal(memory(t, got), memory(t, module)) || !bytes.HasPrefix(got[len(header):], other) || !bytes.HasSuffix(got, other) {
			t.Errorf("%x became %x", module, got)
		}
	})
}

// Hand: two bytes with one zero between them are one segment of three bytes at 5.
func TestSegmentsAreJoined(t *testing.T) {
	module := []byte(header + "\x0b\x0d\x02" + "\x00\x41\x05\x0b\x01A" + "\x00\x41\x07\x0b\x01B")
	want := header + "\x0b\x09\x01" + "\x00\x41\x05\x0b\x03A\x00B"
	if got, err := joinData(module); err != nil || string(got) != want {
		t.Errorf("%q, %v", got, err)
	}
}

// What is not a module of the expected form is refused, not guessed.
func TestOddModules(t *testing.T) {
	for _, module := range []string{"", "<!doctype html>", "\x00asm\x02\x00\x00\x00", header + "\x0b", header + "\x0b\x05\x01",
		header + "\x0c\x01\x01",                                                     // a count of data besides
		header + "\x0b\x03\x01\x01\x00",                                             // passive
		header + "\x0b\x06\x01\x00\x23\x00\x0b\x00",                                 // at a global
		header + "\x0b\x0d\x02" + "\x00\x41\x07\x0b\x01A" + "\x00\x41\x07\x0b\x01B", // twice the same byte
	} {
		if got, err := joinData([]byte(module)); err == nil {
			t.Errorf("%q became %q", module, got)
		}
	}
}
