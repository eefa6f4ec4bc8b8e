package study

import (
	"context"
	"testing"
)

// The cards have the numbers of the comparison, bit for bit, whether the replay was
// checked or only glanced at.
func TestCardsHaveTheNumbersOfTheComparison(t *testing.T) {
	l := yard(t, 3)
	full, err := l.Replay(context.Background(), nil)
	if err != nil {
		t.Fatal(err)
	}
	want := l.Summary(full)
	var g Glancer
	quick, err := g.Glance(context.Background(), yard(t, 3))
	if err != nil {
		t.Fatal(err)
	}
	for _, cards := range []*Cards{l.Cards(full), l.Cards(quick)} {
		if len(cards.Cards) != 2 || !cards.Cards[0].Baseline || cards.Cards[1].Baseline || cards.Answer == "" {
			t.Fatalf("cards %+v", cards)
		}
		for s, c := range cards.Cards {
			met := 0
			for _, f := range c.Figures {
				for _, k := range want.Strategies[s] {
					if v, is := k.value.(*float64); is && k.key == f.Key {
						met++
						if f.Value == nil || v == nil || *f.Value != *v || f.Text == "" {
							t.Errorf("%s, %s: %v, want %v", c.Strategy, f.Key, f, v)
						}
					}
				}
			}
			if met < 6 || met < len(c.Figures)-1 { // one figure is of the cards alone
				t.Errorf("%s: %d of %d figures are in the comparison", c.Strategy, met, len(c.Figures))
			}
		}
	}
}

// BenchmarkCards is what a page does at a move of a slider, apart from reading.
func BenchmarkCards(b *testing.B) {
	l := yard(b, 10)
	var g Glancer
	b.ReportAllocs()
	for b.Loop() {
		t, err := g.Glance(context.Background(), l)
		if err != nil {
			b.Fatal(err)
		}
		l.Cards(t)
	}
}
