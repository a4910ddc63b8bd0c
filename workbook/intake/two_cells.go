package intake

import (
	"fmt"
	"slices"
	"strings"

	"railbook/grading"
	"railbook/rules"
	"railbook/rules/measure"
	"railbook/rules/phrase"
	"railbook/validate"
	"railbook/workbook/xlsx"
)

// What is one thing may stand in two cells: a tag in a column of counties and one of numbers, a carcass on a line for each
// of its sides.

// tagInTwo takes two tag columns beside one another for one tag, where the first holds words that come again, and only
// both together tell the animals apart.
func (r *reader) tagInTwo(t *table) {
	for i := 1; i < len(t.columns); i++ {
		column, other := &t.columns[i-1], &t.columns[i]
		if other.number != column.number+1 || !column.meaning.is(measure.Tag) || !other.meaning.is(measure.Tag) {
			continue
		}
		first, second, both := map[string]bool{}, map[string]bool{}, map[string]bool{}
		lines, example := 0, ""
		for _, line := range t.page.lines {
			word, number := line.at(column.number), line.at(other.number)
			if line.number <= t.bottom || line.number > t.lastLine || nothing(word) || nothing(number) {
				continue
			}
			if word.Kind != xlsx.Text || strings.ContainsAny(word.Raw, "0123456789") || !strings.ContainsAny(number.Raw, "0123456789") {
				return
			}
			lines++
			first[clean(word.Raw)], second[clean(number.Raw)] = true, true
			both[clean(word.Raw)+" "+clean(number.Raw)] = true
			example = clean(word.Raw) + " " + clean(number.Raw)
		}
		if lines < 2 || len(both) < lines || len(first) == lines || len(second) == lines {
			continue
		}
		other.before, column.meaning.candidates, column.left = column.number, nil, true
		r.find(validate.Finding{
			Level: validate.Note, Code: "tag in two columns", At: t.page.place(column.at), Measure: measure.Tag,
			Message: fmt.Sprintf("The tag stands in two columns, %s and %s, and was read as both together (%s).", phrase.Quote(column.text), phrase.Quote(other.text), example),
		})
		return
	}
}

// joinedTag gives the tag of a line whose first half stands in the column before.
func (tr *tableReader) joinedTag(row *line, under *column, reading grading.Reading) grading.Reading {
	before := row.at(under.before)
	if under.before == 0 || nothing(before) {
		return reading
	}
	reading.Value.Text = clean(before.Raw) + " " + reading.Value.Text
	reading.Written = clean(before.Raw) + " " + reading.Written
	reading.Plain = false
	return reading
}

// marblingInTwo takes a column of degrees of marbling and the whole numbers in the column behind it for one marbling, where
// both stand on the same lines: the middle of each degree would be a value that nobody wrote.
func (r *reader) marblingInTwo(t *table) {
	for i := 0; i+1 < len(t.columns); i++ {
		column, other := &t.columns[i], &t.columns[i+1]
		named := column.meaning.is(measure.Marbling) || len(column.meaning.candidates) == 0 && marblingHeading.MatchString(column.text)
		if !named || other.number != column.number+1 || len(other.meaning.candidates) > 0 && !other.meaning.is(measure.Marbling) || countedHeading.MatchString(other.text) {
			continue
		}
		lines, example := 0, ""
		for _, line := range t.page.lines {
			word, number := line.at(column.number), line.at(other.number)
			if line.number <= t.bottom || line.number > t.lastLine || nothing(word) && nothing(number) {
				continue
			}
			if _, ok := grading.ParseMarbling(clean(word.Raw), rules.MarblingHundreds); !ok || !degreeAlone(word) || !placeAlone(number) {
				lines = 0
				break
			}
			lines++
			example = clean(word.Raw) + " " + twoDigits(number)
		}
		if lines < 2 {
			continue
		}
		column.behind, other.meaning.candidates, other.left = other.number, nil, true
		if len(column.meaning.candidates) == 0 {
			column.meaning = meaning{candidates: []rules.Heading{{Measure: measure.Marbling, Text: column.text}}, because: "its values are degrees of marbling"}
		}
		r.result.Passed = append(r.result.Passed, PassedOver{
			At: t.page.place(other.at), Written: other.text, Why: "the column says how far into the degree of marbling before it; it was read with it",
		})
		r.find(validate.Finding{
			Level: validate.Note, Code: "marbling in two columns", At: t.page.place(column.at), Measure: measure.Marbling,
			Message: fmt.Sprintf("The marbling stands in two columns, %s and %s, and was read as both together (%s).", phrase.Quote(column.text), phrase.Quote(other.text), example),
		})
		return
	}
}

var marblingHeading = phrase.NewPattern(`(?i)\bmarb(?:ling)?\b`)

func degreeAlone(cell xlsx.Cell) bool {
	return cell.Kind == xlsx.Text && !strings.ContainsAny(cell.Raw, "0123456789+-")
}

func placeAlone(cell xlsx.Cell) bool {
	return twoDigits(cell) != "" && !cell.Formula && !cell.Date
}

// twoDigits gives the place within a degree as two digits; empty where it is none. One digit but 0 stays one, and is asked about.
func twoDigits(cell xlsx.Cell) string {
	text := clean(cell.Raw)
	if len(text) == 0 || len(text) > 2 || strings.Trim(text, "0123456789") != "" {
		return ""
	}
	if text == "0" {
		return "00"
	}
	return text
}

// withPlaceBehind gives a degree of marbling with the place within it that stands in the column behind it.
func (tr *tableReader) withPlaceBehind(row *line, under *column, cell xlsx.Cell) xlsx.Cell {
	if under.behind == 0 || !degreeAlone(cell) {
		return cell
	}
	if place := row.at(under.behind); placeAlone(place) {
		cell.Raw = clean(cell.Raw) + " " + twoDigits(place)
	}
	return cell
}

var (
	sideHeading = phrase.NewPattern(`(?i)^\W*(?:sides?|half|carcass side|l ?/ ?r)\W*$`)
	leftSide    = phrase.NewPattern(`(?i)^(?:l|lt|left)\W*$`)
	rightSide   = phrase.NewPattern(`(?i)^(?:r|rt|right)\W*$`)
)

// takeSides finds the column that says which side of a carcass a line is about, where every line says so.
func (tr *tableReader) takeSides() {
	if tr.kind != carcassTable || tr.hasColumn(measure.LeftSideWeight) || tr.hasColumn(measure.RightSideWeight) {
		return
	}
	for i := range tr.table.columns {
		column := &tr.table.columns[i]
		if len(column.meaning.candidates) > 0 || !sideHeading.MatchString(column.text) {
			continue
		}
		left, right := 0, 0
		for _, line := range tr.table.page.lines {
			if line.number <= tr.table.bottom || line.number > tr.table.lastLine {
				continue
			}
			switch text := clean(line.at(column.number).Raw); {
			case leftSide.MatchString(text):
				left++
			case rightSide.MatchString(text):
				right++
			}
		}
		if left > 0 && right > 0 {
			tr.sides, column.left = column.number, true
			tr.result.Passed = append(tr.result.Passed, PassedOver{
				At: tr.table.page.place(column.at), Written: column.text, Why: "the column says which side of the carcass a line is about",
			})
			return
		}
	}
}

// otherSideOf gives the animal above of which a line is the other side.
func (tr *tableReader) otherSideOf(row *line) *animal {
	if tr.sides == 0 || len(tr.animals) == 0 {
		return nil
	}
	last := tr.animals[len(tr.animals)-1]
	tag, _ := tr.tagOf(row)
	above := tr.table.page.lineNumbered(last.line)
	if tag == "" || sameTag(tag) != sameTag(last.Tag) || rightSide.MatchString(clean(row.at(tr.sides).Raw)) == rightSide.MatchString(clean(above.at(tr.sides).Raw)) {
		return nil
	}
	return last
}

// ofSide gives the question that a carcass weight answers on the line of one side.
func (tr *tableReader) ofSide(row *line, p *cellParser) *cellParser {
	if tr.sides == 0 || !slices.Contains([]measure.ID{measure.HotCarcassWeight, measure.ChilledCarcassWeight}, p.definition.ID) {
		return p
	}
	id := measure.LeftSideWeight
	switch text := clean(row.at(tr.sides).Raw); {
	case rightSide.MatchString(text):
		id = measure.RightSideWeight
	case !leftSide.MatchString(text):
		return p
	}
	side := *p
	side.definition, _ = measure.Define(id)
	return &side
}
