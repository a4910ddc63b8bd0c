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
	headed := func(one column, words ...string) bool {
		return one.meaning.is(measure.Tag) && !r.vocabulary.named(one.meaning, measure.Tag) &&
			slices.ContainsFunc(fold(one.text), func(word string) bool { return slices.Contains(words, word) })
	}
	if !slices.ContainsFunc(t.columns, func(one column) bool { return headed(one, "tag", "eartag") }) {
		return
	}
	for i := range t.columns {
		one := &t.columns[i]
		if headed(*one, "carcass") && !headed(*one, "tag", "eartag") {
			one.meaning = meaning{
				candidates: []rules.Heading{{Measure: measure.RailNumber, Text: one.text}}, because: "a column of tags stands beside it",
			}
		}
	}
}

// tagOfWords leaves a column unread that is headed as a tag and holds words that come again ("Tag county", "Tag color"),
// where another tag column tells the animals apart.
func (r *reader) tagOfWords(t *table) {
	for i := range t.columns {
		one := &t.columns[i]
		if !one.meaning.is(measure.Tag) || r.vocabulary.named(one.meaning, measure.Tag) || one.before > 0 || !t.repeatsWords(one.number) {
			continue
		}
		if slices.ContainsFunc(t.columns, func(other column) bool {
			return other.number != one.number && other.meaning.is(measure.Tag) && !t.repeatsWords(other.number)
		}) {
			one.meaning = meaning{}
		}
	}
}

// repeatsWords reports whether what stands in a column are words without a digit, some of them more than once.
func (t *table) repeatsWords(number int) bool {
	seen, again := map[string]bool{}, false
	for i := range t.page.lines {
		one := &t.page.lines[i]
		cell := one.at(number)
		if one.number <= t.bottom || one.number > t.lastLine || t.repeated[one.number] || nothing(cell) {
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
		for _, one := range tr.animals {
			if rail, ok := one.Reading(measure.RailNumber); ok && one.Tag != "" {
				key := sameTag(rail.Value.Text)
				if !slices.ContainsFunc(lines[key], func(other *animal) bool { return other.Tag == one.Tag }) {
					lines[key] = append(lines[key], one)
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
	for _, one := range carcasses {
		rail, numbered := one.Reading(measure.RailNumber)
		if !numbered || one.heading.hasColumn(measure.Tag) || one.heading.hasColumn(measure.ElectronicTag) {
			known = append(known, one)
			continue
		}
		entries := lines[sameTag(rail.Value.Text)]
		if len(entries) != 1 {
			unknown = append(unknown, one.Tag)
			sheet = one.heading
			continue
		}
		if list = entries[0].heading; followed == 0 {
			example = fmt.Sprintf("%s is %s", rail.Value.Text, entries[0].Tag)
		}
		followed++
		one.Tag = entries[0].Tag
		one.SetReading(measure.Tag, entries[0].ReadingOf(measure.Tag))
		known = append(known, one)
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
