package writing

import (
	"testing"

	"github.com/xuri/excelize/v2"
)

func TestDraft(t *testing.T) {
	results := fairResults(t)
	file := excelize.NewFile()
	file.SetSheetName("Sheet1", "Kill sheet")
	looks := newLook(file, false)
	p := &press{Results: results, look: looks, newPage: func(w plan) *page {
		return openPage(func(name, mark string) (string, error) {
			_, err := file.NewSheet(name)
			if err == nil {
				err = file.SetDefinedName(&excelize.DefinedName{Name: mark, RefersTo: "'" + name + "'!$A$1"})
			}
			return name, err
		}, looks, w)
	}}
	for _, s := range sheets {
		if err := s(p); err != nil {
			t.Fatal(err)
		}
	}
	if err := file.SaveAs("/tmp/sheets/draft.xlsx"); err != nil {
		t.Fatal(err)
	}
}
