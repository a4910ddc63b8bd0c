package grading

import (
	"fmt"
	"slices"
	"strings"

	"railbook/rules"
	"railbook/rules/measure"
)

// spokenPairs is how many places are taken pair by pair where the rulebook names no places paid.
const spokenPairs = 5

// draftReasons drafts what a judge may say of each place: what decided it over the next, what the lower carcass is
// granted, and why those below the money stand there. The reasons come from the keys that placed the carcasses; only
// what a judge sees besides (fat, ribeye) is granted without being a key.
func (r *ranker) draftReasons(placing *ClassPlacing, fails map[*Graded]failures) {
	money := placing.Rule.PlacesPaid
	if money == 0 {
		money = spokenPairs
	}
	for i := range placing.Placed {
		one := &placing.Placed[i]
		switch next, follows := nextPlace(placing.Placed, i); {
		case one.Overruled != "":
			one.Reasons = fmt.Sprintf("I place %s %s: %s.", one.called(), ordinal(one.Place), strings.TrimRight(one.Overruled, ". "))
		case one.Place > money:
			one.Reasons = r.belowTheMoney(placing, i, money, fails)
		case one.Shared && one.Place != placeAfter(placing.Placed, i):
			one.Reasons = r.levelReason(placing.Placed, i)
			if follows {
				one.Reasons += " " + r.pairReason(*one, next, opening(placing.Placed, i, next), fails)
			}
		case one.Shared:
			one.Reasons = r.levelReason(placing.Placed, i)
		case follows:
			one.Reasons = r.pairReason(*one, next, opening(placing.Placed, i, next), fails)
		default:
			one.Reasons = r.lastReason(placing.Placed, i, fails)
		}
		if placing.Basis == rules.LiveScan && one.Overruled == "" {
			one.Reasons = ofLiveAnimals.Replace(one.Reasons)
		}
	}
}

// ofLiveAnimals calls those that were scanned what they are: "the leaner animal".
var ofLiveAnimals = strings.NewReplacer("er carcass", "er animal")

// nextPlace gives the first carcass of the next place.
func nextPlace(placed []Placed, at int) (next Placed, follows bool) {
	for _, other := range placed[at:] {
		if other.Place > placed[at].Place {
			return other, true
		}
	}
	return next, false
}

// placeAfter gives the place of the carcass listed next; 0 for the last.
func placeAfter(placed []Placed, at int) int {
	if at+1 < len(placed) {
		return placed[at+1].Place
	}
	return 0
}

// opening begins the reason of a pair by where in the class it stands.
func opening(placed []Placed, at int, next Placed) string {
	upper, lower := placed[at].called(), next.called()
	switch last := placed[len(placed)-1].Graded == next.Graded; {
	case placed[at].Place == 1:
		return "I start with " + upper + " over " + lower + ": "
	case last:
		return "To finish I place " + upper + " over " + lower + ": "
	case placed[at].Place%2 == 0:
		return sentenceStart(upper) + " follows in " + ordinal(placed[at].Place) + " over " + lower + ": "
	default:
		return "I place " + upper + " " + ordinal(placed[at].Place) + " over " + lower + ": "
	}
}

// pairReason says what put the upper carcass over the lower, what else speaks for it, and what the lower is granted.
func (r *ranker) pairReason(upper, lower Placed, opening string, fails map[*Graded]failures) string {
	decided := r.firstDifference(upper.Graded, lower.Graded)
	var text string
	switch {
	case lower.Overruled != "":
		return opening + lower.called() + " is placed " + ordinal(lower.Place) + " on the judge's own decision."
	case fails[lower.Graded].after() && !fails[upper.Graded].after():
		text = opening + lower.called() + " falls outside the limits of the class (" +
			strings.Join(fails[lower.Graded].of(rules.FailAfter).words(), "; ") + ")."
		decided = -1
	case decided < 0:
		return opening + "the figures leave them level, and the judge put " + upper.called() + " ahead."
	default:
		text = opening + r.claim(upper.Graded, lower.Graded, decided, true) + "."
	}
	for at := decided + 1; decided >= 0 && at < len(r.ranking.Keys); at++ {
		if order, ok := r.compare(upper.Graded, lower.Graded, at); ok && order > 0 && r.orders(at) && r.worthSaying(upper.Graded, lower.Graded, at) {
			text += " " + also(r.spoken(upper.Graded, lower.Graded, at, true)) + "."
			break
		}
	}
	return text + r.granted(upper.Graded, lower.Graded, decided+1)
}

// also makes a further sentence of what a carcass has.
func also(words string) string {
	if rest, is := strings.CutPrefix(words, "is "); is {
		return "It is also " + rest
	}
	return "It also " + words
}

// orders reports whether a key is more than a yes or no.
func (r *ranker) orders(at int) bool {
	prefer := r.ranking.Keys[at].Prefer
	return prefer == rules.Highest || prefer == rules.Lowest
}

// worthSaying reports whether two carcasses still differ on a key when it is printed with its measure's own decimals. What
// differs by less may decide a place; it is nothing to speak for or to grant.
func (r *ranker) worthSaying(one, other *Graded, at int) bool {
	id := r.ranking.Keys[at].Measure
	first, _ := figureFor(one, id, r.book)
	second, _ := figureFor(other, id, r.book)
	return say(id, first) != say(id, second)
}

// claim says of one carcass what it has over another, or lacks against it, on a key.
func (r *ranker) claim(subject, other *Graded, at int, ahead bool) string {
	if r.orders(at) {
		return "it " + r.spoken(subject, other, at, ahead)
	}
	key := r.ranking.Keys[at]
	own, others := r.sayKey(subject, other, key)
	words := map[rules.Prefer]speech{
		rules.PassAtMost:  {"its %s of %s keeps within the rule's %s, and %s's %s does not", "its %s of %s is past the rule's %s, and %s's %s is not"},
		rules.PassAtLeast: {"its %s of %s reaches the rule's %s, and %s's %s does not", "its %s of %s is short of the rule's %s, and %s's %s is not"},
	}[key.Prefer]
	form := words.behind
	if ahead {
		form = words.ahead
	}
	return fmt.Sprintf(form, keyWords(key), own, sayNumber(key.Measure, key.Bound.Decimal), other.called(), others)
}

// spoken puts two carcasses' figures of a key into a judge's words.
func (r *ranker) spoken(subject, other *Graded, at int, ahead bool) string {
	key := r.ranking.Keys[at]
	own, others := r.sayBoth(subject, other, key)
	words := speechFor(key)
	if ahead {
		return fmt.Sprintf(words.ahead, own, others)
	}
	return fmt.Sprintf(words.behind, own, other.called()+"'s "+others)
}

// granted says in what the lower carcass is ahead: by the keys that were not asked any more, and to the eye. At most
// two advantages are granted.
func (r *ranker) granted(upper, lower *Graded, from int) string {
	var grants []string
	named := map[measure.ID]bool{}
	for at := range r.ranking.Keys {
		key := r.ranking.Keys[at]
		named[key.Measure] = true
		if order, ok := r.compare(lower, upper, at); at >= from && ok && order > 0 && r.orders(at) && r.worthSaying(lower, upper, at) {
			grants = append(grants, r.spoken(lower, upper, at, true))
		}
	}
	for _, trait := range spokenTraits {
		own, missing := figureFor(lower, trait.measure, r.book)
		other, alsoMissing := figureFor(upper, trait.measure, r.book)
		if named[trait.measure] || missing != "" || alsoMissing != "" {
			continue
		}
		lead := own.Number.Sub(other.Number)
		if trait.lower {
			lead = lead.Neg()
		}
		if lead.Round(int32(definitionOf(trait.measure).Decimals)).IsPositive() {
			grants = append(grants, fmt.Sprintf(trait.words, sayNumber(trait.measure, lead)))
		}
	}
	if len(grants) == 0 {
		return ""
	}
	const most = 2
	return " I grant that " + lower.called() + " " + strings.Join(grants[:min(most, len(grants))], ", and ") + "."
}

// levelReason says on what the carcasses of a shared place are level, once for all of them.
func (r *ranker) levelReason(placed []Placed, at int) string {
	var tags []string
	for _, other := range placed {
		if other.Place == placed[at].Place {
			tags = append(tags, other.called())
		}
	}
	if at > 0 && placed[at-1].Place == placed[at].Place {
		return sentenceStart(placed[at].called()) + " shares " + ordinal(placed[at].Place) + " with " + placed[at-1].called() + "."
	}
	text := sentenceStart(joinAnd(few(tags))) + " are level in " + ordinal(placed[at].Place)
	var level []string
	for i, key := range r.ranking.Keys {
		value, missing := figureFor(placed[at].Graded, key.Measure, r.book)
		if missing != "" || !r.orders(i) {
			continue
		}
		words, _ := r.sayKey(placed[at].Graded, placed[at].Graded, key)
		if definitionOf(key.Measure).Kind != measure.KindGrade {
			words = keyWords(key) + " " + words
		}
		if value.Text != "" {
			level = append(level, words)
		}
	}
	if len(level) > 0 {
		text += " at " + joinAnd(level)
	}
	if placed[at].JudgeTie {
		return text + ", and the judge decides between them."
	}
	return text + ", and share the place."
}

// belowTheMoney says what a carcass lacks against the last that is paid, or against the one above it where no places
// paid are named.
func (r *ranker) belowTheMoney(placing *ClassPlacing, at, money int, fails map[*Graded]failures) string {
	one := placing.Placed[at]
	above := slices.IndexFunc(placing.Placed, func(other Placed) bool { return other.Place > money }) - 1
	where := " stands below the money: "
	if placing.Rule.PlacesPaid == 0 {
		for above = at; placing.Placed[above].Place == one.Place; {
			above--
		}
		where = " stands " + ordinal(one.Place) + ": "
	}
	return sentenceStart(one.called()) + where + r.lacking(one, placing.Placed[above], fails)
}

// lastReason closes the class.
func (r *ranker) lastReason(placed []Placed, at int, fails map[*Graded]failures) string {
	if at == 0 {
		return sentenceStart(placed[at].called()) + " is the only carcass placed."
	}
	return sentenceStart(placed[at].called()) + " closes the class: " + r.lacking(placed[at], placed[at-1], fails)
}

// lacking says what a carcass lacks against one above it, and what it is granted.
func (r *ranker) lacking(one, above Placed, fails map[*Graded]failures) string {
	decided := r.firstDifference(above.Graded, one.Graded)
	switch {
	case fails[one.Graded].after() && !fails[above.Graded].after():
		return "it falls outside the limits of the class (" + strings.Join(fails[one.Graded].of(rules.FailAfter).words(), "; ") + ")."
	case above.Overruled != "":
		return above.called() + " is placed " + ordinal(above.Place) + " on the judge's own decision."
	case decided < 0:
		return "the figures leave it level with " + above.called() + ", which the judge put ahead."
	default:
		return r.claim(one.Graded, above.Graded, decided, false) + "." +
			r.granted(above.Graded, one.Graded, decided+1)
	}
}
