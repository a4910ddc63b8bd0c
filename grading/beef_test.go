package grading

import (
	"strings"
	"testing"

	"github.com/shopspring/decimal"
	"pgregory.net/rapid"

	"railbook/rules"
)

var defaultBook = rules.Default()

// carcassOf makes a carcass on the rail of measures and their values; marbling, maturity and marks may be in words.
func carcassOf(t testing.TB, species rules.Species, basis rules.Basis, values map[rules.Measure]string) *Carcass {
	t.Helper()
	readings := make(map[rules.Measure]Reading, len(values))
	for measure, text := range values {
		readings[measure] = Reading{Value: testValue(t, measure, text), Written: text, Plain: true}
	}
	return &Carcass{Tag: "101", Species: species, Basis: basis, Readings: readings}
}

func testValue(t testing.TB, measure rules.Measure, text string) rules.Value {
	t.Helper()
	definition, known := rules.Define(measure)
	if !known {
		t.Fatalf("no such measure: %s", measure)
	}
	switch definition.Kind {
	case rules.KindMarbling:
		if reading, ok := ParseMarbling(text, rules.MarblingHundreds); ok {
			return reading.Value
		}
	case rules.KindMaturity:
		if reading, ok := ParseMaturity(text); ok {
			return reading.Value
		}
	case rules.KindText:
		return rules.Value{Text: text}
	case rules.KindMark:
		if text == "yes" {
			return rules.Value{Number: one, Text: text}
		}
		return rules.Value{Text: text}
	}
	return rules.NumberValue(exact(text))
}

// gradedBeef grades a carcass by the default rulebook.
func gradedBeef(t testing.TB, values map[rules.Measure]string) *Graded {
	t.Helper()
	return Grade(carcassOf(t, rules.Beef, rules.OnTheRail, values), defaultBook)
}

func yieldCarcass(t testing.TB, weight, fat, ribeye, internalFat string) *Graded {
	t.Helper()
	return gradedBeef(t, map[rules.Measure]string{
		rules.HotCarcassWeight: weight, rules.AdjustedFat: fat, rules.RibeyeArea: ribeye, rules.InternalFat: internalFat,
	})
}

func wantNumber(t *testing.T, g *Graded, measure rules.Measure, want string) {
	t.Helper()
	value, ok := g.Figure(measure)
	if !ok || !value.Number.Equal(exact(want)) {
		t.Errorf("%s is %q (%s), want %s", measure, value.Text, g.Figures[measure].Missing, want)
	}
}

func wantNear(t *testing.T, g *Graded, measure rules.Measure, want, within string) {
	t.Helper()
	value, ok := g.Figure(measure)
	if !ok || value.Number.Sub(exact(want)).Abs().GreaterThan(exact(within)) {
		t.Errorf("%s is %q (%s), want %s within %s", measure, value.Text, g.Figures[measure].Missing, want, within)
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
			wantNumber(t, g, rules.YieldGrade, test.want)
			wantNumber(t, g, rules.WholeYieldGrade, test.whole)
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
			wantNear(t, g, rules.YieldGrade, test.want, test.within)
			wantNumber(t, g, rules.WholeYieldGrade, exact(test.want).Truncate(0).String())
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
		wantNumber(t, g, rules.YieldGrade, test.want)
		if g.Figures[rules.YieldGrade].Value.Number.Round(2).Equal(exact(test.printed)) {
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
				exact(test.weight).DivRound(exact("0.45359237"), 4).String(), exact(test.fat).DivRound(exact("2.54"), 4).String(),
				exact(test.ribeye).DivRound(exact("6.4516"), 4).String(), test.internalFat)
			wantNear(t, g, rules.YieldGrade, test.want, ".1")
		})
	}
}

// NDSU ASWeb-121: about one whole grade is 0.4 in of fat, 5 % of internal fat, 3 sq in of ribeye, 250 lb of carcass.
func TestWhatMakesOneWholeYieldGrade(t *testing.T) {
	equation, ok := Equation(defaultBook, rules.Beef, rules.OnTheRail, rules.YieldGrade)
	if !ok {
		t.Fatal("the yield grade has no linear equation")
	}
	step := map[rules.Measure]string{rules.AdjustedFat: "0.4", rules.InternalFat: "5", rules.RibeyeArea: "3", rules.HotCarcassWeight: "250"}
	if len(equation.Addends) != len(step) {
		t.Fatalf("the yield grade has %d addends", len(equation.Addends))
	}
	for _, addend := range equation.Addends {
		if grade := addend.Coefficient.Mul(exact(step[addend.Measure])).Abs(); grade.Sub(one).Abs().GreaterThan(exact("0.05")) {
			t.Errorf("%s %s makes %s of a grade, not about one", step[addend.Measure], addend.Measure, grade)
		}
	}
}

func TestTermsAddUpToTheYieldGrade(t *testing.T) {
	figure := yieldCarcass(t, "780", ".40", "13.6", "2.5").Figures[rules.YieldGrade]
	sum := decimal.Zero
	for _, term := range figure.Terms {
		sum = sum.Add(term.Value.Number)
	}
	if len(figure.Terms) != 5 || !sum.Equal(figure.Value.Number) || !figure.Terms[0].Value.Number.Equal(exact("2.5")) {
		t.Errorf("the terms %v add up to %s, not to %s", figure.Terms, sum, figure.Value.Text)
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
		wantNumber(t, g, rules.YieldGrade, test.want)
		wantNumber(t, g, rules.WholeYieldGrade, test.whole)
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
		for _, measure := range []rules.Measure{rules.YieldGrade, rules.WholeYieldGrade} {
			if fatter.Figures[measure].Value.Number.LessThan(lean.Figures[measure].Value.Number) {
				r.Fatalf("%s falls from %s to %s", measure, lean.Figures[measure].Value.Text, fatter.Figures[measure].Value.Text)
			}
		}
		if fatter.Figures[rules.Cutability].Value.Number.GreaterThan(lean.Figures[rules.Cutability].Value.Number) {
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
		wantNear(t, yieldCarcass(t, test.weight, test.fat, test.ribeye, test.internalFat), rules.Cutability, test.want, ".1")
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
		wantNumber(t, g, rules.WholeYieldGrade, test.yieldGrade)
		if cut := g.Figures[rules.Cutability].Value.Number; cut.LessThan(exact(test.from)) || cut.GreaterThan(exact(test.to)) {
			t.Errorf("yield grade %s has a cutability of %s, outside %s to %s", test.yieldGrade, cut, test.from, test.to)
		}
	}
}

func TestRibeyeByDotCount(t *testing.T) { // 12 sq in outlined, 3 dots missing, 9 outside → 12.6: common practice
	g := gradedBeef(t, map[rules.Measure]string{rules.DotsOutlined: "12", rules.DotsMissing: "3", rules.DotsOutside: "9"})
	wantNumber(t, g, rules.RibeyeArea, "12.6")
}

func TestDerivedInputs(t *testing.T) {
	for _, test := range []struct {
		name    string
		values  map[rules.Measure]string
		measure rules.Measure
		want    string
		assumed string
	}{
		{"read", map[rules.Measure]string{rules.HotCarcassWeight: "800", rules.LeftSideWeight: "1", rules.RightSideWeight: "1"}, rules.HotCarcassWeight, "800", ""},
		{"sides", map[rules.Measure]string{rules.LeftSideWeight: "401.5", rules.RightSideWeight: "399.25"}, rules.HotCarcassWeight, "800.75", ""},
		{"chilled", map[rules.Measure]string{rules.ChilledCarcassWeight: "780"}, rules.HotCarcassWeight, "795.6", "hot carcass weight 795.6 lb, from the chilled weight"},
		{"adjusted", map[rules.Measure]string{rules.AdjustedFat: ".5", rules.MeasuredFat: ".4"}, rules.AdjustedFat, "0.5", ""},
		{"adjustment", map[rules.Measure]string{rules.MeasuredFat: ".4", rules.FatAdjustment: "-.1"}, rules.AdjustedFat, "0.3", ""},
		{"measured", map[rules.Measure]string{rules.MeasuredFat: ".4"}, rules.AdjustedFat, "0.4", ""},
		{"fair weight", map[rules.Measure]string{rules.FairWeight: "1300"}, rules.LiveWeight, "1300", "live weight 1300 lb, the fair's own, for the plant gives none"},
		{"customary", nil, rules.InternalFat, "2.5", "KPH 2.5 %, customary"},
		{"no maturity", nil, rules.OverallMaturity, "150", "maturity A50, for the sheet has none"},
		{"cut marbling", map[rules.Measure]string{rules.Marbling: "440.9"}, rules.MarblingScore, "440", ""},
		{"dressing", map[rules.Measure]string{rules.HotCarcassWeight: "780", rules.LiveWeight: "1250"}, rules.DressingPercent, "62.4", ""},
		{"per cwt", map[rules.Measure]string{rules.HotCarcassWeight: "780", rules.RibeyeArea: "13.6"}, rules.RibeyePerHundredweight, "1.74359", ""},
	} {
		t.Run(test.name, func(t *testing.T) {
			g := gradedBeef(t, test.values)
			wantNumber(t, g, test.measure, test.want)
			if assumed := g.Figures[test.measure].Assumed; assumed != test.assumed {
				t.Errorf("assumed %q, want %q", assumed, test.assumed)
			}
		})
	}
}

func TestWhatCannotBeReadGetsNoDefault(t *testing.T) {
	for _, test := range []struct {
		unreadable rules.Measure
		missing    []rules.Measure
	}{
		{rules.InternalFat, []rules.Measure{rules.InternalFat, rules.YieldGrade, rules.WholeYieldGrade, rules.Cutability, rules.Price, rules.CarcassValue}},
		{rules.Maturity, []rules.Measure{rules.OverallMaturity, rules.QualityGrade, rules.Price}},
		{rules.HotCarcassWeight, []rules.Measure{rules.HotCarcassWeight, rules.YieldGrade, rules.DressingPercent, rules.CarcassValue}},
		{rules.FatAdjustment, []rules.Measure{rules.AdjustedFat, rules.YieldGrade}},
		{rules.DarkCutter, []rules.Measure{rules.QualityGrade, rules.Price}},
	} {
		carcass := carcassOf(t, rules.Beef, rules.OnTheRail, map[rules.Measure]string{
			rules.HotCarcassWeight: "780", rules.LiveWeight: "1250", rules.MeasuredFat: ".4", rules.FatAdjustment: "0", rules.RibeyeArea: "13.6",
			rules.InternalFat: "2.5", rules.Marbling: "440", rules.Maturity: "A60", rules.ChilledCarcassWeight: "760",
		})
		carcass.Readings[test.unreadable] = Reading{Written: "??", Unreadable: true}
		g := Grade(carcass, defaultBook)
		for _, measure := range test.missing {
			if figure := g.Figures[measure]; !strings.Contains(figure.Missing, "cannot be read") || figure.Value.Text != "" {
				t.Errorf("%s unreadable: %s is %q (%s)", test.unreadable, measure, figure.Value.Text, figure.Missing)
			}
			if _, ok := g.Formula(measure, sheetReferences{}); ok {
				t.Errorf("%s unreadable: %s has a formula", test.unreadable, measure)
			}
		}
	}
}

func TestNothingReadGivesNoFigureAndNoPanic(t *testing.T) {
	g := Grade(&Carcass{Species: rules.Beef}, defaultBook)
	for _, measure := range []rules.Measure{rules.YieldGrade, rules.QualityGrade, rules.Price, rules.CarcassValue, rules.DressingPercent} {
		if figure := g.Figures[measure]; figure.Missing == "" {
			t.Errorf("%s is %q", measure, figure.Value.Text)
		}
	}
	if reason := g.Figures[rules.YieldGrade].Missing; reason != "no adjusted fat; no hot carcass weight; no ribeye area" {
		t.Errorf("yield grade is missing because of %q", reason)
	}
	if g := Grade(&Carcass{Species: "ostrich"}, defaultBook); len(g.Figures) != 0 || g.Shape() != "" {
		t.Error("an unknown species has figures")
	}
}

func TestZeroLiveWeightIsNoDressingPercent(t *testing.T) {
	g := gradedBeef(t, map[rules.Measure]string{rules.HotCarcassWeight: "780", rules.LiveWeight: "0"})
	if figure := g.Figures[rules.DressingPercent]; figure.Missing != "the live weight is zero" {
		t.Errorf("dressing percent is %q (%s)", figure.Value.Text, figure.Missing)
	}
}
