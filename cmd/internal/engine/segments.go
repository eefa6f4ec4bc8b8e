package engine

import (
	"bytes"
	"encoding/binary"
	"errors"
	"slices"
)

// Sections of a WebAssembly module, by the core specification 2.0, section 5.5.
const (
	header      = "\x00asm\x01\x00\x00\x00" // magic number and version
	dataSection = 11
	dataCount   = 12
	i32Const    = 0x41
	endOfExpr   = 0x0b
)

// maxGap is the longest run of zeros that is written out between two parts of the data.
const maxGap = 1 << 16

var errModule = errors.New("the compiled engine is not of the expected form")

// joinData writes the data of a module in as few segments as possible. Go's linker
// leaves out zeros and starts 100,000 segments, whose headers compress badly; memory
// starts as zeros, so the module is the same with the zeros written out. A module of
// another form than Go's linker writes is an error, errModule.
func joinData(module []byte) ([]byte, error) {
	rest, is := bytes.CutPrefix(module, []byte(header))
	if !is {
		return nil, errModule
	}
	out := []byte(header)
	for len(rest) > 0 {
		id := rest[0]
		size, n := binary.Uvarint(rest[1:])
		if n <= 0 || size > uint64(len(rest)-1-n) || id == dataCount {
			return nil, errModule
		}
		body := rest[1+n : 1+n+int(size)]
		rest = rest[1+n+int(size):]
		if id == dataSection {
			segments, err := readSegments(body)
			if err != nil {
				return nil, err
			}
			if segments, err = joined(segments); err != nil {
				return nil, err
			}
			body = writeSegments(segments)
		}
		out = append(binary.AppendUvarint(append(out, id), uint64(len(body))), body...)
	}
	return out, nil
}

// A segment is data from an address on.
type segment struct {
	at   int
	data []byte
}

// readSegments reads a data section whose segments are at constant addresses of the only
// memory.
func readSegments(body []byte) ([]segment, error) {
	count, n := binary.Uvarint(body)
	if n <= 0 || count > uint64(len(body)) {
		return nil, errModule
	}
	body = body[n:]
	list := make([]segment, count)
	for i := range list {
		if len(body) < 2 || body[0] != 0 || body[1] != i32Const {
			return nil, errModule
		}
		at, n := signed(body[2:])
		body = body[2:]
		if n <= 0 || at < 0 || n >= len(body) || body[n] != endOfExpr {
			return nil, errModule
		}
		body = body[n+1:]
		size, n := binary.Uvarint(body)
		if n <= 0 || size > uint64(len(body)-n) {
			return nil, errModule
		}
		list[i] = segment{at, body[n : n+int(size)]}
		body = body[n+int(size):]
	}
	if len(body) > 0 {
		return nil, errModule
	}
	return list, nil
}

// joined joins segments with at most [maxGap] zeros between them. They do not overlap, so
// that their order means nothing.
func joined(list []segment) (out []segment, err error) {
	list = slices.Clone(list)
	slices.SortStableFunc(list, func(a, b segment) int { return a.at - b.at })
	for _, s := range list {
		if len(s.data) == 0 {
			continue
		}
		if len(out) > 0 {
			last := &out[len(out)-1]
			gap := s.at - last.at - len(last.data)
			if gap < 0 {
				return nil, errModule
			}
			if gap <= maxGap {
				last.data = append(append(last.data, make([]byte, gap)...), s.data...)
				continue
			}
		}
		out = append(out, segment{s.at, append([]byte{}, s.data...)})
	}
	return out, nil
}

func writeSegments(list []segment) []byte {
	body := binary.AppendUvarint(nil, uint64(len(list)))
	for _, s := range list {
		body = append(appendSigned(append(body, 0, i32Const), s.at), endOfExpr)
		body = append(binary.AppendUvarint(body, uint64(len(s.data))), s.data...)
	}
	return body
}

// signed reads a signed number in LEB128, and how many bytes it has; 0 for none.
func signed(b []byte) (v, n int) {
	for shift := 0; n < len(b) && shift < 35; shift += 7 {
		c := b[n]
		n++
		v |= int(c&0x7f) << shift
		if c&0x80 == 0 {
			if c&0x40 != 0 {
				v -= 1 << (shift + 7)
			}
			return v, n
		}
	}
	return 0, 0
}

// appendSigned writes a number of at least 0 in signed LEB128.
func appendSigned(b []byte, v int) []byte {
	for v >= 0x40 {
		b = append(b, byte(v)|0x80)
		v >>= 7
	}
	return append(b, byte(v))
}
