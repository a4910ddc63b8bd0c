package xlsx

import (
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// The library that writes and reads workbooks is known in this room alone, so that it can be replaced here. Tests elsewhere may
// read and change what we write with it, for it is one of the independent readers.
func TestTheLibraryIsImportedHereAlone(t *testing.T) {
	imported := 0
	err := filepath.WalkDir("../..", func(path string, entry fs.DirEntry, err error) error {
		if err != nil || entry.IsDir() || !strings.HasSuffix(path, ".go") || strings.HasSuffix(path, "_test.go") {
			return err
		}
		source, err := os.ReadFile(path)
		if strings.Contains(string(source), `"github.com/xuri/excelize`) {
			imported++
			if room := filepath.ToSlash(filepath.Dir(path)); room != "../../workbook/xlsx" {
				t.Errorf("%s imports excelize: what it needs belongs into workbook/xlsx", path)
			}
		}
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	if imported == 0 {
		t.Error("no file imports the library: this test looks in the wrong place")
	}
}
