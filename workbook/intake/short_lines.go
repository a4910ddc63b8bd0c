package intake

import (
	"cmp"
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

// mayTitle reports whether a line of a single text is short and plain enough to be the name of a class at all.
func (tr *tableReader) mayTitle(text string) bool {
	return !noteWord.MatchString(text) && len(text) <= 60 && !strings.ContainsAny(text, ".;!?=") && len(fold(text)) <= 6 && hasLetter(text) && !tr.titleAgain(text)
}

// canTitle reports whether something says that a short line is a class: a word for one, a class of the rulebook or of the
// roster, or the headings repeated below it.
func (tr *tableReader) canTitle(index int, text string) bool {
	if noteWord.MatchString(text) || len(text) > 60 || tr.titleAgain(text) {
		return false
	}
	return tr.classLike(text) || !tr.hasClass && tr.mayTitle(text) && !ofContest(text) && tr.headingsBelow(index)
}

// titleAgain reports whether a line repeats a title that stands above the headings, as a printout does on every page.
func (tr *tableReader) titleAgain(text string) bool {
	return slices.ContainsFunc(tr.table.titles, func(heading title) bool {
		return strings.EqualFold(withoutPage(heading.text), withoutPage(text)) && !tr.classLike(text)
	})
}

// withoutPage gives a title without the number of its page, which alone differs from page to page.
func withoutPage(text string) string { return clean(pageOf.ReplaceAllString(text, "")) }

var pageOf = phrase.NewPattern(`(?i)\b(?:page|pg)\b\.? ?\d+(?: ?(?:of|/) ?\d+)?`)

// ofContest reports whether a title is that of a fair, a plant or a list.
func ofContest(text string) bool {
	return slices.ContainsFunc(fold(text), func(word string) bool { return slices.Contains(noClass, word) })
}

// headingsBelow reports whether the headings are repeated right below a line.
func (tr *tableReader) headingsBelow(index int) bool {
	for _, line := range tr.table.page.lines[index+1:] {
		if len(tr.filled(&line)) > 0 {
			return tr.table.repeated[line.number]
		}
	}
	return false
}

// askShortLine asks about a line that may be the name of a class, but that nothing says is one.
func (tr *tableReader) askShortLine(text string, row *line, filled []xlsx.Cell) {
	tr.pass(row, filled, "stands alone between the carcasses")
	stay := "keep the class they would have without it"
	if tr.title != "" {
		stay = "were left in class " + phrase.Quote(tr.title)
	}
	tr.find(validate.Finding{
		Level: validate.Look, Code: "short line among the carcasses", At: tr.table.page.place(position{row.number, filled[0].Column}), Read: text,
		Message: fmt.Sprintf("%s stands alone between the carcasses, and nothing says that it is a class. The carcasses below it %s. If it is their class, write %s there; otherwise accept as is.",
			phrase.Quote(text), stay, phrase.Quote("Class: "+text)),
	})
}

var tagInNote = phrase.NewPattern(`(?i)(?:\btags?|#)[ :.#]*([\w-]+)`)

// askNote asks about a note that names an animal's tag and says of it what its own line would be asked about: a condition, or
// that its name is not to be published.
func (tr *tableReader) askNote(text string, row *line, filled []xlsx.Cell) {
	if !againstConsent.MatchString(text) && !slices.ContainsFunc(conditionsNamed(text), func(named condition) bool { return named.measure != measure.Tag }) {
		return
	}
	for _, found := range tagInNote.FindAllStringSubmatch(text, -1) {
		for _, animal := range tr.animals {
			if sameTag(animal.Tag) != sameTag(found[1]) {
				continue
			}
			tr.find(validate.Finding{
				Level: validate.Look, Code: "note about an animal", At: tr.table.page.place(position{row.number, filled[0].Column}), Read: text, Carcass: animal.Carcass,
				Message: fmt.Sprintf("The note %s speaks of tag %s, and notes are not read. Write what it says on the animal's own line, or accept as is.", phrase.Quote(text), animal.Tag),
			})
			return
		}
	}
}

var outWords = phrase.NewPattern(`(?i)^\W*(?:disqual|DQ|scratch|withdraw|no[ -]?shows?\b|condemn|retain|not (?:entered|competing|eligible)|ineligible|did not|non[- ]?(?:qualif|compet))`)

// keepsOut reports whether a line says that the carcasses below it do not count: "DISQUALIFIED".
func keepsOut(text string) bool { return outWords.MatchString(text) }

// apart is a line that sets the carcasses below it apart.
type apart struct {
	text      string
	at        rules.Place
	carcasses []*grading.Carcass
	known     map[int]bool // by the Sequence of a carcass
}

func (tr *tableReader) setApart(text string, row *line, filled []xlsx.Cell) *apart {
	found := &apart{text: text, at: tr.table.page.place(position{row.number, filled[0].Column})}
	tr.setsApart = append(tr.setsApart, found)
	return found
}

func (a *apart) keepOut(carcass *grading.Carcass) {
	if a == nil || a.known[carcass.Sequence] {
		return
	}
	if a.known == nil {
		a.known = make(map[int]bool)
	}
	a.known[carcass.Sequence] = true
	a.carcasses = append(a.carcasses, carcass)
}

// reportApart asks once about the carcasses below such a line.
func (tr *tableReader) reportApart() {
	for _, apart := range tr.setsApart {
		if len(apart.carcasses) == 0 {
			continue
		}
		var tags []string
		for _, carcass := range apart.carcasses {
			tags = append(tags, carcass.Tag)
		}
		tr.find(validate.Finding{
			Level: validate.Hold, Code: "set apart", At: apart.at, Read: apart.text, Others: apart.carcasses,
			Message: fmt.Sprintf("%s stands above %s (%s). If they do not compete, leave them out here, all together; otherwise accept as is.",
				phrase.Quote(apart.text), phrase.Plural(len(apart.carcasses), "carcass", "carcasses"), strings.Join(phrase.Examples(tags, manyNamed), ", ")),
		})
	}
}

// inBrackets reports whether a line holds nothing but words in brackets, as one that explains the headings above it.
func inBrackets(filled []xlsx.Cell) bool {
	return !slices.ContainsFunc(filled, func(cell xlsx.Cell) bool {
		text := clean(cell.Raw)
		return cell.Kind != xlsx.Text || !strings.HasPrefix(text, "(") || !strings.HasSuffix(text, ")")
	})
}

// classesAbove gives the carcasses whose class is blank in a column of classes that of the carcass above, where the
// column writes each class once, at the head of its run. Elsewhere a blank between two lines of one class is that class,
// and any other blank is a class that nobody wrote.
func (tr *tableReader) classesAbove() {
	if tr.kind != carcassTable || !tr.hasClass {
		return
	}
	written := make([]string, len(tr.animals))
	for i, animal := range tr.animals {
		if reading, ok := animal.Written(measure.ClassName); ok {
			written[i], tr.someClassed = cmp.Or(reading.Value.Text, unreadableClass), true
		}
	}
	if tr.title != "" || !tr.someClassed || !slices.Contains(written, "") {
		return
	}
	runs, once := formRuns(written)
	filled, first := 0, ""
	above := ""
	for i, animal := range tr.animals {
		switch {
		case written[i] != "":
			above = written[i]
		case above == "" || above == unreadableClass || !runs || !once && nextWritten(written[i:]) != above:
		default:
			animal.Class = above
			filled++
			if first == "" {
				first = animal.Place.Cell
			}
		}
	}
	if filled > 0 {
		tr.find(validate.Finding{
			Level: validate.Look, Code: "class same as above", At: tr.sheetPlace(), Measure: measure.ClassName,
			Message: fmt.Sprintf("The class of %s is blank and was taken to be the same as above (first on the line of %s). If it is not, write the class of each.",
				phrase.Plural(filled, "carcass", "carcasses"), first),
		})
	}
}

// unreadableClass stands for a class of which something is written that is none.
const unreadableClass = "?"

// formRuns reports whether no class comes back after another, and whether each is written once only.
func formRuns(written []string) (runs, once bool) {
	seen, last := map[string]bool{}, ""
	runs, once = true, true
	for _, class := range written {
		switch {
		case class == "":
			continue
		case class == last:
			once = false
		case seen[class]:
			runs = false
		}
		seen[class], last = true, class
	}
	return runs, once
}

func nextWritten(written []string) string {
	for _, class := range written {
		if class != "" {
			return class
		}
	}
	return ""
}

// rememberClasses keeps the classes that entries name, since a line of a rail sheet may be one of them.
func (r *reader) rememberClasses(lists []*tableReader) {
	r.rosterClasses = map[string]bool{}
	for _, tr := range lists {
		for _, animal := range tr.animals {
			if animal.Class != "" {
				r.rosterClasses[strings.Join(fold(animal.Class), " ")] = true
			}
		}
	}
}

var clubWord = phrase.NewPattern(`(?i)\b(?:4-?H(?:'ers)?|FFA|clubs?|chapters?|grange)\b`)

// noClassTab reports whether a tab's name is no class: it is that of a club, or the tab holds one animal and names it.
func (r *reader) noClassTab(tr *tableReader) bool {
	name := tr.table.page.sheet
	if clubWord.MatchString(name) {
		return true
	}
	if len(tr.animals) != 1 || !r.severally || r.classNames[strings.Join(fold(name), " ")] || r.rosterClasses[strings.Join(fold(name), " ")] {
		return false
	}
	tag := tr.animals[0].Tag
	return !r.classLike(name) || tag != "" && slices.Contains(fold(name), strings.ToLower(tag))
}

// classOfSeveralSheets names the sheets that feed one class, since a class is mostly one sheet.
func (r *reader) classOfSeveralSheets(tables []*tableReader) {
	sheets := map[string][]string{}
	var order []string
	for _, tr := range tables {
		for _, animal := range tr.animals {
			key := string(animal.Species) + "\t" + string(animal.Basis) + "\t" + strings.Join(fold(animal.Class), " ")
			if animal.Class == "" || tr.completes || slices.Contains(sheets[key], tr.table.page.sheet) {
				continue
			}
			if sheets[key] = append(sheets[key], tr.table.page.sheet); len(sheets[key]) == 2 {
				order = append(order, key+"\t"+animal.Class)
			}
		}
	}
	var said []string
	for _, key := range order {
		at := strings.LastIndex(key, "\t")
		var names []string
		for _, name := range sheets[key[:at]] {
			names = append(names, phrase.Quote(name))
		}
		both := "all of "
		if len(names) == 2 {
			both = "both "
		}
		said = append(said, fmt.Sprintf("%s, by %s%s", phrase.Quote(key[at+1:]), both, strings.Join(phrase.Examples(names, manyNamed), " and ")))
	}
	if len(said) > 0 {
		r.find(validate.Finding{
			Level: validate.Look, Code: "class of several sheets", Measure: measure.ClassName,
			Message: "More than one sheet feeds one class: " + strings.Join(phrase.Examples(said, manyNamed), "; ") +
				". They are placed together. If they are different classes, write the class of each in a Class column.",
		})
	}
}
