package intake

import (
	"slices"
	"strings"

	"railbook/grading"
	"railbook/rules/measure"
	"railbook/workbook/xlsx"

	"github.com/shopspring/decimal"
)

// mark reads a yes or a no.
func (q *question) mark(cell xlsx.Cell) told {
	if q.definition.ID == measure.Consent {
		return q.consent(cell)
	}
	if cell.Kind == xlsx.Number && (cell.Date || cell.Raw != "0" && cell.Raw != "1") {
		return told{problem: "can't be read as a yes or no; write yes, no or leave it blank"}
	}
	yes, plain, ok := q.yesOrNo(cell.Raw)
	if !ok {
		return told{problem: "can't be read as a yes or no; write yes, no or leave it blank"}
	}
	if q.definition.ID == measure.Skinned && q.asksOtherWay() && plain {
		yes, plain = !yes, false
	}
	answer := told{reading: grading.Reading{Value: markValue(yes), Plain: cell.Kind == xlsx.Number && plain}}
	if !plain {
		answer.note = `"` + cell.Raw + `" read as ` + answer.reading.Value.Text
	}
	return answer
}

func markValue(yes bool) measure.Value {
	if yes {
		return measure.Value{Number: decimal.NewFromInt(1), Text: "yes"}
	}
	return measure.Value{Number: decimal.Zero, Text: "no"}
}

// yesOrNo understands a mark; plain is false where it says so in other words than yes and no.
func (q *question) yesOrNo(text string) (yes, plain, ok bool) {
	switch word := strings.ToLower(clean(strings.Trim(text, ".()[] "))); word {
	case "yes", "y", "true", "1":
		return true, true, true
	case "no", "n", "false", "0":
		return false, true, true
	case "x", "xx", "✓", "✔", "√", "☑", "☒", "✗", "✘", "*", "t", "ok", "okay", "+":
		return true, false, true
	case "none", "f", "☐":
		return false, false, true
	case "off", "skin off", "skinned":
		return true, false, q.definition.ID == measure.Skinned
	case "on", "skin on", "skin-on", "scalded":
		return false, false, q.definition.ID == measure.Skinned
	}
	if q.vocabulary != nil && q.definition.ID != measure.Skinned && q.vocabulary.recognise(text).is(q.definition.ID) {
		return true, false, true
	}
	return false, false, false
}

// asksOtherWay reports whether a heading asks for skin on, so that yes means: not skinned.
func (q *question) asksOtherWay() bool {
	words := fold(q.heading)
	return slices.Contains(words, "on") && !slices.Contains(words, "off")
}
