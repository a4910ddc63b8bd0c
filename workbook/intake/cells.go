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

	"github.com/shopspring/decimal"
)

// columnParser says how the cells under one heading are read for animals of one species.
type columnParser struct {
	column *column
	parser *cellParser    // nil where the heading is no measure of the species, or no heading we know
	about  unknownHeading // where there is no parser
}

// parsersFor makes the parsers of a species once.
func (tr *tableReader) parsersFor(species rules.Species) []columnParser {
	if known, ok := tr.parsers[species]; ok {
		return known
	}
	var list []columnParser
	for i := range tr.table.columns {
		parser := columnParser{column: &tr.table.columns[i]}
		if heading, ok := tr.headingFor(parser.column, species); ok {
			parser.parser = tr.parserFor(parser.column, heading, species)
		} else if len(parser.column.meaning.candidates) > 0 {
			tr.result.Passed = append(tr.result.Passed, PassedOver{
				At: tr.table.page.place(parser.column.at), Written: parser.column.text,
				Why: "the column is not a measure of " + string(species) + "; its cells were not read for that species",
			})
		}
		if parser.parser == nil {
			parser.about = unknownHeadingOf(parser.column.text)
		}
		list = append(list, parser)
	}
	tr.parsers[species] = list
	return list
}

// headingFor gives what a column means for a species: a carcass weight that is declared chilled, by its own heading or
// for the whole table, is one.
func (tr *tableReader) headingFor(under *column, species rules.Species) (rules.Heading, bool) {
	heading, ok := under.meaning.of(species)
	if !ok {
		return heading, false
	}
	switch heading.Measure {
	case measure.HotCarcassWeight:
		if under.meaning.byHand || statedWeights(under.text) != "" {
			break
		}
		weights := tr.units.weights
		if weights == "" {
			weights = tr.book.Settings.Weights
		}
		if weights == rules.WeightsChilled && !tr.hasColumn(measure.ChilledCarcassWeight) {
			heading.Measure = measure.ChilledCarcassWeight
		}
	case measure.LiveWeight:
		if tr.kind == listTable && !tr.hasColumn(measure.FairWeight) {
			heading.Measure = measure.FairWeight // a roster is the fair's own, so the one weight on it is the fair's
		}
	}
	return heading, true
}

func (tr *tableReader) parserFor(under *column, heading rules.Heading, species rules.Species) *cellParser {
	definition, _ := measure.Define(heading.Measure)
	p := &cellParser{
		definition: definition, heading: under.text, species: species, vocabulary: tr.vocabulary,
		decimalComma: tr.table.page.decimalComma, text: tr.table.page.text,
		date1904: tr.table.page.date1904, marbling: tr.book.Settings.MarblingScale,
	}
	if scale, ok := scaleInHeading(under.text); ok {
		p.marbling = scale
	}
	p.scale = newScale(definition.Unit, definition.Unit, "1", "1")
	switch {
	case scales[under.meaning.unit].base == definition.Unit && definition.Unit != "":
		p.scale = scales[under.meaning.unit]
	case scales[heading.Unit].base == definition.Unit && definition.Unit != "":
		p.scale = scales[heading.Unit]
	default:
		if given, ok := tr.units.units[definition.Unit]; ok && definition.Unit != "" {
			p.scale = given
		}
	}
	return p
}

var marblingScaleInHeading = phrase.NewPattern(`(?i)\b(?:sm|small)\s*(?:=|is)\s*(\d+)`)

// scaleInHeading gives the marbling scale that a heading declares: "Marbling (Small = 4)".
func scaleInHeading(text string) (rules.MarblingScale, bool) {
	found := marblingScaleInHeading.FindStringSubmatch(text)
	if found == nil {
		return "", false
	}
	switch found[1] {
	case "4":
		return rules.MarblingSince22, true
	case "5":
		return rules.MarblingBefore22, true
	case "6":
		return rules.MarblingReversed, true
	case "400":
		return rules.MarblingHundreds, true
	}
	return "", false
}

// readCell reads one cell of an animal's line, of which the answer may have been found ahead.
func (tr *tableReader) readCell(carcass *grading.Carcass, row *line, under columnParser, found answer) {
	p := under.parser
	if p == nil {
		tr.searchUnknown(carcass, row, under)
		return
	}
	if found.known() {
		at := position{row.number, under.column.number}
		if !tr.takeAnswer(carcass, under, p, at, found) {
			tr.readUnusual(carcass, row, under, p, row.at(under.column.number), at, found.asParsed())
		}
		return
	}
	p = tr.ofSide(row, p)
	id := p.definition.ID
	cell, at := row.at(under.column.number), position{row.number, under.column.number}
	if nothing(cell) {
		covering, origin := tr.table.page.covering(row, under.column.number)
		if nothing(covering) {
			return
		}
		if p.definition.Kind != measure.KindText {
			tr.mergedValue(carcass, id, at, origin)
			return
		}
		cell, at = covering, origin
	}
	if formulaText(cell) {
		return
	}
	cell = tr.withPlaceBehind(row, under.column, cell)
	if found = p.answer(cell); !tr.takeAnswer(carcass, under, p, at, found) {
		tr.readUnusual(carcass, row, under, p, cell, at, found.asParsed())
	}
}

// takeAnswer takes the value of a cell about which nothing more is to be done; it is false of others.
func (tr *tableReader) takeAnswer(carcass *grading.Carcass, under columnParser, p *cellParser, at position, found answer) bool {
	if found.parsed != nil || tr.zeros || under.column.before != 0 || carcass.HasWritten(p.definition.ID) {
		return false
	}
	column, row := tr.table.page.own(at)
	carcass.SetShared(p.definition.ID, found.shared, tr.sheet, column, row)
	under.column.readable++
	return true
}

// readUnusual reads a cell that more is to be done about than to take its value.
func (tr *tableReader) readUnusual(carcass *grading.Carcass, row *line, under columnParser, p *cellParser, cell xlsx.Cell, at position, parsed parsedCell) {
	id, place := p.definition.ID, tr.table.page.place(at)
	if tr.zeros && (under.column.meaning.measuresCarcass() || under.column.meaning.is(carcassWeights...)) {
		tr.result.Passed = append(tr.result.Passed, PassedOver{At: place, Written: clean(cell.Raw), Why: "is 0, as is every measure on this line"})
		return
	}
	if parsed.absent {
		tr.result.Passed = append(tr.result.Passed, PassedOver{At: place, Written: clean(cell.Raw), Why: "says that there is no value"})
		return
	}
	reading := parsed.reading
	reading.Place = place
	if id == measure.Tag && under.column.before > 0 {
		reading = tr.joinedTag(row, under.column, reading)
	}
	if earlier, twice := carcass.Written(id); twice && earlier.Place != place {
		if joined, ok := tr.joinNames(earlier, reading, under); ok {
			carcass.SetReading(id, joined)
			return
		}
		tr.secondValue(carcass, p, under.column, earlier, reading)
		return
	}
	carcass.SetReading(id, reading)
	if !reading.Unreadable {
		under.column.readable++
	}
	if grade, whole, ok := grading.ParseQualityGrade(parsed.grade); ok && !reading.Unreadable {
		tr.gradesBeside = append(tr.gradesBeside, gradeBeside{carcass, reading, grade, whole})
	}
	if parsed.note != "" {
		tr.note(under.column, parsed.note, id, reading)
	}
	switch {
	case reading.Unreadable && id == measure.Consent:
		tr.doubtConsent(reading)
	case reading.Unreadable:
		tr.unreadable(carcass, id, reading, parsed)
		tr.unread = append(tr.unread, unreadCell{under.column, carcass, id, reading, foreignTo(p.definition.Kind, parsed, reading.Written), parsed.code})
	}
	switch {
	case id == measure.Remarks || reading.Unreadable && id != measure.Consent:
		tr.searchRemark(carcass, reading, under.column.number)
	case p.definition.Kind == measure.KindText:
		tr.searchName(carcass, reading, under.column.text, under.column.number)
	}
}

// oldestDate is the day before which no date of a carcass lies, 1982-02-24, as a spreadsheet program counts days: a number
// below it that is shown as a date was typed into a cell that had been made one.
var oldestDate = decimal.NewFromInt(30000)

// readUndated reads a cell, and one that is formatted as a date but holds a number that is none by that number.
func (p *cellParser) readUndated(cell xlsx.Cell) (xlsx.Cell, parsedCell) {
	if !cell.Date || cell.Kind != xlsx.Number || p.definition.Kind == measure.KindDate {
		return cell, p.read(cell)
	}
	if number, err := decimal.NewFromString(cell.Raw); err != nil || !number.LessThan(oldestDate) {
		return cell, p.read(cell)
	}
	cell.Date = false
	parsed := p.read(cell)
	if parsed.problem == "" && parsed.note == "" {
		parsed.note = "shown as a date by the format of the cell, and read as the number that it holds"
	}
	return cell, parsed
}

// writtenCell gives what a person sees in a cell.
func writtenCell(cell xlsx.Cell, date1904 bool) string {
	switch {
	case cell.Kind == xlsx.Number && cell.Percent:
		if shifted, err := percentShown(cell.Raw); err == nil {
			return shifted
		}
	case cell.Kind == xlsx.Number && cell.Date:
		if day, ok := dayOf(cell.Raw, date1904); ok {
			return day.Format("2006-01-02")
		}
	}
	return clean(cell.Raw)
}

func (tr *tableReader) unreadable(carcass *grading.Carcass, id measure.ID, reading grading.Reading, parsed parsedCell) {
	code := parsed.code
	if code == "" {
		code = "unreadable value"
	}
	written := ""
	if reading.Written != "" {
		written = " " + phrase.Quote(reading.Written)
	}
	message := id.String() + written + " " + parsed.problem + "."
	if parsed.hint != "" {
		message += " It may be " + parsed.hint + "."
	}
	tr.find(validate.Finding{
		Level: validate.Hold, Code: code, At: reading.Place, Measure: id, Read: reading.Written,
		Message: message, Hint: parsed.hint, Carcass: carcass,
	})
}

// secondValue deals with a second cell for the same measure of one carcass.
func (tr *tableReader) secondValue(carcass *grading.Carcass, p *cellParser, under *column, earlier, second grading.Reading) {
	if !second.Unreadable && !earlier.Unreadable && sameValue(p.definition.Kind, earlier.Value, second.Value) {
		tr.result.Passed = append(tr.result.Passed, PassedOver{
			At: second.Place, Written: second.Written, Why: "says the same as cell " + earlier.Place.Cell,
		})
		return
	}
	id := p.definition.ID
	if id == measure.Consent {
		earlier.Unreadable = true // two answers are no yes
		carcass.SetReading(id, earlier)
		tr.doubtConsent(second)
		return
	}
	tr.unlike[under.number] = true
	tr.secondClass = tr.secondClass || id == measure.ClassName
	if isTag(id) || p.definition.Kind == measure.KindText || tr.restsNothingOn(id) {
		tr.result.Passed = append(tr.result.Passed, PassedOver{
			At: second.Place, Written: second.Written,
			Why: "a second " + id.String() + "; that of cell " + earlier.Place.Cell + " was taken",
		})
		return
	}
	counts := "correct the other"
	if !tr.headedAlike(under) {
		counts += ", or name the right column, --column " + phrase.Quote(id.String()+"="+under.text)
	}
	tr.differing = append(tr.differing, differing{under, validate.Finding{
		Level: validate.Hold, Code: "two values for one measure", At: second.Place, Measure: id, Read: second.Written,
		Message: fmt.Sprintf("%s is written twice, as %s in cell %s and as %s here. Say which one counts: %s.",
			id, phrase.Quote(earlier.Written), earlier.Place.Cell, phrase.Quote(second.Written), counts),
		Carcass: carcass,
	}})
}

// headedAlike reports whether no name tells a column from another that was read: it has the same heading as another, or is
// itself read twice for a carcass, on the line of either side.
func (tr *tableReader) headedAlike(under *column) bool {
	return tr.sides != 0 || slices.ContainsFunc(tr.table.columns, func(other column) bool {
		return other.number != under.number && slices.Equal(fold(other.text), fold(under.text))
	})
}

// sameValue reports whether two values of a kind are equal.
func sameValue(kind measure.Kind, a, b measure.Value) bool {
	if kind == measure.KindText {
		return strings.EqualFold(a.Text, b.Text)
	}
	return a.Number.Equal(b.Number)
}

// mergedValue asks about a measurement merged over two carcasses.
func (tr *tableReader) mergedValue(carcass *grading.Carcass, id measure.ID, at, origin position) {
	from := tr.table.page.place(origin)
	if origin.line == at.line || carcass.ReadingOf(id).Place == from {
		return
	}
	tr.find(validate.Finding{
		Level: validate.Look, Code: "merged value", At: tr.table.page.place(at), Measure: id,
		Message: fmt.Sprintf("The %s of this carcass is covered by a merged cell that begins at %s and was read for the carcass there alone. Unmerge the cells and write each carcass its own value.", id, from.Cell),
		Carcass: carcass,
	})
}

// passCell records a cell that no heading stands above. A condition it names is raised all the same.
func (tr *tableReader) passCell(carcass *grading.Carcass, row *line, cell xlsx.Cell) {
	place := tr.table.page.place(position{row.number, cell.Column})
	tr.result.Passed = append(tr.result.Passed, PassedOver{At: place, Written: clean(cell.Raw), Why: "no heading stands above it"})
	if cell.Kind == xlsx.Text {
		tr.searchRemark(carcass, grading.Reading{Value: measure.Value{Text: clean(cell.Raw)}, Place: place, Written: clean(cell.Raw)}, cell.Column)
	}
}
