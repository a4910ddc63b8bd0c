package intake

import (
	"strings"
	"testing"
)

// A line of averages of a class may begin in the column of the tags; an animal's name in a column of names is none.
func TestAveragesInTheColumnOfTheTags(t *testing.T) {
	tests := []struct{ name, lines, wanted string }{
		{"below numbers", "101|812|.4\n102|790|.45\nLight Average|801|.43", "101 102"},
		{"below names", "Buttercup|812|.4\nOld Total|801|.43", "Buttercup Old Total"},
		{"a name below numbers", "101|812|.4\nLittle Max|801|.43", "101 Little Max"},
		{"above every animal", "Light Average|801|.43\n101|812|.4", "Light Average 101"},
	}
	for _, test := range tests {
		var tags []string
		for _, carcass := range readSheets(t, Options{}, sheetOf("Steers", "Tag|HCW|Fat\n"+test.lines)).Carcasses {
			tags = append(tags, carcass.Tag)
		}
		if got := strings.Join(tags, " "); got != test.wanted {
			t.Errorf("%s: got %s, want %s", test.name, got, test.wanted)
		}
	}
}
