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

// withOwnYield gives rows the plant's own yield grade: the computed one of each row as it is, so far apart.
func withOwnYield(t *testing.T, rows []drawn, decimals int, apart func(i int) float64) []drawn {
	t.Helper()
	var list []drawn
	for i, graded := range drawLot(t, rules.Beef, rows...).Carcasses {
		computed, _ := graded.Figure(measure.YieldGrade)
		list = append(list, rows[i].but(t, fmt.Sprintf("sheet yield grade=%.*f", decimals, floatOf(computed.Number)+apart(i))))
	}
	return list
}

// A camera's yield grade, and one of measures that were not rounded, is recognised once for the sheet, with its spread; a carcass
// within that is not called wrong, one far beyond it is.
func TestAnUnroundedOrACamerasYieldGradeIsUsedWithItsSpread(t *testing.T) {
	for _, test := range []struct {
		name                string
		decimals            int
		spread              float64
		leastSaid, mostSaid string
		within, beyond      float64
	}{
		{"camera", 1, 0.2, "0.10", "0.30", 0.3, 1.8},
		{"unrounded", 2, 0.04, "0.02", "0.08", 0.06, 0.9},
	} {
		for _, apart := range []float64{test.within, test.beyond} {
			rng := rand.New(rand.NewPCG(8, 1979))
			rows := withOwnYield(t, companions(t, "40"), test.decimals, func(i int) float64 {
				if away := test.spread * max(-1.5, min(1.5, rng.NormFloat64())); i != 17 {
					return away
				}
				return apart
			})
			said := ""
			for _, finding := range Check(drawLot(t, rules.Beef, rows...)) {
				single := finding.Carcass != nil && finding.Level != Note
				switch {
				case finding.Code == "sheet's own yield grade lies about the computed one" && finding.Level == Note:
					_, after, _ := strings.Cut(finding.Message, "with a spread of ")
					said, _, _ = strings.Cut(after, ",")
				case strings.Contains(finding.Code, "disagrees throughout"):
					t.Errorf("%s: %s", test.name, finding.Message)
				case single && (finding.Tag != rows[17][measure.Tag] || apart == test.within):
					t.Errorf("%s, %v apart: %s", test.name, apart, finding.Message)
				case single:
					apart = 0
				}
			}
			if said < test.leastSaid || said > test.mostSaid {
				t.Errorf("%s: the spread is said to be %q, and is %v", test.name, said, test.spread)
			}
			if apart == test.beyond {
				t.Errorf("%s: a yield grade %v apart is not asked about", test.name, apart)
			}
		}
	}
}

// Where the measures disagree with the plant's own yield grade from some row on, a column is a row off there; where they do in the
// whole sheet and no row's neighbour agrees, the grade is worked out otherwise.
func TestADisagreementFromSomeRowOnIsAShift(t *testing.T) {
	const first = 18
	for name, test := range map[string]struct {
		apart     float64
		shifted   bool
		want, not string
	}{
		"shifted":   {0, true, "column a row off", "sheet's own yield grade disagrees throughout"},
		"otherwise": {1.1, false, "sheet's own yield grade disagrees throughout", "column a row off"},
		"neither":   {0, false, "", "column a row off"},
	} {
		rows := withOwnYield(t, companions(t, "30"), 1, func(i int) float64 { return test.apart * float64(1+i%2) })
		for i := len(rows) - 1; i >= first && test.shifted; i-- {
			rows[i] = rows[i].but(t, "ribeye area="+rows[i-1][measure.RibeyeArea])
		}
		findings := Check(drawLot(t, rules.Beef, rows...))
		if test.want != "" && !hasCode(findings, test.want) || hasCode(findings, test.not) {
			t.Errorf("%s: %q", name, said(findings))
		}
	}
}

// No single question with a likely value stands in the rows of a column that is said to be a row off.
func TestNoSingleHintInAShiftedRange(t *testing.T) {
	rng := rand.New(rand.NewPCG(6, 1979))
	named := 0
	for range 24 {
		findings := Check(shiftedSheet(t, rng, true).sheet.lot(t))
		off := map[*grading.Carcass]bool{}
		for _, finding := range findings {
			if finding.Code == shiftedColumn {
				named++
				for _, carcass := range finding.Carcasses() {
					off[carcass] = true
				}
			}
		}
		for _, finding := range findings {
			if finding.Hint != "" && off[finding.Carcass] {
				t.Errorf("in a shifted range: %s", finding.Message)
			}
		}
	}
	if named < 12 {
		t.Errorf("only %d sheets of 24 are named", named)
	}
}

// Small ribeyes of a whole class of beef are one question that all its carcasses are part of, and it is about dairy type; none of them
// is asked about by itself. Small weights are no question of dairy type.
func TestSmallRibeyesOfAClassAreOneQuestion(t *testing.T) {
	var rows []drawn
	for i, row := range companions(t, "12") {
		rows = append(rows, row.but(t, fmt.Sprintf("class=Dairy Steers; ribeye area=9.%d", i%4)))
	}
	groups := 0
	for _, finding := range Check(drawLot(t, rules.Beef, rows...)) {
		if finding.Code == "ribeye per hundredweight of a group below the range" {
			groups++
			if finding.Level != Look || finding.Tag != "" || finding.Class != "Dairy Steers" || len(finding.Carcasses()) != len(rows) ||
				!strings.Contains(finding.Message, "are they of dairy type?") || !strings.Contains(finding.Message, "accept it once") {
				t.Errorf("of %d carcasses: %s", len(finding.Carcasses()), finding.Message)
			}
		} else if finding.Level != Note {
			t.Errorf("besides the group: %s", finding.Message)
		}
	}
	if groups != 1 {
		t.Errorf("%d questions about the group", groups)
	}
	for i := range rows {
		rows[i] = companions(t, "12")[i].but(t, fmt.Sprintf("live weight=%d; hot carcass weight=%d; ribeye area=9.%d", 740+i, 455+i, i%9))
	}
	for _, finding := range Check(drawLot(t, rules.Beef, rows...)) {
		if strings.Contains(finding.Message, "dairy") {
			t.Errorf("small weights: %s", finding.Message)
		}
	}
}
