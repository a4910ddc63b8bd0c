package xlsx

import (
	"fmt"
	"strconv"
	"strings"
	"time"

	"railbook/rules/address"
)

// value gives a cell its kind and content by the type of its <c> (ECMA-376 part 1, 18.18.11).
func (s *scanner) value(kind, raw string, cell *Cell) error {
	switch kind {
	case "s":
		index, err := strconv.Atoi(strings.TrimSpace(raw))
		if err != nil || index < 0 || index >= len(s.texts) {
			return &damage{s.at, fmt.Sprintf("cell %s refers to a text that is not there", address.Cell(cell.Column, s.row.Number))}
		}
		if s.texts[index] != "" {
			cell.Kind, cell.Raw = Text, s.texts[index]
			s.struck = s.struckTexts[index]
		}
	case "str", "inlineStr":
		if raw != "" || cell.Formula {
			cell.Kind, cell.Raw = Text, escapedCharacters(raw)
		}
	case "b":
		cell.Kind, cell.Raw = Bool, "FALSE"
		if trimmed := strings.TrimSpace(raw); trimmed == "1" || trimmed == "true" {
			cell.Raw = "TRUE"
		}
	case "e":
		cell.Kind, cell.Raw = ErrorValue, raw
	case "d":
		s.dateValue(raw, cell)
	default:
		s.numberValue(raw, cell)
	}
	return nil
}

func (s *scanner) numberValue(raw string, cell *Cell) {
	raw = strings.TrimSpace(raw)
	if raw == "" {
		return
	}
	number, ok := shortest(raw)
	if !ok {
		cell.Kind, cell.Raw = Text, raw
		return
	}
	cell.Kind, cell.Raw = Number, number
	if int(cell.Style) < len(s.formats) && cell.Style >= 0 {
		cell.Date, cell.Percent = s.formats[cell.Style].date, s.formats[cell.Style].percent
	}
}

// dateValue reads an ISO 8601 date cell as the serial number that other programs store.
func (s *scanner) dateValue(raw string, cell *Cell) {
	cell.Kind, cell.Raw = Text, raw
	for _, layout := range []string{"2006-01-02T15:04:05.999", "2006-01-02T15:04:05Z", "2006-01-02"} {
		when, err := time.Parse(layout, strings.TrimSpace(raw))
		if err != nil {
			continue
		}
		epoch := time.Date(1899, 12, 30, 0, 0, 0, 0, time.UTC)
		if s.date1904 {
			epoch = time.Date(1904, 1, 1, 0, 0, 0, 0, time.UTC)
		}
		days := when.Sub(epoch).Hours() / 24
		cell.Kind, cell.Raw, cell.Date = Number, strconv.FormatFloat(days, 'f', -1, 64), true
		return
	}
}

// shortest gives a stored number as people know it: 0.36 for the 0.35999999999999999 that a program stored. Every
// spreadsheet program stores binary numbers; the shortest decimal that means the same binary number is what was typed.
func shortest(raw string) (string, bool) {
	if plainNumber(raw) {
		return raw, true
	}
	number, err := strconv.ParseFloat(raw, 64)
	digits, _, _ := strings.Cut(strings.ToLower(raw), "e")
	if err != nil || number-number != 0 || strings.ContainsAny(raw, "xX_") || number == 0 && strings.ContainsAny(digits, "123456789") {
		return "", false
	}
	text := strconv.FormatFloat(number, 'g', -1, 64)
	if strings.Contains(text, "e") && number < 1e21 && number > -1e21 {
		text = strconv.FormatFloat(number, 'f', -1, 64)
	}
	if text == "-0" {
		text = "0"
	}
	return text, true
}

// plainNumber reports whether a number is in its shortest form already: at most 15 digits, no needless zeros.
func plainNumber(raw string) bool {
	digits := strings.TrimPrefix(raw, "-")
	whole, fraction, point := strings.Cut(digits, ".")
	if len(digits) > 15 || whole == "" || (len(whole) > 1 && whole[0] == '0') || digits == "0" && len(raw) > 1 {
		return false
	}
	if point && (fraction == "" || fraction[len(fraction)-1] == '0') {
		return false
	}
	for i := range len(digits) {
		if c := digits[i]; (c < '0' || c > '9') && c != '.' {
			return false
		}
	}
	return strings.IndexByte(fraction, '.') < 0
}
