package words

import (
	"fmt"
	"slices"
	"strings"

	"railbook/grading/placing"
	"railbook/rules"
	"railbook/rules/measure"
	"railbook/workbook/result"
)

// RankingWords says in one sentence how a class was ranked.
func RankingWords(ranking rules.Ranking) string {
	if len(ranking.Keys) == 0 {
		return "This class has no ranking rule, so nothing in it is placed."
	}
	keys := make([]string, len(ranking.Keys))
	for i, key := range ranking.Keys {
		keys[i] = keyWords(key)
	}
	ties := "carcasses still level share the place"
	if ranking.Ties == rules.TiesJudge {
		ties = "carcasses still level are left to the judge"
	}
	return fmt.Sprintf("Ranked by %s; %s.", strings.Join(keys, ", then "), ties)
}

// PercentWords names the equation of each percent that a class shows, for several different figures go by such names:
// three percents of retail cuts, four of lean.
func PercentWords(class placing.ClassPlacing, shown []measure.ID) string {
	var words []string
	for _, id := range shown {
		definition, _ := measure.Define(id)
		if definition.Unit != "%" {
			continue
		}
		var names []string
		for _, graded := range result.EveryCarcass(class) {
			if name := graded.FigureOf(id).Equation; name != "" && !slices.Contains(names, name) {
				names = append(names, name)
			}
		}
		if len(names) > 0 {
			words = append(words, definition.Heading+": "+strings.Join(names, "; ")+".")
		}
	}
	return strings.Join(words, " ")
}

// nameOf is what a key compares. An index that a board calls "carcass points" is not the points of carcass points.
func nameOf(key rules.Key) string {
	switch {
	case key.Index == "":
		return key.Name()
	case strings.Contains(key.Index, "point"):
		return key.Index
	}
	return "points of " + key.Index
}

func keyWords(key rules.Key) string {
	words := nameOf(key)
	switch key.Prefer {
	case rules.Highest, rules.Lowest:
		words = string(key.Prefer) + " " + words
	case rules.PassAtMost:
		words = fmt.Sprintf("%s of %s or less first", words, key.Bound.Decimal)
	case rules.PassAtLeast:
		words = fmt.Sprintf("%s of %s or more first", words, key.Bound.Decimal)
	}
	if !key.Decimals.Valid {
		return words
	}
	switch key.Decimals.Decimal.IntPart() {
	case 0:
		return words + " (compared whole)"
	case 1:
		return words + " (compared to the tenth)"
	case 2:
		return words + " (compared to the hundredth)"
	}
	return fmt.Sprintf("%s (compared to %s decimals)", words, key.Decimals.Decimal)
}
