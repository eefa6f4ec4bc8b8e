package tally

// A Digest is what comparisons show of a table: values of the whole site. It takes
// a thousandth of the room, so that the results of many replays can be kept.
type Digest struct {
	Rows   []Row
	at     map[string]int // the measures by key
	values [][]float64    // by strategy, then measure, then period
}

// periods is the number of values of [Over].
const periods = int(DryYear) + 1

// Digest returns the values of the whole site by the given measures.
func (c *Cells) Digest(measures []Measure) *Digest {
	d := &Digest{Rows: c.Compare(), at: map[string]int{}}
	for i := range measures {
		d.at[measures[i].Key] = i
	}
	for s := range c.Table.Strategies {
		var values []float64
		for i := range measures {
			for over := range Over(periods) {
				values = append(values, c.Site(&measures[i], s, over))
			}
		}
		d.values = append(d.values, values)
	}
	return d
}

// Site returns measure m of strategy s on the whole site, as [Cells.Site]. m must
// be one of the digest's measures.
func (d *Digest) Site(m *Measure, s int, over Over) float64 {
	i, ok := d.at[m.Key]
	if !ok {
		panic("tally: the digest lacks the measure " + m.Key)
	}
	return d.values[s][i*periods+int(over)]
}
