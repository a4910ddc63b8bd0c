package rulebook

import (
	"strings"

	"github.com/shopspring/decimal"

	"railbook/rules"
	"railbook/workbook/intake"
	"railbook/workbook/sheets/kit"
)

// portraitWidth is how wide a sheet may be, in characters, and still be printed upright.
const portraitWidth = 115

// rulebookWidths are column widths in characters, by heading; other columns have defaultRulebookWidth.
var rulebookWidths = map[string]float64{
	"Setting": 27, "Value": 22, "Source": 46, "Species": 9, "Part": 10, "Name": 17, "Measure": 26, "Usual": 22,
	"Class": 18, "Basis": 11, "Also called": 26, "Ranking": 18, "Step": 6, "Which first": 16, "Failing": 18, "Award": 18,
	"Classes": 30, "Group": 14, "Order": 7, "Index": 18, "Accepted headings": 92, "Unit": 9, "In words": 32,
	"Lowest grade": 13, intake.MeaningHeading: 76,
}

// measuresWidths are those of the Measures sheet, most of whose lines say in six columns what the program's own measures are.
var measuresWidths = map[string]float64{
	"Measure": 25, "Species": 8, "Decimals": 9, "Read or computed": 10, "Meaning": 48, "Accepted headings": 30, "Source": 24,
}

// listedColumns is how many columns those lines take.
const listedColumns = 6

const (
	defaultRulebookWidth = 11
	narrowSource         = 24
)

func (s rulebookSheet) Headings() []string {
	var headings []string
	for _, column := range s.layout.Columns {
		headings = append(headings, column.Heading)
	}
	if s.explained() {
		headings = append(headings, intake.MeaningHeading)
	}
	return headings
}

// explained reports whether each line has its meaning beside it.
func (s rulebookSheet) explained() bool { return s.layout.Name == rules.SettingsTable }

func (s rulebookSheet) widths() []float64 {
	var widths []float64
	for _, heading := range s.Headings() {
		width, found := rulebookWidths[heading]
		switch {
		case s.layout.Name == rules.MeasuresTable && measuresWidths[heading] > 0:
			width = measuresWidths[heading]
		case !found:
			width = defaultRulebookWidth
		case heading == "Source" && (s.layout.Name == rules.HeadingsTable || s.layout.Name == rules.RankingTable || s.layout.Name == rules.EligibilityTable):
			width = narrowSource
		}
		widths = append(widths, width)
	}
	return widths
}

// lines gives the table's lines that are not blank, their cells in the order of the layout's columns.
func (s rulebookSheet) lines() [][]string {
	if len(s.table.Rows) == 0 {
		return nil
	}
	at := make(map[string]int)
	for column, cell := range s.table.Rows[0] {
		at[strings.ToLower(strings.TrimSpace(cell.Text))] = column
	}
	var lines [][]string
	for _, row := range s.table.Rows[1:] {
		line := make([]string, len(s.layout.Columns))
		filled := false
		for number, column := range s.layout.Columns {
			if from, found := at[strings.ToLower(column.Heading)]; found && from < len(row) {
				line[number] = strings.TrimSpace(row[from].Text)
				filled = filled || line[number] != ""
			}
		}
		if filled {
			lines = append(lines, line)
		}
	}
	return lines
}

// entries are the cells of one line; nil is a line to be filled in.
func (s rulebookSheet) entries(line []string) []kit.Entry {
	var entries []kit.Entry
	for number, column := range s.layout.Columns {
		text := ""
		if line != nil {
			text = line[number]
		}
		entries = append(entries, s.entry(column, text, line))
	}
	if s.explained() && line != nil {
		entries = append(entries, kit.Entry{Value: meaningOf(line[0]), Style: kit.Style{Role: kit.Note, Wrap: true}})
	}
	return entries
}

func (s rulebookSheet) entry(column rules.Column, text string, line []string) kit.Entry {
	cell := kit.Entry{Value: text, Style: kit.Style{Role: kit.Body, Wrap: true}}
	if decided(column) && !s.hasNoBand(column, line) {
		cell.Style.Role = kit.Input
	}
	numeric := column.Holds == rules.HoldsNumber || column.Holds == rules.HoldsAny || column.Heading == "Step"
	cell.Style.Align = alignOf(column)
	number, err := decimal.NewFromString(text)
	if !numeric || err != nil || number.String() != plainNumber(text) {
		return cell
	}
	cell.Value, cell.Style.Wrap = number, false
	if cell.Style.Align == "" {
		cell.Style.Align = "right"
	}
	cell.Style.Format = rulebookFormat(column, line)
	return cell
}

func alignOf(column rules.Column) string {
	switch {
	case column.Holds == rules.HoldsNumber:
		return "right"
	case column.Holds == rules.HoldsYesNo, column.Heading == "Step":
		return "center"
	}
	return ""
}

// headingEntries are the headings, each standing over its cells.
func (s rulebookSheet) headingEntries() []kit.Entry {
	var entries []kit.Entry
	for _, text := range s.Headings() {
		entries = append(entries, kit.Entry{Value: text, Style: kit.Style{Role: kit.Heading, Wrap: true}})
	}
	for number, column := range s.layout.Columns {
		entries[number].Style.Align = alignOf(column)
	}
	return entries
}

// plainNumber takes off the zeros that a number could be written without.
func plainNumber(text string) string {
	if strings.Contains(text, ".") {
		text = strings.TrimRight(strings.TrimRight(text, "0"), ".")
	}
	return text
}

// rulebookFormat is how a number is shown.
func rulebookFormat(column rules.Column, line []string) string {
	switch {
	case column.Heading == "$/cwt":
		return `+0.00_);-0.00_);0.00_)`
	case column.Heading == "Value" && line[0] == "base price":
		return "0.00_)"
	case column.Heading == "Step":
		return ""
	}
	return "General_)"
}

// hasNoBand reports whether a cell says nothing on its line: a quality or condition line of the grid has no band.
func (s rulebookSheet) hasNoBand(column rules.Column, line []string) bool {
	if s.layout.Name != rules.GridTable || line == nil || line[1] == string(rules.YieldPart) || line[1] == string(rules.WeightPart) {
		return false
	}
	switch column.Heading {
	case "From", "From counts", "Up to", "Up to counts":
		return true
	}
	return false
}

// decided reports whether a column is one in which the board decides, rather than one that names what is decided.
func decided(column rules.Column) bool {
	switch column.Holds {
	case rules.HoldsNumber, rules.HoldsYesNo, rules.HoldsAny:
		return true
	}
	switch column.Heading {
	case "Which first", "Failing", "Ranking", "Lowest grade", "Accepted headings", "Also called", "In words":
		return true
	}
	return false
}

func meaningOf(setting string) string {
	for _, known := range rules.EverySetting() {
		if strings.EqualFold(known.Name, setting) {
			return known.Meaning
		}
	}
	return ""
}

// spareLines is how many tinted lines follow the last one.
func spareLines(table string) int {
	if table == rules.SettingsTable {
		return 0
	}
	return 6
}

func Sum(widths []float64) float64 {
	whole := 0.0
	for _, width := range widths {
		whole += width
	}
	return whole
}
