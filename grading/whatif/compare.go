package whatif

import (
	"cmp"
	"slices"

	"railbook/grading"
	"railbook/grading/placing"
	"railbook/rules"
	"railbook/rules/measure"

	"github.com/shopspring/decimal"
)

// Comparison is what one rulebook does against another to the same carcasses.
type Comparison struct {
	Classes   []ClassComparison
	OldAll    Tally // over every class
	NewAll    Tally
	OldUnused []Unused
	NewUnused []Unused
}

// ClassComparison is one class of a fair, one species and basis, under both rulebooks.
type ClassComparison struct {
	Class    string
	Species  rules.Species
	Basis    rules.Basis
	Rows     []Compared // in the order of the new places, then those not placed
	Old, New Tally
}

// Compared is one carcass under both rulebooks.
type Compared struct {
	*grading.Carcass
	Old, New     Outcome
	PriceChanges []PriceChange // what changed its price; nil where the price is the same
	Passing      *Passing      // by whom it stands elsewhere; nil where it stands as it did, or no other carcass tells
}

// Outcome is what became of a carcass under one rulebook.
type Outcome struct {
	*grading.Graded
	Place        int // 0 where it is not placed
	Shared       bool
	JudgeTie     bool
	Paid         bool
	Group        string
	Awards       []string
	Fails        []string // limits it fails that leave it in the class
	WhyNotPlaced string   // why it is not placed; empty where it is
	Held         bool     // it is on hold: its figures can't be relied on, so that no price of it is counted
	After        bool     // it is placed after those that pass
	Price        decimal.NullDecimal
	Value        decimal.NullDecimal
}

// Eligible reports whether the carcass meets the limits on placing.
func (o Outcome) Eligible() bool { return o.WhyNotPlaced == "" && !o.After }

// Moved reports whether the carcass's place, group or awards are not what they were.
func (c Compared) Moved() bool {
	return c.Old.Place != c.New.Place || c.Old.Shared != c.New.Shared || c.Old.JudgeTie != c.New.JudgeTie ||
		(c.Old.WhyNotPlaced == "") != (c.New.WhyNotPlaced == "") || c.Old.Paid != c.New.Paid || c.Old.Group != c.New.Group ||
		!slices.Equal(c.Old.Awards, c.New.Awards)
}

// Repriced reports whether the carcass's price or value is not what it was.
func (c Compared) Repriced() bool {
	return !sameNull(c.Old.Price, c.New.Price) || !sameNull(c.Old.Value, c.New.Value)
}

func sameNull(a, b decimal.NullDecimal) bool {
	return a.Valid == b.Valid && (!a.Valid || a.Decimal.Equal(b.Decimal))
}

// Side is one of the rulebooks that are compared, with all the carcasses graded by it and what keeps them from competing
// under it. A carcass is found again on the other side by its Sequence, which is its place in the list. No judge ruled on either.
type Side struct {
	Book     *rules.Rulebook
	Entrants []*placing.Entrant
}

// Compare places the same carcasses under both rulebooks.
func Compare(old, new Side) Comparison {
	var comparison Comparison
	before, wasPlaced := outcomes(old)
	after, isPlaced := outcomes(new)
	for _, class := range compareClasses(old.Entrants) {
		whole := ClassComparison{Class: class.Name, Species: class.Species, Basis: class.Basis}
		var was, is []Outcome
		for _, entered := range class.Carcasses {
			row := Compared{Carcass: entered.Carcass, Old: before.of(entered.Carcass).Outcome, New: after.of(entered.Carcass).Outcome}
			was, is = append(was, row.Old), append(is, row.New)
			if row.Repriced() {
				row.PriceChanges = priceChanges(row.Old, row.New)
			}
			if row.Moved() {
				row.Passing = passing(entered.Carcass, before, after)
			}
			whole.Rows = append(whole.Rows, row)
		}
		slices.SortStableFunc(whole.Rows, func(a, b Compared) int {
			return cmp.Or(cmp.Compare(placedFirst(a.New), placedFirst(b.New)), cmp.Compare(placedFirst(a.Old), placedFirst(b.Old)))
		})
		whole.Old, whole.New = tallyOf(was, wasPlaced.Classes, old.Book), tallyOf(is, isPlaced.Classes, new.Book)
		comparison.OldAll, comparison.NewAll = comparison.OldAll.Plus(whole.Old), comparison.NewAll.Plus(whole.New)
		comparison.Classes = append(comparison.Classes, whole)
	}
	comparison.OldUnused, comparison.NewUnused = unused(before, old.Book), unused(after, new.Book)
	return comparison
}

// placedFirst puts carcasses that are not placed behind all that are.
func placedFirst(o Outcome) int {
	if o.Place == 0 {
		return int(^uint(0) >> 1)
	}
	return o.Place
}

// compareClasses gathers the carcasses by what the sheets call their class, so that both rulebooks' classes face each
// other whatever they are named.
func compareClasses(carcasses []*placing.Entrant) []placing.Entries {
	var bare []*grading.Graded
	for _, carcass := range carcasses {
		bare = append(bare, &grading.Graded{Carcass: carcass.Carcass})
	}
	return placing.SortIntoClasses(placing.Entered(bare), &rules.Rulebook{})
}

// standing is an outcome with the class it is in.
type standing struct {
	Outcome
	class *placing.ClassPlacing
	at    int // its index among those placed; −1 where it is not
}

// standings are the outcomes of all carcasses under one rulebook, each at its Sequence.
type standings []standing

func (s standings) of(carcass *grading.Carcass) standing { return s[carcass.Sequence] }

// outcomes places the carcasses under one rulebook.
func outcomes(side Side) (standings, placing.Placings) {
	placings := placing.PlaceClasses(side.Entrants, nil, side.Book)
	found := make(standings, len(side.Entrants))
	for _, list := range placings.Awards {
		for _, winner := range list.Winners {
			found[winner.Sequence].Awards = append(found[winner.Sequence].Awards, list.Name)
		}
	}
	for i := range placings.Classes {
		class := &placings.Classes[i]
		limits := placing.LimitsOf(class.Entries(), side.Book)
		for at, placed := range class.Placed {
			outcome := Outcome{
				Graded: placed.Graded, Place: placed.Place, Shared: placed.Shared, JudgeTie: placed.JudgeTie, Paid: placed.Paid,
				Group: placed.Group, Awards: found[placed.Sequence].Awards, Fails: placed.Fails,
				After: limits.Failures(placed.Graded, side.Book).After(),
			}
			found[placed.Sequence] = standing{outcome.priced(), class, at}
		}
		for _, notPlaced := range class.NotPlaced {
			found[notPlaced.Sequence] = standing{Outcome{Graded: notPlaced.Graded, WhyNotPlaced: notPlaced.Reason, Held: notPlaced.Out != nil}.priced(), class, -1}
		}
	}
	return found, placings
}

// priced takes the price and value out of the figures.
func (o Outcome) priced() Outcome {
	if o.Held {
		return o
	}
	if price, ok := o.Figure(measure.Price); ok {
		o.Price = decimal.NewNullDecimal(price.Number)
	}
	if value, ok := o.Figure(measure.CarcassValue); ok {
		o.Value = decimal.NewNullDecimal(value.Number)
	}
	return o
}
