package workbook

import (
	"slices"
	"strconv"
	"strings"

	"railbook/rules"
	"railbook/rules/measure"
	"railbook/validate"
	"railbook/workbook/intake"
	"railbook/workbook/record"
	"railbook/workbook/sheets/fair"
	"railbook/workbook/xlsx"
)

// cellDifferences writes the workbook afresh as it was signed, with what was changed since put back, and compares every
// cell of ours with it: formula and cached value.
func (j *job) cellDifferences(changed []lineDifference, parted []partedEntry, otherOrder bool) ([]Difference, error) {
	have, err := j.book.Again()
	if err != nil {
		return nil, err
	}
	signed, err := j.asSigned(changed, parted)
	if err != nil {
		return nil, err
	}
	fresh, err := signed.book.Bytes()
	if err != nil {
		return nil, err
	}
	want, err := xlsx.OpenBytes(j.path, fresh, xlsx.OpenOptions{})
	if err != nil {
		return nil, err
	}
	var changedRows []int
	if j.previous.Damage != nil {
		changedRows = j.previous.Damage.Rows
	}
	return compareOurs(want, have, changedRows, otherOrder)
}

// asSigned makes the results again from the signed measurements, rulebook and decisions.
func (j *job) asSigned(changed []lineDifference, parted []partedEntry) (*job, error) {
	book, err := j.book.Again()
	if err != nil {
		return nil, err
	}
	signed := &job{path: j.path, options: j.options, book: book, trusted: true}
	signed.options.Stage = nil
	if err := signed.open(); err != nil {
		return nil, err
	}
	restoreHeadings(signed.previous.Rulebook, j.previous.Sealed())
	signed.previous.Rulebook = restoredTables(signed.previous.Rulebook, changed)
	restoreRecord(signed.previous, changed)
	signed.lastYear = signed.previous.LastYear
	whole := signed.previous.Damage == nil
	if len(j.previous.Sealed()) > 0 {
		signed.previous.Damage = nil // what was sealed is put back
	}
	if whole && len(signed.previous.Kept)+len(signed.previous.KeptRulings)+len(signed.previous.KeptReasons) > 0 {
		kept := signed.previous
		kept.Kept = rowsOf(kept.Kept, kept.Decisions, kept.Asked)
		kept.Decisions, kept.Asked, kept.Rulings, kept.Reasons, kept.Findings = kept.Kept, nil, kept.KeptRulings, kept.KeptReasons, nil
	}
	signed.hidden = make(map[string][]record.Noted)
	for _, hidden := range signed.previous.Hidden {
		signed.hidden[hidden.Sheet] = append(signed.hidden[hidden.Sheet], hidden)
	}
	signed.previous.Run.Status, signed.previous.Run.Seal = record.Signed, record.Seal(j.previous.Sealed())
	if err := signed.chooseRules(); err != nil {
		return nil, err
	}
	if err := signed.restore(j, changed, parted); err != nil {
		return nil, err
	}
	if err := signed.read(); err != nil {
		return nil, err
	}
	signed.grade()
	signed.check()
	signed.place()
	signed.results.Run, signed.results.Changes = signed.previous.Run, signed.previous.Changes
	signed.results.Written, signed.results.Hidden = signed.previous.Written, signed.previous.Hidden
	signed.results.Outcomes = slices.Values(outcomesOf(j.previous.Sealed()))
	return signed, fair.Write(signed.results)
}

// hiddenIn gives the notes of the fair's own workbook that something is not shown.
func hiddenIn(findings []validate.Finding) (hidden []record.Noted) {
	for i := range findings {
		if finding := &findings[i]; slices.Contains(intake.HiddenCodes, finding.Code) && finding.At.File == "" {
			hidden = append(hidden, record.Noted{Sheet: finding.At.Sheet, Code: finding.Code, Words: strings.TrimPrefix(finding.Message, sentenceStart(finding.At)+": ")})
		}
	}
	return hidden
}

// rowsOf finds for decisions as they were kept the rows of the Judge review sheet in which they stand.
func rowsOf(kept, written, asked []validate.Decision) []validate.Decision {
	rows := make(map[intake.Decided]rules.Place)
	for _, list := range [][]validate.Decision{asked, written} {
		for i := range list {
			rows[intake.DecidedBy(&list[i])] = list[i].At
		}
	}
	for i := range kept {
		kept[i].At = rows[intake.DecidedBy(&kept[i])]
	}
	return kept
}

// restore puts the signed values back into the data cells that were changed since.
func (j *job) restore(found *job, changed []lineDifference, parted []partedEntry) error {
	if err := j.restoreBeside(found.putBackBeside); err != nil {
		return err
	}
	cells := make(map[string]map[string]xlsx.CellChange)
	for _, entry := range parted {
		if cells[entry.at.Sheet] == nil {
			cells[entry.at.Sheet] = make(map[string]xlsx.CellChange)
		}
		cells[entry.at.Sheet][entry.at.Cell] = xlsx.CellChange{Kind: xlsx.Text, Value: entry.tag}
	}
	for _, line := range changed {
		if line.was.Kind != record.ReadingLine {
			continue
		}
		place := found.placeOf(line.was)
		if place.File != "" || place.Cell == "" {
			continue
		}
		if cells[place.Sheet] == nil {
			cells[place.Sheet] = make(map[string]xlsx.CellChange)
		}
		cells[place.Sheet][place.Cell] = restoredCell(line.was, j.previous.Readings)
	}
	for sheet, values := range cells {
		if err := j.book.SetCells(sheet, values); err != nil {
			return err
		}
	}
	return nil
}

// restoredCell gives the cell as it was written when signed; where the Readings sheet no longer says, the value itself.
func restoredCell(line record.SealedLine, records []record.Reading) xlsx.CellChange {
	text := line.Value
	for _, kept := range records {
		if kept.Class == line.Class && kept.Tag == line.Tag && kept.Measure.String() == line.Item && kept.Value == line.Value {
			text = kept.Written
		}
	}
	definition, _ := measure.Define(measure.Standard().ByName(line.Item))
	if _, err := strconv.ParseFloat(text, 64); err == nil && definition.Kind != measure.KindText {
		return xlsx.CellChange{Kind: xlsx.Number, Value: text}
	}
	return xlsx.CellChange{Kind: xlsx.Text, Value: text}
}

// inNoOrderOfRows begin the marks of what is the same whatever order the fair's rows stand in. The other sheets list the
// rows as they stand; what they say of them is among the sealed lines, which are compared by carcass.
var inNoOrderOfRows = []string{record.ColumnsMark, record.PlacingsMark, record.ValueGridMark, record.RulebookCopy, record.LastYearMark, record.SealedMark}

// compareOurs compares the parts of two workbooks that are ours, found by their marks; where the fair's rows stand in
// another order, only those that do not follow it. Of the record those rows are compared that its own sums say were changed.
func compareOurs(want, have *xlsx.Book, changedRows []int, otherOrder bool) ([]Difference, error) {
	there := make(map[string]xlsx.Marked)
	for _, marked := range have.Marked() {
		there[marked.Mark] = marked
	}
	var differences []Difference
	for _, wanted := range want.Marked() {
		if wanted.Mark == record.StateMark && len(changedRows) == 0 {
			continue
		}
		if otherOrder && !slices.ContainsFunc(inNoOrderOfRows, func(mark string) bool { return strings.HasPrefix(wanted.Mark, mark) }) {
			continue
		}
		had, found := there[wanted.Mark]
		if !found {
			differences = append(differences, Difference{At: rules.Place{Sheet: wanted.Sheet}, Message: "this sheet or block of columns was there when signed and is gone, or is no longer marked."})
			continue
		}
		wantPage, err := want.Printed(wanted.Sheet)
		if err != nil {
			return nil, err
		}
		havePage, err := have.Printed(had.Sheet)
		if err != nil {
			return nil, err
		}
		comparison := &comparedSheet{sheet: had.Sheet, want: wantPage, have: havePage}
		if strings.HasPrefix(wanted.Mark, record.ColumnsMark) {
			comparison.cells(wanted.Area, had.Area)
		} else {
			wantArea, haveArea := filledArea(wantPage.Grid), filledArea(havePage.Grid)
			comparison.cells(wantArea, haveArea)
			comparison.printsOtherwise(min(wantArea.LastColumn, haveArea.LastColumn), min(wantArea.LastRow, haveArea.LastRow))
		}
		if wanted.Mark == record.StateMark {
			comparison.differences = slices.DeleteFunc(comparison.differences, func(difference Difference) bool { return !slices.Contains(changedRows, rowNumber(difference.At)) })
		}
		differences = append(differences, comparison.differences...)
	}
	slices.SortFunc(differences, func(a, b Difference) int { return strings.Compare(a.At.Sheet+a.At.Cell, b.At.Sheet+b.At.Cell) })
	return differences, nil
}
