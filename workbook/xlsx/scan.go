package xlsx

import (
	"errors"
	"fmt"
	"path/filepath"
	"slices"
	"unsafe"

	"railbook/rules/address"
)

// view gives bytes as a string without copying them. A part's bytes are never changed, only replaced.
func view(data []byte) string { return unsafe.String(unsafe.SliceData(data), len(data)) }

// Scan reads a sheet without changing it.
func (b *Book) Scan(sheet string) (*Grid, error) { return b.scan(sheet, nil) }

// ScanHead reads the rows of a sheet up to so many cells that hold something; whole is false where more follow.
func (b *Book) ScanHead(sheet string, cells int) (head *Grid, whole bool, err error) {
	if b.contents == nil {
		head, err = b.scanText(sheet)
		return head, true, err
	}
	head, err = b.scanTo(sheet, nil, cells, nil)
	if errors.Is(err, errMoreCells) {
		return head, false, nil
	}
	return head, true, err
}

// scan reads a sheet, and where it is wanted what makes it print otherwise.
func (b *Book) scan(sheet string, printed *Printed) (*Grid, error) {
	if b.contents == nil {
		return b.scanText(sheet)
	}
	return b.scanTo(sheet, printed, 0, nil)
}

// ScanRows reads those rows of a sheet that are wanted, by their numbers.
func (b *Book) ScanRows(sheet string, wanted func(row int) bool) (*Grid, error) {
	if b.contents == nil {
		return b.scanText(sheet)
	}
	return b.scanTo(sheet, nil, 0, wanted)
}

// scanTo reads a sheet up to so many cells, 0 for all; it fails with errMoreCells where there are more, and gives what it read. Where
// only some rows are wanted, it passes over the others.
func (b *Book) scanTo(sheet string, printed *Printed, cells int, wanted func(row int) bool) (*Grid, error) {
	part, err := b.sheetPart(sheet)
	if err != nil {
		return nil, err
	}
	name := filepath.Base(b.Path)
	texts, err := b.strings.all()
	if errors.Is(err, errTooLong) {
		return nil, errTextsTooLong(name, b.strings.part)
	}
	if err != nil {
		return nil, errDamaged(name, b.strings.part, "the texts of the sheets are not all there: "+err.Error())
	}
	scan := scanner{
		tags: tags{data: view(b.contents.parts[part])}, texts: texts, formats: b.styles, date1904: b.date1904,
		grid: &Grid{HiddenColumns: map[int]bool{}, Date1904: b.date1904},
	}
	scan.struckTexts, scan.list = b.strings.struck, b.contents.lists[part]
	if printed != nil {
		scan.printed, scan.shared = printed, make(map[string]sharedFormula)
	}
	if entry := b.contents.packed[part].entry; entry != nil {
		scan.mostCells = mostCells(entry.CompressedSize64)
	}
	scan.head, scan.wanted = cells, wanted
	scan.plain = wanted != nil && scan.list.isPlain(b.contents.parts[part])
	err = scan.sheet()
	if errors.Is(err, errMoreCells) {
		return scan.grid, err
	}
	if errors.Is(err, errTooLong) {
		return nil, errTextsTooLong(name, part)
	}
	if errors.Is(err, errTooMany) {
		return nil, errTooTight(name, part, b.contents.packed[part].entry.UncompressedSize64)
	}
	if err != nil {
		return nil, errDamaged(name, part, fmt.Sprintf("the sheet %q is not all there or not readable: %v", sheet, err))
	}
	if scan.grid.Comments, err = b.comments(part); err != nil {
		return nil, err
	}
	return scan.grid, nil
}

func (b *Book) sheetPart(sheet string) (string, error) {
	at := slices.IndexFunc(b.sheets, func(part sheetPart) bool { return part.name == sheet })
	if at < 0 {
		return "", fmt.Errorf("%s has no sheet %q", filepath.Base(b.Path), sheet)
	}
	return b.sheets[at].part, nil
}

// scanner reads one sheet's XML in a single pass.
type scanner struct {
	tags
	texts    []string
	formats  []format
	date1904 bool
	grid     *Grid
	row      Row
	scratch  []Cell // of the row being read
	store    []Cell // where rows keep their cells: taken by the thousand
	count    int    // how many cells hold something

	mostCells int // that may; 0 for any number
	head      int // how many are read; 0 for all

	wanted func(row int) bool // nil: every row
	plain  bool               // a row that is not wanted ends with its tag

	list   *listing // of the rows, where they are not held
	kept   []byte   // where texts of such rows are kept
	texted int      // how many bytes of them there are

	printed *Printed                 // where formulas and the like are wanted
	shared  map[string]sharedFormula // by their numbers

	struckTexts map[int]bool // the shared texts that are struck out, by their number
	struck      bool         // the text of the cell being read is struck out
}

func (s *scanner) sheet() error {
	root, err := s.next()
	if err != nil {
		return err
	}
	if root.name != "worksheet" {
		return &damage{root.start, "it is no worksheet"}
	}
	for {
		tag, err := s.next()
		if err != nil {
			return err
		}
		if tag.kind == endOfPart {
			break
		}
		if tag.kind != startElement {
			continue
		}
		if err := s.element(tag); err != nil {
			return err
		}
	}
	slices.SortStableFunc(s.grid.Rows, func(a, b Row) int { return a.Number - b.Number })
	return nil
}

// element reads one element that stands directly in the worksheet.
func (s *scanner) element(tag token) error {
	switch tag.name {
	case "sheetData":
		return s.sheetData(tag)
	case "cols":
		return s.inside(tag, s.columns)
	case "mergeCells":
		return s.inside(tag, s.merged)
	case "autoFilter":
		s.grid.Filtered = true
	case "conditionalFormatting":
		if cells, _ := tag.attribute("sqref"); s.printed != nil {
			s.printed.Conditional = append(s.printed.Conditional, cells)
		}
	}
	_, err := s.skip(tag)
	return err
}

// inside calls a function for each element directly inside another.
func (s *scanner) inside(element token, each func(token) error) error {
	if element.closed {
		return nil
	}
	depth := s.depth()
	for {
		tag, err := s.next()
		if err != nil || s.depth() < depth {
			return err
		}
		if tag.kind != startElement {
			continue
		}
		if err := each(tag); err != nil {
			return err
		}
		if _, err := s.skip(tag); err != nil {
			return err
		}
	}
}

func (s *scanner) columns(tag token) error {
	if tag.name != "col" || !tag.flag("hidden") {
		return nil
	}
	first, _ := tag.number("min")
	last, _ := tag.number("max")
	for column := max(1, first); column <= min(last, address.LastColumn); column++ {
		s.grid.HiddenColumns[column] = true
	}
	return nil
}

func (s *scanner) merged(tag token) error {
	name, _ := tag.attribute("ref")
	if area, ok := rectangle(name); ok {
		s.grid.Merged = append(s.grid.Merged, area)
	}
	return nil
}

func (s *scanner) sheetData(element token) error {
	if element.closed {
		return nil
	}
	previous := 0
	if s.list == nil {
		return s.rows(&previous)
	}
	frame := s.tags
	var err error
	if s.printed == nil && s.wanted == nil {
		err = s.listSideBySide(&previous)
	} else {
		err = s.list.each(func(piece []byte, _ int) error {
			s.tags = within(piece)
			return s.rows(&previous)
		})
	}
	if s.tags = frame; err == nil {
		_, err = s.skip(element)
	}
	return err
}

// rows reads the rows of a sheet, or of a piece of it, that follow the one of a number.
func (s *scanner) rows(previous *int) error {
	depth := s.depth()
	for {
		tag, err := s.next()
		if err != nil || s.depth() < depth || tag.kind == endOfPart {
			return err
		}
		if tag.kind != startElement {
			continue
		}
		if tag.name != "row" {
			if _, err := s.skip(tag); err != nil {
				return err
			}
			continue
		}
		number := *previous + 1
		if given, ok := tag.number("r"); ok {
			number = given
		} else if *previous == unknownRow {
			return errUnknownRow
		}
		if number < 1 || number > address.LastRow {
			return &damage{tag.start, fmt.Sprintf("it has a row %d", number)}
		}
		*previous = number
		if s.printed != nil && s.printed.lastRow > 0 && number > s.printed.lastRow {
			return errMoreCells
		}
		if s.wanted != nil && !s.wanted(number) {
			if _, err := s.skipRow(tag, s.plain); err != nil {
				return err
			}
			continue
		}
		s.row = Row{Number: number, Hidden: tag.flag("hidden")}
		if err := s.cells(tag); err != nil {
			return err
		}
		s.keepRow()
	}
}

// keepRow moves the cells of the row just read to a store shared by many rows.
func (s *scanner) keepRow() {
	if len(s.scratch) == 0 && !s.row.Hidden {
		return
	}
	if !slices.IsSortedFunc(s.scratch, byColumn) {
		slices.SortStableFunc(s.scratch, byColumn)
	}
	if cap(s.store)-len(s.store) < len(s.scratch) {
		s.store = make([]Cell, 0, max(4096, len(s.scratch)))
	}
	from := len(s.store)
	s.store = append(s.store, s.scratch...)
	s.row.Cells = s.store[from:len(s.store):len(s.store)]
	s.grid.Rows = append(s.grid.Rows, s.row)
}

// keep gives a text that stays when the piece goes from which it was read.
func (s *scanner) keep(text string) string {
	if s.list == nil || text == "" {
		return text
	}
	s.texted += len(text)
	if cap(s.kept)-len(s.kept) < len(text) {
		s.kept = make([]byte, 0, max(keptTexts, len(text)))
	}
	from := len(s.kept)
	s.kept = append(s.kept, text...)
	return view(s.kept[from:])
}

// keptTexts is how many bytes of texts are kept in one.
const keptTexts = 1 << 16
