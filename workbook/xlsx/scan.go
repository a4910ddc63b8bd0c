package xlsx

import (
	"errors"
	"fmt"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"time"
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
	err := s.list.each(func(piece []byte, _ int) error {
		s.tags = within(piece)
		return s.rows(&previous)
	})
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

func byColumn(a, b Cell) int { return a.Column - b.Column }

func (s *scanner) cells(row token) error {
	s.scratch = s.scratch[:0]
	if row.closed {
		return nil
	}
	depth, previous := s.depth(), 0
	for {
		cell, kind, plain, err := s.plainCell(previous)
		if !plain && err == nil {
			tag, errNext := s.next()
			if errNext != nil || s.depth() < depth {
				return errNext
			}
			if tag.kind != startElement {
				continue
			}
			if tag.name != "c" {
				if _, err := s.skip(tag); err != nil {
					return err
				}
				continue
			}
			if cell, kind, err = s.cellHead(tag, previous); err == nil && !tag.closed {
				err = s.cellBody(tag, kind, &cell)
			}
		}
		if err != nil {
			return err
		}
		previous = cell.Column
		if err := s.keepCell(cell, kind); err != nil {
			return err
		}
	}
}

// keepCell keeps a cell of the row being read, if it holds something.
func (s *scanner) keepCell(cell Cell, kind string) error {
	if cell.Kind == Blank && !cell.Formula {
		return nil
	}
	if s.count++; s.mostCells > 0 && s.count > s.mostCells {
		return errTooMany
	}
	if s.head > 0 && s.count > s.head {
		return errMoreCells
	}
	if kind != "s" {
		if cell.Raw = s.keep(cell.Raw); s.texted > mostTexts {
			return errTooLong
		}
	}
	s.scratch = append(s.scratch, cell)
	if s.struck || cell.Style >= 0 && int(cell.Style) < len(s.formats) && s.formats[cell.Style].struck {
		s.strike(cell.Column)
	}
	return nil
}

// plainCell reads a cell that is written as nearly all are, <c r="B7" s="2"><v>812</v></c>, at one look. Of any other, plain is false
// and nothing was read.
func (s *scanner) plainCell(previous int) (cell Cell, kind string, plain bool, err error) {
	rest := s.data[s.at:]
	if !strings.HasPrefix(rest, "<c ") {
		return cell, "", false, nil
	}
	end := strings.IndexByte(rest, '>')
	if end < 0 || rest[end-1] == '/' {
		return cell, "", false, nil
	}
	inner, before, after := rest[end+1:], "<v>", "</v></c>"
	inline := strings.HasPrefix(inner, "<is><t>")
	if inline {
		before, after = "<is><t>", "</t></is></c>"
	}
	if !strings.HasPrefix(inner, before) {
		return cell, "", false, nil
	}
	inner = inner[len(before):]
	until := strings.IndexByte(inner, '<')
	if until < 0 || !strings.HasPrefix(inner[until:], after) {
		return cell, "", false, nil
	}
	if cell, kind, err = s.cellHead(token{attributes: rest[len("<c"):end], start: s.at}, previous); err != nil {
		return cell, kind, true, err
	}
	s.at += end + 1 + len(before) + until + len(after) - len("</c>")
	s.struck = false
	text := entities(inner[:until])
	switch {
	case !inline:
		err = s.value(kind, text, &cell)
	case text != "":
		cell.Kind, cell.Raw = Text, escapedCharacters(text)
	}
	s.at += len("</c>")
	return cell, kind, true, err
}

func (s *scanner) strike(column int) {
	if s.grid.Struck == nil {
		s.grid.Struck = map[Place]bool{}
	}
	s.grid.Struck[Place{column, s.row.Number}] = true
}

// cellHead reads the attributes of <c>: its place, its style and the type of its value.
func (s *scanner) cellHead(tag token, previous int) (cell Cell, kind string, err error) {
	cell.Column = previous + 1
	rest := tag.attributes
	for {
		rest = withoutBlanksBefore(rest)
		equals := strings.IndexByte(rest, '=')
		if equals < 0 || equals+2 > len(rest) {
			break
		}
		end := strings.IndexByte(rest[equals+2:], rest[equals+1])
		if end < 0 {
			break
		}
		value := rest[equals+2 : equals+2+end]
		switch rest[:equals] {
		case "r":
			column, row, ok := address.Parse(value)
			if !ok || row != s.row.Number {
				return cell, "", &damage{tag.start, fmt.Sprintf("row %d has a cell %q", s.row.Number, shorten(value))}
			}
			cell.Column = column
		case "s":
			style, _ := strconv.ParseInt(value, 10, 32)
			cell.Style = int32(style)
		case "t":
			kind = value
		}
		rest = rest[equals+3+end:]
	}
	if cell.Column > address.LastColumn {
		return cell, "", &damage{tag.start, fmt.Sprintf("row %d has too many cells", s.row.Number)}
	}
	return cell, kind, nil
}

// cellBody reads the formula and the value of a cell.
func (s *scanner) cellBody(element token, kind string, cell *Cell) error {
	depth := s.depth()
	s.struck = false
	for {
		tag, err := s.next()
		if err != nil || s.depth() < depth {
			return err
		}
		if tag.kind != startElement {
			continue
		}
		switch tag.name {
		case "f":
			cell.Formula = true
			if s.printed != nil {
				err = s.formula(tag, Place{cell.Column, s.row.Number})
			} else {
				_, err = s.skip(tag)
			}
		case "v":
			var raw string
			if raw, err = s.content(tag); err == nil {
				err = s.value(kind, raw, cell)
			}
		case "is":
			var text string
			if text, s.struck, err = s.richText(tag); err == nil && (text != "" || cell.Formula) {
				cell.Kind, cell.Raw = Text, text
			}
		default:
			_, err = s.skip(tag)
		}
		if err != nil {
			return err
		}
	}
}

// value gives a cell its kind and content by the type of its <c> (ECMA-376 part 1, 18.18.11).
func (s *scanner) value(kind, raw string, cell *Cell) error {
	switch kind {
	case "s":
		index, err := strconv.Atoi(strings.TrimSpace(raw))
		if err != nil || index < 0 || index >= len(s.texts) {
			return &damage{s.at, fmt.Sprintf("cell %s refers to a text that is not there", address.Cell(cell.Column, s.row.Number))}
		}
		if s.texts[index] != "" {
			cell.Kind, cell.Raw = Text, s.texts[index]
			s.struck = s.struckTexts[index]
		}
	case "str", "inlineStr":
		if raw != "" || cell.Formula {
			cell.Kind, cell.Raw = Text, escapedCharacters(raw)
		}
	case "b":
		cell.Kind, cell.Raw = Bool, "FALSE"
		if trimmed := strings.TrimSpace(raw); trimmed == "1" || trimmed == "true" {
			cell.Raw = "TRUE"
		}
	case "e":
		cell.Kind, cell.Raw = ErrorValue, raw
	case "d":
		s.dateValue(raw, cell)
	default:
		s.numberValue(raw, cell)
	}
	return nil
}

func (s *scanner) numberValue(raw string, cell *Cell) {
	raw = strings.TrimSpace(raw)
	if raw == "" {
		return
	}
	number, ok := shortest(raw)
	if !ok {
		cell.Kind, cell.Raw = Text, raw
		return
	}
	cell.Kind, cell.Raw = Number, number
	if int(cell.Style) < len(s.formats) && cell.Style >= 0 {
		cell.Date, cell.Percent = s.formats[cell.Style].date, s.formats[cell.Style].percent
	}
}

// dateValue reads an ISO 8601 date cell as the serial number that other programs store.
func (s *scanner) dateValue(raw string, cell *Cell) {
	cell.Kind, cell.Raw = Text, raw
	for _, layout := range []string{"2006-01-02T15:04:05.999", "2006-01-02T15:04:05Z", "2006-01-02"} {
		when, err := time.Parse(layout, strings.TrimSpace(raw))
		if err != nil {
			continue
		}
		epoch := time.Date(1899, 12, 30, 0, 0, 0, 0, time.UTC)
		if s.date1904 {
			epoch = time.Date(1904, 1, 1, 0, 0, 0, 0, time.UTC)
		}
		days := when.Sub(epoch).Hours() / 24
		cell.Kind, cell.Raw, cell.Date = Number, strconv.FormatFloat(days, 'f', -1, 64), true
		return
	}
}

// shortest gives a stored number as people know it: 0.36 for the 0.35999999999999999 that a program stored. Every
// spreadsheet program stores binary numbers; the shortest decimal that means the same binary number is what was typed.
func shortest(raw string) (string, bool) {
	if plainNumber(raw) {
		return raw, true
	}
	number, err := strconv.ParseFloat(raw, 64)
	digits, _, _ := strings.Cut(strings.ToLower(raw), "e")
	if err != nil || number-number != 0 || strings.ContainsAny(raw, "xX_") || number == 0 && strings.ContainsAny(digits, "123456789") {
		return "", false
	}
	text := strconv.FormatFloat(number, 'g', -1, 64)
	if strings.Contains(text, "e") && number < 1e21 && number > -1e21 {
		text = strconv.FormatFloat(number, 'f', -1, 64)
	}
	if text == "-0" {
		text = "0"
	}
	return text, true
}

// plainNumber reports whether a number is in its shortest form already: at most 15 digits, no needless zeros.
func plainNumber(raw string) bool {
	digits := strings.TrimPrefix(raw, "-")
	whole, fraction, point := strings.Cut(digits, ".")
	if len(digits) > 15 || whole == "" || (len(whole) > 1 && whole[0] == '0') || digits == "0" && len(raw) > 1 {
		return false
	}
	if point && (fraction == "" || fraction[len(fraction)-1] == '0') {
		return false
	}
	for i := range len(digits) {
		if c := digits[i]; (c < '0' || c > '9') && c != '.' {
			return false
		}
	}
	return strings.IndexByte(fraction, '.') < 0
}
