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
func (p *cellParser) mark(cell xlsx.Cell) parsedCell {
	if p.definition.ID == measure.Consent {
		return p.consent(cell)
	}
	if cell.Kind == xlsx.Number && (cell.Date || cell.Raw != "0" && cell.Raw != "1") {
		return parsedCell{problem: "can't be read as a yes or no; write yes, no or leave it blank"}
	}
	if p.definition.ID == measure.DarkCutter && cell.Kind == xlsx.Text {
		if step := lowering(cell).reading.Value.Text; strings.Contains(step, "/") {
			return parsedCell{
				problem: "says how far the grade is lowered, where a yes or no is asked; write yes, and " + step +
					" under a heading of its own, such as Dark cutter lowering",
				hint: "yes",
			}
		}
	}
	yes, plain, ok := p.yesOrNo(cell.Raw)
	if !ok {
		return parsedCell{problem: "can't be read as a yes or no; write yes, no or leave it blank"}
	}
	if p.definition.ID == measure.Skinned && p.asksOtherWay() && plain {
		yes, plain = !yes, false
	}
	parsed := parsedCell{reading: grading.Reading{Value: markValue(yes), Plain: cell.Kind == xlsx.Number && plain}}
	if !plain {
		parsed.note = `"` + cell.Raw + `" read as ` + parsed.reading.Value.Text
	}
	return parsed
}

func markValue(yes bool) measure.Value {
	if yes {
		return measure.Value{Number: decimal.NewFromInt(1), Text: "yes"}
	}
	return measure.Value{Number: decimal.Zero, Text: "no"}
}

// yesOrNo understands a mark; plain is false where it says so in other words than yes and no.
func (p *cellParser) yesOrNo(text string) (yes, plain, ok bool) {
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
		return true, false, p.definition.ID == measure.Skinned
	case "on", "skin on", "skin-on", "scalded":
		return false, false, p.definition.ID == measure.Skinned
	}
	if p.vocabulary != nil && p.definition.ID != measure.Skinned && p.vocabulary.recognise(text).is(p.definition.ID) {
		return true, false, true
	}
	return false, false, false
}

// asksOtherWay reports whether a heading asks for skin on, so that yes means: not skinned.
func (p *cellParser) asksOtherWay() bool {
	words := fold(p.heading)
	return slices.Contains(words, "on") && !slices.Contains(words, "off")
}
