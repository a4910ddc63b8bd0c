package grading

import (
	"fmt"
	"slices"
	"strings"

	"railbook/rules"
)

// bench is where the judge's rulings are heard: each is followed in its class, or refused with the reason.
type bench struct {
	rulings []Ruling
	heard   []bool
	why     []string // why a ruling is refused; empty for one that was followed
}

// refused gives the rulings that could not be followed, in their order.
func (b *bench) refused() []RefusedRuling {
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

// rule applies the rulings on a class to the order the keys gave, and numbers the places.
func (b *bench) rule(class entries, blocks []block, ranking rules.Ranking, left []Left) []block {
	blocks = numberPlaces(blocks)
	mine := b.on(class, blocks, left)
	if len(mine) == 0 {
		return blocks
	}
	var breaks, pins []pin
	for _, one := range mine {
		at := one.blockIn(blocks)
		tied := blocks[at]
		within := one.place >= tied.place && one.place < tied.place+len(tied.carcasses)
		switch {
		case within && len(tied.carcasses) > 1 && ranking.Ties == rules.TiesJudge:
			breaks = append(breaks, one)
		case one.reason == "" && (one.place != tied.place || len(tied.carcasses) > 1):
			b.why[one.ruling] = fmt.Sprintf("The rule places %s %s: a place against the rule needs a reason.", one.carcass.called(), ordinal(tied.place))
		default:
			pins = append(pins, one)
		}
	}
	return b.overrule(b.breakTies(blocks, breaks), pins)
}

// pin is a ruling on a carcass of the class.
type pin struct {
	ruling  int // its index
	carcass *Graded
	place   int
	reason  string
}

// blockIn gives the index of the block the carcass stands in.
func (p pin) blockIn(blocks []block) int {
	return slices.IndexFunc(blocks, func(one block) bool { return slices.Contains(one.carcasses, p.carcass) })
}

// on finds the rulings on carcasses of this class that can be followed as they stand, and refuses those that contradict
// themselves.
func (b *bench) on(class entries, blocks []block, left []Left) []pin {
	var placed []*Graded
	for _, one := range blocks {
		placed = append(placed, one.carcasses...)
	}
	var pins []pin
	for i, ruling := range b.rulings {
		of := func(carcass *Graded) bool {
			return sameName(carcass.Tag) == sameName(ruling.Tag) && (sameName(ruling.Class) == sameName(class.name) ||
				sameName(ruling.Class) == sameName(class.base) || !class.award && sameName(ruling.Class) == sameName(carcass.Class))
		}
		var found []*Graded
		for _, carcass := range placed {
			if of(carcass) {
				found = append(found, carcass)
			}
		}
		for _, one := range left {
			if of(one.Graded) && len(found) == 0 {
				b.heard[i] = true
				b.why[i] = fmt.Sprintf("%s is not placed (%s), so it can't be given a place.", sentenceStart(one.called()), one.Reason)
			}
		}
		if len(found) == 0 {
			continue
		}
		b.heard[i], b.why[i] = true, ""
		switch {
		case len(found) > 1:
			b.why[i] = fmt.Sprintf("Class %s has %d carcasses with tag %s, so it can't be told which is meant.", class.name, len(found), ruling.Tag)
		case ruling.Place < 1 || ruling.Place > len(placed):
			b.why[i] = fmt.Sprintf("There is no place %d in class %s: %d placed.", ruling.Place, class.name, len(placed))
		default:
			pins = append(pins, pin{i, found[0], ruling.Place, strings.TrimSpace(ruling.Reason)})
		}
	}
	return b.consistent(pins)
}

// consistent refuses rulings that give one carcass two places, and drops repeated ones.
func (b *bench) consistent(pins []pin) []pin {
	var kept []pin
	for i, one := range pins {
		twice, repeated := false, false
		for j, other := range pins {
			if i == j || one.carcass != other.carcass {
				continue
			}
			twice = twice || one.place != other.place
			repeated = repeated || j < i && one.place == other.place
		}
		if twice {
			b.why[one.ruling] = fmt.Sprintf("Two rulings give %s different places: neither is followed.", one.carcass.called())
		} else if !repeated {
			kept = append(kept, one)
		}
	}
	return kept
}

// breakTies puts the carcasses of ties left to the judge where the judge put them; those not ruled on stay level in the
// places that remain. Two given the same place share it.
func (b *bench) breakTies(blocks []block, breaks []pin) []block {
	var out []block
	for i, tied := range blocks {
		var mine []pin
		for _, one := range breaks {
			if one.blockIn(blocks) == i {
				mine = append(mine, one)
			}
		}
		broken, ok := breakTie(tied, mine)
		if !ok {
			for _, one := range mine {
				b.why[one.ruling] = fmt.Sprintf("The rulings on the tie for %s do not fit together: give each of %s a place from %d to %d.",
					ordinal(tied.place), joinAnd(tagsOf(tied.carcasses)), tied.place, tied.place+len(tied.carcasses)-1)
			}
		}
		out = append(out, broken...)
	}
	return numberPlaces(out)
}

// breakTie orders one tied block; ok is false where the places do not fit together.
func breakTie(tied block, rulings []pin) (broken []block, ok bool) {
	if len(rulings) == 0 {
		return []block{tied}, true
	}
	at := map[int][]*Graded{}
	unruled := slices.Clone(tied.carcasses)
	for _, one := range rulings {
		at[one.place] = append(at[one.place], one.carcass)
		unruled = slices.DeleteFunc(unruled, func(carcass *Graded) bool { return carcass == one.carcass })
	}
	for place := tied.place; place < tied.place+len(tied.carcasses); {
		next := block{carcasses: at[place], byJudge: true}
		if len(next.carcasses) == 0 {
			next = block{carcasses: unruled, byJudge: len(unruled) == 1}
			unruled = nil
		}
		if len(next.carcasses) == 0 {
			return []block{tied}, false
		}
		slices.SortFunc(next.carcasses, byTag)
		broken = append(broken, next)
		delete(at, place)
		place += len(next.carcasses)
	}
	return broken, len(at) == 0
}

// overrule moves carcasses to the places the judge gives them against the rule; the others close ranks around them in
// their order.
func (b *bench) overrule(blocks []block, pins []pin) []block {
	pins = b.onePerPlace(pins)
	for {
		arranged, inTie := arrange(blocks, pins)
		if inTie < 0 {
			return markOverruled(blocks, arranged, pins)
		}
		one := pins[inTie]
		b.why[one.ruling] = fmt.Sprintf("Place %d lies within a tie of others, so %s can't stand there alone: break the tie, or give another place.", one.place, one.carcass.called())
		pins = slices.Delete(slices.Clone(pins), inTie, inTie+1)
	}
}

// onePerPlace refuses rulings that put two carcasses in one place.
func (b *bench) onePerPlace(pins []pin) []pin {
	var kept []pin
	for i, one := range pins {
		other := slices.IndexFunc(pins, func(other pin) bool { return other.place == one.place && other.carcass != one.carcass })
		if other < 0 {
			kept = append(kept, pins[i])
			continue
		}
		b.why[one.ruling] = fmt.Sprintf("The rulings put both %s and %s in place %d: neither is followed.", one.carcass.called(), pins[other].carcass.called(), one.place)
	}
	return kept
}

// arrange fills the places: pinned carcasses stand where they are pinned, the others take what is free in their order.
// inTie is the index of a pin whose place lies within a tie of others; −1 where there is none.
func arrange(blocks []block, pins []pin) (arranged []block, inTie int) {
	pinned := map[int]int{}
	var rest []block
	for i, one := range pins {
		pinned[one.place] = i
	}
	for _, one := range blocks {
		one.carcasses = slices.DeleteFunc(slices.Clone(one.carcasses), func(carcass *Graded) bool {
			return slices.ContainsFunc(pins, func(p pin) bool { return p.carcass == carcass })
		})
		if len(one.carcasses) > 0 {
			rest = append(rest, one)
		}
	}
	place := 1
	takePinned := func() {
		for {
			at, ok := pinned[place]
			if !ok {
				return
			}
			arranged = append(arranged, block{carcasses: []*Graded{pins[at].carcass}, byJudge: true})
			place++
		}
	}
	for _, one := range rest {
		takePinned()
		for within := place + 1; within < place+len(one.carcasses); within++ {
			if at, ok := pinned[within]; ok {
				return nil, at
			}
		}
		arranged = append(arranged, one)
		place += len(one.carcasses)
	}
	takePinned()
	return numberPlaces(arranged), -1
}

// markOverruled gives the judge's reason to each carcass that would stand elsewhere, or share its place, without it.
func markOverruled(blocks, arranged []block, pins []pin) []block {
	for i, one := range pins {
		others := slices.Delete(slices.Clone(pins), i, i+1)
		without, inTie := arrange(blocks, others)
		at := one.blockIn(arranged)
		if inTie < 0 {
			ruled := without[one.blockIn(without)]
			if ruled.place == one.place && len(ruled.carcasses) == 1 {
				arranged[at].byJudge = ruled.byJudge
				continue
			}
		}
		arranged[at].overruled = one.reason
	}
	return arranged
}

// tagsOf names carcasses by their tags.
func tagsOf(carcasses []*Graded) []string {
	var tags []string
	for _, carcass := range carcasses {
		tags = append(tags, carcass.called())
	}
	return tags
}
