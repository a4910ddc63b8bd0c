package address

import (
	"io/fs"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"github.com/xuri/excelize/v2"
	"pgregory.net/rapid"
)

// The independent reader of an address is the library excelize.
func TestAddressesAreThoseOfTheLibrary(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		column, row := rapid.IntRange(1, LastColumn).Draw(t, "column"), rapid.IntRange(1, LastRow).Draw(t, "row")
		want, err := excelize.CoordinatesToCellName(column, row)
		if got := Cell(column, row); err != nil || got != want {
			t.Fatalf("Cell(%d, %d) = %q; want %q (%v)", column, row, got, want, err)
		}
		fixed, err := excelize.CoordinatesToCellName(column, row, true)
		if got := Fixed(column, row); err != nil || got != fixed {
			t.Fatalf("Fixed(%d, %d) = %q; want %q (%v)", column, row, got, fixed, err)
		}
		for _, written := range []string{want, fixed, strings.ToLower(want)} {
			if readColumn, readRow, ok := Parse(written); !ok || readColumn != column || readRow != row {
				t.Fatalf("Parse(%q) = %d, %d, %v", written, readColumn, readRow, ok)
			}
		}
	})
}

func TestWhatIsNoCell(t *testing.T) {
	for _, text := range []string{"", "A", "1", "A0", "XFE1", "A1048577", "1A", "A1B", "A 1", "A1:B2", "Ä1"} {
		if column, row, ok := Parse(text); ok {
			t.Errorf("Parse(%q) = %d, %d", text, column, row)
		}
	}
	for _, text := range []string{"XFD1", "A1048576"} {
		if _, _, ok := Parse(text); !ok {
			t.Errorf("Parse(%q) is no cell", text)
		}
	}
	if Cell(0, 1)+Cell(1, 0)+Column(0) != "" {
		t.Error("a cell before the first has a name")
	}
}

// An address is written here alone: no other code puts letters and a row together.
func TestAddressesAreWrittenOneWay(t *testing.T) {
	otherWay := regexp.MustCompile("\"(\\$|ROUND\\()?(%s|[A-Z])\\$?%d|!\\$?%s\\$?%d|CoordinatesToCellName|CellNameToCoordinates|ColumnNumberToName|% ?26\\b")
	err := filepath.WalkDir("../..", func(path string, entry fs.DirEntry, err error) error {
		if err != nil || entry.IsDir() || !strings.HasSuffix(path, ".go") || strings.HasSuffix(path, "_test.go") || filepath.Base(path) == "address.go" {
			return err
		}
		source, err := os.ReadFile(path)
		for at, line := range strings.Split(string(source), "\n") {
			if otherWay.MatchString(line) {
				t.Errorf("%s:%d writes or reads an address by itself: %s", path, at+1, strings.TrimSpace(line))
			}
		}
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
}
