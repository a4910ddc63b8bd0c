package xlsx

import (
	"bytes"
	"maps"
	"slices"
	"strings"

	"github.com/xuri/excelize/v2"

	"railbook/rules/address"
)

// Examined is a workbook as another library reads it, to be held against another: cells with their formulas, and what makes a
// page print otherwise.
type Examined struct {
	file    *excelize.File
	numbers map[int]string // the number formats met so far, by the style
}

// Within this limit the library unpacks sheets in memory; beyond it, into temporary files with the names of people.
var examining = excelize.Options{RawCellValue: true, UnzipSizeLimit: LargestFile, UnzipXMLSizeLimit: LargestFile}

// Examine reads a workbook's bytes with the library.
func Examine(data []byte) (*Examined, error) {
	file, err := excelize.OpenReader(bytes.NewReader(data), examining)
	return &Examined{file: file, numbers: make(map[int]string)}, err
}

// ExamineFile reads a workbook's file with the library.
func ExamineFile(path string) (*Examined, error) {
	file, err := excelize.OpenFile(path, examining)
	return &Examined{file: file, numbers: make(map[int]string)}, err
}

// Close lets go of the workbook.
func (e *Examined) Close() error { return e.file.Close() }

// Names gives the workbook's defined names with what they refer to, in their order.
func (e *Examined) Names() (names []DefinedName) {
	for _, name := range e.file.GetDefinedName() {
		names = append(names, DefinedName{name.Name, name.RefersTo})
	}
	return names
}

// DefinedName is a name and what it refers to: ='Kill sheet'!$A$1:$G$40.
type DefinedName struct{ Name, RefersTo string }

// Cell gives the formula and the stored value of a cell; empty where there is none.
func (e *Examined) Cell(sheet, cell string) (formula, value string, err error) {
	if formula, err = e.file.GetCellFormula(sheet, cell); err != nil {
		return "", "", err
	}
	value, err = e.file.GetCellValue(sheet, cell)
	return formula, value, err
}

// HoldsText reports whether a cell holds a text, which may look like a number.
func (e *Examined) HoldsText(sheet, cell string) (bool, error) {
	kind, err := e.file.GetCellType(sheet, cell)
	return kind == excelize.CellTypeSharedString || kind == excelize.CellTypeInlineString || kind == excelize.CellTypeFormula, err
}

// Size gives the last column and row of a sheet that hold anything.
func (e *Examined) Size(sheet string) (columns, rows int, err error) {
	all, err := e.file.GetRows(sheet)
	for _, row := range all {
		columns = max(columns, len(row))
	}
	return columns, len(all), err
}

// Covered gives the cells of a sheet that are merged into another one, which the library gives that one's text.
func (e *Examined) Covered(sheet string) (map[string]bool, error) {
	merged, err := e.file.GetMergeCells(sheet)
	if err != nil {
		return nil, err
	}
	covered := make(map[string]bool)
	for _, one := range merged {
		area, ok := rectangle(one.GetStartAxis() + ":" + one.GetEndAxis())
		if !ok {
			continue
		}
		for row := area.FirstRow; row <= area.LastRow; row++ {
			for column := area.FirstColumn; column <= area.LastColumn; column++ {
				if row > area.FirstRow || column > area.FirstColumn {
					covered[address.Cell(column, row)] = true
				}
			}
		}
	}
	return covered, nil
}

// RowHidden reports whether a row is not shown.
func (e *Examined) RowHidden(sheet string, row int) bool {
	visible, err := e.file.GetRowVisible(sheet, row)
	return err == nil && !visible
}

// ColumnHidden reports whether a column is not shown.
func (e *Examined) ColumnHidden(sheet string, column int) bool {
	visible, err := e.file.GetColVisible(sheet, address.Column(column))
	return err == nil && !visible
}

// ConditionalFormats gives the cells that have a conditional format.
func (e *Examined) ConditionalFormats(sheet string) (cells []string, err error) {
	formats, err := e.file.GetConditionalFormats(sheet)
	return slices.Sorted(maps.Keys(formats)), err
}

// builtIn are the number formats that have a number in place of a code (ECMA-376 part 1, 18.8.30).
var builtIn = map[int]string{1: "0", 2: "0.00", 3: "#,##0", 4: "#,##0.00", 9: "0%", 10: "0.00%", 49: "@"}

// NumberFormat gives the number format of a cell, as far as programs do not write it in ways of their own.
func (e *Examined) NumberFormat(sheet, cell string) string {
	id, err := e.file.GetCellStyle(sheet, cell)
	if err != nil {
		return ""
	}
	if code, known := e.numbers[id]; known {
		return code
	}
	code := ""
	if style, err := e.file.GetStyle(id); err == nil {
		code = builtIn[style.NumFmt]
		if style.CustomNumFmt != nil {
			code = *style.CustomNumFmt
		}
	}
	code = strings.ToLower(strings.NewReplacer(`"`, "", `\\`, "", "general", "", "General", "").Replace(code))
	e.numbers[id] = code
	return code
}
