package xlsx

import (
	"fmt"
	"slices"
	"strconv"

	"railbook/rules/address"
)

// sheetOrder is the order in which the schema has the elements of a worksheet (ECMA-376 part 1, 18.3.1.99): a program
// refuses a sheet in which they stand in another.
var sheetOrder = []string{
	"sheetPr", "dimension", "sheetViews", "sheetFormatPr", "cols", "sheetData", "sheetCalcPr", "sheetProtection",
	"protectedRanges", "scenarios", "autoFilter", "sortState", "dataConsolidate", "customSheetViews", "mergeCells",
	"phoneticPr", "conditionalFormatting", "dataValidations", "hyperlinks", "printOptions", "pageMargins", "pageSetup",
	"headerFooter", "rowBreaks", "colBreaks", "customProperties", "cellWatches", "ignoredErrors", "smartTags", "drawing",
	"legacyDrawing", "legacyDrawingHF", "drawingHF", "picture", "oleObjects", "controls", "webPublishItems", "tableParts", "extLst",
}

// placeFor gives the offset at which an element of a name belongs: after all that come before it.
func placeFor(name string, root element, list []element) int {
	rank, at := slices.Index(sheetOrder, name), root.token.end
	for _, element := range list {
		if slices.Index(sheetOrder, element.name) <= rank {
			at = element.until
		}
	}
	return at
}

// dimension widens the range the sheet says it uses.
func (a *appending) dimension(list []element) []edit {
	at := slices.IndexFunc(list, func(tagged element) bool { return tagged.name == "dimension" })
	if at < 0 {
		return nil
	}
	was, _ := list[at].attribute("ref")
	used, ok := rectangle(was)
	if !ok {
		return nil
	}
	used = used.with(a.area())
	is := address.Span(used.FirstColumn, used.FirstRow, used.LastColumn, used.LastRow)
	if is == was {
		return nil
	}
	a.undo.dimension = was
	tag := string(a.data[list[at].start:list[at].token.end])
	return []edit{{list[at].start, list[at].token.end, withAttribute(tag, "ref", is)}}
}

// columnRange is one <col>.
type columnRange struct {
	element
	first, last int
	hidden      bool
}

func columnRanges(list []element) []columnRange {
	var ranges []columnRange
	for _, element := range list {
		first, _ := element.number("min")
		last, _ := element.number("max")
		ranges = append(ranges, columnRange{element, first, last, element.flag("hidden")})
	}
	return ranges
}

// widths gives our columns their width where the user gave them none, and shows those that would be hidden.
func (a *appending) widths(root element, list []element) []edit {
	area := a.area()
	width := func(column int) string {
		size := 10.0
		if i := column - area.FirstColumn; i < len(a.block.Widths) && a.block.Widths[i] > 0 {
			size = a.block.Widths[i]
		}
		return fmt.Sprintf(`<%scol min="%d" max="%d" width="%s" customWidth="1"/>`, a.prefix, column, column, strconv.FormatFloat(size, 'f', -1, 64))
	}
	all := func(from, to int) (text string) {
		for column := max(from, area.FirstColumn); column <= min(to, area.LastColumn); column++ {
			text += width(column)
			a.undo.widths = append(a.undo.widths, column)
		}
		return text
	}
	at := slices.IndexFunc(list, func(tagged element) bool { return tagged.name == "cols" })
	if at < 0 || list[at].closed {
		a.undo.noWidths = true
		text := "<" + a.prefix + "cols>" + all(area.FirstColumn, area.LastColumn) + "</" + a.prefix + "cols>"
		if at >= 0 {
			return []edit{{list[at].start, list[at].until, text}}
		}
		place := placeFor("cols", root, list)
		return []edit{{place, place, text}}
	}
	_, inside, err := children(a.data[list[at].start:list[at].until], "")
	if err != nil {
		return nil
	}
	var edits []edit
	next, place, base := area.FirstColumn, list[at].token.end, list[at].start
	for _, columns := range columnRanges(inside) {
		if columns.first > area.LastColumn {
			break
		}
		place = base + columns.until
		if columns.last < area.FirstColumn {
			continue
		}
		if columns.first > next {
			edits = append(edits, edit{base + columns.start, base + columns.start, all(next, columns.first-1)})
		}
		next = max(next, columns.last+1)
		if columns.hidden {
			edits = append(edits, a.shown(columns, base, all))
		}
	}
	if next <= area.LastColumn {
		edits = append(edits, edit{place, place, all(next, area.LastColumn)})
	}
	return edits
}

// shown splits a hidden range of columns around ours.
func (a *appending) shown(columns columnRange, base int, all func(from, to int) string) edit {
	area, tag, text := a.area(), string(a.data[base+columns.start:base+columns.until]), ""
	if columns.first < area.FirstColumn {
		text += withAttribute(tag, "max", strconv.Itoa(area.FirstColumn-1))
	}
	text += all(columns.first, columns.last)
	if columns.last > area.LastColumn {
		text += withAttribute(tag, "min", strconv.Itoa(area.LastColumn+1))
	}
	a.undo.hidden = append(a.undo.hidden, tag)
	return edit{base + columns.start, base + columns.until, text}
}
