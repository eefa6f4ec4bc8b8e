package meter_test

import (
	"testing"

	"loamledger/sim/meter"
	"loamledger/weather/cal"
)

// Hand: February 2024 has 29 days; 58 m³ are 2 m³ a day.
func TestPeriodDays(t *testing.T) {
	p := meter.Period{From: cal.Of(2024, 2, 1), To: cal.Of(2024, 3, 1), M3: 58}
	if p.Days() != 29 || p.PerDay() != 2 {
		t.Errorf("%d days, %g m³ a day", p.Days(), p.PerDay())
	}
}
