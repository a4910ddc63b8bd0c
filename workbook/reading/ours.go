package reading

// The names of our sheets, as their tabs show them (a workbook that has one of that name already gets "Placings (2)"),
// and the workbook defined names that make them known again.
const (
	PlacingsSheet    = "Placings"
	ReasonsSheet     = "Draft reasons"
	ErrorLogSheet    = "Error log"
	JudgeReviewSheet = "Judge review"
	ValueGridSheet   = "Value grid"
	SummarySheet     = "Summary"
	ChangeSheet      = "Change record"
	ReadingsSheet    = "Readings"
	RunRecordSheet   = "Run record"
	GradedSheet      = "Graded"

	PlacingsMark    = "railbook_sheet_placings"
	ReasonsMark     = "railbook_sheet_reasons"
	ErrorLogMark    = "railbook_sheet_error_log"
	JudgeReviewMark = "railbook_sheet_judge_review"
	ValueGridMark   = "railbook_sheet_value_grid"
	SummaryMark     = "railbook_sheet_summary"
	ChangeMark      = "railbook_sheet_change_record"
	ReadingsMark    = "railbook_sheet_readings"
	RunRecordMark   = "railbook_sheet_run_record"
	GradedMark      = "railbook_sheet_graded"
	ColumnsMark     = "railbook_columns_"  // followed by the block's number
	RulebookMark    = "railbook_rulebook_" // followed by the table's number
)
