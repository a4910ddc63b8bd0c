package placing

import (
	"fmt"
	"slices"
	"strings"

	"railbook/grading"
	"railbook/rules"
	"railbook/rules/measure"
	"railbook/rules/phrase"
)

// spokenPairs is how many places are taken pair by pair where the rulebook names no places paid.
const spokenPairs = 5

// draftReasons drafts what a judge may say of each place: what decided it over the next, what the lower carcass is
// granted, and why those below the money stand there. The reasons come from the keys that placed the carcasses; only
// what a judge sees besides (fat, ribeye) is granted without being a key.
func (r *Ranker) draftReasons(placing *ClassPlacing) {
	money := placing.Rule.PlacesPaid
	if money == 0 {
		money = spokenPairs
	}
	for i := range placing.Placed {
		placed := &placing.Placed[i]
		switch next, follows := nextPlace(placing.Placed, i); {
		case placed.Overruled != "":
			placed.Reasons = fmt.Sprintf("I place %s %s: %s.", placed.Called(), phrase.Ordinal(placed.Place), strings.TrimRight(placed.Overruled, ". "))
		case placed.Place > money:
			placed.Reasons = r.belowTheMoney(placing, i, money)
		case placed.Shared && placed.Place != placeAfter(placing.Placed, i):
			placed.Reasons = r.levelReason(placing.Placed, i)
			if follows {
				placed.Reasons += " " + r.pairReason(*placed, next, opening(placing.Placed, i, next))
			}
		case placed.Shared:
			placed.Reasons = r.levelReason(placing.Placed, i)
		case follows:
			placed.Reasons = r.pairReason(*placed, next, opening(placing.Placed, i, next))
		default:
			placed.Reasons = r.lastReason(placing.Placed, i)
		}
		if placing.Basis == rules.LiveScan && placed.Overruled == "" {
			placed.Reasons = ofLiveAnimals.Replace(placed.Reasons)
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
	upper, lower := placed[at].Called(), next.Called()
	switch last := placed[len(placed)-1].Graded == next.Graded; {
	case placed[at].Place == 1:
		return "I start with " + upper + " over " + lower + ": "
	case last:
		return "To finish I place " + upper + " over " + lower + ": "
	case placed[at].Place%2 == 0:
		return phrase.Capital(upper) + " follows in " + phrase.Ordinal(placed[at].Place) + " over " + lower + ": "
	default:
		return "I place " + upper + " " + phrase.Ordinal(placed[at].Place) + " over " + lower + ": "
	}
}

// pairReason says what put the upper carcass over the lower, what else speaks for it, and what the lower is granted.
func (r *Ranker) pairReason(upper, lower Placed, opening string) string {
	decided := r.FirstDifference(upper.Graded, lower.Graded)
	var text string
	switch {
	case lower.Overruled != "":
		return opening + lower.Called() + " is placed " + phrase.Ordinal(lower.Place) + " on the judge's own decision."
	case lower.fails.After() && !upper.fails.After():
		text = opening + lower.Called() + " falls outside the limits of the class (" +
			strings.Join(lower.fails.of(rules.FailAfter).words(), "; ") + ")."
		decided = -1
	case decided < 0:
		return opening + "the figures leave them level, and the judge put " + upper.Called() + " ahead."
	default:
		text = opening + r.claim(upper.Graded, lower.Graded, decided, true) + "."
	}
	for at := decided + 1; decided >= 0 && at < len(r.Ranking.Keys); at++ {
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
func (r *Ranker) orders(at int) bool {
	prefer := r.Ranking.Keys[at].Prefer
	return prefer == rules.Highest || prefer == rules.Lowest
}

// worthSaying reports whether two carcasses still differ on a key when it is printed with its measure's own decimals. What
// differs by less may decide a place; it is nothing to speak for or to grant.
func (r *Ranker) worthSaying(a, b *grading.Graded, at int) bool {
	id := r.Ranking.Keys[at].Measure
	first, _ := grading.FigureFor(a, id, r.Book)
	second, _ := grading.FigureFor(b, id, r.Book)
	return grading.Say(id, first) != grading.Say(id, second)
}

// claim says of one carcass what it has over another, or lacks against it, on a key.
func (r *Ranker) claim(subject, other *grading.Graded, at int, ahead bool) string {
	if r.orders(at) {
		return "it " + r.spoken(subject, other, at, ahead)
	}
	key := r.Ranking.Keys[at]
	own, others := r.sayKey(subject, other, key)
	words := map[rules.Prefer]speech{
		rules.PassAtMost:  {"its %s of %s keeps within the rule's %s, and %s's %s does not", "its %s of %s is past the rule's %s, and %s's %s is not"},
		rules.PassAtLeast: {"its %s of %s reaches the rule's %s, and %s's %s does not", "its %s of %s is short of the rule's %s, and %s's %s is not"},
	}[key.Prefer]
	form := words.behind
	if ahead {
		form = words.ahead
	}
	return fmt.Sprintf(form, grading.KeyWords(key), own, grading.SayNumber(key.Measure, key.Bound.Decimal), other.Called(), others)
}

// spoken puts two carcasses' figures of a key into a judge's words.
func (r *Ranker) spoken(subject, other *grading.Graded, at int, ahead bool) string {
	key := r.Ranking.Keys[at]
	own, others := r.sayBoth(subject, other, key)
	words := speechFor(key)
	if ahead {
		return fmt.Sprintf(words.ahead, own, others)
	}
	return fmt.Sprintf(words.behind, own, other.Called()+"'s "+others)
}

// granted says in what the lower carcass is ahead: by the keys that were not asked any more, and to the eye. At most
// two advantages are granted.
func (r *Ranker) granted(upper, lower *grading.Graded, from int) string {
	var grants []string
	named := map[measure.ID]bool{}
	for at := range r.Ranking.Keys {
		key := r.Ranking.Keys[at]
		named[key.Measure] = true
		if order, ok := r.compare(lower, upper, at); at >= from && ok && order > 0 && r.orders(at) && r.worthSaying(lower, upper, at) {
			grants = append(grants, r.spoken(lower, upper, at, true))
		}
	}
	for _, trait := range spokenTraits {
		own, missing := grading.FigureFor(lower, trait.measure, r.Book)
		other, alsoMissing := grading.FigureFor(upper, trait.measure, r.Book)
		if named[trait.measure] || missing != "" || alsoMissing != "" {
			continue
		}
		lead := own.Number.Sub(other.Number)
		if trait.lower {
			lead = lead.Neg()
		}
		if lead.Round(int32(grading.DefinitionOf(trait.measure).Decimals)).IsPositive() {
			grants = append(grants, fmt.Sprintf(trait.words, grading.SayNumber(trait.measure, lead)))
		}
	}
	if len(grants) == 0 {
		return ""
	}
	const most = 2
	return " I grant that " + lower.Called() + " " + strings.Join(grants[:min(most, len(grants))], ", and ") + "."
}

// levelReason says on what the carcasses of a shared place are level, once for all of them.
func (r *Ranker) levelReason(placed []Placed, at int) string {
	var tags []string
	for _, other := range placed {
		if other.Place == placed[at].Place {
			tags = append(tags, other.Called())
		}
	}
	if at > 0 && placed[at-1].Place == placed[at].Place {
		return phrase.Capital(placed[at].Called()) + " shares " + phrase.Ordinal(placed[at].Place) + " with " + placed[at-1].Called() + "."
	}
	text := phrase.Capital(phrase.JoinAnd(phrase.Few(tags))) + " are level in " + phrase.Ordinal(placed[at].Place)
	var level []string
	for i, key := range r.Ranking.Keys {
		value, missing := grading.FigureFor(placed[at].Graded, key.Measure, r.Book)
		if missing != "" || !r.orders(i) {
			continue
		}
		words, _ := r.sayKey(placed[at].Graded, placed[at].Graded, key)
		if grading.DefinitionOf(key.Measure).Kind != measure.KindGrade {
			words = grading.KeyWords(key) + " " + words
		}
		if value.Text != "" {
			level = append(level, words)
		}
	}
	if len(level) > 0 {
		text += " at " + phrase.JoinAnd(level)
	}
	if placed[at].JudgeTie {
		return text + ", and the judge decides between them."
	}
	return text + ", and share the place."
}

// belowTheMoney says what a carcass lacks against the last that is paid, or against the one above it where no places
// paid are named.
func (r *Ranker) belowTheMoney(placing *ClassPlacing, at, money int) string {
	placed := placing.Placed[at]
	above := slices.IndexFunc(placing.Placed, func(other Placed) bool { return other.Place > money }) - 1
	where := " stands below the money: "
	if placing.Rule.PlacesPaid == 0 {
		for above = at; placing.Placed[above].Place == placed.Place; {
			above--
		}
		where = " stands " + phrase.Ordinal(placed.Place) + ": "
	}
	return phrase.Capital(placed.Called()) + where + r.lacking(placed, placing.Placed[above])
}

// lastReason closes the class.
func (r *Ranker) lastReason(placed []Placed, at int) string {
	if at == 0 {
		return phrase.Capital(placed[at].Called()) + " is the only carcass placed."
	}
	return phrase.Capital(placed[at].Called()) + " closes the class: " + r.lacking(placed[at], placed[at-1])
}

// lacking says what a carcass lacks against one above it, and what it is granted.
func (r *Ranker) lacking(placed, above Placed) string {
	decided := r.FirstDifference(above.Graded, placed.Graded)
	switch {
	case placed.fails.After() && !above.fails.After():
		return "it falls outside the limits of the class (" + strings.Join(placed.fails.of(rules.FailAfter).words(), "; ") + ")."
	case above.Overruled != "":
		return above.Called() + " is placed " + phrase.Ordinal(above.Place) + " on the judge's own decision."
	case decided < 0:
		return "the figures leave it level with " + above.Called() + ", which the judge put ahead."
	default:
		return r.claim(placed.Graded, above.Graded, decided, false) + "." +
			r.granted(above.Graded, placed.Graded, decided+1)
	}
}
