package intake

import (
	"fmt"
	"slices"
	"strings"

	"railbook/grading"
	"railbook/rules/measure"
	"railbook/rules/phrase"
	"railbook/validate"
)

// One line of a list may enter several animals, each under a tag heading with its number ("Steer 1 Tag", "Steer 2 Tag");
// and an exhibitor may be written once, above the lines of all of his or her animals.

var (
	animalDigit  = phrase.NewPattern(`^([1-9])(?:st|nd|rd|th)?$`)
	animalNumber = map[string]int{"first": 1, "second": 2, "third": 3, "fourth": 4}
)

// numberedAnimal gives the number of an animal that a heading names, and its other words; 0 where it names none.
func numberedAnimal(text string) (number int, rest string) {
	var words []string
	for _, word := range fold(text) {
		found := animalNumber[word]
		if digit := animalDigit.FindStringSubmatch(word); digit != nil {
			found = int(digit[1][0] - '0')
		}
		switch {
		case found == 0:
			words = append(words, word)
		case number > 0:
			return 0, ""
		default:
			number = found
		}
	}
	return number, strings.Join(words, " ")
}

// numberAnimals recognises the headings of a list whose lines hold several animals: at least two numbered headings of tags,
// and what else is numbered as they are. A sheet with carcass measures has one animal to a line.
func (f *finder) numberAnimals(columns []column) {
	numbers := map[int]bool{}
	for _, column := range columns {
		if column.meaning.measuresCarcass() || column.meaning.is(carcassWeights...) {
			return
		}
		if number, rest := numberedAnimal(column.text); number > 0 && len(column.meaning.candidates) == 0 && f.recognise(rest).is(measure.Tag) {
			numbers[number] = true
		}
	}
	if len(numbers) < 2 {
		return
	}
	for i := range columns {
		column := &columns[i]
		if number, rest := numberedAnimal(column.text); numbers[number] && len(column.meaning.candidates) == 0 {
			if column.meaning = f.recognise(rest); len(column.meaning.candidates) > 0 {
				column.animal = number
			}
		}
	}
}

// animalsOf gives the numbers of the animals that a line enters; 0 alone where its columns are not numbered.
func (tr *tableReader) animalsOf(row *line) []int {
	var numbers []int
	numbered := false
	for _, column := range tr.table.columns {
		if column.animal == 0 || !column.meaning.is(measure.Tag) {
			continue
		}
		numbered = true
		if !nothing(row.at(column.number)) && !slices.Contains(numbers, column.animal) {
			numbers = append(numbers, column.animal)
		}
	}
	if !numbered || len(numbers) == 0 {
		return []int{0}
	}
	return numbers
}

// exhibitorsAbove gives the animals whose exhibitor is blank that of the line above, where the column writes each name once,
// at the head of his or her animals, and at least a third of its lines are blank: a few blanks are names nobody knows.
// Beside carcasses nothing is carried down where a roster names the exhibitors: it says whose the blank lines are. Consent is not
// taken along, but a refusal is.
func (tr *tableReader) exhibitorsAbove() {
	if tr.kind == carcassTable && slices.ContainsFunc(tr.tables, func(t *table) bool { return t.kind != carcassTable && t.has(measure.Exhibitor) }) {
		return
	}
	written, blank := make([]string, len(tr.animals)), 0
	for i, animal := range tr.animals {
		switch reading, ok := animal.Written(measure.Exhibitor); {
		case ok && reading.Unreadable:
			return
		case ok:
			written[i] = reading.Value.Text
		default:
			blank++
		}
	}
	if _, once := formRuns(written); !once || blank == 0 || len(written)-blank < fewestNames || blank*3 < len(written) || written[0] == "" {
		return
	}
	first := ""
	var above *animal
	for i, animal := range tr.animals {
		if written[i] != "" {
			above = animal
			continue
		}
		if first == "" {
			first = animal.Place.Cell
		}
		animal.SetReading(measure.Exhibitor, above.ReadingOf(measure.Exhibitor))
		if _, answered := animal.Written(measure.Consent); !answered && refuses(above.Carcass) {
			animal.SetReading(measure.Consent, noConsent(above.ReadingOf(measure.Consent)))
		}
	}
	tr.find(validate.Finding{
		Level: validate.Look, Code: "exhibitor same as above", At: tr.sheetPlace(), Measure: measure.Exhibitor,
		Message: fmt.Sprintf("The exhibitor of %s is blank and was taken to be the one above (first on the line of %s). If that is wrong, write the exhibitor of each; otherwise accept as is.",
			phrase.Plural(blank, "animal", "animals"), first),
	})
}

// fewestNames is how many names a column has at least that writes each of them once: a single one may be of its own line only.
const fewestNames = 2

// gradeBeside is a quality grade in brackets behind the marbling that it follows from.
type gradeBeside struct {
	carcass *grading.Carcass
	reading grading.Reading // of the marbling
	grade   measure.Value
	whole   bool
}

// compareGrades asks about the carcasses whose marbling does not give the grade in brackets behind it.
func (tr *tableReader) compareGrades() {
	for _, beside := range tr.gradesBeside {
		figure, ok := grading.Grade(beside.carcass, tr.book).Figure(measure.QualityGrade)
		if !ok || beside.whole && grading.SameWholeGrade(figure, beside.grade) || figure.Number.Equal(beside.grade.Number) {
			continue
		}
		tr.find(validate.Finding{
			Level: validate.Look, Code: "grade in brackets disagrees", At: beside.reading.Place, Measure: measure.Marbling, Read: beside.reading.Written, Carcass: beside.carcass,
			Message: fmt.Sprintf("Marbling %s grades %s, and the grade in brackets is %s. If the marbling is wrong, correct it; otherwise accept as is.",
				phrase.Quote(beside.reading.Written), figure.Text, beside.grade.Text),
		})
	}
}
