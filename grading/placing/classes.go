package placing

import (
	"cmp"
	"slices"
	"strings"

	"railbook/grading"
	"railbook/rules"
	"railbook/rules/measure"
	"railbook/rules/phrase"
)

// EveryOther is the name of the rulebook's class that takes whatever no other class names.
const EveryOther = rules.EveryOtherClass

// Entries are carcasses that may be ranked together: one class, one species, one basis, the same equations.
type Entries struct {
	Name      string // as people call it, with the part of a mixed class
	base      string // without the part
	split     string
	Species   rules.Species
	Basis     rules.Basis
	equations string // those of the figures it is ranked by; empty where there is only one
	Rule      rules.Class
	means     grading.ClassMeans // of the carcasses that compete
	order     int                // the rule's position in the rulebook
	award     bool               // the list of an award, not a class
	Carcasses []*Entrant
}

// SortIntoClasses puts every carcass into its class. Classes come in the order of the rulebook, then by name, species
// and basis, so that they do not depend on the order of rows.
func SortIntoClasses(entrants []*Entrant, book *rules.Rulebook) []Entries {
	found := map[classKey]*Entries{}
	written := map[classKey]*writtenClass{}
	spellings := map[string]map[string]int{} // of a class, whatever its species and basis
	for _, carcass := range entrants {
		asWritten := classKey{class: carcass.Class, species: carcass.Species, basis: carcass.Basis}
		class := written[asWritten]
		if class == nil {
			class = newWrittenClass(carcass.Graded, book)
			written[asWritten] = class
		}
		at := classKey{class.name, carcass.Species, carcass.Basis, equationsOf(carcass.Graded, class.compared)}
		if found[at] == nil {
			found[at] = &Entries{Species: carcass.Species, Basis: carcass.Basis, Rule: class.rule, order: class.order, equations: at.equations}
		}
		found[at].Carcasses = append(found[at].Carcasses, carcass)
		if spellings[class.name] == nil {
			spellings[class.name] = map[string]int{}
		}
		spellings[class.name][class.base]++
	}
	joinIncomplete(found)
	var classes []Entries
	for at, entry := range found {
		entry.base = commonest(spellings[at.class])
		entry.Name = entry.base
		if entry.base == "" {
			entry.base, entry.Name = "No class", "No class"
		}
		slices.SortFunc(entry.Carcasses, byTag)
		classes = append(classes, *entry)
	}
	nameParts(classes)
	slices.SortFunc(classes, func(a, b Entries) int {
		return cmp.Or(cmp.Compare(a.order, b.order), compareNatural(grading.SameName(a.base), grading.SameName(b.base)),
			cmp.Compare(a.Species, b.Species), cmp.Compare(a.Basis, b.Basis), cmp.Compare(a.equations, b.equations))
	})
	return classes
}

// writtenClass is a class as carcasses of one species and basis have it on their sheet.
type writtenClass struct {
	rule       rules.Class
	order      int    // the rule's position in the rulebook
	base, name string // as people call it, and as names are compared
	compared   []measure.ID
}

func newWrittenClass(carcass *grading.Graded, book *rules.Rulebook) *writtenClass {
	rule, order := ruleFor(carcass, book)
	class := &writtenClass{rule: rule, order: order, base: strings.Join(strings.Fields(carcass.Class), " ")}
	if rule.Name != "" && grading.SameName(rule.Name) != EveryOther {
		class.base = rule.Name
	}
	class.name = grading.SameName(class.base)
	class.compared = Entries{Rule: rule}.compared(book)
	return class
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
func joinIncomplete(found map[classKey]*Entries) {
	whole := func(key classKey) bool {
		for other := range found {
			if key.lacksOf(other) {
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
			if !any || cmp.Or(cmp.Compare(len(found[best].Carcasses), len(found[other].Carcasses)), cmp.Compare(other.equations, best.equations)) < 0 {
				joined[part] = other
			}
		}
	}
	for part, other := range joined {
		found[other].Carcasses = append(found[other].Carcasses, found[part].Carcasses...)
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
func ruleFor(carcass *grading.Graded, book *rules.Rulebook) (rule rules.Class, order int) {
	best, order := 0, len(book.Classes)
	written := grading.SameName(carcass.Class)
	for i, class := range book.Classes {
		if class.Species != "" && class.Species != carcass.Species || class.Basis != "" && class.Basis != carcass.Basis {
			continue
		}
		fit := 0
		switch {
		case grading.SameName(class.Name) == EveryOther:
			fit = 10
		case grading.SameName(class.Name) == written:
			fit = 30
		case slices.ContainsFunc(class.Matches, func(word string) bool { return grading.SameName(word) == written }):
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
func (e Entries) ranking(book *rules.Rulebook) (ranking rules.Ranking, problem string) {
	if e.Rule.Name == "" {
		return ranking, "the rulebook has no class that takes " + string(e.Species) + ", " + string(e.Basis) + ", class " + phrase.Quote(e.base)
	}
	ranking, ok := rankingNamed(e.Rule.Ranking, book)
	if !ok {
		return ranking, "the rulebook has no way of placing called " + phrase.Quote(e.Rule.Ranking)
	}
	return ranking, ""
}

// rankingNamed finds a way of placing by its name.
func rankingNamed(name string, book *rules.Rulebook) (rules.Ranking, bool) {
	for _, ranking := range book.Rankings {
		if grading.SameName(ranking.Name) == grading.SameName(name) {
			return ranking, true
		}
	}
	return rules.Ranking{}, false
}

// Is reports whether a table's class column names this class; an empty one names every class.
func (e Entries) Is(class string, species rules.Species) bool {
	if species != "" && species != e.Species {
		return false
	}
	return class == "" || grading.SameName(class) == grading.SameName(e.Rule.Name) || grading.SameName(class) == grading.SameName(e.base)
}

var BasisWords = map[rules.Basis]string{rules.OnTheRail: "on the rail", rules.LiveScan: "by ultrasound"}

// nameParts gives the parts of a class that mixes what may not be ranked together names of their own.
func nameParts(classes []Entries) {
	for i := range classes {
		part := &classes[i]
		var species, basis, equations bool
		for j, other := range classes {
			if i == j || grading.SameName(other.base) != grading.SameName(part.base) {
				continue
			}
			species = species || other.Species != part.Species
			basis = basis || other.Species == part.Species && other.Basis != part.Basis
			equations = equations || other.Species == part.Species && other.Basis == part.Basis
		}
		var parts, mixed []string
		if species {
			parts, mixed = append(parts, string(part.Species)), append(mixed, "species")
		}
		if basis {
			parts, mixed = append(parts, BasisWords[part.Basis]), append(mixed, "carcasses on the rail with animals measured by ultrasound")
		}
		if equations {
			parts, mixed = append(parts, part.equations), append(mixed, "figures of different equations")
		}
		if len(parts) > 0 {
			part.Name = part.base + " (" + strings.Join(parts, ", ") + ")"
			part.split = "Class " + part.base + " mixes " + phrase.JoinAnd(mixed) + ", which are never ranked together: each is placed by itself."
		}
	}
}

// equationsOf names the equations of the figures the carcass is ranked by, where a figure has more than one.
func equationsOf(carcass *grading.Graded, compared []measure.ID) string {
	var names []string
	for _, id := range compared {
		if name := carcass.FigureOf(id).Equation; name != "" && !slices.Contains(names, name) {
			names = append(names, name)
		}
	}
	return strings.Join(names, equationBreak)
}

// compared gives the measures by which a class is ranked; none where it has no ranking.
func (e Entries) compared(book *rules.Rulebook) []measure.ID {
	ranking, problem := e.ranking(book)
	if problem != "" {
		return nil
	}
	return measuresOf(ranking, book)
}

// measuresOf lists the measures a ranking compares, those within its indexes too.
func measuresOf(ranking rules.Ranking, book *rules.Rulebook) []measure.ID {
	var measures []measure.ID
	for _, key := range ranking.Keys {
		measures = append(measures, key.Measure)
		for _, part := range grading.PartsOf(key.Measure, book) {
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
