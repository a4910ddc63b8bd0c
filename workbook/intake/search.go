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

// searched is a text on a carcass's line that was looked through for conditions.
type searched struct {
	text   string
	at     rules.Place
	what   string // "the remark", `the cell under "Disposition"`
	column int    // 0 where it belongs to no column
	known  bool   // nobody need be asked what the column means
}

// onThisCell is what a comment is called, whose place is the cell that it is attached to.
const onThisCell = "the comment on this cell"

// said names the words with what they stand in.
func (s searched) said() string {
	if s.what == "the remark" {
		return "the remark " + phrase.Quote(s.text)
	}
	return s.what + ", " + phrase.Quote(s.text) + ","
}

// raised is a condition that words named, kept until every mark is read.
type raised struct {
	validate.Finding
	from      *tableReader
	column    int
	condition measure.ID
}

// searchRemark raises every condition that a remark, or a value that can't be read, names.
func (tr *tableReader) searchRemark(carcass *grading.Carcass, remark grading.Reading, column int) {
	words := searched{remark.Written, remark.Place, "the remark", column, true}
	if !remark.Unreadable {
		tr.remarked = append(tr.remarked, words)
	}
	tr.raise(carcass, words, conditionsNamed(remark.Written))
}

// searchUnknown looks through a cell whose column is not known, or is no measure of the species.
func (tr *tableReader) searchUnknown(carcass *grading.Carcass, row *line, parser columnParser) {
	under := parser.column
	cell := row.at(under.number)
	if nothing(cell) || formulaText(cell) || cell.Date {
		return
	}
	text := writtenCell(cell, tr.table.page.date1904)
	lettered := hasLetter(text)
	if !lettered && !parser.about.lettered {
		return
	}
	found := parser.about.named(text)
	remarked := lettered && cell.Kind == xlsx.Text
	if len(found) == 0 && !remarked {
		return
	}
	words := searched{text, tr.table.page.place(position{row.number, under.number}), "the cell under " + phrase.Quote(under.text), under.number, false}
	if remarked {
		tr.remarked = append(tr.remarked, words)
	}
	tr.raise(carcass, words, found)
}

// searchName looks through a name, a club, a class and the like: only as the whole of the cell are its words a condition.
func (tr *tableReader) searchName(carcass *grading.Carcass, reading grading.Reading, heading string, column int) {
	if found := namedInName(reading.Written); len(found) > 0 {
		tr.raise(carcass, searched{reading.Written, reading.Place, "the cell under " + phrase.Quote(heading), column, false}, found)
	}
}

// searchComments looks through the comments on a carcass's line.
func (tr *tableReader) searchComments(carcass *grading.Carcass, row *line) {
	for _, comment := range tr.table.page.commentsOn(row.number) {
		if comment.at.column < tr.table.first || comment.at.column > tr.table.last {
			continue
		}
		text := shortened(clean(comment.text))
		words := searched{text, tr.table.page.place(comment.at), onThisCell, 0, true}
		tr.remarked = append(tr.remarked, words)
		tr.raise(carcass, words, conditionsNamed(text))
	}
}

// askHeadingComments asks about comments on headings that say how a column's values are to be taken: a unit, hot or chilled, or
// that they are doubtful. They hold for every line, and no line is read by them.
func (tr *tableReader) askHeadingComments() {
	for number := tr.table.top; number <= tr.table.bottom; number++ {
		for _, comment := range tr.table.page.commentsOn(number) {
			heading, headed := tr.columnNumbered(comment.at.column)
			text := shortened(clean(comment.text))
			if !headed || len(heading.meaning.candidates) == 0 || comment.at.column < tr.table.first || comment.at.column > tr.table.last {
				continue
			}
			weights := statedWeights(text)
			unit := unitInTitle.FindString(text)
			written, known := readUnit(unit)
			own := heading.meaning.unit
			if definition, ok := measure.Define(heading.meaning.candidates[0].Measure); ok && own == "" {
				own = definition.Unit
			}
			other := known && own != written.unit && unitSpeech.MatchString(text)
			if !other && !(weights != "" && heading.meaning.is(carcassWeights...) && weights != statedWeights(heading.text)) &&
				!saidWrong.MatchString(text) && !takenOff.MatchString(text) {
				continue
			}
			tr.find(validate.Finding{
				Level: validate.Look, Code: "comment on a heading", At: tr.table.page.place(comment.at), Read: text,
				Message: fmt.Sprintf("The comment on the heading %s, %s, says how the values below it are to be taken, and they were not read by it. Write it into the heading (such as \"Chilled weight\", or a unit) and take the comment off, or correct the values; or accept as is.",
					phrase.Quote(heading.text), phrase.Quote(text)),
			})
		}
	}
}

// shortened cuts a long text where a decision about it would have to repeat it.
func shortened(text string) string {
	if letters := []rune(text); len(letters) > 200 {
		return string(letters[:200]) + "…"
	}
	return text
}

// raise keeps what words were found to name, to be asked once every mark is read.
func (tr *tableReader) raise(carcass *grading.Carcass, words searched, found []condition) {
	for _, condition := range found {
		if definition, marked := measure.Define(condition.measure); marked && carcass.Species != "" && !definition.For(string(carcass.Species)) {
			continue // nothing is graded, priced or placed by it here
		}
		finding := validate.Finding{
			Level: condition.level, Code: "condition named", At: words.at, Measure: condition.measure, Read: words.text, Hint: "yes", Carcass: carcass,
		}
		says := words.said()
		if words.what == "the remark" {
			finding.Code = RemarkNamesCondition
		}
		if !words.known && (condition.measure == measure.DarkCutter || condition.measure == measure.Trimmed) && !plainNo.MatchString(words.text) {
			finding.Level = validate.Hold // under a heading that is not known nobody has said how much it matters
		}
		switch condition.measure {
		case notCompeting:
			finding.Code, finding.Hint = "may not compete", ""
			finding.Message = says + " says that this animal does not compete, but it has measures. If so, leave it out in the Judge review sheet; otherwise accept as is."
		case measure.HotCarcassWeight:
			finding.Hint = ""
			finding.Message = says + " says that this carcass was weighed cold. If so, correct its hot carcass weight; otherwise accept as is."
		case measure.Tag:
			finding.Hint = ""
			finding.Message = says + " speaks of the tag. If this is another animal's tag, correct it; otherwise accept as is."
		default:
			finding.Message = says + " names a condition: " + condition.measure.String() + ". " + whatToDo(condition)
		}
		tr.reader.raised = append(tr.reader.raised, raised{finding, tr, words.column, condition.measure})
	}
}

func whatToDo(named condition) string {
	if named.measure == measure.Condemned || named.measure == measure.Retained {
		return "The plant's inspector decides; the carcass is not placed until the judge says that it was released."
	}
	return "If it is so, mark it: correct " + named.measure.String() + " to yes; otherwise accept as is."
}

// manyOf is from how many lines of a column on a question is asked once for all of them.
const manyOf = 4

// askConditions reports the conditions that no mark of the carcass has answered. Where more than a third of a column's
// lines name the same one, the column is asked about once.
func (r *reader) askConditions() {
	type group struct {
		from      *tableReader
		column    int
		condition measure.ID
	}
	groups := map[group][]raised{}
	var order []group
	for _, raised := range r.raised {
		mark, marked := raised.Carcass.Reading(raised.condition)
		if marked && raised.condition != measure.HotCarcassWeight && raised.condition != measure.Tag && mark.Value.Number.Sign() > 0 || raised.condition == measure.Bullock && bullockBySex(raised.Carcass) {
			continue
		}
		key := group{raised.from, raised.column, raised.condition}
		if _, known := groups[key]; !known {
			order = append(order, key)
		}
		groups[key] = append(groups[key], raised)
	}
	for _, key := range order {
		if found := groups[key]; key.column > 0 && len(found) >= manyOf && len(found)*3 > len(key.from.animals) {
			r.find(key.from.columnQuestion(found))
			continue
		}
		for _, raised := range groups[key] {
			r.find(raised.Finding)
		}
	}
}

// bullockBySex reports whether the sex column says already what a remark of a bullock or stag does.
func bullockBySex(carcass *grading.Carcass) bool {
	sex, _ := carcass.Written(measure.Sex)
	return bullockWords.MatchString(sex.Written)
}

var bullockWords = phrase.NewPattern(`(?i)\b(?:bull|bullock|stag)`)

// columnQuestion asks once about a column that names a condition on many of its lines.
func (tr *tableReader) columnQuestion(found []raised) validate.Finding {
	asked := found[0].Finding
	heading := rules.Place{File: asked.At.File, Sheet: asked.At.Sheet}
	read := ""
	for _, column := range tr.table.columns {
		if column.number == found[0].column {
			heading, read = tr.table.page.place(column.at), column.text
		}
	}
	asked.Carcass = nil
	for _, raised := range found {
		asked.Others = append(asked.Others, raised.Carcass)
		if raised.Level == validate.Hold {
			asked.Level = validate.Hold
		}
	}
	first := found[0].At.Cell + " " + phrase.Quote(found[0].Read)
	asked.Code, asked.At, asked.Read, asked.Hint = "column names a condition", heading, read, ""
	asked.Message = fmt.Sprintf("%s lines of this column (%s, …) %s", fmt.Sprintf("%d of %d", len(found), len(tr.animals)), first, whatToDoAtOnce(found[0].condition))
	return asked
}

// whatToDoAtOnce says what many lines of a column name, and what to do. Only an animal that is not to be placed at all is left
// out: any other mark is written down, so that it lowers the grade or the price.
func whatToDoAtOnce(named measure.ID) string {
	switch named {
	case notCompeting:
		return "name that the animal does not compete. If that is so, leave these carcasses out here, all together; " +
			"if the column means something else, accept as is. Where it holds for some of them only, accept as is and leave those out."
	case measure.Condemned, measure.Retained:
		return "name " + named.String() + ". If that is so, leave these carcasses out here, all together; " +
			"if the column means something else, accept as is. Where it holds for some of them only, accept as is and mark those."
	case measure.HotCarcassWeight:
		return "say that the carcass was weighed cold. If so, correct those weights, or say in the heading of the weight that all are chilled; otherwise accept as is."
	case measure.Tag:
		return "speak of the tag. Where it is another animal's, correct it; otherwise accept as is."
	}
	definition, _ := measure.Define(named)
	return "name " + named.String() + ". Where that is so, write yes on the line in a column headed " + phrase.Quote(definition.Heading) +
		", so that it counts in grade and price; if the column means something else, accept as is."
}

// columnNumbered gives the heading over a column; ok is false where there is none.
func (tr *tableReader) columnNumbered(number int) (column, bool) {
	for _, column := range tr.table.columns {
		if column.number == number {
			return column, true
		}
	}
	return column{}, false
}

// comment is what somebody attached to a cell.
type comment struct {
	at   position
	text string
}

// commentsOn gives the comments on a line of the page, from left to right.
func (p *page) commentsOn(number int) []comment { return p.comments[number] }

// struckOut asks about a line that is struck out, or about those of its cells that are.
func (tr *tableReader) struckOut(carcass *grading.Carcass, row *line, filled []xlsx.Cell) {
	if len(tr.table.page.struck) == 0 {
		return
	}
	var struck []xlsx.Cell
	tagged := false
	for _, cell := range filled {
		if !tr.table.page.struck[position{row.number, cell.Column}] {
			continue
		}
		struck = append(struck, cell)
		if heading, ok := tr.columnNumbered(cell.Column); ok && heading.meaning.is(tagMeasures...) {
			tagged = true
		}
	}
	if len(struck) == 0 {
		return
	}
	finding := validate.Finding{
		Level: validate.Hold, Code: "struck out", At: tr.table.page.place(position{row.number, struck[0].Column}), Read: writtenOut(struck), Carcass: carcass,
	}
	for id, reading := range carcass.Readings() {
		if slices.ContainsFunc(struck, func(cell xlsx.Cell) bool {
			return tr.table.page.place(position{row.number, cell.Column}) == reading.Place
		}) {
			finding.Doubts = append(finding.Doubts, id)
		}
	}
	if tagged || len(struck)*2 > len(filled) {
		finding.Message = "This line is struck out. If the animal does not compete, leave it out in the Judge review sheet; otherwise accept as is."
	} else {
		finding.Message = phrase.Quote(writtenOut(struck)) + " is struck out, in whole or in part. If it does not count, clear the cell or type what does; otherwise accept as is."
	}
	tr.find(finding)
}

var onlyPunctuation = phrase.NewPattern(`^\W+$`)

// absentWords say of an animal without measures that it was not there; beside measures they say nothing.
var absentWords = phrase.NewPattern(`(?i)^\W*NS\W*$|\bsold\b|\b(?:went|taken|sent|took|gone|go) (?:back )?home\b|\babsent\b|\bmissing\b|\bsick\b|\blame\b|\binjured\b|\bnot (?:here|present|brought|delivered|harvested|killed|slaughtered)\b`)

// absence gives the words that say that a line without measures is of an animal that does not compete; empty for none.
func (tr *tableReader) absence(row *line, filled []xlsx.Cell) string {
	for _, cell := range filled {
		if cell.Kind != xlsx.Text || onlyPunctuation.MatchString(cell.Raw) {
			continue
		}
		text := clean(cell.Raw)
		heading, headed := tr.columnNumbered(cell.Column)
		switch {
		case headed && heading.meaning.is(measure.Exhibitor, measure.Club, measure.Family, measure.Breed, measure.ClassName):
			if len(namedInName(text)) > 0 {
				return text
			}
		case absentWords.MatchString(text):
			return text
		case headed && len(heading.meaning.candidates) > 0:
			if len(conditionsNamed(text)) > 0 && slices.ContainsFunc(conditionsNamed(text), func(named condition) bool { return named.measure == notCompeting }) || ribbonHeading.MatchString(heading.text) && ribbonless.MatchString(text) {
				return text
			}
		case saysAbsent(heading.text, text):
			return text
		}
	}
	return ""
}

// reportAbsent says once which lines were passed over because their animals did not compete or never came.
func (tr *tableReader) reportAbsent() {
	for _, absent := range []struct{ code, words string }{
		{"did not compete", " without measures did not compete, by what is written there: "},
		{"numbered in advance", " numbered in advance and nothing else on them: "},
		{"named again", " an animal again that was read above, as a list of champions does: "},
	} {
		var tags []string
		for _, line := range tr.absent {
			if line.code == absent.code {
				tags = append(tags, line.words)
			}
		}
		if len(tags) == 0 {
			continue
		}
		number := 0
		for _, line := range tr.absent {
			if line.code == absent.code {
				number++
			}
		}
		message := "Absent: " + phrase.Plural(number, "animal", "animals") + absent.words
		switch absent.code {
		case "numbered in advance":
			message = phrase.Plural(number, "line was", "lines were") + absent.words
		case "named again":
			message = phrase.Plural(number, "line names", "lines name") + absent.words
		}
		tr.find(validate.Finding{
			Level: validate.Note, Code: absent.code, At: tr.sheetPlace(), Message: message + strings.Join(phrase.Examples(tags, manyNamed), ", ") + ".",
		})
	}
}

// manyNamed is how many lines a note lists by name.
const manyNamed = 12

// absentLine is a line that holds no carcass, with the tag and the words that say so.
type absentLine struct{ code, words string }

// RemarkNamesCondition is the code of the finding that words beside a carcass name a condition that nobody marked.
const RemarkNamesCondition = "remark names a condition"
