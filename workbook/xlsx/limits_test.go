package xlsx

import (
	"archive/zip"
	"bytes"
	"crypto/rand"
	"encoding/binary"
	"errors"
	"fmt"
	"io"
	"os"
	"runtime"
	"strings"
	"testing"
)

// What is refused for its size is refused from one byte on, and not a byte before.
func TestLimitsOnUnpackedSizes(t *testing.T) {
	const fair = 10_000
	entry := func(name string, packed, unpacked uint64) *zip.File {
		return &zip.File{FileHeader: zip.FileHeader{Name: name, CompressedSize64: packed, UncompressedSize64: unpacked}}
	}
	for _, row := range []struct {
		about   string
		entries []*zip.File
		size    int64
		words   string // of the refusal; empty: it is taken
	}{
		{"small and tight", []*zip.File{entry("xl/a.xml", 1, suspectSize)}, fair, ""},
		{"large and tight", []*zip.File{entry("xl/a.xml", 1, suspectSize+1)}, fair, "xl/a.xml: 64 MB of next to nothing"},
		{"large, just too tight", []*zip.File{entry("xl/a.xml", 2<<20-1, 100<<20)}, 1 << 30, "next to nothing"},
		{"large, just loose", []*zip.File{entry("xl/a.xml", 2<<20, 100<<20)}, 1 << 30, ""},
		{"a tight picture", []*zip.File{entry("xl/media/image1.png", 1, suspectSize+1)}, fair, "xl/media/image1.png: 64 MB of next to nothing"},
		{"tight together", []*zip.File{entry("xl/a.xml", 1, suspectSize), entry("xl/b.xml", 1, 1)}, fair, "all parts together"},
		{"tight together, small", []*zip.File{entry("xl/a.xml", 1, suspectSize-1), entry("xl/b.xml", 1, 1)}, fair, ""},
		{"as large as can be", []*zip.File{entry("xl/a.xml", 100<<20, LargestFile)}, 1 << 30, ""},
		{"too large", []*zip.File{entry("xl/a.xml", 100<<20, LargestFile), entry("xl/b.xml", 1, 1)}, 1 << 30, "over 4096 MB"},
		{"a picture that is only passed on", []*zip.File{entry("xl/a.xml", 100<<20, LargestFile), entry("xl/media/image1.png", 100<<20, LargestFile)}, 1 << 30, ""},
		{"over each other", []*zip.File{entry("xl/a.xml", 6_000, 10_000), entry("xl/b.xml", 4_001, 10_000)}, fair, "lie over each other"},
		{"side by side", []*zip.File{entry("xl/a.xml", 6_000, 10_000), entry("xl/b.xml", 4_000, 10_000)}, fair, ""},
	} {
		err := withinLimits("fair.xlsx", row.entries, row.size)
		if row.words == "" && err != nil || row.words != "" && (err == nil || !strings.Contains(err.Error(), row.words)) {
			t.Errorf("%s: %v", row.about, err)
		}
	}
}

// Of a sheet that is packed to next to nothing no more cells are read than its file has bytes, but for the first million.
func TestCellsOfASheetAreCounted(t *testing.T) {
	if mostCells(1) != 1<<20 || mostCells(1<<20+1) != 1<<20+1 {
		t.Error(mostCells(1), mostCells(fewCells+1))
	}
	for cells, want := range map[string]error{
		`<c><v>1</v></c><c><v>2</v></c><c/>`:             nil, // a blank is not kept
		`<c><v>1</v></c><c><v>2</v></c><c><v>3</v></c>`:  errTooMany,
		`<c><v>1</v></c><c><v>2</v></c><c><f>A1</f></c>`: errTooMany,
	} {
		scan := scanner{tags: tags{data: `<worksheet><sheetData><row>` + cells + `</row></sheetData></worksheet>`}, grid: &Grid{HiddenColumns: map[int]bool{}}, mostCells: 2}
		if err := scan.sheet(); !errors.Is(err, want) {
			t.Errorf("%s: %v", cells, err)
		}
	}
	dense := strings.Repeat("<row>"+strings.Repeat("<c><v>1</v></c>", 1<<12)+"</row>", fewCells>>12) // just as many as may be
	for extra, words := range map[string]string{"": "", "<row><c><v>1</v></c></row>": "next to nothing"} {
		book := open(t, pack(t, plainWorkbook(dense+extra)))
		_, err := book.Scan("Steers")
		if words == "" && err != nil || words != "" && (err == nil || !strings.Contains(err.Error(), words)) {
			t.Errorf("with %q: %v", extra, err)
		}
	}
}

// What a package declares of a part is the most that is read of it, and a part that holds more is refused.
func TestPartsHoldNoMoreThanTheyDeclare(t *testing.T) {
	for part, size := range map[string]int{"xl/worksheets/sheet1.xml": 10, "xl/media/image1.png": passedSize + 1} {
		parts := with(plainWorkbook(twoRows), part, strings.Repeat(" ", 12<<20))
		data := pack(t, parts)
		entry := bytes.LastIndex(data, []byte(part)) - 46 // its place in the directory (APPNOTE.TXT, 4.3.12)
		binary.LittleEndian.PutUint32(data[entry+24:], uint32(size))
		var before, after runtime.MemStats
		runtime.ReadMemStats(&before)
		_, err := OpenBytes("fair.xlsx", data, OpenOptions{})
		runtime.ReadMemStats(&after)
		says(t, err, "is damaged in its part "+part)
		if taken := after.TotalAlloc - before.TotalAlloc; taken > 4<<20 {
			t.Errorf("%s: %d MB were taken", part, taken>>20)
		}
	}
}

// Why a workbook is refused, where its small parts tell it, is known before its large ones are in memory.
func TestWhatDoesNotHangTogetherIsRefusedEarly(t *testing.T) {
	var rows strings.Builder
	for number := range 50_000 {
		fmt.Fprintf(&rows, "<row><c><v>%d</v></c></row>", number*7919%1_000_003)
	}
	plain := plainWorkbook(rows.String())
	for about, row := range map[string]struct {
		parts map[string]string
		words string
	}{
		"no relationships":        {with(plain, rootRelations, ""), rootRelations + ": it is missing"},
		"no workbook":             {with(plain, "xl/workbook.xml", ""), "xl/workbook.xml: it is missing"},
		"no texts":                {with(plain, "xl/sharedStrings.xml", ""), "xl/sharedStrings.xml: it is missing"},
		"broken relationships":    {with(plain, "xl/_rels/workbook.xml.rels", "<Relationships><a"), "xl/_rels/workbook.xml.rels: it is no longer readable"},
		"a broken workbook":       {with(plain, "xl/workbook.xml", plain["xl/workbook.xml"][:150]), "xl/workbook.xml: it ends in the middle"},
		"a sheet that is nowhere": {with(plain, "xl/workbook.xml", strings.Replace(plain["xl/workbook.xml"], "rId1", "rId9", 1)), `where the sheet "Steers" is`},
		"no sheets":               {with(plain, "xl/workbook.xml", strings.Replace(plain["xl/workbook.xml"], `<sheet name="Steers" sheetId="1" r:id="rId1"/>`, "", 1)), "has no worksheets"},
		"another kind":            {with(plain, "xl/workbook.bin", "x"), ".xlsb"},
		"a document":              {with(plain, "word/document.xml", "<a/>"), "Word document"},
		"enormous styles":         {with(plain, "xl/styles.xml", plain["xl/styles.xml"]+strings.Repeat(" ", mostOfStyles)), "xl/styles.xml: it takes 32 MB, which is more than it can have to say"},
		"enormous relationships":  {with(plain, "xl/worksheets/_rels/sheet1.xml.rels", relationships()+strings.Repeat(" ", mostOfRelations)), "more than it can have to say"},
	} {
		data := pack(t, row.parts)
		var before, after runtime.MemStats
		runtime.ReadMemStats(&before)
		_, err := OpenBytes("fair.xlsx", data, OpenOptions{})
		runtime.ReadMemStats(&after)
		says(t, err, row.words)
		if taken := after.TotalAlloc - before.TotalAlloc; taken > uint64(rows.Len()/4) {
			t.Errorf("%s: of a sheet of %d KB, %d KB were taken", about, rows.Len()>>10, taken>>10)
		}
	}
}

// A large picture goes into the results as it came, and is not kept unpacked meanwhile; its checksum counts all the same.
func TestLargePicturesArePassedThrough(t *testing.T) {
	for _, size := range []int{passedSize, passedSize + 1} {
		picture := make([]byte, size)
		_, _ = rand.Read(picture)
		packed := pack(t, with(plainWorkbook(twoRows), "xl/media/image1.png", string(picture)))
		book := open(t, packed)
		if kept := len(book.contents.parts["xl/media/image1.png"]) == size; kept != (size == passedSize) {
			t.Errorf("of %d bytes: kept is %v", size, kept)
		}
		if _, err := book.NewSheet("Placings", "railbook_sheet_placings"); err != nil {
			t.Fatal(err)
		}
		saved, err := book.Bytes()
		if err != nil {
			t.Fatal(err)
		}
		archive, err := zip.NewReader(bytes.NewReader(saved), int64(len(saved)))
		if err != nil {
			t.Fatal(err)
		}
		file, err := archive.Open("xl/media/image1.png")
		if err != nil {
			t.Fatal(err)
		}
		if came, err := io.ReadAll(file); err != nil || !bytes.Equal(came, picture) {
			t.Errorf("of %d bytes came %d, %v", size, len(came), err)
		}
		at := bytes.Index(packed, picture[:64])
		if at < 0 {
			t.Fatal("the picture is not stored as it is")
		}
		packed[at] ^= 1
		_, err = OpenBytes("fair.xlsx", packed, OpenOptions{})
		says(t, err, "xl/media/image1.png", "checksum")
	}
}

// What could not be read again is not written.
func TestResultsAreReadBack(t *testing.T) {
	book := open(t, pack(t, plainWorkbook(twoRows)))
	entries := func(data []byte) ([]*zip.File, int64) {
		archive, err := zip.NewReader(bytes.NewReader(data), int64(len(data)))
		if err != nil {
			t.Fatal(err)
		}
		return archive.File, int64(len(data))
	}
	if err := book.readBack(entries(pack(t, plainWorkbook(twoRows)))); err != nil {
		t.Error(err)
	}
	says(t, book.readBack(entries(lying(t, plainWorkbook(twoRows)))), "could not be read again", "nothing was written")
}

// A large file is refused by its beginning and its directory, before all of it is in memory.
func TestLargeFilesAreRefusedEarly(t *testing.T) {
	for name, want := range map[string]string{
		"table.csv":  "is enormous",
		"noise.xlsx": "is not an Excel workbook",
	} {
		start := strings.Repeat("0412,812.5\n", 1<<13)
		size := int64(largestText + 1)
		if name == "noise.xlsx" {
			start = strings.Repeat("\x01\x02", 1<<16)
		}
		path := save(t, name, []byte(start))
		if err := os.Truncate(path, size); err != nil {
			t.Skip("no sparse files here")
		}
		_, err := openLarge(path, size)
		says(t, err, want)
	}
	path := save(t, "table.csv", []byte(strings.Repeat("0412,812.5\n", 1<<13)))
	if file, err := openLarge(path, largestText); file != nil || err != nil {
		t.Error(file, err)
	}
}

// No part of a workbook may declare a type of document, those that say how the parts hang together as little as the sheets.
func TestDocumentTypesAreRefused(t *testing.T) {
	const declaration = `<!DOCTYPE a [<!ENTITY b "xl/worksheets/sheet1.xml">]>`
	for _, part := range []string{contentTypesPart, rootRelations, "xl/workbook.xml", "xl/_rels/workbook.xml.rels", "xl/worksheets/sheet1.xml"} {
		parts := plainWorkbook(twoRows)
		if parts[part] == "" {
			t.Fatalf("the workbook has no part %s", part)
		}
		_, rest, found := strings.Cut(parts[part], "?>")
		if !found {
			rest = parts[part]
		}
		_, err := OpenBytes("fair.xlsx", pack(t, with(parts, part, declaration+rest)), OpenOptions{})
		says(t, err, part, "document type")
	}
}

// mostForRefusal is how much memory is taken, all told, before a file is refused for its size, in bytes.
const mostForRefusal = 400 << 20

// What is refused for its size is refused at little cost, wherever in the package the size is.
func TestRefusalsTakeLittleMemory(t *testing.T) {
	blanks := strings.Repeat(" ", suspectSize+suspectSize/8)
	bombs := map[string][]byte{"declared": lying(t, plainWorkbook(twoRows))}
	for _, part := range []string{"xl/worksheets/sheet1.xml", "xl/media/image1.png", contentTypesPart} {
		bombs[part] = pack(t, with(plainWorkbook(twoRows), part, blanks))
	}
	small := plainWorkbook(twoRows)
	for number := range 3 {
		small = with(small, fmt.Sprintf("xl/media/image%d.png", number), blanks[:suspectSize/2])
	}
	bombs["many pictures"] = pack(t, small)
	for about, data := range bombs {
		var before, after runtime.MemStats
		runtime.ReadMemStats(&before)
		_, err := OpenBytes("fair.xlsx", data, OpenOptions{})
		runtime.ReadMemStats(&after)
		says(t, err, "too large once unpacked")
		if taken := after.TotalAlloc - before.TotalAlloc; taken > mostForRefusal {
			t.Errorf("%s: %d MB were taken before it was refused", about, taken>>20)
		}
	}
}

// set gives a limit another value for the length of a test.
func set[T any](t *testing.T, limit *T, value T) {
	t.Helper()
	was := *limit
	*limit = value
	t.Cleanup(func() { *limit = was })
}

// Rows are taken up to the longest that is held, texts up to the most that are kept, and other parts up to the most that is held; one
// byte more is refused in words that say so, and never held.
func TestLimitsOfWhatIsHeld(t *testing.T) {
	readInLists(t, 0, 16)
	plain := plainWorkbook(twoRows)
	row := `<row r="1"><c r="A1" t="inlineStr"><is><t>` + strings.Repeat("long ", 400) + `</t></is></c></row>`
	long := with(plain, "xl/worksheets/sheet1.xml", strings.Replace(plain["xl/worksheets/sheet1.xml"], twoRows, row, 1))
	scan := func(parts map[string]string) error {
		book, err := OpenBytes("fair.xlsx", pack(t, parts), OpenOptions{})
		if err == nil {
			_, err = book.Scan("Steers")
		}
		return err
	}
	longest := 16
	for longest < len(row) {
		longest *= 2 // as the window grows
	}
	texts := len("TagHCW04120413") // no shared text is as long
	for about, row := range map[string]struct {
		limit func(t *testing.T)
		parts map[string]string
		words string // of the refusal; empty: it is taken
	}{
		"a row as long as can be":       {func(t *testing.T) { set(t, &largestElement, longest) }, long, ""},
		"a longer row":                  {func(t *testing.T) { set(t, &largestElement, longest/2) }, long, "an element of it takes more than"},
		"as much text as can be":        {func(t *testing.T) { set(t, &mostTexts, 2000) }, long, ""},
		"more text":                     {func(t *testing.T) { set(t, &mostTexts, 1999) }, long, "the texts in its part xl/worksheets/sheet1.xml"},
		"more shared text":              {func(t *testing.T) { set(t, &mostTexts, texts) }, plain, "the texts in its part xl/sharedStrings.xml"},
		"as much as can be held":        {func(t *testing.T) { set(t, &mostHeld, int64(heldOf(t, plain))) }, plain, ""},
		"more than can be held":         {func(t *testing.T) { set(t, &mostHeld, int64(heldOf(t, plain))-1) }, plain, "beside the rows of its sheets"},
		"a large part that is no sheet": {func(t *testing.T) { set(t, &mostHeld, 5000) }, with(plain, "xl/theme/theme1.xml", "<a>"+strings.Repeat(" ", 5000)+"</a>"), "beside the rows of its sheets"},
	} {
		t.Run(about, func(t *testing.T) {
			row.limit(t)
			if err := scan(row.parts); row.words == "" && err != nil || row.words != "" && (err == nil || !strings.Contains(err.Error(), row.words)) {
				t.Error(err)
			}
		})
	}
}

// heldOf gives how many bytes of a workbook are held.
func heldOf(t *testing.T, parts map[string]string) int {
	t.Helper()
	return int(open(t, pack(t, parts)).contents.held)
}

// A large workbook stays in its file, and reads and is written as one in memory is. What was changed in the file meanwhile is an error.
func TestLargeWorkbooksStayInTheirFiles(t *testing.T) {
	readInLists(t, 0, 4096)
	var sheet strings.Builder
	for number := range 20_000 {
		fmt.Fprintf(&sheet, "<row><c><v>%d</v></c></row>", number*7919%1_000_003)
	}
	data := pack(t, plainWorkbook(sheet.String()))
	for _, more := range []int64{0, 1} {
		set(t, &heldFile, int64(len(data))-more)
		path := save(t, "fair.xlsx", data)
		fromFile, err := Open(path, OpenOptions{})
		if err != nil {
			t.Fatal(err)
		}
		_, inFile := fromFile.contents.file.(*os.File)
		if inFile != (more > 0) {
			t.Errorf("of %d bytes, %d more than are held: in the file is %v", len(data), more, inFile)
		}
		inMemory := open(t, data)
		if fromFile.SHA256 != inMemory.SHA256 {
			t.Error("the digests differ")
		}
		var results [2][]byte
		for i, book := range []*Book{fromFile, inMemory} {
			if _, err := book.NewSheet("Placings", "railbook_sheet_placings"); err != nil {
				t.Fatal(err)
			}
			if results[i], err = book.Bytes(); err != nil {
				t.Fatal(err)
			}
		}
		if !bytes.Equal(results[0], results[1]) {
			t.Error("the results differ")
		}
		if !inFile {
			continue
		}
		if err := os.Truncate(path, 100); err != nil {
			t.Fatal(err)
		}
		if grid, err := fromFile.Scan("Steers"); err == nil {
			t.Errorf("of a file that was cut short %d rows were read", len(grid.Rows))
		}
	}
}
