package scenarios

import (
	"math"
	"slices"

	"loamledger/weather/quantity"
)

// A zoneReader reads one zone by its declared parameters.
type zoneReader struct {
	group
	z      *Zone
	basis  ZoneBasis
	groups map[string]group // open groups by their key, "" being the zone itself
	bad    map[string]bool  // groups with errors, whose parameters get no default
	read   map[string]ZoneValue
	spans  map[string]string // ranges, written exactly, by key of the parameter
}

// under opens the group of a zone that has the parameters named "outer.…".
func (r *zoneReader) under(outer string, node *Node) group {
	g := r.open(node, r.where+": "+outer, r.path(outer), zoneKeys(r.params, outer)...)
	r.groups[outer] = g
	return g
}

// param returns the declaration of a parameter.
func (b *builder) param(key string) *ZoneParam {
	i := slices.IndexFunc(b.params, func(p ZoneParam) bool { return p.Key == key })
	return &b.params[i]
}

// number reads a declared number by its key and stores it.
func (r *zoneReader) number(key string) (v float64, ok bool) {
	p := r.param(key)
	return r.numberAs(p, p.want(r.basis))
}

// numberAs is like number, with a modified want.
func (r *zoneReader) numberAs(p *ZoneParam, w want) (v float64, ok bool) {
	outer, _ := p.split()
	v, ok = r.groups[outer].number(w)
	r.read[p.Key] = ZoneValue{Key: p.Key, Numeric: true, Number: v, shape: w.shape}
	if p.Set != nil {
		p.Set(r.z, v)
	}
	return v, ok
}

// rest reads the numbers of a group that are not read by name.
func (r *zoneReader) rest(outer string) {
	g, open := r.groups[outer]
	if !open || g.node == nil {
		return
	}
	for i := range r.params {
		p := &r.params[i]
		group, own := p.split()
		if p.Set == nil || p.named || group != outer {
			continue
		}
		if r.bad[outer] && g.node.Get(own) == nil && !p.want(r.basis).dflt.Known() {
			continue // its default depends on something with an error
		}
		r.number(p.Key)
	}
}

// recorded returns the final value of every parameter.
func (r *zoneReader) recorded() (values []ZoneValue) {
	for i := range r.params {
		p := &r.params[i]
		v, read := r.read[p.Key]
		v.Key, v.shape = p.Key, p.shape()
		switch {
		case p.recorded != nil:
			if v.Node = p.recorded(r.z); v.Node == nil {
				continue
			}
			v.Numeric = !p.Words && v.Node.Kind == Scalar
			if v.Numeric { // written by exact
				number, _ := quantity.Cut(v.Node.Text)
				v.Number, _ = quantity.ParseNumber(number)
			}
		case !read || math.IsNaN(v.Number):
			continue
		default:
			v.Node = scalar(exact(v.Number, v.shape))
		}
		v.rangeText = r.spans[p.Key]
		values = append(values, v)
	}
	return values
}
