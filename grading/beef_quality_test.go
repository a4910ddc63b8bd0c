package grading

import (
	"strings"
	"testing"

	"railbook/rules/measure"

	"github.com/shopspring/decimal"
	"pgregory.net/rapid"
)

func qualityOf(t testing.TB, maturity, marbling string) Figure {
	t.Helper()
	return gradedBeef(t, map[measure.ID]string{measure.Maturity: maturity, measure.Marbling: marbling}).FigureOf(measure.QualityGrade)
}

func TestQualityGrade(t *testing.T) {
	const fromTheTable = "computed from the table of minimums, for the borders"
	for _, test := range []struct{ maturity, marbling, want, source string }{
		{"A70", "Small 40", "Low Choice", "a second-hand copy of the standard"},
		{"A55", "670", "High Choice", "J. Anim. Sci. 2020 skaa287 table 1"},
		{"A56", "760", "Low Prime", "J. Anim. Sci. 2020 skaa287 table 1"},
		{"A56", "579", "Average Choice", "J. Anim. Sci. 2020 skaa287 table 1"},
		{"B50", "Slight 50", "High Standard", "B with Slight is Standard: 61 FR 2891"},
		{"B50", "Small 50", "High Standard", "Small is not Choice in B: 61 FR 2891"},
		{"A99", "700", "Low Prime", fromTheTable},
		{"A10", "350", "High Select", fromTheTable},
		{"A10", "349", "Low Select", fromTheTable},
		{"A10", "300", "Low Select", fromTheTable},
		{"A10", "299", "High Standard", fromTheTable},
		{"A10", "234", "High Standard", "thirds of Standard: a second-hand copy"},
		{"A10", "233", "Average Standard", "thirds of Standard: a second-hand copy"},
		{"A10", "167", "Average Standard", "thirds of Standard: a second-hand copy"},
		{"A10", "166", "Low Standard", "thirds of Standard: a second-hand copy"},
		{"A10", "100", "Low Standard", "from memory"},
		{"A10", "99", "Utility", "from memory"},
		{"A10", "399", "High Select", fromTheTable},
		{"A10", "400", "Low Choice", fromTheTable},
		{"A10", "499", "Low Choice", fromTheTable},
		{"A10", "500", "Average Choice", fromTheTable},
		{"A10", "600", "High Choice", fromTheTable},
		{"A10", "699", "High Choice", fromTheTable},
		{"A10", "800", "Average Prime", fromTheTable},
		{"A10", "900", "High Prime", fromTheTable},
		{"B00", "500", "Average Choice", fromTheTable},
		{"B30", "529", "Low Choice", fromTheTable},
		{"B30", "530", "Average Choice", fromTheTable},
		{"B99", "798", "High Choice", fromTheTable},
		{"B99", "799", "Low Prime", fromTheTable},
		{"B50", "499", "High Standard", fromTheTable},
		{"B50", "300", "High Standard", "a second-hand copy of the standard"},
		{"B50", "299", "Standard", "a second-hand copy of the standard"},
		{"B50", "150", "Standard", "from memory"},
		{"B50", "149", "Utility", "from memory"},
		{"C50", "950", "High Commercial", fromTheTable},
		{"C50", "449", "Utility", "from memory"},
		{"C50", "450", "Low Commercial", "from memory"},
		{"C50", "149", "Cutter", "from memory"},
		{"D50", "249", "Cutter", fromTheTable},
		{"D50", "250", "Utility", fromTheTable},
		{"D50", "99", "Canner", "from memory"},
		{"E00", "600", "Low Commercial", "from memory"},
		{"E50", "149", "Canner", "from memory"},
		{"E50", "150", "Cutter", "from memory"},
		{"E50", "350", "Utility", "from memory"},
	} {
		if got := qualityOf(t, test.maturity, test.marbling); got.Value.Text != test.want {
			t.Errorf("%s with %s is %q (%s), want %s: %s", test.maturity, test.marbling, got.Value.Text, got.Missing, test.want, test.source)
		}
	}
}

// U.S. standards for grades of carcass beef: Prime, Choice and Select may be lowered by up to a full grade, Standard and
// Commercial by up to half of one. How thirds read back is our own reading.
func TestDarkCuttingLeanLowersTheGrade(t *testing.T) {
	for _, test := range []struct{ maturity, marbling, sixths, want string }{
		{"A50", "440", "2", "High Select"},
		{"A50", "440", "6", "Low Select"},
		{"A50", "340", "2", "High Standard"},
		{"B50", "520", "2", "High Standard"}, // no Select in B
		{"A50", "740", "6", "Low Choice"},
		{"A50", "550", "3", "Low Choice"},
		{"A50", "250", "6", "Average Standard"}, // half a grade is the most
		{"A50", "110", "2", "Utility"},
		{"C50", "650", "3", "Average Commercial"},
		{"D50", "250", "6", "Utility"}, // carries no lowering
		{"A50", "440", "0", "Low Choice"},
	} {
		g := gradedBeef(t, map[measure.ID]string{measure.Maturity: test.maturity, measure.Marbling: test.marbling, measure.DarkCutterLowering: test.sixths})
		if got := g.FigureOf(measure.QualityGrade); got.Value.Text != test.want {
			t.Errorf("%s %s lowered by %s sixths is %q (%s), want %s", test.maturity, test.marbling, test.sixths, got.Value.Text, got.Missing, test.want)
		}
	}
	g := gradedBeef(t, map[measure.ID]string{measure.Marbling: "440", measure.DarkCutterLowering: "5"})
	if got := g.FigureOf(measure.QualityGrade); got.Missing == "" {
		t.Errorf("lowered by five sixths it is %q", got.Value.Text)
	}
}

func TestQualityGradeBySexAndAge(t *testing.T) {
	for _, test := range []struct {
		name   string
		values map[measure.ID]string
		want   string // a grade, or words of the reason why there is none
	}{
		{"a cow is never Prime", map[measure.ID]string{measure.Sex: "Cow", measure.Maturity: "A90", measure.Marbling: "850"}, "High Choice"},
		{"nor in B", map[measure.ID]string{measure.Sex: "cow", measure.Maturity: "B99", measure.Marbling: "999"}, "High Choice"},
		{"an older cow", map[measure.ID]string{measure.Sex: "cow", measure.Maturity: "D50", measure.Marbling: "850"}, "High Commercial"},
		{"a bull", map[measure.ID]string{measure.Sex: "bull", measure.Maturity: "A50", measure.Marbling: "440"}, "a bull has no quality grade"},
		{"a bullock in A", map[measure.ID]string{measure.Bullock: "yes", measure.Maturity: "A50", measure.Marbling: "440"}, "Low Choice"},
		{"a bullock in B", map[measure.ID]string{measure.Bullock: "yes", measure.Maturity: "B50", measure.Marbling: "740"}, "a bullock is graded in maturity A only"},
		// 82 FR 57569
		{"young by age", map[measure.ID]string{measure.Under30Months: "yes", measure.Maturity: "C20", measure.Marbling: "440"}, "Low Choice"},
		{"young by age at the border of B", map[measure.ID]string{measure.Under30Months: "yes", measure.Maturity: "B00", measure.Marbling: "440"}, "Low Choice"},
		{"young with old bone", map[measure.ID]string{measure.Under30Months: "yes", measure.Maturity: "D20", measure.Marbling: "440"}, "the judge must say the maturity"},
		{"no scale goes so far", map[measure.ID]string{measure.Maturity: "A20", measure.Marbling: "4400"}, "outside 0 to 999"},
		{"no marbling", map[measure.ID]string{measure.Maturity: "A20"}, "no marbling"},
	} {
		got := gradedBeef(t, test.values).FigureOf(measure.QualityGrade)
		if got.Value.Text != test.want && (got.Missing == "" || !strings.Contains(got.Missing, test.want)) {
			t.Errorf("%s: %q (%s), want %s", test.name, got.Value.Text, got.Missing, test.want)
		}
	}
}

// Working rule of a contest teaching set (a second-hand copy).
func TestSkeletalAndLeanMaturityTogether(t *testing.T) {
	for _, test := range []struct{ skeletal, lean, want string }{
		{"A60", "A40", "A50"},
		{"A60", "A41", "A51"}, // half a point goes to the skeletal side
		{"A40", "A80", "A60"}, // 40 apart: averaged
		{"A40", "A82", "A51"}, // 42 apart: 61, moved 10 toward skeletal
		{"B50", "A50", "B10"},
		{"C15", "A90", "C00"}, // 262 by the average, but never back below C00
		{"C14", "A90", "B62"},
		{"A20", "C90", "B20"}, // never more than a full group away
		{"E50", "A00", "D50"},
		{"B30", "B30", "B30"},
	} {
		g := gradedBeef(t, map[measure.ID]string{measure.SkeletalMaturity: test.skeletal, measure.LeanMaturity: test.lean})
		if got := g.FigureOf(measure.OverallMaturity).Value.Text; got != test.want {
			t.Errorf("skeletal %s and lean %s are %s, want %s", test.skeletal, test.lean, got, test.want)
		}
	}
}

func TestMoreMarblingNeverLowersTheGradeAndAgeNeverRaisesItWithinAGroup(t *testing.T) {
	rapid.Check(t, func(r *rapid.T) {
		marbling := rapid.Int64Range(0, 999).Draw(r, "marbling")
		group, place := rapid.Int64Range(1, 5).Draw(r, "group"), rapid.Int64Range(0, 99).Draw(r, "place")
		at := func(marbling, place int64) int64 {
			line := beefQualityChart.line(decimal.NewFromInt(group), decimal.NewFromInt(place), decimal.NewFromInt(marbling))
			return line.grades[0].Number.IntPart()
		}
		if marbling < 999 && at(marbling+1, place) < at(marbling, place) {
			r.Fatal("one more point of marbling lowers the grade")
		}
		if place < 99 && at(marbling, place+1) > at(marbling, place) {
			r.Fatal("one more point of age raises the grade")
		}
	})
}
