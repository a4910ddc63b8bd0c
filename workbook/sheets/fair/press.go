package fair

import (
	"railbook/workbook/record"
	"railbook/workbook/result"
	"railbook/workbook/sheets/kit"
)

// press writes our sheets one after another.
type Press struct {
	*result.Results
	Look *kit.Look
}

func newPress(results *result.Results) *Press {
	return &Press{Results: results, Look: kit.LookOf(results.Book, results.Run.Status == record.Signed)}
}

// open starts a sheet with the status of the results on it.
func (p *Press) open(wanted kit.Plan) *kit.Page {
	wanted.Status = p.Status()
	if wanted.Subtitle == "" {
		wanted.Subtitle = p.Status()
	}
	return kit.OpenPage(p.Book.NewSheet, p.Look, wanted)
}
