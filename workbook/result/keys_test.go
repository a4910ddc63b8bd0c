package result

import (
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// What belongs together stands together: a carcass is found again by its Sequence, and a sheet, a table or a line of the rulebook
// holds what is known of it. Nothing is joined again by a map keyed by a pointer.
func TestNothingIsKeyedByAPointer(t *testing.T) {
	files := 0
	err := filepath.WalkDir("../..", func(path string, entry fs.DirEntry, err error) error {
		if err != nil || entry.IsDir() || !strings.HasSuffix(path, ".go") || strings.HasSuffix(path, "_test.go") {
			return err
		}
		files++
		source, err := os.ReadFile(path)
		for number, line := range strings.Split(string(source), "\n") {
			if strings.Contains(line, "map"+"[*") {
				t.Errorf("%s:%d keys a map by a pointer: %s", path, number+1, strings.TrimSpace(line))
			}
		}
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	if files < 100 {
		t.Errorf("%d files were read: this test looks in the wrong place", files)
	}
}
