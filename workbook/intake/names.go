package intake

import (
	"slices"
	"strings"

	"railbook/grading"
	"railbook/rules"
	"railbook/rules/measure"
)

// namePart is which part of a person's name stands under a heading.
type namePart int

const (
	wholeName namePart = iota
	givenName
	lastName
)

// namePartOf tells a heading of one part, "Last name", from one of the whole, "Name" or "Last name first".
func namePartOf(heading string) namePart {
	words := fold(heading)
	given := slices.Contains(words, "first") || slices.Contains(words, "given")
	last := slices.Contains(words, "last") || slices.Contains(words, "surname")
	switch {
	case given && !last:
		return givenName
	case last && !given:
		return lastName
	}
	return wholeName
}

// namesInTwo takes columns headed First and Last, side by side, for the two parts of the exhibitor's name, where no other
// column names one.
func (r *reader) namesInTwo(t *table) {
	if t.has(measure.Exhibitor) {
		return
	}
	for i := 1; i < len(t.columns); i++ {
		heading, other := &t.columns[i-1], &t.columns[i]
		parts := []namePart{namePartOf(heading.text), namePartOf(other.text)}
		if len(fold(heading.text)) != 1 || len(fold(other.text)) != 1 || len(heading.meaning.candidates) > 0 || len(other.meaning.candidates) > 0 ||
			!slices.Contains(parts, givenName) || !slices.Contains(parts, lastName) {
			continue
		}
		for _, part := range []*column{heading, other} {
			part.meaning = meaning{candidates: []rules.Heading{{Measure: measure.Exhibitor, Text: part.text}}, because: "a column of the other part of the name stands beside it"}
		}
		return
	}
}

// joinNames makes one exhibitor of the parts that stand in two columns, the given name first; ok is false where the
// second column is no part of a name, or says nothing new.
func (tr *tableReader) joinNames(earlier, second grading.Reading, under columnParser) (grading.Reading, bool) {
	part := namePartOf(under.column.text)
	if under.parser.definition.ID != measure.Exhibitor || part == wholeName {
		return earlier, false
	}
	if strings.Contains(strings.ToLower(earlier.Value.Text), strings.ToLower(second.Value.Text)) {
		return earlier, false
	}
	first, then := earlier, second
	if part == givenName {
		first, then = second, earlier
	}
	earlier.Value.Text = first.Value.Text + " " + then.Value.Text
	earlier.Written = first.Written + " " + then.Written
	return earlier, true
}
