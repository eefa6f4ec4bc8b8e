package study

import (
	"testing"

	"loamledger/weather/et0"
)

// TestLikelyError works the percentages by hand: −0.34 of 3.75 mm is −9%, +0.18
// of 3.63 is +5%, 0.69 of 3.75 is 18% and 0.62 of 3.63 is 17%.
func TestLikelyError(t *testing.T) {
	wind := et0.Expected{Guess: et0.GuessWind, Days: 3, MeanMM: 4, BiasMM: -0.2, MeanAbsMM: 0.4, Where: "the 900 full days of this record"}
	dry := et0.Expected{Guess: et0.GuessAll, Days: 4383, MeanMM: 3.75, BiasMM: -0.34, MeanAbsMM: 0.69, Where: "366 days at one place"}
	wet := et0.Expected{Guess: et0.GuessAll, Days: 4383, MeanMM: 3.63, BiasMM: 0.18, MeanAbsMM: 0.62, Where: "364 days at another"}
	for _, tt := range []struct {
		list []et0.Expected
		want string
	}{
		{nil, ""},
		{[]et0.Expected{wind}, "assumed wind (3 days): mean error -5%, single-day error 10%, measured on the 900 full days of this record"},
		{[]et0.Expected{wind, dry, wet}, "assumed wind (3 days): mean error -5%, single-day error 10%, measured on the 900 full " +
			"days of this record; " +
			"temperatures alone (Hargreaves) (4,383 days): mean error -9 to +5%, single-day error 17 to 18%, measured on 366 days at " +
			"one place and 364 days at another"},
	} {
		if got := likelyError(tt.list); got != tt.want {
			t.Errorf("%q, want %q", got, tt.want)
		}
	}
}
