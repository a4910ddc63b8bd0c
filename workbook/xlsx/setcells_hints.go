package xlsx

import (
	"fmt"
	"maps"
	"slices"
	"strconv"
	"strings"
)

// hintTitle marks the hints of ours among the input messages of a sheet.
const hintTitle = "Corrected (railbook)"

// longestHint is the most that an input message may say (ECMA-376 part 1, 18.3.1.32).
const longestHint = 255

// hints adds an input message to each corrected cell that has a hint. Where the user's own rule for input covers the
// cell it stays alone: two rules on a cell are a fault to Excel.
func (s *setting) hints(list []element) {
	text, count := "", 0
	at := slices.IndexFunc(list, func(tagged element) bool { return tagged.name == "dataValidations" })
	var covered []Range
	if at >= 0 {
		covered = s.validated(list[at])
	}
	for _, row := range slices.Sorted(maps.Keys(s.wanted)) {
		for _, cell := range s.wanted[row] {
			if cell.Hint != "" && at >= 0 && s.hintAgain(list[at], cell) {
				continue
			}
			if cell.Hint == "" || slices.ContainsFunc(covered, func(area Range) bool { return area.holds(cell.column, row) }) {
				continue
			}
			text += s.hint(cell)
			count++
		}
	}
	if count == 0 {
		return
	}
	if at < 0 {
		place := placeFor("dataValidations", s.root, list)
		s.edits = append(s.edits, edit{place, place, fmt.Sprintf(`<%sdataValidations count="%d">%s</%sdataValidations>`, s.root.prefix, count, text, s.root.prefix)})
		return
	}
	tag := string(s.data[list[at].start:list[at].token.end])
	if was, counted := list[at].number("count"); counted {
		tag = withAttribute(tag, "count", strconv.Itoa(was+count))
	}
	if list[at].closed {
		tag = strings.TrimSuffix(tag, "/>") + ">"
		s.edits = append(s.edits, edit{list[at].start, list[at].until, tag + text + "</" + s.root.prefix + "dataValidations>"})
		return
	}
	s.edits = append(s.edits, edit{list[at].start, list[at].token.end, tag}, edit{list[at].inner, list[at].inner, text})
}

// hint is the input message of a corrected cell.
func (s *setting) hint(cell wantedCell) string {
	hint := cell.Hint
	for utf16Length(hint) > longestHint {
		letters := []rune(hint)
		hint = string(letters[:len(letters)-1])
	}
	return withPrefix(s.root.prefix, fmt.Sprintf(`<dataValidation allowBlank="1" showInputMessage="1" promptTitle="%s" prompt="%s" sqref="%s"/>`,
		escape(hintTitle), escape(hint), cell.name))
}

// hintAgain puts a hint in the place of the one that an earlier correction gave the cell; false where there is none.
func (s *setting) hintAgain(validations element, cell wantedCell) bool {
	_, list, err := children(s.data[validations.start:validations.until], "")
	if err != nil {
		return false
	}
	for _, known := range list {
		title, _ := known.attribute("promptTitle")
		cells, _ := known.attribute("sqref")
		if title == hintTitle && cells == cell.name {
			s.edits = append(s.edits, edit{validations.start + known.start, validations.start + known.until, s.hint(cell)})
			return true
		}
	}
	return false
}

// validated lists the cells that the user's own rules for input cover.
func (s *setting) validated(validations element) []Range {
	_, list, err := children(s.data[validations.start:validations.until], "")
	if err != nil {
		return nil
	}
	var covered []Range
	for _, element := range list {
		cells, _ := element.attribute("sqref")
		for _, name := range strings.Fields(cells) {
			if area, ok := rectangle(name); ok {
				covered = append(covered, area)
			}
		}
	}
	return covered
}
