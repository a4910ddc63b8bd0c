package placing

import (
	"slices"
	"strings"

	"railbook/grading"
	"railbook/rules"
	"railbook/rules/phrase"
)

// giveAwards draws every award's list from the carcasses the classes place. A carcass left out of its class can't
// receive an award, nor one that a limit takes this award from. Species, bases and equations are kept apart here too.
func giveAwards(classes []ClassPlacing, hearing *hearing, book *rules.Rulebook) []AwardList {
	var lists []AwardList
	for _, award := range book.Awards {
		parts := awardParts(award, classes, book)
		if len(parts) == 0 {
			lists = append(lists, AwardList{Award: award, Name: award.Name, Reason: "no award: no class it is given in has a carcass"})
		}
		for _, part := range parts {
			lists = append(lists, giveAward(award, part, hearing, book))
		}
	}
	return lists
}

// awardPart are the classes whose carcasses may be ranked together for an award.
type awardPart struct {
	Entries
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
			entry := Entries{
				award: true, Name: award.Name, base: award.Name, Species: class.Species, Basis: class.Basis,
				Rule: rules.Class{Name: award.Name, Ranking: award.Ranking},
			}
			entry.equations = equationsOf(placed.Graded, entry.compared(book))
			at := slices.IndexFunc(parts, func(part awardPart) bool {
				return part.Species == entry.Species && part.Basis == entry.Basis && part.equations == entry.equations
			})
			if at < 0 {
				at = len(parts)
				parts = append(parts, awardPart{Entries: entry})
			}
			parts[at].Carcasses = append(parts[at].Carcasses, placed.Entrant)
			if last := len(parts[at].classes) - 1; last < 0 || parts[at].classes[last].Class != class.Class {
				parts[at].classes = append(parts[at].classes, class)
			}
		}
	}
	alike := make([]Entries, len(parts))
	for i := range parts {
		alike[i] = parts[i].Entries
	}
	nameParts(alike)
	for i := range parts {
		parts[i].Entries = alike[i]
		slices.SortFunc(parts[i].Carcasses, byTag)
	}
	return parts
}

// givenIn reports whether an award is given among the carcasses of a class.
func givenIn(award rules.Award, class ClassPlacing) bool {
	if award.Species != "" && award.Species != class.Species {
		return false
	}
	return len(award.Classes) == 0 || slices.ContainsFunc(award.Classes, func(name string) bool {
		return grading.SameName(name) == grading.SameName(class.Rule.Name) || grading.SameName(name) == grading.SameName(class.base)
	})
}

// giveAward ranks the carcasses of one award list and takes the first ones. Carcasses level for the last of them all
// receive it.
func giveAward(award rules.Award, part awardPart, hearing *hearing, book *rules.Rulebook) AwardList {
	list := AwardList{Award: award, Name: part.Name}
	ranking, ok := rankingNamed(award.Ranking, book)
	if !ok {
		list.Reason = "no award: the rulebook has no way of placing called " + phrase.Quote(award.Ranking)
		return list
	}
	list.Ranking = ranking
	ranker := &Ranker{Book: book, Ranking: ranking}
	blocks := numberPlaces(ranker.keeping(award, part, ranking))
	blocks = hearing.rule(part.Entries, blocks, ranking, ranker.notPlaced)
	for _, placed := range ranker.placed(blocks) {
		if placed.Place <= max(award.Count, 1) {
			list.Winners = append(list.Winners, placed)
		} else if len(list.Winners) == 1 && max(award.Count, 1) == 1 && (len(list.Reserve) == 0 || list.Reserve[0].Place == placed.Place) {
			list.Reserve = append(list.Reserve, placed)
		}
	}
	if len(list.Winners) == 0 {
		list.Reason = "no award: " + nobody(award, part.Carcasses, ranker.notPlaced)
	}
	return list
}

// loses tells whether a limit that the carcass fails takes an award from it, and gives the limit in words.
func (e *Entrant) loses(award rules.Award) (words string, gone bool) {
	for _, failed := range e.fails.of(rules.FailLosesAward) {
		if grading.SameName(failed.Requirement.Award) == grading.SameName(award.Name) {
			words, gone = failed.words, true
		}
	}
	return words, gone
}

// keeping orders the carcasses that may receive the award. In a single class placed by the same ranking they keep the
// order of the class, with what the judge ruled there.
func (r *Ranker) keeping(award rules.Award, part awardPart, ranking rules.Ranking) []block {
	if len(part.classes) == 1 && grading.SameName(part.classes[0].Ranking.Name) == grading.SameName(ranking.Name) {
		return r.blocksOf(part.classes[0].Placed, award)
	}
	var passed, after []*Entrant
	for _, carcass := range part.Carcasses {
		if _, gone := carcass.loses(award); gone {
			continue
		}
		if carcass.fails.After() {
			after = append(after, carcass)
		} else {
			passed = append(passed, carcass)
		}
	}
	return r.order(r.order(nil, passed, 0), after, 0)
}

// blocksOf gives the carcasses of a placed class, without those that lose the award, as the blocks they stand in.
func (r *Ranker) blocksOf(placed []Placed, award rules.Award) []block {
	var blocks []block
	last := 0
	for _, standing := range placed {
		if _, gone := standing.loses(award); gone {
			continue
		}
		if standing.Place != last {
			blocks = append(blocks, block{overruled: standing.Overruled, byJudge: r.Ranking.Ties == rules.TiesJudge && !standing.JudgeTie})
			last = standing.Place
		}
		at := &blocks[len(blocks)-1]
		at.carcasses = append(at.carcasses, standing.Entrant)
	}
	return blocks
}

// nobody says why an award goes to nobody.
func nobody(award rules.Award, carcasses []*Entrant, left []NotPlaced) string {
	var reasons []string
	for _, carcass := range carcasses {
		if words, gone := carcass.loses(award); gone {
			reasons = append(reasons, carcass.Called()+": "+words)
		}
	}
	for _, absent := range left {
		reasons = append(reasons, absent.Called()+": "+absent.Reason)
	}
	slices.SortFunc(reasons, compareNatural)
	return strings.Join(phrase.Few(reasons), "; ")
}
