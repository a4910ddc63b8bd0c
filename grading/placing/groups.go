package placing

import (
	"cmp"
	"slices"

	"railbook/grading"
	"railbook/rules"
	"railbook/rules/measure"

	"github.com/shopspring/decimal"
)

// standards are a class's groups in order, best first, each with its tests, and the class means these need.
type standards struct {
	groups []groupTests
	means  grading.ClassMeans
}

type groupTests struct {
	name  string
	order int
	tests []rules.Standard
}

// standardsOf gathers the groups of a class: those that name it, else those of its species, else those for every class.
func standardsOf(class Entries, book *rules.Rulebook) standards {
	var groups []groupTests
	best := 0
	for _, standard := range book.Groups {
		if class.Is(standard.Class, standard.Species) {
			best = max(best, narrowness(standard))
		}
	}
	for _, standard := range book.Groups {
		if !class.Is(standard.Class, standard.Species) || narrowness(standard) < best {
			continue
		}
		at := slices.IndexFunc(groups, func(g groupTests) bool { return grading.SameName(g.name) == grading.SameName(standard.Group) })
		if at < 0 {
			at = len(groups)
			groups = append(groups, groupTests{name: standard.Group, order: standard.Order})
		}
		groups[at].order = min(groups[at].order, standard.Order)
		if standard.Measure != measure.None {
			groups[at].tests = append(groups[at].tests, standard)
		}
	}
	slices.SortStableFunc(groups, func(a, b groupTests) int { return cmp.Compare(a.order, b.order) })
	return standards{groups, class.means}
}

// narrowness tells how closely a standard names its class.
func narrowness(standard rules.Standard) int {
	switch {
	case standard.Class != "":
		return 3
	case standard.Species != "":
		return 2
	default:
		return 1
	}
}

// group gives the group of a placed carcass: the first all of whose standards it meets, or the lowest for one that
// failed a limit which says so. Empty where the rulebook has no groups, or none takes the carcass.
func (s standards) group(carcass *grading.Graded, lowest bool, book *rules.Rulebook) string {
	if lowest && len(s.groups) > 0 {
		return s.groups[len(s.groups)-1].name
	}
	for _, group := range s.groups {
		if s.meets(carcass, group, book) {
			return group.name
		}
	}
	return ""
}

// meets tells whether a carcass meets every standard of a group, or for lines with the same letter under "Or" one of them;
// a missing figure meets none.
func (s standards) meets(carcass *grading.Graded, group groupTests, book *rules.Rulebook) bool {
	tests := limits{means: s.means}
	for _, standard := range group.tests {
		tests.requirements = append(tests.requirements, standard.Test())
	}
	return len(tests.Failures(carcass, book)) == 0
}

// meansOf takes the means over all carcasses of a class that compete and have the figure, to 6 decimals, before any limit:
// one that fails a limit counts, one that is kept out does not.
func meansOf(class Entries, book *rules.Rulebook) grading.ClassMeans {
	means := grading.ClassMeans{}
	take := func(id measure.ID) {
		sum, count := decimal.Zero, int64(0)
		for _, carcass := range class.Carcasses {
			if value, missing := grading.FigureFor(carcass.Graded, id, book); missing == "" && carcass.Out == nil {
				sum = sum.Add(value.Number)
				count++
			}
		}
		if count > 0 {
			means[id] = sum.DivRound(decimal.NewFromInt(count), grading.ComparedDecimals)
		}
	}
	for _, standard := range book.Groups {
		if standard.FromMean && class.Is(standard.Class, standard.Species) {
			take(standard.Measure)
		}
	}
	for _, requirement := range book.Eligibility {
		if requirement.FromMean && class.Is(requirement.Class, requirement.Species) {
			take(requirement.Measure)
		}
	}
	return means
}
