package intake

import (
	"fmt"
	"maps"
	"slices"
	"strings"

	"railbook/grading"
	"railbook/rules"
	"railbook/rules/measure"
	"railbook/rules/phrase"
	"railbook/validate"
)

// unreadCell is a cell that can't be read as the measure its heading names.
type unreadCell struct {
	under   *column
	carcass *grading.Carcass
	id      measure.ID
	reading grading.Reading
	foreign bool // it has nothing of the measure in it, as a slip of the pen would
	code    string
}

// settledAtOnce are the findings of single cells that one act settles for a whole column, with what is said of it.
var settledAtOnce = map[string]string{
	"ambiguous marbling number": "can be read in more than one way: a number below 100 means nothing unless the rulebook or the heading declares the scale; set the marbling scale in the rulebook, or leave these carcasses out",
	dittoSigns:                  "stand for what is written above them; write a value in each, since rows may be sorted, or leave these carcasses out",
	"formula never calculated":  "hold formulas that were never calculated; open the workbook in a spreadsheet program, save it and grade it again",
}

// dittoSigns is the code of values that only repeat what stands above, which one act writes out.
const dittoSigns = "ditto signs"

// unusedMeasures are those by which nothing is computed, placed or priced: an unreadable one holds no carcass.
var unusedMeasures = []measure.ID{
	measure.Exhibitor, measure.Club, measure.Family, measure.Breed, measure.Sex, measure.Remarks, measure.LivePlacing, measure.RailNumber,
	measure.SheetYieldGrade, measure.SheetQualityGrade, measure.SheetDressingPercent, measure.SheetCutability,
}

// restsNothingOn reports whether nothing rests on a measure: nothing rests on the plant's quality grade unless the rulebook lets it stand.
func (r *reader) restsNothingOn(id measure.ID) bool {
	return slices.Contains(unusedMeasures, id) && (id != measure.SheetQualityGrade || r.book.Settings.WithoutMarbling != rules.QualityOfPlant)
}

// foreignTo reports whether what is written can be no slip of a value of the kind.
func foreignTo(kind measure.Kind, parsed parsedCell, written string) bool {
	if parsed.code != "" || parsed.hint != "" {
		return false
	}
	switch kind {
	case measure.KindGrade, measure.KindMark, measure.KindLowering:
		return true
	case measure.KindNumber, measure.KindMarbling, measure.KindMaturity:
		return !strings.ContainsAny(written, "0123456789?") && hasLetter(written)
	}
	return false
}

// fewestOfColumn is how many cells of a column, none of them readable, show that the heading means something else.
const fewestOfColumn = 2

// settleUnread looks at what could not be read column by column. A column of which nothing can be read as the measure has
// a wrong heading, and is one question. Cells that nothing is placed by are one question a column, and left blank.
func (tr *tableReader) settleUnread() {
	var order []*column
	byColumn := map[int][]unreadCell{}
	for _, cell := range tr.unread {
		if byColumn[cell.under.number] == nil {
			order = append(order, cell.under)
		}
		byColumn[cell.under.number] = append(byColumn[cell.under.number], cell)
	}
	for _, under := range order {
		cells := tr.askAtOnce(under, byColumn[under.number])
		if len(cells) == 0 {
			continue
		}
		foreign := !slices.ContainsFunc(cells, func(cell unreadCell) bool { return !cell.foreign || cell.id != cells[0].id })
		switch {
		case foreign && len(cells) >= fewestOfColumn && under.readable == 0 && !under.meaning.byHand:
			tr.leaveColumn(under, cells)
		case tr.restsNothingOn(cells[0].id):
			tr.askOnce(validate.Finding{
				Level: validate.Look, Code: "cells left blank", At: tr.table.page.place(under.at), Measure: cells[0].id, Read: under.text,
				Message: fmt.Sprintf("under %s, %s can't be read as %s (%s) and %s left blank. Nothing is placed or priced by them; mend them, or accept as is.",
					phrase.Quote(under.text), phrase.Plural(len(cells), "cell", "cells"), cells[0].id, cellsWritten(cells), phrase.Agreeing(len(cells), "was", "were")),
			}, cells)
		}
	}
}

// askAtOnce asks once about many cells of a column that one act settles, and gives the others.
func (tr *tableReader) askAtOnce(under *column, cells []unreadCell) (others []unreadCell) {
	alike := map[string][]unreadCell{}
	for _, cell := range cells {
		atOnce := settledAtOnce[cell.code] != ""
		switch cell.code {
		case "ambiguous marbling number":
			atOnce = !hasLetter(cell.reading.Written)
		case dittoSigns:
			atOnce = !tr.restsNothingOn(cell.id)
		}
		if atOnce {
			alike[cell.code] = append(alike[cell.code], cell)
		}
	}
	for _, code := range slices.Sorted(maps.Keys(settledAtOnce)) {
		found, words := alike[code], settledAtOnce[code]
		if len(found) < manyOf {
			continue
		}
		asked := validate.Finding{
			Level: validate.Hold, Code: code, At: tr.table.page.place(under.at), Measure: found[0].id, Read: under.text, Never: true,
			Message: fmt.Sprintf("%s under %s (%s) %s.", phrase.Plural(len(found), "cell", "cells"), phrase.Quote(under.text), cellsWritten(found), words),
		}
		for _, cell := range found {
			asked.Others = append(asked.Others, cell.carcass)
		}
		tr.askOnce(asked, found)
		cells = slices.DeleteFunc(cells, func(cell unreadCell) bool { return slices.Contains(asked.Others, cell.carcass) && cell.code == code })
	}
	return cells
}

// cellsWritten names the first cells with what is written in them.
func cellsWritten(cells []unreadCell) string {
	var list []string
	for _, cell := range cells {
		list = append(list, cell.reading.Place.Cell+" "+phrase.Quote(cell.reading.Written))
	}
	return strings.Join(phrase.Examples(list, examples), ", ")
}

// leaveColumn takes back all that was read under a heading that means something else, and searches its cells instead.
func (tr *tableReader) leaveColumn(under *column, cells []unreadCell) {
	tr.askOnce(validate.Finding{
		Level: validate.Look, Code: "column not read", At: tr.table.page.place(under.at), Measure: cells[0].id, Read: under.text,
		Message: fmt.Sprintf("nothing under %s can be read as %s (%s), so its column was not read. If the heading means something else, accept as is; otherwise write its values again.",
			phrase.Quote(under.text), cells[0].id, cellsWritten(cells)),
	}, cells)
	tr.result.Passed = append(tr.result.Passed, PassedOver{
		At: tr.table.page.place(under.at), Written: under.text, Why: "nothing in the column can be read as " + cells[0].id.String(),
	})
	for _, cell := range cells {
		if cell.carcass.ReadingOf(cell.id).Place == cell.reading.Place {
			cell.carcass.ClearReading(cell.id)
		}
	}
	under.meaning.candidates, under.left = nil, true
	for _, plans := range tr.parsers {
		for i := range plans {
			if plans[i].column == under {
				plans[i].parser = nil
			}
		}
	}
	for _, cell := range cells {
		tr.raise(cell.carcass, searched{cell.reading.Written, cell.reading.Place, "the cell under " + phrase.Quote(under.text), under.number, false}, namedUnder(under.text, cell.reading.Written))
	}
}

// askOnce puts one question about a column in the place of those about its cells.
func (tr *tableReader) askOnce(question validate.Finding, cells []unreadCell) {
	tr.result.Findings = slices.DeleteFunc(tr.result.Findings, func(finding validate.Finding) bool {
		return finding.Level == validate.Hold && finding.Carcass != nil && slices.ContainsFunc(cells, func(cell unreadCell) bool {
			return finding.Carcass == cell.carcass && finding.Measure == cell.id && finding.At == cell.reading.Place
		})
	})
	tr.reader.raised = slices.DeleteFunc(tr.reader.raised, func(already raised) bool {
		return slices.ContainsFunc(cells, func(cell unreadCell) bool {
			return already.At == cell.reading.Place && question.Code == "column not read"
		})
	})
	tr.find(question)
}

// reportUnused says once for a sheet which columns no measure needs. Their cells were searched for conditions.
func (r *reader) reportUnused(tr *tableReader, said map[int]bool) {
	var headings []string
	for _, column := range tr.table.columns {
		if len(column.meaning.candidates) == 0 && !said[column.number] && !column.left && !isDotColumn(column.text) {
			headings = append(headings, phrase.Quote(column.text))
		}
	}
	for _, column := range tr.unheaded() {
		headings = append(headings, "what stands under "+tr.table.page.place(column.at).Cell+", which has no heading")
	}
	if len(headings) > 0 {
		r.find(validate.Finding{
			Level: validate.Note, Code: "not used", At: tr.sheetPlace(),
			Message: "Not used: " + strings.Join(headings, ", ") + ".",
		})
	}
}
