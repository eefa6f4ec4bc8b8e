package settings

import "loamledger/sim/clock"

// queue lists the pairs of programs of which one starts while the other runs on the
// same day at the highest percentage: the replay runs one after the other, which
// not every timer does.
func (b *maker) queue() {
	s := b.sheet
	runs := make([][]clock.Window, len(s.Programs))
	for i := range s.Programs {
		if p := &s.Programs[i]; len(p.Starts) > 0 {
			runs[i] = seriesFrom(p.Starts, p.Starts[0], b.pass(i))
		}
		for j := range i {
			if overlaps(runs[i], runs[j]) && b.shareDay(&s.Programs[i].Days, &s.Programs[j].Days) {
				s.Queued = append(s.Queued, [2]string{s.Programs[j].Name, s.Programs[i].Name})
			}
		}
	}
}
