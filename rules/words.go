package rules

import "strings"

// The words that cells with few right answers may hold, as drop-downs show them.
var (
	basisWords   = []string{string(OnTheRail), string(LiveScan)}
	partWords    = []string{string(QualityPart), string(YieldPart), string(WeightPart), string(ConditionPart)}
	preferWords  = []string{string(Highest), string(Lowest), string(PassAtMost), string(PassAtLeast), string(TiesShare), string(TiesJudge)}
	failingWords = []string{string(FailNotPlaced), string(FailAfter), string(FailLowestGroup), string(FailLosesAward)}
	sideWords    = []string{string(SideAbove), string(SideBelow)}
	ownUnits     = []string{"lb", "in", "sq in", "%", "points"}
	roleWords    = []string{"own", RoleRead, RoleComputed}
	unitWords    = []string{"lb", "kg", "in", "tenths", "hundredths", "mm", "cm", "sq in", "sq cm", "%", "dots"}
)

// WholeGrade takes the third off a grade's words: "High Choice" is "Choice".
func WholeGrade(words string) string {
	for _, third := range []string{"High ", "Average ", "Low "} {
		if rest, found := strings.CutPrefix(words, third); found {
			return rest
		}
	}
	return words
}

// thirdsOf gives the thirds of a whole grade, best first; the grade itself where it has none; nil for no grade of the species.
func thirdsOf(species Species, whole string) []string {
	var thirds []string
	for _, words := range GradeWords(species) {
		if WholeGrade(words) == whole {
			thirds = append(thirds, words)
		}
	}
	return thirds
}

// wholeGrades gives the whole grades of a species, best first.
func wholeGrades(species Species) []string {
	var grades []string
	for _, words := range GradeWords(species) {
		if whole := WholeGrade(words); len(grades) == 0 || grades[len(grades)-1] != whole {
			grades = append(grades, whole)
		}
	}
	return grades
}
