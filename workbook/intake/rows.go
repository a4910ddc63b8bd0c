package intake

import (
	"slices"
	"strings"

	"railbook/grading"
	"railbook/rules"
	"railbook/rules/measure"
	"railbook/validate"
	"railbook/workbook/xlsx"
)

// animal is one line of a table as it was read: a carcass, or an entry of a roster.
type animal struct {
	*grading.Carcass
	line    int
	heading *tableReader
	claims  []claim // the lines of other tables that may say more of it
}

// tableReader reads the lines under one heading row.
type tableReader struct {
	*reader
	table       *table
	sheet       grading.SheetOfReadings
	kind        tableKind
	species     rules.Species // of lines that name none themselves
	speciesWhy  string
	units       titleUnits
	title       string // the class of the last title line; empty for none yet
	titleAt     position
	class       string // the class of lines under no title line
	classWhy    string
	hasClass    bool // a class column
	someClassed bool // in which something is written
	basis       rules.Basis
	tagIn       []int // the columns of tags, the more certain first
	speciesIn   []int // those that may tell the species of a line, the more certain first
	exhibitorIn []int
	parsers     map[rules.Species][]columnParser
	notes       map[noteKey]*columnNote
	order       []noteKey
	animals     []*animal
	headed      map[int]bool // columns with a heading
	lastAnimal  int          // the line of the last animal
	ended       bool         // notes have begun below the animals
	hidden      int
	saidOnce    map[measure.ID]grading.Reading // for every animal of the table
	doubtful    []grading.Reading              // answers to consent that can't be read as a yes
	refused     []grading.Reading              // words that speak against publishing a name
	absent      []absentLine                   // the lines of animals that are not there
	completes   bool                           // it measures other things of the carcasses of another table
	outUnder    *apart                         // the line that sets the carcasses below it apart; nil for none
	unread      []unreadCell
	secondClass bool // two columns say different classes
	setsApart   []*apart
	unlike      map[int]bool // columns that say otherwise than an earlier one of the same measure
	sides       int          // the column that says which side of a carcass a line is about; 0 for none
	differing   []differing  // second values of a measure that are not the first
	// gradesBeside are the grades in brackets behind marbling.
	gradesBeside []gradeBeside
	remarked     []searched // what the words on the line that is being read say
	zeros        bool       // the line that is being read measures nothing but zeros
	winners      bool       // a line said that those named below it won something
	ahead        *answersAhead
	// tagsHaveDigits: there are animals above, all with a digit in their tags. A line in words is none of them then.
	tagsHaveDigits bool
}

type noteKey struct {
	column int
	words  string
}

// columnNote gathers one interpretation over a column.
type columnNote struct {
	count   int
	first   []string // the first cells, with what is written
	measure measure.ID
	at      rules.Place
	read    string
}

// readTable reads every line of a table.
func (r *reader) readTable(t *table) *tableReader {
	tr := &tableReader{
		reader: r, table: t, kind: t.kind, units: unitsOf(t.titles),
		sheet: grading.ReadingsOf(t.page.file, t.page.sheet), unlike: map[int]bool{}, parsers: map[rules.Species][]columnParser{}, notes: map[noteKey]*columnNote{},
	}
	tr.headed = map[int]bool{}
	for _, column := range t.columns {
		tr.headed[column.number] = true
	}
	r.preferNamed(t)
	r.numberOfCarcass(t)
	r.tagInTwo(t)
	r.tagOfWords(t)
	r.marblingInTwo(t)
	r.maturityByValues(t)
	r.namesInTwo(t)
	r.leaveScans(t)
	r.takeWeakClass(t)
	r.takeConsent(t)
	tr.species, tr.speciesWhy = r.speciesOf(t)
	tr.hasClass = slices.ContainsFunc(t.columns, func(heading column) bool { return heading.meaning.is(measure.ClassName) })
	tr.basis = r.basisOf(t)
	tr.takeAdjustedFat()
	tr.takeFatCover()
	tr.takeSides()
	tr.class, tr.classWhy = r.classOf(t)
	tr.readSaidOnce()
	tr.tagIn = t.columnsOf(tagMeasures...)
	tr.speciesIn = t.columnsOf(measure.SpeciesName, measure.ClassName, measure.Sex)
	tr.exhibitorIn = t.columnsOf(measure.Exhibitor)
	tr.readLines()
	tr.settleUnread()
	tr.exhibitorsAbove()
	tr.compareGrades()
	tr.compareAreas()
	tr.reportNotes()
	tr.reportConsent()
	tr.reportAbsent()
	tr.reportApart()
	tr.askHeadingComments()
	tr.classesAbove()
	if tr.kind != carcassTable {
		tr.reportDiffering()
	}
	return tr
}

func (tr *tableReader) readLines() {
	defer func() { tr.ahead.end() }()
	lines := tr.table.page.lines
	start, _ := slices.BinarySearchFunc(lines, tr.table.bottom+1, func(row line, wanted int) int { return row.number - wanted })
	for index := start; index < len(lines) && lines[index].number <= tr.table.lastLine; index++ {
		tr.ahead.nextLine()
		tr.readLine(index)
	}
}

// readLine reads one line, or says why it is passed over.
func (tr *tableReader) readLine(index int) {
	line := &tr.table.page.lines[index]
	filled := tr.filled(line)
	switch {
	case !slices.ContainsFunc(filled, func(cell xlsx.Cell) bool { return !formulaText(cell) }):
		return // blank, but for formulas that wait for something to be filled in
	case tr.table.repeated[line.number]:
		tr.pass(line, filled, "repeats the headings")
		return
	}
	if line.number == tr.table.bottom+1 && inBrackets(filled) {
		tr.pass(line, filled, "explains the headings")
		return
	}
	tag, tagCell := tr.tagOf(line)
	if tr.isSummary(line, filled, tag, tagCell) {
		tr.pass(line, filled, "a line of totals or averages")
		return
	}
	measured := tr.measured(line)
	if tag == "" && tr.namesWinner(filled) {
		tr.pass(line, filled, "names an animal again that was read above")
		tr.absent = append(tr.absent, absentLine{"named again", clean(filled[1].Raw)})
		return
	}
	if tag == "" && measured == 0 && (len(filled) == 1 || tr.classLike(clean(filled[0].Raw))) && words(filled) {
		tr.titleOrNote(index, filled)
		return
	}
	if tag == "" && measured == 0 {
		tr.pass(line, filled, WithoutTag)
		return
	}
	if measured == 0 && len(filled) == 1 && pageLine.MatchString(clean(filled[0].Raw)) {
		tr.pass(line, filled, "the foot of a page")
		return
	}
	if measured == 0 && tr.namesAgain(line, filled, tag) {
		tr.pass(line, filled, "names an animal again that was read above")
		tr.absent = append(tr.absent, absentLine{"named again", tag})
		return
	}
	if measured == 0 && tr.onlyNumbered(filled) {
		tr.pass(line, filled, "has a number and nothing else")
		tr.absent = append(tr.absent, absentLine{"numbered in advance", tag})
		return
	}
	if tr.kind == carcassTable && !tr.measuredOnRail(line) {
		if words := tr.absence(line, filled); words != "" {
			tr.pass(line, filled, "did not compete")
			tr.absent = append(tr.absent, absentLine{"did not compete", tag + " (" + words + ")"})
			return
		}
	}
	if tr.ended && measured < 2 {
		tr.pass(line, filled, "stands below the notes under the table and has no two measurements")
		return
	}
	if tag == "" && measured == 1 && !tr.names(line) && tr.kind == carcassTable {
		tr.pass(line, filled, "has no tag and only one value")
		tr.find(validate.Finding{
			Level: validate.Look, Code: "row without tag", At: tr.table.page.place(position{line.number, filled[0].Column}),
			Read: writtenOut(filled), Message: "This line has one value but no tag, so it was not read as a carcass. If it is one, write its tag.",
		})
		return
	}
	tr.zeros = tr.onlyZeros(line)
	for _, number := range tr.animalsOf(line) {
		tr.animal(line, filled, number)
	}
	if len(tr.animals) > 0 {
		tr.findAhead(index, tr.animals[len(tr.animals)-1].Species)
	}
	tr.zeros = false
}

// filled gives the cells of a line that belong to the table and hold something.
func (tr *tableReader) filled(row *line) []xlsx.Cell {
	holds := func(cell xlsx.Cell) bool {
		return cell.Column >= tr.table.first && cell.Column <= tr.table.last && !nothing(cell)
	}
	if !slices.ContainsFunc(row.cells, func(cell xlsx.Cell) bool { return !holds(cell) }) {
		return row.cells
	}
	cells := make([]xlsx.Cell, 0, len(row.cells))
	for _, cell := range row.cells {
		if holds(cell) {
			cells = append(cells, cell)
		}
	}
	return cells
}

// tagOf gives what stands in the line's first tag cell.
func (tr *tableReader) tagOf(row *line) (string, xlsx.Cell) {
	for _, number := range tr.tagIn {
		cell, _ := tr.table.page.covering(row, number)
		if nothing(cell) {
			continue
		}
		if cell.Kind == xlsx.Text && !tagLike(cell.Raw) && (!strings.ContainsAny(cell.Raw, "0123456789") || tr.measured(row) == 0) {
			continue
		}
		return clean(cell.Raw), cell
	}
	return "", xlsx.Cell{}
}

// animal reads a line as a carcass or an entry: the one with this number where several stand on it, else with 0.
func (tr *tableReader) animal(row *line, filled []xlsx.Cell, number int) {
	if row.hidden {
		tr.hidden++
	}
	carcass := &grading.Carcass{Basis: tr.basis, Sequence: tr.made}
	tr.made++
	carcass.GrowReadings(tr.readingsAbove())
	carcass.Place = tr.table.page.place(position{row.number, filled[0].Column})
	carcass.Species = tr.speciesOfLine(row)
	if earlier := tr.continued(row); earlier != nil {
		carcass = earlier.Carcass
	} else if earlier := tr.otherSideOf(row); earlier != nil {
		carcass = earlier.Carcass
	}
	tr.remarked = tr.remarked[:0]
	for i, under := range tr.parsersFor(carcass.Species) {
		if under.column.animal == 0 || under.column.animal == number {
			tr.readCell(carcass, row, under, tr.ahead.of(carcass.Species, i))
		}
	}
	for _, cell := range filled {
		if !tr.headed[cell.Column] {
			tr.passCell(carcass, row, cell)
		}
	}
	tr.outUnder.keepOut(carcass)
	tr.searchComments(carcass, row)
	tr.refusedInWords(carcass)
	tr.questionValues(carcass)
	tr.struckOut(carcass, row, filled)
	tr.takeSaidOnce(carcass)
	tr.lastAnimal = row.number
	if len(tr.animals) > 0 && tr.animals[len(tr.animals)-1].Carcass == carcass {
		return
	}
	tr.name(carcass)
	tr.tagsHaveDigits = (tr.tagsHaveDigits || len(tr.animals) == 0) && strings.ContainsAny(carcass.Tag, "0123456789")
	tr.animals = append(tr.animals, &animal{Carcass: carcass, line: row.number, heading: tr})
}

// readingsAbove is how many measures the animal above has: the next one mostly has as many, and room for more is memory lost.
func (tr *tableReader) readingsAbove() int {
	if len(tr.animals) == 0 {
		return 0
	}
	return tr.animals[len(tr.animals)-1].CountReadings()
}

// continued gives the animal above where one merged tag cell covers both lines.
func (tr *tableReader) continued(row *line) *animal {
	if len(tr.animals) == 0 || len(tr.table.page.merged) == 0 {
		return nil
	}
	last := tr.animals[len(tr.animals)-1]
	for _, column := range tr.table.columns {
		if column.meaning.is(measure.Tag) {
			cell, at := tr.table.page.covering(row, column.number)
			if !nothing(cell) && at.line < row.number && at.line == last.line {
				return last
			}
		}
	}
	return nil
}

// name gives the carcass its tag and class from what was read.
func (tr *tableReader) name(carcass *grading.Carcass) {
	for _, id := range []measure.ID{measure.Tag, measure.ElectronicTag, measure.RailNumber} {
		if reading, ok := carcass.Reading(id); ok && (id == measure.Tag || !tr.hasColumn(measure.Tag)) {
			carcass.Tag, carcass.Place = reading.Value.Text, reading.Place
			break
		}
	}
	if reading, ok := carcass.Reading(measure.ClassName); ok {
		carcass.Class = reading.Value.Text
	} else if tr.title != "" {
		carcass.Class = tr.title
	}
	if reading, ok := carcass.Reading(measure.BasisName); ok {
		if scanned(reading.Value.Text) {
			carcass.Basis = rules.LiveScan
		} else {
			carcass.Basis = rules.OnTheRail
		}
	}
}

func (tr *tableReader) hasColumn(id measure.ID) bool { return tr.table.has(id) }

// columnsOf gives the columns of measures, in the order of the measures.
func (t *table) columnsOf(ids ...measure.ID) (numbers []int) {
	for _, id := range ids {
		for _, column := range t.columns {
			if column.meaning.is(id) {
				numbers = append(numbers, column.number)
			}
		}
	}
	return numbers
}

func (t *table) has(id measure.ID) bool {
	return slices.ContainsFunc(t.columns, func(heading column) bool { return heading.meaning.is(id) })
}

// pass records a line that was not read.
func (tr *tableReader) pass(row *line, filled []xlsx.Cell, why string) {
	tr.result.Passed = append(tr.result.Passed, PassedOver{
		At:      tr.table.page.place(position{row.number, filled[0].Column}),
		Written: writtenOut(filled), Why: why, Line: true,
	})
}

// writtenOut gives what stands in a line, shortened.
func writtenOut(cells []xlsx.Cell) string {
	var texts []string
	for _, cell := range cells {
		if cell.Formula {
			texts = append(texts, "(formula)") // its value changes whenever a cell it reads is corrected
			continue
		}
		texts = append(texts, clean(cell.Raw))
	}
	text := []rune(strings.Join(texts, " | "))
	if len(text) > 120 {
		return string(text[:120]) + "…"
	}
	return string(text)
}
