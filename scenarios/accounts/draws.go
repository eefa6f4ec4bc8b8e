package accounts

import (
	"encoding/binary"
	"hash/fnv"
	"slices"
	"strings"

	"loamledger/scenarios"
	"loamledger/scenarios/names"
)

// hashed returns 64 bits that depend on the seed and the texts alone: FNV-1a, finished
// by the mixer of SplitMix64 (Steele, Lea and Flood 2014), which spreads its last bytes.
func hashed(seed uint64, texts ...string) uint64 {
	h := fnv.New64a()
	var b [8]byte
	binary.LittleEndian.PutUint64(b[:], seed)
	h.Write(b[:])
	for _, t := range texts {
		h.Write([]byte(t))
		h.Write([]byte{0})
	}
	z := h.Sum64() + 0x9e3779b97f4a7c15
	z = (z ^ z>>30) * 0xbf58476d1ce4e5b9
	z = (z ^ z>>27) * 0x94d049bb133111eb
	return z ^ z>>31
}

// A drawer draws what is not known of one account.
type drawer struct {
	program *Program
	account string
	drawn   []string // columns and keys that were drawn
}

// share returns a number between 0 and 1 for one cause.
func (d *drawer) share(cause string) float64 {
	return (float64(hashed(d.program.Seed, d.account, cause)>>11) + 0.5) / (1 << 53)
}

// pick chooses the value of a doubt. Weather that differs between site and station is not
// drawn: the accounts of a station share it.
func (d *drawer) pick(of *scenarios.Doubt) float64 {
	if of.Zone == "" {
		return of.Range.Mode
	}
	d.note(d.program.columnOf(of.Key))
	return of.Range.At(d.share(of.Cause))
}

// note lists a value that was drawn.
func (d *drawer) note(code string) {
	if !slices.Contains(d.drawn, code) {
		d.drawn = append(d.drawn, code)
	}
}

// choose picks one of the words of a choice.
func (d *drawer) choose(c *Choice, zone string) *scenarios.Node {
	cause := "choice " + c.Column
	if !c.ofSite() {
		cause += " of " + zone
	}
	left := d.share(cause) * c.total()
	for i := range c.Words {
		if left -= c.Words[i].Share; left < 0 {
			return c.Words[i].Node
		}
	}
	return c.Words[len(c.Words)-1].Node
}

// donor returns the donor of a zone: one of those of its class and its zone of the program,
// else of its class and any zone, else of that zone, else any; nil for none. The zones of an account have one share,
// so that donors listed in the same order give zones that belong together.
func (d *drawer) donor(class, like string) *Donor {
	for _, key := range [...]donorKey{{class, names.Key(like)}, {class, ""}, {"", names.Key(like)}, {"", ""}} {
		if list := d.program.donors[key]; len(list) > 0 {
			return list[int(d.share("donor")*float64(len(list)))]
		}
	}
	return nil
}

// A donorKey is what donors are looked up by: a class, and a zone of the program. The empty
// class has all donors of the zone; the empty zone those that are for any.
type donorKey struct{ class, like string }

// indexDonors lays out the donors by what they are for.
func (p *Program) indexDonors() {
	p.donors = map[donorKey][]*Donor{}
	for i := range p.Donors {
		o := &p.Donors[i]
		like := names.Key(o.Like)
		p.donors[donorKey{"", like}] = append(p.donors[donorKey{"", like}], o)
		if o.Class != "" {
			p.donors[donorKey{o.Class, like}] = append(p.donors[donorKey{o.Class, like}], o)
		}
	}
}

// codes joins codes in order, each once.
func codes(list []string) string {
	list = slices.Clone(list)
	slices.Sort(list)
	return strings.Join(slices.Compact(list), ";")
}
