package weather

// An EvidenceCode names one kind of evidence about the units of a file. It is
// stable, like a [Code].
type EvidenceCode string

// The kinds of evidence. [EvidenceCodes] describes each.
const (
	EvidenceForm       EvidenceCode = "written-form"
	EvidenceHottest    EvidenceCode = "hottest-days"
	EvidenceColdest    EvidenceCode = "coldest-days"
	EvidenceRange      EvidenceCode = "daily-range"
	EvidenceYearMean   EvidenceCode = "year-mean"
	EvidenceWetDays    EvidenceCode = "wet-days"
	EvidenceYearRain   EvidenceCode = "year-rain"
	EvidenceWind       EvidenceCode = "mean-wind"
	EvidenceHargreaves EvidenceCode = "eto-against-hargreaves"
)

// An EvidenceDoc describes a kind of evidence.
type EvidenceDoc struct {
	Code EvidenceCode
	Doc  string
}

// evidenceCodes is the one list of kinds of evidence.
var evidenceCodes = [...]EvidenceDoc{
	{EvidenceForm, "whether values have decimals, which tenths never have"},
	{EvidenceHottest, "the hottest two percent of days"},
	{EvidenceColdest, "the coldest two percent of nights"},
	{EvidenceRange, "the median range from Tmin to Tmax"},
	{EvidenceYearMean, "the mean temperature compared with latitude and elevation"},
	{EvidenceWetDays, "the wettest tenth of wet days"},
	{EvidenceYearRain, "the mean yearly rain"},
	{EvidenceWind, "the median wind"},
	{EvidenceHargreaves, "supplied ETo compared with Hargreaves ETo from temperatures and latitude"},
}

// EvidenceCodes returns the description of every kind of evidence.
func EvidenceCodes() []EvidenceDoc { return append([]EvidenceDoc(nil), evidenceCodes[:]...) }

// Evidence is one observation that fits a system of units or contradicts it.
type Evidence struct {
	Code   EvidenceCode
	Units  string // the system: si, us or tenths
	Fits   bool
	Detail string // the observation in words, with its numbers
}
