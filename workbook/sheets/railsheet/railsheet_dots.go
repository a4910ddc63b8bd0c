package railsheet

import (
	"strconv"
	"strings"

	"railbook/workbook/intake"
)

// dotColumn is one of the columns in which the dots of a grid are counted for an area.
type dotColumn int

const (
	noDots       dotColumn = iota
	dotsOutlined           // the area outlined on the grid, in square inches
	dotsMissing            // dots of it that miss muscle
	dotsOutside            // dots outside it that touch muscle
	dotsCounted            // every dot on muscle
	dotKinds
)

// dotColumns are the letters of such columns; empty where there is none.
type dotColumns [dotKinds]string

func (d dotColumns) is() bool { return d != dotColumns{} }

// dotColumnsAsked are the ways in which dots are counted (common practice): an outlined area, less the dots of it that miss
// muscle and with the dots outside it that touch muscle; or every dot.
var dotColumnsAsked = []struct {
	kind    dotColumn
	heading string
	words   columnWords
}{
	{dotsOutlined, intake.AreaOutlined, columnWords{
		"A round area outlined on the grid, near the size of the muscle.",
		"Draw it on the clear grid, and lay that on the cut face. The area beside it comes by itself.", "12",
	}},
	{dotsMissing, intake.DotsMissing, columnWords{"Dots inside the outline that miss muscle.", "Count them; each takes its share off the outlined area.", "3"}},
	{dotsOutside, intake.DotsOutside, columnWords{"Dots outside the outline that touch muscle.", "Count them; each adds its share to the outlined area.", "9"}},
	{dotsCounted, intake.DotsCounted, columnWords{
		"Every dot of the grid on the muscle, where nothing is outlined.", "Of one side. The area beside it comes by itself. Leave blank where the area is known.", "126",
	}},
}

func wordsOfDots(kind dotColumn) columnWords {
	for _, asked := range dotColumnsAsked {
		if asked.kind == kind {
			return asked.words
		}
	}
	return columnWords{}
}

// dotFormula makes an area of the dots of a line, and nothing of no count. An area may be typed over it. An outline goes before
// a count of every dot.
func (p *railPage) dotFormula(columns dotColumns, row int) string {
	cell := func(kind dotColumn) string { return columns[kind] + strconv.Itoa(row) }
	return strings.NewReplacer(
		"OUTLINED", cell(dotsOutlined), "MISSING", cell(dotsMissing), "OUTSIDE", cell(dotsOutside), "COUNTED", cell(dotsCounted), "GRID", p.grid,
	).Replace(`IF(N(GRID)<=0,"",IF(ISNUMBER(OUTLINED),ROUND(OUTLINED+(N(OUTSIDE)-N(MISSING))/GRID,2),IF(ISNUMBER(COUNTED),ROUND(COUNTED/GRID,2),"")))`)
}
