package whatif

import (
	"fmt"
	"testing"

	"railbook/grading"
	"railbook/rules"
	"railbook/rules/measure"

	"github.com/shopspring/decimal"
)

func TestACarcassPlacedAfterTheOthersIsNotEligible(t *testing.T) {
	for _, test := range []struct {
		outcome Outcome
		want    bool
	}{{Outcome{Place: 1}, true}, {Outcome{Place: 1, After: true}, false}, {Outcome{WhyNotPlaced: "condemned"}, false}} {
		if test.outcome.Eligible() != test.want {
			t.Errorf("%+v is eligible: %v", test.outcome, !test.want)
		}
	}
}

// A line of the grid that pays and takes nothing is no line that a board waits for.
func TestOnlyALineWithMoneyIsUnused(t *testing.T) {
	herd := numbered([]*grading.Carcass{measured("1", "Steers", "780", ".40", "13.6", "440")})
	for adjust, unused := range map[string]bool{"0": false, "0.01": true} {
		book := priceBook()
		for i := range book.Grid {
			if book.Grid[i].Name == "Standard" && book.Grid[i].Species == rules.Beef {
				book.Grid[i].Adjust = decimal.RequireFromString(adjust)
			}
		}
		said := false
		for _, never := range Compare(sideOf(herd, book), sideOf(herd, book)).NewUnused {
			said = said || never.Line != nil && never.Line.Name == "Standard"
		}
		if said != unused {
			t.Errorf("a line of $%s is said to be unused: %v", adjust, said)
		}
	}
}

// Without a price, what lowered the grade is still told; what lowered nothing is not.
func TestWhatLoweredTheGradeIsToldWithoutAPrice(t *testing.T) {
	book := priceBook()
	book.Settings.BasePrice = nil
	for maturity, want := range map[string]string{"C50": "Low Choice", "A90": ""} {
		graded := grading.Grade(carcassOf(t, rules.Beef, rules.OnTheRail, map[measure.ID]string{
			measure.HotCarcassWeight: "780", measure.AdjustedFat: "0.4", measure.RibeyeArea: "13.6", measure.InternalFat: "2.5",
			measure.Marbling: "440", measure.Maturity: maturity,
		}), book)
		becomes := ""
		for _, cost := range Costs(graded) {
			if cost.Worth.Valid || cost.Measure != measure.Maturity || cost.Read.Text != maturity || !cost.Beside.Equal(grading.Hundred) {
				t.Errorf("%s: %+v", maturity, cost)
			}
			becomes = cost.Becomes
		}
		if becomes != want {
			t.Errorf("%s: the grade would be %q, want %q", maturity, becomes, want)
		}
	}
}

// Pork of this last-rib fat and muscling is U.S. No. 1 (7 CFR 53.153, 54.135) where it is firm; soft is Utility (our own reading of
// soft).
func TestSoftLeanIsTold(t *testing.T) {
	for firmness, want := range map[string]string{"1": "firmness 1, held beside 2: U.S. No. 1", "2": ""} {
		told := ""
		for _, cost := range Costs(grading.Grade(plainCarcass(rules.Swine, map[measure.ID]string{
			measure.HotCarcassWeight: "200", measure.LastRibFat: "0.8", measure.MusclingScore: "2", measure.Firmness: firmness,
		}), defaultBook)) {
			told += fmt.Sprintf("%s %s, held beside %s: %s", cost.Measure, cost.Read.Text, cost.Beside, cost.Becomes)
		}
		if told != want {
			t.Errorf("firmness %s: %q, want %q", firmness, told, want)
		}
	}
}

// A sum that is least exactly at its bound is within it, half a compared step allowed.
func TestASumAtItsBoundIsWithinIt(t *testing.T) {
	at := grading.One.Sub(comparedHalf)
	for _, test := range []struct {
		most   decimal.Decimal
		beyond bool
	}{{at, false}, {at.Sub(comparedHalf), true}} {
		ranges := measureRanges{of: map[measure.ID]*measureRange{measure.RibeyeArea: {least: decimal.NewNullDecimal(grading.One)}}}
		sum := boundedSum{map[measure.ID]decimal.Decimal{measure.RibeyeArea: grading.One}, test.most}
		if ranges.beyond(sum) != test.beyond {
			t.Errorf("at most %s: beyond is %v", test.most, !test.beyond)
		}
	}
}

// A figure cut to 3 or less is below 4 by a compared step at least.
func TestACutFigureEndsBelowTheNextWholeNumber(t *testing.T) {
	cut := cutFigure{from: measure.YieldGrade, least: decimal.NewFromInt(1), most: decimal.NewFromInt(5)}
	var of measureRange
	if !cut.narrow(&of, decimal.NewFromInt(3), false) || !of.most.Valid || !of.most.Decimal.Equal(decimal.NewFromInt(4).Sub(comparedStep)) {
		t.Errorf("at most %v", of.most)
	}
	if cut.narrow(&of, decimal.Zero, false) {
		t.Error("a figure that is at least 1 may be 0")
	}
}

// The highest third has no next one, wherever within it the marbling stands: the marbling scale ends at 999.
func TestTheHighestGradeHasNoNext(t *testing.T) {
	for marbling, next := range map[string]string{"710": "800", "899": "900", "900": "", "990": ""} {
		stretch, ok := Within(gradedBeef(t, map[measure.ID]string{measure.Marbling: marbling, measure.Maturity: "A60"}), measure.QualityGrade)
		if said := stretch.Next.Decimal.String(); !ok || stretch.Next.Valid != (next != "") || stretch.Next.Valid && said != next {
			t.Errorf("marbling %s: next %s, want %q", marbling, said, next)
		}
	}
}
