package placing

import (
	"fmt"
	"slices"
	"strings"

	"railbook/grading"
	"railbook/rules"
	"railbook/rules/phrase"
)

// hearing is where the judge's rulings are heard: each is followed in its class, or refused with the reason.
type hearing struct {
	rulings []Ruling
	heard   []bool
	why     []string // why a ruling is refused; empty for one that was followed
}

// refused gives the rulings that could not be followed, in their order.
func (b *hearing) refused() []RefusedRuling {
	var list []RefusedRuling
	for i, ruling := range b.rulings {
		switch {
		case !b.heard[i]:
			list = append(list, RefusedRuling{ruling, fmt.Sprintf("There is no carcass %s in class %s.", ruling.Tag, ruling.Class)})
		case b.why[i] != "":
			list = append(list, RefusedRuling{ruling, b.why[i]})
		}
	}
	return list
}

// rule applies the rulings on a class to the order the keys gave, and numbers the places. Every ruling that is followed
// names the carcass's place in the end; the others close ranks around those ruled on.
func (b *hearing) rule(class Entries, blocks []block, ranking rules.Ranking, left []NotPlaced) []block {
	blocks = numberPlaces(blocks)
	mine := b.on(class, blocks, left)
	if len(mine) == 0 {
		return blocks
	}
	followed := b.onePerPlace(b.breaksOrOverrules(blocks, mine, ranking.Ties))
	for {
		arranged, astray := arrange(blocks, followed)
		if astray < 0 {
			return markOverruled(blocks, arranged, followed)
		}
		b.why[followed[astray].ruling] = astrayWords(followed[astray], blocks)
		followed = slices.Delete(slices.Clone(followed), astray, astray+1)
	}
}

// breaksOrOverrules tells rulings that break a tie left to the judge from those against the rule, which need a reason.
// Where the tie stands depends on who is moved past it, so those moved from elsewhere are settled first.
func (b *hearing) breaksOrOverrules(blocks []block, mine []placeRuling, ties rules.Ties) []placeRuling {
	within := func(ruled placeRuling, first, last, size int) bool {
		return ties == rules.TiesJudge && size > 1 && ruled.place >= first && ruled.place <= last
	}
	var moved, followed []placeRuling
	for _, ruled := range mine {
		tied := blocks[ruled.blockIn(blocks)]
		if ruled.reason != "" && !within(ruled, tied.place, tied.place+len(tied.carcasses)-1, len(tied.carcasses)) {
			moved = append(moved, ruled)
		}
	}
	slots := slotsOf(blocks, moved)
	for _, ruled := range mine {
		if slices.Contains(moved, ruled) {
			followed = append(followed, ruled)
			continue
		}
		tied := blocks[ruled.blockIn(blocks)]
		first, last, size := len(slots)+1, 0, 0
		for _, carcass := range tied.carcasses {
			if slot, free := slots.of(carcass); free {
				first, last, size = min(first, slot), max(last, slot), size+1
			}
		}
		ruled.breaksTie = within(ruled, first, last, size)
		if !ruled.breaksTie && ruled.reason == "" && (ruled.place != first || size > 1) {
			b.why[ruled.ruling] = fmt.Sprintf("The rule places %s %s: a place against the rule needs a reason.", ruled.carcass.Called(), phrase.Ordinal(tied.place))
			continue
		}
		followed = append(followed, ruled)
	}
	return followed
}

// slot is the position in which a carcass would come.
type slot struct {
	carcass *Entrant
	place   int
}

type slots []slot

// of gives the position of a carcass; free is false for one that is moved.
func (s slots) of(carcass *Entrant) (place int, free bool) {
	at := slices.IndexFunc(s, func(place slot) bool { return place.carcass == carcass })
	if at < 0 {
		return 0, false
	}
	return s[at].place, true
}

// slotsOf gives every carcass that is not moved the position in which it would come, ties in the order of tags.
func slotsOf(blocks []block, moved []placeRuling) slots {
	var found slots
	place := 1
	for _, class := range blocks {
		for _, carcass := range class.carcasses {
			if slices.ContainsFunc(moved, func(p placeRuling) bool { return p.carcass == carcass }) {
				continue
			}
			for slices.ContainsFunc(moved, func(p placeRuling) bool { return p.place == place }) {
				place++
			}
			found = append(found, slot{carcass, place})
			place++
		}
	}
	return found
}

// astrayWords says why a carcass can't stand where the ruling puts it.
func astrayWords(ruled placeRuling, blocks []block) string {
	own := blocks[ruled.blockIn(blocks)]
	if ruled.breaksTie {
		return fmt.Sprintf("The rulings on the tie for %s do not fit together: give each of %s a place from %d to %d.",
			phrase.Ordinal(own.place), phrase.JoinAnd(tagsOf(own.carcasses)), own.place, own.place+len(own.carcasses)-1)
	}
	return fmt.Sprintf("Place %d lies within a tie, so %s can't stand there alone: break the tie, or give another place.", ruled.place, ruled.carcass.Called())
}

// placeRuling is a ruling on a carcass of the class.
type placeRuling struct {
	ruling  int // its index
	carcass *Entrant
	place   int
	reason  string
	// breaksTie is true where the rule leaves the place to the judge; else the ruling is against the rule.
	breaksTie bool
}

// blockIn gives the index of the block the carcass stands in.
func (p placeRuling) blockIn(blocks []block) int {
	return slices.IndexFunc(blocks, func(class block) bool { return slices.Contains(class.carcasses, p.carcass) })
}

// on finds the rulings on carcasses of this class that can be followed as they stand, and refuses those that contradict
// themselves.
func (b *hearing) on(class Entries, blocks []block, left []NotPlaced) []placeRuling {
	var placed []*Entrant
	for _, class := range blocks {
		placed = append(placed, class.carcasses...)
	}
	var followed []placeRuling
	for i, ruling := range b.rulings {
		of := func(carcass *Entrant) bool {
			return grading.SameName(carcass.Tag) == grading.SameName(ruling.Tag) && (grading.SameName(ruling.Class) == grading.SameName(class.Name) ||
				grading.SameName(ruling.Class) == grading.SameName(class.base) || !class.award && grading.SameName(ruling.Class) == grading.SameName(carcass.Class))
		}
		var found []*Entrant
		for _, carcass := range placed {
			if of(carcass) {
				found = append(found, carcass)
			}
		}
		for _, absent := range left {
			if of(absent.Entrant) && len(found) == 0 {
				b.heard[i] = true
				b.why[i] = fmt.Sprintf("%s is not placed (%s), so it can't be given a place.", phrase.Capital(absent.Called()), absent.Reason)
			}
		}
		if len(found) == 0 {
			continue
		}
		b.heard[i], b.why[i] = true, ""
		switch {
		case len(found) > 1:
			b.why[i] = fmt.Sprintf("Class %s has %d carcasses with tag %s, so it can't be told which is meant.", class.Name, len(found), ruling.Tag)
		case ruling.Place < 1 || ruling.Place > len(placed):
			b.why[i] = fmt.Sprintf("There is no place %d in class %s: %d placed.", ruling.Place, class.Name, len(placed))
		default:
			followed = append(followed, placeRuling{ruling: i, carcass: found[0], place: ruling.Place, reason: strings.TrimSpace(ruling.Reason)})
		}
	}
	return b.consistent(followed)
}

// consistent refuses rulings that give one carcass two places, and of repeated ones keeps
// one, with its reason where one has it.
func (b *hearing) consistent(followed []placeRuling) []placeRuling {
	var kept []placeRuling
	for i, ruled := range followed {
		twice, repeated := false, false
		for j, other := range followed {
			if i == j || ruled.carcass != other.carcass {
				continue
			}
			twice = twice || ruled.place != other.place
			better := (other.reason != "") != (ruled.reason != "") && other.reason != ""
			repeated = repeated || better || j < i && (other.reason != "") == (ruled.reason != "")
		}
		if twice {
			b.why[ruled.ruling] = fmt.Sprintf("Two rulings give %s different places: neither is followed.", ruled.carcass.Called())
		} else if !repeated {
			kept = append(kept, ruled)
		}
	}
	return kept
}

// onePerPlace refuses rulings that put two carcasses in one place, unless they leave two of a tie level.
func (b *hearing) onePerPlace(followed []placeRuling) []placeRuling {
	var kept []placeRuling
	for _, ruled := range followed {
		other := slices.IndexFunc(followed, func(other placeRuling) bool {
			return other.place == ruled.place && other.carcass != ruled.carcass && !(ruled.breaksTie && other.breaksTie)
		})
		if other < 0 {
			kept = append(kept, ruled)
			continue
		}
		b.why[ruled.ruling] = fmt.Sprintf("The rulings put both %s and %s in place %d: neither is followed.", ruled.carcass.Called(), followed[other].carcass.Called(), ruled.place)
	}
	return kept
}

// arrange fills the places: carcasses ruled on stand where the ruling says, the others take what is free in their order.
// astray is the index of a ruling whose place lies within a tie of others; −1 where there is none.
func arrange(blocks []block, followed []placeRuling) (arranged []block, astray int) {
	ruled := map[int]block{}
	var rest []block
	for _, given := range followed {
		together := ruled[given.place]
		together.byJudge = true
		together.carcasses = append(together.carcasses, given.carcass)
		ruled[given.place] = together
	}
	for _, class := range blocks {
		size := len(class.carcasses)
		class.carcasses = slices.DeleteFunc(slices.Clone(class.carcasses), func(carcass *Entrant) bool {
			return slices.ContainsFunc(followed, func(p placeRuling) bool { return p.carcass == carcass })
		})
		class.byJudge = size > 1 && len(class.carcasses) == 1
		if len(class.carcasses) > 0 {
			rest = append(rest, class)
		}
	}
	for place := 1; len(rest) > 0 || len(ruled) > 0; {
		next, byRuling := ruled[place]
		if !byRuling {
			if len(rest) == 0 {
				return nil, slices.IndexFunc(followed, func(p placeRuling) bool { return len(ruled[p.place].carcasses) > 0 })
			}
			next, rest = rest[0], rest[1:]
		}
		delete(ruled, place)
		for within := place + 1; within < place+len(next.carcasses); within++ {
			if _, inside := ruled[within]; inside {
				return nil, slices.IndexFunc(followed, func(p placeRuling) bool { return p.place == within })
			}
		}
		slices.SortFunc(next.carcasses, byTag)
		arranged = append(arranged, next)
		place += len(next.carcasses)
	}
	return numberPlaces(arranged), -1
}

// markOverruled gives the judge's reason to each carcass placed against the rule: one that would stand elsewhere, or
// share its place, without the ruling.
func markOverruled(blocks, arranged []block, followed []placeRuling) []block {
	for i, given := range followed {
		if given.breaksTie {
			continue
		}
		others := slices.Delete(slices.Clone(followed), i, i+1)
		if without, astray := arrange(blocks, others); astray < 0 {
			ruled := without[given.blockIn(without)]
			if ruled.place == given.place && len(ruled.carcasses) == 1 {
				continue
			}
		}
		arranged[given.blockIn(arranged)].overruled = given.reason
	}
	return arranged
}

// tagsOf names carcasses by their tags.
func tagsOf(carcasses []*Entrant) []string {
	var tags []string
	for _, carcass := range carcasses {
		tags = append(tags, carcass.Called())
	}
	return tags
}
