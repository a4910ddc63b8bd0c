package grading

import (
	"maps"
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
	for _, species := range allSpecies() {
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
	species := rapid.SampledFrom(allSpecies()).Draw(t, "species")
	numbers = map[rules.Species]map[measure.ID][2]int64{
		rules.Beef: {
			measure.LiveWeight: {900, 1500}, measure.HotCarcassWeight: {520, 1080}, measure.AdjustedFat: {5, 115}, measure.RibeyeArea: {90, 180},
			measure.InternalFat: {10, 45}, measure.Marbling: {150, 950}, measure.Maturity: {105, 480}, measure.DarkCutterLowering: {0, 6},
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
	for _, id := range inOrder(numbers) {
		ends := numbers[id]
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
	}
	return carcass, numbers
}

func inOrder(numbers map[measure.ID][2]int64) []measure.ID {
	return slices.SortedFunc(maps.Keys(numbers), measure.ID.Compare)
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
		for _, id := range inOrder(numbers) {
			ends := numbers[id]
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

// An expression is known to go one way where one part alone rests on what is varied, and no criterion does.
func TestExpressionsThatGoOneWay(t *testing.T) {
	steer := gradedBeef(t, map[measure.ID]string{measure.HotCarcassWeight: "800", measure.AdjustedFat: ".4", measure.RibeyeArea: "13"})
	fat, weight := reading(measure.AdjustedFat), reading(measure.HotCarcassWeight)
	varied := steer.Vary(measure.AdjustedFat)
	thin := compared{fat, "<", linear("0.3")}
	for name, test := range map[string]struct {
		of   Expression
		want bool
	}{
		"another reading":                    {weight, true},
		"the reading":                        {fat, true},
		"a sum of it":                        {beefYieldGrade, true},
		"it less itself":                     {difference{fat, Whole{Of: fat}}, false},
		"it times itself":                    {product{fat, fat}, false},
		"it over itself":                     {Quotient{Over: fat, Under: Rounded{fat, 1}, Places: 6}, false},
		"it less another":                    {difference{weight, fat}, true},
		"over it":                            {Quotient{Over: weight, Under: fat, Places: 6}, true},
		"the greater of it and its whole":    {greatest{fat, Whole{Of: fat}}, false},
		"one of two by it":                   {conditional{thin, integer(1), fat}, false},
		"one of two by another":              {conditional{compared{weight, "<", integer(900)}, fat, weight}, true},
		"a figure of it":                     {ComputedFigure(measure.WholeYieldGrade), true},
		"looked up by a score":               {lookUp{chart: porkGradeChart, score: fat, group: integer(2)}, true},
		"looked up within it":                {lookUp{chart: beefQualityChart, score: weight, within: fat}, false},
		"looked up in a group of it":         {lookUp{chart: porkGradeChart, score: weight, group: fat}, false},
		"refused by it":                      {refused{func(*Graded) string { return "" }, fat, []measure.ID{measure.AdjustedFat}}, false},
		"refused by another":                 {refused{func(*Graded) string { return "" }, fat, []measure.ID{measure.Sex}}, true},
		"a form that nothing is known about": {gradeScore{measure.AdjustedFat}, false},
	} {
		if got := varied.oneWay(test.of); got != test.want {
			t.Errorf("%s: %v, want %v", name, got, test.want)
		}
	}
}

// Whether all between two marblings, ribeyes or weights is known to be paid alike. Choice of A is Small 00 to Moderate 99; the
// yield grades of 13.0 and 13.4 sq in are 2.88 and 2.752 (7 CFR 54.105).
func TestPricesAlikeBetween(t *testing.T) {
	earned := func(test rules.Requirement) func(*rules.Rulebook) {
		return func(book *rules.Rulebook) {
			book.Premiums = []rules.Premium{{GridLine: rules.GridLine{Species: rules.Beef, Part: rules.PremiumPart, Name: "earned", Adjust: One}, Tests: []rules.Requirement{test}}}
		}
	}
	bound := func(number string) decimal.NullDecimal { return decimal.NewNullDecimal(Exact(number)) }
	for name, test := range map[string]struct {
		thirds   bool
		takes    rules.DarkCutterTakes
		with     func(*rules.Rulebook)
		by       measure.ID
		from, to string
		want     bool
	}{
		"all Choice":                          {by: measure.Marbling, from: "410", to: "690", want: true},
		"from Select to Choice":               {by: measure.Marbling, from: "390", to: "410"},
		"the middle third has its own line":   {thirds: true, by: measure.Marbling, from: "410", to: "690"},
		"one third":                           {thirds: true, by: measure.Marbling, from: "410", to: "490", want: true},
		"thirds, and lowered lean unlowered":  {thirds: true, takes: rules.DarkCutterDiscount, by: measure.Marbling, from: "410", to: "490"},
		"wholes, and lowered lean unlowered":  {takes: rules.DarkCutterDiscount, by: measure.Marbling, from: "410", to: "490", want: true},
		"one band of yield grades":            {by: measure.RibeyeArea, from: "13.0", to: "13.4", want: true},
		"two bands of yield grades":           {by: measure.RibeyeArea, from: "13.0", to: "14.4"},
		"one band of weights and yield grade": {by: measure.HotCarcassWeight, from: "790", to: "810", want: true},
		"a premium for the yield grade":       {with: earned(rules.Requirement{Measure: measure.YieldGrade, AtMost: bound("3")}), by: measure.RibeyeArea, from: "13.0", to: "13.4"},
		"a premium for another figure":        {with: earned(rules.Requirement{Measure: measure.AdjustedFat, AtMost: bound("1")}), by: measure.RibeyeArea, from: "13.0", to: "13.4", want: true},
		"a premium by the pound": {
			with: earned(rules.Requirement{Measure: measure.AdjustedFat, AtMost: bound("1"), PerPound: Exact("0.001")}), by: measure.HotCarcassWeight, from: "790", to: "810",
		},
	} {
		book := variedBook(test.thirds, test.takes)
		if test.with != nil {
			test.with(book)
		}
		steer := Grade(carcassOf(t, rules.Beef, rules.OnTheRail, map[measure.ID]string{
			measure.HotCarcassWeight: "800", measure.AdjustedFat: ".44", measure.RibeyeArea: "13.0", measure.InternalFat: "2", measure.Marbling: "Small 40", measure.Maturity: "A50",
		}), book)
		varied := steer.Vary(test.by)
		at := func(number string) *Graded { return varied.At(measure.NumberValue(Exact(number))) }
		if got := varied.AlikeBetween(at(test.from), at(test.to), measure.Price); got != test.want {
			t.Errorf("%s: %v, want %v", name, got, test.want)
		}
	}
}

// The lean percent rests on the weight twice, so that nobody knows which way it goes: nothing is said of its bands.
func TestAFigureThatMayTurnIsNotHeldByABand(t *testing.T) {
	hog := Grade(carcassOf(t, rules.Swine, rules.OnTheRail, map[measure.ID]string{
		measure.HotCarcassWeight: "180", measure.LastRibFat: "1", measure.MusclingScore: "2", measure.TenthRibFat: ".7", measure.LoinMuscleArea: "7",
	}), func() *rules.Rulebook {
		book := variedBook(false, "")
		book.Grid = append(book.Grid, rules.GridLine{Species: rules.Swine, Part: rules.YieldPart, Band: rules.Band{From: decimal.NewNullDecimal(One), FromIsIn: true}})
		return book
	}())
	varied := hog.Vary(measure.HotCarcassWeight)
	if _, priced := hog.Figure(measure.Price); !priced || varied.AlikeBetween(hog, varied.At(measure.NumberValue(Exact("181"))), measure.Price) {
		t.Errorf("priced: %v; a lean percent is said to stay within its band, or there is no price", priced)
	}
}

// A full grade off Select leaves less than the half grade that is the most off Standard, so the lowered grade turns back.
func TestALoweredGradeMayTurnBack(t *testing.T) {
	values := map[measure.ID]string{measure.Marbling: "Small 40", measure.Maturity: "A50"}
	for lowering, want := range map[string]bool{"0": true, "6": false} {
		values[measure.DarkCutterLowering] = lowering
		if got := gradedBeef(t, values).Vary(measure.Marbling).OneWay(measure.QualityGrade); got != want {
			t.Errorf("lowered by %s sixths: one way %v, want %v", lowering, got, want)
		}
	}
}
