package intake

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"github.com/shopspring/decimal"

	"railbook/grading"
	"railbook/rules/measure"
	"railbook/validate"
	"railbook/workbook/xlsx"
)

// The headings over what is counted on a dot grid, as our own rail sheet has them: an area outlined on the grid, dots of it
// that miss muscle, dots outside it that touch muscle; or every dot (common practice).
const (
	AreaOutlined = "Area outlined, sq in"
	DotsMissing  = "Dots missing"
	DotsOutside  = "Dots outside"
	DotsCounted  = "Grid dots counted"

	dotsInSquareInch = "dots in a square inch"
)

func isDotColumn(heading string) bool {
	return slices.Contains([]string{AreaOutlined, DotsMissing, DotsOutside, DotsCounted}, heading)
}

// usualGrid is how many dots of a grid make a square inch (SDSU Extension; common practice).
var usualGrid = decimal.NewFromInt(10)

// nearAreas is how far two ways of measuring one area may differ, in square inches: a dot of the usual grid.
var nearAreas = decimal.New(1, -1)

// way is an area of one carcass as one way of counting gives it.
type way struct {
	words string
	area  decimal.Decimal
}

// compareAreas asks about every carcass whose area comes out differently by two ways that were filled in.
func (tr *tableReader) compareAreas() {
	columns := map[string]int{}
	for _, column := range tr.table.columns {
		if isDotColumn(column.text) {
			columns[column.text] = column.number
		}
	}
	if len(columns) == 0 {
		return
	}
	grid := tr.dotsInSquareInch()
	for _, animal := range tr.animals {
		tr.takeGrid(animal.Carcass, grid)
		id, reading, measured := areaRead(animal.Carcass)
		var ways []way
		if measured {
			ways = append(ways, way{"the area written", reading.Value.Number})
		}
		ways = append(ways, tr.counted(animal.line, columns, grid)...)
		for _, other := range ways[min(1, len(ways)):] {
			if ways[0].area.Sub(other.area).Abs().LessThanOrEqual(nearAreas) {
				continue
			}
			at := reading.Place
			if !measured {
				at = animal.Carcass.Place
			}
			tr.find(validate.Finding{
				Level: validate.Look, Code: "areas disagree", At: at, Tag: animal.Carcass.Tag, Measure: id, Read: ways[0].area.String(), Carcass: animal.Carcass,
				Message: fmt.Sprintf("%s is %s sq in, and %s sq in by %s. Count again, and leave one of them; otherwise accept as is.", ways[0].words, ways[0].area, other.area, other.words),
			})
			break
		}
	}
}

// areaRead gives the area of the muscle as it is written.
func areaRead(carcass *grading.Carcass) (measure.ID, grading.Reading, bool) {
	for _, id := range []measure.ID{measure.RibeyeArea, measure.LoinMuscleArea} {
		if reading, ok := carcass.Reading(id); ok {
			return id, reading, true
		}
	}
	return measure.RibeyeArea, grading.Reading{}, false
}

// counted gives the areas of a line by the dots counted in it.
func (tr *tableReader) counted(number int, columns map[string]int, grid decimal.Decimal) (ways []way) {
	at := slices.IndexFunc(tr.table.page.lines, func(row line) bool { return row.number == number })
	if at < 0 {
		return nil
	}
	figure := func(heading string) (decimal.Decimal, bool) {
		column, there := columns[heading]
		if !there {
			return decimal.Zero, false
		}
		cell := tr.table.page.lines[at].at(column)
		if nothing(cell) || cell.Kind != xlsx.Number && cell.Kind != xlsx.Text {
			return decimal.Zero, false
		}
		value, err := strconv.ParseFloat(strings.TrimSpace(cell.Raw), 64)
		return decimal.NewFromFloat(value), err == nil
	}
	if outlined, given := figure(AreaOutlined); given {
		missing, _ := figure(DotsMissing)
		outside, _ := figure(DotsOutside)
		ways = append(ways, way{"the outline and its dots", outlined.Add(outside.Sub(missing).DivRound(grid, 4))})
	}
	if counted, given := figure(DotsCounted); given {
		ways = append(ways, way{"all dots counted", counted.DivRound(grid, 4)})
	}
	return ways
}

// takeGrid counts the dots of another grid as those of the usual one, by which the areas are computed.
func (tr *tableReader) takeGrid(carcass *grading.Carcass, grid decimal.Decimal) {
	if grid.Equal(usualGrid) {
		return
	}
	for _, id := range []measure.ID{measure.DotsMissing, measure.DotsOutside} {
		if reading, ok := carcass.Reading(id); ok {
			reading.Value = measure.NumberValue(reading.Value.Number.Mul(usualGrid).DivRound(grid, 4))
			reading.Plain = false
			carcass.SetReading(id, reading)
		}
	}
}

// dotsInSquareInch is what the sheet says above its headings of its grid, else what is usual.
func (tr *tableReader) dotsInSquareInch() decimal.Decimal {
	for i := range tr.table.page.lines {
		line := &tr.table.page.lines[i]
		if line.number >= tr.table.top {
			break
		}
		for _, cell := range line.cells {
			if cell.Kind != xlsx.Text || strings.ToLower(strings.TrimSuffix(clean(cell.Raw), ":")) != dotsInSquareInch {
				continue
			}
			column := cell.Column
			for _, area := range tr.table.page.areas {
				if area.FirstRow == line.number && area.FirstColumn == column {
					column = area.LastColumn
				}
			}
			if value, err := decimal.NewFromString(strings.TrimSpace(line.at(column + 1).Raw)); err == nil && value.IsPositive() {
				return value
			}
		}
	}
	return usualGrid
}
