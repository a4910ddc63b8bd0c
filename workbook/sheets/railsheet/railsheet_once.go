package railsheet

import (
	"strings"

	"railbook/rules"
	"railbook/rules/address"
	"railbook/rules/measure"
	"railbook/workbook/sheets/kit"
	"railbook/workbook/sheets/rulebook"
	"railbook/workbook/xlsx"

	"github.com/shopspring/decimal"
)

// onceAsked is a question that is asked once for a sheet, in a line above the headings: the question, a cell for the
// answer, and what may be answered.
type onceAsked struct {
	question string // ends with a colon, by which the reader knows it
	hint     string
	prompt   string // shown when the cell is selected
	choices  []string
	format   string
	answer   decimal.NullDecimal
	text     string // the answer, where it is known
	grid     bool   // the answer says how many dots make a square inch
}

// onceRows is how many lines the questions take, two to a line.
const onceRows = 4

// dateWidth is how wide the cell of an answer must be for a date.
var dateWidth = kit.FreshWidthFor("2025-08-19", kit.Ruled) + 1

// gridDots is how many dots of a grid make a square inch: 10, and 20 on older grids (SDSU Extension; common practice).
var gridDots = decimal.NewFromInt(10)

func (p *railPage) askedOnce() (left, right []onceAsked) {
	about := p.writer.About
	left = []onceAsked{{question: "Contest:", text: about.Fair}, {question: "Place:", text: about.Place}}
	if p.kind.Basis == rules.LiveScan {
		return append(left, onceAsked{question: "Contest scan by:"}, onceAsked{question: "Contest scan day:"}), nil
	}
	left = append(left, onceAsked{question: "Plant:", text: about.Plant}, onceAsked{question: "Judge:", text: about.Judge})
	if p.writer.accepts(measure.HotCarcassWeight, bareWeight) {
		right = append(right, onceAsked{
			question: bareWeight + ":", hint: "hot or chilled", choices: []string{string(rules.WeightsHot), string(rules.WeightsChilled)},
			prompt: "Hot: weighed before the cooler. Chilled: weighed after it. Once for all carcasses of this sheet.",
		})
	}
	for _, asked := range rules.RailColumns(p.kind.Species, p.kind.Basis) {
		if asked.Asked == rules.AskedOnce {
			definition, _ := measure.Define(asked.Measure)
			right = append(right, onceAsked{
				question: definition.Heading + ":", hint: strings.Join(asked.Choices, " or "), choices: asked.Choices, prompt: asked.What,
			})
		}
	}
	right = append(right, onceAsked{
		question: "Kill date:", hint: "2025-08-19", format: "yyyy-mm-dd",
		prompt: "The day of the kill, once for all carcasses of this sheet.",
	})
	return left, append(right, onceAsked{
		question: "Dots in a square inch:", hint: "10 or 20", choices: []string{"10", "20"},
		prompt: "How many dots of the grid make one square inch. The area is the dots counted over this.",
		answer: decimal.NewNullDecimal(gridDots), grid: true,
	})
}

// span is a stretch of columns, from 1.
type span struct{ from, to int }

// askOnce writes the questions. Their cells are merged over as many columns as they need.
func (p *railPage) askOnce() {
	left, right := p.askedOnce()
	spans := p.spansFor(stretch{16, widestOf(left)}, stretch{share: 36}, stretch{share: 2}, stretch{22, widestOf(right)}, stretch{12, dateWidth}, stretch{30, widestHint(right)})
	if len(right) == 0 {
		spans = p.spansFor(stretch{22, widestOf(left)}, stretch{share: 44}, stretch{share: 52})
	}
	for row := range onceRows {
		cells := make([]kit.Entry, p.first)
		var used []span
		if row < len(left) {
			used = append(used, p.ask(cells, left[row], spans[:3])...)
		}
		if row < len(right) {
			used = append(used, p.ask(cells, right[row], spans[3:6])...)
		}
		written := p.WriteHigh(20, cells...)
		for _, span := range used {
			if span.to > span.from {
				p.MergeAcross(written, span.from, span.to)
			}
		}
	}
}

// ask puts one question into a line that is about to be written.
func (p *railPage) ask(cells []kit.Entry, asked onceAsked, at []span) []span {
	cells[at[0].from-1] = kit.Entry{Value: asked.question, Style: kit.Style{Role: kit.Subtitle, Align: "right", Middle: true}}
	for column := at[1].from; column <= at[1].to; column++ {
		cells[column-1] = kit.Entry{Value: "", Style: kit.Style{Role: kit.Ruled, Middle: true, Align: "center", Format: asked.format}}
	}
	switch {
	case asked.answer.Valid:
		cells[at[1].from-1].Value = asked.answer.Decimal
	case asked.text != "":
		cells[at[1].from-1].Value = asked.text
	}
	if asked.hint != "" {
		cells[at[2].from-1] = kit.Entry{Value: asked.hint, Style: kit.Style{Role: kit.PaperNote, Middle: true, Indent: true}}
	}
	cell := address.Cell(at[1].from, p.Row+1)
	if asked.grid {
		p.grid = address.Fixed(at[1].from, p.Row+1)
	}
	if asked.prompt != "" {
		p.chooseOnce(cell, asked)
	}
	return at
}

func (p *railPage) chooseOnce(cell string, asked onceAsked) {
	rule := xlsx.Rule{Cells: cell, PromptTitle: asked.question[:len(asked.question)-1], Prompt: asked.prompt}
	if asked.choices != nil {
		rule.Choices = asked.choices
		rule.ErrorTitle, rule.Error = "Not in the list", "Usual is one of: "+asked.hint+". Keep it if it is right."
	}
	p.AddRule(rule)
}

// stretch is a part of the printed width: its share of it, and the least that it takes.
type stretch struct{ share, least float64 }

// widestOf is how wide a column must be for the longest of the questions.
func widestOf(asked []onceAsked) (widest float64) {
	for _, question := range asked {
		widest = max(widest, kit.FreshWidthFor(question.question, kit.Subtitle))
	}
	return widest
}

// widestHint is how wide the columns must be for the longest of the hints behind the answers.
func widestHint(asked []onceAsked) (widest float64) {
	for _, question := range asked {
		widest = max(widest, kit.FreshWidthFor(question.hint, kit.PaperNote)+2) // and its indent
	}
	return widest
}

// spansFor shares the columns of the first page out among stretches, so that all of them together take the whole width. On
// pages side by side the first column, which stands on each, is left out: what is merged over it would show on the others.
func (p *railPage) spansFor(stretches ...stretch) []span {
	first := p.afterTag() - 1
	shares := 0.0
	for _, stretch := range stretches {
		shares += stretch.share
	}
	all := rulebook.Sum(p.Widths[first:p.first])
	scale := all / shares
	var spans []span
	column, wide, target := first, 0.0, 0.0
	for at, wanted := range stretches {
		from, begin := column+1, wide
		target += wanted.share * scale
		left, later := len(stretches)-at-1, 0.0 // each of which needs a column, and what they take at least in whole columns
		for _, stretch := range stretches[at+1:] {
			later += stretch.least + all/float64(p.first-first)/2
		}
		for column < p.first-left && (column < from || wide-begin < wanted.least ||
			wide+p.Widths[column]/2 <= target && all-wide-p.Widths[column] >= later) {
			wide += p.Widths[column]
			column++
		}
		spans = append(spans, span{min(from, p.first), max(column, 1)})
	}
	return spans
}
