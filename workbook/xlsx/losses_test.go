package xlsx

import (
	"path/filepath"
	"strings"
	"testing"
)

// markupSpaces are what the parts of a rich workbook declare besides its own namespaces.
const markupSpaces = `xmlns:mc="http://schemas.openxmlformats.org/markup-compatibility/2006" mc:Ignorable="x14ac xr xr2" ` +
	`xmlns:x14ac="http://schemas.microsoft.com/office/spreadsheetml/2009/9/ac" ` +
	`xmlns:xr="http://schemas.microsoft.com/office/spreadsheetml/2014/revision" xmlns:xr2="http://schemas.microsoft.com/office/spreadsheetml/2015/revision2"`

// oddWorkbooks have in their workbook's part and in their styles what a library that writes both anew loses or falls over.
// What is named must stand in the result as it stood.
func oddWorkbooks() map[string]struct {
	parts map[string]string
	kept  []string
} {
	plain := plainWorkbook(twoRows)
	main, styles := plain["xl/workbook.xml"], plain["xl/styles.xml"]
	book := func(old, new string) map[string]string {
		return with(plain, "xl/workbook.xml", strings.Replace(main, old, new, 1))
	}
	look := func(old, new string) map[string]string {
		return with(plain, "xl/styles.xml", strings.Replace(styles, old, new, 1))
	}
	extension := `<extLst xmlns:x15="http://schemas.microsoft.com/office/spreadsheetml/2010/11/main"><ext uri="{140A7094-0E35-4892-8432-C4D2E57EDEB5}"><x15:workbookPr chartTrackingRefBase="1"/></ext></extLst>`
	sharing := `<fileSharing readOnlyRecommended="1" userName="Office" algorithmName="SHA-512" hashValue="c2VjcmV0" saltValue="c2FsdA==" spinCount="100000"/>`
	protection := `<workbookProtection workbookAlgorithmName="SHA-512" workbookHashValue="c2VjcmV0" workbookSaltValue="c2FsdA==" workbookSpinCount="100000" lockStructure="1"/>`
	pointer := `<xr:revisionPtr revIDLastSave="0" documentId="13_ncr:1_{A}" xr6:coauthVersionLast="47" xmlns:xr6="http://schemas.microsoft.com/office/spreadsheetml/2016/revision6"/>`
	checkbox := `<xf numFmtId="0" fontId="0" fillId="0" borderId="0" xfId="0"><extLst><ext uri="{C7286773-470A-42A8-94C5-96B5CB345126}" xmlns:xfpb="http://schemas.microsoft.com/office/spreadsheetml/2022/featurepropertybag"><xfpb:xfComplement i="0"/></ext></extLst></xf>`
	black := `<font><sz val="11"/><color indexed="0"/><name val="Calibri"/></font>`
	prefixed := declaration + `<x:styleSheet xmlns:x="http://schemas.openxmlformats.org/spreadsheetml/2006/main"><x:fonts count="1"><x:font><x:sz val="11"/><x:name val="Arial"/></x:font></x:fonts>` +
		`<x:fills count="2"><x:fill><x:patternFill patternType="none"/></x:fill><x:fill><x:patternFill patternType="gray125"/></x:fill></x:fills>` +
		`<x:borders count="1"><x:border><x:left/><x:right/><x:top/><x:bottom/><x:diagonal/></x:border></x:borders>` +
		`<x:cellStyleXfs count="1"><x:xf numFmtId="0" fontId="0" fillId="0" borderId="0"/></x:cellStyleXfs>` +
		`<x:cellXfs count="1"><x:xf numFmtId="0" fontId="0" fillId="0" borderId="0" xfId="0"/></x:cellXfs>` +
		`<x:dxfs count="0"/><x:colors><x:mruColors><x:color rgb="FF123456"/></x:mruColors></x:colors></x:styleSheet>`
	return map[string]struct {
		parts map[string]string
		kept  []string
	}{
		"extension of the workbook": {book(`</sheets>`, `</sheets>`+extension), []string{extension}},
		"read only and password":    {book(`<sheets>`, sharing+protection+`<sheets>`), []string{sharing, protection}},
		"revision pointer": {
			book(relationNamespace+`>`, relationNamespace+` `+markupSpaces+`>`+pointer), []string{pointer, markupSpaces},
		},
		"prefixed workbook": {
			with(plain, "xl/workbook.xml", declaration+`<w:workbook xmlns:w="http://schemas.openxmlformats.org/spreadsheetml/2006/main" xmlns:rel="http://schemas.openxmlformats.org/officeDocument/2006/relationships">`+
				`<w:bookViews><w:workbookView activeTab="-1"/></w:bookViews><w:sheets><w:sheet name="Steers" sheetId="7" rel:id="rId1"/></w:sheets><w:calcPr calcId="191029" iterate="1"/></w:workbook>`),
			[]string{`<w:sheet name="Steers" sheetId="7" rel:id="rId1"/>`, `<w:calcPr calcId="191029" iterate="1"/>`},
		},
		"no such front tab":    {book(`<sheets>`, `<bookViews><workbookView activeTab="-1"/></bookViews><sheets>`), nil},
		"prefixed styles":      {with(plain, "xl/styles.xml", prefixed), []string{`<x:colors><x:mruColors><x:color rgb="FF123456"/></x:mruColors></x:colors>`}},
		"checkbox in a cell":   {look(`</cellXfs>`, checkbox+`</cellXfs>`), []string{checkbox}},
		"first indexed colour": {look(`</fonts>`, black+`</fonts>`), []string{black}},
		"font without a name":  {look(`<name val="Calibri"/>`, ``), []string{`<font><sz val="11"/></font>`}},
		"extension of the styles": {
			look(`</styleSheet>`, `<extLst xmlns:x14="http://schemas.microsoft.com/office/spreadsheetml/2009/9/main"><ext uri="{EB79DEF2-80B8-43e5-95BD-54CBDDF9020C}"><x14:slicerStyles defaultSlicerStyle="SlicerStyleLight1"/></ext></extLst></styleSheet>`),
			[]string{`<ext uri="{EB79DEF2-80B8-43e5-95BD-54CBDDF9020C}"><x14:slicerStyles defaultSlicerStyle="SlicerStyleLight1"/></ext>`},
		},
		"alternate content": {
			book(relationNamespace+`>`, relationNamespace+` `+markupSpaces+`><mc:AlternateContent><mc:Choice Requires="x15" xmlns:x15="http://schemas.microsoft.com/office/spreadsheetml/2010/11/main"><x15ac:absPath url="C:\fair\" xmlns:x15ac="http://schemas.microsoft.com/office/spreadsheetml/2010/11/ac"/></mc:Choice></mc:AlternateContent>`),
			[]string{`<x15ac:absPath url="C:\fair\" xmlns:x15ac="http://schemas.microsoft.com/office/spreadsheetml/2010/11/ac"/>`},
		},
	}
}

// gradedOdd adds columns, flags, a sheet and its selection to a workbook of one sheet.
func gradedOdd(t *testing.T, parts map[string]string) (book *Book, saved []byte) {
	t.Helper()
	book = open(t, pack(t, parts))
	added := block("Steers", 6, 1, 2)
	added.Flagged = []string{"B2"}
	if err := book.Append(added); err != nil {
		t.Fatal(err)
	}
	if _, err := book.NewSheet("Placings", "railbook_sheet_placings"); err != nil {
		t.Fatal(err)
	}
	writeRow(t, book, "Placings", "a text")
	if err := book.Front("Placings"); err != nil {
		t.Fatal(err)
	}
	saved, err := book.Bytes()
	if err != nil {
		t.Fatal(err)
	}
	return book, saved
}

// Whatever the workbook's part and the styles hold is in the result as it was, and other programs open it.
func TestTheWorkbooksOwnPartsKeepTheirBytes(t *testing.T) {
	var paths []string
	for name, odd := range oddWorkbooks() {
		_, saved := gradedOdd(t, odd.parts)
		paths = append(paths, save(t, name+".xlsx", saved))
		t.Run(name, func(t *testing.T) {
			results := open(t, saved)
			text := string(results.contents.parts["xl/workbook.xml"]) + string(results.contents.parts["xl/styles.xml"])
			for _, kept := range odd.kept {
				if !strings.Contains(text, kept) {
					t.Errorf("lost: %s\nin %s", kept, text)
				}
			}
			for part, data := range results.contents.parts {
				if _, err := wellFormed(data); err != nil {
					t.Errorf("%s: %v", part, err)
				}
			}
			if found, err := results.Strip(); !found || err != nil {
				t.Fatal(found, err)
			}
			if main := string(results.contents.parts["xl/workbook.xml"]); main != odd.parts["xl/workbook.xml"] {
				t.Errorf("stripped, the workbook is %s", main)
			}
		})
	}
	if testing.Short() {
		return
	}
	newSheetIsFound := func(program string, paths []string) {
		for number, cells := range readAllOutside(t, paths) {
			if !strings.Contains(cells["Placings!A1"], "a text") {
				t.Errorf("%s does not find the new sheet of %s", program, filepath.Base(paths[number]))
			}
		}
	}
	newSheetIsFound("openpyxl", paths)
	newSheetIsFound("LibreOffice", resave(t, paths...))
}

// A workbook that is graded again gets no style of ours twice.
func TestGradingAgainAddsNoStyles(t *testing.T) {
	_, saved := gradedOdd(t, plainWorkbook(twoRows))
	styles := string(open(t, saved).contents.parts["xl/styles.xml"])
	for range 2 {
		book := open(t, saved)
		if _, err := book.Strip(); err != nil {
			t.Fatal(err)
		}
		parts := map[string]string{}
		for name, data := range book.contents.parts {
			parts[name] = string(data)
		}
		_, saved = gradedOdd(t, parts)
		if again := string(open(t, saved).contents.parts["xl/styles.xml"]); again != styles {
			t.Errorf("the styles were %s, are %s", styles, again)
		}
	}
}
