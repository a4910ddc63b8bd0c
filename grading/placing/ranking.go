package placing

import (
	"cmp"
	"slices"
	"strings"

	"railbook/grading"
	"railbook/rules"
	"railbook/rules/measure"
	"railbook/rules/phrase"

	"github.com/shopspring/decimal"
)

// Ranker orders carcasses by the keys of one ranking. Carcasses it cannot order are in left.
type Ranker struct {
	Book      *rules.Rulebook
	Ranking   rules.Ranking
	notPlaced []NotPlaced
}

// block are carcasses that the keys leave level, in the order of their tags, and the place they share.
type block struct {
	carcasses []*Entrant
	place     int
	byJudge   bool   // the judge broke the tie these stood in
	overruled string // the judge's reason for putting it here against the rule
}

// order ranks carcasses that are level on all keys before the one at the index. Every carcass needs the figures of the
// keys up to the first that orders; a later key's figure is needed only where it must break a tie, and a carcass that
// lacks it then is left out rather than put ahead of the others or behind them. They come after the blocks that there are.
func (r *Ranker) order(blocks []block, level []*Entrant, at int) []block {
	if len(level) == 0 {
		return blocks
	}
	if at == len(r.Ranking.Keys) || len(level) == 1 && at > r.firstOrdering() {
		return append(blocks, block{carcasses: level})
	}
	type standing struct {
		carcass *Entrant
		figure  decimal.Decimal
	}
	standings := make([]standing, 0, len(level))
	for _, carcass := range level {
		figure, missing := r.keyFigure(carcass.Graded, at)
		if missing != "" {
			r.leave(carcass, at, level, missing)
			continue
		}
		standings = append(standings, standing{carcass, figure})
	}
	slices.SortStableFunc(standings, func(a, b standing) int { return r.compareFigures(b.figure, a.figure, at) })
	ordered := make([]*Entrant, len(standings))
	for i := range standings {
		ordered[i] = standings[i].carcass
	}
	for start := 0; start < len(standings); {
		end := start + 1
		for end < len(standings) && r.compareFigures(standings[end].figure, standings[start].figure, at) == 0 {
			end++
		}
		blocks = r.order(blocks, ordered[start:end:end], at+1)
		start = end
	}
	return blocks
}

// firstOrdering gives the index of the first key that is more than a yes or no.
func (r *Ranker) firstOrdering() int {
	for i, key := range r.Ranking.Keys {
		if key.Orders() {
			return i
		}
	}
	return len(r.Ranking.Keys) - 1
}

// keyFigure gives the number by which a key orders a carcass.
func (r *Ranker) keyFigure(carcass *grading.Graded, at int) (figure decimal.Decimal, missing string) {
	key := r.Ranking.Keys[at]
	value, missing := grading.FigureFor(carcass, key.Measure, r.Book)
	if missing != "" {
		if key.Measure == measure.MarblingScore && !carcass.Without(key.Measure) {
			return figure, "" // level with every other that the plant graded
		}
		return figure, missing
	}
	figure = comparedFigure(value.Number, key)
	switch key.Prefer {
	case rules.PassAtMost:
		return yesFirst(measure.Compare(figure, key.Bound.Decimal) <= 0), ""
	case rules.PassAtLeast:
		return yesFirst(measure.Compare(figure, key.Bound.Decimal) >= 0), ""
	default:
		return figure, ""
	}
}

// comparedFigure rounds a figure to the decimals the key compares, half away from zero: a key to the tenth sees 2.45 as 2.5.
// A yield grade that rounding would lift to the next whole grade is cut as its column cuts it: 2.99 is 2.9, never a 3.0.
func comparedFigure(figure decimal.Decimal, key rules.Key) decimal.Decimal {
	figure = roundedTo(figure, grading.ComparedDecimals)
	if key.Decimals.Valid {
		figure = grading.ShownNumber(key.Measure, figure, int32(key.Decimals.Decimal.IntPart()))
	}
	return figure
}

// roundedTo rounds a figure half away from zero. Most have no more decimals and stay as they are, at no cost.
func roundedTo(figure decimal.Decimal, decimals int32) decimal.Decimal {
	if -figure.Exponent() <= decimals {
		return figure
	}
	return measure.Round(figure, decimals)
}

func yesFirst(yes bool) decimal.Decimal {
	if yes {
		return grading.One
	}
	return decimal.Zero
}

// leave leaves a carcass out for want of the figure of a key.
func (r *Ranker) leave(carcass *Entrant, at int, level []*Entrant, missing string) {
	key := r.Ranking.Keys[at]
	reason := "placed by " + key.Name() + ": " + missing
	if at > r.firstOrdering() {
		var others []string
		for _, other := range level {
			if other != carcass {
				others = append(others, other.Called())
			}
		}
		reason = "level with " + phrase.JoinAnd(phrase.Few(others)) + " so far; " + key.Name() + " would break the tie: " + missing
	}
	r.notPlaced = append(r.notPlaced, NotPlaced{Entrant: carcass, Reason: reason})
}

// placed gives each carcass its place and the key that decided it.
func (r *Ranker) placed(blocks []block) []Placed {
	var list []Placed
	for i, block := range blocks {
		shared := len(block.carcasses) > 1
		for _, carcass := range block.carcasses {
			placed := Placed{
				Entrant: carcass, Place: block.place, Shared: shared, Overruled: block.overruled,
				JudgeTie: shared && r.Ranking.Ties == rules.TiesJudge && !block.byJudge, LeftLevel: shared && block.byJudge,
				Decider: -1, Fails: carcass.fails.words(),
			}
			if !shared && i+1 < len(blocks) {
				placed.Decider = r.decider(block, blocks[i+1])
			}
			list = append(list, placed)
		}
	}
	return list
}

// decider gives the index of the key that put one block above the next; -1 where no key did.
func (r *Ranker) decider(upper, lower block) int {
	a, b := upper.carcasses[0], lower.carcasses[0]
	if upper.overruled != "" || lower.overruled != "" || a.fails.After() != b.fails.After() {
		return -1
	}
	return r.FirstDifference(a.Graded, b.Graded)
}

// FirstDifference gives the index of the first key on which two carcasses differ, where the first is ahead on it; -1
// where they are level on every key or the first is behind.
func (r *Ranker) FirstDifference(a, b *grading.Graded) int {
	for at := range r.Ranking.Keys {
		order, ok := r.compare(a, b, at)
		if !ok || order < 0 {
			return -1
		}
		if order > 0 {
			return at
		}
	}
	return -1
}

// DecidedBy gives what FirstDifference does of two that are placed. Of neighbours it was found when they were placed.
func (r *Ranker) DecidedBy(upper, lower Placed) int {
	if upper.Decider >= 0 && lower.Place == upper.Place+1 {
		return upper.Decider
	}
	return r.FirstDifference(upper.Graded, lower.Graded)
}

// compare tells whether the first carcass is ahead of the second on a key (1), level (0) or behind (−1); ok is false
// where one of them lacks the figure.
func (r *Ranker) compare(a, b *grading.Graded, at int) (order int, ok bool) {
	first, missing := r.keyFigure(a, at)
	second, alsoMissing := r.keyFigure(b, at)
	return r.compareFigures(first, second, at), missing == "" && alsoMissing == ""
}

// compareFigures tells which of two figures is ahead on a key, as compare does.
func (r *Ranker) compareFigures(first, second decimal.Decimal, at int) int {
	if r.Ranking.Keys[at].Prefer == rules.Lowest {
		first, second = second, first
	}
	return measure.Compare(first, second)
}

// numberPlaces gives the blocks their places, counting every carcass: 1, 2, 2, 4.
func numberPlaces(blocks []block) []block {
	place := 1
	for i := range blocks {
		blocks[i].place = place
		place += len(blocks[i].carcasses)
	}
	return blocks
}

// byTag orders carcasses by tag, numbers within it by their size, so that ties are printed in the same order whatever
// the order of rows; two of the same tag come as they stand in the file.
func byTag(a, b *Entrant) int {
	return cmp.Or(compareNatural(a.Tag, b.Tag), cmp.Compare(a.Place.File, b.Place.File),
		cmp.Compare(a.Place.Sheet, b.Place.Sheet), compareNatural(a.Place.Cell, b.Place.Cell), cmp.Compare(a.Sequence, b.Sequence))
}

func sortLeft(left []NotPlaced) {
	slices.SortFunc(left, func(a, b NotPlaced) int { return byTag(a.Entrant, b.Entrant) })
}

// compareNatural compares names with runs of digits by their number: "9" before "10", "Class 2" before "Class 10".
func compareNatural(a, b string) int {
	x, y := a, b
	for x != "" && y != "" {
		digitsX, digitsY := leadingDigits(x), leadingDigits(y)
		if digitsX == "" || digitsY == "" {
			if order := cmp.Compare(x[0], y[0]); order != 0 {
				return order
			}
			x, y = x[1:], y[1:]
			continue
		}
		plainX, plainY := strings.TrimLeft(digitsX, "0"), strings.TrimLeft(digitsY, "0")
		if order := cmp.Or(cmp.Compare(len(plainX), len(plainY)), cmp.Compare(plainX, plainY)); order != 0 {
			return order
		}
		x, y = x[len(digitsX):], y[len(digitsY):]
	}
	return cmp.Or(cmp.Compare(len(x), len(y)), cmp.Compare(a, b))
}

func leadingDigits(text string) string {
	end := 0
	for end < len(text) && text[end] >= '0' && text[end] <= '9' {
		end++
	}
	return text[:end]
}
