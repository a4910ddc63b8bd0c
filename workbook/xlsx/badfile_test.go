package xlsx

import (
	"archive/zip"
	"bytes"
	"encoding/binary"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/xuri/excelize/v2"
)

const twoRows = `<row r="1"><c r="A1" t="s"><v>0</v></c><c r="B1" t="s"><v>1</v></c></row><row r="2"><c r="A2" t="s"><v>2</v></c><c r="B2"><v>812.5</v></c></row>`

// Every kind of file that cannot be used is refused in words that name the kind and what to do.
func TestFilesThatAreNotWhatTheySeem(t *testing.T) {
	plain := plainWorkbook(twoRows)
	whole := pack(t, plain)
	sheet := plain["xl/worksheets/sheet1.xml"]
	strs := plain["xl/sharedStrings.xml"]
	for _, test := range []struct {
		name string
		data []byte
		want []string
	}{
		{"empty.xlsx", nil, []string{"empty.xlsx is empty", "ask for it again"}},
		{"blank.csv", []byte("\xEF\xBB\xBF \r\n"), []string{"is empty"}},
		{"table.xlsx", []byte("Tag,HCW\n1,812\n"), []string{"is a text file (CSV)", "ends in .csv"}},
		{"page.xlsx", []byte("<html><body><table><tr><td>1</td></tr></table></body></html>"), []string{"web page (HTML)", "save it as .xlsx"}},
		{"page2.xls", []byte("\xEF\xBB\xBF<?xml version=\"1.0\"?>\n<!DOCTYPE html><html></html>"), []string{"web page (HTML)"}},
		{"2003.xls", []byte(`<?xml version="1.0"?><Workbook xmlns="urn:schemas-microsoft-com:office:spreadsheet"/>`), []string{"Excel 2003 XML"}},
		{"scan.xlsx", []byte("%PDF-1.4\n"), []string{"is a PDF"}},
		{"letter.xlsx", []byte(`{\rtf1\ansi`), []string{"RTF"}},
		{"photo.xlsx", []byte("\x89PNG\r\n\x1a\n\x00\x00\x00\rIHDR"), []string{"is not an Excel workbook"}},
		{"old.xls", append([]byte("\xD0\xCF\x11\xE0\xA1\xB1\x1A\xE1"), wide("Workbook")...), []string{"old Excel file (.xls)", "save it as .xlsx"}},
		{"older.xls", []byte{9, 4, 6, 0, 0, 0, 16, 0}, []string{"old Excel file (.xls)"}},
		{"letter.doc", append([]byte("\xD0\xCF\x11\xE0\xA1\xB1\x1A\xE1"), wide("WordDocument")...), []string{"old Word document"}},
		{"locked.xlsx", append([]byte("\xD0\xCF\x11\xE0\xA1\xB1\x1A\xE1"), wide("EncryptedPackage")...), []string{"protected by a password", "give the password with --password"}},
		{"~$fair.xlsx", bytes.Repeat([]byte("\x05 "), 80), []string{"name the workbook itself"}},
		{"cut.xlsx", whole[:len(whole)/2], []string{"is damaged", "Ask for the file again"}},
		{"nothing.zip", pack(t, nil), []string{"empty ZIP"}},
		{"files.zip", pack(t, map[string]string{"fair.txt": "x"}), []string{"is a ZIP file", "unpack it"}},
		{"fair.ods", pack(t, map[string]string{"mimetype": "application/vnd.oasis.opendocument.spreadsheet", "content.xml": "<x/>"}), []string{"OpenDocument spreadsheet (.ods)", "save it as Excel (.xlsx)"}},
		{"fair.odt", pack(t, map[string]string{"mimetype": "application/vnd.oasis.opendocument.text"}), []string{"OpenDocument file"}},
		{"fair.docx", pack(t, map[string]string{contentTypesPart: "<Types/>", "word/document.xml": "<x/>"}), []string{"Word document (.docx)"}},
		{"fair.pptx", pack(t, map[string]string{contentTypesPart: "<Types/>", "ppt/presentation.xml": "<x/>"}), []string{"PowerPoint"}},
		{"fair.xlsb", pack(t, map[string]string{contentTypesPart: "<Types/>", "xl/workbook.bin": "x"}), []string{".xlsb"}},
		{"flipped.xlsx", flipped(t, plain, "812.5"), []string{"is damaged", "xl/worksheets/sheet1.xml", "checksum"}},
		{"cutsheet.xlsx", pack(t, with(plain, "xl/worksheets/sheet1.xml", sheet[:strings.Index(sheet, `<row r="2"`)])), []string{"is damaged", `"Steers"`, "not all there"}},
		{"cuttag.xlsx", pack(t, with(plain, "xl/worksheets/sheet1.xml", sheet[:len(sheet)-30])), []string{"is damaged", `"Steers"`}},
		{"emptysheet.xlsx", pack(t, with(plain, "xl/worksheets/sheet1.xml", " ")), []string{"is damaged", "it is empty"}},
		{"cuttexts.xlsx", pack(t, with(plain, "xl/sharedStrings.xml", strs[:len(strs)-20])), []string{"is damaged", "sharedStrings.xml", "not all there"}},
		{"notexts.xlsx", pack(t, with(plain, "xl/sharedStrings.xml", "")), []string{"is damaged", "sharedStrings.xml", "missing"}},
		{"nosheet.xlsx", pack(t, with(plain, "xl/worksheets/sheet1.xml", "")), []string{"is damaged", "xl/worksheets/sheet1.xml", "missing"}},
		{"nostyles.xlsx", pack(t, with(plain, "xl/styles.xml", "")), []string{"is damaged", "styles.xml", "missing"}},
		{"noworkbook.xlsx", pack(t, with(plain, "xl/workbook.xml", "")), []string{"is damaged", "xl/workbook.xml", "missing"}},
		{"notypes.xlsx", pack(t, with(plain, contentTypesPart, "")), []string{"is damaged", contentTypesPart, "missing"}},
		{"untyped.xlsx", pack(t, with(plain, contentTypesPart, declaration+`<Types xmlns="http://schemas.openxmlformats.org/package/2006/content-types"/>`)), []string{"is damaged", contentTypesPart, "what xl/workbook.xml is"}},
		{"nameless.xlsx", pack(t, with(plain, "xl/workbook.xml", strings.Replace(plain["xl/workbook.xml"], `name="Steers"`, `name=""`, 1))), []string{"is damaged", "xl/workbook.xml", "a sheet without a name"}},
		{"strict.xlsx", pack(t, with(plain, "xl/workbook.xml", strings.Replace(plain["xl/workbook.xml"], "<workbook ", `<workbook xmlns:s="http://purl.oclc.org/ooxml/unheardOf" `, 1))), []string{"Strict Open XML", "xl/workbook.xml", "Save As"}},
		{"nosheets.xlsx", pack(t, with(plain, "xl/workbook.xml", declaration+`<workbook `+mainNamespace+`><sheets/></workbook>`)), []string{"has no worksheets"}},
		{"chartonly.xlsx", pack(t, with(plain, "xl/_rels/workbook.xml.rels", relationships("chartsheet worksheets/sheet1.xml"))), []string{"has no worksheets"}},
		{"latin.xlsx", pack(t, with(plain, "xl/worksheets/sheet1.xml", strings.Replace(sheet, "812.5", "\xE9", 1))), []string{"is damaged", "letters are not readable"}},
		{"utf16.xlsx", pack(t, with(plain, "xl/worksheets/sheet1.xml", "\xFF\xFE"+string(wide(sheet)))), []string{"UTF-16"}},
		{"bomb.xlsx", lying(t, plain), []string{"too large once unpacked", "copy the carcass sheets"}},
	} {
		t.Run(test.name, func(t *testing.T) {
			_, err := Open(save(t, test.name, test.data), OpenOptions{})
			says(t, err, test.want...)
			if err != nil && !strings.Contains(err.Error(), test.name) {
				t.Errorf("the file is not named: %v", err)
			}
		})
	}
}

func TestNoFileAtAll(t *testing.T) {
	folder := t.TempDir()
	_, err := Open(folder, OpenOptions{})
	says(t, err, "is a folder", "name the workbook in it")
	_, err = Open(filepath.Join(folder, "fair.xlsx"), OpenOptions{})
	says(t, err, "there is no file", "check the name")
	_, err = Open(filepath.Join(folder, strings.Repeat("long", 100)+".xlsx"), OpenOptions{})
	says(t, err, "its name is longer than a file's can be")
	_, err = Open(filepath.Join(save(t, "plain.xlsx", []byte("x")), "fair.xlsx"), OpenOptions{})
	says(t, err, "plain.xlsx is no folder")
	_, err = Open(os.DevNull, OpenOptions{})
	says(t, err, "is no file but a device or a pipe", "save the workbook to a file")
}

func TestEnormousFile(t *testing.T) {
	path := save(t, "enormous.xlsx", []byte("PK\x03\x04"))
	if err := os.Truncate(path, LargestFile+1); err != nil {
		t.Skip("no sparse files here")
	}
	_, err := Open(path, OpenOptions{})
	says(t, err, "is enormous", "copy the carcass sheets")
}

func TestPasswordOpensWorkbook(t *testing.T) {
	file := excelize.NewFile()
	if err := file.SetCellValue("Sheet1", "A1", "Tag"); err != nil {
		t.Fatal(err)
	}
	path := filepath.Join(t.TempDir(), "locked.xlsx")
	if err := file.SaveAs(path, excelize.Options{Password: "blue ribbon"}); err != nil {
		t.Fatal(err)
	}
	_, err := Open(path, OpenOptions{})
	says(t, err, "protected by a password")
	_, err = Open(path, OpenOptions{Password: "red ribbon"})
	says(t, err, "the password does not open locked.xlsx")
	book, err := Open(path, OpenOptions{Password: "blue ribbon"})
	if err != nil {
		t.Fatal(err)
	}
	if got := grid(t, book, "Sheet1").Rows[0].Cells[0].Raw; got != "Tag" {
		t.Errorf("A1 is %q", got)
	}
	if len(book.Warnings()) != 1 || !strings.Contains(book.Warnings()[0], "password") {
		t.Errorf("warnings: %q", book.Warnings())
	}
}

// A sheet whose end is there but whose middle is gone is found before any row of it is believed.
func TestBrokenMiddleIsAnErrorNeverFewerRows(t *testing.T) {
	plain := plainWorkbook(twoRows)
	sheet := plain["xl/worksheets/sheet1.xml"]
	for name, broken := range map[string]string{
		"row cut out":       strings.Replace(sheet, `</row><row r="2">`, `<row r="2">`, 1),
		"tag broken":        strings.Replace(sheet, `<c r="B2">`, `<c r="B2"`, 1),
		"text out of range": strings.Replace(sheet, `<v>2</v>`, `<v>7</v>`, 1),
		"cell elsewhere":    strings.Replace(sheet, `r="B2"`, `r="B3"`, 1),
		"two roots":         sheet + `<worksheet></worksheet>`,
		"row too far":       strings.Replace(sheet, `<row r="2">`, `<row r="1048577">`, 1),
	} {
		t.Run(name, func(t *testing.T) {
			book, err := OpenBytes("fair.xlsx", pack(t, with(plain, "xl/worksheets/sheet1.xml", broken)), OpenOptions{})
			if err == nil {
				_, err = book.Scan("Steers")
			}
			says(t, err, "is damaged", "Steers")
		})
	}
}

func TestOpenElsewhereIsSaid(t *testing.T) {
	for _, note := range []string{".~lock.fair.xlsx#", "~$fair.xlsx"} {
		path := save(t, "fair.xlsx", pack(t, plainWorkbook(twoRows)))
		if err := os.WriteFile(filepath.Join(filepath.Dir(path), note), []byte("x"), 0o600); err != nil {
			t.Fatal(err)
		}
		book, err := Open(path, OpenOptions{})
		if err != nil {
			t.Fatal(err)
		}
		if len(book.Warnings()) != 1 || !strings.Contains(book.Warnings()[0], "open in another program") {
			t.Errorf("%s: %q", note, book.Warnings())
		}
	}
}

// A picture that is missing does not hide the cells.
func TestMissingPictureIsOnlySaid(t *testing.T) {
	book := open(t, pack(t, with(plainWorkbook(twoRows), "xl/worksheets/_rels/sheet1.xml.rels", relationships("drawing ../drawings/drawing1.xml"))))
	if notes := book.Notes(); len(notes) != 1 || notes[0].Sheet != "Steers" || notes[0].Code != PartMissing || !strings.Contains(notes[0].Words, "xl/drawings/drawing1.xml") {
		t.Errorf("notes: %q", notes)
	}
}

func says(t *testing.T, err error, words ...string) {
	t.Helper()
	if err == nil {
		t.Fatal("no error")
	}
	for _, word := range words {
		if !strings.Contains(err.Error(), word) {
			t.Errorf("%q is not in: %v", word, err)
		}
	}
}

func wide(text string) []byte {
	var data []byte
	for _, letter := range []byte(text) {
		data = append(data, letter, 0)
	}
	return data
}

// flipped gives a package in which one stored digit is another than the checksum was made of.
func flipped(t *testing.T, parts map[string]string, digits string) []byte {
	t.Helper()
	var data bytes.Buffer
	archive := zip.NewWriter(&data)
	for name, text := range parts {
		entry, err := archive.CreateHeader(&zip.FileHeader{Name: name, Method: zip.Store})
		if err != nil {
			t.Fatal(err)
		}
		if _, err := entry.Write([]byte(text)); err != nil {
			t.Fatal(err)
		}
	}
	if err := archive.Close(); err != nil {
		t.Fatal(err)
	}
	data.Bytes()[bytes.Index(data.Bytes(), []byte(digits))] ^= 1
	return data.Bytes()
}

// lying gives a package whose directory declares more than is allowed.
func lying(t *testing.T, parts map[string]string) []byte {
	t.Helper()
	data := pack(t, parts)
	directory := bytes.LastIndex(data, []byte("PK\x01\x02"))
	binary.LittleEndian.PutUint32(data[directory+24:], 1<<32-2) // which the other parts make more than LargestFile
	return data
}

// What no XML allows in a tag is damage: read otherwise by each that reads it, it could not be patched safely.
func TestTagsThatNoXMLAllowsAreDamage(t *testing.T) {
	for _, cells := range []string{
		`<row><"<c r="A1"/></row><row><c r="A1""/></row>`,
		`<row r="1"><c r="A1""/></row>`,
		`<row r="1"><c "A1"/></row>`,
		`<row r="1"><c r="A<1"/></row>`,
		`<row r="1"><c="A1"/></row>`,
		`<row r="1"><'c'/></row>`,
	} {
		scan := scanner{tags: tags{data: `<worksheet><sheetData>` + cells + `</sheetData></worksheet>`}, grid: &Grid{HiddenColumns: map[int]bool{}}}
		if scan.sheet() == nil {
			t.Errorf("taken for whole: %s", cells)
		}
	}
	scan := scanner{tags: tags{data: `<worksheet><sheetData><row r = "1" ><c r='A1' t="n"><v>1</v></c></row></sheetData></worksheet>`}, grid: &Grid{HiddenColumns: map[int]bool{}}}
	if err := scan.sheet(); err != nil {
		t.Errorf("blanks round the equals sign and single quotes are XML: %v", err)
	}
}

// A part that is there twice, of which one program reads the first and another the last, and a ZIP file with a password are refused.
func TestPartsTwiceAndPartsLocked(t *testing.T) {
	parts := plainWorkbook(twoRows)
	other := with(parts, "xl/worksheets/Sheet1.xml", parts["xl/worksheets/sheet1.xml"])
	twice := bytes.ReplaceAll(pack(t, other), []byte("xl/worksheets/Sheet1.xml"), []byte("xl/worksheets/sheet1.xml"))
	_, err := OpenBytes("fair.xlsx", twice, OpenOptions{})
	says(t, err, "xl/worksheets/sheet1.xml: it is there twice")
	locked := pack(t, parts)
	locked[bytes.LastIndex(locked, []byte("PK\x01\x02"))+8] |= 1 // general purpose bit 0: encrypted (APPNOTE.TXT, 4.4.4)
	_, err = OpenBytes("fair.xlsx", locked, OpenOptions{})
	says(t, err, "ZIP file with a password", "unpack it first")
}
