package intake

import (
	"fmt"
	"strings"
	"testing"
)

// Cells that one act settles are asked about one by one up to three, and from four on once for their column.
func TestCellsThatOneActSettles(t *testing.T) {
	for lines, wanted := range map[int]string{3: "hold F2 1|hold F3 1|hold F4 1", 4: "hold F1 4"} {
		text := "Tag|HCW|Fat|REA|KPH|Marbling\n"
		for i := range lines {
			text += fmt.Sprintf("10%d|801|.4|13.1|2.5|4.%d\n", i, i+1)
		}
		var got []string
		for _, finding := range readSheets(t, Options{}, sheetOf("Steers", text+"109|801|.4|13.1|2.5|440")).Findings {
			if finding.Code == "ambiguous marbling number" {
				got = append(got, fmt.Sprintf("%s %s %d", finding.Level, finding.At.Cell, len(finding.Carcasses())))
			}
		}
		if strings.Join(got, "|") != wanted {
			t.Errorf("%d cells: got %s, want %s", lines, strings.Join(got, "|"), wanted)
		}
	}
}
