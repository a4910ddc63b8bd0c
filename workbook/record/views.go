package record

import (
	"fmt"
	"hash/fnv"
	"slices"
	"strconv"
	"strings"

	"railbook/rules/phrase"
)

// View is one of the sheets that are written from the state and never read back, as it was written: a sum for each row.
// Where they differ, somebody changed the sheet.
type View struct {
	Mark  string
	Sheet string   // of a block of computed columns: where it stands
	Rows  []string // from the first row; empty for a blank row
}

// viewed is a sheet that is compared.
type viewed struct {
	title    string
	filledIn []int // the columns in which people write: these are read, and not compared
	callRows int   // the column that tells rows in which people write anything; 0 for none
	sorted   bool  // people may put its rows in another order
}

// The columns of sheets that people fill in, from 1, as package fair lays them out.
var views = map[string]viewed{
	PlacingsMark: {title: PlacingsSheet}, ErrorLogMark: {title: ErrorLogSheet}, SummaryMark: {title: SummarySheet}, ChangeMark: {title: ChangeSheet},
	RunRecordMark: {title: RunRecordSheet}, JudgePrintMark: {title: JudgePrintSheet}, GradedMark: {title: GradedSheet},
	ReasonsMark:     {title: ReasonsSheet, filledIn: []int{ReasonsWordsColumn}},
	ValueGridMark:   {title: ValueGridSheet, filledIn: []int{GridAdjustColumn}},
	JudgeReviewMark: {title: JudgeReviewSheet, filledIn: []int{9, 10, 11, 12, 13}, callRows: ReviewKeyColumn, sorted: true},
}

// The columns, from 1, in which people write on sheets of ours, and the one by which rows of the Judge review sheet are told.
const (
	ReasonsWordsColumn = 5
	GridAdjustColumn   = 6
	ReviewKeyColumn    = 15
)

// ViewTitle gives the name of a sheet that is compared; it is empty for others.
func ViewTitle(mark string) string { return views[mark].title }

// Tells reports whether the sum of a view's row tells that a cell of it was changed: not where people fill it in, nor where rows
// may stand in another order, nor further down than rows are told apart.
func Tells(mark string, column, row int) bool {
	of, known := views[mark]
	return known && !of.sorted && row <= MostRows && !slices.Contains(of.filledIn, column)
}

// MostRows is how many rows of a view are told apart; of a longer one the rest is not compared.
const MostRows = 3000

// ViewCell is one cell of a view.
type ViewCell struct {
	Column  int
	Text    string // a number as it is stored; empty for a blank cell
	Formula bool
	Form    string // what the formula computes (FormulaForm)
}

// text is what a cell says, however a program writes numbers and blanks. Of a formula only that there is one: what it computes is
// summed apart.
func (c ViewCell) text() string {
	if c.Formula {
		return "="
	}
	text := phrase.SingleSpaced(c.Text)
	if text == "" || !strings.ContainsRune(numbersBegin, rune(text[0])) {
		return text
	}
	if float, err := strconv.ParseFloat(text, 64); err == nil {
		text = strconv.FormatFloat(float, 'g', 10, 64)
	}
	return text
}

// numbersBegin is what the text of a number may begin with, infinity and what is none among them.
const numbersBegin = "+-.0123456789iInN"

// AddRow adds the sum of a row. Cells that hold nothing do not count, nor those that people fill in.
func (v *View) AddRow(number int, cells []ViewCell) {
	if !v.reaches(number) {
		return
	}
	of := views[v.Mark]
	var texts, forms []byte
	filled := false
	for _, cell := range cells {
		text := cell.text()
		if of.callRows == cell.Column && text == CallRow {
			filled = false
			break
		}
		if text != "" && !slices.Contains(of.filledIn, cell.Column) {
			filled = true
			texts = appendCell(texts, cell.Column, text)
			if cell.Form != "" {
				forms = appendCell(forms, cell.Column, cell.Form)
			}
		}
	}
	if !filled {
		v.Rows = append(v.Rows, "")
		return
	}
	row := fmt.Sprintf("%08x", sumOf(texts))
	if len(forms) > 0 {
		row += string(appendSum([]byte{formCell}, forms))
	}
	v.Rows = append(v.Rows, row)
}

// appendCell adds what is summed of a cell of a row.
func appendCell(row []byte, column int, text string) []byte {
	row = append(strconv.AppendInt(row, int64(column), 10), '\t')
	return append(append(row, text...), '\n')
}

func sumOf(text []byte) uint32 {
	sum := fnv.New32a()
	sum.Write(text)
	return sum.Sum32()
}

// appendSum adds a sum of four letters.
func appendSum(row, text []byte) []byte {
	sum := sumOf(text) >> 16
	for shift := 4 * (sumLength - 1); shift >= 0; shift -= 4 {
		row = append(row, "0123456789abcdef"[sum>>shift&15])
	}
	return row
}

// sameRow reports whether two sums are of rows that say the same. One that was written before formulas were summed says nothing
// of those.
func sameRow(a, b string) bool {
	first, formsA, knownA := strings.Cut(a, string(formCell))
	second, formsB, knownB := strings.Cut(b, string(formCell))
	return first == second && (!knownA || !knownB || formsA == formsB)
}

// reaches fills a view up to a row with blank ones; false where the row is past those that are told apart.
func (v *View) reaches(number int) bool {
	if number > MostRows {
		return false
	}
	for len(v.Rows) < number-1 {
		v.Rows = append(v.Rows, "")
	}
	return true
}

// The signs of a computed cell; one with a text or a number of its own has a sum of four letters, and one with a formula such a
// sum of what that computes behind its sign, if it is known.
const (
	blankCell   = '-'
	formulaCell = '='
	formCell    = '^'
	sumLength   = 4
)

// AddCells adds a row of a block of computed columns, in which each cell is told apart: a sign or a sum for each of so many.
func (v *View) AddCells(number, columns int, cells []ViewCell) {
	if !v.reaches(number) {
		return
	}
	signs := make([]string, columns)
	for i := range signs {
		signs[i] = string(blankCell)
	}
	filled := false
	for _, cell := range cells {
		text := cell.text()
		if text == "" || cell.Column < 1 || cell.Column > columns {
			continue
		}
		filled = true
		switch {
		case cell.Form != "":
			signs[cell.Column-1] = string(appendSum([]byte{formCell}, []byte(cell.Form)))
		case cell.Formula:
			signs[cell.Column-1] = string(formulaCell)
		default:
			signs[cell.Column-1] = string(appendSum(nil, []byte(text)))
		}
	}
	if !filled {
		v.Rows = append(v.Rows, "")
		return
	}
	v.Rows = append(v.Rows, strings.Join(signs, ""))
}

// Row gives a row's sum, from 1; empty for a blank one.
func (v *View) Row(number int) string {
	if number < 1 || number > len(v.Rows) {
		return ""
	}
	return v.Rows[number-1]
}

// CellsChanged gives the columns, from 1, in which two rows of computed cells differ; there is none for rows that were not told apart.
func CellsChanged(was, is string) (columns []int) {
	before, now := signsOf(was), signsOf(is)
	for i := range max(len(before), len(now)) {
		if !sameSign(sign(before, i), sign(now, i)) {
			columns = append(columns, i+1)
		}
	}
	return columns
}

// sameSign takes a formula of which only that it is one is known for any other.
func sameSign(was, is string) bool {
	formula := string(formulaCell)
	return was == is || was == formula && is[0] == formCell || is == formula && was[0] == formCell
}

func sign(signs []string, i int) string {
	if i < len(signs) {
		return signs[i]
	}
	return string(blankCell)
}

func signsOf(row string) (signs []string) {
	for len(row) > 0 {
		length := sumLength
		switch row[0] {
		case blankCell, formulaCell:
			length = 1
		case formCell:
			length = 1 + sumLength
		}
		length = min(length, len(row))
		signs, row = append(signs, row[:length]), row[length:]
	}
	return signs
}

// Changed lists the rows in which two views of one sheet differ. Where rows may stand in another order, it lists those that
// were not there, and gone is how many were there and are not.
func (v *View) Changed(now *View) (rows []int, gone int) {
	if views[v.Mark].sorted {
		return v.changedInAnyOrder(now)
	}
	for number := range max(len(v.Rows), len(now.Rows)) {
		if !sameRow(v.Row(number+1), now.Row(number+1)) {
			rows = append(rows, number+1)
		}
	}
	return rows, 0
}

func (v *View) changedInAnyOrder(now *View) (rows []int, gone int) {
	left := make(map[string]int)
	for _, row := range v.Rows {
		if row != "" {
			left[row]++
			gone++
		}
	}
	for number, row := range now.Rows {
		switch {
		case row == "":
		case left[row] > 0:
			left[row]--
			gone--
		default:
			rows = append(rows, number+1)
		}
	}
	return rows, max(0, gone-len(rows)) // one that says otherwise is one that is gone as well
}
