package intake

import (
	"slices"
	"strings"

	"railbook/rules/measure"
	"railbook/workbook/xlsx"
)

// A printed form has a block of lines for each carcass, with labels and their values beside one another, two or more pairs
// to a line. It is read as the table that it would be: a line for each block, a column for each label.

// label is one label of a form with the cell of its value.
type label struct {
	text      string
	at, value position
	cell      xlsx.Cell
	further   []xlsx.Cell // what else stands before the next label
}

// fewestLabels is how many known labels make a block of lines a form.
const fewestLabels = 3

// unfolded gives the page of a printed form as a table; nil where the page is none. Every cell of it keeps its own place.
func (p *page) unfolded(v *vocabulary) *page {
	labelled := p.labelColumns(v)
	if len(labelled) < 2 {
		return nil // one pair to a line is a sheet laid on its side
	}
	made := &page{
		file: p.file, sheet: p.sheet, text: p.text, decimalComma: p.decimalComma, date1904: p.date1904, hidden: p.hidden,
		hiddenColumn: map[int]bool{}, merged: map[position]position{}, cells: map[position]position{}, form: true,
	}
	columns := map[string]int{}
	var headings line
	var block []label
	var blockLine line
	seen := map[string]bool{}
	end := func() {
		if len(block) == 0 {
			return
		}
		blockLine.cells = nil
		extra := 100 // columns that no label heads
		for _, label := range block {
			key := strings.Join(fold(label.text), " ")
			if columns[key] == 0 {
				columns[key] = len(columns) + 1
				headings.cells = append(headings.cells, xlsx.Cell{Column: columns[key], Kind: xlsx.Text, Raw: label.text})
				made.cells[position{headings.number, columns[key]}] = label.at
			}
			at := position{blockLine.number, columns[key]}
			made.cells[at] = label.value
			cell := label.cell
			if cell.Column = columns[key]; !nothing(cell) {
				blockLine.cells = append(blockLine.cells, cell)
			}
			for _, more := range label.further {
				made.cells[position{blockLine.number, extra}] = position{label.at.line, more.Column}
				more.Column = extra
				blockLine.cells = append(blockLine.cells, more)
				extra++
			}
		}
		slices.SortFunc(blockLine.cells, func(a, b xlsx.Cell) int { return a.Column - b.Column })
		made.lines = append(made.lines, blockLine)
		block, seen = nil, map[string]bool{}
	}
	started := false
	for i := range p.lines {
		line := &p.lines[i]
		pairs := p.pairs(line, v, labelled)
		if len(pairs) == 0 {
			end()
			if len(line.cells) > 0 {
				made.lines = append(made.lines, *line)
			}
			continue
		}
		if slices.ContainsFunc(pairs, func(pair label) bool { return seen[strings.Join(fold(pair.text), " ")] }) {
			end()
		}
		if !started {
			headings.number, started = line.number, true
		}
		for _, pair := range pairs {
			seen[strings.Join(fold(pair.text), " ")] = true
		}
		if len(block) == 0 {
			blockLine.hidden = line.hidden
		}
		block = append(block, pairs...)
		blockLine.number = line.number
	}
	end()
	if !started || blockLine.number == headings.number {
		return nil
	}
	at, _ := slices.BinarySearchFunc(made.lines, headings.number, func(a line, number int) int { return a.number - number })
	made.lines = slices.Insert(made.lines, at, headings)
	made.attachFrom(p)
	return made
}

// mostFormLines is how many lines of a sheet show whether it is a form.
const mostFormLines = 60

// labelColumns gives the columns in which known labels stand again and again.
func (p *page) labelColumns(v *vocabulary) map[int]bool {
	known, tags := map[int]int{}, 0
	for i := range p.lines[:min(len(p.lines), mostFormLines)] {
		for _, cell := range p.lines[i].cells {
			if cell.Kind != xlsx.Text || nothing(cell) {
				continue
			}
			if found := v.recognise(clean(cell.Raw)); len(found.candidates) > 0 {
				known[cell.Column]++
				if found.is(measure.Tag, measure.RailNumber) {
					tags++
				}
			}
		}
	}
	columns, labels := map[int]bool{}, 0
	for column, times := range known {
		if times >= 2 {
			columns[column] = true
			labels += times
		}
	}
	if tags == 0 || labels < fewestLabels*tags {
		return nil
	}
	return columns
}

// headedByNumbers reports whether numbers stand among the headings of a table, as on a line of labels and values.
func (t *table) headedByNumbers() bool {
	return slices.ContainsFunc(t.page.lineNumbered(t.bottom).cells, func(cell xlsx.Cell) bool {
		return cell.Kind == xlsx.Number && cell.Column >= t.columns[0].number && cell.Column <= t.columns[len(t.columns)-1].number
	})
}

// pairs gives the labels of a line with their values; none where the line has no known label.
func (p *page) pairs(row *line, v *vocabulary, labelled map[int]bool) (list []label) {
	known := false
	for i, cell := range row.cells {
		text := clean(cell.Raw)
		recognised := cell.Kind == xlsx.Text && len(v.recognise(text).candidates) > 0
		switch {
		case nothing(cell):
		case labelled[cell.Column] && cell.Kind == xlsx.Text && (recognised || i == 0 || len(list) > 0):
			known = known || recognised
			list = append(list, label{text: text, at: position{row.number, cell.Column}, value: position{row.number, cell.Column + 1}})
		case len(list) == 0:
			return nil // something stands before the first label
		case list[len(list)-1].cell.Column == 0:
			last := &list[len(list)-1]
			last.cell, last.value = cell, position{row.number, cell.Column}
		default:
			last := &list[len(list)-1]
			last.further = append(last.further, cell)
		}
	}
	if !known {
		return nil
	}
	return list
}

// attachFrom brings what is attached to cells of a form to the places they have in its table.
func (p *page) attachFrom(form *page) {
	back := map[position]position{}
	for at, was := range p.cells {
		back[was] = at
	}
	p.struck = map[position]bool{}
	for was := range form.struck {
		if at, found := back[was]; found {
			p.struck[at] = true
		}
	}
	for _, list := range form.comments {
		for _, comment := range list {
			if at, found := back[comment.at]; found {
				p.comment(at, comment.text)
			}
		}
	}
}
