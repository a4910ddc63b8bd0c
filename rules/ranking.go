package rules

import (
	"strconv"
	"strings"

	"railbook/rules/measure"
	"railbook/rules/phrase"

	"github.com/shopspring/decimal"
)

func (l *loading) rankings() {
	var order []string
	groups := make(map[string][]line)
	for _, line := range l.lines(RankingTable) {
		name, ok := line.needed("Ranking")
		if !ok {
			continue
		}
		if known, found := among(name, order); found {
			name = known
		} else {
			order = append(order, name)
		}
		groups[name] = append(groups[name], line)
	}
	for _, name := range order {
		l.book.Rankings = append(l.book.Rankings, l.ranking(name, groups[name]))
	}
}

func (l *loading) ranking(name string, lines []line) Ranking {
	ranking := Ranking{Name: name, Place: lines[0].place("Ranking")}
	last := lines[len(lines)-1]
	for _, line := range lines {
		if ranking.Ties != "" {
			line.fault("Step", "This line of the ranking %s comes after its tie line and would never be reached. Put the tie line last.", name)
			return ranking
		}
		if fold(line.text("Step")) == TieStep {
			ranking.Ties = line.tie()
			if ranking.Ties == "" {
				return ranking
			}
			continue
		}
		if step := strconv.Itoa(len(ranking.Keys) + 1); line.text("Step") != step {
			line.fault("Step", "The step of this line of the ranking %s is %s and should be %s: steps are numbered from 1 without a gap, and the last line's is %q.", name, quotedOrBlank(line.text("Step")), step, TieStep)
		}
		key := line.key()
		l.checkKeyRepeats(ranking, key, line)
		ranking.Keys = append(ranking.Keys, key)
	}
	if ranking.Ties == "" {
		last.fault("Step", "The ranking %s ends without saying what carcasses get that are still tied. Add a line with the step %q and, under \"Which first\", %s or %s.", name, TieStep, TiesShare, TiesJudge)
	}
	if len(ranking.Keys) == 0 {
		last.fault("Step", "The ranking %s compares nothing. Add a line with the step 1 and a measure.", name)
	}
	return ranking
}

// tie reads the last line of a ranking.
func (n line) tie() Ties {
	words := []string{string(TiesShare), string(TiesJudge)}
	text := n.text("Which first")
	word, found := among(text, words)
	if !found {
		n.fault("Which first", "On a tie line %q is %s. It should be %s.", "Which first", quotedOrBlank(text), phrase.JoinOr(words))
	}
	return Ties(word)
}

func (n line) key() Key {
	key := Key{Place: n.place("Measure"), Measure: n.keyMeasure()}
	definition, _ := measure.Define(key.Measure)
	key.Bound = n.boundOf(definition, "Bound")
	key.Index, _ = n.loading.book.Index(key.Measure)
	words := []string{string(Highest), string(Lowest), string(PassAtMost), string(PassAtLeast)}
	text := n.text("Which first")
	word, found := among(text, words)
	if !found {
		n.fault("Which first", "%q is %s. It should be %s.", "Which first", quotedOrBlank(text), phrase.JoinOr(words))
	}
	key.Prefer = Prefer(word)
	passes := key.Prefer == PassAtMost || key.Prefer == PassAtLeast
	if passes && n.text("Bound") == "" {
		n.fault("Bound", "%q needs a bound. Write the figure that divides those that pass from those that do not.", word)
	}
	if found && !passes && key.Bound.Valid {
		n.fault("Bound", "%q has no bound. Clear it, or choose %q or %q.", word, PassAtMost, PassAtLeast)
	}
	if found && passes && definition.Kind == measure.KindGrade {
		n.fault("Bound", "%s is a grade, which no number divides. Compare the grade itself, or put those below a grade after the others on the Eligibility sheet.", phrase.Capital(definition.Name))
	}
	switch definition.Kind {
	case measure.KindNumber, measure.KindMarbling, measure.KindMaturity, "":
	default:
		n.clearOn(phrase.Capital(definition.Name)+" is "+kindWords[definition.Kind]+" and has no decimals to be rounded to.", "Decimals compared")
	}
	if decimals, ok := n.whole("Decimals compared", 0, 6); ok {
		key.Decimals = decimal.NewNullDecimal(decimal.NewFromInt(int64(decimals)))
	}
	return key
}

// keyMeasure reads what a key compares: a measure or an index.
func (n line) keyMeasure() measure.ID {
	text, ok := n.needed("Measure")
	if !ok {
		return measure.None
	}
	if name, found := strings.CutPrefix(fold(text), PointsPrefix); found {
		index, found := among(name, n.loading.indexNames())
		if !found {
			n.fault("Measure", "There is no index %q on the Points sheet.", name)
		}
		return n.loading.book.Measures.ByName(PointsPrefix + index)
	}
	definition, ok := n.measure("")
	if !ok || !n.compares(definition, measure.KindNumber, measure.KindMarbling, measure.KindMaturity, measure.KindGrade, measure.KindMark, measure.KindDate, measure.KindLowering) {
		return measure.None
	}
	return definition.ID
}

// checkKeyRepeats warns of a key that an earlier one leaves nothing to decide.
func (l *loading) checkKeyRepeats(ranking Ranking, key Key, line line) {
	for number, earlier := range ranking.Keys {
		if key.Measure != measure.None && earlier.Measure == key.Measure && earlier.Prefer == key.Prefer && sameNumber(earlier.Bound, key.Bound) && sameNumber(earlier.Decimals, key.Decimals) {
			line.warn("Measure", "This step compares what step %d has compared, so it never decides.", number+1)
		}
	}
}

// Orders reports whether the key is more than a yes or no.
func (k Key) Orders() bool { return k.Prefer == Highest || k.Prefer == Lowest }

// Name gives what the key compares, as the rulebook writes it.
func (k Key) Name() string {
	if k.Index != "" {
		return PointsPrefix + k.Index
	}
	return k.Measure.String()
}

func sameNumber(a, b decimal.NullDecimal) bool {
	return a.Valid == b.Valid && (!a.Valid || a.Decimal.Equal(b.Decimal))
}

// rankingNamed reads the name of a ranking; nil for a fault.
func (n line) rankingNamed() *Ranking {
	text, ok := n.needed("Ranking")
	if !ok {
		return nil
	}
	var names []string
	for number := range n.loading.book.Rankings {
		ranking := &n.loading.book.Rankings[number]
		if fold(ranking.Name) == fold(text) {
			return ranking
		}
		names = append(names, ranking.Name)
	}
	n.fault("Ranking", "There is no ranking %q on the Ranking sheet.%s", text, nearest(text, names))
	return nil
}

// checkRankingFor looks whether a species has all that a ranking compares.
func (n line) checkRankingFor(species Species, ranking Ranking) {
	if species == "" {
		return
	}
	var lacking []string
	for _, key := range ranking.Keys {
		for _, id := range append(n.loading.indexMeasures(key.Measure), key.Measure) {
			definition, found := measure.Define(id)
			if _, named := among(id.String(), lacking); found && !named && !definition.For(string(species)) {
				lacking = append(lacking, id.String())
			}
		}
	}
	if len(lacking) > 0 {
		n.fault("Ranking", "The ranking %s compares %s, which %s carcasses do not have.", ranking.Name, phrase.JoinAnd(lacking), species)
	}
}
