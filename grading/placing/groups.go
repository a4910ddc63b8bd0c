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
	means  map[measure.ID]decimal.Decimal
}

type groupTests struct {
	name  string
	order int
	tests []rules.Standard
}

// standardsOf gathers the groups of a class: those that name it, else those of its species, else those for every class.
// A standard that is a distance from the class mean takes the mean over the
// carcasses of the class that are placed and have the figure.
func standardsOf(class Entries, placed []Placed, book *rules.Rulebook) standards {
	var groups []groupTests
	means := map[measure.ID]decimal.Decimal{}
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
		if mean, ok := classMean(placed, standard.Measure, book); ok && standard.FromMean {
			means[standard.Measure] = mean
		}
	}
	slices.SortStableFunc(groups, func(a, b groupTests) int { return cmp.Compare(a.order, b.order) })
	return standards{groups, means}
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
		meets := true
		for _, test := range group.tests {
			meets = meets && s.meets(carcass, test, book)
		}
		if meets {
			return group.name
		}
	}
	return ""
}

// meets tells whether a carcass meets one standard; a missing figure meets none.
func (s standards) meets(carcass *grading.Graded, test rules.Standard, book *rules.Rulebook) bool {
	value, missing := grading.FigureFor(carcass, test.Measure, book)
	if missing != "" {
		return false
	}
	if test.Lowest != "" {
		meets, _ := meetsGrade(carcass.Species, value, test.Lowest)
		return meets
	}
	figure := value.Number
	if test.FromMean {
		mean, ok := s.means[test.Measure]
		if !ok {
			return false
		}
		figure = figure.Sub(mean)
	}
	figure = figure.Round(grading.ComparedDecimals)
	if test.AtLeast.Valid && figure.LessThan(test.AtLeast.Decimal) {
		return false
	}
	return !test.AtMost.Valid || figure.LessThanOrEqual(test.AtMost.Decimal)
}

// classMean is the mean of a figure over the placed carcasses that have it, to 6 decimals.
func classMean(class []Placed, id measure.ID, book *rules.Rulebook) (mean decimal.Decimal, ok bool) {
	sum, count := decimal.Zero, int64(0)
	for _, placed := range class {
		if value, missing := grading.FigureFor(placed.Graded, id, book); missing == "" {
			sum = sum.Add(value.Number)
			count++
		}
	}
	if count == 0 {
		return decimal.Zero, false
	}
	return sum.DivRound(decimal.NewFromInt(count), grading.ComparedDecimals), true
}
