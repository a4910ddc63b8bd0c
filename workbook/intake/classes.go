package intake

import (
	"fmt"
	"slices"
	"strings"

	"railbook/rules"
	"railbook/rules/measure"
	"railbook/rules/phrase"
	"railbook/validate"
)

// classOf gives the class of lines that name none and stand under no title: what the nearest title above the headings
// calls it, or the sheet's name where that reads like a class.
func (r *reader) classOf(t *table) (class, why string) {
	if t.kind != carcassTable {
		return "", ""
	}
	several := r.severally
	for i := len(t.titles) - 1; i >= 0; i-- {
		text := t.titles[i].text
		if r.classLike(text) || several && i == len(t.titles)-1 && t.top-t.titles[i].at.line <= 2 && plainTitle(text) && !ofContest(text) && r.sharesPage(t) {
			return className(text), `the title "` + text + `" above the headings`
		}
	}
	if r.classLike(t.page.sheet) || several && !t.page.text && !emptyName(t.page.sheet) && !r.sharesPage(t) {
		return clean(t.page.sheet), theSheetsName
	}
	return "", ""
}

// theSheetsName is why a class is that of the tab.
const theSheetsName = "the sheet's name"

// plainTitle reports whether a line above headings is short enough to be a class's name.
func plainTitle(text string) bool {
	return len(fold(text)) <= 6 && !strings.ContainsAny(text, ".;!?:") && !noteWord.MatchString(text)
}

// emptyName reports whether a sheet's name says nothing.
func emptyName(name string) bool {
	words := fold(name)
	if len(words) == 0 || yearAlone.MatchString(name) {
		return true
	}
	return strings.HasPrefix(words[0], "sheet") || slices.Contains(words, "carcass") || slices.Contains(words, "data")
}

// yearAlone is a tab's name that says the year and no class.
var yearAlone = phrase.NewPattern(`^\W*(?:19|20)\d\d\W*$`)

func (r *reader) sharesPage(t *table) bool {
	for _, other := range r.tables {
		if other != t && other.kind == carcassTable && other.page.sheet == t.page.sheet && other.page.file == t.page.file {
			return true
		}
	}
	return false
}

// settleClasses gives the carcasses that still have no class that of their table.
func (r *reader) settleClasses(tables []*tableReader) {
	var unclassed []*tableReader
	for _, tr := range tables {
		given := 0
		if tr.classWhy == theSheetsName && r.noClassTab(tr) {
			tr.class = ""
			unclassed = append(unclassed, tr)
		}
		for _, animal := range tr.animals {
			if animal.Class == "" && tr.class != "" && !tr.someClassed {
				animal.Class = tr.class
				given++
			}
		}
		if given > 0 {
			r.find(validate.Finding{
				Level: validate.Note, Code: "class of the sheet", At: tr.sheetPlace(), Measure: measure.ClassName, Read: tr.class,
				Message: phrase.Plural(given, "carcass has", "carcasses have") + " no class of " + phrase.Agreeing(given, "its own", "their own") + "; " + tr.classWhy + " was taken: " + tr.class + ".",
			})
		}
	}
	r.askClassOfTabs(unclassed)
}

// askClassOfTabs asks once about the carcasses of tabs that are no class, where nothing else says which class they are.
func (r *reader) askClassOfTabs(tables []*tableReader) {
	asked := validate.Finding{Level: validate.Hold, Code: "class missing", Measure: measure.ClassName}
	var tabs []string
	for _, tr := range tables {
		missing := false
		for _, animal := range tr.animals {
			if animal.Class == "" && !tr.someClassed {
				asked.Others, missing = append(asked.Others, animal.Carcass), true
			}
		}
		if missing {
			if len(tabs) == 0 {
				asked.At = tr.sheetPlace()
			}
			tabs = append(tabs, phrase.Quote(tr.table.page.sheet))
		}
	}
	if len(tabs) == 0 {
		return
	}
	asked.Message = fmt.Sprintf("Nothing says in which class %s: a tab named as a club, or that holds one animal, is no class (%s). Write the class of each in a Class column; if all are one class, accept as is.",
		theseCarcasses(len(asked.Others)), strings.Join(phrase.Examples(tabs, manyNamed), ", "))
	r.find(asked)
}

// basisOf says whether a table was measured on the rail or by ultrasound.
func (r *reader) basisOf(t *table) rules.Basis {
	weights := slices.ContainsFunc(t.columns, func(heading column) bool { return heading.meaning.is(carcassWeights...) })
	scanHeading := slices.ContainsFunc(t.columns, func(heading column) bool {
		return heading.meaning.is(measure.IntramuscularFat) || len(heading.meaning.candidates) > 0 && scanned(heading.text)
	})
	if !weights && (scanHeading || scanned(t.page.sheet) || slices.ContainsFunc(t.titles, func(heading title) bool { return scanned(heading.text) })) {
		return rules.LiveScan
	}
	return rules.OnTheRail
}
