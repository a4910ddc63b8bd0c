package whatif

import (
	"slices"

	"railbook/grading"
	"railbook/grading/placing"
	"railbook/rules"
	"railbook/rules/measure"

	"github.com/shopspring/decimal"
)

// Tally sums up a class, or all of them, under one rulebook. Money is in dollars, and over the carcasses that have a
// price, placed or not; those on hold are left out.
type Tally struct {
	Carcasses     int
	Placed        int
	Eligible      int
	Priced        int
	Premiums      decimal.Decimal // what premiums add to the value of the carcasses, each to the cent
	Discounts     decimal.Decimal // what discounts take off, a negative number
	Value         decimal.Decimal
	HighestPrice  decimal.NullDecimal // $/cwt
	LowestPrice   decimal.NullDecimal
	HighestValue  decimal.NullDecimal // $ a head
	LowestValue   decimal.NullDecimal
	SharedPlaces  int // places that more than one carcass holds
	InSharedPlace int // the carcasses that hold them
	Keys          []KeyUse
}

// KeyUse is how often a key of a ranking put one place above the next.
type KeyUse struct {
	Ranking string
	Step    int    // from 1
	Key     string // what it compares, as the rulebook writes it
	Decided int
	Asked   int // how many pairs of neighbours the keys before it had left level
}

// PriceSpread is the highest price less the lowest, $/cwt; zero where there are none.
func (t Tally) PriceSpread() decimal.Decimal {
	return t.HighestPrice.Decimal.Sub(t.LowestPrice.Decimal)
}

// ValueSpread is the highest value less the lowest, $ a head; zero where there are none.
func (t Tally) ValueSpread() decimal.Decimal {
	return t.HighestValue.Decimal.Sub(t.LowestValue.Decimal)
}

// tallyOf sums up outcomes and the classes they stand in.
func tallyOf(outcomes []Outcome, classes []placing.ClassPlacing, book *rules.Rulebook) Tally {
	tally := Tally{Carcasses: len(outcomes)}
	mine := map[int]Outcome{} // by the carcass's Sequence
	for _, outcome := range outcomes {
		mine[outcome.Graded.Sequence] = outcome
		if outcome.Place > 0 {
			tally.Placed++
		}
		if outcome.Eligible() {
			tally.Eligible++
		}
		if !outcome.Price.Valid || !outcome.Value.Valid {
			continue
		}
		tally.Priced++
		tally.Value = tally.Value.Add(outcome.Value.Decimal)
		tally.HighestPrice, tally.LowestPrice = highest(tally.HighestPrice, outcome.Price), lowest(tally.LowestPrice, outcome.Price)
		tally.HighestValue, tally.LowestValue = highest(tally.HighestValue, outcome.Value), lowest(tally.LowestValue, outcome.Value)
		weight, _ := outcome.Figure(measure.HotCarcassWeight)
		for _, step := range outcome.Graded.PriceSteps() {
			if step.Line == nil {
				continue
			}
			dollars := step.Adjust.Number.Mul(weight.Number).Div(grading.Hundred).Round(2)
			if dollars.IsNegative() {
				tally.Discounts = tally.Discounts.Add(dollars)
			} else {
				tally.Premiums = tally.Premiums.Add(dollars)
			}
		}
	}
	for _, class := range classes {
		tally.count(class, mine, book)
	}
	return tally
}

// count adds the ties of a class and which keys broke them.
func (t *Tally) count(class placing.ClassPlacing, mine map[int]Outcome, book *rules.Rulebook) {
	placed := slices.DeleteFunc(slices.Clone(class.Placed), func(placed placing.Placed) bool { return mine[placed.Sequence].Graded == nil })
	if len(placed) == 0 {
		return
	}
	uses := make([]KeyUse, len(class.Ranking.Keys))
	for i, key := range class.Ranking.Keys {
		uses[i] = KeyUse{Ranking: class.Ranking.Name, Step: i + 1, Key: key.Name()}
	}
	ranker := class.Ranker(book)
	for i, standing := range placed {
		if standing.Shared {
			t.InSharedPlace++
			if i == 0 || placed[i-1].Place != standing.Place {
				t.SharedPlaces++
			}
		}
		if i+1 == len(placed) || placed[i+1].Place == standing.Place {
			continue
		}
		next := placed[i+1]
		if mine[standing.Sequence].After != mine[next.Sequence].After || standing.Overruled != "" || next.Overruled != "" {
			continue
		}
		decided := ranker.FirstDifference(standing.Graded, next.Graded)
		for step := 0; step <= decided; step++ {
			uses[step].Asked++
		}
		if decided >= 0 {
			uses[decided].Decided++
		}
	}
	t.Keys = mergeUses(t.Keys, uses)
}

// Plus adds two tallies.
func (t Tally) Plus(other Tally) Tally {
	return Tally{
		Carcasses: t.Carcasses + other.Carcasses, Placed: t.Placed + other.Placed, Eligible: t.Eligible + other.Eligible,
		Priced: t.Priced + other.Priced, Premiums: t.Premiums.Add(other.Premiums), Discounts: t.Discounts.Add(other.Discounts),
		Value:        t.Value.Add(other.Value),
		HighestPrice: highest(t.HighestPrice, other.HighestPrice), LowestPrice: lowest(t.LowestPrice, other.LowestPrice),
		HighestValue: highest(t.HighestValue, other.HighestValue), LowestValue: lowest(t.LowestValue, other.LowestValue),
		SharedPlaces: t.SharedPlaces + other.SharedPlaces, InSharedPlace: t.InSharedPlace + other.InSharedPlace,
		Keys: mergeUses(t.Keys, other.Keys),
	}
}

// mergeUses adds up the uses of the same keys.
func mergeUses(all, more []KeyUse) []KeyUse {
	all = slices.Clone(all)
	for _, use := range more {
		at := slices.IndexFunc(all, func(key KeyUse) bool { return key.Ranking == use.Ranking && key.Step == use.Step })
		if at < 0 {
			all = append(all, use)
			continue
		}
		all[at].Decided += use.Decided
		all[at].Asked += use.Asked
	}
	return all
}

func highest(a, b decimal.NullDecimal) decimal.NullDecimal {
	if !a.Valid || b.Valid && b.Decimal.GreaterThan(a.Decimal) {
		return b
	}
	return a
}

func lowest(a, b decimal.NullDecimal) decimal.NullDecimal {
	if !a.Valid || b.Valid && b.Decimal.LessThan(a.Decimal) {
		return b
	}
	return a
}

// Unused is a limit or premium of a rulebook that decided nothing among the carcasses.
type Unused struct {
	Place   rules.Place
	Species rules.Species      // empty: of every species
	Line    *rules.GridLine    // that no carcass was paid by; nil for a limit
	Limit   *rules.Requirement // that no carcass failed; nil for a line of the grid
}

// unused finds the lines of the grid that no carcass was paid by and the limits that no carcass failed, of the species
// that are there. A mark that must not be, such as condemned, is no limit one would miss.
func unused(carcasses standings, book *rules.Rulebook) []Unused {
	species := map[rules.Species]bool{}
	paid := map[rules.GridLine]bool{}
	failed := map[rules.Requirement]bool{}
	for _, carcass := range carcasses {
		species[carcass.Species] = true
		for _, step := range carcass.Graded.PriceSteps() {
			if step.Line != nil { // the base has none
				paid[*step.Line] = true
			}
		}
		for _, failure := range placing.LimitsOf(carcass.class.Entries(), book).Failures(carcass.Graded, book) {
			if !failure.Unknown {
				failed[failure.Requirement] = true
			}
		}
	}
	var list []Unused
	for i := range book.Grid {
		line := &book.Grid[i]
		if species[line.Species] && !paid[*line] && !line.Adjust.IsZero() {
			list = append(list, Unused{Place: line.Place, Species: line.Species, Line: line})
		}
	}
	for i := range book.Eligibility {
		limit := &book.Eligibility[i]
		if (limit.Species == "" || species[limit.Species]) && !limit.MustNotBe && !failed[*limit] {
			list = append(list, Unused{Place: limit.Place, Species: limit.Species, Limit: limit})
		}
	}
	return list
}
