// Package rules holds what the board decides: the rulebook. It knows every measure the program speaks of, and turns
// plain tables of text cells (the embedded defaults, or the sheets of a workbook) into a typed Rulebook and a list
// of faults, each with the cell where it stands. It computes no grade and opens no file.
package rules

import (
	"railbook/rules/measure"

	"github.com/shopspring/decimal"
)

// Rulebook is a whole year's rules. It is read-only once made, so many carcasses may be graded by it at once.
type Rulebook struct {
	Measures    *measure.Table // the standard measures, and "points NAME" for each index of the Points table
	Settings    Settings
	Grid        []GridLine
	Premiums    []Premium
	Matrix      []MatrixLine
	Limits      []Limit
	Classes     []Class
	Rankings    []Ranking
	Eligibility []Requirement
	Groups      []Standard
	Awards      []Award
	Points      []PointsPart
	Headings    []Heading
	Adjusted    []Adjusted
	Targets     []Target
	Tables      []Table // every table as it was read, in order, so that the rulebook can be written out again
	SHA256      string  // of the canonical text of Tables; the same for the same rules wherever they were read from
}

// Settings are the rulebook's single values.
type Settings struct {
	Name, Year             string
	BasePrice              map[Species]decimal.NullDecimal // $/cwt of carcass; invalid where the board has set none
	BasePriceSource        map[Species]string
	BasePriceDate          map[Species]string
	CustomaryKPH           decimal.NullDecimal // % of carcass weight where a beef sheet gives none; invalid: hold the carcass
	Weights                WeightsAre          // what a bare "carcass weight" is
	ChilledToHot           decimal.NullDecimal // hot = chilled × this; invalid: a chilled weight alone is held
	UnmarkedSpecies        Species             // of carcasses whose sheet does not say; empty: ask
	MarblingScale          MarblingScale       // what a bare marbling number below 100 means
	PriceByThirds          bool                // the quality part of the grid names thirds ("High Choice"), not whole grades
	ConditionsAdd          bool                // several conditions add; otherwise only the largest discount counts
	DarkCutterTakes        DarkCutterTakes
	WithoutMarbling        WithoutMarbling
	ScanDressingPercent    map[Species]decimal.NullDecimal // % by which an ultrasound carcass weight is estimated from live weight
	StartDressingPercent   map[Species]decimal.NullDecimal // % by which a start weight becomes a starting carcass weight
	Shrink                 decimal.Decimal                 // % taken off the live weights named by ShrinkOn; 0 for none
	ShrinkOn               ShrinkOn
	DaysEnd                DaysEnd // whether days on feed end at the weigh-in or at the kill
	LeanEquation           string  // swine: which lean equation ("fat-free lean, ribbed", …)
	QuestionsUntil         string  // the date until which a family may ask, 2025-08-15; empty for none
	Fair, FairPlace        string  // what is printed on every page where the sheets do not say it: the fair and where it is held
	FairDate, FairJudge    string  // the day, 2025-08-19, and the judge
	Plant                  string
	PrintNamesWithoutField bool // a fair without a consent column prints names in the results (never in the public sheet)
}

// WeightsAre says what a carcass weight is whose heading does not say.
type WeightsAre string

// MarblingScale says what a bare marbling number below 100 means; the empty scale means: refuse it.
type MarblingScale string

// WithoutMarbling says which quality grade a carcass has whose marbling is not given; empty for none.
type WithoutMarbling string

// QualityOfPlant lets the plant's own grade stand.
const QualityOfPlant WithoutMarbling = "plant's own"

// DarkCutterTakes says what a dark cutter loses.
type DarkCutterTakes string

// ShrinkOn says which live weights are shrunk before a gain is computed.
type ShrinkOn string

// DaysEnd says on which day the days on feed end.
type DaysEnd string

// The choices of the settings.
const (
	WeightsHot     WeightsAre = "hot"
	WeightsChilled WeightsAre = "chilled"

	MarblingRefused  MarblingScale = ""
	MarblingHundreds MarblingScale = "hundreds"        // 400 is Small 00; a bare number below 100 is refused
	MarblingSince22  MarblingScale = "small is 4"      // 4.0 is Small 00, 5.0 Modest 00: in use since 2022
	MarblingBefore22 MarblingScale = "small is 5"      // 5.0 is Small 00: in use before 2022
	MarblingReversed MarblingScale = "small is 6 down" // 1960s sheets, lower is more

	DarkCutterBoth     DarkCutterTakes = "grade and discount"
	DarkCutterGrade    DarkCutterTakes = "grade only"
	DarkCutterDiscount DarkCutterTakes = "discount only"

	ShrinkNone  ShrinkOn = "none"
	ShrinkFinal ShrinkOn = "final"
	ShrinkBoth  ShrinkOn = "both"

	DaysEndWeighIn DaysEnd = "weigh-in"
	DaysEndKill    DaysEnd = "kill"
)

// Part is one of the sums that make up a grid price.
type Part string

// The parts of a grid price.
const (
	QualityPart   Part = "quality"
	YieldPart     Part = "yield"
	WeightPart    Part = "weight"
	ConditionPart Part = "condition"
	MatrixPart    Part = "matrix"
	PremiumPart   Part = "premium"
)

// GridLine is one premium or discount of the value grid. A quality or condition line has a Name; a yield or
// weight line a Band.
type GridLine struct {
	Species Species
	Part    Part
	Name    string              // "Choice", "High Choice" (quality); the name of a mark measure (condition)
	Mark    measure.ID          // of a condition line: the measure of its name
	Band    Band                // decimal yield grade, or hot carcass weight in lb
	Adjust  decimal.Decimal     // $/cwt of carcass, negative for a discount
	Percent decimal.NullDecimal // of the base price, where the board writes Adjust so
	Source  string
	Place   Place
}

// Premium is a premium or discount for a carcass that meets several tests at once, such as a branded line. It is paid as a
// line of the grid of its own part.
type Premium struct {
	GridLine
	Tests []Requirement
}

// MatrixLine is one cell of a price matrix of two measures. Its line's Band is that of the first.
type MatrixLine struct {
	GridLine
	First, Second measure.ID
	SecondBand    Band
}

// Band is a stretch of numbers. An invalid end is open: no bound on that side.
type Band struct {
	From, UpTo         decimal.NullDecimal
	FromIsIn, UpToIsIn bool // whether a figure exactly at the end belongs to the band
}

// Holds reports whether a figure lies in the band.
func (b Band) Holds(figure decimal.Decimal) bool {
	if b.From.Valid {
		if order := measure.Compare(figure, b.From.Decimal); order < 0 || order == 0 && !b.FromIsIn {
			return false
		}
	}
	if b.UpTo.Valid {
		if order := measure.Compare(figure, b.UpTo.Decimal); order > 0 || order == 0 && !b.UpToIsIn {
			return false
		}
	}
	return true
}

// Limit says what is plausible for a measure. A bound counts only when passed: at it, nothing is said.
type Limit struct {
	Species   Species
	Measure   measure.ID
	HoldBelow decimal.NullDecimal
	LookBelow decimal.NullDecimal
	LookAbove decimal.NullDecimal
	HoldAbove decimal.NullDecimal
	HoldAt    bool // a figure exactly at HoldAbove is held as well ("≥ 2.0"); at HoldBelow it never is
	Usual     string
	Source    string
	Place     Place
}

// Class says how the carcasses of one class are placed.
type Class struct {
	Name       string   // the class's own name; "every other class" for the one that takes whatever no other names
	Species    Species  // empty: any
	Basis      Basis    // empty: any
	Matches    []string // words that a class on a sheet may be called instead, letter case ignored
	Ranking    string   // the Ranking it is placed by
	PlacesPaid int      // 0: none named
	Place      Place
}

// Ranking is an ordered list of keys: the first decides, the next breaks its ties.
type Ranking struct {
	Name  string
	Keys  []Key
	Ties  Ties // what remains tied after the last key
	Place Place
}

// Key is one step of a ranking.
type Key struct {
	Measure  measure.ID // a read or computed measure, or an index of the Points table
	Index    string     // the index, as the Points table writes it; empty for a measure
	Prefer   Prefer
	Bound    decimal.NullDecimal // for PassAtMost and PassAtLeast
	Decimals decimal.NullDecimal // how many decimals are compared; invalid: all six
	Place    Place
}

// Prefer says which carcass a key puts first.
type Prefer string

// Ties says what carcasses get that all the keys leave level.
type Ties string

// The choices of a key and of a ranking.
const (
	Highest     Prefer = "highest"
	Lowest      Prefer = "lowest"
	PassAtMost  Prefer = "at most first"  // those at or below Bound before those above it; no order within
	PassAtLeast Prefer = "at least first" // those at or above Bound before those below it; no order within

	TiesShare Ties = "share the place"
	TiesJudge Ties = "judge decides"
)

// Requirement is one condition of eligibility of a class.
type Requirement struct {
	Class      string // a Class's name; empty: every class
	Species    Species
	Measure    measure.ID
	AtLeast    decimal.NullDecimal
	AtMost     decimal.NullDecimal
	Below      decimal.NullDecimal // strictly below, for limits such as YG < 4.0
	Above      decimal.NullDecimal // strictly above
	PerPound   decimal.Decimal     // AtLeast and AtMost (and the strict ones) move by this for each lb of hot carcass weight
	FromMean   bool                // the bounds are distances from this year's class mean
	Or         string              // lines of one condition with the same letter: any one of them is enough
	LowestWord string              // for a graded measure: the lowest grade that passes, by third ("Low Choice")
	MustNotBe  bool                // for a mark measure: a carcass with the mark fails
	MustBe     bool                // for a mark measure: a carcass without the mark fails
	OneOf      string              // for words, such as the sex: passes where it is one of these, with semicolons between them, or with MustNotBe none of them
	Failing    Failing
	Award      string // with FailLosesAward: which
	Source     string
	Place      Place
}

// Words gives the words of OneOf.
func (r Requirement) Words() []string { return listOf(r.OneOf) }

// Failing says what becomes of a carcass that fails a Requirement.
type Failing string

// What failing does.
const (
	FailNotPlaced   Failing = "not placed"
	FailAfter       Failing = "after those that pass"
	FailLowestGroup Failing = "lowest group"
	FailLosesAward  Failing = "loses the award"
)

// Standard is one test for one group (blue, red, white). A carcass is in the first group, by Order, all of whose
// standards it meets; a group without standards takes whatever is left.
type Standard struct {
	Class    string // empty: every class
	Species  Species
	Group    string
	Order    int
	Measure  measure.ID // empty: the group that takes the rest
	AtLeast  decimal.NullDecimal
	AtMost   decimal.NullDecimal
	Above    decimal.NullDecimal // strictly above
	Below    decimal.NullDecimal // strictly below
	PerPound decimal.Decimal     // the bounds move by this for each lb of hot carcass weight
	Lowest   string              // for a graded measure
	MustBe   bool                // for a mark measure: only a carcass with the mark is in the group
	MustNot  bool                // for a mark measure: a carcass with the mark is not in the group
	OneOf    string              // for words, such as the sex: in the group where it is one of these, or with MustNot none of them
	FromMean bool                // the bounds are distances from this year's class mean
	Or       string              // lines of one group with the same letter: any one of them is enough
	Source   string
	Place    Place
}

// Test gives what a standard asks for as a requirement does.
func (s Standard) Test() Requirement {
	return Requirement{
		Class: s.Class, Species: s.Species, Measure: s.Measure, AtLeast: s.AtLeast, AtMost: s.AtMost, Above: s.Above, Below: s.Below,
		PerPound: s.PerPound, LowestWord: s.Lowest, MustBe: s.MustBe, MustNotBe: s.MustNot, OneOf: s.OneOf, FromMean: s.FromMean, Or: s.Or, Source: s.Source, Place: s.Place,
	}
}

// Award is a further list drawn from the same carcasses.
type Award struct {
	Name    string
	Classes []string // empty: all
	Species Species  // empty: all
	Ranking string
	Count   int // how many receive it
	Place   Place
}

// PointsPart is one term of an index: the figure "points INDEX" is the sum of its parts. A part is a constant
// (no Measure), weight × measure, or weight × |measure − Target|.
type PointsPart struct {
	Index   string
	Measure measure.ID
	Weight  decimal.Decimal
	Target  decimal.NullDecimal
	Side    Side   // with a target: only the distance on this side of it counts; empty for both
	Step    bool   // the weight itself counts, once, where the figure is in the band or the grade is the one named
	Band    Band   // of a step
	Grade   string // of a step of a graded measure: a grade or a third of one
	Place   Place
}

// Adjusted is a measure of the board's own: another one adjusted to a common live weight by the board's own line.
type Adjusted struct {
	Measure  measure.ID
	Of       measure.ID
	ToWeight decimal.Decimal // lb of live weight
	PerPound decimal.Decimal // what each pound below the common weight adds
	Place    Place
}

// Side is a side of a target.
type Side string

// The sides of a target.
const (
	SideAbove Side = "above"
	SideBelow Side = "below"
)

// Heading is an accepted column heading.
type Heading struct {
	Species Species // empty: any
	Measure measure.ID
	Text    string
	Unit    string // the unit the heading implies when it names none itself; empty: the measure's own
	Place   Place
	Given   bool // on the command line
}

// Target is a figure that a family's carcass is held beside, with its source.
type Target struct {
	Species Species
	Measure measure.ID
	From    Bound
	UpTo    Bound
	Words   string
	Source  string
	Place   Place
}

// Bound is an end of a target. PerPound is how far it grows for each pound of hot carcass weight, from what it is at 0 lb.
type Bound struct {
	decimal.NullDecimal
	PerPound decimal.Decimal
}
