package fair

import (
	"railbook/workbook/record"
	"railbook/workbook/result"
	"railbook/workbook/sheets/kit"
)

// Writer writes our sheets one after another.
type Writer struct {
	*result.Results
	Look *kit.Look

	lines func() []string // of the record, once they are made
}

func newWriter(results *result.Results) *Writer {
	return &Writer{Results: results, Look: kit.LookOf(results.Book, results.Run.Status == record.Signed)}
}

// open starts a sheet with the status of the results on it.
func (p *Writer) open(wanted kit.PageSetup) *kit.Page {
	wanted.Status, wanted.Of = p.Status(), result.FairLine(p.AboutFair(), result.AnyText)
	if wanted.Subtitle == "" {
		wanted.Subtitle = p.Status()
	}
	return kit.OpenPage(p.Book.NewSheet, p.Look, wanted)
}
