package workbook

import (
	"fmt"
	"math"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"railbook/rules"
	"railbook/rules/address"
	"railbook/rules/measure"
	"railbook/validate"
	"railbook/workbook/intake"
	"railbook/workbook/record"
	"railbook/workbook/sheets/fair"
	"railbook/workbook/xlsx"
)

// cellDifferences writes the workbook afresh as it was signed, with what was changed since put back, and compares every
// cell of ours with it: formula and cached value.
func (j *job) cellDifferences(changed []lineDifference, otherOrder bool) ([]Difference, error) {
	signed, err := j.asSigned(changed)
	if err != nil {
		return nil, err
	}
	fresh, err := signed.book.Bytes()
	if err != nil {
		return nil, err
	}
	want, err := xlsx.Examine(fresh)
	if err != nil {
		return nil, err
	}
	defer want.Close()
	have, err := xlsx.ExamineFile(j.path)
	if err != nil {
		return nil, err
	}
	defer have.Close()
	return compareOurs(want, have, otherOrder)
}

// asSigned makes the results again from the signed measurements, rulebook and decisions.
func (j *job) asSigned(changed []lineDifference) (*job, error) {
	signed := &job{path: j.path, options: j.options, trusted: true}
	signed.options.Stage = nil
	if err := signed.open(); err != nil {
		return nil, err
	}
	restoreHeadings(signed.previous.Rulebook, j.previous.Sealed)
	signed.previous.Rulebook = restoredTables(signed.previous.Rulebook, changed)
	restoreRecord(signed.previous, changed)
	signed.lastYear = signed.previous.LastYear
	whole := signed.previous.Damage == nil
	if len(j.previous.Sealed) > 0 {
		signed.previous.Damage = nil // what was sealed is put back
	}
	if whole && len(signed.previous.Kept)+len(signed.previous.KeptRulings)+len(signed.previous.KeptReasons) > 0 {
		kept := signed.previous
		kept.Kept = rowsOf(kept.Kept, kept.Decisions, kept.Asked)
		kept.Decisions, kept.Asked, kept.Rulings, kept.Reasons, kept.Findings = kept.Kept, nil, kept.KeptRulings, kept.KeptReasons, nil
	}
	signed.previous.Run.Status, signed.previous.Run.Seal = record.Signed, record.Seal(j.previous.Sealed)
	if err := signed.chooseRules(); err != nil {
		return nil, err
	}
	if err := signed.restore(j, changed); err != nil {
		return nil, err
	}
	if err := signed.read(); err != nil {
		return nil, err
	}
	signed.grade()
	signed.check()
	signed.place()
	signed.results.Run, signed.results.Changes = signed.previous.Run, signed.previous.Changes
	signed.results.Outcomes = outcomesOf(j.previous.Sealed)
	return signed, fair.Write(signed.results)
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
func (j *job) restore(found *job, changed []lineDifference) error {
	cells := make(map[string]map[string]xlsx.CellChange)
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
// another order, only those that do not follow it.
func compareOurs(want, have *xlsx.Examined, otherOrder bool) ([]Difference, error) {
	names := make(map[string]string)
	for _, name := range have.Names() {
		names[name.Name] = name.RefersTo
	}
	var differences []Difference
	for _, name := range want.Names() {
		if !strings.HasPrefix(name.Name, "railbook_") {
			continue
		}
		if otherOrder && !slices.ContainsFunc(inNoOrderOfRows, func(mark string) bool { return strings.HasPrefix(name.Name, mark) }) {
			continue
		}
		wantSheet, wantAt := splitReference(name.RefersTo)
		refersTo, there := names[name.Name]
		if !there {
			differences = append(differences, Difference{At: rules.Place{Sheet: wantSheet}, Message: "this sheet or block of columns was there when signed and is gone, or is no longer marked."})
			continue
		}
		haveSheet, haveAt := splitReference(refersTo)
		found, err := compareArea(want, have, area{wantSheet, wantAt}, area{haveSheet, haveAt}, strings.HasPrefix(name.Name, record.ColumnsMark))
		if err != nil {
			return nil, err
		}
		differences = append(differences, found...)
	}
	slices.SortFunc(differences, func(a, b Difference) int { return strings.Compare(a.At.Sheet+a.At.Cell, b.At.Sheet+b.At.Cell) })
	return differences, nil
}

// area is a sheet and the rectangle of it that is ours.
type area struct{ sheet, cells string }

func splitReference(refersTo string) (sheet, cells string) {
	at := strings.LastIndex(refersTo, "!")
	if at < 0 {
		return strings.Trim(refersTo, "'="), ""
	}
	sheet = strings.TrimPrefix(refersTo[:at], "=")
	if strings.HasPrefix(sheet, "'") {
		sheet = strings.ReplaceAll(strings.Trim(sheet, "'"), "''", "'")
	}
	return sheet, strings.ReplaceAll(refersTo[at+1:], "$", "")
}

// compareArea compares a block of columns cell by cell, or a whole sheet of ours.
func compareArea(want, have *xlsx.Examined, wanted, had area, block bool) (differences []Difference, err error) {
	var uncalculated []Difference // formulas without their result
	calculated := false           // some formula has one
	first, last, err := bounds(want, wanted, block)
	if err != nil {
		return nil, err
	}
	haveFirst, haveLast, err := bounds(have, had, block)
	if err != nil {
		return nil, err
	}
	covered, err := want.Covered(wanted.sheet)
	if err != nil {
		return nil, err
	}
	columns := max(last.column-first.column, haveLast.column-haveFirst.column)
	rows := max(last.row-first.row, haveLast.row-haveFirst.row)
	for row := 0; row <= rows; row++ {
		for column := 0; column <= columns; column++ {
			wantCell := address.Cell(first.column+column, first.row+row)
			haveCell := address.Cell(haveFirst.column+column, haveFirst.row+row)
			if covered[wantCell] {
				continue // the library reads the merged cell's text there again
			}
			message, result, err := compareCell(want, have, wanted.sheet, wantCell, had.sheet, haveCell)
			if err != nil {
				return nil, err
			}
			difference := Difference{At: rules.Place{Sheet: had.sheet, Cell: haveCell}, Message: message, recalculated: result == resultThere}
			switch {
			case result == resultGone:
				uncalculated = append(uncalculated, difference)
			case message != "":
				differences = append(differences, difference)
			}
			calculated = calculated || result == resultThere
		}
	}
	if !block {
		seen := corner{min(last.column, haveLast.column), min(last.row, haveLast.row)}
		differences = append(differences, printsOtherwise(want, have, wanted.sheet, had.sheet, seen)...)
	}
	if len(uncalculated) > 1 && !calculated {
		at := rules.Place{Sheet: had.sheet, Cell: uncalculated[0].At.Cell + ":" + uncalculated[len(uncalculated)-1].At.Cell}
		uncalculated = []Difference{{At: at, Message: "the formulas' results are gone: a program saved the workbook without calculating it. " +
			"Open it in a spreadsheet program, save it, and verify that."}}
	}
	return append(differences, uncalculated...), nil
}

type corner struct{ column, row int }

// bounds gives the corners of a block of columns, or of all that is filled in a sheet of ours.
func bounds(file *xlsx.Examined, one area, block bool) (first, last corner, err error) {
	if block {
		from, to, _ := strings.Cut(one.cells, ":")
		var isCell, isArea bool
		first.column, first.row, isCell = address.Parse(from)
		last.column, last.row, isArea = address.Parse(to)
		if !isCell || !isArea {
			return first, last, fmt.Errorf("the marked block %q of the sheet %q is no area", one.cells, one.sheet)
		}
		return first, last, nil
	}
	columns, rows, err := file.Size(one.sheet)
	return corner{1, 1}, corner{max(1, columns), rows}, err
}

// formulaResult is what a file keeps of a formula's result.
type formulaResult int

const (
	noResult    formulaResult = iota // there is no formula, another one than wanted, or one that gives nothing
	resultThere                      // a result is kept
	resultGone                       // the formula is as it was and no result is kept
)

func compareCell(want, have *xlsx.Examined, wantSheet, wantCell, haveSheet, haveCell string) (message string, result formulaResult, err error) {
	wantFormula, wantValue, err := want.Cell(wantSheet, wantCell)
	if err != nil {
		return "", noResult, err
	}
	haveFormula, haveValue, err := have.Cell(haveSheet, haveCell)
	if err != nil {
		return "", noResult, err
	}
	switch {
	case !sameFormula(wantFormula, haveFormula):
		return fmt.Sprintf("the formula was %q when signed and is now %q.", wantFormula, haveFormula), noResult, nil
	case haveFormula != "" && haveValue != "":
		result = resultThere
	case haveFormula != "" && wantValue != "":
		result = resultGone
	}
	wantText, err := want.HoldsText(wantSheet, wantCell)
	if err != nil {
		return "", noResult, err
	}
	haveText, err := have.HoldsText(haveSheet, haveCell)
	if err != nil {
		return "", noResult, err
	}
	typed := haveFormula == ""
	switch {
	case wantText != haveText && wantValue != "" && haveValue != "":
		kinds := map[bool]string{true: "text", false: "number"}
		message = fmt.Sprintf("this was the %s %q when signed and is now the %s %q.", kinds[wantText], wantValue, kinds[haveText], haveValue)
	case !sameCached(wantValue, haveValue, typed):
		message = fmt.Sprintf("this was %q when signed and is now %q.", wantValue, haveValue)
	}
	return message, result, nil
}

// formulaSpace is what a re-save may write otherwise: spaces outside texts, and quotes round names that need none.
var formulaSpace = regexp.MustCompile(`\s+`)

func sameFormula(a, b string) bool {
	plain := func(formula string) string {
		formula = formulaSpace.ReplaceAllString(strings.TrimPrefix(formula, "="), "")
		return strings.ToUpper(strings.ReplaceAll(formula, "'", ""))
	}
	return a == b || plain(a) == plain(b)
}

// How far two numbers may be apart that are one, as a share of them: what was calculated again in another order of the terms,
// and what was only stored again, of which 15 digits are kept.
const (
	mostWhenCalculated = 1e-9
	mostWhenStored     = 1e-14
)

// sameCached reports whether two stored values are one; typed ones are no formula's result.
func sameCached(a, b string, typed bool) bool {
	if a == b || canonicalText(a) == canonicalText(b) {
		return true
	}
	most := mostWhenCalculated
	if typed {
		most = mostWhenStored
	}
	first, errFirst := strconv.ParseFloat(a, 64)
	second, errSecond := strconv.ParseFloat(b, 64)
	return errFirst == nil && errSecond == nil && math.Abs(first-second) <= most*math.Max(math.Abs(first), math.Abs(second))
}

// printsOtherwise names what makes a signed page print otherwise than it was signed, though every cell says the same: hidden
// rows and columns, number formats, and conditional formats. What is only seen on the screen changes nothing.
func printsOtherwise(want, have *xlsx.Examined, wantSheet, haveSheet string, last corner) (differences []Difference) {
	add := func(cell, words string) {
		differences = append(differences, Difference{At: rules.Place{Sheet: haveSheet, Cell: cell}, Message: words + "; the page prints otherwise than it was signed."})
	}
	for row := 1; row <= last.row; row++ {
		if have.RowHidden(haveSheet, row) && !want.RowHidden(wantSheet, row) {
			add(address.Cell(1, row), fmt.Sprintf("row %d is hidden", row))
		}
	}
	for column := 1; column <= last.column; column++ {
		if have.ColumnHidden(haveSheet, column) && !want.ColumnHidden(wantSheet, column) {
			add(address.Cell(column, 1), "column "+address.Column(column)+" is hidden")
		}
	}
	for row := 1; row <= last.row; row++ {
		for column := 1; column <= last.column; column++ {
			cell := address.Cell(column, row)
			_, value, err := want.Cell(wantSheet, cell)
			if _, notANumber := strconv.ParseFloat(value, 64); err != nil || notANumber != nil {
				continue
			}
			if was, is := want.NumberFormat(wantSheet, cell), have.NumberFormat(haveSheet, cell); was != is {
				add(cell, fmt.Sprintf("the number format was %q and is now %q", was, is))
			}
		}
	}
	if formats, err := have.ConditionalFormats(haveSheet); err == nil && len(formats) > 0 {
		if before, err := want.ConditionalFormats(wantSheet); err == nil && len(before) == 0 {
			for _, cells := range formats {
				add(strings.Split(cells, ":")[0], "a conditional format stands on "+cells)
			}
		}
	}
	return differences
}
