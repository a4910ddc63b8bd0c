package workbook

import (
	"regexp"
	"slices"
	"testing"

	"railbook/validate"
)

// mostAsked are how many holds and looks a sheet of testdata/layouts may bring: the middle one, and that below which nine
// sheets of ten lie. A person who gets more than a page of them reads none.
const (
	mostAskedMedian   = 2
	mostAskedOfTenths = 9
	// mostOfOneCause is how many questions of one sheet may differ in nothing but the cell and what stands there: from four on
	// they are asked once.
	mostOfOneCause = 3
)

// whatDiffers is what differs between two sentences of one cause: what is in quotation marks, numbers and cells.
var whatDiffers = regexp.MustCompile(`"[^"]*"|'[^']*'|\b[A-Z]{1,2}\d+\b|\d+(?:\.\d+)?`)

// TestFindingsStayHumane holds how much is asked about the sheets of testdata/layouts, and that no cause is asked about once
// for each of many lines where one decision would settle it.
func TestFindingsStayHumane(t *testing.T) {
	var counts []int
	for _, sheet := range adviceSheets(t) {
		if sheet.example {
			continue
		}
		results, err := Examine(sheet.path, sheet.options)
		if err != nil {
			t.Errorf("%s: %v", sheet.name, err)
			continue
		}
		asked := 0
		causes := map[string]int{}
		for _, finding := range results.Findings {
			if finding.Level == validate.Note || finding.Settled != nil {
				continue
			}
			asked++
			causes[finding.Code+"|"+finding.At.Sheet+"|"+whatDiffers.ReplaceAllString(finding.Message, "…")]++
		}
		for cause, times := range causes {
			if times > mostOfOneCause {
				t.Errorf("%s: %d times %s", sheet.name, times, cause)
			}
		}
		counts = append(counts, asked)
	}
	slices.Sort(counts)
	median, tenth := counts[len(counts)/2], counts[len(counts)*9/10]
	t.Logf("%d sheets: a median of %d holds and looks, %d at the 90th percentile", len(counts), median, tenth)
	if median > mostAskedMedian || tenth > mostAskedOfTenths {
		t.Errorf("a median of %d and %d at the 90th percentile, against %d and %d", median, tenth, mostAskedMedian, mostAskedOfTenths)
	}
}
