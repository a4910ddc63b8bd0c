package writing

import (
	"path/filepath"
	"testing"

	"github.com/google/go-cmp/cmp"

	"railbook/rules"
	"railbook/workbook/parts"
	"railbook/workbook/reading"
)

// What does not fit one Readings sheet goes on in the next, and is read back whole.
func TestReadingsGoOnInAnotherSheet(t *testing.T) {
	results := fromFile(t, filepath.Join("..", "..", "testdata", "demo", "fair.xlsx"), rules.Default())
	records := reading.Records(results.Read)
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
	book, err := parts.Open(path, parts.OpenOptions{})
	if err != nil {
		t.Fatal(err)
	}
	previous, err := reading.ReadPrevious(book)
	if err != nil {
		t.Fatal(err)
	}
	if diff := cmp.Diff(records, previous.Readings); diff != "" {
		t.Error(diff)
	}
}
