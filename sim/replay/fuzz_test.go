package replay_test

import (
	"math/rand/v2"
	"testing"

	"pgregory.net/rapid"
)

// FuzzLegalPrograms replays whatever legal site the bytes spell, with limits
// or without: it must not panic, and every balance must close.
func FuzzLegalPrograms(f *testing.F) {
	for seed := range uint64(12) {
		r := rand.New(rand.NewPCG(seed, 5))
		bytes := make([]byte, 8192)
		for i := range bytes {
			bytes[i] = byte(r.Uint32())
		}
		f.Add(bytes)
	}
	f.Fuzz(rapid.MakeFuzz(func(t *rapid.T) {
		s := drawSite(t, 2, 2, 120)
		drawMore(t, s)
		if rapid.Bool().Draw(t, "limits") {
			s.job.Limits = drawLimits(t, s)
		}
		closes(t, &s.job)
	}))
}
