package rules

func (l *loading) classes() {
	for _, line := range l.lines(ClassesTable) {
		name, ok := line.needed("Class")
		if !ok {
			continue
		}
		if fold(name) == EveryOtherClass {
			name = EveryOtherClass
		}
		class := Class{
			Name: name, Species: line.species(), Basis: Basis(line.choice("Basis", basisWords)),
			Matches: line.list("Also called"), Place: line.place("Class"),
		}
		class.PlacesPaid, _ = line.whole("Places paid", 0, 1000)
		if ranking := line.rankingNamed(); ranking != nil {
			class.Ranking = ranking.Name
			line.checkRankingFor(class.Species, *ranking)
		}
		if name == EveryOtherClass && len(class.Matches) > 0 {
			line.fault("Also called", "The line %q takes every class that no other line names, so it has no other names. Clear this cell.", EveryOtherClass)
		}
		l.checkClassTwice(class, line)
		l.book.Classes = append(l.book.Classes, class)
	}
	l.checkEveryClassTaken()
}

// checkClassTwice looks for an earlier class that goes by one of the same names.
func (l *loading) checkClassTwice(class Class, line line) {
	for _, earlier := range l.book.Classes {
		if !overlap(earlier.Species, class.Species) || !overlap(earlier.Basis, class.Basis) {
			continue
		}
		if class.Name == EveryOtherClass && (earlier.Species != class.Species || earlier.Basis != class.Basis) {
			continue
		}
		for _, word := range append([]string{class.Name}, class.Matches...) {
			if _, found := among(word, append([]string{earlier.Name}, earlier.Matches...)); found {
				line.fault("Class", "The class name %q is there twice for the same kind of carcass; the first time in cell %s. Change one of the two.", word, earlier.Place.Cell)
				return
			}
		}
	}
}

func overlap[Word ~string](a, b Word) bool {
	return a == "" || b == "" || a == b
}

// checkEveryClassTaken warns where a species has classes and no line for those named nowhere.
func (l *loading) checkEveryClassTaken() {
	for _, species := range eachSpecies {
		var last *Class
		taken := false
		for number := range l.book.Classes {
			class := &l.book.Classes[number]
			if !overlap(class.Species, species) {
				continue
			}
			last = class
			taken = taken || class.Name == EveryOtherClass
		}
		if last != nil && !taken {
			l.warn(last.Place, "There is no line %q for %s, so a class that is named nowhere is not placed.", EveryOtherClass, species)
		}
	}
}

// classNamed looks for a class by its name among the classes of a species; the name as the Classes sheet has it.
func (l *loading) classNamed(text string, species Species) (name string, found bool) {
	for _, class := range l.book.Classes {
		if fold(class.Name) == fold(text) && overlap(class.Species, species) {
			return class.Name, true
		}
	}
	return "", false
}

// class reads a cell with the name of a class; blank means every class.
func (n line) class(species Species) string {
	text := n.text("Class")
	if text == "" {
		return ""
	}
	name, found := n.loading.classNamed(text, species)
	if !found {
		n.fault("Class", "There is no class %q%s on the Classes sheet.%s", text, forSpecies(species), nearest(text, n.loading.classNames()))
	}
	return name
}

func (l *loading) classNames() []string {
	var names []string
	for _, class := range l.book.Classes {
		names = append(names, class.Name)
	}
	return names
}
