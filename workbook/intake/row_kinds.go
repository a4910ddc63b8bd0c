package intake

import (
	"slices"
	"strings"

	"railbook/rules"
	"railbook/rules/measure"
	"railbook/workbook/xlsx"

	"github.com/shopspring/decimal"
)

// onlyZeros reports whether every number that a line of a carcass sheet measures is 0, as a spreadsheet fills in what was
// left blank: no carcass measures nothing, so these are no values.
func (tr *tableReader) onlyZeros(row *line) bool {
	zeros := 0
	for _, column := range tr.table.columns {
		cell := row.at(column.number)
		if !column.meaning.measuresCarcass() && !column.meaning.is(carcassWeights...) || nothing(cell) {
			continue
		}
		if number, err := decimal.NewFromString(cell.Raw); err != nil || !number.IsZero() {
			return false
		}
		zeros++
	}
	return tr.kind == carcassTable && zeros >= fewestZeros
}

// fewestZeros is how many zeros a line has that measures nothing else.
const fewestZeros = 2

// words reports whether cells hold nothing but words.
func words(cells []xlsx.Cell) bool {
	return !slices.ContainsFunc(cells, func(cell xlsx.Cell) bool { return cell.Kind != xlsx.Text })
}

// tagLike reports whether a text alone on its line can be a tag rather than a title.
func tagLike(text string) bool {
	text = clean(text)
	if rest := withoutTagPrefix(text); rest != "" {
		text = rest
	}
	digits, letters := 0, 0
	most := 4
	if strings.Contains(text, " ") {
		most = 2 // "AB 412" is a tag, "Page 2" is not
	}
	for _, c := range text {
		switch {
		case c >= '0' && c <= '9':
			digits++
		case c == ' ' || c == '-' || c == '.' || c == '/' || c == '#':
		case letters < most:
			letters++
		default:
			return false
		}
	}
	return digits > 0 && digits+letters <= 20 && !strings.HasPrefix(strings.ToLower(text), "p. ")
}

// isSummary reports whether a line holds totals or averages.
func (tr *tableReader) isSummary(row *line, filled []xlsx.Cell, tag string, tagCell xlsx.Cell) bool {
	first := filled[0]
	if first.Kind == xlsx.Text && tr.summarises(clean(first.Raw)) &&
		(tag == "" || tagCell.Formula || tagCell.Column == first.Column || tr.measured(row) == 0) {
		return true
	}
	if heading, ok := tr.columnNumbered(first.Column); ok && first.Kind == xlsx.Text && heading.meaning.is(measure.ClassName) &&
		endsInSummary.MatchString(clean(first.Raw)) && (tag == "" || tr.measured(row) == 0) {
		return true // "Light Average" in the column of the class
	}
	if heading, ok := tr.columnNumbered(first.Column); ok && first.Kind == xlsx.Text &&
		(heading.meaning.is(tagMeasures...) && tr.tagsHaveDigits || heading.meaning.is(measure.Exhibitor) && tag == "") &&
		hasLetter(first.Raw) && endsInAverage.MatchString(clean(first.Raw)) {
		return true // the same in the column of the tags, or of the exhibitors on a line without a tag
	}
	if tag != "" || tr.names(row) {
		return false
	}
	return !slices.ContainsFunc(filled, func(cell xlsx.Cell) bool { return !cell.Formula })
}

// measured counts the cells of a line under headings that measure something.
func (tr *tableReader) measured(row *line) int {
	count := 0
	for _, column := range tr.table.columns {
		if len(column.meaning.candidates) == 0 {
			continue
		}
		definition, _ := measure.Define(column.meaning.candidates[0].Measure)
		switch definition.Kind {
		case measure.KindText, measure.KindMark:
			continue
		}
		if cell := row.at(column.number); !nothing(cell) && (cell.Kind != xlsx.Text || definition.Kind != measure.KindNumber || strings.ContainsAny(cell.Raw, "0123456789½¼¾⅓⅔?")) {
			count++
		}
	}
	return count
}

// measuredOnRail reports whether a line has anything that was measured on a carcass, as against a live weight.
func (tr *tableReader) measuredOnRail(row *line) bool {
	return slices.ContainsFunc(tr.table.columns, func(column column) bool {
		cell := row.at(column.number)
		return (column.meaning.measuresCarcass() || column.meaning.is(carcassWeights...)) && !nothing(cell) && !cell.Formula &&
			(cell.Kind != xlsx.Text || strings.ContainsAny(cell.Raw, "0123456789"))
	})
}

// onlyNumbered reports whether a line of a carcass sheet holds a tag or rail number alone, as on a form that is numbered
// in advance.
func (tr *tableReader) onlyNumbered(filled []xlsx.Cell) bool {
	return tr.kind == carcassTable && len(filled) == 1 && slices.ContainsFunc(tr.table.columns, func(column column) bool {
		return column.number == filled[0].Column && column.meaning.is(tagMeasures...)
	})
}

// names reports whether a line names an exhibitor.
func (tr *tableReader) names(row *line) bool {
	return slices.ContainsFunc(tr.exhibitorIn, func(number int) bool { return !nothing(row.at(number)) })
}

// titleOrNote takes a line of a single text as the title of the class below it, or passes over it.
func (tr *tableReader) titleOrNote(index int, filled []xlsx.Cell) {
	line := &tr.table.page.lines[index]
	text := strings.ReplaceAll(writtenOut(filled), " | ", " ")
	if tr.table.kind == carcassTable && tr.animalsBelow(index) {
		switch {
		case keepsOut(text):
			tr.outUnder = tr.setApart(text, line, filled)
			tr.pass(line, filled, "sets apart the carcasses below it")
			return
		case tr.canTitle(index, text):
			tr.title, tr.titleAt, tr.outUnder = className(text), position{line.number, filled[0].Column}, nil
			tr.pass(line, filled, "the title of the class below it")
			return
		case champions.MatchString(text):
			tr.winners = true
		case tr.mayTitle(text) && len(filled) == 1:
			tr.askShortLine(text, line, filled)
			return
		}
	}
	if weightWord.MatchString(text) {
		if weights := titleWeights(text); weights != "" && tr.units.weights == "" && len(tr.animals) == 0 {
			tr.units.weights = weights
		}
	}
	tr.askNote(text, line, filled)
	tr.pass(line, filled, "a note")
	tr.ended = tr.ended || tr.lastAnimal > 0 && line.number > tr.lastAnimal+1
}

// animalsBelow reports whether the next filled line is an animal, or the headings again and then one.
func (tr *tableReader) animalsBelow(index int) bool {
	for _, line := range tr.table.page.lines[index+1:] {
		if line.number > tr.table.lastLine {
			return false
		}
		filled := tr.filled(&line)
		if len(filled) == 0 || tr.table.repeated[line.number] || len(filled) == 1 && filled[0].Kind == xlsx.Text {
			continue
		}
		tag, tagCell := tr.tagOf(&line)
		return !tr.isSummary(&line, filled, tag, tagCell) && (tag != "" || tr.measured(&line) > 0)
	}
	return false
}

// speciesOfLine gives the species of one line: its own word for it, its sex or its class, else the table's.
func (tr *tableReader) speciesOfLine(row *line) rules.Species {
	for _, number := range tr.speciesIn {
		if cell, _ := tr.table.page.covering(row, number); cell.Kind == xlsx.Text {
			if species := tr.reader.species.in(cell.Raw); species != "" {
				return species
			}
		}
	}
	if tr.kind == listTable {
		if species := tr.speciesUnderUnknown(row.number); species != "" {
			return species
		}
	}
	if species := tr.reader.species.in(tr.title); species != "" {
		return species
	}
	if tr.species == "" {
		_, cell := tr.tagOf(row)
		return tr.listed[sameTag(readTag(cell, measure.Tag).reading.Value.Text)]
	}
	return tr.species
}

// speciesUnderUnknown gives the one species that a few words under headings nobody knows ("Dept") name.
func (tr *tableReader) speciesUnderUnknown(number int) (found rules.Species) {
	for _, text := range tr.unknownWords(number) {
		species := tr.reader.species.in(text)
		switch {
		case species == "" || len(strings.Fields(text)) > 3:
		case found != "" && found != species:
			return ""
		default:
			found = species
		}
	}
	return found
}
