package forecastfile

import (
	"bytes"
	"errors"
	"io"
	"math"
	"strings"
	"testing"
	"testing/iotest"

	"loamledger/weather"
	"loamledger/weather/cal"
	"loamledger/weather/diag"
	"loamledger/weather/forecast"
)

func TestRead(t *testing.T) {
	text := "\xef\xbb\xbfvalid,Issued, rain_mm ,tmin_c,rain_probability_pct\r\n" +
		"2024-07-02,2024-06-30,,,80\n\n" +
		"\"2024-07-01\",\"2024-06-30\", 4.5 ,-1.5e0,\"70\"\r\n" +
		"2024-07-01,2024-07-01,0,,"
	a, err := Read(strings.NewReader(text), "f.csv")
	if err != nil {
		t.Fatal(err)
	}
	var out bytes.Buffer
	if err := Write(&out, a); err != nil {
		t.Fatal(err)
	}
	want := "issued,valid,rain_mm,rain_probability_pct,tmin_c\n2024-06-30,2024-07-01,4.5,70,-1.5\n" +
		"2024-07-01,2024-07-01,0,,\n2024-06-30,2024-07-02,,80,\n"
	if out.String() != want {
		t.Errorf("read and written:\n%swant:\n%s", out.String(), want)
	}
	if f, ok := a.Known(cal.Of(2024, 7, 1), cal.Of(2024, 7, 2)); !ok || f.ProbabilityPct != 80 || !math.IsNaN(f.RainMM) {
		t.Errorf("known on 1 July about 2 July: %+v, %v", f, ok)
	}
}

func TestFaults(t *testing.T) {
	const head = "issued,valid,rain_mm\n"
	tests := []struct {
		name, text string
		parts      []string
	}{
		{"empty", "", []string{"f.csv:1: the file is empty", "issued,valid,rain_mm,rain_probability_pct,tmax_c,tmin_c,eto_mm"}},
		{"header only", head, []string{"but no forecasts"}},
		{"a slip in a name", "issued,valid,rain_m\n2024-07-01,2024-07-02,1\n",
			[]string{`f.csv:1:14: unknown column "rain_m"`, "did you mean rain_mm?"}},
		{"a column twice", "issued,valid,rain_mm,rain_mm\n", []string{"f.csv:1:22: duplicate column rain_mm"}},
		{"no valid day", "issued,rain_mm\n", []string{"missing column valid"}},
		{"no rain", "issued,valid,tmin_c\n", []string{"the file has no rain column", "rain_probability_pct"}},
		{"semicolons", "issued;valid;rain_mm\n", []string{"separate the columns with commas"}},
		{"no day", head + "2024-02-30,2024-07-02,1\n", []string{`f.csv:2:1: issued "2024-02-30" is not a date`, "2012-06-30"}},
		{"a time", head + "2024-07-01T18:00,2024-07-02,1\n", []string{"f.csv:2:1: issued", "without a time"}},
		{"the past", head + "2024-07-03,2024-07-02,1\n", []string{"f.csv:2:12: valid 2024-07-02 is before issued 2024-07-03"}},
		{"another year", head + "2023-07-01,2024-07-02,1\n", []string{"f.csv:2:12: valid 2024-07-02 is 367 days after"}},
		{"twice", head + "2024-07-01,2024-07-02,1\n2024-07-01,2024-07-02,1\n",
			[]string{"f.csv:3: duplicate forecast issued on 2024-07-01 for 2024-07-02, see line 2"}},
		{"no number", head + "2024-07-01,2024-07-02,1 mm\n", []string{`f.csv:2:23: rain_mm "1 mm" is not a number`}},
		{"NaN", head + "2024-07-01,2024-07-02,NaN\n", []string{"is not a number"}},
		{"hexadecimal", head + "2024-07-01,2024-07-02,0x1p2\n", []string{"is not a number"}},
		{"negative rain", head + "2024-07-01,2024-07-02,-999\n", []string{"f.csv:2:23: rain_mm -999 is outside 0 to 1825"}},
		{"a share", "issued,valid,rain_probability_pct\n2024-07-01,2024-07-02,110\n", []string{"is outside 0 to 100"}},
		{"Fahrenheit", "issued,valid,rain_mm,tmin_c\n2024-07-01,2024-07-02,1,68\n", []string{"f.csv:2:25: tmin_c 68 is outside"}},
		{"nothing said", head + "2024-07-01,2024-07-02,\n", []string{"the row has no values"}},
		{"a cell short", head + "2024-07-01,2024-07-02\n", []string{"f.csv:2: the row has 2 cells, the header 3"}},
		{"zero byte", head + "2024-07-01,2024-07-02,1\n2024\x00\n", []string{"f.csv:3:5: byte value 0"}},
		{"UTF-16", "\xff\xfei\x00s\x00s\x00", []string{"not a plain text"}},
		{"zip", "PK\x03\x04\x14\x00", []string{"not a plain text", "decompress it first"}},
		{"all at once", head + "x,2024-07-02,1\n2024-07-01,2024-07-02,y\n2024-07-01,\x01\n",
			[]string{"f.csv:2:1:", "f.csv:3:23:", "f.csv:4:12:"}},
	}
	for _, tt := range tests {
		a, err := Read(strings.NewReader(tt.text), "f.csv")
		if err == nil {
			t.Errorf("%s: no error, %d forecasts", tt.name, a.Len())
			continue
		}
		if !diag.IsInput(err) {
			t.Errorf("%s: %v is no fault of the file", tt.name, err)
		}
		for _, p := range tt.parts {
			if !strings.Contains(err.Error(), p) {
				t.Errorf("%s: error\n%v\nlacks %q", tt.name, err, p)
			}
		}
	}
}

// An archive is known by its column issued, whatever the separator, so that a
// wrong separator is reported as such; a daily weather file is not one.
func TestIsArchive(t *testing.T) {
	for text, want := range map[string]bool{
		"issued,valid,rain_mm\n":                     true,
		"\xef\xbb\xbfvalid, \"Issued\" ,rain_mm\r\n": true,
		"\n\nissued;valid;rain_mm":                   true,
		"date,tmax_c,tmin_c,rain_mm\n":               false,
		"date,rain_mm\n2024-01-01,issued\n":          false,
		"":                                           false,
		"reissued,date":                              false,
	} {
		if got := IsArchive([]byte(text)); got != want {
			t.Errorf("%q: %v", text, got)
		}
	}
}

// endless is a line without an end.
type endless struct{ read int }

func (e *endless) Read(p []byte) (int, error) {
	for i := range p {
		p[i] = '1'
	}
	e.read += len(p)
	return len(p), nil
}

func TestALongLineEnds(t *testing.T) {
	e := &endless{}
	if _, err := Read(e, "f.csv"); err == nil || !strings.Contains(err.Error(), "line too long: more than 64 KiB") {
		t.Errorf("a line without an end: %v", err)
	}
	if e.read > 2*maxLine {
		t.Errorf("%d bytes were read of it", e.read)
	}
}

func TestMachineFaults(t *testing.T) {
	broken := errors.New("disk gone")
	_, err := Read(io.MultiReader(strings.NewReader("issued,valid,rain_mm\n2024-07-01,2024-07-02,1\n"), iotest.ErrReader(broken)), "f.csv")
	if !errors.Is(err, broken) || diag.IsInput(err) {
		t.Errorf("reading: %v", err)
	}
	var none *forecast.Archive
	if err := Write(fullDisk{broken}, none); !errors.Is(err, broken) {
		t.Errorf("writing: %v", err)
	}
}

type fullDisk struct{ err error }

func (d fullDisk) Write([]byte) (int, error) { return 0, d.err }

// TestSyntheticForecastsSurviveTheFile: what is written is read back, bit for bit.
func TestSyntheticForecastsSurviveTheFile(t *testing.T) {
	s := weather.NewSeries(weather.UnknownStation(), cal.Of(2020, 1, 1), 400, weather.Rain, weather.Tmin)
	for i := range s.Days {
		s.Set(weather.Rain, i, float64(i%7*i%11), weather.Observed)
		s.Set(weather.Tmin, i, float64(i%23), weather.Observed)
	}
	a, _, err := forecast.Synthetic(s, nil, forecast.Defaults(40), 3)
	if err != nil {
		t.Fatal(err)
	}
	same(t, a)
}

// same writes and reads the archive and compares.
func same(t *testing.T, a *forecast.Archive) {
	t.Helper()
	var out bytes.Buffer
	if err := Write(&out, a); err != nil {
		t.Fatal(err)
	}
	b, err := Read(bytes.NewReader(out.Bytes()), "again.csv")
	if err != nil {
		t.Fatalf("%v\n%s", err, out.String())
	}
	var list []forecast.Forecast
	for f := range b.All() {
		list = append(list, f)
	}
	if len(list) != a.Len() {
		t.Fatalf("%d forecasts were read, %d written", len(list), a.Len())
	}
	i := 0
	for f := range a.All() {
		g := list[i]
		i++
		for _, v := range []forecast.Value{forecast.Rain, forecast.Probability, forecast.Tmax, forecast.Tmin, forecast.ETo} {
			if x, y := f.Get(v), g.Get(v); x != y && !(math.IsNaN(x) && math.IsNaN(y)) || f.Issued != g.Issued || f.Valid != g.Valid {
				t.Fatalf("written %+v, read %+v", f, g)
			}
		}
	}
}

// FuzzRead: any bytes are either refused with a fault of the file or read into
// an archive that survives being written and read, within the promised limits.
func FuzzRead(f *testing.F) {
	f.Add([]byte("issued,valid,rain_mm,rain_probability_pct,tmax_c,tmin_c,eto_mm\n2024-06-30,2024-07-01,4.5,70,27.4,12.1,5.2\n"))
	f.Add([]byte("\xef\xbb\xbfvalid,issued,rain_probability_pct\r\n\"2024-07-01\",2024-06-30,\" 7\"\r\n"))
	f.Add([]byte("issued,valid,rain_mm\n0001-01-01,0001-01-02,1e-320\n2024-01-01,2024-01-01,-0\n"))
	f.Add([]byte("issued,valid,rain_mm\n2024-01-01,2024-01-01,\x00"))
	f.Fuzz(func(t *testing.T, data []byte) {
		a, err := Read(bytes.NewReader(data), "fuzz.csv")
		if err != nil {
			if !diag.IsInput(err) {
				t.Fatalf("not a fault of the file: %v", err)
			}
			return
		}
		for one := range a.All() {
			if one.Valid < one.Issued || one.LeadDays() > mostLead || one.RainMM < 0 || one.ProbabilityPct > 100 {
				t.Fatalf("read %+v", one)
			}
		}
		same(t, a)
	})
}

func BenchmarkRead(b *testing.B) {
	s := weather.NewSeries(weather.UnknownStation(), 0, 40*365, weather.Rain)
	for i := range s.Days {
		s.Set(weather.Rain, i, float64(i%17)/2, weather.Observed)
	}
	a, _, err := forecast.Synthetic(s, nil, forecast.Defaults(40), 1)
	if err != nil {
		b.Fatal(err)
	}
	var text bytes.Buffer
	if err := Write(&text, a); err != nil {
		b.Fatal(err)
	}
	b.SetBytes(int64(text.Len()))
	b.ReportAllocs()
	for b.Loop() {
		if _, err := Read(bytes.NewReader(text.Bytes()), "f.csv"); err != nil {
			b.Fatal(err)
		}
	}
	b.ReportMetric(float64(b.N)*float64(a.Len())/b.Elapsed().Seconds(), "rows/s")
}
