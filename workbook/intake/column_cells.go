package intake

import (
	"slices"

	"github.com/shopspring/decimal"

	"railbook/rules"
	"railbook/rules/measure"
	"railbook/workbook/xlsx"
)

// columnCells is what stands below a heading on the lines of the animals, of which it is asked what measures it can be.
type columnCells struct {
	under *column
	asked []columnCell
}

// columnCell is a cell that holds something. A plain number that is stored in it is read once for all measures.
type columnCell struct {
	cell   xlsx.Cell
	number decimal.NullDecimal
}

// enoughFit is the share of a column's cells, in percent, that must be values of a measure before it is suggested.
const enoughFit = 60

// enoughAsked is how many cells of a column are looked at, spread evenly over it, to tell what it can be.
const enoughAsked = 1000

// someCells gives what stands below a heading on enough lines of animals to tell what it can be.
func (tr *tableReader) someCells(under *column) columnCells {
	return tr.cellsUnder(under, max(1, len(tr.animals)/enoughAsked))
}

// cellsUnder gives what stands below a heading on every so many lines of animals.
func (tr *tableReader) cellsUnder(under *column, step int) columnCells {
	cells := columnCells{under, make([]columnCell, 0, len(tr.animals)/step+1)}
	for at := 0; at < len(tr.animals); at += step {
		cell := tr.table.page.lineNumbered(tr.animals[at].line).at(under.number)
		if nothing(cell) || formulaText(cell) {
			continue
		}
		one := columnCell{cell: cell}
		if cell.Kind == xlsx.Number && !cell.Date && !cell.Percent {
			number, err := decimal.NewFromString(cell.Raw)
			one.number = decimal.NullDecimal{Decimal: number, Valid: err == nil}
		}
		cells.asked = append(cells.asked, one)
	}
	return cells
}

// valuesFit reports whether what stands below a heading can be the measure.
func (tr *tableReader) valuesFit(cells columnCells, heading rules.Heading, species rules.Species) bool {
	if isTag(heading.Measure) || heading.Measure == measure.Exhibitor {
		if cells = tr.cellsUnder(cells.under, 1); cells.repeat() {
			return false
		}
	}
	p := tr.parserFor(cells.under, heading, species)
	limit := tr.limitOf(p.definition, species)
	fitting, filled := 0, len(cells.asked)
	for at, one := range cells.asked {
		if (fitting+filled-at)*100 < filled*enoughFit {
			return false // though all that are left should fit
		}
		if p.canBe(one, limit) {
			fitting++
		}
		if fitting*100 >= filled*enoughFit {
			return true // though none that is left should fit
		}
	}
	return false
}

// repeat reports whether two cells say the same.
func (cells columnCells) repeat() bool {
	said := make(map[string]bool, len(cells.asked))
	for _, one := range cells.asked {
		said[clean(one.cell.Raw)] = true
	}
	return len(said) < len(cells.asked)
}

// canBe reports whether a cell can be a value of the measure.
func (p *cellParser) canBe(one columnCell, limit *rules.Limit) bool {
	if one.number.Valid && p.definition.Kind == measure.KindNumber {
		return withinLimit(limit, p.scale.convert(one.number.Decimal))
	}
	parsed := p.read(one.cell)
	return parsed.problem == "" && !parsed.absent && withinLimit(limit, parsed.reading.Value.Number) &&
		(p.definition.Kind != measure.KindText || one.cell.Kind != xlsx.Number || isTag(p.definition.ID))
}

// limitOf gives the rulebook's limit of a number; nil where it has none.
func (tr *tableReader) limitOf(definition measure.Definition, species rules.Species) *rules.Limit {
	at := slices.IndexFunc(tr.book.Limits, func(limit rules.Limit) bool {
		return limit.Measure == definition.ID && (limit.Species == species || limit.Species == "")
	})
	if at < 0 || definition.Kind != measure.KindNumber {
		return nil
	}
	return &tr.book.Limits[at]
}

// withinLimit reports whether a number lies where the rulebook would not even look.
func withinLimit(limit *rules.Limit, number decimal.Decimal) bool {
	return limit == nil || !below(number, limit.LookBelow) && !below(number, limit.HoldBelow) &&
		!above(number, limit.LookAbove) && !above(number, limit.HoldAbove)
}

func below(number decimal.Decimal, bound decimal.NullDecimal) bool {
	return bound.Valid && measure.Compare(number, bound.Decimal) < 0
}

func above(number decimal.Decimal, bound decimal.NullDecimal) bool {
	return bound.Valid && measure.Compare(number, bound.Decimal) > 0
}
