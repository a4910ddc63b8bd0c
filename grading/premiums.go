package grading

import (
	"fmt"
	"slices"
	"strconv"

	"railbook/rules"
	"railbook/rules/measure"

	"github.com/shopspring/decimal"
)

// The ranges of the Value grid sheet for what is paid beside the grid, after the species' name.
const (
	gridMatrix   = " matrix lines"
	gridPremiums = " premiums"
)

// noCell is looked up in the price matrix for a carcass that is in none of its cells, so that the formula finds no price either.
const noCell = "no cell of the matrix"

// matrixLine finds the cell of the price matrix that the carcass falls into.
func (l *priced) matrixLine(g *Graded) {
	var missing, figures string
	wanted := false
	for at := range g.Book.Matrix {
		line := &g.Book.Matrix[at]
		if line.Species != g.Species {
			continue
		}
		if !wanted {
			wanted = true
			for _, id := range []measure.ID{line.First, line.Second} {
				value, lack := FigureFor(g, id, g.Book)
				missing = join(missing, lack)
				if figures != "" {
					figures += " and "
				}
				figures += id.String() + " " + Say(id, value)
			}
			if missing != "" {
				l.missing = join(l.missing, missing)
				return
			}
		}
		first, _ := FigureFor(g, line.First, g.Book)
		second, _ := FigureFor(g, line.Second, g.Book)
		if line.Band.Holds(first.Number) && line.SecondBand.Holds(second.Number) {
			l.matrix = &line.GridLine
			return
		}
	}
	if wanted {
		l.matrix = &rules.GridLine{Species: g.Species, Part: rules.MatrixPart, Name: noCell}
		l.unlisted = join(l.unlisted, figures+" in the matrix")
	}
}

// premiumLines finds the premiums that the carcass earns: those all of whose lines it meets, of lines with the same letter
// under Or one. Where it fails none and lacks a figure that one asks for, nobody can say, and there is no price.
func (l *priced) premiumLines(g *Graded) {
	for at := range g.Book.Premiums {
		premium := &g.Book.Premiums[at]
		if premium.Species != g.Species {
			continue
		}
		earned, unknown := earns(g, premium.Tests)
		switch {
		case earned:
			l.premiums = append(l.premiums, &premium.GridLine)
		case unknown != "":
			l.missing = join(l.missing, unknown)
		}
	}
}

// earns tells whether a carcass meets every test of a premium, or why nobody can say.
func earns(g *Graded, tests []rules.Requirement) (earned bool, unknown string) {
	for _, test := range tests {
		failed, unmet := Unmet(g, test, nil, g.Book)
		if !unmet || test.Or != "" && slices.ContainsFunc(tests, func(other rules.Requirement) bool {
			_, bad := Unmet(g, other, nil, g.Book)
			return SameName(other.Or) == SameName(test.Or) && !bad
		}) {
			continue
		}
		if !failed.Unknown {
			return false, ""
		}
		unknown = join(unknown, failed.Words)
	}
	return unknown == "", unknown
}

// premiumsAndMatrix gives the lines beside the grid that are paid, the matrix first.
func (l *priced) premiumsAndMatrix() (lines []*rules.GridLine) {
	if l.matrix != nil {
		lines = append(lines, l.matrix)
	}
	return append(lines, l.premiums...)
}

// writePremiums looks the lines up by their names: which of them a carcass earns is worked out when it is graded.
func (l *priced) writePremiums(f *formula) {
	for _, line := range l.premiumsAndMatrix() {
		name := gridPremiums
		if line.Part == rules.MatrixPart {
			name = gridMatrix
		}
		f.add("+VLOOKUP(" + strconv.Quote(line.Name) + "," + f.at.Range(string(line.Species)+name) + "," + adjustColumn + ",0)")
	}
}

// beside lays out what is paid beside the grid of a species. It is changed in the rulebook, not here: a premium is more than
// its price.
func (l *gridLayout) beside(species rules.Species) {
	var lines []*rules.GridLine
	for at := range l.book.Matrix {
		lines = append(lines, &l.book.Matrix[at].GridLine)
	}
	for at := range l.book.Premiums {
		lines = append(lines, &l.book.Premiums[at].GridLine)
	}
	for _, part := range []struct {
		rules.Part
		name string
	}{{rules.MatrixPart, gridMatrix}, {rules.PremiumPart, gridPremiums}} {
		first := l.next()
		for _, line := range lines {
			if line.Species == species && line.Part == part.Part {
				l.row(wordsCell(string(part.Part)), wordsCell(line.Name), GridCell{}, GridCell{}, GridCell{}, l.adjustment(line, "money"), wordsCell(sourceOf(line)))
			}
		}
		l.name(string(species)+part.name, 2, 6, first)
	}
}

// adjustment is what a line adds, in dollars. A percent of the base price is a formula, so that it follows the base price.
func (l *gridLayout) adjustment(line *rules.GridLine, style string) GridCell {
	cell := GridCell{Text: line.Adjust.String(), Number: true, Style: style}
	if base := l.sheet.Ranges[string(line.Species)+gridBase]; line.Percent.Valid && base != "" {
		cell.Formula, cell.Style = fmt.Sprintf("%s*%s/100", base, bracketed(line.Percent.Decimal)), "money"
	}
	return cell
}

func bracketed(number decimal.Decimal) string {
	if number.IsNegative() {
		return "(" + number.String() + ")"
	}
	return number.String()
}

// sourceOf says where a line comes from, and of what it is a percent.
func sourceOf(line *rules.GridLine) string {
	if line.Percent.Valid {
		return join(line.Percent.Decimal.String()+" % of the base price", line.Source)
	}
	return line.Source
}
