package xlsx

import (
	"bytes"
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
	before, after, found := bytes.Cut(made[textSheet], []byte("<sheetData/>"))
	if !found {
		if before, after, found = bytes.Cut(made[textSheet], []byte("<sheetData></sheetData>")); !found {
			return nil, fmt.Errorf("the sheet %q has no place for its rows", sheet)
		}
	}
	made[textSheet] = b.textRows(before, after)
	return &contents{parts: made}, nil
}

// textSheet is the part of the one sheet in a workbook that the library makes.
const textSheet = "xl/worksheets/sheet1.xml"

// textRows gives the sheet with the rows of the text file between what stands before and after them.
func (b *Book) textRows(before, after []byte) []byte {
	size := 0
	for _, line := range b.lines {
		size += len(`<row r="100000"></row>`)
		for _, field := range line.fields {
			size += len(`<c r="A100000" t="inlineStr"><is><t xml:space="preserve"></t></is></c>`) + len(field)
		}
	}
	sheet := append(make([]byte, 0, len(before)+size+len(after)), before...)
	sheet = append(sheet, "<sheetData>"...)
	for _, line := range b.lines {
		sheet = fmt.Appendf(sheet, `<row r="%d">`, line.row)
		for i, field := range line.fields {
			sheet = b.appendTextCell(sheet, address.Cell(i+1, line.row), field)
		}
		sheet = append(sheet, "</row>"...)
	}
	return append(append(sheet, "</sheetData>"...), after...)
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
