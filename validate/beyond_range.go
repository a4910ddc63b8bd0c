package validate

import (
	"slices"
	"strconv"

	"github.com/shopspring/decimal"

	"railbook/rules"
	"railbook/rules/measure"
)

// enoughOfClass is how many animals a class needs for its own range to stand before the rulebook's look bounds: five beside the
// one that is doubted.
const enoughOfClass = 6

// fewestBeyond is how many carcasses of a group beyond the rulebook's range make it the group's way, not theirs.
const fewestBeyond = 3

// rangesOf are the figures held to the rulebook's look bounds here.
func (s *checker) unusual(figure measure.ID, beyondOf func(r *row) (decimal.Decimal, Level, bool), single func(r *row) (Finding, bool)) []Finding {
	type groupKey struct {
		class int
		above bool
	}
	members, sizes, order := map[groupKey][]*row{}, make([]int, len(s.rows)), []groupKey{}
	for _, r := range s.rows {
		number, level, ok := beyondOf(r)
		if !ok {
			continue
		}
		sizes[r.inClass]++
		if level != Look || r.passed || !r.sound(figureCells(figure)...) {
			continue
		}
		limit, _ := r.limit(figure)
		key := groupKey{class: r.inClass}
		key.above = limit.LookAbove.Valid && number.GreaterThan(limit.LookAbove.Decimal)
		if members[key] == nil {
			order = append(order, key)
		}
		members[key] = append(members[key], r)
	}
	var findings []Finding
	for _, key := range order {
		rows, size := members[key], sizes[key.class]
		limit, _ := rows[0].limit(figure)
		boards := s.ofTheBoard(limit, key.above)
		switch {
		case len(rows) >= fewestBeyond && (boards || len(rows)*4 >= size):
			findings = append(findings, s.groupBeyond(rows, size, figure, limit, key.above, boards, beyondOf))
		case boards || size < enoughOfClass:
			for _, r := range rows {
				if finding, ok := single(r); ok {
					findings = append(findings, finding)
					r.doubt(finding.Measure)
				}
			}
		}
	}
	return findings
}

// ofTheBoard reports whether a look bound is another than the one the program ships with.
func (s *checker) ofTheBoard(limit *limit, above bool) bool {
	for _, shipped := range rules.Shipped().Limits {
		if shipped.Species == limit.Species && shipped.Measure == limit.Measure {
			if above {
				return !sameBound(shipped.LookAbove, limit.LookAbove)
			}
			return !sameBound(shipped.LookBelow, limit.LookBelow)
		}
	}
	return true
}

func sameBound(a, b decimal.NullDecimal) bool {
	return a.Valid == b.Valid && a.Decimal.Equal(b.Decimal)
}

// shippedBound and boardsBound say whose a look bound is.
const (
	shippedBound = "the rulebook's usual range as shipped"
	boardsBound  = "the board's own look bound in the rulebook"
)

// notUsual says what is usual by the rulebook, and whose bound the number lies beyond: " (57 to 67 is not, by the board's own look
// bound in the rulebook)".
func (s *checker) notUsual(limit *limit, number decimal.Decimal) string {
	whose := shippedBound
	if s.ofTheBoard(limit, limit.LookAbove.Valid && number.GreaterThan(limit.LookAbove.Decimal)) {
		whose = boardsBound
	}
	return " (" + span(limit.LookBelow, limit.LookAbove) + " is not, by " + whose + ")"
}

// groupBeyond says once of a group of carcasses that they lie beyond the rulebook's range.
func (s *checker) groupBeyond(rows []*row, size int, figure measure.ID, limit *limit, above, boards bool, beyondOf func(r *row) (decimal.Decimal, Level, bool)) Finding {
	var numbers []decimal.Decimal
	for _, r := range rows {
		number, _, _ := beyondOf(r)
		numbers = append(numbers, number)
	}
	lowest, highest := slices.MinFunc(numbers, decimal.Decimal.Cmp), slices.MaxFunc(numbers, decimal.Decimal.Cmp)
	at := rows[0].Place
	if cell, ok := rows[0].cellOf(figureCells(figure)[0]); ok {
		at = rows[0].ReadingOf(cell).Place
	}
	side, bound := "below", limit.LookBelow.Decimal
	if above {
		side, bound = "above", limit.LookAbove.Decimal
	}
	whose := shippedBound
	if boards {
		whose = boardsBound
	}
	of := ""
	if class := rows[0].Class; class != "" {
		of = " of " + class
	}
	words := strconv.Itoa(len(rows)) + " of the " + strconv.Itoa(size) + " carcasses" + of + " have a " + called(figure) + " " + side + " " + bound.String() + ", " + whose +
		" (" + rounded(lowest, figure) + " to " + rounded(highest, figure) + ")"
	if figure == measure.RibeyePerHundredweight && rows[0].mayHave(measure.DairyType) && !above {
		words += ": are they of dairy type?"
	} else {
		words += ": is the whole group so?"
	}
	finding := Finding{Level: Look, Code: called(figure) + " of a group " + side + " the range", At: at, Class: rows[0].Class, Measure: figureCells(figure)[0]}
	for _, r := range rows {
		finding.Others = append(finding.Others, r.Carcass)
	}
	return finding.say(words + " If it is right, accept it once in the Judge review sheet.")
}

// figureCells are the measures that a figure comes of; it is named at the cell of the first.
func figureCells(figure measure.ID) []measure.ID {
	switch figure {
	case measure.DressingPercent:
		return []measure.ID{measure.HotCarcassWeight, measure.LiveWeight}
	case measure.RibeyePerHundredweight:
		return []measure.ID{measure.RibeyeArea, measure.HotCarcassWeight}
	}
	return []measure.ID{figure}
}
