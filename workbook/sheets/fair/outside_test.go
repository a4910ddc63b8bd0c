package fair

import (
	"os"
	"strings"
	"testing"

	"railbook/workbook/intake"
	"railbook/workbook/sheets/sheetstest"
	"railbook/workbook/sheets/sheetstest/python"
	"railbook/workbook/xlsx"
)

func TestWhatLibreOfficeSavesAgainIsReadBack(t *testing.T) {
	if testing.Short() {
		t.Skip("starts LibreOffice")
	}
	results := sheetstest.FairResults(t)
	results.Decisions[2].Message = "The judge's own call."
	book, err := xlsx.Open(sheetstest.Resaved(t, "xlsx", sheetstest.Saved(t, writeAll(t, results)))[0], xlsx.OpenOptions{})
	if err != nil {
		t.Fatal(err)
	}
	previous, err := intake.ReadPrevious(book)
	if err != nil {
		t.Fatal(err)
	}
	if diff := sameAsWritten(results, previous); diff != "" {
		t.Error(diff)
	}
}

func TestAnotherLibraryReadsOurSheets(t *testing.T) {
	if testing.Short() {
		t.Skip("starts Python")
	}
	path := sheetstest.Saved(t, writeAll(t, sheetstest.FairResults(t)))
	output := python.Run(t, sheetstest.AsOpenpyxlSeesIt, path)
	for _, want := range []string{
		"Placings|0|0|0|False|1|$4:$5|True",
		"Draft reasons|0|0|0|True|1|$1:$3|True",
		"Judge review|0|4|",
		"Error log|0|5|0|False|1|$5:$5|True",
		"Summary|4|0|0|False|1|$1:$1|True",
		"Value grid|0|0|0|False|1|",
		"Change record|0|1|0|True|1|$3:$3|True",
		"Run record|0|0|0|True|1|",
	} {
		if !strings.Contains(output, want) {
			t.Errorf("no sheet is %q in\n%s", want, output)
		}
	}
}

// saveAs writes a book to a file.
func saveAs(book *xlsx.Book, path string) error {
	data, err := book.Bytes()
	if err != nil {
		return err
	}
	return os.WriteFile(path, data, 0o600)
}
