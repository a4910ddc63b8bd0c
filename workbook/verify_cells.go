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
func (j *job) cellDifferences(changed []lineDifference, parted []partedEntry, otherOrder bool) ([]Difference, error) {
	have, err := openBook(j.path, j.options)
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
	signed.hidden = make(map[string][]record.Noted)
	for _, hidden := range signed.previous.Hidden {
		signed.hidden[hidden.Sheet] = append(signed.hidden[hidden.Sheet], hidden)
	}
	signed.previous.Run.Status, signed.previous.Run.Seal = record.Signed, record.Seal(j.previous.Sealed)
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
	signed.results.Outcomes = outcomesOf(j.previous.Sealed)
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

// comparedSheet is a sheet of ours as it was signed and as it stands.
type comparedSheet struct {
	sheet       string // its name now
	want, have  *xlsx.Printed
	differences []Difference
}

func (c *comparedSheet) add(cell, message string) {
	c.differences = append(c.differences, Difference{At: rules.Place{Sheet: c.sheet, Cell: cell}, Message: message})
}

// filledArea is all of a sheet up to the last cell that holds something.
func filledArea(grid *xlsx.Grid) xlsx.Range {
	area := xlsx.Range{FirstColumn: 1, FirstRow: 1, LastColumn: 1}
	for _, row := range grid.Rows {
		if len(row.Cells) > 0 {
			area.LastRow = max(area.LastRow, row.Number)
			area.LastColumn = max(area.LastColumn, row.Cells[len(row.Cells)-1].Column)
		}
	}
	return area
}

// cellsOf gives the cells of a sheet by their places.
func cellsOf(grid *xlsx.Grid) map[xlsx.Place]*xlsx.Cell {
	cells := make(map[xlsx.Place]*xlsx.Cell)
	for _, row := range grid.Rows {
		for i := range row.Cells {
			cells[xlsx.Place{Column: row.Cells[i].Column, Row: row.Number}] = &row.Cells[i]
		}
	}
	return cells
}

// cells compares the cells of two areas, one after another.
func (c *comparedSheet) cells(wanted, had xlsx.Range) {
	wantCells, haveCells := cellsOf(c.want.Grid), cellsOf(c.have.Grid)
	var uncalculated []Difference // formulas without their result
	calculated := false           // some formula has one
	columns := max(wanted.LastColumn-wanted.FirstColumn, had.LastColumn-had.FirstColumn)
	rows := max(wanted.LastRow-wanted.FirstRow, had.LastRow-had.FirstRow)
	for row := 0; row <= rows; row++ {
		for column := 0; column <= columns; column++ {
			wantAt := xlsx.Place{Column: wanted.FirstColumn + column, Row: wanted.FirstRow + row}
			haveAt := xlsx.Place{Column: had.FirstColumn + column, Row: had.FirstRow + row}
			want, have := wantCells[wantAt], haveCells[haveAt]
			if want == nil && have == nil {
				continue
			}
			wantStored, haveStored := storedCell(c.want, wantAt, want), storedCell(c.have, haveAt, have)
			message, result := compareCell(wantStored, haveStored)
			difference := Difference{At: rules.Place{Sheet: c.sheet, Cell: address.Cell(haveAt.Column, haveAt.Row)}, Message: message, recalculated: result == resultThere}
			switch {
			case result == resultGone:
				uncalculated = append(uncalculated, difference)
			case message != "":
				difference.unsummed = unsummed(wantStored, haveStored)
				c.differences = append(c.differences, difference)
			}
			calculated = calculated || result == resultThere
		}
	}
	if len(uncalculated) > 1 && !calculated {
		at := rules.Place{Sheet: c.sheet, Cell: uncalculated[0].At.Cell + ":" + uncalculated[len(uncalculated)-1].At.Cell}
		uncalculated = []Difference{{At: at, Message: "the formulas' results are gone: a program saved the workbook without calculating it. " +
			"Open it in a spreadsheet program, save it, and verify that."}}
	}
	c.differences = append(c.differences, uncalculated...)
}

// stored is what a file keeps of a cell.
type stored struct {
	formula, value string
	text           bool // and no number
}

func storedCell(page *xlsx.Printed, at xlsx.Place, cell *xlsx.Cell) stored {
	if cell == nil {
		return stored{}
	}
	return stored{page.Formulas[at], cell.Raw, cell.Kind == xlsx.Text}
}

// unsummed reports whether the record's sum of a cell would be the same for both: a text for the number that it shows, or formulas
// that differ in what they name on other sheets alone.
func unsummed(want, have stored) bool {
	if want.formula == "" && have.formula == "" {
		return sameCached(want.value, have.value, true)
	}
	return record.FormulaForm(want.formula, address.Cell) == record.FormulaForm(have.formula, address.Cell)
}

// formulaResult is what a file keeps of a formula's result.
type formulaResult int

const (
	noResult    formulaResult = iota // there is no formula, another one than wanted, or one that gives nothing
	resultThere                      // a result is kept
	resultGone                       // the formula is as it was and no result is kept
)

func compareCell(want, have stored) (message string, result formulaResult) {
	switch {
	case !sameFormula(want.formula, have.formula):
		return fmt.Sprintf("the formula was %q when signed and is now %q.", want.formula, have.formula), noResult
	case have.formula != "" && have.value != "":
		result = resultThere
	case have.formula != "" && want.value != "":
		result = resultGone
	}
	switch {
	case want.text != have.text && want.value != "" && have.value != "":
		kinds := map[bool]string{true: "text", false: "number"}
		message = fmt.Sprintf("this was the %s %q when signed and is now the %s %q.", kinds[want.text], want.value, kinds[have.text], have.value)
	case !sameCached(want.value, have.value, have.formula == ""):
		message = fmt.Sprintf("this was %q when signed and is now %q.", want.value, have.value)
	}
	return message, result
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
// rows and columns, number formats, conditional formats, and the titles of charts. What is only seen on the screen changes nothing.
func (c *comparedSheet) printsOtherwise(lastColumn, lastRow int) {
	add := func(cell, words string) { c.add(cell, words+"; the page prints otherwise than it was signed.") }
	wasHidden := make(map[int]bool)
	for _, row := range c.want.Rows {
		wasHidden[row.Number] = row.Hidden
	}
	for _, row := range c.have.Rows {
		if row.Hidden && !wasHidden[row.Number] && row.Number <= lastRow {
			add(address.Cell(1, row.Number), fmt.Sprintf("row %d is hidden", row.Number))
		}
	}
	for column := 1; column <= lastColumn; column++ {
		if c.have.HiddenColumns[column] && !c.want.HiddenColumns[column] {
			add(address.Cell(column, 1), "column "+address.Column(column)+" is hidden")
		}
	}
	haveCells := cellsOf(c.have.Grid)
	for _, row := range c.want.Rows {
		for i := range row.Cells {
			cell := &row.Cells[i]
			now := haveCells[xlsx.Place{Column: cell.Column, Row: row.Number}]
			if cell.Kind != xlsx.Number || now == nil {
				continue
			}
			if was, is := plainFormat(c.want.NumberFormat(cell)), plainFormat(c.have.NumberFormat(now)); was != is {
				add(address.Cell(cell.Column, row.Number), fmt.Sprintf("the number format was %q and is now %q", was, is))
			}
		}
	}
	if len(c.want.Conditional) == 0 {
		for _, cells := range c.have.Conditional {
			first, _, _ := strings.Cut(strings.Fields(cells + " A1")[0], ":")
			add(first, "a conditional format stands on "+cells)
		}
	}
	titles := slices.Clone(c.have.Titles)
	for _, title := range c.want.Titles {
		at := slices.Index(titles, title)
		if at < 0 {
			add("", fmt.Sprintf("the title %q of a chart was changed or is gone", title))
			continue
		}
		titles = slices.Delete(titles, at, at+1)
	}
}

// plainFormat is a number format without what programs write otherwise.
func plainFormat(code string) string { return strings.ToLower(formatNoise.Replace(code)) }

var formatNoise = strings.NewReplacer(`"`, "", `\`, "", "general", "", "General", "", "GENERAL", "")
