package placing

import (
	"slices"
	"sort"

	"railbook/grading"
	"railbook/rules"
	"railbook/rules/measure"
)

// pairsSpoken is how many places are taken pair by pair where the rulebook names no places paid.
const pairsSpoken = 5

// Stands is how a carcass stands in its class, as a judge who gives reasons comes to it.
type Stands int

// The ways to stand. Of the first three the rest of Reason says no more than the carcass, or with whom it is level.
const (
	Overruling Stands = iota // against the rule, by the judge, whose own reason is said
	Alone                    // the only one placed
	Level                    // level with others, of whom more come
	Over                     // over the next place: Reason.Pair is of it and the next
	BelowMoney               // below the last that is paid: Reason.Pair is of that one and it
	Below                    // below the places taken pair by pair: Reason.Pair is of the one above and it
	Closing                  // last: Reason.Pair is of the one above and it
)

// Reason is why a carcass stands where it does, for a judge to say: what decided it, what else speaks for it, and what the other
// is granted. It comes of the keys that placed the carcasses; only what a judge sees besides (fat, ribeye) is granted without being a key.
type Reason struct {
	Placed Placed
	Stands Stands
	Tie    *Tie  // with whom it shares its place; nil for one that stands there alone
	Pair   *Pair // nil for one that overrules, is alone, or is level with more to come
	Last   bool  // the other of the pair is the last of the class
}

// Tie is a place that several carcasses share.
type Tie struct {
	Tied     []Placed // all of them where the carcass is the first; else the one before it and it
	First    bool
	On       []Said // the figures they share
	ForJudge bool   // the judge decides between them, and has not yet
}

// Said is a figure as a key compares it, with its unit.
type Said struct {
	Key  rules.Key
	Text string
}

// Deciding is what put one carcass over another.
type Deciding int

// What decides.
const (
	ByKey    Deciding = iota // a key of the ranking: Pair.Decided
	ByLimits                 // the lower one is outside limits of the class that the upper one meets: Pair.Limits
	ByRuling                 // the judge placed one of them against the rule
	ByJudge                  // the figures leave them level, and the judge put the upper one ahead
)

// Pair is how two carcasses of a class stand to each other.
type Pair struct {
	Upper, Lower Placed
	By           Deciding
	Decided      Difference   // the key that decided, ByKey
	Limits       []string     // the limits that the lower one fails, each in words, ByLimits
	Also         *Difference  // the next key on which the upper one is ahead as well
	Granted      []Difference // in what the lower one is ahead
}

// Difference is one measure on which two carcasses differ.
type Difference struct {
	Key          rules.Key // of a trait that nothing ranks by only its Measure
	Upper, Lower string    // their figures as they are compared, with the unit, in words that differ
	Lead         string    // of a trait: by how much the lower carcass is ahead, with the unit
}

// Reason drafts what a judge may say of the carcass at the index of Placed.
func (c *ClassPlacing) Reason(at int) Reason {
	placed := c.Placed[at]
	reason := Reason{Placed: placed}
	money := c.Rule.PlacesPaid
	if money == 0 {
		money = pairsSpoken
	}
	ranker := c.Ranker(placed.Book)
	next, follows := c.NextPlace(at)
	below := func(stands Stands, above Placed) {
		pair := ranker.pair(above, placed)
		reason.Stands, reason.Pair = stands, &pair
	}
	switch {
	case placed.Overruled != "":
		reason.Stands = Overruling
	case placed.Place > money && c.Rule.PlacesPaid > 0:
		below(BelowMoney, c.Placed[sort.Search(len(c.Placed), func(i int) bool { return c.Placed[i].Place > money })-1])
	case placed.Place > money:
		below(Below, c.Placed[c.firstOfPlace(at)-1])
	default:
		if placed.Shared {
			reason.Tie = ranker.tie(c.SharePlace(at), at-c.firstOfPlace(at))
		}
		switch more := at+1 < len(c.Placed) && c.Placed[at+1].Place == placed.Place; {
		case placed.Shared && (more || !follows):
			reason.Stands = Level
		case follows:
			pair := ranker.pair(placed, next)
			reason.Stands, reason.Pair, reason.Last = Over, &pair, c.Placed[len(c.Placed)-1].Graded == next.Graded
		case at == 0:
			reason.Stands = Alone
		default:
			below(Closing, c.Placed[at-1])
		}
	}
	return reason
}

// Ranker compares carcasses as the class was ranked.
func (c *ClassPlacing) Ranker(book *rules.Rulebook) *Ranker {
	return &Ranker{Book: book, Ranking: c.Ranking}
}

// NextPlace gives the first carcass of the place after that of the carcass at the index.
func (c *ClassPlacing) NextPlace(at int) (next Placed, follows bool) {
	for _, other := range c.Placed[at:] {
		if other.Place > c.Placed[at].Place {
			return other, true
		}
	}
	return next, false
}

// SharePlace gives the carcasses that share the place of the one at the index, itself among them.
func (c *ClassPlacing) SharePlace(at int) []Placed {
	first := c.firstOfPlace(at)
	end := at
	for end < len(c.Placed) && c.Placed[end].Place == c.Placed[at].Place {
		end++
	}
	return c.Placed[first:end]
}

func (c *ClassPlacing) firstOfPlace(at int) int {
	for at > 0 && c.Placed[at-1].Place == c.Placed[at].Place {
		at--
	}
	return at
}

// tie says with whom the carcass at the index of those that share a place shares it, and, once for all of them, on what figures.
func (r *Ranker) tie(tied []Placed, at int) *Tie {
	if at > 0 {
		return &Tie{Tied: tied[at-1 : at+1]}
	}
	tie := &Tie{Tied: tied, First: true, ForJudge: tied[at].JudgeTie}
	for i, key := range r.Ranking.Keys {
		value, missing := grading.FigureFor(tied[at].Graded, key.Measure, r.Book)
		if missing == "" && key.Orders() && value.Text != "" {
			tie.On = append(tie.On, r.Said(tied[at].Graded, i))
		}
	}
	return tie
}

// pair says how two carcasses of different places stand to each other.
func (r *Ranker) pair(upper, lower Placed) Pair {
	pair := Pair{Upper: upper, Lower: lower}
	decided := r.DecidedBy(upper, lower)
	switch {
	case lower.Overruled != "":
		pair.By = ByRuling
		return pair
	case lower.After() && !upper.After():
		pair.By, pair.Limits = ByLimits, lower.AfterWords()
		decided = -1
	case upper.Overruled != "":
		pair.By = ByRuling
		return pair
	case decided < 0:
		pair.By = ByJudge
		return pair
	default:
		pair.Decided = r.difference(upper.Graded, lower.Graded, r.Ranking.Keys[decided])
	}
	for at := decided + 1; decided >= 0 && at < len(r.Ranking.Keys) && pair.Also == nil; at++ {
		if r.ahead(upper.Graded, lower.Graded, at) {
			also := r.difference(upper.Graded, lower.Graded, r.Ranking.Keys[at])
			pair.Also = &also
		}
	}
	pair.Granted = r.granted(upper.Graded, lower.Graded, decided+1)
	return pair
}

// ahead reports whether a carcass is ahead of another on a key that orders, by more than vanishes in print.
func (r *Ranker) ahead(a, b *grading.Graded, at int) bool {
	order, ok := r.compare(a, b, at)
	return ok && order > 0 && r.Ranking.Keys[at].Orders() && r.worthSaying(a, b, at)
}

// worthSaying reports whether two carcasses still differ on a key when it is printed with its measure's own decimals. What
// differs by less may decide a place; it is nothing to speak for or to grant.
func (r *Ranker) worthSaying(a, b *grading.Graded, at int) bool {
	id := r.Ranking.Keys[at].Measure
	first, _ := grading.FigureFor(a, id, r.Book)
	second, _ := grading.FigureFor(b, id, r.Book)
	return grading.Say(id, first) != grading.Say(id, second)
}

// mostGranted is how many advantages the lower carcass is granted.
const mostGranted = 2

// granted gives in what the lower carcass is ahead: by the keys from the index on, and to the eye.
func (r *Ranker) granted(upper, lower *grading.Graded, from int) []Difference {
	var granted []Difference
	for at := from; at < len(r.Ranking.Keys); at++ {
		if r.ahead(lower, upper, at) {
			granted = append(granted, r.difference(upper, lower, r.Ranking.Keys[at]))
		}
	}
	for _, trait := range seenTraits {
		ranked := slices.ContainsFunc(r.Ranking.Keys, func(key rules.Key) bool { return key.Measure == trait.measure })
		own, ok := lower.Figure(trait.measure)
		other, alsoOK := upper.Figure(trait.measure)
		if ranked || !ok || !alsoOK {
			continue
		}
		if trait.lower {
			own, other = other, own
		}
		lead := own.Number.Sub(other.Number)
		if measure.Round(lead, int32(grading.DefinitionOf(trait.measure).Decimals)).IsPositive() {
			granted = append(granted, Difference{Key: rules.Key{Measure: trait.measure}, Lead: grading.SayNumber(trait.measure, lead)})
		}
	}
	return granted[:min(mostGranted, len(granted))]
}

// seenTraits are what a judge sees and grants by its difference, where the rule does not rank by it. Of fat the lower is
// granted, of muscle the higher.
var seenTraits = []struct {
	measure measure.ID
	lower   bool
}{
	{measure.AdjustedFat, true},
	{measure.TenthRibFat, true},
	{measure.RibeyeArea, false},
	{measure.LoinMuscleArea, false},
}

// Difference gives the figures of two carcasses on the key at the index, as they are compared.
func (r *Ranker) Difference(upper, lower *grading.Graded, at int) Difference {
	return r.difference(upper, lower, r.Ranking.Keys[at])
}

func (r *Ranker) difference(upper, lower *grading.Graded, key rules.Key) Difference {
	difference := Difference{Key: key}
	difference.Upper, difference.Lower = r.sayKey(upper, lower, key)
	return difference
}

// Said gives a carcass's figure of the key at the index, as it is compared.
func (r *Ranker) Said(carcass *grading.Graded, at int) Said {
	text, _ := r.sayKey(carcass, carcass, r.Ranking.Keys[at])
	return Said{r.Ranking.Keys[at], text}
}

// BothAt gives the last key before the one at the index on which two carcasses were level; known is false where there is none.
func (r *Ranker) BothAt(carcass *grading.Graded, at int) (said Said, known bool) {
	for before := at - 1; before >= 0; before-- {
		if r.Ranking.Keys[before].Orders() {
			return r.Said(carcass, before), true
		}
	}
	return said, false
}

// sayKey gives two carcasses' figures of a key as they are compared, in words that differ where the figures do.
func (r *Ranker) sayKey(a, b *grading.Graded, key rules.Key) (first, second string) {
	valueA, _ := grading.FigureFor(a, key.Measure, r.Book)
	valueB, _ := grading.FigureFor(b, key.Measure, r.Book)
	if grading.DefinitionOf(key.Measure).Kind != measure.KindNumber {
		return valueA.Text, valueB.Text
	}
	if key.Decimals.Valid {
		places := int32(key.Decimals.Decimal.IntPart())
		return grading.WithUnit(key.Measure, grading.Fixed(key.Measure, comparedFigure(valueA.Number, key), places)),
			grading.WithUnit(key.Measure, grading.Fixed(key.Measure, comparedFigure(valueB.Number, key), places))
	}
	return grading.SayApart(key.Measure, valueA.Number, valueB.Number)
}
