package strategy

// MonthOff reports whether a part keeps the system off in all of calendar month
// m, 1 to 12, of every year.
func MonthOff(p Part, m int) bool {
	off, ok := p.(interface{ monthOff(m int) bool })
	return ok && off.monthOff(m)
}
