package zonefile

// row is one line of the table. All fields are texts: the library would turn
// an empty cell into 0 and a missing column into zeros without a word.
type row struct {
	Name           string `csv:"name"`
	Area           string `csv:"area"`
	Plant          string `csv:"plant"`
	K              string `csv:"k"`
	P              string `csv:"p"`
	Coefficients   string `csv:"coefficients"`
	Density        string `csv:"density"`
	Microclimate   string `csv:"microclimate"`
	Cover          string `csv:"cover"`
	Soil           string `csv:"soil"`
	AWC            string `csv:"awc"`
	Intake         string `csv:"intake"`
	SurfaceStorage string `csv:"surface_storage"`
	Group          string `csv:"group"`
	CurveNumber    string `csv:"curve_number"`
	Slope          string `csv:"slope"`
	RootDepth      string `csv:"root_depth"`
	Sprinkler      string `csv:"sprinkler"`
	Rate           string `csv:"rate"`
	Flow           string `csv:"flow"`
	Uniformity     string `csv:"uniformity"`
	Loss           string `csv:"loss"`
	Overspray      string `csv:"overspray"`
	Broken         string `csv:"broken"`
	FillDrain      string `csv:"fill_drain"`
	Leak           string `csv:"leak"`
	Strips         string `csv:"strips"`
	Balance        string `csv:"balance"`
	Storage        string `csv:"storage"`
}

// A cell is a value of a row: its column, and where it stands in a scenario.
type cell struct{ key, path, text string }

func (r *row) cells() []cell {
	return []cell{
		{"name", "name", r.Name},
		{"area", "area", r.Area},
		{"plant", "plant.name", r.Plant},
		{"k", "plant.k", r.K},
		{"p", "plant.p", r.P},
		{"coefficients", "coefficients", r.Coefficients},
		{"density", "density", r.Density},
		{"microclimate", "microclimate", r.Microclimate},
		{"cover", "cover", r.Cover},
		{"soil", "soil.name", r.Soil},
		{"awc", "soil.awc", r.AWC},
		{"intake", "soil.intake", r.Intake},
		{"surface_storage", "soil.surface_storage", r.SurfaceStorage},
		{"group", "soil.group", r.Group},
		{"curve_number", "soil.curve_number", r.CurveNumber},
		{"slope", "slope", r.Slope},
		{"root_depth", "root_depth", r.RootDepth},
		{"sprinkler", "sprinkler.kind", r.Sprinkler},
		{"rate", "sprinkler.rate", r.Rate},
		{"flow", "sprinkler.flow", r.Flow},
		{"uniformity", "sprinkler.uniformity", r.Uniformity},
		{"loss", "sprinkler.loss", r.Loss},
		{"overspray", "sprinkler.overspray", r.Overspray},
		{"broken", "sprinkler.broken", r.Broken},
		{"fill_drain", "sprinkler.fill_drain", r.FillDrain},
		{"leak", "leak", r.Leak},
		{"strips", "strips", r.Strips},
		{"balance", "balance", r.Balance},
		{"storage", "storage", r.Storage},
	}
}

// columns returns the names of the columns that may be used.
func columns() []string {
	var out []string
	for _, c := range new(row).cells() {
		out = append(out, c.key)
	}
	return out
}
