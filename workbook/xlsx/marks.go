package xlsx

import (
	"fmt"
	"path/filepath"
	"slices"
	"strconv"
	"strings"

	"railbook/rules/address"

	"github.com/xuri/excelize/v2"
)

// Our sheets and columns are known again by workbook defined names, which every spreadsheet program keeps.
const (
	ownMark      = "railbook_"
	sheetMark    = "railbook_sheet_"
	columnsMark  = "railbook_columns_"
	rulebookMark = "railbook_rulebook_"  // on the sheets of a rulebook that a board edits: they are the user's
	textMark     = "railbook_text_table" // on the sheet we made of a text file: it is the user's
)

// mark is one of our defined names and the cells it stands on.
type mark struct {
	name, sheet string
	area        Range
	comment     string
}

// marks lists our defined names that still stand on something.
func (b *Book) marks() ([]mark, error) {
	all := b.contents
	if b.base != nil {
		all = b.base
	}
	if all == nil {
		return nil, nil
	}
	main, err := all.mainPart(b.Path)
	if err != nil {
		return nil, err
	}
	_, list, err := children(all.parts[main], "definedNames")
	if err != nil {
		return nil, errDamaged(filepath.Base(b.Path), main, err.Error())
	}
	found := slices.Clone(b.moved)
	for _, element := range list {
		name, _ := element.attribute("name")
		comment, _ := element.attribute("comment")
		if !strings.HasPrefix(name, ownMark) || slices.ContainsFunc(b.moved, func(set mark) bool { return set.name == name }) {
			continue
		}
		if sheet, area, ok := target(characters(string(all.parts[main][element.token.end:element.inner]))); ok {
			found = append(found, mark{name, sheet, area, comment})
		}
	}
	return found, nil
}

// setMark puts one of our defined names on cells; a name that stood elsewhere moves there.
func (b *Book) setMark(found mark) {
	at := slices.IndexFunc(b.moved, func(set mark) bool { return set.name == found.name })
	if at < 0 {
		b.moved = append(b.moved, found)
	} else {
		b.moved[at] = found
	}
}

// setMarks writes our defined names into the workbook's own part.
func (c *contents) setMarks(marks []mark) error {
	within, list, err := children(c.parts[c.main], "definedNames")
	if err != nil {
		return err
	}
	texts := make([]string, len(marks))
	for i, mark := range marks {
		comment := ""
		if mark.comment != "" {
			comment = ` comment="` + escape(mark.comment) + `"`
		}
		texts[i] = `<definedName name="` + escape(mark.name) + `"` + comment + `>` + escape(reference(mark.sheet, mark.area)) + `</definedName>`
	}
	var edits []edit
	for _, element := range list {
		name, _ := element.attribute("name")
		if at := slices.IndexFunc(marks, func(set mark) bool { return set.name == name }); at >= 0 {
			edits = append(edits, edit{element.start, element.until, withPrefix(within.prefix, texts[at])})
			texts[at] = ""
		}
	}
	c.parts[c.main] = apply(c.parts[c.main], edits)
	return c.insert(c.main, "definedNames", workbookOrder, slices.DeleteFunc(texts, func(text string) bool { return text == "" }))
}

// reference writes a place as formulas do: 'Steers'!$A$1:$B$2.
func reference(sheet string, area Range) string {
	text := address.Sheet(sheet) + "!" + address.Fixed(area.FirstColumn, area.FirstRow)
	if area.FirstColumn == area.LastColumn && area.FirstRow == area.LastRow {
		return text
	}
	return text + ":" + address.Fixed(area.LastColumn, area.LastRow)
}

// target reads what a defined name refers to: 'Steers'!$A$1:$B$2, Steers!$A$1, or $Steers.$A$1:$B$2 as LibreOffice has it.
func target(refersTo string) (sheet string, area Range, ok bool) {
	text := strings.TrimPrefix(strings.TrimSpace(refersTo), "$")
	if quoted, isQuoted := strings.CutPrefix(text, "'"); isQuoted {
		for at := 0; at < len(quoted); at++ {
			if quoted[at] != '\'' {
				continue
			}
			if at+1 < len(quoted) && quoted[at+1] == '\'' {
				at++
				continue
			}
			sheet, text = strings.ReplaceAll(quoted[:at], "''", "'"), quoted[at+1:]
			break
		}
	} else if at := strings.LastIndexAny(text, "!."); at >= 0 {
		sheet, text = text[:at], text[at:]
	}
	if sheet == "" || text == "" {
		return "", Range{}, false
	}
	area, ok = rectangle(text[1:])
	return sheet, area, ok
}

// Ours gives the sheets of ours by their marks: "railbook_sheet_placings" → "Placings (2)".
func (b *Book) Ours() map[string]string {
	found, err := b.marks()
	if err != nil {
		return nil
	}
	ours := map[string]string{}
	for _, mark := range found {
		if b.hasSheet(mark.sheet) && mark.name != textMark && !strings.HasPrefix(mark.name, columnsMark) {
			ours[mark.name] = mark.sheet
		}
	}
	return ours
}

// OurColumns gives the cells of our blocks of columns by sheet.
func (b *Book) OurColumns() map[string][]Range {
	found, err := b.marks()
	if err != nil {
		return nil
	}
	ours := map[string][]Range{}
	for _, mark := range found {
		if strings.HasPrefix(mark.name, columnsMark) {
			ours[mark.sheet] = append(ours[mark.sheet], mark.area)
		}
	}
	return ours
}

// Marked is a sheet of ours, or a block of our columns, by its mark.
type Marked struct {
	Mark, Sheet string
	Area        Range
}

// Marked lists all that is marked as ours, in the order of the marks.
func (b *Book) Marked() (list []Marked) {
	found, err := b.marks()
	if err != nil {
		return nil
	}
	for _, mark := range found {
		if b.hasSheet(mark.sheet) {
			list = append(list, Marked{mark.name, mark.sheet, mark.area})
		}
	}
	slices.SortStableFunc(list, func(a, b Marked) int { return strings.Compare(a.Mark, b.Mark) })
	return list
}

func (b *Book) hasSheet(name string) bool {
	if b.file != nil {
		index, err := b.file.GetSheetIndex(name)
		return err == nil && index >= 0
	}
	return slices.ContainsFunc(b.sheets, func(sheet sheetPart) bool { return strings.EqualFold(sheet.name, name) })
}

// NewSheet adds an empty sheet of ours under the name, or under "name (2)" where the workbook has one already, and
// marks it. It returns the name taken. Fill it through Excel.
func (b *Book) NewSheet(name, markName string) (string, error) {
	if err := b.loadLibrary(); err != nil {
		return "", err
	}
	taken := b.NameFor(name)
	restore := b.freeSheetNumber()
	_, err := b.file.NewSheet(taken)
	restore()
	if err != nil {
		return "", fmt.Errorf("the sheet %q can't be added: %w", taken, err)
	}
	if b.added == nil {
		b.added = make(map[string]string)
	}
	list := b.file.WorkBook.Sheets.Sheet
	b.added[taken] = "xl/worksheets/sheet" + strconv.Itoa(list[len(list)-1].SheetID) + ".xml"
	b.setMark(mark{name: markName, sheet: taken, area: Range{1, 1, 1, 1}})
	return taken, nil
}

// NameFor gives the name that NewSheet would give a sheet now.
func (b *Book) NameFor(name string) string {
	taken := name
	for number := 2; b.hasSheet(taken); number++ {
		suffix := fmt.Sprintf(" (%d)", number)
		taken = name
		for utf16Length(taken)+len(suffix) > excelize.MaxSheetNameLength {
			letters := []rune(taken)
			taken = string(letters[:len(letters)-1])
		}
		taken += suffix
	}
	return taken
}

// freeSheetNumber makes the library take a free part name for the next sheet. It takes the highest sheet number and
// one, whether or not a sheet of the user's is kept under that name.
func (b *Book) freeSheetNumber() (restore func()) {
	list := b.file.WorkBook.Sheets.Sheet
	highest := 0
	for _, sheet := range list {
		highest = max(highest, sheet.SheetID)
	}
	next := highest + 1
	for b.partTaken("xl/worksheets/sheet" + strconv.Itoa(next) + ".xml") {
		next++
	}
	if next == highest+1 {
		return func() {}
	}
	last := len(list) - 1
	number := list[last].SheetID
	b.file.WorkBook.Sheets.Sheet[last].SheetID = next - 1
	return func() { b.file.WorkBook.Sheets.Sheet[last].SheetID = number }
}

func (b *Book) partTaken(name string) bool {
	if _, found := b.file.Sheet.Load(name); found {
		return true
	}
	return b.base.taken(name)
}
