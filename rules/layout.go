package rules

import "sync"

// TableLayout says what one sheet of a rulebook holds: the columns a loader looks for, a writer lays out and a board member reads
// about. Every sheet of a rulebook has one.
type TableLayout struct {
	Name    string // the sheet's name and the Table's
	Purpose string // one or two sentences for the board
	Columns []Column
}

// Column is one column of a TableLayout.
type Column struct {
	Heading string
	Holds   Holds
	Choices []string // with HoldsChoice: the words that may stand there
	Meaning string   // a sentence for the board
}

// Holds says what the cells of a column are.
type Holds string

// What cells hold.
const (
	HoldsText    Holds = "text"
	HoldsNumber  Holds = "number"
	HoldsYesNo   Holds = "yes or no"
	HoldsChoice  Holds = "choice"
	HoldsSpecies Holds = "species"
	HoldsMeasure Holds = "measure"
	HoldsAny     Holds = "number or text" // the Settings sheet's values
)

// The names of the rulebook's sheets.
const (
	SettingsTable    = "Settings"
	GridTable        = "Value grid"
	LimitsTable      = "Limits"
	ClassesTable     = "Classes"
	RankingTable     = "Ranking"
	EligibilityTable = "Eligibility"
	GroupsTable      = "Groups"
	AwardsTable      = "Awards"
	PointsTable      = "Points"
	HeadingsTable    = "Headings"
	TargetsTable     = "Targets"
	PremiumsTable    = "Premiums"
	MatrixTable      = "Price matrix"
	MeasuresTable    = "Measures"
)

// EveryOtherClass is the name of the class that takes whatever no other class names.
const EveryOtherClass = "every other class"

// TieStep is what the last line of a ranking has in place of a step's number.
const TieStep = "tie"

// PointsPrefix begins a ranking key that is an index of the Points sheet: "points carcass index".
const PointsPrefix = "points "

var (
	sourceColumn  = Column{"Source", HoldsText, nil, "Where the line comes from: a published source, common practice, from memory, or a decision."}
	speciesColumn = Column{"Species", HoldsSpecies, nil, "The species the line is for: " + SpeciesInWords() + ". Blank means every species."}
)

// Layouts gives the layout of every sheet, in the order of the rulebook's tabs. The list is not to be changed.
func Layouts() []TableLayout { return layouts() }

var layouts = sync.OnceValue(func() []TableLayout {
	return []TableLayout{
		{SettingsTable, "Single values that the rest of the rulebook needs. Change the Value column; leave the first two columns as they are.", []Column{
			{"Setting", HoldsText, nil, "The name of the setting."},
			{"Species", HoldsSpecies, nil, "The species the setting is for. Blank where it is for all of them."},
			{"Value", HoldsAny, nil, "What the board decides. Blank means that the board has decided nothing."},
			sourceColumn,
		}},
		{GridTable, "Premiums and discounts against the base price. A carcass's price is the base price plus one quality line, one yield line, one weight line and its condition lines. Where no line fits there is no price.", []Column{
			{"Species", HoldsSpecies, nil, "The species the line is for."},
			{"Part", HoldsChoice, partWords, "Which part of the price the line is: quality, yield, weight or condition."},
			{"Name", HoldsText, nil, "For quality the grade (Choice, or High Choice where the settings price by thirds); for condition the mark (dark cutter). Blank for yield and weight."},
			{"From", HoldsNumber, nil, "For yield and weight: where the band begins, in decimal yield grade or pounds of hot carcass. Blank means no lower end."},
			{"From counts", HoldsYesNo, nil, "Whether a figure exactly at From belongs to the band. Blank means yes."},
			{"Up to", HoldsNumber, nil, "For yield and weight: where the band ends. Blank means no upper end."},
			{"Up to counts", HoldsYesNo, nil, "Whether a figure exactly at Up to belongs to the band. Blank means no."},
			{"$/cwt", HoldsNumber, nil, "Dollars for each hundred pounds of carcass; a discount has a minus sign."},
			sourceColumn,
			{"% of base", HoldsNumber, nil, "In place of dollars: what is added in percent of the base price; a discount has a minus sign."},
		}},
		{LimitsTable, "What is plausible. A figure past a look bound is placed and shown to the judge; past a hold bound it is not placed until the judge settles it. A figure exactly at a bound has not passed it.", []Column{
			speciesColumn,
			{"Measure", HoldsMeasure, nil, "The measure or computed figure that is looked at, in its own unit."},
			{"Usual", HoldsText, nil, "The usual range in words. It is shown and not computed with."},
			{"Hold below", HoldsNumber, nil, "A figure below this cannot be true. Blank means no such bound."},
			{"Look below", HoldsNumber, nil, "A figure below this is worth a look. Blank means no such bound."},
			{"Look above", HoldsNumber, nil, "A figure above this is worth a look. Blank means no such bound."},
			{"Hold above", HoldsNumber, nil, "A figure above this cannot be true. Blank means no such bound."},
			{"Hold at that too", HoldsYesNo, nil, "Yes holds a figure exactly at Hold above as well. Blank means no."},
			sourceColumn,
		}},
		{ClassesTable, "How each class is placed. The line called \"every other class\" takes whatever no other line names.", []Column{
			{"Class", HoldsText, nil, "The class's name, or \"every other class\"."},
			{"Species", HoldsSpecies, nil, "The species of the class. Blank means any."},
			{"Basis", HoldsChoice, basisWords, "Carcass for what hangs on the rail, ultrasound for live animals that were scanned. Blank means either. The two are never placed together."},
			{"Also called", HoldsText, nil, "Other names the class may have on a sheet, with semicolons between them."},
			{"Ranking", HoldsText, nil, "The name of the ranking on the Ranking sheet that places the class."},
			{"Places paid", HoldsNumber, nil, "How many places are paid. Blank where none is named."},
			sourceColumn,
		}},
		{RankingTable, "The order in which carcasses are compared. Step 1 decides; step 2 breaks its ties, and so on. The last line of each ranking has the step \"tie\" and says what carcasses get that are still level.", []Column{
			{"Ranking", HoldsText, nil, "The ranking's name, the same on each of its lines."},
			{"Step", HoldsText, nil, "1, 2, 3 and so on; \"tie\" on the last line."},
			{"Measure", HoldsMeasure, nil, "What is compared: a measure, a computed figure, or the word points and the name of an index of the Points sheet. Blank on the tie line."},
			{"Which first", HoldsChoice, preferWords, "Highest or lowest first; or those at most (at least) the bound first, with no order among them. On the tie line: share the place, or judge decides."},
			{"Bound", HoldsNumber, nil, "The bound for \"at most first\" and \"at least first\". Blank otherwise."},
			{"Decimals compared", HoldsNumber, nil, "To how many decimals figures are rounded before they are compared. Blank means all six."},
			sourceColumn,
		}},
		{EligibilityTable, "What a carcass must meet, and what becomes of one that does not. Every line is one condition.", []Column{
			{"Class", HoldsText, nil, "The class the condition is for. Blank means every class."},
			{"Species", HoldsSpecies, nil, "The species the condition is for. Blank means every species."},
			{"Measure", HoldsMeasure, nil, "The measure, computed figure or mark that is tested."},
			{"At least", HoldsAny, nil, "The least that passes; for a date the first day, such as 2025-01-15."},
			{"At most", HoldsAny, nil, "The most that passes; for a date the last day."},
			{"Above", HoldsAny, nil, "Passes only above this; exactly this fails."},
			{"Below", HoldsAny, nil, "Passes only below this; exactly this fails. For a whole grade of 3 or better write yield grade below 4."},
			{"Changes per lb", HoldsNumber, nil, "The bounds of this line grow by so much for each pound of hot carcass weight, from what they are at 0 lb. Blank means they stay."},
			{"Lowest grade", HoldsText, nil, "For a graded measure: the lowest grade that passes, such as Low Choice."},
			{"Must not be", HoldsYesNo, nil, "For a mark such as dark cutter: yes means that a carcass with the mark fails, no that one without it does."},
			{"Failing", HoldsChoice, failingWords, "What failing does: not placed; after those that pass; lowest group; loses the award."},
			{"Award", HoldsText, nil, "With \"loses the award\": which award of the Awards sheet."},
			sourceColumn,
			{"From class mean", HoldsYesNo, nil, "Yes: the bounds are distances from this year's class mean (-0.5 is half below it), taken over all carcasses of the class that compete and have the figure, before any limit. Blank means no."},
			{"Or", HoldsText, nil, "The same letter on several lines that fail alike: meeting any one of them is enough. Blank means the line stands by itself."},
			{"One of", HoldsText, nil, "For a measure in words, such as sex or breed: the words that pass, with semicolons between them, a sex in any spelling. With yes under Must not be it has to be none of them."},
		}},
		{GroupsTable, "Groups such as blue, red and white, apart from the placings. A carcass is in the first group, by order, all of whose lines it meets. The last group has one line without a measure and takes the rest. No lines means no groups.", []Column{
			{"Class", HoldsText, nil, "The class the line is for. Blank means every class."},
			{"Species", HoldsSpecies, nil, "The species the line is for. Blank means every species."},
			{"Group", HoldsText, nil, "The group's name."},
			{"Order", HoldsNumber, nil, "1 for the best group, 2 for the next, and so on; the same on each line of a group."},
			{"Measure", HoldsMeasure, nil, "The measure or computed figure that is tested. Blank on the line of the group that takes the rest."},
			{"At least", HoldsAny, nil, "The least that is in the group; for a date the first day."},
			{"At most", HoldsAny, nil, "The most that is in the group; for a date the last day."},
			{"Lowest grade", HoldsText, nil, "For a graded measure: the lowest grade that is in the group."},
			{"From class mean", HoldsYesNo, nil, "Yes: the bounds are distances from this year's class mean (-0.5 is half below it), taken over all carcasses of the class that compete and have the figure, before any limit. Blank means no."},
			sourceColumn,
			{"Above", HoldsAny, nil, "In the group only above this; exactly this is not."},
			{"Below", HoldsAny, nil, "In the group only below this; exactly this is not."},
			{"Changes per lb", HoldsNumber, nil, "The bounds of this line grow by so much for each pound of hot carcass weight, from what they are at 0 lb. Blank means they stay."},
			{"Must not be", HoldsYesNo, nil, "For a mark such as dark cutter: yes means that a carcass with the mark is not in the group, no that one without it is not."},
			{"Or", HoldsText, nil, "The same letter on several lines of one group: meeting any one of them is enough. Blank means the line stands by itself."},
			{"One of", HoldsText, nil, "For a measure in words, such as sex or breed: the words that are in the group, with semicolons between them, a sex in any spelling. With yes under Must not be it has to be none of them."},
		}},
		{AwardsTable, "Further lists drawn from the same carcasses, such as a champion over all classes. No lines means no further awards.", []Column{
			{"Award", HoldsText, nil, "The award's name."},
			{"Classes", HoldsText, nil, "The classes that compete, with semicolons between them. Blank means all."},
			{"Species", HoldsSpecies, nil, "The species that competes. Blank means all the classes' own."},
			{"Ranking", HoldsText, nil, "The name of the ranking that decides."},
			{"How many", HoldsNumber, nil, "How many receive it."},
			sourceColumn,
		}},
		{PointsTable, "An index adds up its lines: a constant (no measure), a weight times a measure, a weight times the distance of a measure from a target, or steps: so many points in this band, so many in that. A ranking uses it as \"points\" and the index's name. No lines means no index.", []Column{
			{"Index", HoldsText, nil, "The index's name, the same on each of its lines."},
			{"Measure", HoldsMeasure, nil, "The measure or computed figure. Blank for a constant."},
			{"Weight", HoldsNumber, nil, "The constant itself, or what each unit of the measure (or of its distance from the target) adds; a minus sign takes off."},
			{"Target", HoldsNumber, nil, "Where there is one, the distance from it counts, above and below alike. Blank means the measure itself counts."},
			sourceColumn,
			{"Side", HoldsChoice, sideWords, "With a target: above or below, where only the distance on that side counts (below 0.60 only). Blank means both sides count alike."},
			{"From", HoldsNumber, nil, "A step: the weight itself is added once where the figure is at least this. Blank means no lower end."},
			{"Up to", HoldsNumber, nil, "A step: the weight itself is added once where the figure is below this. Blank means no upper end."},
			{"Grade", HoldsText, nil, "A step of a graded measure: the weight itself is added once where the carcass has this grade, such as Choice, or third of one, such as Low Choice."},
		}},
		{HeadingsTable, "How a plant or a fair may head its columns. Letter case, punctuation and words for units make no difference. Add your plant's own headings on new lines.", []Column{
			{"Species", HoldsSpecies, nil, "The species whose sheets use the heading. Blank means every species."},
			{"Measure", HoldsMeasure, nil, "The measure that the column holds."},
			{"Accepted headings", HoldsText, nil, "The headings, with semicolons between them."},
			{"Unit", HoldsChoice, unitWords, "The unit the numbers are in when the heading itself names none. Blank means the measure's own unit."},
			sourceColumn,
		}},
		{TargetsTable, "Figures that a family's carcass is held beside on its card. They place nothing.", []Column{
			{"Species", HoldsSpecies, nil, "The species the target is for."},
			{"Measure", HoldsMeasure, nil, "The measure or computed figure."},
			{"From", HoldsNumber, nil, "The low end of the target. Blank means none."},
			{"Up to", HoldsNumber, nil, "The high end of the target. Blank means none."},
			{"In words", HoldsText, nil, "What the target is, in a few words for a family."},
			sourceColumn,
		}},
		{PremiumsTable, "Premiums and discounts for a carcass that meets several things at once, such as a branded line. A carcass earns one when it meets all of its lines. They are added to the price of the value grid. No lines means none.", []Column{
			{"Species", HoldsSpecies, nil, "The species the premium is for."},
			{"Premium", HoldsText, nil, "The premium's name, the same on each of its lines."},
			{"Measure", HoldsMeasure, nil, "The measure, computed figure or mark that is tested."},
			{"At least", HoldsAny, nil, "The least that earns it; for a date the first day."},
			{"At most", HoldsAny, nil, "The most that earns it; for a date the last day."},
			{"Above", HoldsAny, nil, "Earns it only above this; exactly this does not."},
			{"Below", HoldsAny, nil, "Earns it only below this; exactly this does not."},
			{"Changes per lb", HoldsNumber, nil, "The bounds of this line grow by so much for each pound of hot carcass weight, from what they are at 0 lb. Blank means they stay."},
			{"Lowest grade", HoldsText, nil, "For a graded measure: the lowest grade that earns it, such as Low Choice."},
			{"Must not be", HoldsYesNo, nil, "For a mark such as dark cutter: yes means that a carcass with the mark does not earn it, no that one without it does not."},
			{"One of", HoldsText, nil, "For a measure in words, such as sex or breed: the words that earn it, with semicolons between them, a sex in any spelling. With yes under Must not be it has to be none of them."},
			{"Or", HoldsText, nil, "The same letter on several lines of one premium: meeting any one of them is enough. Blank means the line stands by itself."},
			{"$/cwt", HoldsNumber, nil, "Dollars for each hundred pounds of carcass, on the premium's first line; a discount has a minus sign."},
			{"% of base", HoldsNumber, nil, "In place of dollars: what is added in percent of the base price; a discount has a minus sign."},
			sourceColumn,
		}},
		{MatrixTable, "A price matrix of two measures, such as fat by muscle: one line for each cell. A carcass gets the one line in whose two bands it is; where there are lines and none fits there is no price. No lines means no matrix.", []Column{
			{"Species", HoldsSpecies, nil, "The species the matrix is for."},
			{"Measure", HoldsMeasure, nil, "The first measure, the same on each line of a species."},
			{"From", HoldsNumber, nil, "Where the band of the first measure begins; exactly this is in it. Blank means no lower end."},
			{"Up to", HoldsNumber, nil, "Where the band of the first measure ends; exactly this is in the next. Blank means no upper end."},
			{"Second measure", HoldsMeasure, nil, "The second measure, the same on each line of a species."},
			{"Second from", HoldsNumber, nil, "Where the band of the second measure begins; exactly this is in it. Blank means no lower end."},
			{"Second up to", HoldsNumber, nil, "Where the band of the second measure ends; exactly this is in the next. Blank means no upper end."},
			{"$/cwt", HoldsNumber, nil, "Dollars for each hundred pounds of carcass; a discount has a minus sign."},
			{"% of base", HoldsNumber, nil, "In place of dollars: what is added in percent of the base price; a discount has a minus sign."},
			sourceColumn,
		}},
		{MeasuresTable, "Every measure the rulebook can name, and what it means. The board may add measures of its own: a column that it reads, such as a judge's score or a record book, or a measure adjusted to a common weight by the board's own line. They can then be named on every other sheet.", []Column{
			{"Measure", HoldsText, nil, "The measure's name, as the other sheets write it. For one of your own a name that is not taken."},
			{"Species", HoldsText, nil, "The species that have it, with commas between them. Blank means every species."},
			{"Unit", HoldsChoice, ownUnits, "The unit it is in. Blank means none, as for a score."},
			{"Decimals", HoldsNumber, nil, "How many decimals are printed. Blank means none."},
			{RoleColumn, HoldsChoice, roleWords, "Read from a sheet or computed by the program; own for one of the board's. Lines that say read or computed only list what there is."},
			{"Meaning", HoldsText, nil, "What it is, in a sentence for a family."},
			{"Accepted headings", HoldsText, nil, "For a column of your own: the headings it may have on a sheet, with semicolons between them. Its name is always one."},
			{"Hold below", HoldsNumber, nil, "For one of your own: a figure below this cannot be true."},
			{"Look below", HoldsNumber, nil, "For one of your own: a figure below this is worth a look."},
			{"Look above", HoldsNumber, nil, "For one of your own: a figure above this is worth a look."},
			{"Hold above", HoldsNumber, nil, "For one of your own: a figure above this cannot be true."},
			{"Adjusts", HoldsMeasure, nil, "In place of headings: the measure that is adjusted to a common live weight. Blank for a column that is read."},
			{"To weight", HoldsNumber, nil, "With Adjusts: the common live weight, lb."},
			{"Changes per lb", HoldsNumber, nil, "With Adjusts: what each pound of live weight below the common one adds to the measure, and each above takes off."},
			sourceColumn,
		}},
	}
})

// LayoutOf gives the layout of a sheet by its name; ok is false for a name that is no rulebook sheet's.
func LayoutOf(name string) (layout TableLayout, ok bool) {
	for _, layout := range Layouts() {
		if layout.Name == name {
			return layout, true
		}
	}
	return TableLayout{}, false
}
