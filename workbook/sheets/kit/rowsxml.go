package kit

import (
	"encoding/xml"
	"fmt"
	"strconv"
	"strings"
	"unicode/utf8"

	"railbook/rules/address"
	"railbook/rules/measure"
	"railbook/workbook/xlsx"

	"github.com/shopspring/decimal"
)

// rowsXML is the rows of a sheet as they stand in its file (ECMA-376 part 1, 18.3.1.73 row and 18.3.1.4 c): numbers as
// exact decimals, texts in the cell itself.
type rowsXML struct {
	rows    *xlsx.Rows // takes each piece that is finished
	xml     []byte     // the piece being written
	columns []string   // the letters of each column
	hidden  bool       // the rows that are added are not shown
	last    Style      // most cells have the style of the one before
	lastID  int
}

// add writes one row. A zero entry is no cell at all.
func (x *rowsXML) add(look *Look, row int, height float64, entries []Entry) error {
	x.begin(row, height)
	for i := range entries {
		if entries[i].Value == nil && entries[i].Style == (Style{}) {
			continue
		}
		if err := x.cell(look, i, row, &entries[i]); err != nil {
			return err
		}
	}
	x.xml = append(x.xml, "</row>"...)
	return nil
}

// addTexts writes one row of texts of one style.
func (x *rowsXML) addTexts(look *Look, row int, height float64, of Style, texts []string) error {
	x.begin(row, height)
	for i, text := range texts {
		if err := x.open(look, i, row, of); err != nil {
			return err
		}
		x.text(text)
	}
	x.xml = append(x.xml, "</row>"...)
	return nil
}

// shortSheet is how many bytes of rows a short sheet has at most.
const shortSheet = 1 << 16

func (x *rowsXML) begin(row int, height float64) {
	switch {
	case len(x.xml) > xlsx.PieceSize:
		x.finish()
		x.xml = xlsx.NewPiece()
	case len(x.xml) > shortSheet && cap(x.xml) < xlsx.PieceSize:
		x.xml = append(xlsx.NewPiece(), x.xml...) // rather than grow it bit by bit
	}
	x.xml = append(x.xml, `<row r="`...)
	x.xml = strconv.AppendInt(x.xml, int64(row), 10)
	x.xml = append(x.xml, `" ht="`...)
	x.xml = strconv.AppendFloat(x.xml, height, 'f', -1, 64)
	x.xml = append(x.xml, `" customHeight="1"`...)
	if x.hidden {
		x.xml = append(x.xml, ` hidden="1"`...)
	}
	x.xml = append(x.xml, '>')
}

// finish hands over the piece that is written.
func (x *rowsXML) finish() {
	x.rows.Add(x.xml)
	x.xml = nil
}

func (x *rowsXML) cell(look *Look, at, row int, entry *Entry) error {
	if err := x.open(look, at, row, entry.Style); err != nil {
		return err
	}
	switch value := entry.Value.(type) {
	case nil:
		x.xml = append(x.xml, `"/>`...)
	case string:
		x.text(value)
	case decimal.Decimal:
		x.number(measure.NumberText(value))
	case int:
		x.number(strconv.Itoa(value))
	case Live:
		return x.live(value)
	default:
		return fmt.Errorf("cell %s: a %T can't be written", address.Cell(at+1, row), value)
	}
	return nil
}

// open begins a cell; what it holds closes it.
func (x *rowsXML) open(look *Look, at, row int, of Style) error {
	if of != x.last || x.lastID == 0 {
		id, err := look.id(of)
		if err != nil {
			return err
		}
		x.last, x.lastID = of, id
	}
	for len(x.columns) <= at {
		x.columns = append(x.columns, address.Column(len(x.columns)+1))
	}
	x.xml = append(x.xml, `<c r="`...)
	x.xml = append(x.xml, x.columns[at]...)
	x.xml = strconv.AppendInt(x.xml, int64(row), 10)
	x.xml = append(x.xml, `" s="`...)
	x.xml = strconv.AppendInt(x.xml, int64(x.lastID), 10)
	return nil
}

// live writes a formula with its value, of the value's own type.
func (x *rowsXML) live(value Live) error {
	switch value.Value.(type) {
	case decimal.Decimal:
		x.xml = append(x.xml, `"><f>`...)
	case string:
		x.xml = append(x.xml, `" t="str"><f>`...)
	default:
		return fmt.Errorf("the formula %s: a %T can't be its value", value.Formula, value.Value)
	}
	x.xml = AppendEscaped(x.xml, value.Formula)
	x.xml = append(x.xml, `</f><v>`...)
	x.xml = AppendEscaped(x.xml, written(value.Value))
	x.xml = append(x.xml, `</v></c>`...)
	return nil
}

// written is a value as it stands in a file.
func written(value any) string {
	switch value := value.(type) {
	case string:
		return value
	case decimal.Decimal:
		return measure.NumberText(value)
	}
	return fmt.Sprint(value)
}

func (x *rowsXML) number(text string) {
	x.xml = append(x.xml, `"><v>`...)
	x.xml = append(x.xml, text...)
	x.xml = append(x.xml, `</v></c>`...)
}

func (x *rowsXML) text(text string) {
	if text == "" {
		x.xml = append(x.xml, `"/>`...)
		return
	}
	text = cellText(text)
	x.xml = append(x.xml, `" t="inlineStr"><is><t`...)
	if text[0] <= ' ' || text[len(text)-1] <= ' ' || strings.IndexByte(text, '\n') >= 0 {
		x.xml = append(x.xml, ` xml:space="preserve"`...)
	}
	x.xml = append(x.xml, '>')
	x.xml = AppendEscaped(x.xml, text)
	x.xml = append(x.xml, `</t></is></c>`...)
}

// cellText gives a text as a cell can hold it: 32,767 characters, and of those that XML cannot hold, which the name of a file may
// have, the replacement character.
func cellText(text string) string {
	if len(text) > xlsx.LongestText {
		letters := []rune(text)
		text = string(letters[:min(len(letters), xlsx.LongestText/2)])
	}
	at := 0
	for at < len(text) && text[at] >= ' ' && text[at] < utf8.RuneSelf {
		at++
	}
	if at == len(text) {
		return text
	}
	return strings.Map(func(c rune) rune {
		if c < ' ' && c != '\n' && c != '\t' && c != '\r' || c == '\ufffe' || c == '\uffff' {
			return utf8.RuneError
		}
		return c
	}, text)
}

// escapedLetters are the letters of ASCII as they stand in XML content, where quotes need no escape.
var escapedLetters = func() (letters [utf8.RuneSelf]string) {
	for c := range letters {
		var escaped strings.Builder
		_ = xml.EscapeText(&escaped, []byte{byte(c)}) // a builder takes everything
		letters[c] = escaped.String()
	}
	letters['"'], letters['\''] = `"`, `'`
	return letters
}()

// AppendEscaped adds a text as XML content; what XML cannot hold becomes the replacement character. It does as xml.EscapeText does
// but for quotes, and without a copy of what stays as it is.
func AppendEscaped(to []byte, text string) []byte {
	from := 0 // what is before it has been added
	for at := 0; at < len(text); {
		escaped, size := "", 1
		if c := text[at]; c < utf8.RuneSelf {
			escaped = escapedLetters[c]
		} else if letter, width := utf8.DecodeRuneInString(text[at:]); width == 1 || letter == '\ufffe' || letter == '\uffff' {
			escaped, size = "\ufffd", width
		} else {
			size = width
		}
		if len(escaped) > 1 {
			to = append(append(to, text[from:at]...), escaped...)
			from = at + size
		}
		at += size
	}
	return append(to, text[from:]...)
}
