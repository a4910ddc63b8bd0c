package grading

import (
	"strings"
	"testing"

	"railbook/rules"
	"railbook/rules/measure"

	"github.com/shopspring/decimal"
	"pgregory.net/rapid"
)

var defaultBook = rules.Default()

func allSpecies() (all []rules.Species) {
	for _, name := range rules.SpeciesNames() {
		all = append(all, rules.Species(name))
	}
	return all
}

// carcassOf makes a carcass on the rail of measures and their values; marbling, maturity and marks may be in words.
func carcassOf(t testing.TB, species rules.Species, basis rules.Basis, values map[measure.ID]string) *Carcass {
	t.Helper()
	readings := make(map[measure.ID]Reading, len(values))
	for id, text := range values {
		readings[id] = Reading{Value: testValue(t, id, text), Written: text, Plain: true}
	}
	return (&Carcass{Tag: "101", Species: species, Basis: basis}).With(readings)
}

func testValue(t testing.TB, id measure.ID, text string) measure.Value {
	t.Helper()
	definition, known := measure.Define(id)
	if !known {
		t.Fatalf("no such measure: %s", id)
	}
	switch definition.Kind {
	case measure.KindMarbling:
		if reading, ok := ParseMarbling(text, rules.MarblingHundreds); ok {
			return reading.Value
		}
	case measure.KindMaturity:
		if reading, ok := ParseMaturity(text); ok {
			return reading.Value
		}
	case measure.KindText:
		return measure.Value{Text: text}
	case measure.KindMark:
		if text == "yes" {
			return measure.Value{Number: One, Text: text}
		}
		return measure.Value{Text: text}
	}
	return measure.NumberValue(Exact(text))
}

// gradedBeef grades a carcass by the default rulebook.
func gradedBeef(t testing.TB, values map[measure.ID]string) *Graded {
	t.Helper()
	return Grade(carcassOf(t, rules.Beef, rules.OnTheRail, values), defaultBook)
}

func yieldCarcass(t testing.TB, weight, fat, ribeye, internalFat string) *Graded {
	t.Helper()
	return gradedBeef(t, map[measure.ID]string{
		measure.HotCarcassWeight: weight, measure.AdjustedFat: fat, measure.RibeyeArea: ribeye, measure.InternalFat: internalFat,
	})
}

func wantNumber(t *testing.T, g *Graded, id measure.ID, want string) {
	t.Helper()
	value, ok := g.Figure(id)
	if !ok || !value.Number.Equal(Exact(want)) {
		t.Errorf("%s is %q (%s), want %s", id, value.Text, g.FigureOf(id).Missing, want)
	}
}

func wantNear(t *testing.T, g *Graded, id measure.ID, want, within string) {
	t.Helper()
	value, ok := g.Figure(id)
	if !ok || value.Number.Sub(Exact(want)).Abs().GreaterThan(Exact(within)) {
		t.Errorf("%s is %q (%s), want %s within %s", id, value.Text, g.FigureOf(id).Missing, want, within)
	}
}

func TestYieldGradeOfTheBorderCarcassesInTheStandard(t *testing.T) {
	for _, test := range []struct{ weight, fat, ribeye, internalFat, want, whole, source string }{
		{"500", "0.3", "11.5", "2.5", "1.970", "1", "7 CFR 54.105(b)"},
		{"800", "0.4", "16.0", "2.5", "1.920", "1", "7 CFR 54.105(b)"},
		{"500", "0.5", "10.5", "3.5", "2.990", "2", "7 CFR 54.105(b)"},
		{"800", "0.6", "15.0", "3.5", "2.940", "2", "7 CFR 54.105(b)"},
		{"500", "0.7", "9.5", "4.0", "3.910", "3", "7 CFR 54.105(b)"},
		{"700", "0.2", "12.5", "1.5", "1.960", "1", "AMS, Carcass Beef Grades and Standards"},
		{"1100", "0.4", "19.1", "2.0", "1.968", "1", "AMS, Carcass Beef Grades and Standards"},
		{"700", "0.5", "12.3", "2.5", "2.974", "2", "AMS, Carcass Beef Grades and Standards"},
		{"700", "0.9", "9.8", "3.5", "4.974", "4", "AMS, Carcass Beef Grades and Standards (a second-hand copy)"},
	} {
		t.Run(test.source+" "+test.want, func(t *testing.T) {
			g := yieldCarcass(t, test.weight, test.fat, test.ribeye, test.internalFat)
			wantNumber(t, g, measure.YieldGrade, test.want)
			wantNumber(t, g, measure.WholeYieldGrade, test.whole)
		})
	}
}

func TestYieldGradeOfWorkedExamples(t *testing.T) {
	for _, test := range []struct{ fat, ribeye, weight, internalFat, want, within, source string }{
		{".40", "12.8", "750", "2.5", "2.75", ".005", "NDSU Ag Hub, Yield grades of carcasses"},
		{".4", "12", "735", "2.5", "2.95", ".005", "FFA lesson, How to Yield Grade Beef"},
		{".20", "14.0", "809", "2.5", "2.09", ".005", "Utah State University, teaching table"},
		{".75", "13.0", "745", "3.5", "3.75", ".005", "Utah State University, teaching table"},
		{".4", "12.3", "605", "3.0", "2.5", ".05", "study cards (a second-hand copy), to the tenth"},
		{".6", "11.8", "700", "3.5", "3.6", ".05", "study cards (a second-hand copy), to the tenth"},
	} {
		t.Run(test.source+" "+test.want, func(t *testing.T) {
			g := yieldCarcass(t, test.weight, test.fat, test.ribeye, test.internalFat)
			wantNear(t, g, measure.YieldGrade, test.want, test.within)
			wantNumber(t, g, measure.WholeYieldGrade, Exact(test.want).Truncate(0).String())
		})
	}
}

// Two rows of the Utah State University teaching table are wrong in print; they look swapped.
func TestYieldGradeDisagreesWithTheTwoMisprintedRows(t *testing.T) {
	for _, test := range []struct{ fat, ribeye, weight, internalFat, printed, want string }{
		{".30", "14.4", "765", "2.5", "1.92", "2.049"},
		{".20", "13.6", "740", "2.5", "2.05", "1.960"},
	} {
		g := yieldCarcass(t, test.weight, test.fat, test.ribeye, test.internalFat)
		wantNumber(t, g, measure.YieldGrade, test.want)
		if g.FigureOf(measure.YieldGrade).Value.Number.Round(2).Equal(Exact(test.printed)) {
			t.Errorf("the misprint %s is reproduced", test.printed)
		}
	}
}

// Means of trials, in cm, sq cm and kg. Fat is printed to a tenth of a centimetre, so they are right within a tenth.
func TestYieldGradeOfTrialMeansInMetricUnits(t *testing.T) {
	for _, test := range []struct{ fat, ribeye, weight, internalFat, want, source string }{
		{"1.3", "79.4", "375.9", "2.2", "3.5", "J. Anim. Sci. 2020 skaa287 table 1 (PMC7526868)"},
		{"1.1", "83.6", "367.7", "2.2", "2.9", "J. Anim. Sci. 2020 skaa287 table 1 (PMC7526868)"},
		{"1.6", "75.2", "384.9", "2.3", "4.0", "J. Anim. Sci. 2020 skaa287 table 1 (PMC7526868)"},
		{"1.63", "85.81", "361", "2.16", "3.3", "J. Anim. Sci. 2018 sky105 table 7 (PMC6140836)"},
		{"2.15", "89.03", "383", "2.06", "3.8", "J. Anim. Sci. 2018 sky105 table 7 (PMC6140836)"},
		{"2.52", "93.55", "420", "1.98", "4.3", "J. Anim. Sci. 2018 sky105 table 7 (PMC6140836)"},
	} {
		t.Run(test.source+" "+test.want, func(t *testing.T) {
			g := yieldCarcass(t,
				Exact(test.weight).DivRound(Exact("0.45359237"), 4).String(), Exact(test.fat).DivRound(Exact("2.54"), 4).String(),
				Exact(test.ribeye).DivRound(Exact("6.4516"), 4).String(), test.internalFat)
			wantNear(t, g, measure.YieldGrade, test.want, ".1")
		})
	}
}

// NDSU ASWeb-121: about one whole grade is 0.4 in of fat, 5 % of internal fat, 3 sq in of ribeye, 250 lb of carcass.
func TestWhatMakesOneWholeYieldGrade(t *testing.T) {
	equation, ok := Equation(defaultBook, rules.Beef, rules.OnTheRail, measure.YieldGrade)
	if !ok {
		t.Fatal("the yield grade has no linear equation")
	}
	step := map[measure.ID]string{measure.AdjustedFat: "0.4", measure.InternalFat: "5", measure.RibeyeArea: "3", measure.HotCarcassWeight: "250"}
	if len(equation.Addends) != len(step) {
		t.Fatalf("the yield grade has %d addends", len(equation.Addends))
	}
	for _, addend := range equation.Addends {
		if grade := addend.Coefficient.Mul(Exact(step[addend.Measure])).Abs(); grade.Sub(One).Abs().GreaterThan(Exact("0.05")) {
			t.Errorf("%s %s makes %s of a grade, not about one", step[addend.Measure], addend.Measure, grade)
		}
	}
}

func TestTermsAddUpToTheYieldGrade(t *testing.T) {
	carcass := yieldCarcass(t, "780", ".40", "13.6", "2.5")
	figure, terms := carcass.FigureOf(measure.YieldGrade), carcass.Terms(measure.YieldGrade)
	sum := decimal.Zero
	for _, term := range terms {
		sum = sum.Add(term.Value.Number)
	}
	if len(terms) != 5 || !sum.Equal(figure.Value.Number) || !terms[0].Value.Number.Equal(Exact("2.5")) {
		t.Errorf("the terms %v add up to %s, not to %s", terms, sum, figure.Value.Text)
	}
}

func TestWholeYieldGradeIsCutAndStaysWithinOneToFive(t *testing.T) {
	for _, test := range []struct{ fat, want, whole string }{
		{"0", "0.82", "1"},                // below one
		{"0.4719", "1.99975", "1"},        // does not round up
		{"0.472", "2", "2"},               // exactly two
		{"0.871999", "2.999998", "2"},     // the last figure below three
		{"0.872", "3", "3"},               // exactly three
		{"2", "5.82", "5"},                // a five
		{"2.5", "7.07", "5"},              // beyond five
		{"0.8719999999", "3", "3"},        // 2.99999999975 is 3 as a figure of 6 decimals
		{"0.35999999999999", "1.72", "1"}, // as a spreadsheet may store 0.36
	} {
		g := yieldCarcass(t, "1000", test.fat, "18.5", "2.2")
		wantNumber(t, g, measure.YieldGrade, test.want)
		wantNumber(t, g, measure.WholeYieldGrade, test.whole)
	}
}

func TestMoreFatNeverLowersTheYieldGrade(t *testing.T) {
	rapid.Check(t, func(r *rapid.T) {
		draw := func(name string, from, to, places int) decimal.Decimal {
			return decimal.New(int64(rapid.IntRange(from, to).Draw(r, name)), int32(-places))
		}
		weight, ribeye, internalFat := draw("weight", 2000, 18000, 1), draw("ribeye", 400, 2500, 2), draw("KPH", 0, 80, 1)
		fat, more := draw("fat", 0, 200, 2), draw("more", 0, 200, 2)
		lean := yieldCarcass(t, weight.String(), fat.String(), ribeye.String(), internalFat.String())
		fatter := yieldCarcass(t, weight.String(), fat.Add(more).String(), ribeye.String(), internalFat.String())
		for _, id := range []measure.ID{measure.YieldGrade, measure.WholeYieldGrade} {
			if fatter.FigureOf(id).Value.Number.LessThan(lean.FigureOf(id).Value.Number) {
				r.Fatalf("%s falls from %s to %s", id, lean.FigureOf(id).Value.Text, fatter.FigureOf(id).Value.Text)
			}
		}
		if fatter.FigureOf(measure.Cutability).Value.Number.GreaterThan(lean.FigureOf(measure.Cutability).Value.Number) {
			r.Fatal("more fat raises the cutability")
		}
	})
}

// University of Florida Agricultural Experiment Station, steer trials, mimeo of about 1964, table X; means, within 0.1.
func TestCutabilityOfTrialMeans(t *testing.T) {
	for _, test := range []struct{ fat, ribeye, weight, internalFat, want string }{
		{".39", "12.47", "675", "2.5", "50.88"},
		{".32", "12.86", "641", "2.1", "52.10"},
		{".52", "12.00", "664", "2.4", "49.96"},
		{".34", "11.72", "614", "2.0", "51.37"},
		{".36", "10.52", "559", "2.6", "50.67"},
		{".48", "10.36", "570", "2.8", "49.64"},
		{".54", "10.65", "621", "3.0", "49.00"},
		{".52", "11.12", "588", "2.3", "50.01"},
	} {
		wantNear(t, yieldCarcass(t, test.weight, test.fat, test.ribeye, test.internalFat), measure.Cutability, test.want, ".1")
	}
}

// NDSU ASWeb-121 gives 50.1–52.3 % for yield grade 2. The two are different equations: near a border they may disagree, so
// the whole grade is never taken from the cutability.
func TestCutabilityInTheMiddleOfAYieldGrade(t *testing.T) {
	for _, test := range []struct{ fat, yieldGrade, from, to string }{
		{"0", "1", "52.4", "60"},
		{"0.37", "2", "50.1", "52.3"},
		{"0.77", "3", "47.8", "50.0"},
		{"1.17", "4", "45.5", "47.7"},
		{"1.7", "5", "30", "45.4"},
	} {
		g := yieldCarcass(t, "750", test.fat, "13", "2.5")
		wantNumber(t, g, measure.WholeYieldGrade, test.yieldGrade)
		if cut := g.FigureOf(measure.Cutability).Value.Number; cut.LessThan(Exact(test.from)) || cut.GreaterThan(Exact(test.to)) {
			t.Errorf("yield grade %s has a cutability of %s, outside %s to %s", test.yieldGrade, cut, test.from, test.to)
		}
	}
}

func TestRibeyeByDotCount(t *testing.T) { // 12 sq in outlined, 3 dots missing, 9 outside → 12.6: common practice
	g := gradedBeef(t, map[measure.ID]string{measure.DotsOutlined: "12", measure.DotsMissing: "3", measure.DotsOutside: "9"})
	wantNumber(t, g, measure.RibeyeArea, "12.6")
}

func TestDerivedInputs(t *testing.T) {
	for _, test := range []struct {
		name    string
		values  map[measure.ID]string
		measure measure.ID
		want    string
		assumed string
	}{
		{"read", map[measure.ID]string{measure.HotCarcassWeight: "800", measure.LeftSideWeight: "1", measure.RightSideWeight: "1"}, measure.HotCarcassWeight, "800", ""},
		{"sides", map[measure.ID]string{measure.LeftSideWeight: "401.5", measure.RightSideWeight: "399.25"}, measure.HotCarcassWeight, "800.75", ""},
		{"chilled", map[measure.ID]string{measure.ChilledCarcassWeight: "780"}, measure.HotCarcassWeight, "795.6", "hot carcass weight 795.6 lb, from the chilled weight"},
		{"adjusted", map[measure.ID]string{measure.AdjustedFat: ".5", measure.MeasuredFat: ".4"}, measure.AdjustedFat, "0.5", ""},
		{"adjustment", map[measure.ID]string{measure.MeasuredFat: ".4", measure.FatAdjustment: "-.1"}, measure.AdjustedFat, "0.3", ""},
		{"measured", map[measure.ID]string{measure.MeasuredFat: ".4"}, measure.AdjustedFat, "0.4", ""},
		{"fair weight", map[measure.ID]string{measure.FairWeight: "1300"}, measure.LiveWeight, "1300", "live weight 1300 lb, the fair's own, for the plant gives none"},
		{"customary", nil, measure.InternalFat, "2.5", "KPH 2.5 %, customary"},
		{"no maturity", nil, measure.OverallMaturity, "150", "maturity A50, for the sheet has none"},
		{"cut marbling", map[measure.ID]string{measure.Marbling: "440.9"}, measure.MarblingScore, "440", ""},
		{"dressing", map[measure.ID]string{measure.HotCarcassWeight: "780", measure.LiveWeight: "1250"}, measure.DressingPercent, "62.4", ""},
		{"per cwt", map[measure.ID]string{measure.HotCarcassWeight: "780", measure.RibeyeArea: "13.6"}, measure.RibeyePerHundredweight, "1.74359", ""},
	} {
		t.Run(test.name, func(t *testing.T) {
			g := gradedBeef(t, test.values)
			wantNumber(t, g, test.measure, test.want)
			if assumed := g.FigureOf(test.measure).Assumed; assumed != test.assumed {
				t.Errorf("assumed %q, want %q", assumed, test.assumed)
			}
		})
	}
}

func TestWhatCannotBeReadGetsNoDefault(t *testing.T) {
	for _, test := range []struct {
		unreadable measure.ID
		missing    []measure.ID
	}{
		{measure.InternalFat, []measure.ID{measure.InternalFat, measure.YieldGrade, measure.WholeYieldGrade, measure.Cutability, measure.Price, measure.CarcassValue}},
		{measure.Maturity, []measure.ID{measure.OverallMaturity, measure.QualityGrade, measure.Price}},
		{measure.HotCarcassWeight, []measure.ID{measure.HotCarcassWeight, measure.YieldGrade, measure.DressingPercent, measure.CarcassValue}},
		{measure.FatAdjustment, []measure.ID{measure.AdjustedFat, measure.YieldGrade}},
		{measure.DarkCutter, []measure.ID{measure.QualityGrade, measure.Price}},
	} {
		carcass := carcassOf(t, rules.Beef, rules.OnTheRail, map[measure.ID]string{
			measure.HotCarcassWeight: "780", measure.LiveWeight: "1250", measure.MeasuredFat: ".4", measure.FatAdjustment: "0", measure.RibeyeArea: "13.6",
			measure.InternalFat: "2.5", measure.Marbling: "440", measure.Maturity: "A60", measure.ChilledCarcassWeight: "760",
		})
		carcass.SetReading(test.unreadable, Reading{Written: "??", Unreadable: true})
		g := Grade(carcass, defaultBook)
		for _, id := range test.missing {
			if figure := g.FigureOf(id); !strings.Contains(figure.Missing, "cannot be read") || figure.Value.Text != "" {
				t.Errorf("%s unreadable: %s is %q (%s)", test.unreadable, id, figure.Value.Text, figure.Missing)
			}
			if _, ok := g.Formula(id, sheetReferences{}); ok {
				t.Errorf("%s unreadable: %s has a formula", test.unreadable, id)
			}
		}
	}
}

func TestNothingReadGivesNoFigureAndNoPanic(t *testing.T) {
	g := Grade(&Carcass{Species: rules.Beef}, defaultBook)
	for _, id := range []measure.ID{measure.YieldGrade, measure.QualityGrade, measure.Price, measure.CarcassValue, measure.DressingPercent} {
		if figure := g.FigureOf(id); figure.Missing == "" {
			t.Errorf("%s is %q", id, figure.Value.Text)
		}
	}
	if reason := g.FigureOf(measure.YieldGrade).Missing; reason != "no adjusted fat; no hot carcass weight; no ribeye area" {
		t.Errorf("yield grade is missing because of %q", reason)
	}
	if g := Grade(&Carcass{Species: "ostrich"}, defaultBook); g.figures.Len() != 0 || len(g.AppendShape(nil)) != 0 {
		t.Error("an unknown species has figures")
	}
}

func TestZeroLiveWeightIsNoDressingPercent(t *testing.T) {
	g := gradedBeef(t, map[measure.ID]string{measure.HotCarcassWeight: "780", measure.LiveWeight: "0"})
	if figure := g.FigureOf(measure.DressingPercent); figure.Missing != "the live weight is zero" {
		t.Errorf("dressing percent is %q (%s)", figure.Value.Text, figure.Missing)
	}
}
