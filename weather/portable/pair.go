package portable

// A pair is the unevaluated sum of two numbers, hi + lo, lo at most about half a unit in the last place of hi. It has
// about 106 bits.
type pair struct{ hi, lo float64 }

// sum returns a + b exactly. Source: Knuth, The art of computer programming, volume 2, 4.2.2.
func sum(a, b float64) pair {
	s := a + b
	t := s - a
	return pair{s, (a - (s - t)) + (b - t)}
}

// ordered returns a + b exactly if a is 0 or at least as large as b in magnitude. Source: Dekker (1971).
func ordered(a, b float64) pair {
	s := a + b
	return pair{s, b - (s - a)}
}

// halves splits a into two numbers of 26 bits or less. a must be below 2^996. Source: Veltkamp, in Dekker (1971).
func halves(a float64) (high, low float64) {
	const split = 1<<27 + 1
	c := float64(split * a)
	high = c - (c - a)
	return high, a - high
}

// product returns a·b exactly unless a part of it underflows. Source: Dekker (1971). math.FMA would be shorter, and slow where the
// processor lacks it.
func product(a, b float64) pair {
	p := float64(a * b)
	a1, a2 := halves(a)
	b1, b2 := halves(b)
	e := float64(a1*b1) - p
	e += float64(a1 * b2)
	e += float64(a2 * b1)
	return pair{p, e + float64(a2*b2)}
}

// plus returns p + q to about 100 bits if the two do not cancel.
func (p pair) plus(q pair) pair {
	s := sum(p.hi, q.hi)
	return ordered(s.hi, s.lo+(p.lo+q.lo))
}

// times returns p·q to about 100 bits.
func (p pair) times(q pair) pair {
	m := product(p.hi, q.hi)
	return ordered(m.hi, m.lo+(float64(p.hi*q.lo)+float64(p.lo*q.hi)))
}

// over returns p/q to about 100 bits.
func (p pair) over(q pair) pair {
	n := p.hi / q.hi
	m := product(n, q.hi)
	return ordered(n, ((p.hi-m.hi)-m.lo+p.lo-float64(n*q.lo))/q.hi)
}

func (p pair) negative() pair { return pair{-p.hi, -p.lo} }
