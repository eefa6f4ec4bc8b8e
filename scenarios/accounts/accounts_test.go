package accounts

import (
	"math"
	"strings"
	"testing"

	"loamledger/scenarios"
	"loamledger/weather/quantity"
)

// The mixer spreads IDs evenly over shards, also if they count up, and depends on nothing
// but ID and number.
func TestShardsAreEven(t *testing.T) {
	const n, ids = 16, 16000
	var count [n]int
	for i := range ids {
		count[Shard(strings.Repeat("0", 4)+string(rune('a'+i%26))+quantity.Whole(i), n)]++
	}
	for i, c := range count {
		// Binomial: 1000 ± 5·sqrt(1000·15/16) = 1000 ± 153.
		if c < 847 || c > 1153 {
			t.Errorf("shard %d has %d of %d accounts", i, c, ids)
		}
	}
	// Recorded: shards must be the same on every machine and in every version.
	if a, b := Shard("007", n), Shard("000123456", 1000); a != 12 || b != 756 || Shard("007", 1) != 0 {
		t.Errorf("shards are %d and %d", a, b)
	}
}

// A share depends on seed, account and cause alone, and shares are even.
func TestSharesAreEven(t *testing.T) {
	p := &Program{Seed: 1}
	sum, sq := 0.0, 0.0
	const n = 20000
	for i := range n {
		d := drawer{program: p, account: quantity.Whole(i)}
		u := d.share("area")
		if again := (&drawer{program: p, account: quantity.Whole(i)}).share("area"); again != u || !(u > 0 && u < 1) {
			t.Fatalf("%v, then %v", u, again)
		}
		sum, sq = sum+u, sq+u*u
	}
	mean := sum / n
	// 1/2 ± 5·sqrt(1/12/20000) and variance 1/12 ± 2%.
	if math.Abs(mean-0.5) > 0.011 || math.Abs(sq/n-mean*mean-1.0/12) > 0.0017 {
		t.Errorf("mean %v, variance %v", mean, sq/n-mean*mean)
	}
	a, b := drawer{program: p, account: "1"}, drawer{program: &Program{Seed: 2}, account: "1"}
	if a.share("area") == b.share("area") || a.share("area") == a.share("rate") {
		t.Error("another seed or cause gives the same share")
	}
}

// Hand: use 40 + 60·factor, target 100, and a first try at 1 with 100 is right at once; for
// target 220, 1 gives 100, through 0 follows 2.2 with 172, and the line through both gives 3.
func TestSolverByHand(t *testing.T) {
	use := func(scale float64) float64 { return 40 + 60*scale }
	s := solver{target: 220}
	for _, want := range []float64{2.2, 3} {
		last := 1.0
		if len(s.points) > 0 {
			last = s.last().scale
		} else {
			s.add(1, use(1))
		}
		if got := s.next(); math.Abs(got-want) > 1e-12 {
			t.Fatalf("after %v: %v, want %v", last, got, want)
		}
		s.add(want, use(want))
	}
	if got := s.last().use; got != 220 {
		t.Errorf("the use is %v", got)
	}
	// A sensor that caps the use at 150: the factor stops rising, and says so.
	s = solver{target: 300}
	for scale := 1.0; len(s.points) < 40 && !s.stuck(); scale = s.next() {
		s.add(scale, min(100*scale, 150))
	}
	if s.last().use != 150 {
		t.Errorf("%+v", s.last())
	}
}

// Hand: 45% to 65% and 1 to 2 to 4 m2, also with one unit behind the last number.
func TestParseRange(t *testing.T) {
	for _, c := range []struct {
		text string
		dim  quantity.Dimension
		want []float64
		ok   bool
	}{
		{"45% to 65%", quantity.Fraction, []float64{0.45, 0.65}, true},
		{"1 to 2 to 4 m2", quantity.Area, []float64{1, 2, 4}, true},
		{"3 m2", quantity.Area, []float64{3}, true},
		{"3 to 1 m2", quantity.Area, []float64{3, 1}, false},
		{"1 to 2 to 3 to 4 m2", quantity.Area, []float64{1, 2, 3, 4}, false},
	} {
		got, err := ParseRange(c.text, c.dim)
		if err != nil || len(got) != len(c.want) {
			t.Fatalf("%s: %v, %v", c.text, got, err)
		}
		for i := range got {
			if math.Abs(got[i]-c.want[i]) > 1e-12 {
				t.Errorf("%s: %v", c.text, got)
			}
		}
		if _, ok := RangeOf(got); ok != c.ok {
			t.Errorf("%s: a range %v", c.text, ok)
		}
	}
	if _, err := ParseRange("1 to 2", quantity.Area); err == nil {
		t.Error("numbers without a unit are read")
	}
}

func scalar(text string) *scenarios.Node { return &scenarios.Node{Kind: scenarios.Scalar, Text: text} }

func group(entries ...any) *scenarios.Node {
	n := &scenarios.Node{Kind: scenarios.Map}
	for i := 0; i < len(entries); i += 2 {
		n.Entries = append(n.Entries, scenarios.Entry{Key: entries[i].(string), Value: entries[i+1].(*scenarios.Node)})
	}
	return n
}

func list(items ...*scenarios.Node) *scenarios.Node {
	return &scenarios.Node{Kind: scenarios.List, Items: items}
}

// write writes a tree on one line.
func write(n *scenarios.Node) string {
	switch n.Kind {
	case scenarios.Scalar:
		return n.Text
	case scenarios.List:
		var parts []string
		for _, item := range n.Items {
			parts = append(parts, write(item))
		}
		return "[" + strings.Join(parts, " ") + "]"
	}
	var parts []string
	for _, e := range n.Entries {
		parts = append(parts, e.Key+":"+write(e.Value))
	}
	return "{" + strings.Join(parts, " ") + "}"
}

// An account with two zones like the lawn and no bed: names are written for all of them, and
// what is for the bed alone is omitted and noted.
func TestZonesOfAnAccount(t *testing.T) {
	root := group(
		"programs", list(
			group("name", scalar("lawns"), "minutes", group("lawn", scalar("20"))),
			group("name", scalar("beds"), "minutes", group("bed", scalar("40")))),
		"strategies", list(
			group("name", scalar("as found"), "programs", list(scalar("lawns"), scalar("beds"))),
			group("name", scalar("refill"), "refill", group("zones", scalar("all"))),
			group("name", scalar("refill beds"), "refill", group("zones", list(scalar("bed")))),
			group("name", scalar("drip"), "programs", scalar("lawns"), "changes", list(group("zones", list(scalar("bed")), "cost", scalar("5")))),
			group("name", scalar("heads"), "programs", scalar("lawns"), "changes", list(group("zones", list(scalar("Lawn"), scalar("bed")))))))
	e := expander{names: map[string][]string{"lawn": {"north", "south"}}, known: []string{"lawn", "bed"}}
	e.root(root)
	const want = "{programs:[{name:lawns minutes:{north:20 south:20}}] strategies:[{name:as found programs:[lawns]} " +
		"{name:refill refill:{zones:all}} {name:refill beds} {name:drip programs:lawns} " +
		"{name:heads programs:lawns changes:[{zones:[north south]}]}]}"
	if got := write(root); got != want {
		t.Errorf("got\n%s\nwant\n%s", got, want)
	}
	if got := strings.Join(e.left, ", "); got != "as found, refill beds, drip" {
		t.Errorf("a part is omitted in %s", got)
	}
}
