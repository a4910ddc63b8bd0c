package xlsx

import (
	"slices"
	"strconv"
	"strings"

	"railbook/rules/address"
)

// undo is what Append changed beside the cells, kept as the comment of the block's defined name so that Strip can give
// back the very bytes. Where a program dropped the comment, or it grew too long for one, Strip does without: the sheet
// is then the same but for a width or an empty row.
type undo struct {
	dimension string   // as it was
	widths    []int    // the columns that were given a width
	noWidths  bool     // there was no <cols>
	noRows    bool     // <sheetData/> was empty
	added     []int    // rows that were not there
	opened    []int    // rows that were <row/>
	hidden    []string // the <col> of hidden ranges that were split
	printed   bool     // the sheet was given a print area that ends before the block
}

// longestComment is the most that Excel keeps of a name's comment.
const longestComment = 255

func (u undo) String() string {
	fields := []string{"railbook"}
	add := func(name string, numbers []int) {
		if len(numbers) > 0 {
			fields = append(fields, name+" "+numberList(numbers))
		}
	}
	if u.printed {
		fields = append(fields, "printed")
	}
	if u.dimension != "" {
		fields = append(fields, "used "+u.dimension)
	}
	add("widths", u.widths)
	add("added", u.added)
	add("opened", u.opened)
	if u.noWidths {
		fields = append(fields, "nowidths")
	}
	if u.noRows {
		fields = append(fields, "norows")
	}
	for _, tag := range u.hidden {
		fields = append(fields, "hidden "+tag)
	}
	for utf16Length(strings.Join(fields, "; ")) > longestComment {
		fields = fields[:len(fields)-1]
	}
	return strings.Join(fields, "; ")
}

func readUndo(comment string) undo {
	var u undo
	for _, field := range strings.Split(comment, "; ") {
		name, rest, _ := strings.Cut(field, " ")
		switch name {
		case "used":
			u.dimension = rest
		case "widths":
			u.widths = readNumbers(rest)
		case "added":
			u.added = readNumbers(rest)
		case "opened":
			u.opened = readNumbers(rest)
		case "printed":
			u.printed = true
		case "nowidths":
			u.noWidths = true
		case "norows":
			u.noRows = true
		case "hidden":
			u.hidden = append(u.hidden, rest)
		}
	}
	return u
}

// numberList writes rising numbers short: 7-18,21.
func numberList(numbers []int) string {
	var pieces []string
	for i := 0; i < len(numbers); {
		last := i
		for last+1 < len(numbers) && numbers[last+1] == numbers[last]+1 {
			last++
		}
		piece := strconv.Itoa(numbers[i])
		if last > i {
			piece += "-" + strconv.Itoa(numbers[last])
		}
		pieces = append(pieces, piece)
		i = last + 1
	}
	return strings.Join(pieces, ",")
}

func readNumbers(text string) []int {
	var numbers []int
	for _, piece := range strings.Split(text, ",") {
		first, last, pair := strings.Cut(piece, "-")
		from, err := strconv.Atoi(first)
		if err != nil {
			continue
		}
		to := from
		if pair {
			if to, err = strconv.Atoi(last); err != nil || to > address.LastRow {
				continue
			}
		}
		for number := from; number <= to; number++ {
			numbers = append(numbers, number)
		}
	}
	slices.Sort(numbers)
	return numbers
}
