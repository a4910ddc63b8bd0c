package intake

import (
	"slices"
	"strings"

	"railbook/rules/measure"
	"railbook/workbook/xlsx"
)

// tableKind is what a stretch of a sheet holds.
type tableKind int

const (
	noTable      tableKind = iota
	carcassTable           // carcasses with their measures
	listTable              // a roster: animals without carcass measures
	historyTable           // old tags and the tags that took their place
)

// column is one heading with what it means.
type column struct {
	number  int
	at      position // the heading's lowest cell
	text    string   // its lines joined
	meaning meaning
	left    bool // it was left unread, and that was said
	// outranked: another heading was named for what this one would mean.
	outranked bool
	behind    int // the column that holds the place within its degrees of marbling; 0 for none
	before    int // the column that holds the first half of its tags; 0 for none
	animal    int // which of the animals of a line it is about, from 1; 0 for all
	readable  int // how many of its cells could be read
}

// table is one heading row with the lines under it.
type table struct {
	page        *page
	kind        tableKind
	top, bottom int // the heading's first and last line
	first, last int // the columns that belong to it
	columns     []column
	lastLine    int
	repeated    map[int]bool // lines that repeat the headings
	titles      []title      // what stands above the headings, nearest last
	beside      bool         // another table stands to its right
}

// title is one line of text above a table or between its rows.
type title struct {
	at   position
	text string
}

// finder looks for tables on one page, from the top down.
type finder struct {
	page       *page
	vocabulary *vocabulary
	tables     []*table
	open       []*table // those that still run
	// twoLanguages: the headings of the page stand in two languages.
	twoLanguages bool
}

// findTables gives the tables of a page in the order in which their headings stand.
func findTables(p *page, v *vocabulary) []*table {
	f := &finder{page: p, vocabulary: v}
	f.twoLanguages = f.bilingual()
	for index := 0; index < len(p.lines); {
		index += f.visit(index)
	}
	for _, table := range slices.Clone(f.open) {
		f.close(table, lastNumber(p))
	}
	f.setBounds()
	return f.tables
}

func lastNumber(p *page) int {
	if len(p.lines) == 0 {
		return 0
	}
	return p.lines[len(p.lines)-1].number
}

// visit looks whether headings end at this line and gives how many lines are done with.
func (f *finder) visit(index int) int {
	if f.plainData(index) {
		return 1
	}
	columns, height := f.headings(index)
	segments := f.split(columns)
	if len(segments) == 0 {
		return 1
	}
	used := 1
	for {
		lower, lowerHeight := f.headingsBelow(index, columns, height)
		deeper := f.split(lower)
		if lower == nil || len(deeper) < len(segments) {
			break
		}
		columns, segments, height, index, used = lower, deeper, lowerHeight, index+1, used+1
	}
	for _, segment := range segments {
		f.begin(segment, f.page.lines[index+1-height].number, f.page.lines[index].number)
	}
	return used
}

// plainData reports whether a line is nothing but another line of the one table that is open: the usual case, and the
// one that must be quick.
func (f *finder) plainData(index int) bool {
	if len(f.open) != 1 {
		return false
	}
	numbers, texts, last := 0, 0, f.open[0].columns[len(f.open[0].columns)-1].number
	for _, cell := range f.page.lines[index].cells {
		switch {
		case cell.Kind == xlsx.Number:
			numbers++
		case cell.Kind == xlsx.Text && cell.Column > last+1:
			return false
		case cell.Kind == xlsx.Text:
			texts++
		}
	}
	return numbers >= 2
}

// begin opens a table, or takes the headings as a repetition of those of an open one.
func (f *finder) begin(columns []column, top, bottom int) {
	first, last := columns[0].number, columns[len(columns)-1].number
	for _, running := range slices.Clone(f.open) {
		runningLast := running.columns[len(running.columns)-1].number
		if last < running.columns[0].number || first > runningLast {
			continue
		}
		if repeats(running.columns, columns) {
			for number := top; number <= bottom; number++ {
				running.repeated[number] = true
			}
			return
		}
		f.close(running, top-1)
	}
	started := &table{
		page: f.page, kind: kindOf(columns), top: top, bottom: bottom, first: first, last: last,
		columns: columns, repeated: map[int]bool{},
	}
	started.titles = f.titlesAbove(started)
	f.tables = append(f.tables, started)
	f.open = append(f.open, started)
}

func (f *finder) close(above *table, lastLine int) {
	above.lastLine = lastLine
	f.open = slices.DeleteFunc(f.open, func(other *table) bool { return other == above })
}

// repeats reports whether the headings are those of a table already open, column for column.
func repeats(running, columns []column) bool {
	same := 0
	for _, heading := range columns {
		index := slices.IndexFunc(running, func(other column) bool { return other.number == heading.number })
		if index < 0 {
			return false
		}
		if strings.Join(fold(running[index].text), " ") == strings.Join(fold(heading.text), " ") {
			same++
		}
	}
	return same*5 >= len(columns)*4
}

// titlesAbove gives the lines of text above a table, down from the end of whatever stands above it.
func (f *finder) titlesAbove(started *table) []title {
	var titles []title
	for index := len(f.page.lines) - 1; index >= 0; index-- {
		line := &f.page.lines[index]
		if line.number >= started.top {
			continue
		}
		if started.top-line.number > 12 || f.within(line.number, started) {
			break
		}
		var words []string
		at := position{}
		for _, cell := range line.cells {
			if cell.Kind == xlsx.Text && !nothing(cell) && cell.Column >= started.first-1 && cell.Column <= started.last+1 {
				if len(words) == 0 {
					at = position{line.number, cell.Column}
				}
				words = append(words, clean(cell.Raw))
			}
		}
		if len(words) > 0 && len(words) <= 4 {
			titles = append(titles, title{at, strings.Join(words, " ")})
		}
	}
	slices.Reverse(titles)
	return titles
}

// within reports whether a line is a data line or a heading of another table over the same columns.
func (f *finder) within(number int, started *table) bool {
	for _, other := range f.tables {
		if started.first > other.last || started.last < other.first || number < other.top {
			continue
		}
		if other.lastLine == 0 || number <= other.lastLine {
			line := f.page.lineNumbered(number)
			filled := 0
			for _, cell := range line.cells {
				if !nothing(cell) {
					filled++
				}
			}
			if number <= other.bottom || filled > 2 {
				return true
			}
		}
	}
	return false
}

// setBounds gives every table the columns up to the next one beside it, and those to its left that are nobody's.
func (f *finder) setBounds() {
	var leftmost []*table
	for _, table := range f.tables {
		alone := true
		limit := 1 << 20
		for _, other := range f.tables {
			if other == table || other.top > table.lastLine || table.top > other.lastLine {
				continue
			}
			if other.first > table.first {
				limit = min(limit, other.first-1)
				table.beside = true
			} else {
				alone = false
			}
		}
		table.last = limit
		if alone {
			leftmost = append(leftmost, table)
		}
	}
	for _, table := range leftmost {
		table.first = 1
	}
}

// kindOf says what a row of headings heads.
func kindOf(columns []column) tableKind {
	tagged, old, weights, measures, others := false, false, 0, 0, 0
	for _, column := range columns {
		switch {
		case len(column.meaning.candidates) == 0:
		case column.meaning.is(measure.OldTag):
			old = true
		case column.meaning.is(measure.Tag, measure.ElectronicTag, measure.RailNumber):
			tagged = true
		case column.meaning.is(carcassWeights...):
			weights++
		case column.meaning.measuresCarcass():
			measures++
		default:
			others++
		}
	}
	switch {
	case tagged && (weights > 0 || measures >= 2):
		return carcassTable
	case old && tagged && measures == 0 && !named(columns):
		return historyTable
	case tagged && others > 0:
		return listTable
	case measures == 0 && railed(columns):
		return historyTable // which tag each rail number is
	case weights > 0 && measures > 0 && named(columns):
		return carcassTable // without tags: every row is asked for its own
	}
	return noTable
}

// named reports whether the rows under the headings name an exhibitor, so that they are animals and no averages.
func named(columns []column) bool {
	return slices.ContainsFunc(columns, func(heading column) bool { return heading.meaning.is(measure.Exhibitor) })
}

func railed(columns []column) bool {
	return slices.ContainsFunc(columns, func(heading column) bool { return heading.meaning.is(measure.RailNumber) }) &&
		slices.ContainsFunc(columns, func(heading column) bool { return heading.meaning.is(measure.Tag) })
}

var carcassWeights = []measure.ID{
	measure.HotCarcassWeight, measure.ChilledCarcassWeight, measure.LeftSideWeight, measure.RightSideWeight,
}

// offTheRail are numbers and words of the live animal or of the sheet's own reckoning: they make no sheet a carcass
// sheet.
var offTheRail = []measure.ID{
	measure.LiveWeight, measure.FairWeight, measure.StartWeight, measure.LivePlacing,
	measure.SheetYieldGrade, measure.SheetQualityGrade, measure.SheetDressingPercent, measure.SheetCutability,
}

// measuresCarcass reports whether a heading can mean something measured on the carcass, or scanned for it.
func (m meaning) measuresCarcass() bool {
	for _, candidate := range m.candidates {
		definition, known := measure.Define(candidate.Measure)
		if !known || slices.Contains(offTheRail, candidate.Measure) {
			continue
		}
		switch definition.Kind {
		case measure.KindNumber, measure.KindMarbling, measure.KindMaturity, measure.KindGrade:
			return true
		}
	}
	return false
}
