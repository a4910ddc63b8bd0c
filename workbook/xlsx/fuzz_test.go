package xlsx

import (
	"archive/zip"
	"bytes"
	"testing"
)

// Whatever the bytes, opening and scanning ends in a grid or in a sentence, and never in a panic.
func FuzzOpenAndScan(f *testing.F) {
	plain := plainWorkbook(twoRows)
	f.Add(pack(f, plain))
	f.Add(pack(f, nil))
	f.Add([]byte("Tag;HCW\n1;812,5\n"))
	f.Add([]byte("\xFF\xFET\x00a\x00g\x00"))
	f.Add([]byte("\xD0\xCF\x11\xE0\xA1\xB1\x1A\xE1"))
	for _, sheet := range oddSheets() {
		f.Add(pack(f, with(plain, "xl/worksheets/sheet1.xml", sheet)))
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		for _, name := range []string{"fair.xlsx", "fair.csv"} {
			book, err := OpenBytes(name, data, OpenOptions{Password: "x"})
			if err != nil {
				continue
			}
			for _, sheet := range book.Sheets() {
				_, _ = book.Scan(sheet.Name)
			}
		}
	})
}

// Whatever a sheet's XML, scanning it ends in a grid or in a sentence; and where it is a grid, columns can be added and
// taken out again, or a sentence says why not.
func FuzzSheet(f *testing.F) {
	for _, sheet := range oddSheets() {
		f.Add(sheet)
	}
	f.Fuzz(func(t *testing.T, sheet string) {
		scan := scanner{tags: tags{data: sheet}, texts: []string{"Tag"}, grid: &Grid{HiddenColumns: map[int]bool{}}}
		if scan.sheet() != nil {
			return
		}
		patched, patch, err := patchedSheet(block("Steers", 30, 1, 4), []byte(sheet))
		if err != nil {
			return
		}
		again := scanner{tags: tags{data: string(patched)}, texts: []string{"Tag"}, grid: &Grid{HiddenColumns: map[int]bool{}}}
		if err := again.sheet(); err != nil {
			t.Fatalf("the sheet was whole before anything was added: %v\n%s", err, patched)
		}
		back := stripping{data: patched, area: patch.area(), undo: readUndo(patch.undo.String())}
		if _, err := back.sheet(); err != nil {
			t.Fatalf("what was added can't be taken out: %v", err)
		}
	})
}

// The parts of a workbook may be packed in any way that ZIP knows, and named as other systems name them.
func TestOddPackaging(t *testing.T) {
	var data bytes.Buffer
	archive := zip.NewWriter(&data)
	for name, text := range plainWorkbook(twoRows) {
		switch name {
		case "xl/worksheets/sheet1.xml":
			name = `xl\worksheets\sheet1.xml`
		case "xl/sharedStrings.xml":
			name = "xl/SharedStrings.xml"
		}
		entry, err := archive.CreateHeader(&zip.FileHeader{Name: name, Method: zip.Store})
		if err != nil {
			t.Fatal(err)
		}
		if _, err := entry.Write([]byte(text)); err != nil {
			t.Fatal(err)
		}
	}
	if _, err := archive.Create("xl/media/"); err != nil {
		t.Fatal(err)
	}
	if err := archive.Close(); err != nil {
		t.Fatal(err)
	}
	if got := grid(t, open(t, data.Bytes()), "Steers").Rows[1].Cells[1].Raw; got != "812.5" {
		t.Errorf("B2 is %q", got)
	}
}
