package placing_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"railbook/grading"
	"railbook/grading/placing"
	"railbook/rules"
	"railbook/rules/measure"
	"railbook/workbook/words"

	"github.com/google/go-cmp/cmp"
	"github.com/shopspring/decimal"
	"pgregory.net/rapid"
)

// made makes a graded carcass of figures written as "measure=value"; a grade is written in words.
func made(tag, class string, figures ...string) *grading.Graded {
	carcass := &grading.Carcass{
		Tag: tag, Class: class, Species: rules.Beef, Basis: rules.OnTheRail,
		Place: rules.Place{Sheet: "Rail", Cell: "A" + tag},
	}
	graded := &grading.Graded{Carcass: carcass, Book: rules.Shipped()}
	for _, figure := range figures {
		name, text, _ := strings.Cut(figure, "=")
		value, whole, isGrade := grading.ParseQualityGrade(text)
		if !isGrade || whole {
			value = measure.Value{Number: decimal.RequireFromString(text), Text: text}
		}
		graded.SetFigure(measure.Standard().ByName(name), grading.Figure{Value: value})
	}
	return graded
}

func valid(text string) decimal.NullDecimal {
	return decimal.NewNullDecimal(decimal.RequireFromString(text))
}

// beefBook is the default way of placing beef: acceptable yield first, then quality by thirds, yield grade to the
// tenth, marbling and ribeye for the weight.
func beefBook() *rules.Rulebook {
	return &rules.Rulebook{
		Classes: []rules.Class{{Name: "every other class", Species: rules.Beef, Ranking: "beef", PlacesPaid: 2}},
		Rankings: []rules.Ranking{{Name: "beef", Ties: rules.TiesShare, Keys: []rules.Key{
			{Measure: measure.WholeYieldGrade, Prefer: rules.PassAtMost, Bound: valid("3")},
			{Measure: measure.QualityGrade, Prefer: rules.Highest},
			{Measure: measure.YieldGrade, Prefer: rules.Lowest, Decimals: valid("1")},
			{Measure: measure.MarblingScore, Prefer: rules.Highest},
			{Measure: measure.RibeyePerHundredweight, Prefer: rules.Highest},
		}}},
	}
}

func beef(tag, class, quality, yieldGrade, marbling, ribeyePerHundredweight string) *grading.Graded {
	whole := decimal.RequireFromString(yieldGrade).Truncate(0).String()
	return made(tag, class, "quality grade="+quality, "yield grade="+yieldGrade, "whole yield grade="+whole,
		"marbling score="+marbling, "ribeye per hundredweight="+ribeyePerHundredweight)
}

// listed writes a class as lines of place, tag and why.
func listed(class placing.ClassPlacing) []string {
	var lines []string
	for at, placed := range class.Placed {
		lines = append(lines, fmt.Sprintf("%d %s: %s", placed.Place, placed.Tag, words.Why(&class, at)))
	}
	for _, notPlaced := range class.NotPlaced {
		lines = append(lines, fmt.Sprintf("- %s: %s", notPlaced.Tag, notPlaced.Reason))
	}
	return lines
}

func TestBeefIsPlacedByQualityWhereTheYieldIsAcceptable(t *testing.T) {
	herd := []*grading.Graded{
		beef("101", "Steers", "Low Choice", "2.71", "430", "1.70"),
		beef("305", "Steers", "Average Choice", "3.2", "540", "1.60"),
		beef("412", "Steers", "Low Choice", "2.38", "410", "1.80"),
		beef("77", "Steers", "Low Choice", "2.43", "410", "1.80"),
		beef("9", "Steers", "Low Prime", "4.1", "720", "1.40"),
		beef("500", "Steers", "High Select", "1.9", "380", "1.95"),
		beef("600", "Steers", "High Choice", "2.9", "610", "1.75"),
	}
	held := map[*grading.Graded]placing.KeptOut{herd[6]: {Reason: "fat out of range", OnHold: true}}
	placings := placing.PlaceClasses(entered(herd, held), nil, beefBook())
	want := []string{
		"1 305: Average Choice over Low Choice",
		"2 77: level on every key with 412: shared place; yield grade 2.4 over 2.7, both Low Choice",
		"2 412: level on every key with 77: shared place; yield grade 2.4 over 2.7, both Low Choice",
		"4 101: Low Choice over High Select",
		"5 500: whole yield grade 1 over 4 (at most 3 goes first)",
		"6 9: last of those placed",
		"- 600: fat out of range",
	}
	if diff := cmp.Diff(want, listed(placings.Classes[0])); diff != "" {
		t.Error(diff)
	}
	for _, placed := range placings.Classes[0].Placed {
		if placed.Paid != (placed.Place <= 2) {
			t.Errorf("%s in place %d: paid is %v", placed.Tag, placed.Place, placed.Paid)
		}
	}
}

func TestAMissingKeyFigureLeavesACarcassOutOnlyWhereItDecides(t *testing.T) {
	noRibeye := beef("2", "Steers", "Low Choice", "2.4", "410", "1")
	noRibeye.SetFigure(measure.RibeyePerHundredweight, grading.Figure{Missing: "no ribeye area"})
	noQuality := beef("3", "Steers", "Low Choice", "2.4", "410", "1")
	noQuality.SetFigure(measure.QualityGrade, grading.Figure{Missing: "no marbling"})
	alone := beef("4", "Steers", "Low Prime", "2.4", "410", "1")
	alone.SetFigure(measure.RibeyePerHundredweight, grading.Figure{Missing: "no ribeye area"})
	herd := []*grading.Graded{beef("1", "Steers", "Low Choice", "2.4", "410", "1.8"), noRibeye, noQuality, alone}
	want := []string{
		"1 4: Low Prime over Low Choice",
		"2 1: last of those placed",
		"- 2: level with 1 so far; ribeye per hundredweight would break the tie: no ribeye area",
		"- 3: placed by quality grade: no marbling",
	}
	if diff := cmp.Diff(want, listed(placing.PlaceClasses(placing.Entered(herd), nil, beefBook()).Classes[0])); diff != "" {
		t.Error(diff)
	}
}

func TestAMixedClassIsSplit(t *testing.T) {
	hog := made("2", "Carcass", "price=80")
	hog.Species = rules.Swine
	scanned := made("3", "carcass ", "price=90")
	scanned.Basis = rules.LiveScan
	herd := []*grading.Graded{made("1", "Carcass", "price=100"), hog, scanned}
	book := &rules.Rulebook{
		Classes:  []rules.Class{{Name: "every other class", Ranking: "price"}},
		Rankings: []rules.Ranking{{Name: "price", Keys: []rules.Key{{Measure: measure.Price, Prefer: rules.Highest}}}},
	}
	var names []string
	for _, class := range placing.PlaceClasses(placing.Entered(herd), nil, book).Classes {
		names = append(names, class.Class)
		if len(class.Placed) != 1 || class.Split == "" {
			t.Errorf("%s: %d placed, split %q", class.Class, len(class.Placed), class.Split)
		}
	}
	if diff := cmp.Diff([]string{"Carcass (beef, on the rail)", "Carcass (beef, by ultrasound)", "Carcass (swine)"}, names); diff != "" {
		t.Error(diff)
	}
}

func TestFiguresOfDifferentEquationsAreNotRankedTogether(t *testing.T) {
	lean := measure.Cutability
	herd := []*grading.Graded{made("1", "Hogs"), made("2", "Hogs"), made("3", "Hogs")}
	for i, equation := range []string{"ribbed", "ribbed", "unribbed"} {
		herd[i].SetFigure(lean, grading.Figure{Value: measure.NumberValue(decimal.NewFromInt(int64(50 + i))), Equation: equation})
	}
	book := &rules.Rulebook{
		Classes:  []rules.Class{{Name: "Hogs", Ranking: "lean"}},
		Rankings: []rules.Ranking{{Name: "lean", Keys: []rules.Key{{Measure: lean, Prefer: rules.Highest}}}},
	}
	classes := placing.PlaceClasses(placing.Entered(herd), nil, book).Classes
	if len(classes) != 2 || classes[0].Class != "Hogs (ribbed)" || classes[1].Class != "Hogs (unribbed)" {
		t.Fatalf("got %d classes, first %q", len(classes), classes[0].Class)
	}
	if want := "Class Hogs mixes figures of different equations, which are never ranked together: each is placed by itself."; classes[0].Split != want {
		t.Errorf("split: %q", classes[0].Split)
	}
}

// A carcass that lacks the figure names no equation; it belongs to its class and is no class of its own.
func TestCarcassWithoutTheFigureStaysInItsClass(t *testing.T) {
	lean := measure.Cutability
	herd := []*grading.Graded{made("1", "Lambs"), made("2", "Lambs"), made("3", "Lambs")}
	for _, carcass := range herd[:2] {
		carcass.SetFigure(lean, grading.Figure{Value: measure.NumberValue(decimal.NewFromInt(50)), Equation: "retail cuts"})
	}
	herd[2].SetFigure(lean, grading.Figure{Missing: "no body wall"})
	book := &rules.Rulebook{
		Classes:  []rules.Class{{Name: "Lambs", Ranking: "cuts"}},
		Rankings: []rules.Ranking{{Name: "cuts", Keys: []rules.Key{{Measure: lean, Prefer: rules.Highest}}}},
	}
	classes := placing.PlaceClasses(placing.Entered(herd), nil, book).Classes
	if len(classes) != 1 || classes[0].Class != "Lambs" || classes[0].Split != "" || len(classes[0].Placed) != 2 || len(classes[0].NotPlaced) != 1 {
		t.Errorf("got %d classes, the first %+v", len(classes), classes[0])
	}
}

// herdOf draws a class with few different figures, so that ties are common.
func herdOf(t *rapid.T) []*grading.Graded {
	count := rapid.IntRange(1, 14).Draw(t, "carcasses")
	var herd []*grading.Graded
	for i := range count {
		pick := func(name string, choices ...string) string { return rapid.SampledFrom(choices).Draw(t, name) }
		carcass := beef(fmt.Sprint(100+i), pick("class", "Steers", "Heifers", "steers"),
			pick("quality", "High Select", "Low Choice", "Average Choice"), pick("yield", "2.31", "2.34", "2.4", "3.9", "4.2"),
			pick("marbling", "400", "410", "520"), pick("ribeye", "1.6", "1.7"))
		if rapid.IntRange(0, 9).Draw(t, "lacks") == 0 {
			carcass.SetFigure(measure.MarblingScore, grading.Figure{Missing: "no marbling"})
		}
		herd = append(herd, carcass)
	}
	return herd
}

func held(t *rapid.T, herd []*grading.Graded) map[*grading.Graded]placing.KeptOut {
	hold := map[*grading.Graded]placing.KeptOut{}
	for _, carcass := range herd {
		if rapid.IntRange(0, 7).Draw(t, "held") == 0 {
			hold[carcass] = placing.KeptOut{Reason: "condemned"}
		}
	}
	return hold
}

func allListed(placings placing.Placings) []string {
	var lines []string
	for _, class := range placings.Classes {
		lines = append(append(lines, class.Class), listed(class)...)
	}
	for _, award := range placings.Awards {
		lines = append(lines, award.Name+": "+award.Reason)
		for _, winner := range award.Winners {
			lines = append(lines, fmt.Sprint(winner.Place, winner.Tag))
		}
	}
	for _, refused := range placings.Refused {
		lines = append(lines, refused.Why)
	}
	return lines
}

func TestPlacingsDoNotDependOnTheOrderOfRows(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		herd := herdOf(t)
		hold := held(t, herd)
		book := beefBook()
		book.Awards = []rules.Award{{Name: "Champion", Ranking: "beef", Count: 1}}
		want := allListed(placing.PlaceClasses(entered(herd, hold), nil, book))
		shuffled := rapid.Permutation(herd).Draw(t, "order")
		for i, carcass := range shuffled {
			carcass.Sequence = i
		}
		if diff := cmp.Diff(want, allListed(placing.PlaceClasses(entered(shuffled, hold), nil, book))); diff != "" {
			t.Fatal(diff)
		}
	})
}

func TestEveryCarcassIsPlacedOrLeftOnce(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		herd := herdOf(t)
		hold := held(t, herd)
		times := map[*grading.Graded]int{}
		for _, class := range placing.PlaceClasses(entered(herd, hold), nil, beefBook()).Classes {
			for i, placed := range class.Placed {
				times[placed.Graded]++
				tied := slices.IndexFunc(class.Placed, func(other placing.Placed) bool { return other.Place == placed.Place })
				if placed.Place != tied+1 {
					t.Fatalf("%s stands at %d of the list with place %d", placed.Tag, i+1, placed.Place)
				}
				if _, kept := hold[placed.Graded]; kept {
					t.Fatalf("%s is on hold and placed", placed.Tag)
				}
			}
			for _, notPlaced := range class.NotPlaced {
				times[notPlaced.Graded]++
				if notPlaced.Reason == "" {
					t.Fatalf("%s is left without a reason", notPlaced.Tag)
				}
			}
		}
		for _, carcass := range herd {
			if times[carcass] != 1 {
				t.Fatalf("%s appears %d times", carcass.Tag, times[carcass])
			}
		}
	})
}

func TestTiesAreSymmetric(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		for _, class := range placing.PlaceClasses(placing.Entered(herdOf(t)), nil, beefBook()).Classes {
			for i, a := range class.Placed {
				for j, b := range class.Placed {
					if a.Graded == b.Graded || a.Place != b.Place {
						continue
					}
					if !a.Shared || !b.Shared || !strings.Contains(words.Why(&class, i), b.Tag) || !strings.Contains(words.Why(&class, j), a.Tag) {
						t.Fatalf("%s and %s share a place, but not both say so", a.Tag, b.Tag)
					}
				}
			}
		}
	})
}

func placeOf(placings placing.Placings, carcass *grading.Graded) int {
	for _, class := range placings.Classes {
		for _, placed := range class.Placed {
			if placed.Graded == carcass {
				return placed.Place
			}
		}
	}
	return 0
}

func TestABetterFigureNeverPlacesWorse(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		herd := herdOf(t)
		for _, carcass := range herd { // none may drop out, which would move the others
			carcass.SetFigure(measure.MarblingScore, grading.Figure{Value: measure.NumberValue(decimal.NewFromInt(int64(rapid.SampledFrom([]int{400, 410}).Draw(t, "marbling"))))})
		}
		carcass := rapid.SampledFrom(herd).Draw(t, "carcass")
		before := placeOf(placing.PlaceClasses(placing.Entered(herd), nil, beefBook()), carcass)
		key := rapid.SampledFrom(beefBook().Rankings[0].Keys).Draw(t, "key")
		step := decimal.NewFromInt(1)
		if key.Prefer == rules.Lowest || key.Prefer == rules.PassAtMost {
			step = step.Neg()
		}
		figure := carcass.FigureOf(key.Measure)
		figure.Value.Number = figure.Value.Number.Add(step)
		carcass.SetFigure(key.Measure, figure)
		if after := placeOf(placing.PlaceClasses(placing.Entered(herd), nil, beefBook()), carcass); after > before {
			t.Fatalf("a better %s took %s from place %d to %d", key.Measure, carcass.Tag, before, after)
		}
	})
}

// A carcass on hold and one that the judge left out are both left, and are told apart without reading a sentence.
func TestLeftSaysWhetherOnHold(t *testing.T) {
	var herd []*grading.Graded
	for _, tag := range []string{"1", "2", "3"} {
		herd = append(herd, beef(tag, "Steers", "Low Choice", "2.5", "410", "1.80"))
	}
	kept := map[*grading.Graded]placing.KeptOut{herd[0]: {Reason: "fat out of range", OnHold: true}, herd[1]: {Reason: "left out by the judge"}}
	class := placing.PlaceClasses(entered(herd, kept), nil, beefBook()).Classes[0]
	if len(class.Placed) != 1 || len(class.NotPlaced) != 2 || !class.NotPlaced[0].OnHold || class.NotPlaced[1].OnHold {
		t.Errorf("placed %v, left %v", class.Placed, class.NotPlaced)
	}
}

// entered gives carcasses of which some are kept out.
func entered(herd []*grading.Graded, keptOut map[*grading.Graded]placing.KeptOut) []*placing.Entrant {
	entrants := placing.Entered(herd)
	for _, entrant := range entrants {
		if why, kept := keptOut[entrant.Graded]; kept {
			entrant.Out = &why
		}
	}
	return entrants
}
