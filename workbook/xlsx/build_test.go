package xlsx

import (
	"archive/zip"
	"bytes"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
)

// pack makes a package of raw parts.
func pack(t testing.TB, parts map[string]string) []byte {
	t.Helper()
	var data bytes.Buffer
	archive := zip.NewWriter(&data)
	var names []string
	for name := range parts {
		names = append(names, name)
	}
	slices.Sort(names)
	for _, name := range names {
		entry, err := archive.Create(name)
		if err != nil {
			t.Fatal(err)
		}
		if _, err := entry.Write([]byte(parts[name])); err != nil {
			t.Fatal(err)
		}
	}
	if err := archive.Close(); err != nil {
		t.Fatal(err)
	}
	return data.Bytes()
}

const (
	mainNamespace     = `xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main"`
	relationNamespace = `xmlns:r="http://schemas.openxmlformats.org/officeDocument/2006/relationships"`
	relationType      = "http://schemas.openxmlformats.org/officeDocument/2006/relationships/"
	spreadsheetType   = "application/vnd.openxmlformats-officedocument.spreadsheetml."
	declaration       = `<?xml version="1.0" encoding="UTF-8" standalone="yes"?>` + "\n"
)

// plainWorkbook gives the parts of a small workbook whose one sheet, "Steers", holds the sheet data.
func plainWorkbook(sheetData string) map[string]string {
	return map[string]string{
		contentTypesPart: declaration + `<Types xmlns="http://schemas.openxmlformats.org/package/2006/content-types">` +
			`<Default Extension="rels" ContentType="application/vnd.openxmlformats-package.relationships+xml"/>` +
			`<Default Extension="xml" ContentType="application/xml"/>` +
			`<Override PartName="/xl/workbook.xml" ContentType="` + spreadsheetType + `sheet.main+xml"/>` +
			`<Override PartName="/xl/worksheets/sheet1.xml" ContentType="` + spreadsheetType + `worksheet+xml"/>` +
			`<Override PartName="/xl/styles.xml" ContentType="` + spreadsheetType + `styles+xml"/>` +
			`<Override PartName="/xl/sharedStrings.xml" ContentType="` + spreadsheetType + `sharedStrings+xml"/></Types>`,
		rootRelations: relationships("officeDocument xl/workbook.xml"),
		"xl/workbook.xml": declaration + `<workbook ` + mainNamespace + ` ` + relationNamespace + `><sheets>` +
			`<sheet name="Steers" sheetId="1" r:id="rId1"/></sheets></workbook>`,
		"xl/_rels/workbook.xml.rels": relationships("worksheet worksheets/sheet1.xml", "styles styles.xml", "sharedStrings sharedStrings.xml"),
		"xl/worksheets/sheet1.xml":   worksheet(`<sheetData>` + sheetData + `</sheetData>`),
		"xl/styles.xml": declaration + `<styleSheet ` + mainNamespace + `><numFmts count="2">` +
			`<numFmt numFmtId="164" formatCode="yyyy\-mm\-dd"/><numFmt numFmtId="165" formatCode="0.0&quot; lb, days %&quot;"/></numFmts>` +
			`<fonts count="1"><font><sz val="11"/><name val="Calibri"/></font></fonts>` +
			`<fills count="2"><fill><patternFill patternType="none"/></fill><fill><patternFill patternType="gray125"/></fill></fills>` +
			`<borders count="1"><border><left/><right/><top/><bottom/><diagonal/></border></borders>` +
			`<cellStyleXfs count="1"><xf numFmtId="0" fontId="0" fillId="0" borderId="0"/></cellStyleXfs>` +
			`<cellXfs count="5"><xf numFmtId="0" fontId="0" fillId="0" borderId="0" xfId="0"/>` +
			`<xf numFmtId="164" fontId="0" fillId="0" borderId="0" xfId="0"/><xf numFmtId="9" fontId="0" fillId="0" borderId="0" xfId="0"/>` +
			`<xf numFmtId="165" fontId="0" fillId="0" borderId="0" xfId="0"/><xf numFmtId="14" fontId="0" fillId="0" borderId="0" xfId="0"/></cellXfs>` +
			`<cellStyles count="1"><cellStyle name="Normal" xfId="0" builtinId="0"/></cellStyles></styleSheet>`,
		"xl/sharedStrings.xml": declaration + `<sst ` + mainNamespace + ` count="4" uniqueCount="4"><si><t>Tag</t></si>` +
			`<si><r><t>hot </t></r><r><rPr><b/></rPr><t xml:space="preserve">wt &amp; more</t></r></si>` +
			`<si><t>412</t><rPh sb="0" eb="1"><t>yonichini</t></rPh></si><si><t>two_x000D_lines</t></si></sst>`,
	}
}

// relationships makes a relationships part; each is its kind and its target.
func relationships(list ...string) string {
	text := declaration + `<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships">`
	for i, name := range list {
		kind, target, _ := strings.Cut(name, " ")
		text += `<Relationship Id="rId` + string(rune('1'+i)) + `" Type="` + relationType + kind + `" Target="` + target + `"/>`
	}
	return text + `</Relationships>`
}

func worksheet(inside string) string {
	return declaration + `<worksheet ` + mainNamespace + ` ` + relationNamespace + `>` + inside + `</worksheet>`
}

// with gives a copy of parts with one changed, or left out where the text is empty.
func with(parts map[string]string, name, text string) map[string]string {
	changed := map[string]string{}
	for text, content := range parts {
		changed[text] = content
	}
	changed[name] = text
	if text == "" {
		delete(changed, name)
	}
	return changed
}

// save puts bytes into a file of a folder of the test's own.
func save(t testing.TB, name string, data []byte) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), name)
	if err := os.WriteFile(path, data, 0o600); err != nil {
		t.Fatal(err)
	}
	return path
}

// open opens bytes as a workbook, which must succeed.
func open(t testing.TB, data []byte) *Book {
	t.Helper()
	book, err := OpenBytes("fair.xlsx", data, OpenOptions{})
	if err != nil {
		t.Fatal(err)
	}
	return book
}

// grid scans a sheet, which must succeed.
func grid(t testing.TB, book *Book, sheet string) *Grid {
	t.Helper()
	scanned, err := book.Scan(sheet)
	if err != nil {
		t.Fatal(err)
	}
	return scanned
}

// saveAs writes a book to a file.
func saveAs(book *Book, path string) error {
	data, err := book.Bytes()
	if err != nil {
		return err
	}
	return os.WriteFile(path, data, 0o600)
}
