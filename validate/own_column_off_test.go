package validate

import (
	"fmt"
	"math/rand/v2"
	"strings"
	"testing"

	"railbook/grading"
	"railbook/rules"
	"railbook/rules/measure"
)

// The plant's own grade a row off, to whatever decimals it is given, is one finding with its first row, or rows among which that is;
// nothing with a likely value, and no disagreement, stands in its rows. The same sheets say nothing of the kind before.
func TestAnOwnGradeARowOffIsOneFinding(t *testing.T) {
	rng := rand.New(rand.NewPCG(7, 1979))
	named := 0
	const sheets = 10
	for range sheets {
		slip := ownShiftedSheet(t, rng)
		if found, _ := slip.named(t); found {
			named++
		}
		findings := Check(slip.sheet.lot(t))
		off, count := map[*grading.Carcass]bool{}, 0
		for _, finding := range findings {
			if finding.Code == shiftedColumn {
				count++
				for _, carcass := range finding.Carcasses() {
					off[carcass] = true
				}
			}
		}
		if count > 1 {
			t.Errorf("%d columns are named where one is a row off: %q", count, said(findings))
		}
		for _, finding := range findings {
			if off[finding.Carcass] && (finding.Hint != "" || strings.Contains(finding.Code, "sheet's own")) {
				t.Errorf("in the rows that are off: %s", finding.Message)
			}
		}
		for _, row := range slip.sheet.rows {
			row.sheet = row.truth
		}
		if findings := Check(slip.sheet.lot(t)); hasCode(findings, shiftedColumn) {
			t.Errorf("of the sheet without it: %q", said(findings))
		}
	}
	if named < sheets*8/10 {
		t.Errorf("%d of %d are named", named, sheets)
	}
}

// offFrom has a column stand a row too low, or too high, from a row on.
func offFrom(rows []drawn, id measure.ID, first int, low bool) []drawn {
	off := make([]drawn, len(rows))
	for i, row := range rows {
		off[i] = drawn{}
		for of, value := range row {
			off[i][of] = value
		}
		switch {
		case i < first:
		case low:
			off[i][id] = rows[i-1][id]
		case i+1 < len(rows):
			off[i][id] = rows[i+1][id]
		}
	}
	return off
}

// The finding is a look at the first row that is off, since the measures stand; its carcasses are those from there on, and it says
// which way the column is moved back. It may begin early in the sheet.
func TestHowAnOwnGradeARowOffIsSaid(t *testing.T) {
	rows := withOwnYield(t, companions(t, "30"), 2, func(int) float64 { return 0 })
	for _, first := range []int{3, 20} {
		for low, words := range map[bool]string{true: "a row too low, and moved one row up", false: "a row too high, and moved one row down"} {
			count := 0
			for _, finding := range Check(drawLot(t, rules.Beef, offFrom(rows, measure.SheetYieldGrade, first, low)...)) {
				if finding.Level == Note {
					continue
				}
				count++
				named := first // where the column is too high the first row's own grade is nowhere, and the next is the first to be mended
				if !low {
					named++
				}
				if finding.Code != shiftedColumn || finding.Level != Look || finding.Measure != measure.SheetYieldGrade || len(finding.Carcasses()) != 30-named ||
					finding.At.Cell != fmt.Sprintf("J%d", named+5) || !low && !strings.Contains(finding.Message, fmt.Sprintf("any of the cells J%d to", first+5)) || !strings.Contains(finding.Message, words) || finding.Carcass != nil {
					t.Errorf("from row %d, low %v: %+v", first, low, finding)
				}
			}
			if count != 1 {
				t.Errorf("from row %d, low %v: %d findings", first, low, count)
			}
		}
	}
}

// Three rows must go with a neighbour's grade and not with their own: two may by chance where there are few grades.
func TestInHowManyRowsAnOwnGradeIsMended(t *testing.T) {
	for grades, want := range map[string]bool{"CCSCCC": false, "CCSPCC": true} {
		rows := companions(t, "30")
		for i := range rows {
			letter := byte('C')
			if at := i - (len(rows) - len(grades)); at >= 0 {
				letter = grades[at]
			}
			rows[i] = rows[i].but(t, map[byte]string{
				'C': "marbling=440; sheet quality grade=Low Choice", 'S': "marbling=360; sheet quality grade=High Select", 'P': "marbling=720; sheet quality grade=Low Prime",
			}[letter])
		}
		if findings := Check(drawLot(t, rules.Beef, rows...)); hasCode(findings, shiftedColumn) {
			t.Errorf("%s as it is: %q", grades, said(findings))
		}
		if findings := Check(drawLot(t, rules.Beef, offFrom(rows, measure.SheetQualityGrade, 25, true)...)); hasCode(findings, shiftedColumn) != want {
			t.Errorf("%s: named %v, want %v: %q", grades, !want, want, said(findings))
		}
	}
}

// Marbling a row too high and the grade that comes of it a row too low look the same: both are named.
func TestMarblingOrItsGradeARowOffNamesBoth(t *testing.T) {
	rng := rand.New(rand.NewPCG(3, 1979))
	var rows []drawn
	for _, row := range companions(t, "40") {
		rows = append(rows, row.but(t, fmt.Sprintf("marbling=%d", 320+10*rng.IntN(50))))
	}
	for i, graded := range drawLot(t, rules.Beef, rows...).Carcasses {
		grade, _ := graded.Figure(measure.QualityGrade)
		rows[i] = rows[i].but(t, "sheet quality grade="+grade.Text)
	}
	for _, off := range []measure.ID{measure.Marbling, measure.SheetQualityGrade} {
		var count int
		for _, finding := range Check(drawLot(t, rules.Beef, offFrom(rows, off, 12, true)...)) {
			if finding.Level == Note {
				continue
			}
			count++
			if finding.Code != shiftedColumn || finding.Level != Hold || !strings.Contains(finding.Message, "the column marbling looks a row off") ||
				!strings.Contains(finding.Message, "Or the sheet's own quality grade is what stands a row too") {
				t.Errorf("%s off: %s", off, finding.Message)
			}
		}
		if count != 1 {
			t.Errorf("%s off: %d findings", off, count)
		}
	}
}
