package xlsx

import (
	"strconv"
	"strings"
	"unicode"

	"railbook/rules/address"
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
			length = max(1, wordLength(formula))
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

// The most letters and digits that a reference has of a column and of a row.
const (
	mostLetters = 3
	mostDigits  = 7
)

// shiftReference moves the reference at the start of a text, to a cell (B$2), to columns (A:C) or to rows (1:3); the length
// is 0 where there is none.
func shiftReference(text string, columns, rows int) (length int, moved string) {
	fixed, letters, rest := coordinate(text, isLetter, mostLetters)
	if letters == "" {
		fixed, digits, rest := coordinate(text, isDigit, mostDigits)
		if digits == "" || !strings.HasPrefix(rest, ":") {
			return 0, ""
		}
		otherFixed, others, rest := coordinate(rest[1:], isDigit, mostDigits)
		if others == "" || !endsReference(rest) {
			return 0, ""
		}
		return len(text) - len(rest), shiftRow(fixed, digits, rows) + ":" + shiftRow(otherFixed, others, rows)
	}
	if rowFixed, digits, rest := coordinate(rest, isDigit, mostDigits); digits != "" && endsReference(rest) {
		return len(text) - len(rest), shiftColumn(fixed, letters, columns) + shiftRow(rowFixed, digits, rows)
	}
	if !strings.HasPrefix(rest, ":") {
		return 0, ""
	}
	otherFixed, others, rest := coordinate(rest[1:], isLetter, mostLetters)
	if others == "" || !endsReference(rest) {
		return 0, ""
	}
	return len(text) - len(rest), shiftColumn(fixed, letters, columns) + ":" + shiftColumn(otherFixed, others, columns)
}

// coordinate takes the letters of a column or the digits of a row off the start of a text, with the dollar before them that
// fixes it. There are none where more of them follow than a reference has.
func coordinate(text string, is func(byte) bool, most int) (fixed, run, rest string) {
	rest = text
	if strings.HasPrefix(rest, "$") {
		fixed, rest = rest[:1], rest[1:]
	}
	length := 0
	for length < len(rest) && is(rest[length]) {
		length++
	}
	if length > most {
		return "", "", text
	}
	return fixed, rest[:length], rest[length:]
}

func isLetter(letter byte) bool { return letter|0x20 >= 'a' && letter|0x20 <= 'z' }

func isDigit(digit byte) bool { return digit >= '0' && digit <= '9' }

// wordLength is the length of the word, name or number at the start of a text.
func wordLength(text string) int {
	for at, letter := range text {
		if !unicode.IsLetter(letter) && !strings.ContainsRune(`_\.0123456789?$`, letter) {
			return at
		}
	}
	return len(text)
}

// endsReference reports whether a reference may end before this text: not in the middle of a word, a function's name or
// a sheet's name.
func endsReference(rest string) bool {
	return rest == "" || wordLength(rest) == 0 && rest[0] != '(' && rest[0] != '!'
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
