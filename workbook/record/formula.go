package record

import (
	"fmt"
	"strings"

	"railbook/rules/address"
)

// FormulaForm is what a formula computes, however a program writes it: without spaces, quotes and dollar signs, in capitals, with
// what at says in place of each cell of its own sheet. A cell or range of another sheet is only one of those: rows may be
// inserted there, and the formula follows.
func FormulaForm(formula string, at func(column, row int) string) string {
	var form strings.Builder
	formula = strings.TrimPrefix(formula, "=")
	for len(formula) > 0 {
		switch letter := formula[0]; {
		case letter == '"':
			end := 1 + strings.IndexByte(formula[1:], '"') + 1
			if end < 2 {
				end = len(formula)
			}
			form.WriteString(formula[:end])
			formula = formula[end:]
		case letter == '\'' || letter == '$' || letter == '_' || isLetter(letter):
			word, rest := wordOf(formula)
			if strings.HasPrefix(rest, "!") {
				form.WriteByte('!')
				formula = afterRange(rest[1:])
				continue
			}
			formula = rest
			plain := strings.ReplaceAll(word, "$", "")
			if column, row, ok := address.Parse(strings.ToUpper(plain)); ok && !strings.HasPrefix(rest, "(") {
				form.WriteString(at(column, row))
			} else {
				form.WriteString(strings.ToUpper(plain))
			}
		case letter >= '0' && letter <= '9':
			end := 0
			for end < len(formula) && (formula[end] == '.' || formula[end] >= '0' && formula[end] <= '9') {
				end++
			}
			form.WriteString(formula[:end])
			formula = formula[end:]
		default:
			if letter > ' ' {
				form.WriteByte(letter)
			}
			formula = formula[1:]
		}
	}
	return form.String()
}

// FormBeside is the form of a formula in a row of computed columns, of which there are so many from the first: these are named by
// their number, and a column of the data by where it stood before, if it has moved.
func FormBeside(formula string, row, first, computed int, before map[int]int) string {
	if formula == "" {
		return ""
	}
	return FormulaForm(formula, func(column, in int) string {
		if was, moved := before[column]; moved {
			column = was
		} else if column >= first && column < first+computed {
			return fmt.Sprintf("#%d[%d]", column-first+1, in-row)
		}
		return fmt.Sprintf("%s[%d]", address.Column(column), in-row)
	})
}

// wordOf cuts the name of a sheet, a function or a cell from the front of a formula.
func wordOf(formula string) (word, rest string) {
	if formula[0] == '\'' {
		for end := 1; end < len(formula); end++ {
			if formula[end] != '\'' {
				continue
			}
			if end+1 < len(formula) && formula[end+1] == '\'' {
				end++ // a quote in the name
				continue
			}
			return formula[:end+1], formula[end+1:]
		}
		return formula, ""
	}
	end := 0
	for end < len(formula) && (formula[end] == '$' || formula[end] == '_' || formula[end] == '.' || isLetter(formula[end]) || formula[end] >= '0' && formula[end] <= '9') {
		end++
	}
	return formula[:end], formula[end:]
}

// afterRange passes over a cell, or two with a colon between.
func afterRange(formula string) string {
	for range 2 {
		end := 0
		for end < len(formula) && (formula[end] == '$' || isLetter(formula[end]) || formula[end] >= '0' && formula[end] <= '9') {
			end++
		}
		formula = formula[end:]
		if !strings.HasPrefix(formula, ":") {
			break
		}
		formula = formula[1:]
	}
	return formula
}

func isLetter(letter byte) bool {
	return letter >= 'A' && letter <= 'Z' || letter >= 'a' && letter <= 'z' || letter >= 0x80
}
