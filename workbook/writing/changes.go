package writing

import (
	"fmt"

	"railbook/workbook/reading"
)

const changeColumns = 11

// writeChanges writes every correction that was made in any revision, the first one first.
func (p *press) writeChanges() error {
	page := p.open(plan{
		Name: reading.ChangeSheet, Mark: reading.ChangeMark, Title: "Change record: " + p.status(),
		Subtitle:  fmt.Sprintf("%s since the first reading of %s", plural(len(p.Changes), "change", "changes"), p.Run.InputName),
		Widths:    []float64{12, 12, 18, 10, 18, 16, 8, 14, 14, 60, 14},
		Landscape: true, RepeatFrom: 3, RepeatTo: 3, FreezeRows: 3, Protected: true, Tab: firstTab,
	})
	page.headings(reading.WhenColumn, reading.WhoColumn, reading.ClassColumn, reading.TagColumn, reading.MeasureColumn,
		reading.SheetColumn, reading.CellColumn, reading.WasColumn, reading.IsColumn, reading.MovedColumn, reading.FileColumn)
	for _, change := range p.Changes {
		changeRow(page, change)
	}
	if len(p.Changes) == 0 {
		page.across("No value has been changed since the workbook was first graded.", body, 1, changeColumns)
	}
	return page.close()
}

func changeRow(page *page, change reading.Change) {
	plain, wrapped := style{Role: body}, style{Role: body, Wrap: true}
	cell := entry{change.At.Cell, plain}
	linked := change.At.File == "" && change.At.Sheet != "" && change.At.Cell != ""
	if linked {
		cell.style.Role = link
	}
	page.write(
		entry{change.When, plain}, entry{change.Who, wrapped}, entry{change.Class, wrapped}, entry{change.Tag, style{Role: strong}},
		entry{change.Measure.String(), wrapped}, entry{change.At.Sheet, wrapped}, cell,
		entry{change.Was, wrapped}, entry{change.Is, wrapped}, entry{change.Moved, wrapped}, entry{change.At.File, wrapped},
	)
	if linked {
		page.link(7, change.At.Sheet, change.At.Cell)
	}
}
