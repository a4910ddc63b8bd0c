package whatif

import (
	"sort"

	"railbook/grading"
	"railbook/rules/measure"

	"github.com/shopspring/decimal"
)

// Stretch is where a carcass stands within its grade: the marbling from which the grade begins and from which the next one
// does, at the carcass's own maturity.
type Stretch struct {
	Measure measure.ID          // marbling, or whatever marks it for the species
	From    measure.Value       // the least for the grade
	At      measure.Value       // the carcass's own
	Next    decimal.NullDecimal // the least for the next grade; invalid where there is none
}

// Within says where in its grade a carcass stands; ok is false where the grade rests on no marbling of its own, or was
// called by the judge.
func Within(g *grading.Graded, grade measure.ID) (stretch Stretch, ok bool) {
	was, has := g.Figure(grade)
	if !has || g.Method == nil || grading.DefinitionOf(grade).Kind != measure.KindGrade {
		return Stretch{}, false
	}
	if _, called := g.Judged(grade); called {
		return Stretch{}, false
	}
	for _, id := range restsOn(g, grade) {
		if grading.DefinitionOf(id).Kind != measure.KindMarbling {
			continue
		}
		at, _ := g.Figure(id)
		varied := g.Vary(id)
		same := func(score int64) bool {
			is, has := varied.At(grading.MarblingValue(score)).Figure(grade)
			return has && is.Number.Equal(was.Number)
		}
		from := farthest(varied.OneWay(grade), at.Number.IntPart(), 0, same)
		next := farthest(varied.OneWay(grade), at.Number.IntPart(), highestMarbling, same) + 1
		stretch = Stretch{Measure: id, From: grading.MarblingValue(from), At: at}
		if next <= highestMarbling {
			stretch.Next = decimal.NewNullDecimal(decimal.NewFromInt(next))
		}
		return stretch, true
	}
	return Stretch{}, false
}

const highestMarbling = 999

// farthest gives the number up to the last, on the one side or the other of a number that is the same, up to which all are. One
// way, all are the same up to any that is.
func farthest(oneWay bool, number, last int64, same func(int64) bool) int64 {
	way := int64(1)
	if last < number {
		way = -1
	}
	if !oneWay {
		for number != last && same(number+way) {
			number += way
		}
		return number
	}
	return number + way*int64(sort.Search(int(way*(last-number)), func(more int) bool { return !same(number + way*int64(more+1)) }))
}
