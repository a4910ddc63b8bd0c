package parts

import (
	"fmt"
	"io"
	"path/filepath"
	"slices"
	"strconv"
	"strings"

	"github.com/xuri/excelize/v2"
)

// Excel gives the workbook to fill our own new sheets through. The sheets of the user look empty in it and nothing
// written to them is kept: they are changed by Append and SetCells alone, which leave the rest of them as it is.
// Where the workbook cannot be added to, NewSheet, Append and Save say so.
func (b *Book) Excel() *excelize.File {
	if b.loadLibrary() != nil {
		return excelize.NewFile()
	}
	return b.file
}

// loadLibrary opens the draft in which the library makes our sheets, once.
func (b *Book) loadLibrary() error {
	if err := b.prepare(); err != nil || b.file != nil {
		return err
	}
	draft, err := b.newDraft()
	if err != nil {
		b.broken = b.errFixed(err)
	}
	b.draft = draft
	if draft != nil {
		b.file = draft.file
	}
	return b.broken
}

// prepare makes ready the package that is added to, once.
func (b *Book) prepare() error {
	b.saved = nil
	if b.base != nil || b.broken != nil {
		return b.broken
	}
	var err error
	if b.contents == nil {
		b.base, err = b.packageOfText()
	} else {
		b.base = b.contents
	}
	if err == nil {
		err = b.base.prepare(b.Path)
	}
	if err != nil {
		b.broken = b.errFixed(err)
	}
	return b.broken
}

// errFixed says that nothing can be added to the workbook.
func (b *Book) errFixed(err error) error {
	return fmt.Errorf("%s can't be added to (%w): open it in Excel or LibreOffice and save it again", filepath.Base(b.Path), err)
}

func (b *Book) isSheet(part string) bool {
	return slices.ContainsFunc(b.sheets, func(one sheetPart) bool { return one.part == part })
}

// Close lets go of what the library holds outside of memory.
func (b *Book) Close() error {
	if b.file == nil {
		return nil
	}
	return b.file.Close()
}

// packageOfText makes a workbook of a text file: its rows as the one sheet. A number with a decimal comma becomes a
// number; everything else stays as it is written.
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
	stream, err := file.NewStreamWriter(sheet)
	if err != nil {
		return nil, fmt.Errorf("the sheet %q can't be made: %w", sheet, err)
	}
	for _, line := range b.lines {
		cells := make([]any, len(line.fields))
		for i, field := range line.fields {
			cells[i] = b.textCell(field)
		}
		if err := stream.SetRow(cellName(1, line.row), cells); err != nil {
			return nil, fmt.Errorf("row %d can't be written: %w", line.row, err)
		}
	}
	if err := stream.Flush(); err != nil {
		return nil, fmt.Errorf("the sheet %q can't be written: %w", sheet, err)
	}
	made, err := partsOf(file)
	if err != nil {
		return nil, fmt.Errorf("the sheet %q can't be written: %w", sheet, err)
	}
	return &contents{parts: made}, nil
}

// partsOf gives every part that the library would write into a file.
func partsOf(file *excelize.File) (map[string][]byte, error) {
	taken := &collector{parts: map[string]*collected{}}
	file.SetZipWriter(func(io.Writer) excelize.ZipWriter { return taken })
	if _, err := file.WriteToBuffer(); err != nil {
		return nil, err
	}
	parts := map[string][]byte{}
	for name, part := range taken.parts {
		parts[name] = part.data
	}
	return parts, nil
}

func (b *Book) textCell(field string) any {
	if field == "" {
		return nil
	}
	number := field
	if trimmed := strings.TrimSpace(field); b.DecimalComma && commaDecimal.MatchString(trimmed) {
		number = strings.Replace(trimmed, ",", ".", 1)
	} else if textKind(field) != Number {
		return field
	}
	value, err := strconv.ParseFloat(number, 64)
	if err != nil {
		return field
	}
	return value
}
