package workbook

import (
	"fmt"
	"slices"
	"strconv"

	"railbook/rules"
	"railbook/rules/address"
	"railbook/rules/phrase"
	"railbook/validate"
	"railbook/workbook/intake"
	"railbook/workbook/record"
)

// alteredFindings say of each sheet of ours that was changed by hand that it is written again.
func alteredFindings(altered []intake.Altered) (findings []validate.Finding) {
	for _, sheet := range altered {
		at := rules.Place{Sheet: sheet.Sheet}
		switch {
		case len(sheet.Cells) > 0:
			at.Cell = sheet.Cells[0]
		case len(sheet.Rows) > 0:
			at.Cell = address.Cell(1, sheet.Rows[0])
		}
		findings = append(findings, validate.Finding{
			Level: validate.Note, Code: record.SheetAltered, At: at,
			Message: fmt.Sprintf("Sheet %q: %s since the program wrote it. It is written again from the record; what was typed there does not count.", sheet.Sheet, alteredWords(sheet)),
		})
	}
	return findings
}

func alteredWords(sheet intake.Altered) string {
	switch {
	case sheet.Columns:
		return "the computed columns beside the data were taken out"
	case len(sheet.Cells) > 0:
		return phrase.Agreeing(len(sheet.Cells), "computed cell ", "computed cells ") + phrase.JoinAnd(phrase.Few(sheet.Cells)) + phrase.Agreeing(len(sheet.Cells), " was", " were") + " typed over"
	case len(sheet.Rows) > 0:
		var rows []string
		for _, row := range sheet.Rows {
			rows = append(rows, strconv.Itoa(row))
		}
		return phrase.Agreeing(len(rows), "row ", "rows ") + phrase.JoinAnd(phrase.Few(rows)) + phrase.Agreeing(len(rows), " was", " were") + " changed"
	case sheet.RowsOut > 0:
		return phrase.Plural(sheet.RowsOut, "row was", "rows were") + " taken out"
	}
	return "it was taken out"
}

// alteredBeside finds the computed cells beside the data that were typed over, wherever their carcass's row stands by now.
func alteredBeside(blocks []intake.Beside, pairs []record.Pair) (altered []intake.Altered) {
	for b := range blocks {
		block := &blocks[b]
		columns := columnsBefore(block.Sheet, pairs)
		var cells []string
		compare := func(wasRow, isRow int) {
			was := block.Was.Row(wasRow)
			if was == "" || wasRow > record.MostRows || isRow > record.MostRows {
				return
			}
			for _, column := range record.CellsChanged(was, block.Row(isRow, columns)) {
				cells = append(cells, address.Cell(block.FirstColumn+column-1, isRow))
			}
		}
		compare(block.WasHeadingAt, block.HeadingAt)
		for _, pair := range pairs {
			wasRow, errWas := strconv.Atoi(pair.Was.Row)
			isRow, errIs := strconv.Atoi(pair.Is.Row)
			if errWas == nil && errIs == nil && pair.Is.Sheet == block.Sheet && pair.Was.Sheet == block.Was.Sheet && wasRow != block.WasHeadingAt {
				compare(wasRow, isRow)
			}
		}
		if len(cells) > 0 {
			altered = append(altered, intake.Altered{Sheet: block.Sheet, Cells: slices.Compact(cells)})
		}
	}
	return altered
}

// enoughPairs tell where the columns of a sheet stood.
const enoughPairs = 200

// columnsBefore gives for the columns of a sheet in which measures stand where these stood before.
func columnsBefore(sheet string, pairs []record.Pair) map[int]int {
	columns := make(map[int]int)
	for _, pair := range pairs[:min(len(pairs), enoughPairs)] {
		for was := range pair.Was.EachReading() {
			is := pair.Is.Reading(was.Measure)
			if is == nil || is.Sheet != sheet || was.Sheet != pair.Was.Sheet {
				continue
			}
			now, _, isCell := address.Parse(is.Cell)
			before, _, wasCell := address.Parse(was.Cell)
			if isCell && wasCell {
				columns[now] = before
			}
		}
	}
	return columns
}
