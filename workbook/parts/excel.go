package parts

import (
	"archive/zip"
	"bytes"
	"fmt"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"github.com/xuri/excelize/v2"
)

// The names under which the library keeps these parts, whatever the file names them.
const (
	stylesPart  = "xl/styles.xml"
	stringsPart = "xl/sharedStrings.xml"
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

// loadLibrary opens the package in the library, once.
func (b *Book) loadLibrary() error {
	b.saved = nil
	if b.file == nil && b.broken == nil {
		if b.contents == nil {
			b.broken = b.sheetOfText()
		} else {
			b.broken = b.openLibrary()
		}
		if b.broken != nil {
			b.broken = fmt.Errorf("%s can't be added to (%w): open it in Excel or LibreOffice and save it again", filepath.Base(b.Path), b.broken)
		}
	}
	return b.broken
}

func (b *Book) openLibrary() error {
	if err := b.prepare(); err != nil {
		return err
	}
	hollow, err := b.hollow()
	if err != nil {
		return err
	}
	file, err := excelize.OpenReader(bytes.NewReader(hollow), excelize.Options{
		RawCellValue: true, UnzipSizeLimit: largestFile, UnzipXMLSizeLimit: largestFile,
	})
	if err != nil {
		return err
	}
	for part, data := range b.contents.parts {
		if !b.isSheet(part) {
			file.Pkg.Store(part, data)
		}
	}
	for part, data := range padding(b.contents.parts) {
		file.Pkg.Store(part, data)
	}
	b.file = file
	return nil
}

// Close lets go of what the library holds outside of memory.
func (b *Book) Close() error {
	if b.file == nil {
		return nil
	}
	return b.file.Close()
}

// hollow packs what the library reads when it opens a workbook; sheets are empty in it, and so is all else that would
// only cost time and memory.
func (b *Book) hollow() ([]byte, error) {
	var data bytes.Buffer
	archive := zip.NewWriter(&data)
	for part, plain := range b.contents.parts {
		entry, err := archive.CreateHeader(&zip.FileHeader{Name: part, Method: zip.Store})
		if err != nil {
			return nil, err
		}
		switch {
		case b.isSheet(part):
			plain = []byte(`<worksheet xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main"><sheetData/></worksheet>`)
		case part == stringsPart || strings.HasPrefix(part, "xl/media/"):
			plain = nil
		}
		if _, err := entry.Write(plain); err != nil {
			return nil, err
		}
	}
	err := archive.Close()
	return data.Bytes(), err
}

func (b *Book) isSheet(part string) bool {
	return slices.ContainsFunc(b.sheets, func(one sheetPart) bool { return one.part == part })
}

var numbered = regexp.MustCompile(`^xl/(charts/chart|drawings/drawing|drawings/vmlDrawing|media/image|tables/table|comments)(\d+)\.`)

// padding gives empty parts that keep the library from taking names that are taken: it numbers a new chart by how many
// there are, and a workbook with one chart called chart2 would lose it. They are left out when the workbook is saved.
func padding(parts map[string][]byte) map[string][]byte {
	count, highest := map[string]int{}, map[string]int{}
	for part := range parts {
		if found := numbered.FindStringSubmatch(part); found != nil {
			count[found[1]]++
			number, _ := strconv.Atoi(found[2])
			highest[found[1]] = max(highest[found[1]], number)
		}
	}
	pads := map[string][]byte{}
	for kind, number := range highest {
		if kind == "tables/table" {
			pads["xl/"+kind+padMark] = fmt.Appendf(nil, `<table xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main" id="%d"/>`, number)
			continue
		}
		for i := count[kind]; i < min(number, 1<<16); i++ {
			pads[fmt.Sprintf("xl/%s%s%d", kind, padMark, i)] = nil
		}
	}
	return pads
}

const padMark = "-railbook-pad"

// sheetOfText makes a workbook of a text file: its rows as the one sheet. A number with a decimal comma becomes a
// number; everything else stays as it is written.
func (b *Book) sheetOfText() error {
	file := excelize.NewFile(excelize.Options{RawCellValue: true})
	sheet := b.sheets[0].name
	if err := file.SetSheetName("Sheet1", sheet); err != nil {
		return fmt.Errorf("the sheet %q can't be made: %w", sheet, err)
	}
	if err := file.SetDefinedName(&excelize.DefinedName{Name: textMark, RefersTo: reference(sheet, Range{1, 1, 1, 1})}); err != nil {
		return fmt.Errorf("the sheet %q can't be made: %w", sheet, err)
	}
	stream, err := file.NewStreamWriter(sheet)
	if err != nil {
		return fmt.Errorf("the sheet %q can't be made: %w", sheet, err)
	}
	for _, line := range b.lines {
		cells := make([]any, len(line.fields))
		for i, field := range line.fields {
			cells[i] = b.textCell(field)
		}
		if err := stream.SetRow(cellName(1, line.row), cells); err != nil {
			return fmt.Errorf("row %d can't be written: %w", line.row, err)
		}
	}
	if err := stream.Flush(); err != nil {
		return fmt.Errorf("the sheet %q can't be written: %w", sheet, err)
	}
	b.file = file
	return nil
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
