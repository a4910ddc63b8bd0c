package xlsx

import (
	"cmp"
	"fmt"
	"path/filepath"
	"slices"
	"strconv"
	"strings"

	"railbook/rules/address"
)

// stripColumns takes the blocks of columns out, the last added first.
func (b *Book) stripColumns(marks []mark) error {
	blocks := slices.DeleteFunc(slices.Clone(marks), func(found mark) bool { return !strings.HasPrefix(found.name, columnsMark) })
	slices.SortStableFunc(blocks, func(x, y mark) int { return cmp.Compare(blockNumber(y.name), blockNumber(x.name)) })
	for _, mark := range blocks {
		part, err := b.sheetPart(mark.sheet)
		if err != nil {
			continue
		}
		block := stripping{data: b.contents.parts[part], held: b.contents.lists[part], area: mark.area, undo: readUndo(mark.comment)}
		stripped, err := block.sheet()
		if err != nil {
			return errDamaged(filepath.Base(b.Path), part, fmt.Sprintf("the sheet %q is not readable: %v", mark.sheet, err))
		}
		b.contents.parts[part] = stripped
		if block.held == nil {
			delete(b.contents.lists, part)
		} else {
			b.contents.lists[part] = block.held.changed(block.rowEdits)
		}
	}
	return nil
}

func blockNumber(name string) int {
	number, _ := strconv.Atoi(strings.TrimPrefix(name, columnsMark))
	return number
}

// stripping is one block on its way out of a sheet.
type stripping struct {
	data []byte
	held *listing // of the rows, where they are not held
	area Range
	undo undo

	plain    bool   // its rows have neither comments nor CDATA
	rowEdits []edit // of the rows, where they are not held
}

func (s *stripping) sheet() ([]byte, error) {
	root, list, err := children(s.data, "")
	if err != nil {
		return nil, err
	}
	if root.name != "worksheet" {
		return nil, &damage{root.start, "it is no worksheet"}
	}
	var edits []edit
	for _, element := range list {
		var some []edit
		switch element.name {
		case "dimension":
			some = s.dimension(element)
		case "cols":
			some, err = s.widths(element)
		case "sheetData":
			some, err = s.rows(element)
		}
		if err != nil {
			return nil, err
		}
		edits = append(edits, some...)
	}
	return apply(s.data, edits), nil
}

// dimension gives the used range back as it was, unless it changed since.
func (s *stripping) dimension(tagged element) []edit {
	was, ok := rectangle(s.undo.dimension)
	is, _ := tagged.attribute("ref")
	now, nowOK := rectangle(is)
	if !ok || !nowOK || now != was.with(s.area) {
		return nil
	}
	tag := string(s.data[tagged.start:tagged.token.end])
	return []edit{{tagged.start, tagged.token.end, withAttribute(tag, "ref", s.undo.dimension)}}
}

// with gives the smallest range that holds both.
func (r Range) with(other Range) Range {
	return Range{
		min(r.FirstColumn, other.FirstColumn), min(r.FirstRow, other.FirstRow),
		max(r.LastColumn, other.LastColumn), max(r.LastRow, other.LastRow),
	}
}

// widths takes out the widths that our columns were given.
func (s *stripping) widths(cols element) ([]edit, error) {
	_, inside, err := children(s.data[cols.start:cols.until], "")
	if err != nil {
		return nil, err
	}
	var edits []edit
	ranges := columnRanges(inside)
	gone := make([]bool, len(ranges))
	for _, tag := range s.undo.hidden {
		walk := tags{data: tag}
		original, err := walk.next()
		if err != nil {
			continue
		}
		first, _ := original.number("min")
		last, _ := original.number("max")
		for i, columns := range ranges {
			if columns.first < first || columns.last > last {
				continue
			}
			gone[i] = true
			edits = append(edits, edit{cols.start + columns.start, cols.start + columns.until, tag})
			tag = ""
		}
	}
	for i, columns := range ranges {
		if !gone[i] && columns.first == columns.last && slices.Contains(s.undo.widths, columns.first) {
			gone[i] = true
			edits = append(edits, edit{cols.start + columns.start, cols.start + columns.until, ""})
		}
	}
	if s.undo.noWidths && !slices.Contains(gone, false) {
		return []edit{{cols.start, cols.until, ""}}, nil
	}
	return edits, nil
}

// rows takes the block's cells out of their rows.
func (s *stripping) rows(data element) ([]edit, error) {
	var edits []edit
	s.plain = s.held.isPlain(s.data)
	previous, left := 0, 0
	err := s.held.inside(s.data, data, func(piece []byte, at int) error {
		some, err := s.piece(piece, &previous, &left)
		for i := range some {
			some[i].from += at
			some[i].to += at
		}
		edits = append(edits, some...)
		return err
	})
	if err != nil {
		return nil, err
	}
	if s.undo.noRows && left == 0 {
		s.held = nil
		return []edit{{data.start, data.until, strings.TrimSuffix(string(s.data[data.start:data.token.end]), ">") + "/>"}}, nil
	}
	if s.held != nil {
		s.rowEdits = edits
		return nil, nil
	}
	return edits, nil
}

// piece takes the block's cells out of a piece of the rows. previous is the number of the row before, left how many rows there are.
func (s *stripping) piece(piece []byte, previous, left *int) (edits []edit, err error) {
	walk := within(piece)
	var ours []edit
	for {
		row, err := walk.next()
		if err != nil || row.kind == endOfPart {
			return edits, err
		}
		if row.kind != startElement {
			continue
		}
		ending, err := walk.skipRow(row, s.plain && row.name == "row")
		if err != nil {
			return nil, err
		}
		number := *previous + 1
		if given, ok := row.number("r"); ok {
			number = given
		}
		*previous = number
		*left++
		if number < s.area.FirstRow || number > s.area.LastRow || row.closed {
			continue
		}
		kept := true
		if from, until, behind := s.behind(view(piece[row.end:ending.start]), row.prefix); behind {
			ours = append(ours[:0], edit{row.end + from, row.end + until, ""})
		} else if ours, kept, err = s.among(ours[:0], piece[:ending.end], row); err != nil {
			return nil, err
		}
		switch {
		case !kept && slices.Contains(s.undo.added, number):
			edits = append(edits, edit{row.start, ending.end, ""})
			*left--
		case !kept && slices.Contains(s.undo.opened, number):
			edits = append(edits, edit{row.start, ending.end, strings.TrimSuffix(string(piece[row.start:row.end]), ">") + "/>"})
		default:
			edits = append(edits, ours...)
		}
	}
}

// behind finds the block's cells where they are the last of a plain row, behind others: as they were written. It is false where only a
// look at every cell can tell.
func (s *stripping) behind(inside, prefix string) (from, until int, found bool) {
	last, ends := lastCell(inside, prefix)
	if !s.plain || !ends || last < s.area.FirstColumn || last > s.area.LastColumn {
		return 0, 0, false
	}
	name := "<" + prefix + "c "
	until = len(strings.TrimRight(inside, " \t\r\n"))
	for from = until; ; {
		at := lastTag(inside[:from], name)
		if at < 0 || strings.Contains(inside[at:from], "<"+prefix+"c>") {
			return 0, 0, false
		}
		place, given := strings.CutPrefix(inside[at+len(name):from], `r="`)
		place, _, _ = strings.Cut(place, `"`)
		column, _, ok := address.Parse(place)
		switch {
		case !given || !ok || column > s.area.LastColumn:
			return 0, 0, false
		case column < s.area.FirstColumn:
			return from, until, true
		}
		from = at
	}
}

// among looks at every cell of a row for those of the block, and reports whether there are others.
func (s *stripping) among(ours []edit, piece []byte, row token) (found []edit, kept bool, err error) {
	cells, err := cellsOfRow(nil, view(piece), row)
	if err != nil {
		return nil, false, err
	}
	for _, cell := range cells {
		if cell.column < s.area.FirstColumn || cell.column > s.area.LastColumn {
			kept = true
		} else if last := len(ours) - 1; last >= 0 && ours[last].to == cell.start {
			ours[last].to = cell.until
		} else {
			ours = append(ours, edit{cell.start, cell.until, ""})
		}
	}
	return ours, kept, nil
}
