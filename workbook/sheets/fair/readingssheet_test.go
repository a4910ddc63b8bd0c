package fair

import (
	"path/filepath"
	"testing"

	"railbook/rules"
	"railbook/workbook/intake"
	"railbook/workbook/xlsx"

	"github.com/google/go-cmp/cmp"
)

// What does not fit one Readings sheet goes on in the next, and is read back whole.
func TestReadingsGoOnInAnotherSheet(t *testing.T) {
	results := fromFile(t, filepath.Join("..", "..", "..", "testdata", "demo", "fair.xlsx"), rules.Default())
	records := intake.Records(results.Read)
	press := newPress(results)
	if err := press.writeRecords(len(records)/2 + 1); err != nil {
		t.Fatal(err)
	}
	if err := press.writeRunRecord(); err != nil {
		t.Fatal(err)
	}
	path := filepath.Join(t.TempDir(), "results.xlsx")
	if err := saveAs(results.Book, path); err != nil {
		t.Fatal(err)
	}
	book, err := xlsx.Open(path, xlsx.OpenOptions{})
	if err != nil {
		t.Fatal(err)
	}
	previous, err := intake.ReadPrevious(book)
	if err != nil {
		t.Fatal(err)
	}
	if diff := cmp.Diff(records, previous.Readings); diff != "" {
		t.Error(diff)
	}
}
