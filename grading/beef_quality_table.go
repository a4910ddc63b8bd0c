package grading

import (
	"railbook/rules/measure"
)

// qualityLine is one line of the beef quality grade table: the least marbling for a grade in a maturity group, sliding in
// a straight line from 00 to 100 of the group.
type qualityLine struct {
	group       int64 // 1 is A
	grade       grade
	third       third // noThird for a grade that carries no sign
	at00, at100 int64 // marbling in hundreds a degree
}

// beefQualityTable is in the order of groups, and within a group from the lowest grade up; the last line whose minimum
// is met is the carcass's grade.
//
// U.S. standards for grades of carcass beef: Prime, Choice, Select and Standard by maturity; Choice of B no longer with
// Small, nor Select at all, since 61 FR 2891; Commercial −, ° and + at its minimum, + 100 and + 200 (older CFR text).
// Thirds in A: a second-hand copy. From memory, agreeing with a published matrix: Prime of B, Choice of B flat at Modest,
// Standard, and everything in C, D and E. Our own reading: the thirds of B slide in parallel with its Prime.
var beefQualityTable = []qualityLine{
	{1, utility, noThird, 0, 0},
	{1, standard, LowThird, 100, 100},
	{1, standard, middleThird, 167, 167},
	{1, standard, highThird, 234, 234},
	{1, selectGrade, LowThird, 300, 300},
	{1, selectGrade, highThird, 350, 350},
	{1, Choice, LowThird, 400, 400},
	{1, Choice, middleThird, 500, 500},
	{1, Choice, highThird, 600, 600},
	{1, prime, LowThird, 700, 700},
	{1, prime, middleThird, 800, 800},
	{1, prime, highThird, 900, 900},

	{2, utility, noThird, 0, 0},
	{2, standard, noThird, 100, 200},
	{2, standard, highThird, 300, 300},
	{2, Choice, LowThird, 500, 500},
	{2, Choice, middleThird, 500, 600},
	{2, Choice, highThird, 600, 700},
	{2, prime, LowThird, 700, 800},
	{2, prime, middleThird, 800, 900},
	{2, prime, highThird, 900, 1000},

	{3, cutter, noThird, 0, 0},
	{3, utility, noThird, 100, 200},
	{3, commercial, LowThird, 400, 500},
	{3, commercial, middleThird, 500, 600},
	{3, commercial, highThird, 600, 700},

	{4, canner, noThird, 0, 0},
	{4, cutter, noThird, 100, 100},
	{4, utility, noThird, 200, 300},
	{4, commercial, LowThird, 500, 600},
	{4, commercial, middleThird, 600, 700},
	{4, commercial, highThird, 700, 800},

	{5, canner, noThird, 0, 0},
	{5, cutter, noThird, 100, 200},
	{5, utility, noThird, 300, 400},
	{5, commercial, LowThird, 600, 700},
	{5, commercial, middleThird, 700, 800},
	{5, commercial, highThird, 800, 900},
}

var beefGradeNames = map[grade]string{
	prime: "Prime", Choice: "Choice", selectGrade: "Select", standard: "Standard", commercial: "Commercial",
	utility: "Utility", cutter: "Cutter", canner: "Canner",
}

// beefGradeValues holds the value of every grade and third, made once.
var beefGradeValues = func() (values [prime + 1][highThird + 1]measure.Value) {
	for grade, name := range beefGradeNames {
		values[grade][noThird] = wholeGradeValue(grade, name)
		for _, third := range []third{LowThird, middleThird, highThird} {
			values[grade][third] = ThirdValue(grade, name, third)
		}
	}
	return values
}()

// loweringAmounts are the amounts a judge may lower a grade by for dark cutting lean, in sixths of a full grade, with
// their words.
var loweringAmounts = []struct {
	sixths int64
	words  string
}{{0, "as it is"}, {2, "lowered 1/3"}, {3, "lowered 1/2"}, {4, "lowered 2/3"}, {6, "lowered a full grade"}}

// lowered lowers a grade for dark cutting lean: Prime, Choice and Select by up to a full grade, Standard and Commercial by
// up to half of one (U.S. standards for grades of carcass beef); grades below them not at all. The middle of the label is
// lowered and read back (our own reading): B has no Select, so there it reads back as High Standard; what falls below
// Standard or Commercial is Utility.
func (l qualityLine) lowered(sixths int64) (grade, third) {
	if l.grade < commercial || sixths == 0 {
		return l.grade, l.third
	}
	scale := map[grade]int64{commercial: 1, standard: 1, selectGrade: 2, Choice: 3, prime: 4}[l.grade]
	if scale == 1 {
		sixths = min(sixths, 3)
	}
	left := scale*12 + l.middleTwelfths() - 2*sixths
	return readBack(l.group, left)
}

// middleTwelfths is the middle of the label within its grade.
func (l qualityLine) middleTwelfths() int64 {
	switch {
	case l.grade == selectGrade && l.third == LowThird:
		return 3
	case l.grade == selectGrade:
		return 9
	case l.third == LowThird:
		return 2
	case l.third == highThird:
		return 10
	}
	return 6
}

func readBack(group, twelfths int64) (grade, third) {
	within := LowThird + third(twelfths%12/4)
	switch scale := twelfths / 12; {
	case scale >= 4:
		return prime, within
	case scale == 3:
		return Choice, within
	case scale == 2 && group > 1:
		return standard, highThird
	case scale == 2 && twelfths%12 < 6:
		return selectGrade, LowThird
	case scale == 2:
		return selectGrade, highThird
	case scale < 1:
		return utility, noThird
	case group > 2:
		return commercial, within
	case group == 2 && within != highThird:
		return standard, noThird
	}
	return standard, within
}
