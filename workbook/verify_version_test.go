package workbook

import (
	"strings"
	"testing"

	"github.com/xuri/excelize/v2"
)

// A newer program may check more and say it in other words: whoever verifies is told that the program is another one.
func TestVerifyingWithAnotherVersionSaysSo(t *testing.T) {
	path := signedFair(t)
	edit(t, path, path, func(file *excelize.File) { put(t, file, "Sheet1", "E5", 799) })
	for version, want := range map[string]bool{"": false, "9.9.9": true} {
		found, err := Verify(path, Options{Version: version})
		if err != nil {
			t.Fatal(err)
		}
		if words := found.Report(); strings.Contains(words, "version 9.9.9") != want {
			t.Errorf("verified with version %q:\n%s", version, words)
		}
	}
}
