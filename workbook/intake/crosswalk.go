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

// A cooler sheet may know its carcasses by rail number alone, and a list beside it (a crosswalk) say which tag each number
// is. And a carcass sheet may have a carcass number of the plant's beside the ear tag.

// numberOfCarcass takes a column headed by the carcass and its number for that of the rail numbers, where another column is
// headed by the tag: the tag is the fair's.
func (r *reader) numberOfCarcass(t *table) {
	headed := func(heading column, words ...string) bool {
		return heading.meaning.is(measure.Tag) && !r.vocabulary.named(heading.meaning, measure.Tag) &&
			slices.ContainsFunc(fold(heading.text), func(word string) bool { return slices.Contains(words, word) })
	}
	if !slices.ContainsFunc(t.columns, func(heading column) bool { return headed(heading, "tag", "eartag") }) {
		return
	}
	for i := range t.columns {
		column := &t.columns[i]
		if headed(*column, "carcass") && !headed(*column, "tag", "eartag") {
			column.meaning = meaning{
				candidates: []rules.Heading{{Measure: measure.RailNumber, Text: column.text}}, because: "a column of tags stands beside it",
			}
		}
	}
}

// tagOfWords leaves a column unread that is headed as a tag and holds words that come again ("Tag county", "Tag color"),
// where another tag column tells the animals apart.
func (r *reader) tagOfWords(t *table) {
	for i := range t.columns {
		heading := &t.columns[i]
		if !heading.meaning.is(measure.Tag) || r.vocabulary.named(heading.meaning, measure.Tag) || heading.before > 0 || !t.repeatsWords(heading.number) {
			continue
		}
		if slices.ContainsFunc(t.columns, func(other column) bool {
			return other.number != heading.number && other.meaning.is(measure.Tag) && !t.repeatsWords(other.number)
		}) {
			heading.meaning = meaning{}
		}
	}
}

// repeatsWords reports whether what stands in a column are words without a digit, some of them more than once.
func (t *table) repeatsWords(number int) bool {
	seen, again := map[string]bool{}, false
	for i := range t.page.lines {
		line := &t.page.lines[i]
		cell := line.at(number)
		if line.number <= t.bottom || line.number > t.lastLine || t.repeated[line.number] || nothing(cell) {
			continue
		}
		text := strings.ToLower(clean(cell.Raw))
		if strings.ContainsAny(text, "0123456789") {
			return false
		}
		again, seen[text] = again || seen[text], true
	}
	return again
}

// followRailNumbers gives carcasses that are known by rail number alone the tag that a list says for it. A carcass whose
// number the lists do not have, or have for several animals, is joined to nobody.
func (r *reader) followRailNumbers(lists []*tableReader, carcasses []*animal) []*animal {
	lines := map[string][]*animal{}
	for _, tr := range lists {
		if !tr.hasColumn(measure.RailNumber) || !tr.hasColumn(measure.Tag) {
			continue
		}
		for _, entered := range tr.animals {
			if rail, ok := entered.Reading(measure.RailNumber); ok && entered.Tag != "" {
				key := sameTag(rail.Value.Text)
				if !slices.ContainsFunc(lines[key], func(other *animal) bool { return other.Tag == entered.Tag }) {
					lines[key] = append(lines[key], entered)
				}
			}
		}
	}
	if len(lines) == 0 {
		return carcasses
	}
	known, unknown := []*animal(nil), []string(nil)
	followed, example := 0, ""
	var list, sheet *tableReader
	for _, animal := range carcasses {
		rail, numbered := animal.Reading(measure.RailNumber)
		if !numbered || animal.heading.hasColumn(measure.Tag) || animal.heading.hasColumn(measure.ElectronicTag) {
			known = append(known, animal)
			continue
		}
		entries := lines[sameTag(rail.Value.Text)]
		if len(entries) != 1 {
			unknown = append(unknown, animal.Tag)
			sheet = animal.heading
			continue
		}
		if list = entries[0].heading; followed == 0 {
			example = fmt.Sprintf("%s is %s", rail.Value.Text, entries[0].Tag)
		}
		followed++
		animal.Tag = entries[0].Tag
		animal.SetReading(measure.Tag, entries[0].ReadingOf(measure.Tag))
		known = append(known, animal)
	}
	if followed > 0 {
		r.find(validate.Finding{
			Level: validate.Note, Code: "tags by rail number", At: list.sheetPlace(), Measure: measure.Tag,
			Message: phrase.Plural(followed, "carcass is", "carcasses are") + " known by rail number on the rail sheet, and took the tag that this list gives for it (" + example + ").",
		})
	}
	if len(unknown) > 0 {
		r.find(validate.Finding{
			Level: validate.Look, Code: "rail number without a tag", At: sheet.sheetPlace(), Measure: measure.RailNumber, Read: strings.Join(phrase.Examples(unknown, manyNamed), ", "),
			Message: fmt.Sprintf("The list beside this sheet gives no one tag for %s (%s), so nobody's name was joined. Write the rail number beside one tag in the list and grade again, or accept as is.",
				phrase.Plural(len(unknown), "rail number", "rail numbers"), strings.Join(phrase.Examples(unknown, manyNamed), ", ")),
		})
	}
	return known
}
