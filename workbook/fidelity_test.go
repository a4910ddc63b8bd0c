package workbook

import (
	"archive/zip"
	"bytes"
	"encoding/json"
	"fmt"
	"image"
	"image/png"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"railbook/workbook/sheets/sheetstest/python"

	"github.com/xuri/excelize/v2"
)

// fidelityRows are the carcasses in the workbooks that are drawn here, the same as in testdata/fidelity.
var fidelityRows = [][]any{
	{"Tag", "Class", "Exhibitor", "HCW", "Adj fat", "REA", "KPH", "Marbling", "Maturity"},
	{"0101", "Market Steers", "Ada Birch", 812, 0.45, 13.4, 2.5, "Sm 40", "A60"},
	{"0102", "Market Steers", "Ben Alder", 776, 0.38, 13.9, 2.0, "Mt 10", "A50"},
	{"0103", "Market Steers", "Cleo Rowan", 845, 0.62, 12.8, 3.0, "Md 20", "A70"},
	{"0104", "Market Heifers", "Dara Hazel", 731, 0.50, 12.6, 2.5, "Sl 80", "A60"},
	{"0105", "Market Heifers", "Eli Maple", 702, 0.33, 12.9, 2.0, "Sm 90", "A40"},
	{"0106", "Market Heifers", "Fern Aspen", 758, 0.41, 13.1, 2.5, "Sm 10", "A60"},
}

// libraryWorkbooks are what the library we write with can put into a workbook.
var libraryWorkbooks = map[string]func(file *excelize.File) error{
	"pivot": func(file *excelize.File) error {
		if _, err := file.NewSheet("Pivot"); err != nil {
			return err
		}
		return file.AddPivotTable(&excelize.PivotTableOptions{
			DataRange: "Carcasses!A1:I7", PivotTableRange: "Pivot!A1:D9", Rows: []excelize.PivotTableField{{Data: "Class"}},
			Data: []excelize.PivotTableField{{Data: "HCW", Subtotal: "Average"}}, RowGrandTotals: true,
		})
	},
	"slicer": func(file *excelize.File) error {
		if _, err := file.NewSheet("Entries"); err != nil {
			return err
		}
		if err := file.SetSheetRow("Entries", "A1", &[]any{"Tag", "Pen"}); err != nil {
			return err
		}
		if err := file.AddTable("Entries", &excelize.Table{Range: "A1:B4", Name: "Entries"}); err != nil {
			return err
		}
		return file.AddSlicer("Entries", &excelize.SlicerOptions{Name: "Pen", Cell: "D2", TableSheet: "Entries", TableName: "Entries", Caption: "Pen"})
	},
	"controls": func(file *excelize.File) error {
		for i, kind := range []excelize.FormControlType{excelize.FormControlCheckBox, excelize.FormControlSpinButton, excelize.FormControlOptionButton} {
			if err := file.AddFormControl("Carcasses", excelize.FormControl{Cell: fmt.Sprintf("L%d", 2+3*i), Type: kind, Text: "seen", CellLink: "K2"}); err != nil {
				return err
			}
		}
		return nil
	},
	"shapes": func(file *excelize.File) error {
		return file.AddShape("Carcasses", &excelize.Shape{
			Cell: "L2", Type: "ellipse", Width: 120, Height: 60,
			Paragraph: []excelize.RichTextRun{{Text: "cooler", Font: &excelize.Font{Bold: true, Color: "5A2A27", Family: "Georgia", Size: 12}}},
		})
	},
	"pictures": func(file *excelize.File) error {
		var picture bytes.Buffer
		if err := png.Encode(&picture, image.NewGray(image.Rect(0, 0, 12, 8))); err != nil {
			return err
		}
		for _, cell := range []string{"L2", "L9"} {
			if err := file.AddPictureFromBytes("Carcasses", cell, &excelize.Picture{Extension: ".png", File: picture.Bytes(), Format: &excelize.GraphicOptions{AltText: "a ribbon"}}); err != nil {
				return err
			}
		}
		return nil
	},
	"comments": func(file *excelize.File) error {
		if err := file.AddComment("Carcasses", excelize.Comment{Cell: "D2", Author: "Plant", Text: "weighed twice"}); err != nil {
			return err
		}
		return file.SetCellHyperLink("Carcasses", "C2", "https://example.org/?a=1&b=2", "External")
	},
	"conditions": func(file *excelize.File) error {
		format, err := file.NewConditionalStyle(&excelize.Style{Font: &excelize.Font{Color: "9A0511"}, Fill: excelize.Fill{Type: "pattern", Pattern: 1, Color: []string{"FEC7CE"}}})
		if err != nil {
			return err
		}
		return file.SetConditionalFormat("Carcasses", "D2:D7", []excelize.ConditionalFormatOptions{
			{Type: "top", Criteria: "=", Format: &format, Value: "2"},
			{Type: "data_bar", Criteria: "=", MinType: "min", MaxType: "max", BarColor: "638EC6", BarSolid: true, BarDirection: "rightToLeft"},
		})
	},
	"everything set": func(file *excelize.File) error {
		yes := true
		for _, err := range []error{
			file.SetCalcProps(&excelize.CalcPropsOptions{Iterate: &yes}),
			file.SetDefinedName(&excelize.DefinedName{Name: "_xlnm.Print_Titles", RefersTo: "Carcasses!$1:$1", Scope: "Carcasses"}),
			file.SetDefinedName(&excelize.DefinedName{Name: "Weights", RefersTo: "Carcasses!$D$2:$D$7", Comment: "lb"}),
			file.SetPanes("Carcasses", &excelize.Panes{Freeze: true, YSplit: 1, TopLeftCell: "A2", ActivePane: "bottomLeft"}),
			file.SetColVisible("Carcasses", "AX:AZ", false),
			file.ProtectWorkbook(&excelize.WorkbookProtectionOptions{Password: "ribbon", LockStructure: true}),
			file.SetSheetProps("Carcasses", &excelize.SheetPropsOptions{CodeName: &fidelityCodeName, FitToPage: &yes}),
			file.AddIgnoredErrors("Carcasses", "A1:A7", excelize.IgnoredErrorsNumberStoredAsText),
		} {
			if err != nil {
				return err
			}
		}
		return nil
	},
}

var fidelityCodeName = "Rail"

// drawByLibrary draws a workbook of carcasses with something in it.
func drawByLibrary(t testing.TB, path string, add func(*excelize.File) error) {
	t.Helper()
	file := excelize.NewFile()
	defer file.Close()
	err := file.SetSheetName("Sheet1", "Carcasses")
	for i, row := range fidelityRows {
		if err == nil {
			err = file.SetSheetRow("Carcasses", fmt.Sprintf("A%d", i+1), &row)
		}
	}
	if err == nil {
		err = add(file)
	}
	if err == nil {
		err = file.SaveAs(path)
	}
	if err != nil {
		t.Fatal(path, err)
	}
}

// rawChanges make of a drawn workbook one that no library writes: each puts a text in the place of another in a part.
var rawChanges = map[string][]struct{ part, old, new string }{
	"extension of the workbook": {{"xl/workbook.xml", "</workbook>", `<extLst xmlns:x15="http://schemas.microsoft.com/office/spreadsheetml/2010/11/main"><ext uri="{140A7094-0E35-4892-8432-C4D2E57EDEB5}"><x15:workbookPr chartTrackingRefBase="1"/></ext></extLst></workbook>`}},
	"read only and password":    {{"xl/workbook.xml", "<sheets>", `<fileSharing readOnlyRecommended="1" userName="Office" reservationPassword="C0DE"/><sheets>`}},
	"revision pointer":          {{"xl/workbook.xml", "<sheets>", `<xr:revisionPtr revIDLastSave="0" documentId="13_ncr:1_{A}" xmlns:xr="http://schemas.microsoft.com/office/spreadsheetml/2014/revision"/><sheets>`}},
	"no such front tab":         {{"xl/workbook.xml", "<sheets>", `<bookViews><workbookView activeTab="-1"/></bookViews><sheets>`}},
	"font without a name":       {{"xl/styles.xml", `<name val="Calibri"/>`, ``}},
	"first indexed colour":      {{"xl/styles.xml", `<sz val="11"/>`, `<sz val="11"/><color indexed="0"/>`}},
	"checkbox in a cell":        {{"xl/styles.xml", "</cellXfs>", `<xf numFmtId="0" fontId="0" fillId="0" borderId="0" xfId="0"><extLst><ext uri="{C7286773-470A-42A8-94C5-96B5CB345126}" xmlns:xfpb="http://schemas.microsoft.com/office/spreadsheetml/2022/featurepropertybag"><xfpb:xfComplement i="0"/></ext></extLst></xf></cellXfs>`}},
	"recent colours":            {{"xl/styles.xml", "</styleSheet>", `<colors><mruColors><color rgb="FF123456"/></mruColors></colors></styleSheet>`}},
	"prefixed styles":           {{"xl/styles.xml", "", "x"}},
	"prefixed workbook":         {{"xl/workbook.xml", "", "w"}},
	"prefixed sheet":            {{"xl/worksheets/sheet1.xml", "", "s"}},
	"prefixed texts":            {{"xl/sharedStrings.xml", "", "t"}},
	"extension of the sheet":    {{"xl/worksheets/sheet1.xml", "</worksheet>", `<extLst><ext uri="{78C0D931-6437-407d-A8EE-F0AAD7539E65}" xmlns:x14="http://schemas.microsoft.com/office/spreadsheetml/2009/9/main"><x14:conditionalFormattings/></ext></extLst></worksheet>`}},
	"odd namespaces":            {{"xl/worksheets/sheet1.xml", "<row ", `<row xmlns:ours="urn:fair:office" ours:pen="4" `}},
}

// plainPackage gives the parts of a workbook of carcasses as plainly as it can be written.
func plainPackage() map[string]string {
	const head = `<?xml version="1.0" encoding="UTF-8" standalone="yes"?>` + "\n"
	const main, kind = `xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main"`, "http://schemas.openxmlformats.org/officeDocument/2006/relationships"
	var rows, texts strings.Builder
	count := 0
	for i, row := range fidelityRows {
		fmt.Fprintf(&rows, `<row r="%d">`, i+1)
		for j, value := range row {
			if text, isText := value.(string); isText {
				fmt.Fprintf(&rows, `<c r="%c%d" t="s"><v>%d</v></c>`, 'A'+j, i+1, count)
				fmt.Fprintf(&texts, `<si><t>%s</t></si>`, text)
				count++
			} else {
				fmt.Fprintf(&rows, `<c r="%c%d"><v>%v</v></c>`, 'A'+j, i+1, value)
			}
		}
		rows.WriteString(`</row>`)
	}
	relations := func(list ...string) string {
		text := head + `<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships">`
		for i, word := range list {
			name, target, _ := strings.Cut(word, " ")
			text += fmt.Sprintf(`<Relationship Id="rId%d" Type="%s/%s" Target="%s"/>`, i+1, kind, name, target)
		}
		return text + `</Relationships>`
	}
	content := "application/vnd.openxmlformats-officedocument.spreadsheetml."
	return map[string]string{
		"[Content_Types].xml": head + `<Types xmlns="http://schemas.openxmlformats.org/package/2006/content-types"><Default Extension="rels" ContentType="application/vnd.openxmlformats-package.relationships+xml"/>` +
			`<Default Extension="xml" ContentType="application/xml"/><Override PartName="/xl/workbook.xml" ContentType="` + content + `sheet.main+xml"/>` +
			`<Override PartName="/xl/worksheets/sheet1.xml" ContentType="` + content + `worksheet+xml"/><Override PartName="/xl/styles.xml" ContentType="` + content + `styles+xml"/>` +
			`<Override PartName="/xl/sharedStrings.xml" ContentType="` + content + `sharedStrings+xml"/></Types>`,
		"_rels/.rels":                relations("officeDocument xl/workbook.xml"),
		"xl/_rels/workbook.xml.rels": relations("worksheet worksheets/sheet1.xml", "styles styles.xml", "sharedStrings sharedStrings.xml"),
		"xl/workbook.xml":            head + `<workbook ` + main + ` xmlns:r="` + kind + `"><sheets><sheet name="Carcasses" sheetId="1" r:id="rId1"/></sheets></workbook>`,
		"xl/worksheets/sheet1.xml":   head + `<worksheet ` + main + `><sheetData>` + rows.String() + `</sheetData></worksheet>`,
		"xl/sharedStrings.xml":       head + `<sst ` + main + fmt.Sprintf(` count="%d" uniqueCount="%d">`, count, count) + texts.String() + `</sst>`,
		"xl/styles.xml": head + `<styleSheet ` + main + `><fonts count="1"><font><sz val="11"/><name val="Calibri"/></font></fonts>` +
			`<fills count="2"><fill><patternFill patternType="none"/></fill><fill><patternFill patternType="gray125"/></fill></fills>` +
			`<borders count="1"><border><left/><right/><top/><bottom/><diagonal/></border></borders>` +
			`<cellStyleXfs count="1"><xf numFmtId="0" fontId="0" fillId="0" borderId="0"/></cellStyleXfs>` +
			`<cellXfs count="1"><xf numFmtId="0" fontId="0" fillId="0" borderId="0" xfId="0"/></cellXfs>` +
			`<cellStyles count="1"><cellStyle name="Normal" xfId="0" builtinId="0"/></cellStyles></styleSheet>`,
	}
}

var elementTag = regexp.MustCompile(`<(/?)([A-Za-z])`)

// prefixed gives every element of a part's own namespace a prefix.
func prefixed(text, prefix string) string {
	text = elementTag.ReplaceAllString(text, "<${1}"+prefix+":${2}")
	return strings.Replace(text, ` xmlns="`, ` xmlns:`+prefix+`="`, 1)
}

// fidelityWorkbooks draws or copies all the workbooks of the suite into a folder.
func fidelityWorkbooks(t testing.TB, folder string) []string {
	t.Helper()
	kept, err := filepath.Glob("../testdata/fidelity/*.xls?")
	if err != nil || len(kept) == 0 {
		t.Fatal("no workbooks are kept", err)
	}
	var paths []string
	for _, path := range kept {
		data, err := os.ReadFile(path)
		if err != nil {
			t.Fatal(err)
		}
		to := filepath.Join(folder, filepath.Base(path))
		if err := os.WriteFile(to, data, 0o600); err != nil {
			t.Fatal(err)
		}
		paths = append(paths, to)
	}
	for name, add := range libraryWorkbooks {
		path := filepath.Join(folder, "library-"+strings.ReplaceAll(name, " ", "-")+".xlsx")
		drawByLibrary(t, path, add)
		paths = append(paths, path)
	}
	for name, changes := range rawChanges {
		parts := plainPackage()
		for _, test := range changes {
			was := parts[test.part]
			if test.old == "" {
				parts[test.part] = prefixed(was, test.new)
			} else {
				parts[test.part] = strings.Replace(was, test.old, test.new, 1)
			}
			if parts[test.part] == was {
				t.Fatalf("%s changes nothing", name)
			}
		}
		path := filepath.Join(folder, "raw-"+strings.ReplaceAll(name, " ", "-")+".xlsx")
		if err := os.WriteFile(path, packageOf(t, parts), 0o600); err != nil {
			t.Fatal(err)
		}
		paths = append(paths, path)
	}
	slices.Sort(paths)
	return paths
}

// packageOf packs parts in order.
func packageOf(t testing.TB, parts map[string]string) []byte {
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
		if err == nil {
			_, err = io.WriteString(entry, parts[name])
		}
		if err != nil {
			t.Fatal(err)
		}
	}
	if err := archive.Close(); err != nil {
		t.Fatal(err)
	}
	return data.Bytes()
}

// partsOfFile unpacks a workbook.
func partsOfFile(t testing.TB, path string) map[string]string {
	t.Helper()
	archive, err := zip.OpenReader(path)
	if err != nil {
		t.Fatal(err)
	}
	defer archive.Close()
	parts := map[string]string{}
	for _, entry := range archive.File {
		reader, err := entry.Open()
		if err != nil {
			t.Fatal(err)
		}
		data, err := io.ReadAll(reader)
		if err != nil {
			t.Fatal(err)
		}
		parts[strings.ReplaceAll(entry.Name, `\`, "/")] = string(data)
	}
	return parts
}

// Whatever a workbook has beside its carcasses is in the results, byte for byte; where something is added to a part,
// nothing else of it changes. And other programs open the results.
func TestEveryPartOfEveryWritersWorkbookIsKept(t *testing.T) {
	t.Parallel()
	folder, out := t.TempDir(), t.TempDir()
	inputs := fidelityWorkbooks(t, folder)
	if len(inputs) < 40 {
		t.Errorf("the suite has only %d workbooks", len(inputs))
	}
	var results []string
	for number, path := range inputs {
		result := filepath.Join(out, filepath.Base(path))
		outcome, err := Grade(path, Options{Output: result})
		if err != nil {
			t.Errorf("%s: %v", filepath.Base(path), err)
			continue
		}
		if placed := len(outcome.Results.Carcasses); placed != 6 {
			t.Errorf("%s: %d carcasses", filepath.Base(path), placed)
		}
		if os.Getenv("RAILBOOK_LONG") != "" || number%5 == 0 { // other programs take their time
			results = append(results, result)
		}
		compareParts(t, filepath.Base(path), partsOfFile(t, path), partsOfFile(t, result))
	}
	openedOutside(t, results)
}

func compareParts(t *testing.T, name string, was, is map[string]string) {
	t.Helper()
	for part, before := range was {
		after, kept := is[part]
		switch {
		case part == "xl/calcChain.xml":
		case !kept:
			t.Errorf("%s: the part %s is gone", name, part)
		case before == after:
		case part == "[Content_Types].xml":
			for _, entry := range markupPiece.FindAllString(before, -1) {
				named := partName.FindStringSubmatch(entry)
				if named != nil && was[named[1]] == "" {
					continue // it names a part that is not there, which some programs go looking for
				}
				if !strings.Contains(after, entry) && !strings.Contains(entry, "calcChain") {
					t.Errorf("%s: the content type %s is gone", name, entry)
				}
			}
		case part == "xl/workbook.xml", part == "xl/styles.xml", part == "xl/_rels/workbook.xml.rels", strings.HasPrefix(part, "xl/worksheets/sheet"):
			if lost := firstLost(markup(sheetsByName(before)), markup(sheetsByName(after))); lost != "" {
				t.Errorf("%s: the part %s lost %s", name, part, lost)
			}
		default:
			t.Errorf("%s: the part %s changed", name, part)
		}
	}
}

var (
	markupPiece = regexp.MustCompile(`<[^>]*>|[^<]+`)
	// mayChange are the attributes that say how much there is and what is in front.
	mayChange = regexp.MustCompile(`\s(count|activeTab|tabSelected|fullCalcOnLoad)="[^"]*"|(<\w*:?dimension) ref="[^"]*"`)
	partName  = regexp.MustCompile(`PartName="/([^"]*)"`)
	closedTag = regexp.MustCompile(`^<([^\s/>]+)(.*)/>$`)
)

// markup gives the tags and texts of a part, without what may change of them.
func markup(text string) []string {
	var pieces []string
	for _, piece := range markupPiece.FindAllString(text, -1) {
		piece = mayChange.ReplaceAllString(piece, "$2")
		if tag := closedTag.FindStringSubmatch(piece); tag != nil {
			pieces = append(pieces, "<"+tag[1]+strings.TrimRight(tag[2], " ")+">", "</"+tag[1]+">")
			continue
		}
		pieces = append(pieces, piece)
	}
	return pieces
}

var (
	sheetName  = regexp.MustCompile(`<(?:\w+:)?sheet\s[^>]*?\bname="([^"]*)"`)
	localSheet = regexp.MustCompile(`localSheetId="(\d+)"`)
)

// sheetsByName says in a workbook's own part which sheet a defined name belongs to, whatever stands before that.
func sheetsByName(text string) string {
	names := sheetName.FindAllStringSubmatch(text, -1)
	return localSheet.ReplaceAllStringFunc(text, func(found string) string {
		number, err := strconv.Atoi(localSheet.FindStringSubmatch(found)[1])
		if err != nil || number >= len(names) {
			return found
		}
		return `localSheetId="` + names[number][1] + `"`
	})
}

// firstLost gives the first piece that does not come, in its order, in the other list.
func firstLost(before, after []string) string {
	at := 0
	for _, piece := range before {
		if strings.Contains(piece, "calcChain") {
			continue
		}
		next := slices.Index(after[at:], piece)
		if next < 0 {
			return piece
		}
		at += next + 1
	}
	return ""
}

// openedOutside has expat read every part and openpyxl and LibreOffice open every workbook.
func openedOutside(t *testing.T, paths []string) {
	t.Helper()
	for path, faults := range faultsOutside(t, paths) {
		t.Errorf("%s: %s", filepath.Base(path), strings.Join(faults, "; "))
	}
	if testing.Short() {
		return
	}
	office, err := exec.LookPath("soffice")
	if err != nil {
		toolMissing(t, "LibreOffice")
		return
	}
	if os.Getenv("RAILBOOK_LONG") == "" { // LibreOffice takes more than a second for each
		paths = everyFourth(paths)
	}
	saved := t.TempDir()
	arguments := append([]string{"-env:UserInstallation=file://" + t.TempDir(), "--headless", "--convert-to", "xlsx", "--outdir", saved}, paths...)
	if output, err := exec.Command(office, arguments...).CombinedOutput(); err != nil {
		t.Fatalf("%v: %s", err, output)
	}
	for _, path := range paths {
		name := strings.TrimSuffix(filepath.Base(path), filepath.Ext(path)) + ".xlsx"
		file, err := excelize.OpenFile(filepath.Join(saved, name))
		if err != nil {
			t.Errorf("LibreOffice does not open %s: %v", filepath.Base(path), err)
			continue
		}
		if index, err := file.GetSheetIndex("Placings"); err != nil || index < 0 {
			t.Errorf("LibreOffice finds no placings in %s", filepath.Base(path))
		}
		_ = file.Close()
	}
}

func everyFourth(paths []string) (some []string) {
	for number := 0; number < len(paths); number += 4 {
		some = append(some, paths[number])
	}
	return some
}

// faultsOutside gives what keeps workbooks from being opened, as Python's programs see it.
func faultsOutside(t *testing.T, paths []string, first ...string) map[string][]string {
	t.Helper()
	interpreter, err := python.Find()
	if err != nil {
		toolMissing(t, "openpyxl")
		return nil
	}
	faults := map[string][]string{}
	for some := range slices.Chunk(paths, 200) {
		command := exec.Command(interpreter, append(append([]string{"../testdata/opens.py"}, first...), some...)...)
		command.Stderr = os.Stderr
		output, err := command.Output()
		if err == nil {
			err = json.Unmarshal(output, &faults)
		}
		if err != nil {
			t.Fatal(err)
		}
	}
	return faults
}

// toolMissing skips what needs a program that is not here, and fails where everything must run.
func toolMissing(t *testing.T, name string) {
	t.Helper()
	if os.Getenv("CI") != "" {
		t.Fatalf("%s is not here", name)
	}
	t.Logf("%s is not here: what it would open was not tried", name)
}
