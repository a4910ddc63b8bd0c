package xlsx

import (
	"fmt"
	"path/filepath"
	"slices"
	"strconv"
	"strings"

	"railbook/rules/address"
	"railbook/rules/phrase"
)

// Lead puts sheets that NewSheet added before the user's, in the order given; others of ours stay behind them. The user's keep
// the order they have.
func (b *Book) Lead(sheets ...string) error {
	for _, sheet := range sheets {
		if _, ours := b.added[sheet]; !ours {
			return fmt.Errorf("the sheet %q was not added by the program, so it can't be moved", sheet)
		}
	}
	b.leading, b.saved = sheets, nil
	return nil
}

// PrintTo keeps what is added right of a column out of the printed pages of a sheet that has no print area of its own, unless
// something of the user's stands there too. Call it before the columns are added.
func (b *Book) PrintTo(sheet string, column int) error {
	part, err := b.sheetPart(sheet)
	if err != nil {
		return err
	}
	data := b.contents.parts[part]
	_, list, err := children(data, "")
	if err != nil {
		return err
	}
	for _, element := range list {
		if element.name != "sheetData" {
			continue
		}
		if last, err := b.lastStored(part, element, 1, address.LastRow); err != nil || last > column {
			return err
		}
	}
	if b.printed == nil {
		b.printed = make(map[string]int)
	}
	if known, set := b.printed[sheet]; !set || column < known {
		b.printed[sheet] = column
	}
	b.saved = nil
	return nil
}

const printArea = "_xlnm.Print_Area"

// addPrintAreas gives the sheets their print areas: whole columns, so that a row that is added later is printed too. A sheet
// that has an area keeps it.
func (b *Book) addPrintAreas(made *contents) error {
	b.limited = map[string]bool{}
	if len(b.printed) == 0 {
		return nil
	}
	_, sheets, err := children(made.parts[made.main], "sheets")
	if err != nil {
		return err
	}
	_, names, err := children(made.parts[made.main], "definedNames")
	if err != nil {
		return err
	}
	var texts []string
	for i, sheet := range sheets {
		name, _ := sheet.attribute("name")
		column, wanted := b.printed[name]
		own := slices.ContainsFunc(names, func(tagged element) bool {
			what, _ := tagged.attribute("name")
			local, isLocal := tagged.number("localSheetId")
			return strings.EqualFold(what, printArea) && isLocal && local == i
		})
		if !wanted || own {
			continue
		}
		b.limited[name] = true
		texts = append(texts, fmt.Sprintf(`<definedName name="%s" localSheetId="%d">%s</definedName>`, printArea, i, escape(columnsOf(name, column))))
	}
	if len(texts) == 0 {
		return nil
	}
	return made.insert(made.main, "definedNames", workbookOrder, texts)
}

// columnsOf writes the columns from the first to one as formulas do: 'Steers'!$A:$L.
func columnsOf(sheet string, column int) string {
	return address.Sheet(sheet) + "!$A:$" + address.Column(column)
}

// wholeColumns is how programs write the columns from the first to one.
var wholeColumns = phrase.NewPattern(`[!.]\$A(?:\$1)?:\$([A-Z]{1,3})(?:\$1048576)?$`)

// areasOfOurs gives, for each sheet that PrintTo gave an area, its last column.
func areasOfOurs(marks []mark) map[string]string {
	areas := map[string]string{}
	first := map[string]int{}
	for _, mark := range marks {
		if !strings.HasPrefix(mark.name, columnsMark) || !readUndo(mark.comment).printed {
			continue
		}
		if known, set := first[mark.sheet]; !set || mark.area.FirstColumn < known {
			first[mark.sheet] = mark.area.FirstColumn
			areas[mark.sheet] = address.Column(mark.area.FirstColumn - 1)
		}
	}
	return areas
}

// leadSheets puts the leading sheets before the others in the workbook's own part, and everything that counts sheets after
// them.
func (b *Book) leadSheets(made *contents) error {
	if len(b.leading) == 0 {
		return nil
	}
	data := made.parts[made.main]
	_, list, err := children(data, "")
	if err != nil {
		return err
	}
	at := slices.IndexFunc(list, func(tagged element) bool { return tagged.name == "sheets" })
	if at < 0 {
		return errDamaged(filepath.Base(b.Path), made.main, "it has no sheets")
	}
	within := list[at]
	_, sheets, err := children(data[within.start:within.until], "")
	if err != nil {
		return err
	}
	index := make(map[string]int, len(sheets))
	for i, sheet := range sheets {
		name, _ := sheet.attribute("name")
		index[name] = i
	}
	var edits []edit
	var texts strings.Builder
	moved := make(map[int]int, len(sheets))
	for to, name := range b.leading {
		from, there := index[name]
		if !there {
			return fmt.Errorf("the sheet %q can't be moved: it is not there", name)
		}
		element := sheets[from]
		texts.Write(data[within.start+element.start : within.start+element.until])
		edits = append(edits, edit{within.start + element.start, within.start + element.until, ""})
		moved[from] = to
	}
	next := len(b.leading)
	for i := range sheets {
		if _, leads := moved[i]; !leads {
			moved[i] = next
			next++
		}
	}
	edits = append(edits, edit{within.start + sheets[0].start, within.start + sheets[0].start, texts.String()})
	for _, element := range list {
		var counted []string
		switch element.name {
		case "definedNames":
			counted = []string{"localSheetId"}
		case "bookViews":
			counted = []string{"activeTab", "firstSheet"}
		default:
			continue
		}
		_, inside, err := children(data[element.start:element.until], "")
		if err != nil {
			return err
		}
		for _, each := range inside {
			edits = append(edits, recounted(data, element.start, each, moved, counted)...)
		}
	}
	made.parts[made.main] = apply(data, edits)
	return nil
}

// recounted sets the attributes of a start tag that number a sheet.
func recounted(data []byte, from int, tagged element, moved map[int]int, attributes []string) []edit {
	was := string(data[from+tagged.start : from+tagged.token.end])
	tag := was
	for _, name := range attributes {
		number, given := tagged.number(name)
		if name == "firstSheet" && number == 0 {
			continue // the tabs are shown from the first one on
		}
		if to, known := moved[number]; given && known && to != number {
			tag = withAttribute(tag, name, strconv.Itoa(to))
		}
	}
	if tag == was {
		return nil
	}
	return []edit{{from + tagged.start, from + tagged.token.end, tag}}
}
