package grading

import (
	"strings"
	"testing"

	"railbook/rules"

	"github.com/shopspring/decimal"
)

var gradeCharts = map[string]*gradeChart{"beef": beefQualityChart, "lamb": lambLeanQualityChart, "swine": porkGradeChart}

// Every group of a chart begins with a grade for any score, its lines rise at 00 and at 100, and every grade is one that
// the program can name.
func TestEveryGroupOfAChartHasAGradeForEveryScore(t *testing.T) {
	for species, chart := range gradeCharts {
		if len(chart.lines) == 0 {
			t.Fatalf("%s: the chart is empty", species)
		}
		for at, line := range chart.lines {
			if at == 0 || chart.lines[at-1].group != line.group {
				if line.at00.Add(line.slide).IsPositive() || line.at00.IsPositive() {
					t.Errorf("%s: group %s begins at %s only", species, line.words, line.at00)
				}
				continue
			}
			if below := chart.lines[at-1]; line.at00.LessThan(below.at00) || line.at00.Add(line.slide).LessThan(below.at00.Add(below.slide)) {
				t.Errorf("%s: %s of group %s begins below %s", species, line.grades[0].Text, line.words, below.grades[0].Text)
			}
		}
		for _, line := range chart.lines {
			for _, grade := range line.grades {
				if grade.Text == "" || !grade.Number.IsPositive() {
					t.Errorf("%s: group %s has the grade %q of the rank %s", species, line.words, grade.Text, grade.Number)
				}
			}
		}
	}
}

// Every line of a chart says where it comes from.
func TestEveryLineOfAChartHasItsSource(t *testing.T) {
	for _, chart := range []struct {
		species rules.Species
		figure  string
	}{{rules.Beef, "quality"}, {rules.Lamb, "lean quality score"}, {rules.Swine, "pork carcass grade"}} {
		lines := rules.GradeChart(chart.species, chart.figure)
		if len(lines) == 0 {
			t.Errorf("%s has no chart for its %s", chart.species, chart.figure)
		}
		for _, line := range lines {
			if strings.TrimSpace(line.Source) == "" {
				t.Errorf("%s: %s of group %s has no source", chart.species, line.Grade, line.Group)
			}
		}
	}
}

// On either side of every line: just below its least score the grade is the one below, and at it the grade is its own.
func TestAGradeBeginsAtItsLeastScore(t *testing.T) {
	for species, chart := range gradeCharts {
		for at := range chart.lines {
			line := &chart.lines[at]
			if at == 0 || chart.lines[at-1].group != line.group {
				continue
			}
			for _, place := range []int64{0, 50, 99} {
				group, place := decimal.NewFromInt(line.group), decimal.NewFromInt(place)
				least := line.at00.Add(line.slide.Mul(place).Shift(-2))
				if found := chart.line(group, place, least.Sub(smallest)); found == line || found.group != line.group {
					t.Errorf("%s: below %s the grade of group %s is %s", species, least, line.words, found.grades[0].Text)
				}
				if found := chart.line(group, place, least); found.grades[0].Number.LessThan(line.grades[0].Number) {
					t.Errorf("%s: at %s the grade of group %s is %s, want %s", species, least, line.words, found.grades[0].Text, line.grades[0].Text)
				}
			}
		}
	}
}

// How dark lean lowers a grade is worked out here for every line of the chart: the middle of the label in twelfths of a
// grade, less the amount, read back (our own reading). Select has two parts, in B there is no Select, what falls below
// Standard or Commercial is Utility, and lower grades are not lowered. Standard and Commercial lose half a grade at most
// (U.S. standards for grades of carcass beef).
func TestTheChartLowersTheMiddleOfTheLabel(t *testing.T) {
	scales := map[string]int64{"Commercial": 1, "Standard": 1, "Select": 2, "Choice": 3, "Prime": 4}
	for _, line := range beefQualityChart.lines {
		as := line.grades[0].Text
		whole := rules.WholeGrade(as)
		third := strings.TrimSuffix(strings.TrimSuffix(as, whole), " ")
		middle := map[string]int64{"Low": 2, "": 6, "Average": 6, "High": 10}[third]
		if whole == "Select" {
			middle = map[string]int64{"Low": 3, "High": 9}[third]
		}
		for at, lowering := range lowerings {
			want := as
			if scale, lowers := scales[whole]; lowers && lowering.sixths > 0 {
				sixths := lowering.sixths
				if scale == 1 {
					sixths = min(sixths, 3)
				}
				want = labelAt(line.words, scale*12+middle-2*sixths)
			}
			if got := line.grades[at].Text; got != want {
				t.Errorf("%s of maturity %s lowered by %d sixths is %s, want %s", as, line.words, lowering.sixths, got, want)
			}
		}
	}
}

// labelAt names the grade at so many twelfths of a grade, Standard and Commercial being from 12 on.
func labelAt(maturity string, twelfths int64) string {
	third := []string{"Low ", "Average ", "High "}[max(0, twelfths)%12/4]
	switch scale := twelfths / 12; {
	case scale >= 4:
		return third + "Prime"
	case scale == 3:
		return third + "Choice"
	case scale == 2 && maturity != "A":
		return "High Standard"
	case scale == 2 && twelfths%12 < 6:
		return "Low Select"
	case scale == 2:
		return "High Select"
	case scale < 1:
		return "Utility"
	case maturity > "B":
		return third + "Commercial"
	case maturity == "B" && third != "High ":
		return "Standard"
	}
	return third + "Standard"
}
