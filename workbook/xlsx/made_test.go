package xlsx

import (
	"maps"
	"strings"
	"testing"
)

// What is about to be written is read once more as programs read it: every part that is not the input's own, and every
// relationship.
func TestMadePartsAreReadBeforeTheyAreWritten(t *testing.T) {
	const sheet, main = "xl/worksheets/sheet1.xml", "xl/workbook.xml"
	plain := plainWorkbook(twoRows)
	// A sheet that names a relationship which the input does not have either.
	loose := with(plain, sheet, strings.Replace(plain[sheet], "</worksheet>", `<drawing r:id="rId7"/></worksheet>`, 1))
	for _, row := range []struct {
		about       string
		input       map[string]string
		part, text  string
		words       string // of the refusal; empty: it may be written
		alsoMissing string
	}{
		{about: "nothing is changed", input: plain},
		{about: "a sheet", input: plain, part: sheet, text: plain[sheet] + "\n"},
		{about: "a sheet of a prefix nobody declares", input: plain, part: sheet, text: strings.Replace(plain[sheet], "<sheetData>", "<x:lost/><sheetData>", 1), words: "part " + sheet + ": nobody declares the prefix"},
		{about: "a sheet that ends in the middle", input: plain, part: sheet, text: plain[sheet][:200], words: "part " + sheet},
		{about: "a sheet that names a relationship", input: plain, part: sheet, text: loose[sheet], words: "rId7, which is not there"},
		{about: "one that the input named too", input: loose, part: sheet, text: loose[sheet] + "\n"},
		{about: "another than the input named", input: loose, part: sheet, text: strings.Replace(loose[sheet], "rId7", "rId8", 1), words: "rId8, which is not there"},
		{about: "a workbook that names no such sheet", input: plain, part: main, text: strings.Replace(plain[main], "rId1", "rId9", 1), words: "rId9, which is not there"},
		{about: "a relationship to no part", input: plain, part: "xl/worksheets/_rels/sheet1.xml.rels", text: relationships("drawing ../drawings/drawing1.xml"), words: "the part xl/drawings/drawing1.xml, which is not there"},
		{about: "a link out of the workbook", input: plain, part: "xl/worksheets/_rels/sheet1.xml.rels", text: relationships("hyperlink ../elsewhere.xml")},
		{about: "a part that the input had", input: plain, part: "xl/_rels/workbook.xml.rels", text: plain["xl/_rels/workbook.xml.rels"] + "\n", alsoMissing: "xl/styles.xml", words: "the part xl/styles.xml, which is not there"},
	} {
		book := open(t, pack(t, row.input))
		made := maps.Clone(book.contents.parts)
		if row.part != "" {
			made[row.part] = []byte(row.text)
		}
		delete(made, row.alsoMissing)
		err := book.checkMade(made)
		if row.words == "" && err != nil || row.words != "" && (err == nil || !strings.Contains(err.Error(), row.words)) {
			t.Errorf("%s: %v", row.about, err)
		}
	}
}

// Whatever goes wrong in making a workbook, and whatever could not be read again, nothing is written.
func TestNothingDamagedIsWritten(t *testing.T) {
	for part, row := range map[string]struct{ text, words string }{
		"xl/worksheets/sheet1.xml": {"<a><b:c/></a>", "would be damaged in their part xl/worksheets/sheet1.xml"},
		"xl/media/image1.png":      {strings.Repeat("\x00", suspectSize+1), "could not be read again"},
	} {
		book := open(t, pack(t, plainWorkbook(twoRows)))
		if _, err := book.NewSheet("Placings", "railbook_sheet_placings"); err != nil {
			t.Fatal(err)
		}
		if err := book.prepare(); err != nil {
			t.Fatal(err)
		}
		book.base.parts[part] = []byte(row.text)
		_, err := book.Bytes()
		says(t, err, row.words, "othing was written")
	}
}

// A drop-down of a name with a character that XML does not allow is one of the letters around it.
func TestChoicesHoldOnlyWhatXMLAllows(t *testing.T) {
	draft := NewDraft()
	sheet, err := draft.NewSheet("Rail", "")
	if err != nil {
		t.Fatal(err)
	}
	if err := draft.AddRule(sheet, Rule{Cells: "A2:A9", Choices: []string{"Ste\x00ers", "A & B\x07"}}); err != nil {
		t.Fatal(err)
	}
	data, err := draft.Bytes()
	if err != nil {
		t.Fatal(err)
	}
	for part, text := range open(t, data).contents.parts {
		if strings.Contains(part, "worksheets/") && strings.Contains(string(text), "dataValidation ") && !strings.Contains(string(text), "Steers,A &amp; B") {
			t.Error(string(text))
		}
	}
}
