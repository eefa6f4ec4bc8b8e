package plots

import (
	"fmt"
	"slices"
	"strings"

	"loamledger/sim/draw"
	"loamledger/sim/tally"
)

// Ranges are what many draws from the ranges of the inputs say about a result.
type Ranges struct {
	Draws  int
	Seed   uint64
	Inputs int // independent causes that were drawn
	Left   int // further causes that were not, since there are too many
	// Option is the strategy whose saving is looked at more closely; the baseline if there
	// is no other.
	Option  int
	Spreads []FigureSpread // of the figures of page one
	Options []OptionDraws  // by strategy
	Saving  draw.Spread    // of water, by Option against the baseline, a year [m³]
	Change  draw.Spread    // the same as a share of the baseline's water, below 0 for less
	Bill    *draw.Spread   // of the yearly saving in money; nil without rates
	// Currency is that of Bill.
	Currency string
	Swings   []Swing     // widest first
	Years    *YearSpread // nil if no year is whole
	Settle   []Settling  // what would shrink the spread of the saving, the most first
	// SettleBill is the same for the saving in money; none without rates.
	SettleBill []Settling
	Worths     []WorthDraws  // what projects are worth over the draws
	IdlePrices int           // ranges of the rates that are not in force on the day whose prices count
	AllFull    bool          // every bill of every draw was worked out in full
	FullBills  int           // draws whose bills were worked out in full, too
	BillOff    float64       // by how much those bills differ at most from the ones of the draws, a year
	Off        []OffCenter   // inputs whose value in the replay is not the middle of their draws
	Middle     *MiddleReplay // nil if not known
	Target     Target        // whose spread Settle is about
	Anew       bool          // controllers are set from the values of each draw
	Priced     bool          // there are bills, whose prices are not drawn
	// General counts the defaults that are not drawn, since their ranges are those of all
	// gardens: density, microclimate and slope.
	General int
	// Other is what fewer draws say with the other kind of settings; nil if not known.
	Other *OtherSettings
}

// A WorthDraws is what the project of a strategy is worth over the draws.
type WorthDraws struct {
	Strategy int
	NPV      draw.Spread // net present value, at prices that rise as others do
	Pays     int         // draws in which it is above 0
}

// An OffCenter is an input whose value in the replay is not the middle of its draws: half of
// them lie on the other side.
type OffCenter struct {
	What, Range, Replay, Middle string
}

// A MiddleReplay is one replay with every input in the middle of its draws, beside the
// replay with the values as stated.
type MiddleReplay struct {
	SavingM3, ReplayM3 float64 // of the option, a year; the water of the baseline without one
	Worth, ReplayWorth bool    // the option is better than the baseline
	Named, ReplayNamed int     // the strategy that a verdict names
}

// An OtherSettings is what draws say if controllers are set from the stated values
// instead of those of each draw, or the other way round.
type OtherSettings struct {
	Draws  int
	Saving draw.Spread // as of [Ranges]
	Worth  int         // draws in which the option is better
}

// A Target is a result whose spread a measurement would shrink.
type Target uint8

// The targets.
const (
	OfSaving Target = iota // the water that the option saves
	OfAnswer               // whether the option is better, on which the draws are divided
	OfStress               // the stress days of the option, as the saving has no spread
)

// targetWords name the target in a sentence.
func (s *Study) targetWords(r *Ranges) string {
	option := quote(s.Table.Strategies[r.Option])
	switch r.Target {
	case OfAnswer:
		return "the answer, whether " + option + " is better,"
	case OfStress:
		return "the stress days of " + option
	}
	if r.Option == s.base() {
		return "the water of " + option
	}
	return "the saving of " + option
}

// A FigureSpread is one figure under every strategy.
type FigureSpread struct {
	Figure tally.Figure
	Of     []draw.Spread // by strategy; NaN where the figure has no value
	Point  []float64     // of the replay itself
}

// An OptionDraws counts the draws in which something is true of a strategy.
type OptionDraws struct {
	Less   float64 // share with less water than the baseline; ties count half
	Calmer float64 // share with fewer stress days than the baseline; ties count half
	Worth  int     // it saves water and keeps the rules by which a verdict may name it
	Best   int     // the verdict names it; of the baseline, no option is named
	// First is what to measure first for this strategy, as what Target of it would shrink
	// most; nil if nothing that can be measured matters.
	First  *Settling
	Target Target
}

// A Swing is what one input does by itself: the yearly saving of the option, and its
// stress days, with that input at its tenth and at its nine tenths, all others as in the
// replay.
type Swing struct {
	What      string // such as "sprinkler rate of front lawn"
	Low, High string // the two values of the input
	SavingM3  [2]float64
	Stress    [2]float64
	Bill      [2]float64 // the yearly saving in money; NaN without rates
	Given     bool       // the range is written in the scenario; else that of a default
}

func (s *Swing) width() float64 { return max(s.SavingM3[0]-s.SavingM3[1], s.SavingM3[1]-s.SavingM3[0]) }

// A YearSpread is how much the saving differs from year to year, apart from the inputs.
type YearSpread struct {
	Years    int
	Single   draw.Spread // of one year [m³]
	Mean     draw.Spread // of the mean of as many years, by blocks of years [m³]
	BlockLen int         // years in a block
}

// A Settling is something to measure, and the share of the variance that goes with it.
type Settling struct {
	What  string  // such as "sprinkler rate of front lawn"
	How   string  // how to measure it, in sentences; empty if it cannot be measured with simple means
	Price bool    // it moves only money: a price, or what a project costs
	Share float64 // 0 to 1
}

// rangeRule is the rule by which draws decide, printed with every verdict.
const rangeRule = "Rule: an option counts as better than the baseline if it uses less water and keeps the rules for plants in " +
	"at least nine " +
	"tenths of the draws, and as no better if it does so in at most one tenth; in between it is too close to call."

// decided returns what the draws say of the option.
func (r *Ranges) decided() draw.Decision { return draw.Decide(r.Options[r.Option].Worth, r.Draws) }

// TooClose reports whether the draws are divided on the option.
func (r *Ranges) TooClose() bool { return r.DividedOn(r.Option) }

// DividedOn reports whether the draws are divided on strategy st.
func (r *Ranges) DividedOn(st int) bool {
	return draw.Decide(r.Options[st].Worth, r.Draws) == draw.TooClose
}

// RangeVerdict says in sentences what the draws make of the verdict, and by which rule.
func (s *Study) RangeVerdict(r *Ranges) string {
	base := s.base()
	if r.Option == base || r.Draws == 0 {
		return ""
	}
	option, worth := quote(s.Table.Strategies[r.Option]), r.Options[r.Option].Worth
	n := fixed(float64(r.Draws), 0)
	const others = "tries with other plausible values of the inputs"
	of := fmt.Sprintf("in %s of %s %s", fixed(float64(worth), 0), n, others)
	text := ""
	switch r.decided() {
	case draw.Always:
		text = fmt.Sprintf("The verdict is the same in all %s %s: %s saves water and keeps the rules for plants.", n, others, option)
	case draw.Likely:
		text = fmt.Sprintf("The verdict is firm within these ranges: %s saves water and keeps the rules for plants %s.", option, of)
	case draw.TooClose:
		text = fmt.Sprintf("Too close to call: %s saves water and keeps the rules for plants only %s.", option, of)
	case draw.Unlikely:
		text = fmt.Sprintf("Not recommended: %s saves water and keeps the rules for plants only %s.", option, of)
	case draw.Never:
		text = fmt.Sprintf("In none of %s %s does %s both save water and keep the rules for plants.", n, others, s.noneOf(r, option))
	}
	return punctuated(sentences(text, s.rival(r)))
}

// noneOf names the options of which none is worth it in any draw: "any option" if it is
// so for all of them.
func (s *Study) noneOf(r *Ranges, option string) string {
	all := s.others()
	if len(all) < 2 || slices.ContainsFunc(all, func(st int) bool { return r.Options[st].Worth > 0 }) {
		return option
	}
	return "any option"
}

// rival names the option that is best in other draws, if it is so in enough of them.
func (s *Study) rival(r *Ranges) string {
	best, at := 0, -1
	for _, st := range s.others() {
		if n := r.Options[st].Best; st != r.Option && n > best {
			best, at = n, st
		}
	}
	if at < 0 || draw.Decide(best, r.Draws) == draw.Unlikely {
		return ""
	}
	return fmt.Sprintf("In %s of the tries %s is the better choice.", percent(float64(best)/float64(r.Draws)), quote(s.Table.Strategies[at]))
}

// RangeRule is the rule by which the draws decide.
func (s *Study) RangeRule() string { return rangeRule }

// RangeSaving states the spread of the saving in a sentence; empty without an option.
func (s *Study) RangeSaving(r *Ranges) string {
	if r.Option == s.base() {
		return ""
	}
	u, name, base := s.Units, quote(s.Table.Strategies[r.Option]), quote(s.Table.Strategies[s.base()])
	saves := "saves"
	if d := r.decided(); d == draw.Unlikely || d == draw.Never { // it is not recommended
		saves = "would save"
	}
	low, high := percent(-r.Change.P90), percent(-r.Change.P10)
	if low != high {
		low += " to " + high
	}
	if rounded(u.volume(r.Saving.P10)) == rounded(u.volume(r.Saving.P90)) {
		return punctuated(fmt.Sprintf("%s %s %s %s %s, %s of what %s uses, in all tries alike: nothing that is in doubt here changes "+
			"how much water runs.", name, saves, rounded(u.volume(r.Saving.P50)), u.volumeUnit(), s.per(), low, base))
	}
	text := fmt.Sprintf("%s %s %s %s %s in eight of ten tries, %s of what %s uses.", name, saves, u.volumeSpan(r.Saving),
		u.volumeUnit(), s.per(), low, base)
	if r.narrow() {
		text += " That is narrow because most numbers that decide it are given without a range, and so count as exact."
	}
	return punctuated(text)
}

// volumeSpan writes P10 to P90 without the unit.
func (u Units) volumeSpan(s draw.Spread) string {
	return rounded(u.volume(s.P10)) + " to " + rounded(u.volume(s.P90))
}

// trimComma removes the comma after which a sentence goes on.
func trimComma(text string) string { return strings.TrimSuffix(text, ",") }

// first returns what to measure first; nil if nothing that can be measured with simple
// means matters.
func (r *Ranges) first() *Settling {
	for i := range r.Settle {
		if r.Settle[i].How != "" {
			return &r.Settle[i]
		}
	}
	return nil
}

// MeasureFirst says what to measure first, and what that is worth; empty if nothing that
// can be measured with simple means matters.
func (s *Study) MeasureFirst(r *Ranges) string {
	m := r.first()
	switch {
	case m == nil && len(r.Settle) > 0:
		return punctuated(fmt.Sprintf("Nothing that can be measured with simple means explains the variance of %s.",
			trimComma(s.targetWords(r))))
	case m == nil:
		return ""
	}
	return punctuated(fmt.Sprintf("Measure this first: %s It explains about %s of the variance of %s.", m.How, percent(m.Share),
		trimComma(s.targetWords(r))))
}

// RangeYears says how much the saving differs from year to year, apart from the inputs;
// empty if no year is whole.
func (s *Study) RangeYears(r *Ranges) string {
	y := r.Years
	if y == nil || r.Option == s.base() {
		return ""
	}
	u := s.Units
	text := fmt.Sprintf("From year to year alone, with the inputs as stated, the saving of one year is %s %s in eight of ten years.",
		u.volumeSpan(y.Single), u.volumeUnit())
	if y.Years < 10 {
		text = fmt.Sprintf("From year to year alone, with the inputs as stated, the saving of a year is %s %s (%s).",
			u.volumeSpan(y.Single), u.volumeUnit(), count(y.Years, "year", "years"))
	}
	return text + fmt.Sprintf(" The mean of %s like these would be %s %s (moving blocks of %s). The spread of the draws is %s.",
		count(y.Years, "year", "years"), u.volumeSpan(y.Mean), u.volumeUnit(), count(y.BlockLen, "year", "years"), s.widthWords(r))
}

// widthWords compares the spread of the draws with that of the years.
func (s *Study) widthWords(r *Ranges) string {
	width, years := r.Saving.Width(), r.Years.Single.Width()
	switch {
	case width > 1.5*years:
		return "wider: what is not known about the site matters more than the weather"
	case width < years/1.5:
		return "narrower: the weather of a year matters more than what is not known about the site"
	}
	return "about as wide"
}

// RangeNotes say what was drawn, and what was not.
func (s *Study) RangeNotes(r *Ranges) []string {
	notes := []string{
		fmt.Sprintf("%s draws, seed %d, %s in doubt. P10, P50 and P90: a tenth of the draws lies below the first, half below the second, nine "+
			"tenths below the third.", fixed(float64(r.Draws), 0), r.Seed, count(r.Inputs, "input", "inputs")),
		"Two numbers are a range in which all values are equally likely; of three, the middle one is the likeliest. A number that is given " +
			"without a range counts as exact, so the true spread is wider if it is not.",
		"One error holds for the whole site in reference ET, rain, soil and spray loss, and for all plants of a kind in their " +
			"water need, roots and " +
			"marks. Area, rate and uniformity are drawn zone by zone.",
		s.settingsNote(r) + " All strategies meet the same draws.",
		"The middle of the draws can lie off the replay, whose values need not be in the middle of their ranges.",
	}
	if r.Priced {
		notes = append(notes, "Prices are not drawn: the rates state each as one number. Write a range there, such as price: 8 to 12, and "+
			"they are.")
	}
	if r.IdlePrices > 0 {
		notes = append(notes, fmt.Sprintf("%s of the rates %s not drawn: prices of another day count.", count(r.IdlePrices, "range", "ranges"),
			isAre(r.IdlePrices)))
	}
	if r.AllFull {
		notes = append(notes, "Every bill of every draw is worked out in full.")
	}
	if r.FullBills > 0 {
		notes = append(notes, fmt.Sprintf("Bills of the draws are read off tables of whole bills. In %s they were worked out in full, too: a "+
			"yearly bill differs by at most %s %s.", count(r.FullBills, "draw", "draws"), fixed(r.BillOff, 2), r.Currency))
	}
	if r.General > 0 {
		notes = append(notes, fmt.Sprintf("%s of density, microclimate or slope %s not drawn: the catalog's ranges are those of all gardens. "+
			"Write a range for your own.", count(r.General, "default", "defaults"), isAre(r.General)))
	}
	if r.Left > 0 {
		notes = append(notes, fmt.Sprintf("%s more were not drawn: there are too many.", count(r.Left, "input", "inputs")))
	}
	return notes
}

func isAre(n int) string {
	if n == 1 {
		return "is"
	}
	return "are"
}

// settingsNote says from what controllers are set in the draws: the guess that decides
// most how far the water of strategies with their own water balance can be off.
func (s *Study) settingsNote(r *Ranges) string {
	if r.Anew {
		return "In every draw a controller that keeps its own water balance is set from the values of that draw, as if someone had " +
			"measured them or " +
			"corrected it until it fits."
	}
	return "In every draw controllers keep the settings that follow from the stated values, and nobody corrects them: a plant " +
		"that needs more " +
		"than stated is thirsty, and does not get more. Soil sensors read the soil of the draw."
}

// OtherSettings says what the draws come to with the other kind of settings; empty
// without an option.
func (s *Study) OtherSettings(r *Ranges) string {
	o := r.Other
	if o == nil || o.Draws == 0 || r.Option == s.base() {
		return ""
	}
	when := "If controllers keep the settings that follow from the stated values, and nobody corrects them"
	if !r.Anew {
		when = "If controllers are set from the values of each draw, as if all had been measured"
	}
	saving := s.Units.volumeSpan(o.Saving)
	if low := rounded(s.Units.volume(o.Saving.P10)); low == rounded(s.Units.volume(o.Saving.P90)) {
		saving = low
	}
	return punctuated(fmt.Sprintf("%s, %s saves %s %s %s and is better in %s of %s.", when, quote(s.Table.Strategies[r.Option]), saving,
		s.Units.volumeUnit(), s.per(), fixed(float64(o.Worth), 0), count(o.Draws, "draw", "draws")))
}

// spreadOf returns the spread of a figure on page one; nil if it has none.
func (r *Ranges) spreadOf(f *tally.Figure) *FigureSpread {
	if r == nil {
		return nil
	}
	i := slices.IndexFunc(r.Spreads, func(o FigureSpread) bool { return o.Figure.Measure.Key == f.Measure.Key && o.Figure.Over == f.Over })
	if i < 0 {
		return nil
	}
	return &r.Spreads[i]
}
