package grading

import (
	"slices"
	"strings"

	"railbook/rules"
)

// giveAwards draws every award's list from the carcasses the classes place. A carcass left out of its class can't
// receive an award, nor one that a limit takes this award from. Species, bases and equations are kept apart here too.
func giveAwards(classes []ClassPlacing, bench *bench, book *rules.Rulebook) []AwardList {
	var lists []AwardList
	for _, award := range book.Awards {
		parts := awardParts(award, classes, book)
		if len(parts) == 0 {
			lists = append(lists, AwardList{Award: award, Name: award.Name, Reason: "no award: no class it is given in has a carcass"})
		}
		for _, part := range parts {
			lists = append(lists, giveAward(award, part, bench, book))
		}
	}
	return lists
}

// awardPart are the classes whose carcasses may be ranked together for an award.
type awardPart struct {
	entries
	classes []ClassPlacing
}

// awardParts groups the classes an award is given in by what may be ranked together.
func awardParts(award rules.Award, classes []ClassPlacing, book *rules.Rulebook) []awardPart {
	var parts []awardPart
	for _, class := range classes {
		if !givenIn(award, class) {
			continue
		}
		for _, placed := range class.Placed {
			entry := entries{
				award: true, name: award.Name, base: award.Name, species: class.Species, basis: class.Basis,
				rule: rules.Class{Name: award.Name, Ranking: award.Ranking},
			}
			entry.equations = equationsOf(placed.Graded, entry, book)
			at := slices.IndexFunc(parts, func(part awardPart) bool {
				return part.species == entry.species && part.basis == entry.basis && part.equations == entry.equations
			})
			if at < 0 {
				at = len(parts)
				parts = append(parts, awardPart{entries: entry})
			}
			parts[at].carcasses = append(parts[at].carcasses, placed.Graded)
			if last := len(parts[at].classes) - 1; last < 0 || parts[at].classes[last].Class != class.Class {
				parts[at].classes = append(parts[at].classes, class)
			}
		}
	}
	alike := make([]entries, len(parts))
	for i := range parts {
		alike[i] = parts[i].entries
	}
	nameParts(alike)
	for i := range parts {
		parts[i].entries = alike[i]
		slices.SortFunc(parts[i].carcasses, byTag)
	}
	return parts
}

// givenIn reports whether an award is given among the carcasses of a class.
func givenIn(award rules.Award, class ClassPlacing) bool {
	if award.Species != "" && award.Species != class.Species {
		return false
	}
	return len(award.Classes) == 0 || slices.ContainsFunc(award.Classes, func(name string) bool {
		return sameName(name) == sameName(class.Rule.Name) || sameName(name) == sameName(class.base)
	})
}

// giveAward ranks the carcasses of one award list and takes the first ones. Carcasses level for the last of them all
// receive it.
func giveAward(award rules.Award, part awardPart, bench *bench, book *rules.Rulebook) AwardList {
	list := AwardList{Award: award, Name: part.name}
	ranking, ok := rankingNamed(award.Ranking, book)
	if !ok {
		list.Reason = "no award: the rulebook has no way of placing called " + quote(award.Ranking)
		return list
	}
	list.Ranking = ranking
	lost := map[*Graded]string{}
	fails := map[*Graded]failures{}
	for _, class := range part.classes {
		limits := limitsOf(class.entries(), book)
		for _, placed := range class.Placed {
			found := limits.failures(placed.Graded, book)
			fails[placed.Graded] = found
			for _, one := range found.of(rules.FailLosesAward) {
				if sameName(one.requirement.Award) == sameName(award.Name) {
					lost[placed.Graded] = one.words
				}
			}
		}
	}
	ranker := &ranker{book: book, ranking: ranking}
	blocks := numberPlaces(ranker.keeping(part, ranking, lost, fails))
	blocks = bench.rule(part.entries, blocks, ranking, ranker.left)
	for _, placed := range ranker.placed(blocks, fails) {
		if placed.Place <= max(award.Count, 1) {
			list.Winners = append(list.Winners, placed)
		}
	}
	if len(list.Winners) == 0 {
		list.Reason = "no award: " + nobody(part.carcasses, lost, ranker.left)
	}
	return list
}

// keeping orders the carcasses that may receive the award. In a single class placed by the same ranking they keep the
// order of the class, with what the judge ruled there.
func (r *ranker) keeping(part awardPart, ranking rules.Ranking, lost map[*Graded]string, fails map[*Graded]failures) []block {
	if len(part.classes) == 1 && sameName(part.classes[0].Ranking.Name) == sameName(ranking.Name) {
		return r.blocksOf(part.classes[0].Placed, lost)
	}
	var passed, after []*Graded
	for _, carcass := range part.carcasses {
		if _, gone := lost[carcass]; gone {
			continue
		}
		if fails[carcass].after() {
			after = append(after, carcass)
		} else {
			passed = append(passed, carcass)
		}
	}
	return append(r.order(passed, 0), r.order(after, 0)...)
}

// blocksOf gives the carcasses of a placed class, without those that lose the award, as the blocks they stand in.
func (r *ranker) blocksOf(placed []Placed, lost map[*Graded]string) []block {
	var blocks []block
	last := 0
	for _, one := range placed {
		if _, gone := lost[one.Graded]; gone {
			continue
		}
		if one.Place != last {
			blocks = append(blocks, block{overruled: one.Overruled, byJudge: r.ranking.Ties == rules.TiesJudge && !one.JudgeTie})
			last = one.Place
		}
		at := &blocks[len(blocks)-1]
		at.carcasses = append(at.carcasses, one.Graded)
	}
	return blocks
}

// nobody says why an award goes to nobody.
func nobody(carcasses []*Graded, lost map[*Graded]string, left []Left) string {
	var reasons []string
	for _, carcass := range carcasses {
		if words, gone := lost[carcass]; gone {
			reasons = append(reasons, carcass.called()+": "+words)
		}
	}
	for _, one := range left {
		reasons = append(reasons, one.called()+": "+one.Reason)
	}
	slices.SortFunc(reasons, compareNatural)
	return strings.Join(few(reasons), "; ")
}
