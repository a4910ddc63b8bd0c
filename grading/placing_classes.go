package grading

import (
	"cmp"
	"slices"
	"strings"

	"railbook/rules"
	"railbook/rules/measure"
)

// everyOther is the name of the rulebook's class that takes whatever no other class names.
const everyOther = rules.EveryOtherClass

// entries are carcasses that may be ranked together: one class, one species, one basis, the same equations.
type entries struct {
	name      string // as people call it, with the part of a mixed class
	base      string // without the part
	split     string
	species   rules.Species
	basis     rules.Basis
	equations string // those of the figures it is ranked by; empty where there is only one
	rule      rules.Class
	order     int  // the rule's position in the rulebook
	award     bool // the list of an award, not a class
	carcasses []*Graded
}

// sortIntoClasses puts every carcass into its class. Classes come in the order of the rulebook, then by name, species
// and basis, so that they do not depend on the order of rows.
func sortIntoClasses(graded []*Graded, book *rules.Rulebook) []entries {
	found := map[classKey]*entries{}
	spellings := map[string]map[string]int{} // of a class, whatever its species and basis
	for _, carcass := range graded {
		rule, order := ruleFor(carcass, book)
		base := strings.Join(strings.Fields(carcass.Class), " ")
		if rule.Name != "" && sameName(rule.Name) != everyOther {
			base = rule.Name
		}
		entry := entries{species: carcass.Species, basis: carcass.Basis, rule: rule, order: order}
		entry.equations = equationsOf(carcass, entry, book)
		at := classKey{sameName(base), carcass.Species, carcass.Basis, entry.equations}
		if found[at] == nil {
			found[at] = &entry
		}
		found[at].carcasses = append(found[at].carcasses, carcass)
		if spellings[at.class] == nil {
			spellings[at.class] = map[string]int{}
		}
		spellings[at.class][base]++
	}
	joinIncomplete(found)
	var classes []entries
	for at, entry := range found {
		entry.base = commonest(spellings[at.class])
		entry.name = entry.base
		if entry.base == "" {
			entry.base, entry.name = "No class", "No class"
		}
		slices.SortFunc(entry.carcasses, byTag)
		classes = append(classes, *entry)
	}
	nameParts(classes)
	slices.SortFunc(classes, func(a, b entries) int {
		return cmp.Or(cmp.Compare(a.order, b.order), compareNatural(sameName(a.base), sameName(b.base)),
			cmp.Compare(a.species, b.species), cmp.Compare(a.basis, b.basis), cmp.Compare(a.equations, b.equations))
	})
	return classes
}

// classKey is what carcasses that may be ranked together have in common.
type classKey struct {
	class     string
	species   rules.Species
	basis     rules.Basis
	equations string
}

// joinIncomplete puts carcasses that lack a figure the ranking compares, and so name fewer equations, with those of their
// class that name the same and more: with the most of them, and of as many with the first by name.
func joinIncomplete(found map[classKey]*entries) {
	whole := func(one classKey) bool {
		for other := range found {
			if one.lacksOf(other) {
				return false
			}
		}
		return true
	}
	joined := map[classKey]classKey{}
	for part := range found {
		for other := range found {
			if !part.lacksOf(other) || !whole(other) {
				continue
			}
			best, any := joined[part]
			if !any || cmp.Or(cmp.Compare(len(found[best].carcasses), len(found[other].carcasses)), cmp.Compare(other.equations, best.equations)) < 0 {
				joined[part] = other
			}
		}
	}
	for part, other := range joined {
		found[other].carcasses = append(found[other].carcasses, found[part].carcasses...)
		delete(found, part)
	}
}

// lacksOf reports whether the equations are some of the other's, but not all, for the same carcasses otherwise.
func (k classKey) lacksOf(other classKey) bool {
	if k.class != other.class || k.species != other.species || k.basis != other.basis || k.equations == other.equations {
		return false
	}
	names := strings.Split(other.equations, equationBreak)
	for _, name := range strings.Split(k.equations, equationBreak) {
		if name != "" && !slices.Contains(names, name) {
			return false
		}
	}
	return true
}

// equationBreak stands between the names of equations.
const equationBreak = "; "

// ruleFor finds the rulebook's class for a carcass: by its name, else by the words it may be called, else the one for
// every other class; one for the very species and basis comes before one for any.
func ruleFor(carcass *Graded, book *rules.Rulebook) (rule rules.Class, order int) {
	best, order := 0, len(book.Classes)
	written := sameName(carcass.Class)
	for i, class := range book.Classes {
		if class.Species != "" && class.Species != carcass.Species || class.Basis != "" && class.Basis != carcass.Basis {
			continue
		}
		fit := 0
		switch {
		case sameName(class.Name) == everyOther:
			fit = 10
		case sameName(class.Name) == written:
			fit = 30
		case slices.ContainsFunc(class.Matches, func(word string) bool { return sameName(word) == written }):
			fit = 20
		default:
			continue
		}
		if class.Species != "" {
			fit += 2
		}
		if class.Basis != "" {
			fit++
		}
		if fit > best {
			best, rule, order = fit, class, i
		}
	}
	return rule, order
}

// ranking gives the way the class is placed, or why there is none.
func (e entries) ranking(book *rules.Rulebook) (ranking rules.Ranking, problem string) {
	if e.rule.Name == "" {
		return ranking, "the rulebook has no class that takes " + string(e.species) + ", " + string(e.basis) + ", class " + quote(e.base)
	}
	ranking, ok := rankingNamed(e.rule.Ranking, book)
	if !ok {
		return ranking, "the rulebook has no way of placing called " + quote(e.rule.Ranking)
	}
	return ranking, ""
}

// rankingNamed finds a way of placing by its name.
func rankingNamed(name string, book *rules.Rulebook) (rules.Ranking, bool) {
	for _, ranking := range book.Rankings {
		if sameName(ranking.Name) == sameName(name) {
			return ranking, true
		}
	}
	return rules.Ranking{}, false
}

// is reports whether a table's class column names this class; an empty one names every class.
func (e entries) is(class string, species rules.Species) bool {
	if species != "" && species != e.species {
		return false
	}
	return class == "" || sameName(class) == sameName(e.rule.Name) || sameName(class) == sameName(e.base)
}

var basisWords = map[rules.Basis]string{rules.OnTheRail: "on the rail", rules.LiveScan: "by ultrasound"}

// nameParts gives the parts of a class that mixes what may not be ranked together names of their own.
func nameParts(classes []entries) {
	for i := range classes {
		part := &classes[i]
		var species, basis, equations bool
		for j, other := range classes {
			if i == j || sameName(other.base) != sameName(part.base) {
				continue
			}
			species = species || other.species != part.species
			basis = basis || other.species == part.species && other.basis != part.basis
			equations = equations || other.species == part.species && other.basis == part.basis
		}
		var parts, mixed []string
		if species {
			parts, mixed = append(parts, string(part.species)), append(mixed, "species")
		}
		if basis {
			parts, mixed = append(parts, basisWords[part.basis]), append(mixed, "carcasses on the rail with animals measured by ultrasound")
		}
		if equations {
			parts, mixed = append(parts, part.equations), append(mixed, "figures of different equations")
		}
		if len(parts) > 0 {
			part.name = part.base + " (" + strings.Join(parts, ", ") + ")"
			part.split = "Class " + part.base + " mixes " + joinAnd(mixed) + ", which are never ranked together: each is placed by itself."
		}
	}
}

// equationsOf names the equations of the figures the carcass is ranked by, where a figure has more than one.
func equationsOf(carcass *Graded, class entries, book *rules.Rulebook) string {
	ranking, problem := class.ranking(book)
	if problem != "" {
		return ""
	}
	var names []string
	for _, id := range measuresOf(ranking, book) {
		if name := carcass.Figures[id].Equation; name != "" && !slices.Contains(names, name) {
			names = append(names, name)
		}
	}
	return strings.Join(names, equationBreak)
}

// measuresOf lists the measures a ranking compares, those within its indexes too.
func measuresOf(ranking rules.Ranking, book *rules.Rulebook) []measure.ID {
	var measures []measure.ID
	for _, key := range ranking.Keys {
		measures = append(measures, key.Measure)
		for _, part := range partsOf(key.Measure, book) {
			measures = append(measures, part.Measure)
		}
	}
	return measures
}

// commonest gives the spelling most rows use; of equally common ones the last in alphabetical order, which prefers
// "Steers" to "STEERS".
func commonest(spellings map[string]int) string {
	best := ""
	for spelling, count := range spellings {
		if count > spellings[best] || count == spellings[best] && spelling > best {
			best = spelling
		}
	}
	return best
}
