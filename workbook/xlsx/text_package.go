package xlsx

import (
	"fmt"
	"strconv"
	"strings"

	"railbook/rules/address"

	"github.com/xuri/excelize/v2"
)

// packageOfText makes a workbook of a text file: its rows as the one sheet. A number with a decimal comma becomes a
// number; everything else stays as it is written. The rows are written here: the library would put those of a long file into
// a temporary file, with the names of people.
func (b *Book) packageOfText() (*contents, error) {
	file := excelize.NewFile(excelize.Options{RawCellValue: true})
	defer file.Close()
	sheet := b.sheets[0].name
	if err := file.SetSheetName("Sheet1", sheet); err != nil {
		return nil, fmt.Errorf("the sheet %q can't be made: %w", sheet, err)
	}
	if err := file.SetDefinedName(&excelize.DefinedName{Name: textMark, RefersTo: reference(sheet, Range{1, 1, 1, 1})}); err != nil {
		return nil, fmt.Errorf("the sheet %q can't be made: %w", sheet, err)
	}
	made, err := partsOf(file)
	if err != nil {
		return nil, fmt.Errorf("the sheet %q can't be made: %w", sheet, err)
	}
	rows := &Rows{packing: packing{store: &b.store}}
	if err := b.textRows(rows); err != nil {
		return nil, fmt.Errorf("the sheet %q can't be made: %w", sheet, err)
	}
	b.rows = map[string]*Rows{textSheet: rows}
	return &contents{parts: made}, nil
}

// textSheet is the part of the one sheet in a workbook that the library makes.
const textSheet = "xl/worksheets/sheet1.xml"

// textRows writes the rows of the text file.
func (b *Book) textRows(rows *Rows) error {
	piece := NewPiece()
	err := b.table.each(func(row int, fields []string) {
		if len(piece) > PieceSize {
			rows.Add(piece)
			piece = NewPiece()
		}
		piece = fmt.Appendf(piece, `<row r="%d">`, row)
		for i, field := range fields {
			piece = b.appendTextCell(piece, address.Cell(i+1, row), field)
		}
		piece = append(piece, "</row>"...)
	})
	rows.Add(piece)
	return err
}

func (b *Book) appendTextCell(sheet []byte, name, field string) []byte {
	if field == "" {
		return sheet
	}
	if value, is := b.textNumber(field); is {
		return fmt.Appendf(sheet, `<c r="%s"><v>%s</v></c>`, name, strconv.FormatFloat(value, 'f', -1, 64))
	}
	return fmt.Appendf(sheet, `<c r="%s" t="inlineStr"><is><t xml:space="preserve">%s</t></is></c>`, name, escape(field))
}

// textNumber gives the number that a field is to become, if any.
func (b *Book) textNumber(field string) (value float64, is bool) {
	number := field
	if trimmed := strings.TrimSpace(field); b.DecimalComma && commaDecimal.MatchString(trimmed) {
		number = strings.Replace(trimmed, ",", ".", 1)
	} else if textKind(field) != Number {
		return 0, false
	}
	value, err := strconv.ParseFloat(number, 64)
	return value, err == nil
}
