package xlsx

import (
	"regexp"
	"strconv"
	"strings"

	"railbook/rules/address"
)

// A reference to a cell (B$2), to columns (A:C) or to rows (1:3), with a name or bracket before it that tells it from a
// part of a longer word.
var (
	cellReference   = regexp.MustCompile(`^(\$?)([A-Za-z]{1,3})(\$?)(\d{1,7})`)
	columnReference = regexp.MustCompile(`^(\$?)([A-Za-z]{1,3}):(\$?)([A-Za-z]{1,3})`)
	rowReference    = regexp.MustCompile(`^(\$?)(\d{1,7}):(\$?)(\d{1,7})`)
	word            = regexp.MustCompile(`^[\pL_\\.0-9?$]+`)
)

// shiftFormula gives the formula that a cell so many columns and rows away has, when both share it.
func shiftFormula(formula string, columns, rows int) string {
	var moved strings.Builder
	for formula != "" {
		if quote := formula[0]; quote == '"' || quote == '\'' {
			end := closingQuote(formula)
			moved.WriteString(formula[:end])
			formula = formula[end:]
			continue
		}
		length, text := shiftReference(formula, columns, rows)
		if length == 0 {
			length = max(1, len(word.FindString(formula)))
			text = formula[:length]
		}
		moved.WriteString(text)
		formula = formula[length:]
	}
	return moved.String()
}

// closingQuote gives the length of a quoted text; a doubled quote stands for one.
func closingQuote(text string) int {
	for at := 1; at < len(text); at++ {
		if text[at] != text[0] {
			continue
		}
		if at+1 < len(text) && text[at+1] == text[0] {
			at++
			continue
		}
		return at + 1
	}
	return len(text)
}

// shiftReference moves the reference at the start of a text; the length is 0 where there is none.
func shiftReference(text string, columns, rows int) (length int, moved string) {
	if found := cellReference.FindStringSubmatch(text); found != nil && endsReference(text[len(found[0]):]) {
		return len(found[0]), shiftColumn(found[1], found[2], columns) + shiftRow(found[3], found[4], rows)
	}
	if found := columnReference.FindStringSubmatch(text); found != nil && endsReference(text[len(found[0]):]) {
		return len(found[0]), shiftColumn(found[1], found[2], columns) + ":" + shiftColumn(found[3], found[4], columns)
	}
	if found := rowReference.FindStringSubmatch(text); found != nil && endsReference(text[len(found[0]):]) {
		return len(found[0]), shiftRow(found[1], found[2], rows) + ":" + shiftRow(found[3], found[4], rows)
	}
	return 0, ""
}

// endsReference reports whether a reference may end before this text: not in the middle of a word, a function's name or
// a sheet's name.
func endsReference(rest string) bool {
	return rest == "" || (word.FindString(rest) == "" && rest[0] != '(' && rest[0] != '!')
}

func shiftColumn(fixed, letters string, columns int) string {
	if fixed != "" {
		return fixed + letters
	}
	column, _, _ := address.Parse(letters + "1")
	if column += columns; column < 1 || column > address.LastColumn {
		return "#REF!"
	}
	return address.Column(column)
}

func shiftRow(fixed, digits string, rows int) string {
	if fixed != "" {
		return fixed + digits
	}
	row, _ := strconv.Atoi(digits)
	return strconv.Itoa(row + rows)
}
