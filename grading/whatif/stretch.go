package whatif

import (
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
		twin := twin(g)
		same := func(score int64) bool {
			is, has := with(twin, id, decimal.NewFromInt(score), g.Book).Figure(grade)
			return has && is.Number.Equal(was.Number)
		}
		from, next := at.Number.IntPart(), at.Number.IntPart()+1
		for from > 0 && same(from-1) {
			from--
		}
		for next <= highestMarbling && same(next) {
			next++
		}
		stretch = Stretch{Measure: id, From: grading.MarblingValue(from), At: at}
		if next <= highestMarbling {
			stretch.Next = decimal.NewNullDecimal(decimal.NewFromInt(next))
		}
		return stretch, true
	}
	return Stretch{}, false
}

const highestMarbling = 999
