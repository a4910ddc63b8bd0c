package words

import (
	"slices"
	"strings"
	"testing"

	"railbook/grading"
	"railbook/grading/placing"
	"railbook/rules"
	"railbook/rules/measure"

	"github.com/google/go-cmp/cmp"
	"github.com/shopspring/decimal"
)

// byRibeye places by the ribeye alone; the judge decides between those that are level.
func byRibeye() *rules.Rulebook {
	book := byPrice(4)
	book.Rankings[0] = rules.Ranking{Name: "price", Ties: rules.TiesJudge, Keys: []rules.Key{{Measure: measure.RibeyeArea, Prefer: rules.Highest}}}
	return book
}

func herdOf(ribeyes ...string) []*grading.Graded {
	var herd []*grading.Graded
	for i, ribeye := range ribeyes {
		herd = append(herd, grading.Grade(measured(i, string(rune('1'+i)), "780", ".40", ribeye, "440"), rules.Shipped()))
	}
	return herd
}

// said gives each place with why it stands there and what a judge may say of it.
func said(class placing.ClassPlacing) []string {
	var lines []string
	for at, placed := range class.Placed {
		lines = append(lines, placed.Tag+": "+Why(&class, at)+" | "+Reasons(&class, at))
	}
	return lines
}

func TestEveryWayToStandHasItsWords(t *testing.T) {
	after := byRibeye()
	after.Eligibility = []rules.Requirement{{Measure: measure.RibeyeArea, AtLeast: atMost("13"), Failing: rules.FailAfter}}
	scanned := herdOf("14", "13.5")
	for _, animal := range scanned {
		animal.Basis = rules.LiveScan
	}
	byWeight := byRibeye()
	byWeight.Rankings[0].Keys[0] = rules.Key{Measure: measure.HotCarcassWeight, Prefer: rules.Highest}
	heavy := grading.Grade(measured(1, "2", "800", ".40", "13", "440"), rules.Shipped())
	heavy.Basis = rules.LiveScan
	for _, test := range []struct {
		name    string
		herd    []*grading.Graded
		book    *rules.Rulebook
		rulings []placing.Ruling
		want    []string
	}{
		{"alone", herdOf("14"), byRibeye(), nil, []string{"1: the only carcass placed | 1 is the only carcass placed."}},
		{"first, second of three, last", herdOf("14", "13.5", "13"), byRibeye(), nil, []string{
			"1: ribeye area 14.00 over 13.50 sq in | I start with 1 over 2: it has the larger ribeye, 14.00 to 13.50 sq in.",
			"2: ribeye area 13.50 over 13.00 sq in | To finish I place 2 over 3: it has the larger ribeye, 13.50 to 13.00 sq in.",
			"3: last of those placed | 3 closes the class: it has the smaller ribeye, 13.00 to 2's 13.50 sq in.",
		}},
		{"a tie that the judge is to break", herdOf("14", "14"), byRibeye(), nil, []string{
			"1: level on every key with 2: the judge decides | 1 and 2 are level in 1st at ribeye area 14.00 sq in, and the judge decides between them.",
			"2: level on every key with 1: the judge decides | 2 shares 1st with 1.",
		}},
		{"a tie that the judge broke", herdOf("14", "14"), byRibeye(), []placing.Ruling{{Class: "Steers", Tag: "2", Place: 1}, {Class: "Steers", Tag: "1", Place: 2}}, []string{
			"2: level on every key with 1; the judge put it ahead | I start with 2 over 1: the figures leave them level, and the judge put 2 ahead.",
			"1: last of those placed | 1 closes the class: the figures leave it level with 2, which the judge put ahead.",
		}},
		{"a tie that the judge left", herdOf("14", "14"), byRibeye(), []placing.Ruling{{Class: "Steers", Tag: "1", Place: 1}, {Class: "Steers", Tag: "2", Place: 1}}, []string{
			"1: level on every key with 2: the judge left them level | 1 and 2 are level in 1st at ribeye area 14.00 sq in, and share the place.",
			"2: level on every key with 1: the judge left them level | 2 shares 1st with 1.",
		}},
		{"outside the limits", herdOf("14", "12.5"), after, nil, []string{
			"1: meets the limits; the next does not: ribeye area 12.50 sq in, at least 13.00 sq in | " +
				"I start with 1 over 2: 2 falls outside the limits of the class (ribeye area 12.50 sq in, at least 13.00 sq in).",
			"2: outside the limits: ribeye area 12.50 sq in, at least 13.00 sq in | " +
				"2 closes the class: it falls outside the limits of the class (ribeye area 12.50 sq in, at least 13.00 sq in).",
		}},
		{"all outside the limits", herdOf("12.8", "12.5"), after, nil, []string{
			"1: ribeye area 12.80 over 12.50 sq in | I start with 1 over 2: it has the larger ribeye, 12.80 to 12.50 sq in.",
			"2: outside the limits: ribeye area 12.50 sq in, at least 13.00 sq in | 2 closes the class: it has the smaller ribeye, 12.50 to 1's 12.80 sq in.",
		}},
		{"against the rule", herdOf("14", "13.5"), byRibeye(), []placing.Ruling{{Class: "Steers", Tag: "2", Place: 1, Reason: "Firmer lean."}}, []string{
			"2: placed 1st by the judge: Firmer lean. | I place 2 1st: Firmer lean.",
			"1: last of those placed | 1 closes the class: 2 is placed 1st on the judge's own decision.",
		}},
		{"scanned", []*grading.Graded{scanned[0], heavy}, byWeight, nil, []string{
			"2: hot carcass weight 800 over 780 lb | I start with 2 over 1: it is the heavier animal, 800 to 780 lb. I grant that 1 has the larger ribeye by 1.00 sq in.",
			"1: last of those placed | 1 closes the class: it is the lighter animal, 780 to 2's 800 lb. I grant that 1 has the larger ribeye by 1.00 sq in.",
		}},
	} {
		t.Run(test.name, func(t *testing.T) {
			class := placing.PlaceClasses(placing.Entered(test.herd), test.rulings, test.book).Classes[0]
			if diff := cmp.Diff(test.want, said(class)); diff != "" {
				t.Error(diff)
			}
		})
	}
}

// A line of the grid pays a carcass more: the first two are told, the largest first.
func TestApartTellsTheTwoLargestParts(t *testing.T) {
	gap := func(part rules.Part, more int64) placing.PriceGap {
		return placing.PriceGap{Part: part, OfUpper: "Choice", More: decimal.NewFromInt(more)}
	}
	apart := placing.Apart{
		Upper: placing.Placed{Entrant: &placing.Entrant{Graded: herdOf("14")[0]}, Place: 1}, Lower: placing.Placed{Entrant: &placing.Entrant{Graded: herdOf("14", "13")[1]}, Place: 2},
		Measure: measure.Price, OfUpper: "$310.00", OfLower: "$301.00",
		Prices: []placing.PriceGap{gap(rules.QualityPart, 5), gap(rules.YieldPart, 3), gap(rules.WeightPart, 1)},
	}
	want := []string{
		"What put it behind tag 1 in place 1: its price. It has $301.00 here, and $310.00 there.",
		"The quality grade pays it $5.00 less per cwt: none here, Choice there.",
		"The yield grade pays it $3.00 less per cwt: none here, Choice there.",
	}
	if diff := cmp.Diff(want, Apart(apart, false)); diff != "" {
		t.Error(diff)
	}
	if upper := Apart(apart, true); !slices.Equal(upper[:1], []string{"What put it ahead of tag 2 in place 2: its price. It has $310.00 here, and $301.00 there."}) || !strings.Contains(upper[1], "more per cwt: Choice here, none there") {
		t.Errorf("to the upper: %q", upper)
	}
}
