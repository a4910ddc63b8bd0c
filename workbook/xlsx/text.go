package xlsx

import (
	"bytes"
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"maps"
	"path/filepath"
	"slices"
	"strings"
	"unicode/utf8"

	"railbook/rules/address"
	"railbook/rules/phrase"

	"golang.org/x/text/encoding/charmap"
	"golang.org/x/text/encoding/unicode"
)

// textTable is the rows of a text file. They are parted into fields each time they are asked for: the fields of a long file take
// several times the room of its text.
type textTable struct {
	text      string
	separator rune
	changed   map[int][]string // the fields of rows that were corrected
	from, to  int              // where in the text the row is that is given
}

// inPlace gives a field as a part of the text, where it stands there after a place: the reader's own fields hold a copy of their line.
func (t *textTable) inPlace(field string, after *int) string {
	at := strings.Index(t.text[*after:t.to], field)
	if at < 0 {
		return field
	}
	from := *after + at
	*after = from + len(field)
	return t.text[from:*after]
}

// looksLikeText reports whether bytes may be a text table: no control characters but tabs and line ends, once decoded.
func looksLikeText(data []byte) bool {
	text := decodeText(data[:min(len(data), 1<<16)])
	odd := 0
	for _, c := range text {
		if c < ' ' && c != '\t' && c != '\n' && c != '\r' && c != '\f' {
			odd++
		}
	}
	return odd == 0
}

// decodeText decodes UTF-8 with or without its mark, UTF-16 with its mark or with every other byte 0, and else
// Windows-1252, which every byte is a letter of.
func decodeText(data []byte) string {
	order, is := utf16Order(data)
	if !is {
		data = bytes.TrimPrefix(data, []byte("\xEF\xBB\xBF"))
		if utf8.Valid(data) || cutInsideLetter(data) {
			return string(data)
		}
		plain, err := charmap.Windows1252.NewDecoder().Bytes(data)
		if err != nil {
			return string(data)
		}
		return string(plain)
	}
	plain, err := unicode.UTF16(order, unicode.UseBOM).NewDecoder().Bytes(data)
	if err != nil {
		return string(data)
	}
	return string(plain)
}

// utf16Order tells whether a text is in UTF-16, and in which order its bytes stand.
func utf16Order(data []byte) (order unicode.Endianness, is bool) {
	switch {
	case bytes.HasPrefix(data, []byte("\xFF\xFE")):
		return unicode.LittleEndian, true
	case bytes.HasPrefix(data, []byte("\xFE\xFF")):
		return unicode.BigEndian, true
	case len(data) > 3 && data[0] != 0 && data[1] == 0 && data[2] != 0 && data[3] == 0:
		return unicode.LittleEndian, true
	case len(data) > 3 && data[0] == 0 && data[1] != 0 && data[2] == 0 && data[3] != 0:
		return unicode.BigEndian, true
	}
	return unicode.LittleEndian, false
}

// cutInsideLetter reports whether only the last letter is broken, as at the end of a sample.
func cutInsideLetter(data []byte) bool {
	for cut := 1; cut < utf8.UTFMax && cut < len(data); cut++ {
		if utf8.Valid(data[:len(data)-cut]) {
			return utf8.RuneStart(data[len(data)-cut]) && data[len(data)-cut] >= utf8.RuneSelf && len(data) >= 1<<16
		}
	}
	return false
}

// readText reads a CSV or TSV file as a book of one sheet, named after the file.
func (b *Book) readText(data []byte) error {
	name := filepath.Base(b.Path)
	if _, twoBytes := utf16Order(data); twoBytes && len(data)%2 != 0 && !bytes.HasSuffix(data, []byte("\n")) {
		return fmt.Errorf("%s ends in the middle of a letter, so that something of it is missing. Ask for the file again, or copy it again from where it came", name)
	}
	text := strings.ReplaceAll(strings.ReplaceAll(decodeText(data), "\r\n", "\n"), "\r", "\n")
	separator := findSeparator(text)
	if line, rest, _ := strings.Cut(text, "\n"); len(line) == 5 && strings.HasPrefix(strings.ToLower(line), "sep=") {
		separator, text = rune(line[4]), rest
	}
	table := &textTable{text: text, separator: separator}
	if line := table.openQuote(); line > 0 {
		return fmt.Errorf("%s can't be read as a table of text: a field of its line %d begins with a quotation mark that is never closed, and all that follows would be in that field. "+
			"Ask for the file again, or close or take out the mark in a text editor", name, line)
	}
	comma, err := table.usesDecimalComma()
	if err != nil {
		return fmt.Errorf("%s can't be read as a table of text: %w. Open it in a spreadsheet program and save it as .xlsx", name, err)
	}
	b.Text, b.table = true, table
	b.DecimalComma = separator != ',' && comma
	b.sheets = []sheetPart{{name: sheetNameFor(name)}}
	return nil
}

// openQuote gives the line of a field that begins with a quotation mark and swallows the lines after it: at the end of the text it is not
// closed, or a mark inside it opens another field. 0 where there is none.
func (t *textTable) openQuote() (line int) {
	line = 1
	begins := true // a field, here
	for at := 0; at < len(t.text); {
		if !begins || t.text[at] != '"' {
			begins = t.text[at] == '\n' || strings.HasPrefix(t.text[at:], string(t.separator))
			if t.text[at] == '\n' {
				line++
			}
			at++
			continue
		}
		from, loose := line, false
		for at++; ; at++ {
			if at >= len(t.text) {
				return from
			}
			if t.text[at] == '\n' {
				line++
			}
			if t.text[at] != '"' {
				continue
			}
			if after := t.text[at+1:]; strings.HasPrefix(after, `"`) {
				at++
			} else if after == "" || after[0] == '\n' || strings.HasPrefix(after, string(t.separator)) {
				break
			} else {
				loose = true
			}
		}
		if loose && line > from {
			return from
		}
		begins = false
		at++
	}
	return 0
}

// each gives the rows with their fields, which are good until the next row; blank lines keep their number.
func (t *textTable) each(take func(row int, fields []string)) error {
	reader := csv.NewReader(strings.NewReader(t.text))
	reader.Comma, reader.LazyQuotes, reader.FieldsPerRecord, reader.ReuseRecord = t.separator, true, -1, true
	beyond := slices.Sorted(maps.Keys(t.changed))
	row, line, offset := 0, 1, 0
	for {
		fields, err := reader.Read()
		if errors.Is(err, io.EOF) {
			for _, row := range beyond {
				take(row, t.changed[row])
			}
			return nil
		}
		if err != nil {
			return err
		}
		start, _ := reader.FieldPos(0)
		row += start - line + 1
		if row > address.LastRow || len(fields) > address.LastColumn {
			return fmt.Errorf("line %d is beyond the size of a sheet", start)
		}
		if at := slices.IndexFunc(fields, func(field string) bool { return len(field) > LongestText && utf16Length(field) > LongestText }); at >= 0 {
			return fmt.Errorf("field %d of line %d has %d letters, and a cell holds %d", at+1, start, utf16Length(fields[at]), LongestText)
		}
		end := int(reader.InputOffset())
		line += strings.Count(t.text[offset:end], "\n")
		t.from, t.to = offset, end
		offset = end
		for len(beyond) > 0 && beyond[0] <= row {
			if beyond[0] == row {
				fields = t.changed[row]
			} else {
				take(beyond[0], t.changed[beyond[0]])
			}
			beyond = beyond[1:]
		}
		take(row, fields)
	}
}

// findSeparator takes the character that splits the most lines into the same number of fields.
func findSeparator(text string) rune {
	best, bestScore := ',', 0
	for _, candidate := range []rune{',', ';', '\t', '|'} {
		sample, sizes := &textTable{text: firstLines(text, 50), separator: candidate}, map[int]int{}
		if sample.each(func(_ int, fields []string) { sizes[len(fields)]++ }) != nil {
			continue
		}
		score := 0
		for size, count := range sizes {
			if size > 1 {
				score = max(score, count*100+min(size, 99))
			}
		}
		if score > bestScore {
			best, bestScore = candidate, score
		}
	}
	return best
}

func firstLines(text string, count int) string {
	at := 0
	for range count {
		next := strings.IndexByte(text[at:], '\n')
		if next < 0 {
			return text
		}
		at += next + 1
	}
	return text[:at]
}

var (
	commaDecimal   = phrase.NewPattern(`^[-+]?\d*,\d+$`)
	commaThousands = phrase.NewPattern(`^[-+]?[1-9]\d{0,2}(,\d{3})+$`)
	pointDecimal   = phrase.NewPattern(`^[-+]?\d*\.\d+$`)
	plainInText    = phrase.NewPattern(`^-?(0|[1-9]\d{0,14})(\.\d{1,15})?$`)
)

// usesDecimalComma reports whether a file writes 0,45. "1,234" alone says nothing: it may be a thousand.
func (t *textTable) usesDecimalComma() (bool, error) {
	commas, points := 0, 0
	err := t.each(func(_ int, fields []string) {
		for _, field := range fields {
			field = strings.TrimSpace(field)
			switch {
			case commaThousands.MatchString(field):
			case commaDecimal.MatchString(field):
				commas++
			case pointDecimal.MatchString(field):
				points++
			}
		}
	})
	return commas > points, err
}

// scanText gives the rows of a text file. A plain number is a Number as written; a number that a spreadsheet program
// would change (leading zeros, a decimal comma, over 15 digits) stays Text.
func (b *Book) scanText(sheet string) (*Grid, error) {
	if _, err := b.sheetPart(sheet); err != nil {
		return nil, err
	}
	grid := &Grid{HiddenColumns: map[int]bool{}, DecimalComma: b.DecimalComma}
	err := b.table.each(func(number int, fields []string) {
		row, at := Row{Number: number, Cells: make([]Cell, 0, len(fields))}, b.table.from
		for i, field := range fields {
			kind := textKind(field)
			if kind != Blank {
				row.Cells = append(row.Cells, Cell{Column: i + 1, Kind: kind, Raw: b.table.inPlace(field, &at)})
			}
		}
		if len(row.Cells) > 0 {
			grid.Rows = append(grid.Rows, row)
		}
	})
	return grid, err
}

func textKind(field string) CellKind {
	switch {
	case field == "":
		return Blank
	case len(field) <= 16 && plainInText.MatchString(field):
		return Number
	}
	return Text
}

// sheetNameFor makes a sheet's name of a file's: at most 31 characters, none that a sheet's name may not have.
func sheetNameFor(file string) string {
	name := strings.TrimSuffix(file, filepath.Ext(file))
	name = strings.Map(func(c rune) rune {
		if strings.ContainsRune(`:\/?*[]`, c) || c < ' ' {
			return ' '
		}
		return c
	}, strings.ToValidUTF8(name, ""))
	name = strings.Trim(name, " '")
	for len([]rune(name)) > 31 || utf16Length(name) > 31 {
		_, last := utf8.DecodeLastRuneInString(name)
		name = name[:len(name)-last]
	}
	if name = strings.Trim(name, " '"); name == "" {
		return "Sheet1"
	}
	return name
}

func utf16Length(text string) int {
	count := 0
	for _, c := range text {
		count++
		if c > 0xFFFF {
			count++
		}
	}
	return count
}
