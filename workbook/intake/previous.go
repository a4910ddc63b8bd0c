package intake

import (
	"strings"
	"sync"

	"railbook/grading/placing"
	"railbook/rules"
	"railbook/rules/measure"
	"railbook/validate"
	"railbook/workbook/ahead"
	"railbook/workbook/record"
	"railbook/workbook/xlsx"
)

// Previous is what a results workbook of ours remembers, with what people filled in on it since.
type Previous struct {
	Readings    []record.Reading    // of one that was read by ReadHead: of each carcass its tag alone
	Decisions   []validate.Decision // the Judge review sheet as the judge filled it in, and decisions of earlier revisions
	Kept        []validate.Decision // the decisions as they were when the workbook was graded
	Asked       []validate.Decision // the rows of the Judge review sheet, decided or not
	Rulings     []placing.Ruling
	ReviewGone  bool              // the Judge review sheet was taken out: what was decided before still stands
	Reasons     map[string]string // edited reasons: class + tab + tag of the upper carcass → the judge's text
	Changes     []record.Change
	Run         record.Run
	Rulebook    []rules.Table
	Carried     []record.Carried           // the files that were read along with the workbook
	LastYear    []record.LastYearLine      // set beside this year's results
	Written     []record.Written           // of a signed workbook: what stood beside the data
	Hidden      []record.Noted             // of a signed workbook: what was not shown
	OfFile      []record.Noted             // of the file that was graded first
	Sealed      func() []record.SealedLine // what a signature covers, listed when it is asked for
	Findings    []validate.Finding         // decisions that make no sense: each is Refused above and said here
	GradedBy    []rules.Table              // the rulebook as the workbook was graded by it
	KeptRulings []placing.Ruling           // as they were when the workbook was graded
	KeptReasons map[string]string
	Altered     []Altered         // sheets of ours that say otherwise than they were written
	Compared    map[string]string // the sheets of ours that were compared with what was written, with their marks
	Beside      []Beside          // our columns beside the data
	Damage      *DamagedSheet     // the record is gone, or not as it was written; nil where it is whole
}

// ReadPrevious reads what a results workbook remembers; nil where the workbook is not one of ours. With a *DamagedSheet
// comes what could be read before it.
func ReadPrevious(book *xlsx.Book) (*Previous, error) {
	return readPrevious(book, record.StateOf, readReasons)
}

// ReadHead reads what a results workbook remembers but for what was read of its carcasses and what was sealed, takes the judge's words
// from the record, and compares none of its sheets with what was written: that is left to whoever makes the results again. It is nil
// where the workbook has no record.
func ReadHead(book *xlsx.Book) (*Previous, error) {
	if _, found := book.Ours()[record.StateMark]; !found {
		return nil, nil
	}
	previous, err := readPrevious(book, func(lines []string, sheet string) *record.State {
		state := record.HeadOf(lines, sheet)
		if state != nil {
			state.Whole = true // as the parts will show
		}
		return state
	}, func(*xlsx.Book) (map[string]string, bool, error) { return nil, false, nil })
	if previous != nil {
		previous.Sealed = func() []record.SealedLine { return nil } // the record's lines need not be held
	}
	return previous, err
}

// UnreadInHead reports whether ReadHead reads nothing on the sheet of ours with a mark.
func UnreadInHead(mark string) bool {
	return mark != record.StateMark && mark != record.JudgeReviewMark && mark != record.ValueGridMark
}

func readPrevious(book *xlsx.Book, stateOf func(lines []string, sheet string) *record.State, readReasons func(*xlsx.Book) (map[string]string, bool, error)) (previous *Previous, err error) {
	if len(book.Ours()) == 0 && book.Text {
		return nil, nil
	}
	lines, sheet, err := readLines(book)
	if err != nil {
		return nil, err
	}
	state := stateOf(lines, sheet)
	var graded []rules.Table
	var beside func() besideRead
	if state != nil {
		previous = recorded(state, lines, sheet)
		graded = state.Rulebook
		if state.Whole {
			beside = ahead.Value(func() (read besideRead) { // the texts that all sheets share were read with the record
				read.blocks, read.gone, read.err = besideData(book, state.Views)
				return read
			})
			defer beside() // nobody reads a workbook that is done with
		} else {
			previous.Damage = &DamagedSheet{Sheet: sheet, Rows: state.Changed, Words: "it was changed since the program wrote it, so what was read, changed and decided before may not be as it says; " +
				"use the workbook as it was saved before, or look through the decisions and accept the row about this sheet in the Judge review sheet"}
		}
	} else if previous, graded, err = readOlder(book); err != nil || previous == nil {
		return previous, err
	}
	if words, there, err := readReasons(book); err != nil {
		return previous, err
	} else if there {
		previous.Reasons = words
	}
	previous.GradedBy = graded
	if previous.Rulebook, err = gradedBy(book, previous.Run, graded); err != nil {
		return previous, err
	}
	loaded, _ := rules.Load(previous.Rulebook)
	if err = previous.readReview(book, loaded); err != nil {
		return previous, err
	}
	if state != nil && state.Whole {
		if previous.Altered, previous.Compared, err = alteredViews(book, state.Views, previous.ReviewGone); err != nil {
			return previous, err
		}
		read := beside()
		if read.err != nil {
			return previous, read.err
		}
		previous.Beside, previous.Altered = read.blocks, append(previous.Altered, read.gone...)
	}
	previous.Rulebook, err = withGridEdits(book, previous.Rulebook, graded, loaded)
	return previous, err
}

// besideRead is what stands beside the data, and what is gone of it.
type besideRead struct {
	blocks []Beside
	gone   []Altered
	err    error
}

// recorded gives what a record says, whose lines stand on a sheet.
func recorded(state *record.State, lines []string, sheet string) *Previous {
	previous := &Previous{
		Readings: state.Records(), Kept: state.Decisions, Reasons: state.Words, Changes: state.Changes, Run: state.Run,
		Carried: state.Carried, LastYear: state.LastYear, Rulings: state.Rulings,
		Written: state.Written, Hidden: state.Hidden, OfFile: state.OfFile, KeptRulings: state.Rulings, KeptReasons: state.Words,
	}
	previous.Sealed = func() []record.SealedLine { return nil }
	if state.Run.Seal != "" {
		previous.Sealed = sync.OnceValue(func() []record.SealedLine { return record.StateOf(lines, sheet).Sealed() }) // all else of it may have been put right
	}
	return previous
}

// readLines reads the lines of the record, and says where they stand; there are none where the workbook has no record.
func readLines(book *xlsx.Book) (lines []string, sheet string, err error) {
	sheet, found, err := ourSheet(book, record.StateMark, record.StateSheet)
	if err != nil || !found {
		return nil, "", err
	}
	grid, err := book.Scan(sheet)
	if err != nil {
		return nil, sheet, err
	}
	lines = make([]string, len(grid.Rows))
	for i, row := range grid.Rows {
		if len(row.Cells) == 1 {
			lines[i] = row.Cells[0].Raw
			continue
		}
		var line strings.Builder
		for _, cell := range row.Cells {
			line.WriteString(cell.Raw)
		}
		lines[i] = line.String()
	}
	return lines, sheet, nil
}

// readReview reads what the judge decided, by the rules the workbook was graded by.
func (p *Previous) readReview(book *xlsx.Book, rulebook *rules.Rulebook) error {
	if rulebook == nil {
		rulebook = rules.Shipped() // a rulebook that was damaged since is told of when it is used
	}
	judged := &review{book: rulebook, tags: tagsByClass(p.Readings)}
	if err := judged.readReview(book); err != nil {
		return err
	}
	if judged.gone {
		p.ReviewGone = true
		return nil // the rulings stay as they were kept
	}
	p.Decisions, p.Asked, p.Rulings, p.Findings = judged.decisions, judged.rows, judged.rulings, judged.findings
	if judged.older {
		p.Kept, p.Decisions = oneForACell(p.Kept), oneForACell(p.Decisions)
	}
	return nil
}

// Under finds the measures that a rulebook of its own declared again, by their names, in the rulebook it is graded by now.
// What was read of a measure that this one does not have is dropped.
func (p *Previous) Under(table *measure.Table) {
	kept := p.Readings[:0]
	for _, reading := range p.Readings {
		if reading.Measure = table.Like(reading.Measure); reading.Measure != measure.None {
			kept = append(kept, reading)
		}
	}
	p.Readings = kept
	for _, decisions := range [][]validate.Decision{p.Decisions, p.Kept} {
		for i := range decisions {
			decisions[i].Measure = table.Like(decisions[i].Measure)
		}
	}
	for i := range p.Changes {
		p.Changes[i].Measure = table.Like(p.Changes[i].Measure)
	}
	for i := range p.Findings {
		p.Findings[i].Measure = table.Like(p.Findings[i].Measure)
	}
}
