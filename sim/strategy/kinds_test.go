package strategy_test

import (
	"errors"
	"math"
	"reflect"
	"regexp"
	"slices"
	"strings"
	"testing"

	"loamledger/sim/strategy"
	"loamledger/weather/cal"
	"loamledger/weather/quantity"
)

// TestKindsAreDescribed: every kind has a key of its own, a sentence and an
// example that begins with its key; every default lies in its range and names
// its source.
func TestKindsAreDescribed(t *testing.T) {
	seen := map[string]bool{}
	for _, k := range strategy.Kinds() {
		if k.Key == "" || seen[k.Key] {
			t.Errorf("key %q is empty or taken", k.Key)
		}
		seen[k.Key] = true
		first, _, _ := strings.Cut(k.Key, ".")
		if k.Doc == "" || !strings.HasPrefix(k.Example, first+":") || len(k.Params) == 0 {
			t.Errorf("%s: doc %q, example %q, %d parameters", k.Key, k.Doc, k.Example, len(k.Params))
		}
		for _, p := range k.Params {
			if p.Doc == "" {
				t.Errorf("%s: parameter %q is not described", k.Key, p.Key)
			}
			if p.Required {
				continue
			}
			if p.Source == "" || p.Grade == quantity.Given {
				t.Errorf("%s: the default of %q has source %q and grade %v", k.Key, p.Key, p.Source, p.Grade)
			}
			// Where a word describes the default, the number may lie outside.
			if (p.Type == strategy.Quantity || p.Type == strategy.Number) && p.Word == "" && (p.Default < p.Min || p.Default > p.Max) {
				t.Errorf("%s: the default %g of %q is outside %g to %g", k.Key, p.Default, p.Key, p.Min, p.Max)
			}
		}
	}
}

// TestNoKindLeavesAnythingUnsaid: every kind says what its parts are on a
// sheet, in words and so on, and its parts are of that kind.
func TestNoKindLeavesAnythingUnsaid(t *testing.T) {
	for _, k := range strategy.Kinds() {
		if open := k.Unsaid(); len(open) > 0 {
			t.Errorf("%s does not say %s: fill in its Spec", k.Key, strings.Join(open, ", "))
		}
		b := k.Blank()
		for i := range b.Params {
			b.Set(i, values(&b.Params[i])[0])
		}
		if got := b.Part().Kind().Key; got != k.Key {
			t.Errorf("a part of the kind %s is of the kind %s", k.Key, got)
		}
	}
}

// TestClaimsNameKinds: a part that takes zones in the way of others names kinds
// that there are.
func TestClaimsNameKinds(t *testing.T) {
	kinds := strategy.Kinds()
	claims := 0
	for _, k := range kinds {
		b := k.Blank()
		for i := range b.Params {
			b.Set(i, values(&b.Params[i])[0])
		}
		c, err := b.Conflicts()
		if err != nil {
			t.Errorf("%s: %v", k.Key, err)
		}
		if c.Claim == nil {
			continue
		}
		for _, other := range c.Claim.Against {
			claims++
			if !slices.ContainsFunc(kinds, func(k strategy.Kind) bool { return k.Key == other.Key }) || other.Text == "" || other.Fix == "" {
				t.Errorf("%s: collides with %+v", k.Key, other)
			}
		}
	}
	if claims == 0 {
		t.Error("no kind claims zones against another; a refill does")
	}
}

// values returns values of a parameter, no two of which are alike to a part.
func values(p *strategy.Param) []strategy.Value {
	v := func(change func(v *strategy.Value)) strategy.Value {
		out := strategy.Value{Given: true}
		change(&out)
		return out
	}
	number := func(x float64) strategy.Value { return v(func(v *strategy.Value) { v.Number = x }) }
	switch p.Type {
	case strategy.Quantity, strategy.Number:
		return []strategy.Value{number(math.Ceil(p.Min) + 1), number(math.Ceil(p.Min) + 2)}
	case strategy.Flag:
		return []strategy.Value{number(0), number(1)}
	case strategy.Choice:
		var out []strategy.Value
		for _, c := range p.Choices {
			out = append(out, v(func(v *strategy.Value) { v.Word = c }))
		}
		return out
	case strategy.TwelveShares:
		out := []strategy.Value{v(func(v *strategy.Value) { v.Months[3] = 0.5 }), v(func(v *strategy.Value) { v.Months[3] = 0.75 })}
		for _, c := range p.Choices {
			out = append(out, v(func(v *strategy.Value) { v.Word = c }))
		}
		return out
	case strategy.DaysOfWatering:
		return []strategy.Value{v(func(v *strategy.Value) { v.Days.Kind = strategy.OddDays }),
			v(func(v *strategy.Value) { v.Days.Kind = strategy.EvenDays })}
	case strategy.ZoneNames:
		return []strategy.Value{v(func(v *strategy.Value) { v.Zones = []bool{true, false} }),
			v(func(v *strategy.Value) { v.Zones = []bool{false, true} })}
	case strategy.ProgramNames:
		return []strategy.Value{v(func(v *strategy.Value) { v.Programs = []strategy.Program{{Name: "a", Minutes: []float64{5, 0}}} }),
			v(func(v *strategy.Value) { v.Programs = []strategy.Program{{Name: "b", Minutes: []float64{5, 0}}} })}
	case strategy.ZoneName:
		return []strategy.Value{v(func(v *strategy.Value) { v.Zone = 0 }), v(func(v *strategy.Value) { v.Zone = 1 })}
	case strategy.ZoneShares:
		return []strategy.Value{v(func(v *strategy.Value) { v.Shares = []float64{0.5, 1} }),
			v(func(v *strategy.Value) { v.Shares = []float64{0.75, 1} })}
	case strategy.CalendarDay:
		return []strategy.Value{v(func(v *strategy.Value) { v.Date = cal.Of(2014, 7, 2) }),
			v(func(v *strategy.Value) { v.Date = cal.Of(2014, 7, 3) })}
	case strategy.YearDay:
		return []strategy.Value{v(func(v *strategy.Value) { v.YearDay = 415 }), v(func(v *strategy.Value) { v.YearDay = 416 })}
	case strategy.ClockTime:
		return []strategy.Value{v(func(v *strategy.Value) { v.Clock = 300 }), v(func(v *strategy.Value) { v.Clock = 301 })}
	}
	panic("no values of this type")
}

// TestEveryParameterReachesItsPart: each value of a parameter makes another
// part, and the part gives the value back.
func TestEveryParameterReachesItsPart(t *testing.T) {
	for _, k := range strategy.Kinds() {
		for i := range k.Params {
			name := k.Key + "." + k.Params[i].Key
			var parts []strategy.Part
			for _, v := range values(&k.Params[i]) {
				b := k.Blank()
				for j := range b.Params {
					b.Set(j, values(&b.Params[j])[0])
				}
				b.Set(i, v)
				part := b.Part()
				for _, other := range parts {
					if reflect.DeepEqual(part, other) {
						t.Errorf("%s: %+v makes the same part as another value: %+v", name, v, part)
					}
				}
				parts = append(parts, part)
				_, params, err := strategy.Written(part)
				if err != nil {
					t.Fatal(err)
				}
				if got := params[i].Value(); !reflect.DeepEqual(got, v) {
					t.Errorf("%s: set to %+v, holds %+v", name, v, got)
				}
			}
		}
	}
}

// TestSensorReadsItsOwnZone: without read_zone, each zone has its own sensor.
func TestSensorReadsItsOwnZone(t *testing.T) {
	b := strategy.Sensor{}.Kind().Blank()
	reads := slices.IndexFunc(b.Params, func(p strategy.Param) bool { return p.Key == "read_zone" })
	b.Set(reads, strategy.Value{Zone: -1})
	if s := b.Part().(strategy.Sensor); s.ReadZone != 0 {
		t.Errorf("read_zone %d, want 0: each its own", s.ReadZone)
	}
	b.Set(reads, strategy.Value{Given: true, Zone: 1})
	if s := b.Part().(strategy.Sensor); s.ReadZone != 2 {
		t.Errorf("read_zone %d, want 2: the second zone", s.ReadZone)
	}
}

// mute is a part whose kind says what the test lets it say.
type mute struct {
	Number float64
	Word   string
}

func (m mute) Stage() strategy.Stage { return strategy.Scale }
func (m mute) Apply(*strategy.Draft) {}
func (m mute) Kind() strategy.Kind {
	if m.Word == "empty" {
		return emptyKind()
	}
	return muteKind()
}

func (m *mute) params() []strategy.Param {
	return []strategy.Param{{Key: "number", Field: strategy.AsQuantity(&m.Number, quantity.Depth), Required: true}}
}

func muteKind() strategy.Kind {
	return strategy.Spec[mute]{Key: "mute", Params: (*mute).params}.Kind()
}

// emptyKind answers every question with a value that says nothing.
func emptyKind() strategy.Kind {
	return strategy.Spec[mute]{Key: "empty", Params: (*mute).params,
		Sheet:     func(*mute, *strategy.Site) strategy.SheetEntry { return strategy.SheetEntry{} },
		Copy:      func(*mute) strategy.CopyEntry { return strategy.CopyEntry{} },
		Lines:     func(*mute, []string, quantity.System) []string { return nil },
		Conflicts: func(*mute, strategy.Given) strategy.Conflicts { return strategy.Conflicts{} },
		Warnings:  func(*mute, []string) strategy.Warnings { return strategy.Warnings{} },
	}.Kind()
}

// TestUnsaidIsAnError: what a kind does not say, or says with an empty answer,
// is an error for whoever asks; and Unsaid lists what is not said at all.
func TestUnsaidIsAnError(t *testing.T) {
	if n := len(muteKind().Unsaid()); n != 8 {
		t.Errorf("%d questions are open, want all 8: %q", n, muteKind().Unsaid())
	}
	for _, part := range []mute{{Word: "mute"}, {Word: "empty"}} {
		_, sheet := strategy.OnSheet(part, nil)
		_, copied := strategy.OnCopy(part)
		_, lines := strategy.Lines(part, nil, quantity.SI)
		_, _, yaml := strategy.Written(part)
		_, warnings := strategy.WarningsOf(part, nil)
		_, conflicts := part.Kind().Blank().Conflicts()
		_, record := (&strategy.Strategy{Parts: []strategy.Part{part}}).Describe(nil)
		_, _, plain := (&strategy.Strategy{Parts: []strategy.Part{part}}).Plain()
		said := map[string]bool{}
		for what, err := range map[string]error{"sheet": sheet, "copy": copied, "lines": lines, "yaml": yaml, "warnings": warnings,
			"conflicts": conflicts, "record": record, "plain": plain} {
			var unsaid *strategy.UnsaidError
			if !errors.As(err, &unsaid) || unsaid.Key != part.Word || said[unsaid.What] {
				t.Errorf("%s, %s: %v", part.Word, what, err)
				continue
			}
			said[unsaid.What] = true
		}
	}
}

// TestMistakenSpecsAreRefused: a parameter without a field, two for one field
// and a default that is no choice are found when the kind is made.
func TestMistakenSpecsAreRefused(t *testing.T) {
	for name, params := range map[string]func(m *mute) []strategy.Param{
		"no field": func(*mute) []strategy.Param { return []strategy.Param{{Key: "a"}} },
		"one field": func(m *mute) []strategy.Param {
			return append(m.params(), strategy.Param{Key: "b", Field: m.params()[0].Field})
		},
		"one key": func(m *mute) []strategy.Param {
			return append(m.params(), strategy.Param{Key: "number", Field: strategy.AsChoice(&m.Word), Required: true, Choices: []string{"x"}})
		},
		"no choice": func(m *mute) []strategy.Param {
			return []strategy.Param{{Key: "word", Field: strategy.AsChoice(&m.Word), Word: "z", Choices: []string{"x"}}}
		},
	} {
		func() {
			defer func() {
				if recover() == nil {
					t.Errorf("%s: accepted", name)
				}
			}()
			strategy.Spec[mute]{Key: "mute", Params: params}.Kind()
		}()
	}
	defer func() {
		if recover() == nil {
			t.Error("a field without a parameter may be asked for")
		}
	}()
	strategy.Spec[mute]{Key: "mute", Params: (*mute).params, Conflicts: func(m *mute, given strategy.Given) strategy.Conflicts {
		given(&m.Word)
		return strategy.Conflicts{Checked: true}
	}}.Kind().Blank().Conflicts()
}

// TestKeysArePlain: no key and no text of a kind uses the words that were
// replaced.
func TestKeysArePlain(t *testing.T) {
	old := regexp.MustCompile(`(?i)\b(skip\w*|freez\w*|believe\w*|whatever|most|least|told|this program|held back)\b`)
	key := regexp.MustCompile(`(^|[._])(skip|freeze|most|least|believes|by_hand)([._]|$)`)
	for _, k := range strategy.Kinds() {
		texts := []string{k.Doc, k.Example}
		if key.MatchString(k.Key) {
			t.Errorf("key %s", k.Key)
		}
		for _, p := range k.Params {
			texts = append(texts, p.Doc, p.Source)
			if p.Key != "at_least" && key.MatchString(p.Key) {
				t.Errorf("%s: key %s", k.Key, p.Key)
			}
		}
		for _, text := range texts {
			if word := old.FindString(strings.ReplaceAll(text, "at_least", "")); word != "" {
				t.Errorf("%s: %q in %q", k.Key, word, text)
			}
		}
	}
}
