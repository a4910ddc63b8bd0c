package xlsx

import (
	"slices"
	"strings"
)

// WithHidden gives the workbook's bytes with some sheets taken off the screen, which no program prints then. The book itself
// stays as it is. A sheet that is hidden already stays so, and the last one that can be seen is not hidden.
func (b *Book) WithHidden(sheets ...string) ([]byte, error) {
	if err := b.prepare(); err != nil {
		return nil, err
	}
	parts, err := b.finished()
	if err != nil {
		return nil, err
	}
	data := parts[b.base.main]
	_, list, err := children(data, "sheets")
	if err != nil {
		return nil, err
	}
	var edits []edit
	seen, hidden := 0, map[int]bool{}
	for i, element := range list {
		name, _ := element.attribute("name")
		state, _ := element.attribute("state")
		switch {
		case state != "" && state != "visible":
		case slices.Contains(sheets, name):
			hidden[i] = true
			edits = append(edits, edit{element.start, element.token.end, withAttribute(string(data[element.start:element.token.end]), "state", "hidden")})
		default:
			seen++
		}
	}
	if seen == 0 {
		return b.Bytes()
	}
	_, names, err := children(data, "definedNames")
	if err != nil {
		return nil, err
	}
	for _, element := range names { // LibreOffice prints a hidden sheet that has a print area
		name, _ := element.attribute("name")
		if sheet, local := element.number("localSheetId"); local && hidden[sheet] && strings.EqualFold(name, printArea) {
			edits = append(edits, edit{element.start, element.until, ""})
		}
	}
	parts[b.base.main] = apply(data, edits)
	packed, _, err := b.packAll(parts)
	if err != nil {
		return nil, err
	}
	return packed.Bytes()
}
