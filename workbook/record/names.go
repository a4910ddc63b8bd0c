package record

import "fmt"

// Provisional and Signed are the two states of results.
const (
	Provisional = "Provisional"
	Signed      = "Signed"
)

// The names of our sheets, as their tabs show them (a workbook that has one of that name already gets "Placings (2)"),
// and the workbook defined names that make them known again.
const (
	PlacingsSheet    = "Placings"
	ReasonsSheet     = "Draft reasons"
	ErrorLogSheet    = "Error log"
	JudgeReviewSheet = "Judge review"
	JudgePrintSheet  = "Judge print" // only in workbooks made before
	ValueGridSheet   = "Value grid"
	SummarySheet     = "Summary"
	ChangeSheet      = "Change record"
	ReadingsSheet    = "Readings"
	RunRecordSheet   = "Run record"
	CarriedSheet     = "Read along"
	LastYearSheet    = "Last year"
	SealedSheet      = "Sealed record"
	GradedSheet      = "Graded"
	StateSheet       = "Recorded"

	PlacingsMark    = "railbook_sheet_placings"
	ReasonsMark     = "railbook_sheet_reasons"
	ErrorLogMark    = "railbook_sheet_error_log"
	JudgeReviewMark = "railbook_sheet_judge_review"
	JudgePrintMark  = "railbook_sheet_judge_print"
	ValueGridMark   = "railbook_sheet_value_grid"
	SummaryMark     = "railbook_sheet_summary"
	ChangeMark      = "railbook_sheet_change_record"
	ReadingsMark    = "railbook_sheet_readings"
	RunRecordMark   = "railbook_sheet_run_record"
	CarriedMark     = "railbook_sheet_carried"
	LastYearMark    = "railbook_sheet_last_year"
	SealedMark      = "railbook_sheet_sealed_record"
	GradedMark      = "railbook_sheet_graded"
	StateMark       = "railbook_sheet_state"
	ColumnsMark     = "railbook_columns_"        // followed by the block's number
	RulebookMark    = "railbook_rulebook_"       // followed by the table's number: a rulebook that a board edits, the user's own
	RulebookCopy    = "railbook_sheet_rulebook_" // followed by the table's number: the rulebook a results workbook was graded by
)

// The column headings by which the tables on our sheets are found again, wherever rows were inserted or sorted.
const (
	FileColumn    = "File"
	SheetColumn   = "Sheet"
	CellColumn    = "Cell"
	LineColumn    = "Line"
	ClassColumn   = "Class"
	TagColumn     = "Tag"
	MeasureColumn = "Measure"
	WrittenColumn = "As written"
	ValueColumn   = "Value"

	WasColumn   = "Was"
	IsColumn    = "Is"
	WhoColumn   = "Who"
	WhenColumn  = "When"
	MovedColumn = "What it moved"

	DraftColumn    = "Draft reasons"
	WordsColumn    = "Judge's words"
	KeyClassColumn = "Key: class"
	KeyTagColumn   = "Key: tag"

	DecisionColumn   = "Decision"
	CorrectedColumn  = "Corrected value"
	InitialsColumn   = "Initials"
	RemarkColumn     = "Remark or reason"
	DateColumn       = "Date"
	KeyRowColumn     = "Key: row"
	KeyMeasureColumn = "Key: measure"
	KeyCodeColumn    = "Key: finding"
	KeyWasColumn     = "Key: was"
	KeyLevelColumn   = "Key: level"
	KeyMessageColumn = "Key: message"
	KeyFileColumn    = "Key: file"
	KeySheetColumn   = "Key: sheet"
	KeyCellColumn    = "Key: cell"
	KeyAppliedColumn = "Key: applied"
	KeyLowestColumn  = "Key: lowest"
	KeyHighestColumn = "Key: highest"
	KeyAlsoColumn    = "Key: also asked"
	KeyOtherSheet    = "Key: other sheet"
	KeyOtherCell     = "Key: other cell"
	LikelyColumn     = "Likely value"
	StateColumn      = "State"
)

// The kinds of rows of the Judge review sheet, in its KeyRowColumn.
const (
	FindingRow = "finding" // decides about a finding
	CallRow    = "call"    // the judge's own call on a carcass
	TieRow     = "tie"     // breaks a tie that the rule leaves to the judge
)

// ForAllRows begins the line above the review's headings where initials and date stand once for every row that has none.
const ForAllRows = "Initials and date for every row that has none of its own:"

// What a judge may call without being asked, in the DecisionColumn of a CallRow or TieRow.
const (
	QualityCall  = "quality grade is"
	LoweringCall = "dark cutter lowering is"
	PlaceCall    = "place is"
)

// JudgesCall is the code of a decision that answers no finding: the judge's own quality grade or dark-cutter lowering.
const JudgesCall = "judge's call"

// NotApplied is the code of the finding that a decision could not be used.
const NotApplied = "decision not applied"

// Edition is the form in which this program writes its sheets. It is raised when they are written otherwise for the same facts, so
// that verifying a workbook signed before says so in a sentence.
const Edition = "3"

// SheetAltered is the code of the finding that a sheet of ours was changed and has been written again.
const SheetAltered = "sheet changed by hand"

// The lines of the Run record.
const (
	InputNameLine   = "First input"
	InputSHALine    = "First input SHA-256"
	RevisionLine    = "Revision"
	VersionLine     = "Program version"
	StatusLine      = "Status"
	JudgeLine       = "Judge"
	SignedLine      = "Date signed"
	SealLine        = "Seal"
	RulebookLine    = "Rulebook"
	RulebookSHALine = "Rulebook SHA-256"
	OwnRulebookLine = "Own rulebook sheets SHA-256"
	StateLine       = "State SHA-256"
	DamageLine      = "Record damaged"
	EditionLine     = "Edition"
	AboutLine       = "About the fair"
)

// The columns of the files read along.
const (
	CarriedRoleColumn = "Read as"
	CarriedFileColumn = "File name"
	CarriedDataColumn = "Content"
)

// The columns of the Last year sheet, beside FileColumn and ValueColumn.
const (
	SpeciesColumn = "Species"
	KindColumn    = "Kind of class"
	FigureColumn  = "Figure"
	OfColumn      = "Grade or equation"
	OrderColumn   = "Order"
)

// The columns of the Sealed record.
const (
	SealedKindColumn = "Kind"
	SealedItemColumn = "Item"
)

// ReadingsPart gives the title and the mark of a sheet of readings, which workbooks made before have in place of the record;
// all but enormous ones have one, number 1.
func ReadingsPart(number int) (title, mark string) {
	if number == 1 {
		return ReadingsSheet, ReadingsMark
	}
	return fmt.Sprintf("%s %d", ReadingsSheet, number), fmt.Sprintf("%s_%d", ReadingsMark, number)
}
