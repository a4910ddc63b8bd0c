package rules

import (
	"slices"
	"sort"

	"railbook/rules/measure"
)

func (l *loading) groups() {
	var lines []line
	for _, line := range l.lines(GroupsTable) {
		if standard, ok := line.standard(); ok {
			l.book.Groups = append(l.book.Groups, standard)
			lines = append(lines, line)
		}
	}
	for at, line := range lines {
		others, own := 0, l.book.Groups[at]
		for number, other := range l.book.Groups {
			if number != at && fold(other.Or) == fold(own.Or) && other.Order == own.Order && other.Class == own.Class && other.Species == own.Species {
				others++
			}
		}
		line.alone(others)
	}
	type whose struct {
		class   string
		species Species
	}
	var order []whose
	sets := make(map[whose][]Standard)
	for _, standard := range l.book.Groups {
		key := whose{standard.Class, standard.Species}
		if sets[key] == nil {
			order = append(order, key)
		}
		sets[key] = append(sets[key], standard)
	}
	for _, key := range order {
		l.checkGroups(sets[key])
	}
}

func (n line) standard() (Standard, bool) {
	before := len(n.loading.faults)
	species := n.species()
	standard := Standard{
		Class: n.class(species), Species: species,
		PerPound: n.number("Changes per lb").Decimal, MustNot: n.yes("Must not be", false), MustBe: n.saysNo("Must not be"),
		OneOf: n.text("One of"), FromMean: n.yes("From class mean", false), Or: n.text("Or"),
		Source: n.text("Source"), Place: n.place("Group"),
	}
	standard.Group, _ = n.needed("Group")
	if n.text("Order") == "" {
		n.needed("Order")
	}
	standard.Order, _ = n.whole("Order", 1, 99)
	if n.text("Measure") == "" {
		if slices.ContainsFunc(groupTests, func(heading string) bool { return n.text(heading) != "" }) {
			n.fault("Measure", "This line has a bound and no measure. Name the measure, or clear the bounds for the group that takes the rest.")
		}
		return standard, len(n.loading.faults) == before
	}
	definition, ok := n.measure(species)
	if !ok {
		return standard, false
	}
	standard.Measure = definition.ID
	n.hasIt(standard.Class, definition)
	standard.AtLeast, standard.AtMost = n.boundOf(definition, "At least"), n.boundOf(definition, "At most")
	standard.Above, standard.Below = n.boundOf(definition, "Above"), n.boundOf(definition, "Below")
	standard.Lowest = n.lowestGrade(definition, species)
	n.checkTests(definition, standard.Test())
	return standard, len(n.loading.faults) == before
}

// groupTests are the columns in which a line of Groups tests something.
var groupTests = []string{
	"At least", "At most", "Above", "Below", "Changes per lb", "Lowest grade", "Must not be", "From class mean", "Or", "One of",
}

// checkGroups looks whether each carcass falls into exactly one group of a set.
func (l *loading) checkGroups(standards []Standard) {
	sort.SliceStable(standards, func(i, j int) bool { return standards[i].Order < standards[j].Order })
	last := standards[len(standards)-1]
	for number, standard := range standards {
		if number > 0 {
			l.checkGroupOrder(standards[number-1], standard)
		}
		if standard.Measure == measure.None && standard.Order < last.Order {
			l.fault(standard.Place, "The group %s takes every carcass that is left, so the groups after it are never reached. Give it the last order.", standard.Group)
		}
	}
	rest := 0
	for _, standard := range standards {
		if standard.Order == last.Order && standard.Measure == measure.None {
			rest++
		}
	}
	switch {
	case rest == 0:
		l.fault(last.Place, "A carcass that does not meet the group %s is in no group. Add a line for a last group without a measure, which takes the rest.", last.Group)
	case standards[len(standards)-1].Order == last.Order && countOrder(standards, last.Order) > 1:
		l.fault(last.Place, "The last group %s takes the rest and can have no other line. Take the other lines out, or add a group after it.", last.Group)
	}
}

func (l *loading) checkGroupOrder(above, below Standard) {
	if above.Order == below.Order && fold(above.Group) != fold(below.Group) {
		l.fault(below.Place, "The groups %s and %s have the same order %d. Give each group its own.", above.Group, below.Group, below.Order)
	}
	if above.Order != below.Order && fold(above.Group) == fold(below.Group) {
		l.fault(below.Place, "The group %s has the orders %d and %d. Give all its lines the same.", below.Group, above.Order, below.Order)
	}
}

func countOrder(standards []Standard, order int) int {
	count := 0
	for _, standard := range standards {
		if standard.Order == order {
			count++
		}
	}
	return count
}
