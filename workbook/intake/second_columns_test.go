package intake

import (
	"testing"

	"railbook/grading"
	"railbook/rules/measure"
)

// A third of a degree stands for the scores up to 17 from its middle, a degree alone for all of it: Small− is 0 to 34.
func TestAThirdOfADegreeHoldsItsScores(t *testing.T) {
	for _, test := range []struct {
		degree, score string
		want          bool
	}{
		{"Sm-", "SM 0", true},
		{"Sm-", "SM 34", true},
		{"Sm-", "SM 35", false},
		{"Sm°", "SM 33", true},
		{"Sm°", "SM 32", false},
		{"Sm°", "SM 67", true},
		{"Sm°", "SM 68", false},
		{"Sm+", "SM 66", true},
		{"Sm+", "SM 65", false},
		{"Sm", "SM 99", true},
		{"Sm", "MT 0", false},
	} {
		degree, _ := grading.ParseMarbling(test.degree, "")
		score, _ := grading.ParseMarbling(test.score, "")
		read := grading.Reading{Value: degree.Value, Written: test.degree}
		if got := within(measure.KindMarbling, read, grading.Reading{Value: score.Value, Written: test.score}); got != test.want {
			t.Errorf("%s (%s) holds %s (%s): %v", test.degree, degree.Value.Number, test.score, score.Value.Number, got)
		}
	}
}
