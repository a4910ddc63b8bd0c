package xlsx

import (
	"errors"
	"fmt"
	"maps"
	"path/filepath"
	"slices"
	"strings"

	"railbook/rules/address"
)

// SetCells gives cells of a sheet another value (a decision's correction), keeping their style. The hint, where there is
// one, is shown when the cell is selected. A formula in the cell gives way to the value.
func (b *Book) SetCells(sheet string, cells map[string]CellChange) error {
	if len(cells) == 0 {
		return nil
	}
	b.saved = nil
	part, err := b.sheetPart(sheet)
	if err != nil {
		return err
	}
	wanted, err := byRow(sheet, cells)
	if err != nil {
		return err
	}
	if b.contents == nil {
		return b.setTextCells(wanted)
	}
	patch := setting{sheet: sheet, data: b.contents.parts[part], held: b.contents.lists[part], wanted: wanted}
	patched, err := patch.apply()
	if err != nil {
		return err
	}
	b.contents.parts[part] = patched
	if patch.held != nil {
		b.contents.lists[part] = patch.held.changed(patch.rowEdits)
	}
	b.recalculate = true
	return nil
}

// wantedCell is a cell that gets another value.
type wantedCell struct {
	name   string
	column int
	CellChange
}

// byRow groups the cells by row, in the order of columns.
func byRow(sheet string, cells map[string]CellChange) (map[int][]wantedCell, error) {
	rows := map[int][]wantedCell{}
	for name, change := range cells {
		column, row, ok := address.Parse(name)
		if !ok {
			return nil, fmt.Errorf("sheet %q has no cell %q", sheet, name)
		}
		if change.Kind == Number {
			if _, isNumber := shortest(change.Value); !isNumber {
				return nil, fmt.Errorf("sheet %q, cell %s: %q is no number", sheet, name, change.Value)
			}
		}
		rows[row] = append(rows[row], wantedCell{address.Cell(column, row), column, change})
	}
	for _, list := range rows {
		slices.SortFunc(list, func(a, b wantedCell) int { return a.column - b.column })
	}
	return rows, nil
}

// setTextCells changes fields of a text file.
func (b *Book) setTextCells(wanted map[int][]wantedCell) error {
	if b.file != nil {
		return fmt.Errorf("%s is written already: its cells can't be changed any more", filepath.Base(b.Path))
	}
	changed := maps.Clone(b.table.changed)
	if changed == nil {
		changed = map[int][]string{}
	}
	err := b.table.each(func(row int, fields []string) {
		if len(wanted[row]) > 0 {
			changed[row] = slices.Clone(fields)
		}
	})
	for row, list := range wanted {
		for _, cell := range list {
			for len(changed[row]) < cell.column {
				changed[row] = append(changed[row], "")
			}
			changed[row][cell.column-1] = cell.Value
		}
	}
	b.table.changed = changed
	return err
}

// setting is a set of corrections on its way into a sheet.
type setting struct {
	sheet  string
	data   []byte
	held   *listing // of the rows, where they are not held
	wanted map[int][]wantedCell
	root   element
	edits  []edit
	merged []Range

	sheetData element
	piece     []byte // of the rows
	at        int    // where it begins among them
	rowEdits  []edit // of the rows, where they are not held
}

func (s *setting) apply() ([]byte, error) {
	root, list, err := children(s.data, "")
	if err != nil {
		return nil, s.damaged(err)
	}
	s.root = root
	at := slices.IndexFunc(list, func(tagged element) bool { return tagged.name == "sheetData" })
	if at < 0 {
		return nil, s.damaged(&damage{root.start, "it has no rows"})
	}
	s.readMerged(list)
	if err := s.setRows(list[at]); err != nil {
		return nil, err
	}
	s.hints(list)
	return apply(s.data, s.edits), nil
}

func (s *setting) damaged(err error) error {
	return fmt.Errorf("the sheet %q can't be corrected: %w. Open it in Excel or LibreOffice and save it again", s.sheet, err)
}

func (s *setting) readMerged(list []element) {
	for _, element := range list {
		if element.name != "mergeCells" {
			continue
		}
		_, inside, err := children(s.data[element.start:element.until], "")
		if err != nil {
			continue
		}
		for _, cell := range inside {
			name, _ := cell.attribute("ref")
			if area, ok := rectangle(name); ok {
				s.merged = append(s.merged, area)
			}
		}
	}
}

// setRows goes through the rows and sets the wanted cells of each; rows that are missing are added.
func (s *setting) setRows(data element) error {
	s.sheetData = data
	wanted, next := slices.Sorted(maps.Keys(s.wanted)), 0
	size := 0
	err := s.eachRow(func(row element, number int) error {
		size = s.at + len(s.piece)
		for next < len(wanted) && wanted[next] < number {
			s.editRows(row.start, row.start, s.newRow(wanted[next]))
			next++
		}
		if next == len(wanted) {
			return errEnough
		}
		if wanted[next] == number {
			if err := s.setRow(row, number); err != nil {
				return err
			}
			next++
		}
		return nil
	})
	if err != nil {
		return err
	}
	added := ""
	for ; next < len(wanted); next++ {
		added += s.newRow(wanted[next])
	}
	switch {
	case added == "":
	case s.held != nil:
		s.rowEdits = append(s.rowEdits, edit{size, size, added})
	case data.closed:
		open := strings.TrimSuffix(string(s.data[data.start:data.until]), "/>") + ">"
		s.edits = append(s.edits, edit{data.start, data.until, open + added + "</" + data.prefix + "sheetData>"})
	default:
		s.edits = append(s.edits, edit{data.inner, data.inner, added})
	}
	return nil
}

// errEnough ends a walk through the rows.
var errEnough = errors.New("nothing more is wanted")

// eachRow gives the rows with their numbers, until errEnough is returned. Their offsets are those in the piece.
func (s *setting) eachRow(take func(row element, number int) error) error {
	previous := 0
	err := s.held.inside(s.data, s.sheetData, func(piece []byte, at int) error {
		s.piece, s.at = piece, at
		walk := within(piece)
		_, rows, err := childrenOf(&walk, token{})
		if err != nil {
			return s.damaged(err)
		}
		for _, row := range rows {
			if row.name != "row" {
				continue
			}
			number := previous + 1
			if given, ok := row.number("r"); ok {
				number = given
			}
			previous = number
			if err := take(row, number); err != nil {
				return err
			}
		}
		return nil
	})
	if errors.Is(err, errEnough) {
		return nil
	}
	return err
}

// editRows puts a text in the place of some bytes of the piece.
func (s *setting) editRows(from, to int, text string) {
	made := edit{s.at + from, s.at + to, text}
	if s.held != nil {
		s.rowEdits = append(s.rowEdits, made)
	} else {
		s.edits = append(s.edits, made)
	}
}

func (s *setting) newRow(number int) string {
	text := fmt.Sprintf(`<%srow r="%d">`, s.root.prefix, number)
	for _, cell := range s.wanted[number] {
		text += s.cell(`<`+s.root.prefix+`c>`, cell)
	}
	return text + "</" + s.root.prefix + "row>"
}

func (s *setting) setRow(row element, number int) error {
	if row.closed {
		text := strings.TrimSuffix(string(s.piece[row.start:row.until]), "/>") + ">"
		for _, cell := range s.wanted[number] {
			text += s.cell(`<`+row.prefix+`c>`, cell)
		}
		s.editRows(row.start, row.until, text+"</"+row.prefix+"row>")
		return nil
	}
	cells, err := cellsOfRow(nil, view(s.piece[:row.until]), row.token)
	if err != nil {
		return s.damaged(err)
	}
	for _, wanted := range s.wanted[number] {
		if err := s.insideMerged(wanted, number); err != nil {
			return err
		}
		at := slices.IndexFunc(cells, func(cell placedCell) bool { return cell.column >= wanted.column })
		switch {
		case at < 0:
			place := row.token.end
			if len(cells) > 0 {
				place = cells[len(cells)-1].until
			}
			s.editRows(place, place, s.cell(`<`+row.prefix+`c>`, wanted))
		case cells[at].column > wanted.column:
			s.editRows(cells[at].start, cells[at].start, s.cell(`<`+row.prefix+`c>`, wanted))
		default:
			if err := s.keepFormulas(cells[at], wanted, number); err != nil {
				return err
			}
			tag := string(s.piece[cells[at].start:cells[at].token.end])
			s.editRows(cells[at].start, cells[at].until, s.cell(tag, wanted))
		}
	}
	return nil
}

// insideMerged refuses a cell that a merged one covers: what is written there is never seen.
func (s *setting) insideMerged(cell wantedCell, row int) error {
	for _, area := range s.merged {
		if area.holds(cell.column, row) && (cell.column != area.FirstColumn || row != area.FirstRow) {
			return fmt.Errorf("sheet %q, cell %s is covered by a merged cell: correct cell %s instead", s.sheet, cell.name, address.Cell(area.FirstColumn, area.FirstRow))
		}
	}
	return nil
}

// cell writes a cell with its new value; the tag gives its style.
func (s *setting) cell(tag string, wanted wantedCell) string {
	prefix := s.root.prefix
	tag = strings.TrimSuffix(strings.TrimSuffix(tag, ">"), "/") + ">"
	for _, name := range []string{"t", "cm", "vm"} {
		tag = withAttribute(tag, name, "")
	}
	tag = withAttribute(tag, "r", wanted.name)
	closing := "</" + prefix + "c>"
	switch wanted.Kind {
	case Blank:
		return tag + closing
	case Text:
		return withAttribute(tag, "t", "inlineStr") + withPrefix(prefix, `<is><t xml:space="preserve">`+escape(wanted.Value)+`</t></is>`) + closing
	case Bool:
		value := map[bool]string{true: "1", false: "0"}[strings.EqualFold(wanted.Value, "TRUE")]
		return withAttribute(tag, "t", "b") + withPrefix(prefix, "<v>"+value+"</v>") + closing
	case ErrorValue:
		return withAttribute(tag, "t", "e") + withPrefix(prefix, "<v>"+escape(wanted.Value)+"</v>") + closing
	}
	number, _ := shortest(wanted.Value)
	return tag + withPrefix(prefix, "<v>"+number+"</v>") + closing
}

// keepFormulas hands a shared formula that is written in a corrected cell on to the next cell that shares it, and
// refuses to cut an array formula.
func (s *setting) keepFormulas(cell placedCell, wanted wantedCell, row int) error {
	_, inside, err := children(s.piece[cell.start:cell.until], "")
	if err != nil {
		return s.damaged(err)
	}
	at := slices.IndexFunc(inside, func(tagged element) bool { return tagged.name == "f" })
	if at < 0 {
		return nil
	}
	kind, _ := inside[at].attribute("t")
	area, _ := inside[at].attribute("ref")
	if kind == "array" && strings.Contains(area, ":") {
		return fmt.Errorf("sheet %q, cell %s is the first of an array formula (%s): replace the formula by its values in Excel, then correct the cell", s.sheet, wanted.name, area)
	}
	if kind != "shared" || area == "" {
		return nil
	}
	text := characters(string(s.piece[cell.start+inside[at].token.end : cell.start+inside[at].inner]))
	id, _ := inside[at].attribute("si")
	return s.handOn(cell, row, id, area, text)
}

// handOn writes a shared formula into the next cell that shares it.
func (s *setting) handOn(from placedCell, fromRow int, id, area, text string) error {
	piece, at := s.piece, s.at
	defer func() { s.piece, s.at = piece, at }()
	start := at + from.start
	id = strings.Clone(id) // the piece that it stands in may go
	return s.eachRow(func(row element, number int) error {
		if s.at+row.until <= start || !strings.Contains(view(s.piece[row.start:row.until]), `si=`) {
			return nil
		}
		cells, err := cellsOfRow(nil, view(s.piece[:row.until]), row.token)
		if err != nil {
			return s.damaged(err)
		}
		for _, cell := range cells {
			if s.at+cell.start <= start || s.replaced(cell.column, number) {
				continue
			}
			formula, found := s.sharing(cell, id)
			if !found {
				continue
			}
			moved := shiftFormula(text, cell.column-from.column, number-fromRow)
			s.editRows(formula.start, formula.until, withPrefix(cell.prefix,
				`<f t="shared" ref="`+escape(area)+`" si="`+escape(id)+`">`+escape(moved)+`</f>`))
			return errEnough
		}
		return nil
	})
}

func (s *setting) replaced(column, row int) bool {
	return slices.ContainsFunc(s.wanted[row], func(cell wantedCell) bool { return cell.column == column })
}

// sharing finds the <f> of a cell that takes its formula from another.
func (s *setting) sharing(cell placedCell, id string) (element, bool) {
	_, inside, err := children(s.piece[cell.start:cell.until], "")
	if err != nil {
		return element{}, false
	}
	for _, element := range inside {
		if shared, _ := element.attribute("si"); element.name == "f" && shared == id {
			element.start += cell.start
			element.until += cell.start
			return element, true
		}
	}
	return element{}, false
}

// holds reports whether a cell is in the range.
func (r Range) holds(column, row int) bool {
	return column >= r.FirstColumn && column <= r.LastColumn && row >= r.FirstRow && row <= r.LastRow
}
