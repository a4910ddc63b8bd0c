package grading

import (
	"math/rand/v2"
	"testing"

	"railbook/rules"
	"railbook/rules/measure"

	"github.com/shopspring/decimal"
	"pgregory.net/rapid"
)

// U.S. standards for grades of lamb, 1992: .15 and less is 1, .16–.25 is 2, .26–.35 is 3, .36–.45 is 4, .46 and more is 5.
func TestLambYieldGrade(t *testing.T) {
	for _, test := range []struct{ fat, want, whole string }{
		{".05", "0.9", "1"},
		{".15", "1.9", "1"},
		{".155", "1.95", "1"},
		{".16", "2", "2"},
		{".25", "2.9", "2"},
		{".26", "3", "3"},
		{".35", "3.9", "3"},
		{".36", "4", "4"}, // 3.9999999999999996 in binary arithmetic
		{".45", "4.9", "4"},
		{".46", "5", "5"},
		{".80", "8.4", "5"},
	} {
		g := gradedAs(t, rules.Lamb, rules.OnTheRail, defaultBook, map[measure.ID]string{measure.AdjustedFat: test.fat})
		wantNumber(t, g, measure.YieldGrade, test.want)
		wantNumber(t, g, measure.WholeYieldGrade, test.whole)
	}
}

// Univ. of Maryland 2019, means of three groups; within .02.
func TestLambCutabilityOfTrialMeans(t *testing.T) {
	for _, test := range []struct{ weight, fat, bodyWall, ribeye, want string }{
		{"63.0", ".083", ".529", "3.01", "49.75"},
		{"60.7", ".100", ".514", "2.83", "49.48"},
		{"58.6", ".142", ".558", "2.71", "49.04"},
	} {
		g := gradedAs(t, rules.Lamb, rules.OnTheRail, defaultBook, map[measure.ID]string{
			measure.HotCarcassWeight: test.weight, measure.AdjustedFat: test.fat, measure.BodyWallThickness: test.bodyWall, measure.RibeyeArea: test.ribeye,
		})
		wantNear(t, g, measure.Cutability, test.want, ".02")
	}
}

func TestLambQualityGrade(t *testing.T) {
	for _, test := range []struct{ maturity, streaking, conformation, want, source string }{
		// Conformation High Prime never holds the quality back by being below it.
		{"A50", "Slight 50", "Average Choice", "Average Choice", "U.S. standards 1992, worked from the minimums"},
		{"A50", "Small 70", "Low Prime", "Low Prime", "U.S. standards 1992, worked from the minimums"},
		{"A50", "Small 50", "Choice", "High Choice", "published case: Low Prime with Choice"},
		{"A00", "800", "Low Good", "Low Choice", "published case: High Prime with Low Good"},
		{"A00", "Small 00", "High Prime", "Low Prime", "U.S. standards 1992"},
		{"A00", "Slight 99", "High Prime", "High Choice", "U.S. standards 1992"},
		{"A99", "Small 98", "High Choice", "High Choice", "U.S. standards 1992"},
		{"A99", "Small 99", "High Prime", "Low Prime", "U.S. standards 1992"},
		{"B00", "Modest 00", "High Prime", "Low Prime", "U.S. standards 1992"},
		{"B00", "Small 99", "High Choice", "High Choice", "U.S. standards 1992"},
		{"A00", "Traces 00", "Low Choice", "Low Choice", "from memory"},
		{"A00", "Practically Devoid 99", "High Good", "High Good", "from memory"},
		{"A00", "Practically Devoid 00", "Low Good", "Low Good", "from memory"},
		{"A00", "Devoid 99", "High Prime", "Utility", "from memory"},
		{"B00", "Slight 00", "Low Choice", "Low Choice", "from memory"},
		{"B00", "Traces 00", "Low Good", "Low Good", "from memory"},
		// Our own reading of the compensation rules.
		{"A50", "Traces 60", "High Choice", "Average Choice", "conformation two higher lifts Choice by a third"},
		{"A50", "Traces 60", "Average Choice", "Low Choice", "conformation one higher does not"},
		{"A50", "Slight 10", "High Prime", "Average Choice", "conformation much higher lifts by one third only"},
		{"A50", "Practically Devoid 99", "High Prime", "Average Good", "Good is not lifted"},
		{"A50", "600", "Low Choice", "High Choice", "the mean of 14 and 10"},
		{"A50", "500", "Low Choice", "Average Choice", "the mean of 13 and 10, half a point rounding down"},
	} {
		conformation, _, ok := ParseQualityGrade(test.conformation)
		if !ok {
			t.Fatal(test.conformation)
		}
		carcass := carcassOf(t, rules.Lamb, rules.OnTheRail, map[measure.ID]string{measure.Maturity: test.maturity, measure.FlankStreaking: test.streaking})
		carcass.SetReading(measure.Conformation, Reading{Value: conformation, Written: test.conformation})
		figure := Grade(carcass, defaultBook).FigureOf(measure.QualityGrade)
		if figure.Value.Text != test.want {
			t.Errorf("%s %s with conformation %s is %q (%s), want %s: %s", test.maturity, test.streaking, test.conformation, figure.Value.Text, figure.Missing, test.want, test.source)
		}
	}
	for _, maturity := range []string{"C00", "C10"} {
		old := gradedAs(t, rules.Lamb, rules.OnTheRail, defaultBook, map[measure.ID]string{measure.Maturity: maturity, measure.FlankStreaking: "450", measure.LegScore: "12"})
		if figure := old.FigureOf(measure.QualityGrade); figure.Missing != "a lamb's maturity is A or B, not "+maturity {
			t.Errorf("a lamb of %s is %q (%s)", maturity, figure.Value.Text, figure.Missing)
		}
	}
	leg := gradedAs(t, rules.Lamb, rules.OnTheRail, defaultBook, map[measure.ID]string{measure.FlankStreaking: "450", measure.LegScore: "12"}).FigureOf(measure.QualityGrade)
	if leg.Value.Text != "High Choice" || leg.Assumed != "maturity A50, for the sheet has none; conformation by the leg score" {
		t.Errorf("by the leg score: %q, assuming %q", leg.Value.Text, leg.Assumed)
	}
}

// The fat of a lamb is the mean of its two sides; one side alone stands for both (common practice).
func TestFatOfTwoSidesIsTheirMean(t *testing.T) {
	for _, test := range []struct {
		sides map[measure.ID]string
		want  string
	}{
		{map[measure.ID]string{measure.LeftFat: "0.18", measure.RightFat: "0.26"}, "0.22"},
		{map[measure.ID]string{measure.LeftFat: "0.18"}, "0.18"},
	} {
		fat, ok := gradedAs(t, rules.Lamb, rules.OnTheRail, defaultBook, test.sides).Figure(measure.MeasuredFat)
		if !ok || !fat.Number.Equal(Exact(test.want)) {
			t.Errorf("%v: %s, want %s", test.sides, fat.Number, test.want)
		}
	}
}

// Leg score 15 is High Prime, 10 Low Choice, 7 Low Good: from memory. It stands for the conformation where there is none.
func TestLegScoreIsReadAsConformation(t *testing.T) {
	for score, want := range map[string]string{"15": "High Prime", "13": "Low Prime", "12": "High Choice", "10": "Low Choice", "9": "High Good", "7": "Low Good"} {
		same, _, _ := ParseQualityGrade(want)
		values := map[measure.ID]string{measure.Maturity: "A50", measure.FlankStreaking: "450", measure.HotCarcassWeight: "65"}
		judged := carcassOf(t, rules.Lamb, rules.OnTheRail, values)
		judged.SetReading(measure.Conformation, Reading{Value: same, Written: want})
		values[measure.LegScore] = score
		byLeg, byConformation := gradedAs(t, rules.Lamb, rules.OnTheRail, defaultBook, values), Grade(judged, defaultBook)
		if got, other := byLeg.FigureOf(measure.ConformationScore).Value.Number, byConformation.FigureOf(measure.ConformationScore).Value.Number; !got.Equal(Exact(score)) || !other.Equal(got) {
			t.Errorf("leg score %s is %s, and conformation %s is %s", score, got, want, other)
		}
		if got, other := byLeg.FigureOf(measure.QualityGrade).Value.Text, byConformation.FigureOf(measure.QualityGrade).Value.Text; got == "" || got != other {
			t.Errorf("leg score %s gives %q, conformation %s gives %q", score, got, want, other)
		}
	}
}

func TestMoreFatNeverLowersTheLambYieldGrade(t *testing.T) {
	rapid.Check(t, func(r *rapid.T) {
		fat := rapid.Int64Range(0, 999).Draw(r, "thousandths of an inch")
		more := fat + rapid.Int64Range(0, 99).Draw(r, "more")
		at := func(fat int64) *Graded {
			return gradedAs(t, rules.Lamb, rules.OnTheRail, defaultBook, map[measure.ID]string{measure.AdjustedFat: decimal.New(fat, -3).String()})
		}
		for _, id := range []measure.ID{measure.YieldGrade, measure.WholeYieldGrade} {
			if at(more).FigureOf(id).Value.Number.LessThan(at(fat).FigureOf(id).Value.Number) {
				r.Fatalf("%s falls with fat", id)
			}
		}
	})
}

func TestUltrasoundFiguresOfALambAreEstimates(t *testing.T) {
	g := gradedAs(t, rules.Lamb, rules.LiveScan, defaultBook, map[measure.ID]string{
		measure.LiveWeight: "130", measure.MeasuredFat: ".2", measure.RibeyeArea: "3", measure.BodyWallThickness: ".8",
	})
	wantNumber(t, g, measure.HotCarcassWeight, "67.6") // 52 % of the live weight, by the default rulebook
	for _, id := range []measure.ID{measure.HotCarcassWeight, measure.YieldGrade, measure.WholeYieldGrade, measure.Cutability} {
		if figure := g.FigureOf(id); !figure.Estimate || figure.Missing != "" {
			t.Errorf("%s is %q (%s), an estimate: %v", id, figure.Value.Text, figure.Missing, figure.Estimate)
		}
	}
}

// borderLamb packs readings around the borders of the lamb yield grade and of the quality scores.
func borderLamb(random *rand.Rand) map[measure.ID]Reading {
	readings := map[measure.ID]Reading{
		measure.HotCarcassWeight:  plainReading(decimalBetween(random, 450, 1000, 1)),
		measure.RibeyeArea:        plainReading(decimalBetween(random, 150, 490, 2)),
		measure.BodyWallThickness: plainReading(decimalBetween(random, 40, 140, 2)),
	}
	fat := plainReading(bordered(random, ".05 .15 .155 .16 .25 .26 .35 .36 .45 .46 .3599999 .36000001"))
	if random.IntN(2) == 0 {
		readings[measure.MeasuredFat] = fat
	} else {
		readings[measure.AdjustedFat] = fat
	}
	maturity := 100 + random.Int64N(200)
	if random.IntN(4) > 0 {
		readings[measure.Maturity] = Reading{Value: maturityValue(maturity), Written: decimal.NewFromInt(maturity).String(), Plain: random.IntN(2) == 0}
	}
	streaking := max(0, min(999, maturity+random.Int64N(20)*200/6+random.Int64N(3)-1))
	readings[measure.FlankStreaking] = Reading{Value: MarblingValue(streaking), Written: decimal.NewFromInt(streaking).String(), Plain: random.IntN(2) == 0}
	switch random.IntN(4) {
	case 0:
		readings[measure.LegScore] = plainReading(bordered(random, "7 8 9 10 11 12 13 14 15"))
	default:
		words := bordered(random, "Pr+ Pr° Pr- Ch+ Ch° Ch- Gd+ Gd° Gd- Utility Cull Choice")
		value, _, _ := ParseQualityGrade(words)
		readings[measure.Conformation] = Reading{Value: value, Written: words}
	}
	borderDates(random, readings, 90, 150)
	return readings
}
