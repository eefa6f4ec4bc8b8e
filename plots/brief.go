package plots

// A Brief is one page for a decision that no single site is about.
type Brief struct {
	Kicker    string // above the title
	Title     string
	Origin    string // below it: how many accounts, years, stations
	Answer    string // in one short sentence
	Lead      []string
	Tables    []Table
	Label     string // Estimated
	Doubts    []string
	Cautions  []string
	Steps     []string
	Facts     []Item
	Version   string
	Run       string // date and seed
	Files     []InputFile
	Defaults  []Default
	MoreBelow []TextPart // after the first page
}
