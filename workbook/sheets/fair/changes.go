package fair

import (
	"fmt"
	"slices"
	"strings"

	"railbook/rules/phrase"
	"railbook/workbook/record"
	"railbook/workbook/sheets/kit"
)

const changeColumns = 11

// writeChanges writes every correction that was made in any revision, the first one first.
func (p *Writer) writeChanges() error {
	var hidden []int
	if !slices.ContainsFunc(p.Changes, func(change record.Change) bool { return change.At.File != "" }) {
		hidden = []int{changeColumns} // no change stands in another file
	}
	page := p.open(kit.PageSetup{
		Name: record.ChangeSheet, Mark: record.ChangeMark, Title: "Change record: " + p.Status(),
		Subtitle: fmt.Sprintf("%s since the first reading of %s", phrase.Plural(len(p.Changes), "change", "changes"), p.Run.InputName),
		Widths:   []float64{11, 8, 12, 7.5, 12, 9, 6, 9, 9, 40, 10}, Hidden: hidden,
		Landscape: true, RepeatFrom: 3, RepeatTo: 3, FreezeRows: 3, Protected: true, Tab: kit.FirstTab,
	})
	page.Headings(record.WhenColumn, record.WhoColumn, record.ClassColumn, record.TagColumn, record.MeasureColumn,
		record.SheetColumn, record.CellColumn, record.WasColumn, record.IsColumn, record.MovedColumn, record.FileColumn)
	for _, change := range p.Changes {
		changeRow(page, change)
	}
	if len(p.Changes) == 0 {
		page.Across("No value has been changed since the workbook was first graded.", kit.Body, 1, changeColumns)
	}
	if len(p.Changes) == 0 {
		return page.CloseHidden() // there is nothing to read or to print yet
	}
	return page.Close()
}

// movedWords says what a change moved, with the class of those alone that are of another one than the change.
func movedWords(change record.Change) string {
	if change.Class == "" {
		return change.Moved
	}
	return strings.ReplaceAll(change.Moved, " ("+change.Class+")", "")
}

func changeRow(page *kit.Page, change record.Change) {
	plain, wrapped := kit.Style{Role: kit.Body}, kit.Style{Role: kit.Body, Wrap: true}
	cell := kit.Entry{Value: change.At.Cell, Style: plain}
	linked := change.At.File == "" && change.At.Sheet != "" && change.At.Cell != ""
	if linked {
		cell.Style.Role = kit.Link
	}
	page.Write(
		kit.Entry{Value: change.When, Style: plain}, kit.Entry{Value: change.Who, Style: wrapped}, kit.Entry{Value: change.Class, Style: wrapped}, kit.Entry{Value: change.Tag, Style: kit.Style{Role: kit.Strong}},
		kit.Entry{Value: change.Measure.String(), Style: wrapped}, kit.Entry{Value: change.At.Sheet, Style: wrapped}, cell,
		kit.Entry{Value: change.Was, Style: wrapped}, kit.Entry{Value: change.Is, Style: wrapped}, kit.Entry{Value: movedWords(change), Style: wrapped}, kit.Entry{Value: change.At.File, Style: wrapped},
	)
	if linked {
		page.Link(7, change.At.Sheet, change.At.Cell)
	}
}
