package xlsx

import (
	"bytes"
	"errors"
	"fmt"
	"maps"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
)

// readInLists makes all workbooks that the test opens meanwhile be read as large ones are, so many bytes of a list at a time.
func readInLists(t *testing.T, size, piece int) {
	t.Helper()
	wasSize, wasPiece := listedSize, listPiece
	listedSize, listPiece = size, piece
	t.Cleanup(func() { listedSize, listPiece = wasSize, wasPiece })
}

// holdNoLists makes the lists of workbooks of ours be unpacked each time, as those of large ones are.
func holdNoLists(t *testing.T) {
	t.Helper()
	was := mostListed
	mostListed = 0
	t.Cleanup(func() { mostListed = was })
}

// Whether or not the lists of a workbook are held, its sheets read the same, and what is added to them, set in them and taken out of
// them again makes the same parts: for workbooks of four writers, and cut at every few bytes.
func TestListsAreTheSameHeldOrNot(t *testing.T) {
	var paths []string
	for _, pattern := range []string{"fidelity/*.xlsx", "demo/*.xlsx", "layouts/*.xlsx"} {
		found, err := filepath.Glob("../../testdata/" + pattern)
		if err != nil {
			t.Fatal(err)
		}
		paths = append(paths, found...)
	}
	if len(paths) < 40 {
		t.Fatal("only", len(paths), "workbooks")
	}
	for i, path := range paths {
		if testing.Short() && i%4 > 0 {
			continue
		}
		want := journey(t, path)
		for _, piece := range []int{7, 4096} {
			t.Run(fmt.Sprint(filepath.Base(path), " by ", piece), func(t *testing.T) {
				readInLists(t, 0, piece)
				if piece == 7 {
					holdNoLists(t)
				}
				if diff := cmp.Diff(want, journey(t, path)); diff != "" {
					t.Error(diff)
				}
			})
		}
	}
}

// journey reads a workbook, changes it and gives all that could be seen of it on the way.
func journey(t *testing.T, path string) (seen []string) {
	t.Helper()
	book, err := Open(path, OpenOptions{})
	if err != nil {
		return []string{err.Error()}
	}
	lists := len(book.contents.lists)
	if listedSize == 0 && lists == 0 {
		t.Error("no list was found")
	}
	see := func(about string, err error) bool {
		if err != nil {
			seen = append(seen, about+": "+err.Error())
		}
		return err == nil
	}
	free := map[string]int{}
	for _, sheet := range book.Sheets() {
		printed, err := book.Printed(sheet.Name)
		if !see(sheet.Name, err) {
			continue
		}
		seen = append(seen, fmt.Sprintf("%q: %v %v %v %v %v", sheet.Name, printed.Rows, printed.Merged, printed.Struck, printed.Formulas, printed.Conditional))
		column, err := book.FreeColumn(sheet.Name, 2, 8, 4)
		see("free", err)
		seen = append(seen, fmt.Sprint(column))
		free[sheet.Name] = column
		see("set", book.SetCells(sheet.Name, map[string]CellChange{
			"A2": {Kind: Number, Value: "17", Hint: "was 16"}, "B3": {Kind: Text, Value: "steer"}, "C40": {Kind: Text, Value: "far below"},
		}))
		see("set", book.SetCells(sheet.Name, map[string]CellChange{"B4": {Kind: Blank}, "A41": {Kind: Bool, Value: "TRUE"}}))
	}
	for at, sheet := range slices.Sorted(maps.Keys(free)) {
		for number := range 2 {
			see("append", book.Append(Appended{
				Sheet: sheet, Mark: fmt.Sprintf("railbook_columns_%d", 2*at+number+1), FirstColumn: free[sheet] + 2*number, HeadingRow: 2, LastRow: 9,
				Headings: []string{"Yield grade", "Doubled"}, Formats: []string{"0.0", ""}, Flagged: []string{"A3"},
				Row: func(row int) []NewCell {
					return []NewCell{{Kind: Number, Value: fmt.Sprint(row)}, {Formula: fmt.Sprintf("A%d*2", row), Shape: "A*2", Kind: Number, Value: "2"}}
				},
			}))
		}
	}
	for range 2 { // with what was added, and with it taken out again
		data, err := book.Bytes()
		if !see("content", err) {
			return seen
		}
		unlisted := listedSize
		listedSize = 1 << 30
		whole, err := OpenBytes(path, data, OpenOptions{})
		listedSize = unlisted
		if !see("results", err) {
			return seen
		}
		for _, part := range slices.Sorted(maps.Keys(whole.contents.parts)) {
			seen = append(seen, part+"\n"+string(whole.contents.parts[part]))
		}
		if book, err = OpenBytes(path, data, OpenOptions{}); !see("again", err) {
			return seen
		}
		if _, err := book.Strip(); !see("strip", err) {
			return seen
		}
	}
	return seen
}

// What is wrong with a list that is not held is said as of one that is.
func TestDamageInListsIsSaid(t *testing.T) {
	for about, row := range map[string]struct{ was, is, words string }{
		"a tag broken off":      {"</v></c>", "</v</c>", `the sheet "Steers" is not all there`},
		"a row never closed":    {"</row></sheetData>", "</sheetData>", `the sheet "Steers" is not all there`},
		"a list never closed":   {"</sheetData></worksheet>", "", `the sheet "Steers" is not all there`},
		"a forbidden character": {"</v></c>", "\x01</v></c>", "a character that XML does not allow"},
		"an unknown prefix":     {"<row", "<row railbook:a=\"1\"", "nobody declares the prefix"},
	} {
		for _, held := range []bool{true, false} {
			parts := plainWorkbook(twoRows)
			sheet := parts["xl/worksheets/sheet1.xml"]
			if !strings.Contains(sheet, row.was) {
				t.Fatal(about, sheet)
			}
			parts["xl/worksheets/sheet1.xml"] = strings.Replace(sheet, row.was, row.is, 1)
			func() {
				wasSize := listedSize
				defer func() { listedSize = wasSize }()
				if !held {
					listedSize = 0
				}
				_, err := OpenBytes("fair.xlsx", pack(t, parts), OpenOptions{})
				if err == nil || !strings.Contains(err.Error(), row.words) {
					t.Errorf("%s, held %v: %v", about, held, err)
				}
			}()
		}
	}
}

// What is taken out and added again is the same, to the byte: its shared formulas have the numbers that they had.
func TestSharedFormulasAreNumberedAsBefore(t *testing.T) {
	for _, size := range []int{1 << 30, 0} {
		readInLists(t, size, 4096)
		data := pack(t, plainWorkbook(twoRows))
		var first []byte
		for range 3 {
			book := open(t, data)
			if _, err := book.Strip(); err != nil {
				t.Fatal(err)
			}
			err := book.Append(Appended{
				Sheet: "Steers", Mark: "railbook_columns_1", FirstColumn: 4, HeadingRow: 1, LastRow: 9, Headings: []string{"Doubled"}, Formats: []string{""},
				Row: func(row int) []NewCell {
					return []NewCell{{Formula: fmt.Sprintf("A%d*2", row), Shape: "A*2", Kind: Number, Value: "2"}}
				},
			})
			if err != nil {
				t.Fatal(err)
			}
			if data, err = book.Bytes(); err != nil {
				t.Fatal(err)
			}
			if !strings.Contains(string(open(t, data).contents.parts["xl/worksheets/sheet1.xml"]), ` si="0"`) && size > 0 {
				t.Fatal("no formula is shared")
			}
			if first == nil {
				first = data
			}
			if !bytes.Equal(first, data) {
				t.Errorf("lists from %d bytes: the results are not the same again", size)
			}
		}
	}
}

// Pieces that are unpacked ahead come in their order, each good until the next, and what goes wrong is said when all before it was taken.
func TestPiecesUnpackedAheadComeInOrder(t *testing.T) {
	errTake, errUnpack := errors.New("not taken"), errors.New("not unpacked")
	const last = 5
	for _, row := range []struct {
		takes, unpacks int // how many pieces are taken and unpacked before an error
		want           error
		taken          int
	}{
		{last + 1, last + 1, nil, last},
		{last + 1, last, errUnpack, last},
		{last + 1, 0, errUnpack, 0},
		{2, last + 1, errTake, 2},
		{0, last + 1, errTake, 0},
		{2, 3, errTake, 2},
		{3, 3, errUnpack, 3},
	} {
		var taken []string
		var before []byte
		err := aheadOf(func(take func(piece []byte, at int) error) error {
			for at := range last {
				if at == row.unpacks {
					return errUnpack
				}
				if err := take(append(NewPiece(), byte('0'+at)), at); err != nil {
					return err
				}
			}
			if row.unpacks == last {
				return errUnpack
			}
			return nil
		}, func(piece []byte, at int) error {
			if len(taken) == row.takes {
				return errTake
			}
			if before != nil && &before[0] == &piece[0] {
				t.Error("a piece was given again while the one before was good")
			}
			before = piece
			taken = append(taken, fmt.Sprintf("%s at %d", piece, at))
			return nil
		})
		if !errors.Is(err, row.want) || len(taken) != row.taken {
			t.Errorf("%+v: %q were taken, and then %v", row, taken, err)
		}
		for at, piece := range taken {
			if piece != fmt.Sprintf("%d at %d", at, at) {
				t.Errorf("%+v: piece %d is %s", row, at, piece)
			}
		}
	}
}
