package rules

import "strings"

// The words that cells with few right answers may hold, as drop-downs show them.
var (
	speciesWords = []string{string(Beef), string(Swine), string(Lamb), string(Goat)}
	basisWords   = []string{string(OnTheRail), string(LiveScan)}
	partWords    = []string{string(QualityPart), string(YieldPart), string(WeightPart), string(ConditionPart)}
	preferWords  = []string{string(Highest), string(Lowest), string(PassAtMost), string(PassAtLeast), string(TiesShare), string(TiesJudge)}
	failingWords = []string{string(FailNotPlaced), string(FailAfter), string(FailLowestGroup), string(FailLosesAward)}
	unitWords    = []string{"lb", "kg", "in", "tenths", "hundredths", "mm", "cm", "sq in", "sq cm", "%", "dots"}
)

// GradeWords gives the words for the grades of a species, best first, by thirds where the grade has them. A species
// whose carcasses carry no such grade has none.
//
// Beef: U.S. Standards for Grades of Carcass Beef (Select has two parts; Utility, Cutter and Canner none). Lamb: U.S.
// Standards for Grades of Lamb, 1992 (from memory below Good). Swine: 7 CFR 54.135.
func GradeWords(species Species) []string {
	switch species {
	case Beef:
		return []string{
			"High Prime", "Average Prime", "Low Prime", "High Choice", "Average Choice", "Low Choice", "High Select", "Low Select",
			"High Standard", "Average Standard", "Low Standard", "High Commercial", "Average Commercial", "Low Commercial",
			"Utility", "Cutter", "Canner",
		}
	case Lamb:
		return []string{
			"High Prime", "Average Prime", "Low Prime", "High Choice", "Average Choice", "Low Choice",
			"High Good", "Average Good", "Low Good", "Utility", "Cull",
		}
	case Swine:
		return []string{"U.S. No. 1", "U.S. No. 2", "U.S. No. 3", "U.S. No. 4", "U.S. Utility"}
	}
	return nil
}

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

// SpeciesNames gives the names of the species as the rulebook writes them.
func SpeciesNames() []string { return append([]string(nil), speciesWords...) }
