// Package address names the cells of a sheet as spreadsheet programs do: column 7, row 14 is "G14". Columns and rows are
// counted from 1. It is the one way in which an address is written or read.
package address

import (
	"strconv"
	"strings"
)

// The size of a sheet (ECMA-376 sets none; these are the bounds of every spreadsheet program of today).
const (
	LastRow    = 1 << 20
	LastColumn = 1 << 14
)

// Column names a column: "G" for 7; empty for what is no column.
func Column(column int) string {
	var letters [16]byte
	return string(appendColumn(letters[:0], column))
}

func appendColumn(name []byte, column int) []byte {
	if column < 1 {
		return name
	}
	return append(appendColumn(name, (column-1)/26), byte('A'+(column-1)%26))
}

// Cell names a cell: "G14" for column 7, row 14; empty for what is no cell.
func Cell(column, row int) string {
	if column < 1 || row < 1 {
		return ""
	}
	var name [40]byte
	return string(Append(name[:0], column, row))
}

// Append adds the name of a cell to a text, as Cell gives it.
func Append(text []byte, column, row int) []byte {
	if column < 1 || row < 1 {
		return text
	}
	return strconv.AppendInt(appendColumn(text, column), int64(row), 10)
}

// Fixed names a cell that stays the same wherever a formula is copied to: "$G$14".
func Fixed(column, row int) string { return "$" + Column(column) + "$" + strconv.Itoa(row) }

// Span names the cells from one corner to the other: "G14:H20".
func Span(firstColumn, firstRow, lastColumn, lastRow int) string {
	return Cell(firstColumn, firstRow) + ":" + Cell(lastColumn, lastRow)
}

// FixedSpan names the cells from one corner to the other for formulas that are copied: "$G$14:$H$20".
func FixedSpan(firstColumn, firstRow, lastColumn, lastRow int) string {
	return Fixed(firstColumn, firstRow) + ":" + Fixed(lastColumn, lastRow)
}

// Rows names whole rows, from the first to the last, for formulas that are copied: "$3:$4".
func Rows(first, last int) string { return "$" + strconv.Itoa(first) + ":$" + strconv.Itoa(last) }

// Sheet quotes the name of a sheet as formulas do: 'Judge”s copy'.
func Sheet(name string) string { return "'" + strings.ReplaceAll(name, "'", "''") + "'" }

// Parse reads "G14"; dollar signs are passed over. ok is false for what is no cell of a sheet.
func Parse(name string) (column, row int, ok bool) {
	for at := 0; at < len(name); at++ {
		c := name[at]
		switch {
		case c == '$':
		case c >= '0' && c <= '9':
			row = row*10 + int(c-'0')
		case row > 0:
			return 0, 0, false
		case c >= 'A' && c <= 'Z':
			column = column*26 + int(c-'A') + 1
		case c >= 'a' && c <= 'z':
			column = column*26 + int(c-'a') + 1
		default:
			return 0, 0, false
		}
		if column > LastColumn || row > LastRow {
			return 0, 0, false
		}
	}
	return column, row, column > 0 && row > 0
}
