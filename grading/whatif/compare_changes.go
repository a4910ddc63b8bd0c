package whatif

import (
	"slices"

	"railbook/grading"
	"railbook/grading/placing"
	"railbook/rules"
	"railbook/rules/measure"
)

// PriceChange is one thing that makes a carcass's price another than it was.
type PriceChange struct {
	Kind     PriceChangeKind
	Old, New grading.PriceStep
	Why      string // why there is no price, or was none
}

// PriceChangeKind says which of a price change's fields are filled.
type PriceChangeKind int

// The kinds of a price change.
const (
	HeldNow     PriceChangeKind = iota // on hold, and without a price
	HeldBefore                         // it was on hold, and without a price
	NoPriceNow                         // Why
	PricedNow                          // Why there was none
	StepAdded                          // New
	StepChanged                        // Old and New, of one part of the grid
	StepGone                           // Old
)

// priceChanges gives, part by part, what makes a carcass's price another than it was.
func priceChanges(old, new Outcome) []PriceChange {
	switch {
	case new.Held:
		return []PriceChange{{Kind: HeldNow}}
	case old.Held:
		return []PriceChange{{Kind: HeldBefore}}
	case !new.Price.Valid:
		return []PriceChange{{Kind: NoPriceNow, Why: new.FigureOf(measure.Price).Missing}}
	case !old.Price.Valid:
		return []PriceChange{{Kind: PricedNow, Why: old.FigureOf(measure.Price).Missing}}
	}
	var changes []PriceChange
	was := old.Graded.PriceSteps()
	for _, step := range new.Graded.PriceSteps() {
		at := slices.IndexFunc(was, func(priced grading.PriceStep) bool {
			return priced.Part == step.Part && (step.Part != rules.ConditionPart && step.Part != rules.PremiumPart || priced.Words == step.Words)
		})
		if at < 0 {
			changes = append(changes, PriceChange{Kind: StepAdded, New: step})
			continue
		}
		before := was[at]
		was = slices.Delete(was, at, at+1)
		if !before.Adjust.Number.Equal(step.Adjust.Number) {
			changes = append(changes, PriceChange{Kind: StepChanged, Old: before, New: step})
		}
	}
	for _, gone := range was {
		changes = append(changes, PriceChange{Kind: StepGone, Old: gone})
	}
	return changes
}

// Passing is the carcass that tells why another stands elsewhere.
type Passing struct {
	Kind  PassingKind
	Other *grading.Graded
	Over  *Over // what puts one of the two over the other now; nil where they are level, or one of them was or is not placed
}

// PassingKind says what came between two carcasses.
type PassingKind int

// The kinds of a passing, by the carcass that moved.
const (
	Passes   PassingKind = iota // it passes the other
	PassedBy                    // the other passes it
	Parted                      // it is no longer level with the other
	Joined                      // it is level with the other now
	Came                        // the other, which stood elsewhere or nowhere, is placed ahead of it
	Gone                        // the other is no longer placed
)

// Over is what puts one carcass over another under the new rulebook.
type Over struct {
	Upper, Lower *grading.Graded
	Limits       []string        // the limits that the lower one fails and the upper one does not; none where no limit decides
	Ranker       *placing.Ranker // how the class is ranked
	Key          int             // the index of the key that decides; −1 where the judge does
	Causes       []Cause         // where the key is money: what changed of it
}

// Cause is what changed the price of one of two carcasses.
type Cause struct {
	Of      *grading.Graded
	Changes []PriceChange
}

// passing finds the carcass whose passing tells why this one stands elsewhere: the nearest it passed where it went up,
// the nearest that passed it where it went down; else one it is level with no more, or now; else who came or went. It is nil where
// none tells it, or the carcass was or is not placed.
func passing(carcass *grading.Carcass, before, after standings) *Passing {
	was, is := before.of(carcass), after.of(carcass)
	if was.WhyNotPlaced != "" || is.WhyNotPlaced != "" {
		return nil
	}
	var passed, passedBy, parted, joined, came, gone *grading.Graded
	for _, other := range is.class.Placed {
		old := before.of(other.Carcass)
		if other.Sequence == carcass.Sequence || old.class == nil {
			continue
		}
		together := old.Place > 0 && old.class == was.class
		switch {
		case together && old.Place < was.Place && other.Place > is.Place && passed == nil:
			passed = other.Graded
		case together && old.Place > was.Place && other.Place < is.Place:
			passedBy = other.Graded
		case together && old.Place == was.Place && other.Place != is.Place:
			parted = other.Graded
		case together && old.Place != was.Place && other.Place == is.Place:
			joined = other.Graded
		case !together && other.Place <= is.Place:
			came = other.Graded
		}
	}
	for _, other := range was.class.Placed {
		if after.of(other.Carcass).WhyNotPlaced != "" && other.Place <= was.Place && other.Sequence != carcass.Sequence {
			gone = other.Graded
		}
	}
	found := func(kind PassingKind, other, upper, lower *grading.Graded) *Passing {
		return &Passing{Kind: kind, Other: other, Over: overNow(upper, lower, is, before, after)}
	}
	switch up := is.Place < was.Place; {
	case up && passed != nil:
		return found(Passes, passed, is.Graded, passed)
	case !up && passedBy != nil:
		return found(PassedBy, passedBy, passedBy, is.Graded)
	case parted != nil && after.of(parted.Carcass).Place > is.Place:
		return found(Parted, parted, is.Graded, parted)
	case parted != nil:
		return found(Parted, parted, parted, is.Graded)
	case joined != nil:
		return &Passing{Kind: Joined, Other: joined}
	case came != nil && !up:
		return &Passing{Kind: Came, Other: came}
	case gone != nil:
		return &Passing{Kind: Gone, Other: gone}
	case passed != nil:
		return found(Passes, passed, is.Graded, passed)
	default:
		return nil
	}
}

// overNow gives what puts one carcass over another under the new rulebook.
func overNow(upper, lower *grading.Graded, is standing, before, after standings) *Over {
	over := &Over{Upper: upper, Lower: lower, Ranker: is.class.Ranker(is.Graded.Book)}
	if under := after.of(lower.Carcass); under.After && !after.of(upper.Carcass).After {
		over.Limits = under.Fails
		return over
	}
	over.Key = over.Ranker.FirstDifference(upper, lower)
	if over.Key < 0 || !placing.OfMoney(over.Ranker.Ranking.Keys[over.Key].Measure) {
		return over
	}
	for _, graded := range []*grading.Graded{upper, lower} {
		if changes := priceChanges(before.of(graded.Carcass).Outcome, after.of(graded.Carcass).Outcome); len(changes) > 0 {
			over.Causes = append(over.Causes, Cause{graded, changes})
		}
	}
	return over
}
