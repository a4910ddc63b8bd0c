package intake

import (
	"slices"
	"strings"

	"railbook/rules/measure"
	"railbook/workbook/xlsx"
)

// deepest is over how many lines a heading may run, a line of units not counted.
const deepest = 3

// headings reads the line as the last one of a heading row, alone or with the lines above it, whichever makes the most
// of it known.
func (f *finder) headings(index int) (columns []column, height int) {
	best := 0
	for tall := 1; tall <= deepest && f.canJoin(index, tall) && (tall == 1 || !f.headsAlready(index-tall+1)); tall++ {
		found := f.joined(index, tall)
		if known := distinct(found); known > best || known == best && narrows(found, columns) {
			columns, height, best = found, tall, known
		}
	}
	return columns, height
}

// narrows reports whether headings with a line more make another measure of a column, "chilled" above "carcass weight", and leave none
// unknown that was known.
func narrows(taller, lower []column) bool {
	narrower := false
	for _, was := range lower {
		if len(was.meaning.candidates) == 0 {
			continue
		}
		at := slices.IndexFunc(taller, func(is column) bool { return is.number == was.number })
		if at < 0 || len(taller[at].meaning.candidates) == 0 {
			return false
		}
		narrower = narrower || taller[at].meaning.candidates[0].Measure != was.meaning.candidates[0].Measure
	}
	return narrower
}

// headingsBelow looks whether the heading row goes on in the next line: more of it is known with that line, or the line
// holds nothing but units.
func (f *finder) headingsBelow(index int, columns []column, height int) ([]column, int) {
	if index+1 >= len(f.page.lines) || height > deepest || !f.canJoin(index+1, height+1) || !f.wordsOnly(index+1) {
		return nil, 0
	}
	units := f.unitsOnly(index + 1)
	if height == deepest && !units {
		return nil, 0
	}
	lower := f.joined(index+1, height+1)
	if distinct(lower) > distinct(columns) || units && distinct(lower) >= distinct(columns) {
		return lower, height + 1
	}
	return nil, 0
}

// canJoin reports whether the lines above can be part of the same heading row: they follow on one another and hold no
// numbers.
func (f *finder) canJoin(index, tall int) bool {
	for up := 1; up < tall; up++ {
		above := index - up
		if above < 0 || f.page.lines[above].number != f.page.lines[index].number-up || !f.wordsOnly(above) {
			return false
		}
	}
	return true
}

// headsAlready reports whether a line is a heading of a table that was found.
func (f *finder) headsAlready(index int) bool {
	number := f.page.lines[index].number
	for _, table := range f.tables {
		if number >= table.top && number <= table.bottom || table.repeated[number] {
			return true
		}
	}
	return false
}

func (f *finder) wordsOnly(index int) bool {
	for _, cell := range f.page.lines[index].cells {
		if cell.Kind == xlsx.Number && !nothing(cell) {
			return false
		}
	}
	return true
}

// unitsOnly reports whether a line holds nothing but units, and words that stand in their place where there is no unit.
func (f *finder) unitsOnly(index int) bool {
	units := 0
	for _, cell := range f.page.lines[index].cells {
		if nothing(cell) {
			continue
		}
		text := strings.Trim(clean(cell.Raw), "()[]")
		_, unit := readUnit(withoutWeightState(strings.Trim(brackets.Replace(text), " ")))
		switch {
		case unit:
			units++
		case !inPlaceOfUnit(text):
			return false
		}
	}
	return units > 0
}

// inPlaceOfUnit reports whether a word under a heading says no more than how its cells are written.
func inPlaceOfUnit(text string) bool {
	switch strings.ToLower(strings.Trim(text, "()[]. ")) {
	case "#", "no", "number", "id", "name", "score", "degree", "degrees", "grade", "code", "y/n", "yes/no", "date":
		return true
	}
	return false
}

// joined reads the headings of a line together with the lines above it.
func (f *finder) joined(index, tall int) []column {
	var columns []column
	for _, number := range f.columnsOf(index, tall) {
		if found := f.heading(index, tall, number); found.text != "" {
			columns = append(columns, found)
		}
	}
	f.numberAnimals(columns)
	return columns
}

func (f *finder) columnsOf(index, tall int) []int {
	var numbers []int
	for up := range tall {
		for _, cell := range f.page.lines[index-up].cells {
			if cell.Kind == xlsx.Text && !nothing(cell) && !f.inOpenData(index, cell.Column) {
				numbers = append(numbers, cell.Column)
			}
		}
	}
	slices.Sort(numbers)
	return slices.Compact(numbers)
}

// inOpenData reports whether a column of a line belongs to a data line of a table that is open.
func (f *finder) inOpenData(index, column int) bool {
	for _, table := range f.open {
		if column < table.columns[0].number || column > table.columns[len(table.columns)-1].number {
			continue
		}
		numbers := 0
		for _, cell := range f.page.lines[index].cells {
			if cell.Kind == xlsx.Number && cell.Column >= table.columns[0].number && cell.Column <= table.columns[len(table.columns)-1].number {
				numbers++
			}
		}
		if numbers >= 2 {
			return true
		}
	}
	return false
}

// heading reads one column's heading: its own words with those above it where they make sense together, else its own,
// else (where it has none) those above it.
func (f *finder) heading(index, tall, number int) column {
	texts, places := f.stack(index, tall, number)
	own := texts[len(texts)-1]
	for from := range texts {
		if together := joinWords(texts[from:]); together != "" && (from == len(texts)-1 || own != "" || from < len(texts)-1) {
			if found := f.recognise(together); len(found.candidates) > 0 {
				return column{number: number, at: lowest(texts, places), text: together, meaning: found}
			}
		}
	}
	if above := joinWords(texts[:len(texts)-1]); inPlaceOfUnit(own) && above != "" {
		if found := f.recognise(above); len(found.candidates) > 0 {
			return column{number: number, at: places[len(places)-1], text: above + " " + own, meaning: found}
		}
	}
	if own != "" {
		return column{number: number, at: places[len(places)-1], text: own, meaning: f.recognise(own)}
	}
	text := joinWords(texts)
	return column{number: number, at: lowest(texts, places), text: text, meaning: f.recognise(text)}
}

// stack gives the words over a column from the top down, with the places of their cells. A merged or centred group
// heading counts over every column of the group, but for one that has words of its own further up.
func (f *finder) stack(index, tall, number int) (texts []string, places []position) {
	headed := false
	for up := tall - 1; up >= 0; up-- {
		line := &f.page.lines[index-up]
		cell, at := f.page.covering(line, number)
		switch {
		case !nothing(cell):
			headed = true
		case up > 0 && !headed:
			cell, at = f.groupOver(line, number)
		}
		text := ""
		if cell.Kind == xlsx.Text {
			text = clean(cell.Raw)
		}
		texts, places = append(texts, text), append(places, at)
	}
	return texts, places
}

// groupOver gives the nearest heading to the left on a line above, which may head this column too.
func (f *finder) groupOver(row *line, number int) (xlsx.Cell, position) {
	for left := number - 1; left > 0 && number-left <= 4; left-- {
		cell, at := f.page.covering(row, left)
		if nothing(cell) {
			continue
		}
		if _, unit := readUnit(strings.Trim(clean(cell.Raw), "()[]")); unit {
			break // the unit of that column alone
		}
		return cell, at
	}
	return xlsx.Cell{}, position{row.number, number}
}

// joinWords joins the lines of a heading; a merged cell says its words once.
func joinWords(texts []string) string {
	var words []string
	for _, text := range texts {
		if text != "" && (len(words) == 0 || words[len(words)-1] != text) {
			words = append(words, text)
		}
	}
	return strings.Join(words, " ")
}

func lowest(texts []string, places []position) position {
	for i := len(texts) - 1; i >= 0; i-- {
		if texts[i] != "" {
			return places[i]
		}
	}
	return places[len(places)-1]
}

// distinct counts the different measures that headings are known to mean.
func distinct(columns []column) int {
	seen := map[measure.ID]bool{}
	for _, column := range columns {
		if len(column.meaning.candidates) > 0 {
			seen[column.meaning.candidates[0].Measure] = true
		}
	}
	return len(seen)
}

// split takes the headings of a line apart into tables side by side; what heads nothing is left out.
func (f *finder) split(columns []column) [][]column {
	if len(columns) == 0 {
		return nil
	}
	if at := blankBetween(columns); at > 0 {
		return append(f.split(columns[:at]), f.split(columns[at:])...)
	}
	if at := secondTable(columns); at > 0 && kindOf(columns[:at]) != noTable && kindOf(columns[at:]) != noTable {
		return append([][]column{columns[:at]}, f.split(columns[at:])...)
	}
	if tagged, ok := f.tagByValues(columns); ok {
		return [][]column{tagged}
	}
	if kindOf(columns) == noTable {
		return nil
	}
	return [][]column{columns}
}

// blankBetween gives the first heading after the blank column that parts two tables: a tag or weight heading stands on each
// side, and the cut leaves fewer measures headed twice. A blank column alone parts nothing. 0 where there is none.
func blankBetween(columns []column) (at int) {
	fewest := headedTwice(columns)
	widest := 0
	for i := 1; i < len(columns); i++ {
		gap := columns[i].number - columns[i-1].number
		if gap < 2 || !anchored(columns[:i]) || !anchored(columns[i:]) || kindOf(columns[:i]) == noTable || kindOf(columns[i:]) == noTable {
			continue
		}
		if twice := headedTwice(columns[:i]) + headedTwice(columns[i:]); twice < fewest || at > 0 && twice == fewest && gap > widest {
			at, fewest, widest = i, twice, gap
		}
	}
	return at
}

// anchored reports whether headings name an animal or weigh a carcass.
func anchored(columns []column) bool {
	return slices.ContainsFunc(columns, func(heading column) bool {
		return heading.meaning.is(tagMeasures...) || heading.meaning.is(carcassWeights...)
	})
}

// headedTwice counts the headings that mean what one to their left means already.
func headedTwice(columns []column) (count int) {
	for i, heading := range columns {
		if slices.ContainsFunc(columns[:i], func(other column) bool { return sameMeaning(heading, other) }) {
			count++
		}
	}
	return count
}

// secondTable gives where a second table begins among the headings: where the first heading, or after a gap the tag,
// comes again; 0 where there is none.
func secondTable(columns []column) int {
	if slices.ContainsFunc(columns, func(heading column) bool { return heading.animal > 0 }) {
		return 0 // several animals to a line
	}
	var tags []int
	for i, column := range columns {
		if column.meaning.is(measure.Tag, measure.RailNumber) && sameMeaning(column, firstTag(columns)) {
			tags = append(tags, i)
		}
	}
	if len(tags) < 2 {
		return 0
	}
	for i := tags[0] + 1; i <= tags[1]; i++ {
		if strings.EqualFold(columns[i].text, columns[0].text) || sameMeaning(columns[i], columns[0]) {
			return i
		}
	}
	widest, at := 1, 0
	for i := tags[0] + 1; i <= tags[1]; i++ {
		if gap := columns[i].number - columns[i-1].number; gap > widest {
			widest, at = gap, i
		}
	}
	return at
}

func firstTag(columns []column) column {
	for _, column := range columns {
		if column.meaning.is(measure.Tag, measure.RailNumber) {
			return column
		}
	}
	return column{}
}

func sameMeaning(a, b column) bool {
	return len(a.meaning.candidates) > 0 && len(b.meaning.candidates) > 0 &&
		a.meaning.candidates[0].Measure == b.meaning.candidates[0].Measure
}
