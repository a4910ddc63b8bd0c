package intake

import (
	"testing"

	"railbook/rules/measure"
)

// A roster that keeps the tags that were replaced is a roster all the same, and leads from the old tag to the new.
func TestARosterWithOldTags(t *testing.T) {
	result := readSheets(t, Options{},
		sheetOf("Steers", "Tag | HCW | Fat | KPH\n101 | 812 | .45 | 2\n102 | 790 | .3 | 2\n612 | 795 | .4 | 2\n103 | 801 | .5 | 2"),
		sheetOf("Entries", "Tag | Old tag | Exhibitor\n101 | | Aster Gatepost\n655 | 612 | Wren Millrace\n102 | 103 | Linnet Sorrel\n103 | | Teasel Fold"))
	for at, want := range []struct{ tag, exhibitor string }{
		{"101", "Aster Gatepost"},
		{"102", "Linnet Sorrel"},
		{"655", "Wren Millrace"},
		{"103", "Teasel Fold"}, // its tag was another's once
	} {
		carcass := result.Carcasses[at]
		if got := carcass.ReadingOf(measure.Exhibitor).Value.Text; carcass.Tag != want.tag || got != want.exhibitor {
			t.Errorf("tag %s of %q, want %s of %q", carcass.Tag, got, want.tag, want.exhibitor)
		}
	}
	if len(result.Doubts) > 0 {
		t.Errorf("doubts: %v", result.Doubts)
	}
}
