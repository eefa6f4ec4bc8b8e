package layout

// module is the module path, with a trailing slash.
const module = "loamledger/"

// A rule lists what a package may import in addition to [plain].
type rule struct {
	ours []string // packages of this project, without the module path
	std  []string // packages of the standard library
}

// plain lists the packages of the standard library that any pure package may
// import: none of them uses files, the clock, the network or the terminal, except
// for printing in fmt, which has its own test.
var plain = []string{
	"cmp", "container/heap", "encoding/binary", "errors", "fmt", "hash/fnv", "iter", "maps", "math", "math/bits", "math/rand/v2", "reflect",
	"slices", "sort", "strconv", "strings", "unicode", "unicode/utf8",
}

// pure lists the pure packages and the packages of this project that each may
// import. From top to bottom it is the order of the layers: a package imports
// only packages above it.
var pure = []struct {
	path string
	rule
}{
	{"weather/cal", rule{std: []string{"time"}}},
	{"weather/portable", rule{}},
	{"weather/diag", rule{std: []string{"path"}}},
	{"weather/quantity", rule{}},
	{"weather/visible", rule{std: []string{"io"}}},
	{"weather", rule{ours: []string{"weather/cal", "weather/portable"}}},
	{"weather/et0", rule{ours: []string{"weather", "weather/cal", "weather/diag", "weather/portable"}}},
	{"weather/quality", rule{ours: []string{"weather", "weather/cal", "weather/et0", "weather/portable", "weather/quantity"}}},
	{"weather/fill", rule{ours: []string{"weather", "weather/cal", "weather/et0", "weather/portable"}}},
	{"weather/prepare", rule{ours: []string{
		"weather", "weather/cal", "weather/diag", "weather/et0", "weather/fill", "weather/quality", "weather/quantity",
	}}},
	{"weather/generate", rule{ours: []string{"weather", "weather/cal", "weather/et0", "weather/portable"}}},
	{"weather/forecast", rule{ours: []string{"weather", "weather/cal", "weather/et0", "weather/portable"}}},
	{"sim", rule{ours: []string{"weather/cal"}}},
	{"sim/draw", rule{ours: []string{"weather/portable"}}},
	{"sim/money", rule{ours: []string{"weather/quantity"}}},
	{"sim/bill", rule{ours: []string{"sim/money", "weather/cal", "weather/diag", "weather/quantity"}, std: []string{"sync"}}},
	{"sim/allowance", rule{ours: []string{"weather/quantity"}}},
	{"sim/portfolio", rule{ours: []string{"sim/draw", "weather/cal", "weather/portable"}}},
	{"sim/program", rule{ours: []string{"sim/draw"}}},
	{"sim/sample", rule{ours: []string{"weather/portable"}}},
	{"sim/soilwater", rule{ours: []string{"weather/cal"}}},
	{"sim/meter", rule{ours: []string{"weather/cal", "weather/portable"}}},
	{"sim/calibrate", rule{ours: []string{"sim/meter", "weather/cal", "weather/portable", "weather/quantity"}, std: []string{"context"}}},
	{"sim/clock", rule{ours: []string{"sim"}}},
	{"sim/strategy", rule{ours: []string{"sim", "sim/clock", "weather/cal", "weather/diag", "weather/portable", "weather/quantity"}}},
	{"sim/timer", rule{ours: []string{"sim", "sim/strategy", "weather/quantity"}}},
	{"sim/tally", rule{ours: []string{"sim", "weather/cal", "weather/quantity"}}},
	{"sim/replay", rule{ours: []string{"sim", "sim/clock", "sim/strategy", "sim/tally", "weather/cal"},
		std: []string{"context", "reflect", "sync", "sync/atomic"}}},
	{"sim/settings", rule{ours: []string{
		"sim", "sim/clock", "sim/strategy", "sim/timer", "weather/cal", "weather/portable", "weather/quantity",
	}}},
	{"sim/tune", rule{ours: []string{
		"sim", "sim/clock", "sim/replay", "sim/settings", "sim/strategy", "sim/tally", "sim/timer", "weather/cal",
		"weather/portable", "weather/quantity",
	}, std: []string{"context"}}},
	{"sim/explain", rule{ours: []string{"sim", "sim/replay", "sim/strategy", "weather/cal", "weather/quantity"}}},
	{"scenarios/names", rule{}},
	{"scenarios/catalog", rule{ours: []string{"scenarios/names", "weather/quantity"}}},
	{"scenarios", rule{ours: []string{
		"scenarios/catalog", "scenarios/names", "sim", "sim/allowance", "sim/clock", "sim/draw", "sim/meter", "sim/money", "sim/strategy",
		"sim/tally",
		"sim/timer",
		"weather/cal", "weather/diag", "weather/quantity",
	}}},
	{"scenarios/ask", rule{ours: []string{
		"scenarios", "scenarios/catalog", "scenarios/names", "sim", "sim/money", "sim/timer", "weather/cal", "weather/diag", "weather/quantity",
	}}},
	{"scenarios/demo", rule{std: []string{"embed"}}},
	{"plots", rule{ours: []string{"sim", "sim/draw", "sim/tally", "weather", "weather/cal", "weather/portable", "weather/quantity"},
		std: []string{"embed", "image/color"}}},
	{"scenarios/study", rule{ours: []string{
		"plots", "scenarios", "scenarios/catalog", "sim", "sim/allowance", "sim/bill", "sim/calibrate", "sim/clock", "sim/meter", "sim/money",
		"sim/draw", "sim/replay",
		"sim/settings", "sim/soilwater",
		"sim/strategy", "sim/tally", "sim/timer", "sim/tune", "weather", "weather/cal", "weather/diag", "weather/et0", "weather/fill",
		"weather/forecast", "weather/prepare", "weather/quality", "weather/quantity",
	}, std: []string{"bytes", "context", "encoding/json", "path", "reflect"}}},
	{"scenarios/evaluate", rule{ours: []string{"plots", "sim/portfolio", "sim/program", "weather/cal", "weather/diag", "weather/quantity"}}},
	{"scenarios/accounts", rule{ours: []string{
		"scenarios", "scenarios/names", "scenarios/study", "sim", "sim/bill", "sim/draw", "sim/money", "sim/portfolio", "sim/replay",
		"sim/strategy", "sim/tally", "weather", "weather/cal", "weather/diag", "weather/quantity",
	}, std: []string{"context", "sync"}}},
	{"plots/internal/sample", rule{ours: []string{"plots", "sim", "sim/draw", "sim/tally", "weather", "weather/cal", "weather/portable"}}},
}

// edges lists the packages that turn bytes into values and back, on an io.Reader
// or io.Writer, and the packages of this project that each may import. They do
// not use files, the clock or the network either: only cmd uses the machine.
var edges = []struct {
	path string
	ours []string
}{
	{"weather/csvfile", []string{"weather", "weather/cal", "weather/diag", "weather/et0", "weather/portable", "weather/quantity"}},
	{"weather/forecastfile", []string{"weather/cal", "weather/diag", "weather/forecast"}},
	{"sim/soilwater/soilfile", []string{"sim/soilwater", "weather/cal", "weather/diag"}},
	{"sim/settingsfile", []string{"sim", "sim/settings", "sim/strategy", "sim/timer", "sim/tune", "weather/cal", "weather/quantity",
		"weather/visible"}},
	{"sim/readsfile", []string{"sim/bill", "sim/meter", "sim/money", "weather/cal", "weather/diag", "weather/quantity"}},
	{"sim/ledgerfile", []string{"sim", "sim/replay", "sim/tally", "weather/cal"}},
	{"sim/portfolio/portfoliofile", []string{"sim/ledgerfile", "sim/portfolio", "weather/diag"}},
	{"scenarios/zonefile", []string{"scenarios", "weather/diag", "weather/quantity"}},
	{"scenarios/runfile", []string{"scenarios", "scenarios/catalog", "weather/diag"}},
	{"scenarios/yamlfile", []string{"scenarios", "scenarios/zonefile", "weather/diag", "weather/quantity"}},
	{"scenarios/weatherfile", []string{
		"scenarios", "scenarios/yamlfile", "weather", "weather/csvfile", "weather/diag", "weather/generate", "weather/quantity",
	}},
	{"scenarios/ratesfile", []string{
		"scenarios", "scenarios/yamlfile", "sim/bill", "sim/money", "weather/cal", "weather/diag", "weather/quantity",
	}},
	{"scenarios/evaluate/costsfile", []string{"plots", "scenarios", "scenarios/evaluate", "scenarios/yamlfile", "sim/portfolio", "sim/program",
		"weather/diag", "weather/quantity"}},
	{"scenarios/accountsfile", []string{
		"scenarios", "scenarios/accounts", "scenarios/catalog", "scenarios/names", "scenarios/yamlfile", "sim/ledgerfile", "sim/portfolio",
		"weather/cal", "weather/diag", "weather/quantity",
	}},
	{"scenarios/studyfile", []string{
		"scenarios", "scenarios/ask", "scenarios/ratesfile", "scenarios/study", "scenarios/weatherfile", "sim/bill", "sim/readsfile", "weather",
		"weather/cal", "weather/csvfile", "weather/diag", "weather/forecastfile", "weather/generate",
	}},
	{"scenarios/pagefile", []string{
		"plots", "scenarios", "scenarios/ask", "scenarios/catalog", "scenarios/demo", "scenarios/study", "scenarios/studyfile",
		"scenarios/yamlfile", "sim/replay", "sim/settings", "sim/strategy", "sim/tally", "weather/cal", "weather/csvfile", "weather/diag",
		"weather/generate", "weather/quantity",
	}},
	{"scenarios/webfile", nil},
	{"scenarios/calendarfile", []string{"weather/cal", "weather/visible"}},
	{"plots/pngfile", []string{"plots", "weather/portable"}},
	{"plots/htmlfile", []string{"plots", "weather/visible"}},
	{"plots/pdffile", []string{"plots", "weather/cal", "weather/visible"}},
}

// machine lists what an edge may not import.
var machine = []string{
	"log", "log/slog", "net", "net/http", "os", "os/exec", "os/signal", "os/user", "path/filepath", "syscall", "time", "unsafe",
}

// parallel lists the pure packages that may start goroutines.
var parallel = []string{"sim/replay"}

// homes names the one package that may import each library. A key covers all
// paths that start with it.
var homes = map[string]string{
	"github.com/goccy/go-yaml":          "scenarios/yamlfile",
	"github.com/gocarina/gocsv":         "scenarios/accountsfile",
	"github.com/parquet-go/parquet-go":  "sim/ledgerfile",
	"gonum.org/v1/plot":                 "plots/pngfile",
	"git.sr.ht/~sbinet/gg":              "plots/pngfile",
	"golang.org/x/image":                "plots/pngfile",
	"golang.org/x/image/font/sfnt":      "plots/pdffile",
	"codeberg.org/go-pdf/fpdf":          "plots/pdffile",
	"codeberg.org/go-fonts/liberation":  "plots/pdffile",
	"github.com/spf13/cobra":            "cmd/internal/cli",
	"github.com/spf13/pflag":            "cmd/internal/cli",
	"github.com/jedib0t/go-pretty/v6":   "cmd/internal/cli",
	"github.com/schollz/progressbar/v3": "cmd/internal/progress",
	"golang.org/x/term":                 "cmd/internal/progress",
	"github.com/shopspring/decimal":     "sim/money",
	"golang.org/x/text":                 "scenarios/names",
}

// testOnly lists the libraries that only tests may import, in any package. gonum adds in another order on every processor, and its
// products are fused with sums: it is what weather/portable is compared with.
var testOnly = []string{"pgregory.net/rapid", "github.com/rogpeppe/go-internal", "gonum.org/v1/gonum"}

// top lists everything allowed at the top level, in addition to dot-folders.
var top = []string{"cmd", "sim", "weather", "plots", "scenarios", "testdata", "go.mod", "go.sum", "README.md", "DEVELOPERS.md", "LICENSE"}

// vague lists names that do not say what a package is for.
var vague = []string{"util", "utils", "helper", "helpers", "common", "misc", "shared", "base", "types", "internal/util"}

// fused lists the calls of math.FMA: it is exact everywhere, and slow where the processor lacks it.
var fused = []struct{ path, text, why string }{
	{"sim/ledgerfile/fixed.go", "math.FMA(a, places, -p)", "decides ties of decimal rounding, one value in thousands"},
}

// elementary lists the functions of package math whose digits differ between machines; weather/portable has those that are used.
var elementary = []string{
	"Acos", "Acosh", "Asin", "Asinh", "Atan", "Atan2", "Atanh", "Cbrt", "Cos", "Cosh", "Erf", "Erfc", "Erfcinv", "Erfinv", "Exp", "Exp2",
	"Expm1",
	"Gamma", "Hypot", "J0", "J1", "Jn", "Lgamma", "Log", "Log10", "Log1p", "Log2", "Pow", "Sin", "Sincos", "Sinh", "Tan", "Tanh", "Y0", "Y1",
	"Yn",
}

// drawn lists the draws of math/rand/v2 that call such functions.
var drawn = []string{"ExpFloat64", "NormFloat64"}
