package xlsx

import (
	"fmt"
	"slices"
	"strings"

	"railbook/rules/address"
)

// flagMark stands in the formula of the rule that colours flagged cells, so that the rule is known again. N of a text
// is 0: the rule always holds.
const flagMark = `N("railbook flag")=0`

// cellsInRule is how many cells one rule names: programs limit the length of the list.
const cellsInRule = 200

// Flag colours cells of the user's by a conditional format when the workbook is saved, so that their own format stays.
func (b *Book) Flag(sheet string, cells []string) error {
	if len(cells) == 0 || b.contents == nil {
		return nil
	}
	added, err := b.addition(sheet)
	if err != nil {
		return err
	}
	if err := b.prepare(); err != nil {
		return err
	}
	if added.flag, err = b.flagStyle(); err != nil {
		return err
	}
	added.flagged = append(added.flagged, cells...)
	return nil
}

// flagRules writes the rules that colour cells, after those that are there.
func flagRules(data []byte, root element, list []element, cells []string, style int) edit {
	priority := 0
	for _, element := range list {
		if element.name != "conditionalFormatting" {
			continue
		}
		_, rules, err := children(data[element.start:element.until], "")
		if err != nil {
			continue
		}
		for _, rule := range rules {
			used, _ := rule.number("priority")
			priority = max(priority, used)
		}
	}
	text := ""
	for some := range slices.Chunk(joinedDown(cells), cellsInRule) {
		priority++
		text += withPrefix(root.prefix, fmt.Sprintf(`<conditionalFormatting sqref="%s"><cfRule type="expression" dxfId="%d" priority="%d"><formula>%s</formula></cfRule></conditionalFormatting>`,
			strings.Join(some, " "), style, priority, escape(flagMark)))
	}
	at := placeFor("conditionalFormatting", root, list)
	return edit{at, at, text}
}

// joinedDown joins cells one below another: G4 G5 G6 is G4:G6. What is no cell is left out.
func joinedDown(names []string) []string {
	type place struct{ column, row int }
	var places []place
	for _, name := range names {
		if column, row, ok := address.Parse(name); ok {
			places = append(places, place{column, row})
		}
	}
	slices.SortFunc(places, func(a, b place) int {
		if a.column != b.column {
			return a.column - b.column
		}
		return a.row - b.row
	})
	places = slices.Compact(places)
	var joined []string
	for i := 0; i < len(places); {
		last := i
		for last+1 < len(places) && places[last+1] == (place{places[i].column, places[last].row + 1}) {
			last++
		}
		name := address.Cell(places[i].column, places[i].row)
		if last > i {
			name += ":" + address.Cell(places[last].column, places[last].row)
		}
		joined = append(joined, name)
		i = last + 1
	}
	return joined
}

// flagFormat is the format of flagged cells (a dxf: ECMA-376 part 1, 18.8.14).
const flagFormat = `<dxf><font><b val="1"/><color rgb="FF5A2A27"/></font><fill><patternFill patternType="solid">` +
	`<bgColor rgb="FFF4D9D3"/></patternFill></fill></dxf>`

// flagStyle gives the number of the format of flagged cells: of the one that is there from an earlier grading, or else of
// one that is added when the workbook is saved.
func (b *Book) flagStyle() (int, error) {
	if b.flag != nil {
		return *b.flag, nil
	}
	data := b.base.parts[b.base.styles]
	within, list, err := children(data, "dxfs")
	if err != nil {
		return 0, fmt.Errorf("the format of flagged cells can't be made: %w", err)
	}
	number := slices.IndexFunc(list, func(tagged element) bool {
		return string(data[tagged.start:tagged.until]) == withPrefix(within.prefix, flagFormat)
	})
	if number < 0 {
		number, b.flagText = len(list), flagFormat
	}
	b.flag = &number
	return number, nil
}
