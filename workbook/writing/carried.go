package writing

import (
	"encoding/base64"

	"railbook/workbook/reading"
)

// lettersALine is how much of a carried file stands in one cell; a cell holds 32,767 characters at most.
const lettersALine = 8000

// writeCarried keeps the files that were read along with the workbook, on a hidden sheet.
func (p *press) writeCarried() error {
	if len(p.Carried) == 0 {
		return nil
	}
	page := p.open(plan{
		Name: reading.CarriedSheet, Mark: reading.CarriedMark, Title: "Read along",
		Subtitle: "The files that were read along with the workbook, as base64 text, so that grading again needs nothing else",
		Widths:   []float64{14, 30, 60}, Landscape: true, RepeatFrom: 3, RepeatTo: 3, FreezeRows: 3, Tab: workingTab,
	})
	page.headings(reading.CarriedRoleColumn, reading.CarriedFileColumn, reading.CarriedDataColumn)
	plain := style{Role: body}
	for _, file := range p.Carried {
		role, name, text := file.Role, file.Name, base64.StdEncoding.EncodeToString(file.Data)
		for from := 0; from == 0 || from < len(text); from += lettersALine {
			page.write(entry{role, plain}, entry{name, plain}, entry{text[from:min(from+lettersALine, len(text))], plain})
			role, name = "", ""
		}
	}
	if err := page.close(); err != nil {
		return err
	}
	hide(p.Book.Excel(), page.Name)
	return nil
}
