package csvfile

import "testing"

// Rows whose cells have moved are refused, although every cell is a number or
// empty.
func TestMovedCells(t *testing.T) {
	const head = "date,tmax_c,tmin_c,rain_mm,wind_m_s\n2031-05-01,20.5,10,0,\n"
	checkFault(t, head+"2031-05-02,20,5,10,0,\n", Options{}, "f.csv:3:22: the row has 6 cells, the first row 5", "a decimal comma")
	// The same number of extra cells in every row is a spreadsheet's habit.
	check(t, "own", "date,tmax_c,tmin_c\n2031-05-01,20,10,,\n2031-05-02,21,11,,\n", Options{}, 2, nil, nil)

	const long = "XX000000001,20310501,TMAX,214,,,W,2400\nXX000000001,20310501,TMIN,"
	checkFault(t, long+"9,8,,W,2400\n", Options{}, `f.csv:2:29: "8" is in the place of a flag`)
	checkFault(t, long+"98,,,W,2400XX000000001,20310502,TMAX,214,,,W,2400\n", Options{}, "f.csv:2:", "the row has 15 cells, of at most 8")

	dly := fixture(t, "ghcn-dly.dly")
	checkFault(t, dly[:21]+"x"+dly[21:], Options{Layout: "ghcn-dly"}, "no line near the start matches layout ghcn-dly")
	at := 21 + 28*8 + 2 // in the value of day 29
	checkFault(t, dly[:at]+"0"+dly[at:], Options{}, "f.csv:1:", "has a digit in the place of a flag")

	silo := "latitude,longitude,YYYY-MM-DD,daily_rain,daily_rain_source,max_temp,max_temp_source,metadata\n"
	checkFault(t, silo+"-30,145,2031-01-01,0.0,33.5,25,,\n", Options{}, `f.csv:2:24: "33.5" is in the place of a source code`)
	bom := "Product code,Bureau of Meteorology station number,Year,Month,Day,Rainfall amount (millimetres)," +
		"Period over which rainfall was measured (days),Quality\n"
	checkFault(t, bom+"IDCJAC0009,099001,2031,01,04,1,Y,\n", Options{}, `f.csv:2:32: "Y" is in the place of a number of days`)
}

// A file of several stations is refused at the first row of the second.
func TestSecondStationHasItsLine(t *testing.T) {
	const rows = "station,date,tmax_c\na,2031-05-01,20\na,2031-05-02,20\nb,2031-05-01,20\n"
	checkFault(t, rows, Options{}, "f.csv:4: the file has 2 stations: a, b")
}
