package grading

import (
	"slices"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"railbook/rules"
	"railbook/rules/measure"

	"github.com/shopspring/decimal"
)

// variedBook has a price for every species, a premium and a measure adjusted to a common weight, so that every rule is asked.
func variedBook(thirds bool, takes rules.DarkCutterTakes) *rules.Rulebook {
	book := *rules.Default()
	settings := book.Settings
	settings.BasePrice = map[rules.Species]decimal.NullDecimal{}
	for _, species := range AllSpecies() {
		settings.BasePrice[species] = decimal.NewNullDecimal(Exact("200"))
	}
	settings.PriceByThirds, settings.DarkCutterTakes = thirds, takes
	book.Settings = settings
	book.Grid = append(slices.Clone(book.Grid),
		rules.GridLine{Species: rules.Beef, Part: rules.QualityPart, Name: "Average Choice", Adjust: Exact("3")},
		rules.GridLine{Species: rules.Lamb, Part: rules.YieldPart, Band: rules.Band{UpTo: decimal.NewNullDecimal(Exact("2.5"))}, Adjust: Exact("4")},
		rules.GridLine{Species: rules.Lamb, Part: rules.YieldPart, Band: rules.Band{From: decimal.NewNullDecimal(Exact("2.5")), FromIsIn: true}},
		rules.GridLine{Species: rules.Swine, Part: rules.WeightPart, Band: rules.Band{UpTo: decimal.NewNullDecimal(Exact("200"))}, Adjust: Exact("-2")},
		rules.GridLine{Species: rules.Swine, Part: rules.WeightPart, Band: rules.Band{From: decimal.NewNullDecimal(Exact("200")), FromIsIn: true}},
	)
	return &book
}

// variedCarcass draws a carcass of any species with a mark or two, and the numbers of it that may be varied.
func variedCarcass(t *rapid.T) (carcass *Carcass, numbers map[measure.ID][2]int64) {
	species := rapid.SampledFrom(AllSpecies()).Draw(t, "species")
	numbers = map[rules.Species]map[measure.ID][2]int64{
		rules.Beef: {
			measure.LiveWeight: {900, 1500}, measure.HotCarcassWeight: {520, 1080}, measure.AdjustedFat: {5, 115}, measure.RibeyeArea: {90, 180},
			measure.InternalFat: {10, 45}, measure.Marbling: {150, 950}, measure.Maturity: {105, 480},
		},
		rules.Swine: {
			measure.HotCarcassWeight: {150, 240}, measure.TenthRibFat: {30, 140}, measure.LastRibFat: {40, 170}, measure.LoinMuscleArea: {46, 105},
			measure.MusclingScore: {1, 3}, measure.LeanColor: {1, 5}, measure.Wetness: {1, 3}, measure.Firmness: {1, 3},
		},
		rules.Lamb: {
			measure.HotCarcassWeight: {46, 95}, measure.AdjustedFat: {5, 48}, measure.RibeyeArea: {16, 45}, measure.BodyWallThickness: {50, 130},
			measure.FlankStreaking: {50, 950}, measure.LegScore: {8, 15}, measure.Maturity: {110, 290},
		},
		rules.Goat: {measure.HotCarcassWeight: {20, 70}, measure.RibeyeArea: {8, 28}, measure.BodyWallThickness: {25, 90}},
	}[species]
	carcass = &Carcass{Tag: "101", Species: species, Basis: rules.OnTheRail}
	for id, ends := range numbers {
		if rapid.IntRange(0, 9).Draw(t, "given") > 0 {
			carcass.SetReading(id, variedReading(id, rapid.Int64Range(ends[0], ends[1]).Draw(t, id.String())))
		}
	}
	if species == rules.Beef {
		for _, mark := range []measure.ID{measure.DarkCutter, measure.Cow, measure.Under30Months, measure.Bullock} {
			if rapid.IntRange(0, 5).Draw(t, mark.String()) == 0 {
				carcass.SetReading(mark, Reading{Value: measure.Value{Number: One, Text: "yes"}})
			}
		}
		if rapid.Bool().Draw(t, "lowered") {
			carcass.SetReading(measure.DarkCutterLowering, Reading{Value: measure.NumberValue(decimal.NewFromInt(2))})
		}
	}
	return carcass, numbers
}

// variedReading is a whole number of hundredths of an inch, of tenths of a square inch or a percent, or of the unit.
func variedReading(id measure.ID, number int64) Reading {
	exponent := int32(0)
	switch DefinitionOf(id).Unit {
	case "in":
		exponent = -2
	case "sq in", "%":
		exponent = -1
	}
	return Reading{Value: measure.NumberValue(decimal.New(number, exponent)), Plain: true}
}

func TestAVariedCarcassIsGradedAsAnyOther(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		book := variedBook(rapid.Bool().Draw(t, "thirds"), rapid.SampledFrom([]rules.DarkCutterTakes{rules.DarkCutterGrade, rules.DarkCutterDiscount, ""}).Draw(t, "takes"))
		carcass, numbers := variedCarcass(t)
		graded := Grade(carcass, book)
		for id, ends := range numbers {
			if _, read := carcass.Reading(id); !read {
				continue
			}
			varied := graded.Vary(id)
			at := func(number int64) *Graded { return varied.At(variedReading(id, number).Value) }
			first := rapid.Int64Range(ends[0], ends[1]).Draw(t, "first")
			last := rapid.Int64Range(first, ends[1]).Draw(t, "last")
			between := make([]*Graded, 0, 12)
			for number := first; number <= last; number += 1 + (last-first)/10 {
				changed := carcass.Clone()
				changed.SetReading(id, variedReading(id, number))
				between = append(between, Grade(changed, book))
			}
			if diff := cmp.Diff(allFigures(between[0]), allFigures(at(first))); diff != "" {
				t.Fatalf("%s at %d: graded as any other (-) and varied (+):\n%s", id, first, diff)
			}
			for _, figure := range Computes(carcass.Species, carcass.Basis) {
				if varied.AlikeBetween(at(first), at(last), figure) {
					wantAlike(t, between, id, figure)
				}
				if varied.OneWay(figure) {
					wantOneWay(t, between, id, figure)
				}
			}
		}
	})
}

func allFigures(g *Graded) (all []string) {
	for id, figure := range g.Figures() {
		all = append(all, id.String()+" "+figure.Value.Number.String()+" "+figure.Value.Text+" "+figure.Missing+" "+figure.Assumed+" "+figure.Equation)
	}
	for _, step := range g.PriceSteps() {
		all = append(all, step.Words)
	}
	return all
}

func wantAlike(t *rapid.T, between []*Graded, id, figure measure.ID) {
	t.Helper()
	for _, other := range between[1:] {
		if diff := cmp.Diff(between[0].FigureOf(figure).Value.Text, other.FigureOf(figure).Value.Text); diff != "" {
			t.Fatalf("the %s is taken for alike while the %s is varied:\n%s", figure, id, diff)
		}
	}
}

func wantOneWay(t *rapid.T, between []*Graded, id, figure measure.ID) {
	t.Helper()
	way := 0
	for at := range between[1:] {
		was, hasWas := between[at].Figure(figure)
		is, has := between[at+1].Figure(figure)
		if !hasWas || !has {
			continue
		}
		order := is.Number.Cmp(was.Number)
		if order*way < 0 {
			t.Fatalf("the %s turns back from %s to %s while the %s is varied", figure, was.Number, is.Number, id)
		}
		if order != 0 {
			way = order
		}
	}
}
