package intake

import (
	"railbook/grading/placing"
	"railbook/rules"
	"railbook/rules/measure"
	"railbook/validate"
	"railbook/workbook/xlsx"
)

// Previous is what a results workbook of ours remembers: it is the program's only state.
type Previous struct {
	Readings  []ReadingRecord
	Decisions []validate.Decision // the Judge review sheet as the judge filled it in, and decisions of earlier revisions
	Rulings   []placing.Ruling
	Reasons   map[string]string // edited reasons: class + tab + tag of the upper carcass → the judge's text
	Changes   []Change
	Run       Run
	Rulebook  []rules.Table
	Carried   []Carried          // the files that were read along with the workbook
	LastYear  []LastYearLine     // set beside this year's results
	Sealed    []SealedLine       // of a signed workbook, as its Sealed record sheet lists them
	Findings  []validate.Finding // decisions that make no sense: each is Refused above and said here
}

// ReadingRecord is one line of the Readings sheet: one cell as it was read.
type ReadingRecord struct {
	File        string // empty for the workbook itself
	Sheet, Cell string
	Line        string // the row of the carcass (on a sideways sheet its column) as a number
	Class, Tag  string
	Measure     measure.ID
	Written     string // the cell as written
	Value       string // what it was read as; empty where it could not be understood
}

// Change is one correction that was made.
type Change struct {
	At         rules.Place
	Class, Tag string
	Measure    measure.ID
	Was, Is    string
	Who        string // initials, or "in the cell" where somebody retyped the value
	When       string // a date a person gave; empty for none
	Moved      string // which carcasses changed grade, value or place because of it
}

// Run is what the Run record says of how a results workbook came to be.
type Run struct {
	InputName   string // of the first input, kept through every revision
	InputSHA256 string
	Revision    int // 1 for the first results
	Version     string
	Status      string // "Provisional" or "Signed"
	Judge, Date string // of the signature
	Seal        string
	Rulebook    string // name and year
	RulebookSHA string
	// OwnRulebookSHA is of the rulebook sheets in the fair's own workbook when it was graded; empty where it had none.
	OwnRulebookSHA string
	State          string // SHA-256 of everything the results were computed from; grading again compares it
}

// ReadPrevious reads what a results workbook remembers; nil where the workbook is not one of ours. With a *DamagedSheet
// comes what could be read before it.
func ReadPrevious(book *xlsx.Book) (*Previous, error) {
	if book.Text && len(book.Ours()) == 0 {
		return nil, nil
	}
	run, found, err := readRun(book)
	if err != nil || !found {
		return nil, err
	}
	previous := &Previous{Run: run}
	if previous.Readings, err = readReadings(book); err != nil {
		return previous, err
	}
	if previous.Changes, err = readChanges(book); err != nil {
		return previous, err
	}
	if previous.Reasons, err = readReasons(book); err != nil {
		return previous, err
	}
	if previous.Carried, err = readCarried(book); err != nil {
		return previous, err
	}
	if previous.LastYear, err = readLastYear(book); err != nil {
		return previous, err
	}
	if previous.Sealed, err = readSealed(book); err != nil {
		return previous, err
	}
	if previous.Rulebook, err = gradedBy(book, run); err != nil {
		return previous, err
	}
	if err = previous.readReview(book); err != nil {
		return previous, err
	}
	previous.Rulebook, err = withGridEdits(book, previous.Rulebook)
	return previous, err
}

// readReview reads what the judge decided, by the rules the workbook was graded by.
func (p *Previous) readReview(book *xlsx.Book) error {
	rulebook, _ := rules.Load(p.Rulebook)
	if rulebook == nil {
		rulebook = rules.Default() // a rulebook that was damaged since is told of when it is used
	}
	judged := &review{book: rulebook, tags: tagsByClass(p.Readings)}
	if err := judged.readReview(book); err != nil {
		return err
	}
	p.Decisions, p.Rulings, p.Findings = judged.decisions, judged.rulings, judged.findings
	return nil
}
