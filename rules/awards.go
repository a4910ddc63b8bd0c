package rules

func (l *loading) awards() {
	for _, line := range l.lines(AwardsTable) {
		name, ok := line.needed("Award")
		if !ok {
			continue
		}
		award := Award{Name: name, Species: line.species(), Place: line.place("Award")}
		for _, text := range line.list("Classes") {
			class, found := l.classNamed(text, award.Species)
			if !found {
				line.fault("Classes", "There is no class %q%s on the Classes sheet.%s", text, forSpecies(award.Species), nearest(text, l.classNames()))
				continue
			}
			award.Classes = append(award.Classes, class)
		}
		if ranking := line.rankingNamed(); ranking != nil {
			award.Ranking = ranking.Name
			line.checkRankingFor(award.Species, *ranking)
		}
		if line.text("How many") == "" {
			line.needed("How many")
		}
		award.Count, _ = line.whole("How many", 1, 1000)
		for _, earlier := range l.book.Awards {
			if fold(earlier.Name) == fold(name) && overlap(earlier.Species, award.Species) {
				line.fault("Award", "The award %q is there twice; the first time in cell %s. Change one of the two names.", name, earlier.Place.Cell)
			}
		}
		l.book.Awards = append(l.book.Awards, award)
	}
	l.checkRankingsUsed()
}
