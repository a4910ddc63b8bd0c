package workbook

import (
	"fmt"
	"testing"

	"railbook/validate"

	"github.com/xuri/excelize/v2"
)

// A class of small ribeyes is one question for the judge, and one decision settles it for all of its carcasses: they are all
// placed, and nothing more is asked about a ribeye of theirs.
func TestOneDecisionSettlesAGroup(t *testing.T) {
	path := smallFair(t)
	edit(t, path, path, func(file *excelize.File) {
		for row := 8; row <= 13; row++ {
			put(t, file, "Sheet1", fmt.Sprintf("G%d", row), float64(90+row%4)/10)
		}
	})
	groups := func(outcome *Outcome) (open, settled int) {
		for _, finding := range outcome.Results.Findings {
			switch {
			case finding.Level == validate.Note || finding.Class != "Heavy steers" || finding.At.Cell < "G" || finding.At.Cell > "H":
			case finding.Settled == nil:
				open++
			default:
				settled++
			}
		}
		return open, settled
	}
	outcome := gradedAgain(t, path)
	if open, settled := groups(outcome); open != 1 || settled != 0 {
		t.Fatalf("before the decision %d questions are open and %d settled", open, settled)
	}
	decideCell(t, outcome.Path, "G8", validate.Accept, "", "dairy type")
	outcome = gradedAgain(t, outcome.Path)
	if open, settled := groups(outcome); open != 0 || settled != 1 {
		t.Errorf("after the decision %d questions are open and %d settled", open, settled)
	}
	for i := 107; i <= 112; i++ {
		if reason := reasonOf(t, outcome.Results, fmt.Sprintf("A%d", i)); reason != "" {
			t.Errorf("A%d has no place: %s", i, reason)
		}
	}
}
