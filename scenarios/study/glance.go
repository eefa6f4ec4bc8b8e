package study

import (
	"context"

	"loamledger/sim/replay"
	"loamledger/sim/tally"
)

// Glance replays the study's job without the checks of [Study.Replay], for a page that
// answers each move of a slider: the table has the same numbers. With rates it also works
// out the bills. The table is valid until the runner runs again. An error is from ctx.
func (l *Study) Glance(ctx context.Context, r *replay.Runner) (*tally.Table, error) {
	job := l.Job
	use := newMeterUse(l)
	t, err := r.Run(ctx, &job, use.beside(nil))
	if err != nil {
		return nil, err
	}
	if use != nil {
		l.money.bills = nil
		l.money.work(use, l.Weather.Start, t)
	}
	return t, nil
}
