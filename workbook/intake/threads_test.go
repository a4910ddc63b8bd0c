package intake

import (
	"archive/zip"
	"bytes"
	"io"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"railbook/rules"
	"railbook/validate"
	"railbook/workbook/xlsx"

	"github.com/xuri/excelize/v2"
)

// TestThreadedComments holds that comments with answers below them are searched as a remark is: those on a carcass's line,
// each answer with what it answers, and not the names of who wrote them. The parts are those of [MS-XLSX] 2.6.205 and
// 2.6.203; beside them stands the note that is kept for programs that don't know them, which says nothing a second time.
func TestThreadedComments(t *testing.T) {
	const threads = `<ThreadedComments xmlns="http://schemas.microsoft.com/office/spreadsheetml/2018/threadedcomments">
<threadedComment ref="B2" dT="2025-08-20T10:00:00.00" personId="{7E0D1F5A-0000-4000-8000-000000000001}" id="{1}"><text>Retained by the inspector</text></threadedComment>
<threadedComment ref="A3" dT="2025-08-20T10:00:00.00" personId="{7E0D1F5A-0000-4000-8000-000000000001}" id="{2}"><text>Where is it?</text></threadedComment>
<threadedComment ref="A3" dT="2025-08-20T10:05:00.00" personId="{7E0D1F5A-0000-4000-8000-000000000001}" id="{3}" parentId="{2}"><text>scratched on Monday</text></threadedComment>
<threadedComment ref="C4" dT="2025-08-20T10:00:00.00" personId="{7E0D1F5A-0000-4000-8000-000000000001}" id="{4}"><text>weighed twice</text></threadedComment>
<threadedComment ref="H5" dT="2025-08-20T10:00:00.00" personId="{7E0D1F5A-0000-4000-8000-000000000001}" id="{5}"><text>condemned</text></threadedComment>
<threadedComment ref="B9" dT="2025-08-20T10:00:00.00" personId="{7E0D1F5A-0000-4000-8000-000000000001}" id="{6}"><text>condemned, but on no carcass's line</text></threadedComment>
</ThreadedComments>`
	const persons = `<personList xmlns="http://schemas.microsoft.com/office/spreadsheetml/2018/threadedcomments"><person displayName="Condemned Hall" id="{7E0D1F5A-0000-4000-8000-000000000001}" userId="office" providerId="None"/></personList>`

	file := excelize.NewFile()
	defer file.Close()
	must := func(err error) {
		t.Helper()
		if err != nil {
			t.Fatal(err)
		}
	}
	for cell, values := range map[string][]any{
		"A1": {"Tag", "HCW", "Fat", "KPH"}, "A2": {101, 812, .45, 2}, "A3": {102, 790, .3, 2}, "A4": {103, 801, .4, 2}, "A5": {104, 785, .4, 2},
	} {
		must(file.SetSheetRow("Sheet1", cell, &values))
	}
	must(file.AddComment("Sheet1", excelize.Comment{Cell: "B2", Author: "tc={1}", Text: "[Threaded comment]\n\nComment:\n    Retained by the inspector"}))
	plain, err := file.WriteToBuffer()
	must(err)
	path := filepath.Join(t.TempDir(), "fair.xlsx")
	must(os.WriteFile(path, withThreads(t, plain.Bytes(), threads, persons), 0o600))
	book, err := xlsx.Open(path, xlsx.OpenOptions{})
	must(err)
	result, err := Read([]*xlsx.Book{book}, rules.Default(), Options{Species: rules.Beef})
	must(err)
	var said []string
	for _, finding := range result.Findings {
		if finding.Level != validate.Note {
			said = append(said, strings.Join([]string{string(finding.Level), finding.Code, finding.At.Cell, finding.Tag, finding.Read}, ", "))
		}
	}
	const want = "hold, condition named, B2, 101, Retained by the inspector\nhold, may not compete, A3, 102, Where is it?; scratched on Monday\n" +
		"hold, condition named, H5, 104, condemned"
	if got := strings.Join(said, "\n"); got != want {
		t.Errorf("said:\n%s\nwant:\n%s", got, want)
	}
}

// withThreads adds the parts of threaded comments to a workbook of one sheet that has notes.
func withThreads(t *testing.T, plain []byte, threads, persons string) []byte {
	t.Helper()
	must := func(err error) {
		t.Helper()
		if err != nil {
			t.Fatal(err)
		}
	}
	before, err := zip.NewReader(bytes.NewReader(plain), int64(len(plain)))
	must(err)
	var data bytes.Buffer
	after := zip.NewWriter(&data)
	write := func(name, text string) {
		part, err := after.Create(name)
		must(err)
		_, err = io.WriteString(part, text)
		must(err)
	}
	const kinds = "http://schemas.microsoft.com/office/2017/10/relationships/"
	added := map[string][2]string{
		"[Content_Types].xml": {"</Types>", `<Override PartName="/xl/threadedComments/threadedComment1.xml" ContentType="application/vnd.ms-excel.threadedcomments+xml"/>` +
			`<Override PartName="/xl/persons/person.xml" ContentType="application/vnd.ms-excel.person+xml"/>`},
		"xl/worksheets/_rels/sheet1.xml.rels": {"</Relationships>", `<Relationship Id="rId91" Type="` + kinds + `threadedComment" Target="../threadedComments/threadedComment1.xml"/>`},
		"xl/_rels/workbook.xml.rels":          {"</Relationships>", `<Relationship Id="rId92" Type="` + kinds + `person" Target="persons/person.xml"/>`},
	}
	for _, part := range before.File {
		reader, err := part.Open()
		must(err)
		text, err := io.ReadAll(reader)
		must(err)
		if more, ok := added[part.Name]; ok {
			text = bytes.Replace(text, []byte(more[0]), []byte(more[1]+more[0]), 1)
			delete(added, part.Name)
		}
		write(part.Name, string(text))
	}
	if len(added) > 0 {
		t.Fatalf("no part %v to add to", added)
	}
	write("xl/threadedComments/threadedComment1.xml", threads)
	write("xl/persons/person.xml", persons)
	must(after.Close())
	return data.Bytes()
}
