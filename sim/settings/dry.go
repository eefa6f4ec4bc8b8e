package settings

import (
	"fmt"
	"slices"

	"loamledger/sim/strategy"
)

// A DryReason is the reason why a sheet has no water for a zone. It is stable:
// scripts use it.
type DryReason string

// The reasons, the first that applies. [DryReasons] explains each.
const (
	DoesNotFit  DryReason = "does-not-fit"
	NotInForce  DryReason = "not-in-force"
	ByHand      DryReason = "by-hand"
	PercentZero DryReason = "percent-zero"
	NotIncluded DryReason = "not-included"
	NoNeed      DryReason = "no-need"
)

// A DryReasonDoc describes a reason: Doc is a clause about a zone.
type DryReasonDoc struct {
	Reason DryReason
	Doc    string
}

// dryReasons is the one list of reasons.
var dryReasons = [...]DryReasonDoc{
	{DoesNotFit, "its run time does not fit within the limits"},
	{NotInForce, "its program is not in force on the date of the sheet"},
	{ByHand, "it is only watered by hand"},
	{PercentZero, "its zone percentage is 0%"},
	{NotIncluded, "the strategy does not include it"},
	{NoNeed, "the strategy applied no water to it in the record"},
}

// DryReasons returns the description of every reason. The slice is the caller's.
func DryReasons() []DryReasonDoc { return slices.Clone(dryReasons[:]) }

// A DryZone is a zone without water on a sheet.
type DryZone struct {
	Zone   int
	Reason DryReason
}

// Text names the zone and the reason.
func (d DryZone) Text(s *Sheet) string {
	i := slices.IndexFunc(dryReasons[:], func(r DryReasonDoc) bool { return r.Reason == d.Reason })
	return fmt.Sprintf("%s: no water, since %s", s.Zones[d.Zone].Name, dryReasons[i].Doc)
}

// Unwatered lists the zones that should be watered but for which nothing fits.
func (s *Sheet) Unwatered() (zones []int) {
	for _, d := range s.Dry {
		if d.Reason == DoesNotFit {
			zones = append(zones, d.Zone)
		}
	}
	return zones
}

// lost notes that a program is not on the sheet.
func (b *maker) lost(p *strategy.Program, why DryReason) {
	for z, m := range p.Minutes {
		if _, ok := b.why[z]; m > 0 && !ok {
			b.why[z] = why
		}
	}
}

// unwatered finds the zones without water, and the reasons.
func (b *maker) unwatered() {
	s := b.sheet
	for z := range s.Zones {
		if !b.on(z) || slices.ContainsFunc(s.Programs, func(p strategy.Program) bool { return p.Minutes[z] > 0 }) {
			continue
		}
		why, ok := b.why[z]
		switch {
		case slices.ContainsFunc(s.Misfits, func(m Misfit) bool { return m.Zone == z }):
			why = DoesNotFit
		case b.zero[z]:
			why = PercentZero
		case !ok:
			why = NotIncluded
		}
		s.Dry = append(s.Dry, DryZone{z, why})
	}
}
