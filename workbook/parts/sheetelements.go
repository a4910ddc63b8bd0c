package parts

import (
	"fmt"
	"slices"
	"strconv"
	"strings"
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
	for _, one := range list {
		if slices.Index(sheetOrder, one.name) <= rank {
			at = one.until
		}
	}
	return at
}

// dimension widens the range the sheet says it uses.
func (a *appending) dimension(list []element) []edit {
	at := slices.IndexFunc(list, func(one element) bool { return one.name == "dimension" })
	if at < 0 {
		return nil
	}
	was, _ := list[at].attribute("ref")
	used, ok := rectangle(was)
	if !ok {
		return nil
	}
	used = used.with(a.area())
	is := cellName(used.FirstColumn, used.FirstRow) + ":" + cellName(used.LastColumn, used.LastRow)
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
	for _, one := range list {
		first, _ := one.number("min")
		last, _ := one.number("max")
		ranges = append(ranges, columnRange{one, first, last, one.flag("hidden")})
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
	at := slices.IndexFunc(list, func(one element) bool { return one.name == "cols" })
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
	for _, one := range columnRanges(inside) {
		if one.first > area.LastColumn {
			break
		}
		place = base + one.until
		if one.last < area.FirstColumn {
			continue
		}
		if one.first > next {
			edits = append(edits, edit{base + one.start, base + one.start, all(next, one.first-1)})
		}
		next = max(next, one.last+1)
		if one.hidden {
			edits = append(edits, a.shown(one, base, all))
		}
	}
	if next <= area.LastColumn {
		edits = append(edits, edit{place, place, all(next, area.LastColumn)})
	}
	return edits
}

// shown splits a hidden range of columns around ours.
func (a *appending) shown(one columnRange, base int, all func(from, to int) string) edit {
	area, tag, text := a.area(), string(a.data[base+one.start:base+one.until]), ""
	if one.first < area.FirstColumn {
		text += withAttribute(tag, "max", strconv.Itoa(area.FirstColumn-1))
	}
	text += all(one.first, one.last)
	if one.last > area.LastColumn {
		text += withAttribute(tag, "min", strconv.Itoa(area.LastColumn+1))
	}
	a.undo.hidden = append(a.undo.hidden, tag)
	return edit{base + one.start, base + one.until, text}
}

// flagMark stands in the formula of the rule that colours flagged cells, so that the rule is known again. N of a text
// is 0: the rule always holds.
const flagMark = `N("railbook flag")=0`

// cellsInRule is how many cells one rule names: programs limit the length of the list.
const cellsInRule = 200

// flags colours the flagged cells by a conditional format, so that their own format stays.
func (a *appending) flags(root element, list []element) []edit {
	if len(a.block.Flagged) == 0 {
		return nil
	}
	priority := 0
	for _, one := range list {
		if one.name != "conditionalFormatting" {
			continue
		}
		_, rules, err := children(a.data[one.start:one.until], "")
		if err != nil {
			continue
		}
		for _, rule := range rules {
			used, _ := rule.number("priority")
			priority = max(priority, used)
		}
	}
	text := ""
	for cells := range slices.Chunk(joinedDown(a.block.Flagged), cellsInRule) {
		priority++
		text += withPrefix(a.prefix, fmt.Sprintf(`<conditionalFormatting sqref="%s"><cfRule type="expression" dxfId="%d" priority="%d"><formula>%s</formula></cfRule></conditionalFormatting>`,
			strings.Join(cells, " "), a.flag, priority, escape(flagMark)))
	}
	at := placeFor("conditionalFormatting", root, list)
	return []edit{{at, at, text}}
}

// joinedDown joins cells one below another: G4 G5 G6 is G4:G6. What is no cell is left out.
func joinedDown(names []string) []string {
	type place struct{ column, row int }
	var places []place
	for _, name := range names {
		if column, row, ok := position(name); ok {
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
		name := cellName(places[i].column, places[i].row)
		if last > i {
			name += ":" + cellName(places[last].column, places[last].row)
		}
		joined = append(joined, name)
		i = last + 1
	}
	return joined
}
