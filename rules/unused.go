package rules

import (
	"slices"

	"railbook/rules/measure"
	"railbook/rules/phrase"
)

// onlyShown are the columns that say something to whoever reads the sheet and decide nothing.
var onlyShown = []string{"Source", "Usual"}

// checkNothingUnused looks for what a board wrote that nothing comes of: it must not believe that it counts when it does not.
func (l *loading) checkNothingUnused() {
	for _, line := range l.gone {
		for _, heading := range line.headings() {
			if !line.asked[line.columns[heading]] && !slices.Contains(onlyShown, heading) && line.text(heading) != "" {
				line.fault(heading, "%q under %q does nothing on this line. Clear the cell, or write it where it counts.", line.text(heading), heading)
			}
		}
	}
	l.checkIndexesUsed()
	l.checkPremiumsPay()
}

// headings gives the columns of the line in an order that is always the same.
func (n line) headings() (headings []string) {
	for heading, column := range n.columns {
		if column < len(n.row) {
			headings = append(headings, heading)
		}
	}
	slices.Sort(headings)
	return headings
}

// clearOn looks for cells that can say nothing on such a line, with why.
func (n line) clearOn(why string, headings ...string) {
	for _, heading := range headings {
		if n.text(heading) != "" {
			n.fault(heading, why+" Clear %q.", heading)
		}
	}
}

// alone warns of an alternative that has no other: the letter under "Or" does nothing on one line.
func (n line) alone(others int) {
	if n.text("Or") != "" && others == 0 {
		n.warn("Or", "No other line has the letter %q under %q beside this one, so there is no alternative and the line must be met. Give the alternatives the same letter, or clear it.", n.text("Or"), "Or")
	}
}

// hasIt looks whether any class of that name can have the measure: a line about a class that has none of it would never count.
func (n line) hasIt(class string, definition measure.Definition) {
	if class == "" {
		return
	}
	var species []string
	for _, entered := range n.loading.book.Classes {
		if fold(entered.Name) != fold(class) {
			continue
		}
		if entered.Species == "" || definition.For(string(entered.Species)) {
			return
		}
		species = append(species, string(entered.Species))
	}
	if len(species) > 0 {
		n.fault("Measure", "The class %s is of %s, which has no %s. Correct the class or the measure of this line.", class, phrase.JoinOr(species), definition.ID)
	}
}

// checkIndexesUsed warns of an index that nothing is placed, limited or grouped by.
func (l *loading) checkIndexesUsed() {
	used := func(id measure.ID) bool {
		return slices.ContainsFunc(l.book.Rankings, func(r Ranking) bool {
			return slices.ContainsFunc(r.Keys, func(k Key) bool { return k.Measure == id })
		}) || slices.ContainsFunc(l.book.Eligibility, func(r Requirement) bool { return r.Measure == id }) ||
			slices.ContainsFunc(l.book.Groups, func(s Standard) bool { return s.Measure == id })
	}
	names := l.indexNames()
	for _, name := range names {
		if used(l.book.Measures.ByName(PointsPrefix+name)) || len(names) == 1 && used(measure.Points) {
			continue
		}
		for _, part := range l.book.Points {
			if part.Index == name {
				l.warn(part.Place, "No ranking, limit or group uses the index %s. A ranking compares it as %q.", name, PointsPrefix+name)
				break
			}
		}
	}
}

// checkRankingsUsed warns of a ranking that places nothing.
func (l *loading) checkRankingsUsed() {
	used := make(map[string]bool)
	for _, class := range l.book.Classes {
		used[class.Ranking] = true
	}
	for _, award := range l.book.Awards {
		used[award.Ranking] = true
	}
	for _, ranking := range l.book.Rankings {
		if !used[ranking.Name] {
			l.warn(ranking.Place, "No class and no award is placed by the ranking %s.", ranking.Name)
		}
	}
}

// checkPremiumsPay warns of premiums and matrices of a species without the base price that they are added to.
func (l *loading) checkPremiumsPay() {
	said := map[Species]bool{}
	warn := func(line GridLine, what string) {
		if !l.book.Settings.BasePrice[line.Species].Valid && !said[line.Species] {
			said[line.Species] = true
			l.warn(line.Place, "There is no base price of %s, so this %s pays nothing. Set the base price on the Settings sheet.", line.Species, what)
		}
	}
	for _, premium := range l.book.Premiums {
		warn(premium.GridLine, "premium")
	}
	for _, line := range l.book.Matrix {
		warn(line.GridLine, "price matrix")
	}
}
