package workbook

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"railbook/rules"
	"railbook/rules/address"
	"railbook/rules/phrase"
	"railbook/workbook/record"
	"railbook/workbook/xlsx"
)

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
var formulaSpace = phrase.NewPattern(`\s+`)

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
	if a == b || phrase.SingleSpaced(a) == phrase.SingleSpaced(b) {
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
