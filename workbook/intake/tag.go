package intake

import (
	"strings"

	"railbook/grading"
	"railbook/rules/measure"
	"railbook/rules/phrase"
	"railbook/workbook/xlsx"

	"github.com/shopspring/decimal"
)

// tagMeasures name the animal or the carcass; they are text, whatever they look like.
var tagMeasures = []measure.ID{measure.Tag, measure.ElectronicTag, measure.OldTag, measure.RailNumber}

func isTag(id measure.ID) bool {
	switch id {
	case measure.Tag, measure.ElectronicTag, measure.OldTag, measure.RailNumber:
		return true
	}
	return false
}

var (
	tagPrefix   = phrase.NewPattern(`(?i)^(?:ear ?tag|tag|carcass|animal|head|rail|no|number|nr|#|№)[ .:#]*(?:no|number|nr)?[ .:#]*`)
	cutDigits   = phrase.NewPattern(`^\d(?:[.,]\d+)?[eE]\+?\d+$`)
	wholeNumber = phrase.NewPattern(`^(\d+)[.,]0+$`)
)

// withoutTagPrefix takes off what only says that a tag follows.
func withoutTagPrefix(text string) string {
	if text == "" || text[0] >= '0' && text[0] <= '9' {
		return text // as nearly all tags are
	}
	return tagPrefix.ReplaceAllString(text, "")
}

// readTag reads a tag as text: leading zeros and letters are kept, what only says that it is a tag is taken off.
func readTag(cell xlsx.Cell, id measure.ID) parsedCell {
	text := cell.Raw
	switch cell.Kind {
	case xlsx.Number:
		if cell.Date {
			return parsedCell{problem: "was turned into a date by the spreadsheet program; type the tag again, as text", code: "date in place of a tag"}
		}
		if number, err := decimal.NewFromString(text); err == nil {
			text = number.String()
		}
		return parsedCell{reading: grading.Reading{Value: measure.Value{Text: text}, Plain: true}}
	case xlsx.Bool:
		return parsedCell{problem: "says " + text + ", which is no tag; type the tag"}
	}
	if strings.ContainsAny(text, "eE") && cutDigits.MatchString(text) {
		return parsedCell{
			problem: "is a long tag that a spreadsheet program cut short, so its last digits are lost; type it again, or save " +
				"the list from a column formatted as whole numbers",
			code: "tag cut short",
		}
	}
	bare := text
	if rest := withoutTagPrefix(text); strings.ContainsAny(rest, "0123456789") {
		bare = rest
	}
	if strings.ContainsAny(bare, ".,") {
		if found := wholeNumber.FindStringSubmatch(bare); found != nil {
			bare = found[1]
		}
	}
	if digits := strings.ReplaceAll(bare, " ", ""); id == measure.ElectronicTag && len(digits) == 15 {
		bare = digits
	}
	parsed := parsedCell{reading: grading.Reading{Value: measure.Value{Text: bare}, Plain: true}}
	if bare != text {
		parsed.note = "written with more than the tag itself, which alone was taken"
		parsed.reading.Plain = false
	}
	return parsed
}

var tagMarks = strings.NewReplacer(" ", "", "-", "", ".", "", "/", "", "_", "")

// sameTag is the form in which tags are compared when they are not the same letter for letter.
func sameTag(tag string) string {
	tag = strings.ToUpper(tagMarks.Replace(tag))
	if short := strings.TrimLeft(tag, "0"); short != "" {
		return short
	}
	return tag
}
