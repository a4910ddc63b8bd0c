package writing

import (
	"railbook/workbook/reading"
)

// press writes our sheets one after another.
type press struct {
	*Results
	look *look
}

func newPress(results *Results) *press {
	return &press{Results: results, look: lookOf(results.Book, results.Run.Status == reading.Signed)}
}

// open starts a sheet with the status of the results on it.
func (p *press) open(wanted plan) *page {
	wanted.Status = p.status()
	if wanted.Subtitle == "" {
		wanted.Subtitle = p.status()
	}
	return openPage(p.Book.NewSheet, p.look, wanted)
}
