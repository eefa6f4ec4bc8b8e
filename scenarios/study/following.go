package study

import (
	"slices"

	"loamledger/sim/settings"
	"loamledger/sim/strategy"
)

// following returns what to enter on a timer that can follow the weather, nil for a
// strategy that does not follow it.
func (l *Study) following(st *strategy.Strategy, s *settings.Sheet) (*settings.Following, error) {
	_, needs, err := st.Plain()
	if err != nil {
		return nil, err
	}
	if !slices.Contains(needs, strategy.WeatherController) && !slices.Contains(needs, strategy.BalanceController) {
		return nil, nil
	}
	site := settings.NewSite(l.Job.Zones, l.Job.Weather, l.Job.Limits, l.Job.Wiring)
	design, _, _ := st.DesignETo(site)
	f := settings.NewFollowing(site, s, design)
	for z := range f.Zones {
		f.Zones[z].AWCMMPerM, f.Zones[z].RootDepthM = l.Scenario.Zones[z].AWCMMPerM, l.Scenario.Zones[z].RootDepthM
	}
	for _, p := range st.Parts {
		entry, err := strategy.OnCopy(p)
		if err != nil {
			return nil, err
		}
		for z, is := range entry.Zones {
			if is && entry.MAD > 0 {
				f.ChangeZone(z, &l.Job.Zones[z], entry.MAD, entry.Extra)
			}
		}
	}
	return f, nil
}
