package intake

import (
	"fmt"
	"strconv"
	"strings"
	"time"

	"github.com/shopspring/decimal"

	"railbook/rules"
	"railbook/rules/address"
	"railbook/workbook/record"
	"railbook/workbook/xlsx"
)

// RulebookWords stand at the beginning of the first cell of every sheet of a rulebook. A Settings sheet that somebody
// made by hand is known by them, and so is a rulebook whose defined names another program has dropped.
const RulebookWords = "railbook rulebook"

// TableNumber gives the number of a rulebook's table, from 1, as marks have it; 0 for a name that is no table's.
func TableNumber(table string) int {
	for number, layout := range rules.Layouts() {
		if layout.Name == table {
			return number + 1
		}
	}
	return 0
}

// ReadRulebook gives the rulebook's tables that the workbook carries, each cell with its place; nil where it carries
// none. The sheets a board edits come before the copy that a results workbook was graded by. A fair may own a sheet
// called Classes: a sheet is the rulebook's if it has our mark, if its first cell says "railbook rulebook", or if the
// workbook's Settings sheet says so and this one has a rulebook sheet's name and headings.
func ReadRulebook(book *xlsx.Book) ([]rules.Table, error) {
	sheets, err := RulebookSheets(book)
	if err != nil {
		return nil, err
	}
	if len(sheets) > 0 {
		return readTables(book, sheets)
	}
	lines, sheet, err := readLines(book)
	if err != nil {
		return nil, err
	}
	if state := record.StateOf(lines, sheet); state != nil {
		return state.Rulebook, nil
	}
	return readTables(book, markedSheets(book, record.RulebookCopy))
}

// OwnRulebook gives the tables of the sheets a board edits in a fair's own workbook; nil where it has none.
func OwnRulebook(book *xlsx.Book) ([]rules.Table, error) {
	sheets, err := RulebookSheets(book)
	if err != nil || len(sheets) == 0 {
		return nil, err
	}
	return readTables(book, sheets)
}

// gradedBy gives the rulebook of results: the copy they were graded by, which also has what was given on the command line,
// unless the board's own sheets beside it were edited since.
func gradedBy(book *xlsx.Book, run record.Run, copied []rules.Table) ([]rules.Table, error) {
	own, err := OwnRulebook(book)
	if err != nil {
		return nil, err
	}
	if len(copied) == 0 || len(own) > 0 && rules.Digest(own) != run.OwnRulebookSHA {
		return own, nil
	}
	return copied, nil
}

func readTables(book *xlsx.Book, sheets map[string]string) ([]rules.Table, error) {
	var tables []rules.Table
	for _, layout := range rules.Layouts() {
		sheet, found := sheets[layout.Name]
		if !found {
			continue
		}
		grid, err := book.Scan(sheet)
		if err != nil {
			return nil, err
		}
		tables = append(tables, rulebookTable(layout, sheet, grid))
	}
	return tables, nil
}

// RulebookSheets gives the sheets of a rulebook that a board edits, by table. They hold no carcasses.
func RulebookSheets(book *xlsx.Book) (map[string]string, error) {
	if book.Text {
		return nil, nil
	}
	if sheets := markedSheets(book, record.RulebookMark); len(sheets) > 0 {
		return sheets, nil
	}
	return handMarkedSheets(book)
}

func markedSheets(book *xlsx.Book, mark string) map[string]string {
	sheets := make(map[string]string)
	ours := book.Ours()
	for number, layout := range rules.Layouts() {
		if sheet, found := ours[mark+strconv.Itoa(number+1)]; found {
			sheets[layout.Name] = sheet
		}
	}
	return sheets
}

// handMarkedSheets looks for the sheets of a rulebook without our defined names: those with a table's name whose first
// cell says "railbook rulebook" and, where Settings is one of them, those with all of the table's headings. Sheets with
// other names are not looked into.
func handMarkedSheets(book *xlsx.Book) (map[string]string, error) {
	said := make(map[string]string)
	alike := make(map[string]string)
	for sheet, layout := range namedAsTables(book) {
		grid, err := book.Scan(sheet)
		if err != nil {
			return nil, err
		}
		if strings.HasPrefix(plainWords(firstCell(grid)), RulebookWords) {
			said[layout.Name] = sheet
		} else if _, matches := headingRow(layout, grid); matches >= len(layout.Columns)-1 { // the source may be missing
			alike[layout.Name] = sheet
		}
	}
	if said[rules.SettingsTable] == "" {
		return said, nil
	}
	for table, sheet := range alike {
		if said[table] == "" {
			said[table] = sheet
		}
	}
	return said, nil
}

// namedAsTables gives the sheets that are not ours and have a table's name, "Classes" or "classes (2)".
func namedAsTables(book *xlsx.Book) map[string]rules.TableLayout {
	ours := make(map[string]bool)
	for _, sheet := range book.Ours() {
		ours[sheet] = true
	}
	named := make(map[string]rules.TableLayout)
	for _, sheet := range book.Sheets() {
		name, _, _ := strings.Cut(plainWords(sheet.Name), " (")
		for _, layout := range rules.Layouts() {
			if !ours[sheet.Name] && name == strings.ToLower(layout.Name) {
				named[sheet.Name] = layout
			}
		}
	}
	return named
}

// rulebookTable reads a sheet from its heading row down.
func rulebookTable(layout rules.TableLayout, sheet string, grid *xlsx.Grid) rules.Table {
	table := rules.Table{Name: layout.Name}
	heading, _ := headingRow(layout, grid)
	if heading < 0 {
		return table
	}
	first := grid.Rows[heading]
	last := 0
	skipped := make(map[int]bool)
	for _, cell := range first.Cells {
		if strings.TrimSpace(cell.Raw) != "" {
			last = max(last, cell.Column)
		}
		skipped[cell.Column] = plainWords(cell.Raw) == strings.ToLower(MeaningHeading)
	}
	for _, row := range grid.Rows[heading:] {
		texts := make(map[int]string)
		for _, cell := range row.Cells {
			texts[cell.Column] = rulebookText(cell, grid.Date1904)
		}
		var line rules.Row
		for column := 1; column <= last; column++ {
			if !skipped[column] {
				line = append(line, rules.Cell{
					Text: texts[column], Place: rules.Place{Sheet: sheet, Cell: address.Cell(column, row.Number)},
				})
			}
		}
		table.Rows = append(table.Rows, line)
	}
	return table
}

// MeaningHeading heads a column that is written beside the settings for the board to read, and not read back.
const MeaningHeading = "What it means"

// headingRow finds the row with the most of the layout's headings, and how many it has; -1 where none has more than one.
func headingRow(layout rules.TableLayout, grid *xlsx.Grid) (index, matches int) {
	index, matches = -1, 1
	for number, row := range grid.Rows {
		found := 0
		for _, column := range layout.Columns {
			for _, cell := range row.Cells {
				if plainWords(cell.Raw) == strings.ToLower(column.Heading) {
					found++
					break
				}
			}
		}
		if found > matches {
			index, matches = number, found
		}
	}
	if index < 0 {
		return -1, 0
	}
	return index, matches
}

// rulebookText gives a cell as a board member reads it: a percent as 62, a date as 2025-08-15.
func rulebookText(cell xlsx.Cell, date1904 bool) string {
	switch {
	case cell.Kind == xlsx.Blank && cell.Formula:
		return "a formula that was never calculated"
	case cell.Kind == xlsx.Number && cell.Percent:
		if number, err := decimal.NewFromString(cell.Raw); err == nil {
			return number.Shift(2).String()
		}
	case cell.Kind == xlsx.Number && cell.Date:
		if days, err := strconv.ParseFloat(cell.Raw, 64); err == nil && days > 0 && days < 2958466 {
			epoch := time.Date(1899, 12, 30, 0, 0, 0, 0, time.UTC)
			if date1904 {
				epoch = time.Date(1904, 1, 1, 0, 0, 0, 0, time.UTC)
			}
			return epoch.AddDate(0, 0, int(days)).Format("2006-01-02")
		}
	}
	return cell.Raw
}

func firstCell(grid *xlsx.Grid) string {
	for _, row := range grid.Rows {
		if row.Number == 1 && len(row.Cells) > 0 && row.Cells[0].Column == 1 {
			return row.Cells[0].Raw
		}
	}
	return ""
}

func plainWords(text string) string {
	return strings.ToLower(strings.Join(strings.Fields(text), " "))
}

// RulebookTitle is the first cell of a rulebook's sheet.
func RulebookTitle(table string) string { return fmt.Sprintf("%s: %s", RulebookWords, table) }
