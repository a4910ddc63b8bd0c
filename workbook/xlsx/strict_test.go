package xlsx

import (
	"bytes"
	"slices"
	"strings"
	"testing"
)

// asStrict gives a workbook's parts under the names of the Strict variety. The two names are from
// memory.
func asStrict(parts map[string]string) map[string]string {
	strict := map[string]string{}
	for name, text := range parts {
		text = strings.ReplaceAll(text, "http://schemas.openxmlformats.org/spreadsheetml/2006/main", strictStart+"spreadsheetml/main")
		strict[name] = strings.ReplaceAll(text, "http://schemas.openxmlformats.org/officeDocument/2006/relationships", strictStart+"officeDocument/relationships")
	}
	strict["xl/workbook.xml"] = strings.Replace(strict["xl/workbook.xml"], "<workbook ", `<workbook conformance="strict" `, 1)
	return strict
}

// A Strict workbook gives what the same workbook in the usual form gives, and says so. What a cell says is left as it is.
func TestStrictWorkbooksAreReadAsTheUsualForm(t *testing.T) {
	const words = `see "http://purl.oclc.org/ooxml/spreadsheetml/main", ns="http://purl.oclc.org/ooxml/unheardOf"`
	usual := plainWorkbook(`<row r="1"><c r="A1" t="inlineStr"><is><t>` + words + `</t></is></c><c r="B1" t="d"><v>2025-06-30T00:00:00</v></c><c r="C1" s="1"><v>45838</v></c></row>`)
	made := func(parts map[string]string) (*Book, []byte) {
		book := open(t, pack(t, parts))
		if _, err := book.NewSheet("Placings", "railbook_sheet_placings"); err != nil {
			t.Fatal(err)
		}
		data, err := book.Bytes()
		if err != nil {
			t.Fatal(err)
		}
		return book, data
	}
	_, want := made(usual)
	book, got := made(asStrict(usual))
	usualParts, strictParts := open(t, want).contents.parts, open(t, got).contents.parts
	for name, data := range usualParts {
		if !bytes.Equal(data, strictParts[name]) || len(usualParts) != len(strictParts) {
			t.Errorf("%s is not the same as from the usual form", name)
		}
	}
	if text := grid(t, book, "Steers").Rows[0].Cells[0].Raw; text != words {
		t.Errorf("A1 is %q", text)
	}
	if notes := book.Notes(); len(notes) != 1 || notes[0].Code != StrictForm || notes[0].Sheet != "" || !strings.Contains(notes[0].Words, "ordinary Excel workbook") {
		t.Errorf("notes: %q", notes)
	}
	if notes := slices.Concat(open(t, pack(t, usual)).Notes(), open(t, got).Notes()); notes != nil {
		t.Errorf("the usual form has notes: %q", notes)
	}
	readOutside(t, save(t, "results.xlsx", got))
}

// What only the Strict variety has a name for could not be written without loss: it is refused with its part.
func TestStrictNamesThatAreNotKnown(t *testing.T) {
	for _, quote := range []string{`"`, `'`} {
		strict := asStrict(plainWorkbook(twoRows))
		strict["xl/styles.xml"] = strings.Replace(strict["xl/styles.xml"], "<styleSheet ", "<styleSheet xmlns:n="+quote+strictStart+"newer/main"+quote+" ", 1)
		_, err := OpenBytes("fair.xlsx", pack(t, strict), OpenOptions{})
		says(t, err, "Strict Open XML", "xl/styles.xml", "choose Save As")
	}
}

// Each kind of part that a workbook does as well without is left out where it is damaged or missing, and that is noted; any other part
// is damage.
func TestDamagedHarmlessPartIsOnlySaid(t *testing.T) {
	for _, kind := range []string{
		"theme", "core-properties", "extended-properties", "custom-properties", "customXml", "connections", "thumbnail", "volatileDependencies", "calcChain",
	} {
		parts := with(plainWorkbook(twoRows), "xl/_rels/workbook.xml.rels",
			relationships("worksheet worksheets/sheet1.xml", "styles styles.xml", "sharedStrings sharedStrings.xml", kind+" harmless.xml"))
		for code, parts := range map[string]map[string]string{PartMissing: parts, PartDamaged: with(parts, "xl/harmless.xml", "<a><")} {
			if code == PartMissing && kind == "calcChain" {
				continue // every program makes it anew
			}
			book := open(t, pack(t, parts))
			if notes := book.Notes(); len(notes) != 1 || notes[0].Code != code || !strings.Contains(notes[0].Words, "xl/harmless.xml") {
				t.Errorf("%s, %s: %q", kind, code, notes)
			}
			if _, err := book.NewSheet("Placings", "railbook_sheet_placings"); err != nil {
				t.Fatal(err)
			}
			saved, err := book.Bytes()
			if err != nil {
				t.Fatal(err)
			}
			if again := open(t, saved); len(again.Notes()) != 0 {
				t.Errorf("%s, %s: the results have it again: %q", kind, code, again.Notes())
			}
			if kind == "theme" || kind == "connections" {
				readOutside(t, save(t, "results.xlsx", saved))
			}
		}
		if notes := open(t, pack(t, with(parts, "xl/harmless.xml", "<a/>"))).Notes(); notes != nil {
			t.Errorf("%s is whole: %q", kind, notes)
		}
	}
	for _, kind := range []string{"pivotCacheDefinition", "externalLink", "unheardOf"} {
		damaged := with(with(plainWorkbook(twoRows), "xl/_rels/workbook.xml.rels",
			relationships("worksheet worksheets/sheet1.xml", "styles styles.xml", "sharedStrings sharedStrings.xml", kind+" other.xml")), "xl/other.xml", "<a><")
		_, err := OpenBytes("fair.xlsx", pack(t, damaged), OpenOptions{})
		says(t, err, "is damaged", "xl/other.xml")
	}
}
