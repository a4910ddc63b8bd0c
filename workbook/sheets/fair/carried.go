package fair

import (
	"encoding/base64"

	"railbook/workbook/intake"
	"railbook/workbook/sheets/kit"
	"railbook/workbook/sheets/rulebook"
)

// lettersALine is how much of a carried file stands in one cell; a cell holds 32,767 characters at most.
const lettersALine = 8000

// writeCarried keeps the files that were read along with the workbook, on a hidden sheet.
func (p *Press) writeCarried() error {
	if len(p.Carried) == 0 {
		return nil
	}
	page := p.open(kit.Plan{
		Name: intake.CarriedSheet, Mark: intake.CarriedMark, Title: "Read along",
		Subtitle: "The files that were read along with the workbook, as base64 text, so that grading again needs nothing else",
		Widths:   []float64{14, 30, 60}, Landscape: true, RepeatFrom: 3, RepeatTo: 3, FreezeRows: 3, Tab: kit.WorkingTab,
	})
	page.Headings(intake.CarriedRoleColumn, intake.CarriedFileColumn, intake.CarriedDataColumn)
	plain := kit.Style{Role: kit.Body}
	for _, file := range p.Carried {
		role, name, text := file.Role, file.Name, base64.StdEncoding.EncodeToString(file.Data)
		for from := 0; from == 0 || from < len(text); from += lettersALine {
			page.Write(kit.Entry{Value: role, Style: plain}, kit.Entry{Value: name, Style: plain}, kit.Entry{Value: text[from:min(from+lettersALine, len(text))], Style: plain})
			role, name = "", ""
		}
	}
	if err := page.Close(); err != nil {
		return err
	}
	rulebook.Hide(p.Book.Excel(), page.Name)
	return nil
}
