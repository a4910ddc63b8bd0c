package xlsx

import (
	"bytes"
	"os"

	"github.com/xuri/excelize/v2"
)

// Draft is a workbook in which sheets of our own are made, through the library: one made afresh, or the one whose sheets are
// then added to a user's.
type Draft struct {
	file  *excelize.File
	blank bool // its first sheet has no name yet
}

// NewDraft begins a workbook made afresh, without a sheet.
func NewDraft() *Draft {
	// The library puts long sheets into a temporary file, with the names of people; where it can make none, it does not.
	return &Draft{file: excelize.NewFile(excelize.Options{TmpDir: os.DevNull}), blank: true}
}

// Draft gives the workbook to make our own new sheets in. The sheets of the user look empty in it and nothing
// written to them is kept: they are changed by Append and SetCells alone, which leave the rest of them as it is.
// Where the workbook cannot be added to, NewSheet, Append and Save say so.
func (b *Book) Draft() *Draft {
	if b.loadLibrary() != nil {
		return NewDraft()
	}
	return &Draft{file: b.file}
}

// NewSheet adds a sheet to a workbook made afresh, which needs no mark to be found again.
func (d *Draft) NewSheet(name, _ string) (string, error) {
	if d.blank {
		d.blank = false
		return name, d.file.SetSheetName("Sheet1", name)
	}
	_, err := d.file.NewSheet(name)
	return name, err
}

// Describe says of a workbook made afresh no more than what it is.
func (d *Draft) Describe(title string) error {
	return d.file.SetDocProps(&excelize.DocProperties{Creator: "railbook", LastModifiedBy: "railbook", Title: title})
}

// CountWidthsIn sets the typeface by whose digits the widths of columns are counted.
func (d *Draft) CountWidthsIn(typeface string) error { return d.file.SetDefaultFont(typeface) }

// Bytes gives the workbook as a file.
func (d *Draft) Bytes() ([]byte, error) {
	var data bytes.Buffer
	err := d.file.Write(&data)
	return data.Bytes(), err
}

// Style is the format of a cell. Colours are like 262626, sizes in points; what is empty is the program's own.
type Style struct {
	Typeface, Colour         string
	Size                     float64
	Bold, Italic, Underlined bool
	Fill                     string // colour
	Borders                  []Border
	Across, Down             string // where its text stands: "left", "center", "right"; "top", "center", "bottom"
	Indent                   int
	Wrap, Locked             bool
	Number                   string // number format
}

// Border is one side of a cell: "left", "right", "top" or "bottom".
type Border struct {
	Side, Colour string
	Line         int // ECMA-376 part 1, 18.18.3, by number: 1 thin, 2 medium, 7 hair
}

// AddStyle gives the workbook's number for a style, which is made new.
func (d *Draft) AddStyle(style Style) (int, error) {
	made := &excelize.Style{
		Font: &excelize.Font{
			Family: style.Typeface, Size: style.Size, Color: style.Colour, Bold: style.Bold, Italic: style.Italic,
		},
		Alignment:  &excelize.Alignment{Horizontal: style.Across, Vertical: style.Down, Indent: style.Indent, WrapText: style.Wrap},
		Protection: &excelize.Protection{Locked: style.Locked},
	}
	if style.Underlined {
		made.Font.Underline = "single"
	}
	if style.Fill != "" {
		made.Fill = solid(style.Fill)
	}
	for _, border := range style.Borders {
		made.Border = append(made.Border, excelize.Border{Type: border.Side, Color: border.Colour, Style: border.Line})
	}
	if style.Number != "" {
		made.CustomNumFmt = &style.Number
	}
	return d.file.NewStyle(made)
}

// LongestText is how many characters a cell holds.
const LongestText = excelize.TotalCellChars

// LinkPlace makes a cell lead to a place in the workbook, such as 'Kill sheet'!G14.
func (d *Draft) LinkPlace(sheet, cell, place string) error {
	return d.file.SetCellHyperLink(sheet, cell, place, "Location")
}

// LinkFile makes a cell lead to another file.
func (d *Draft) LinkFile(sheet, cell, file string) error {
	return d.file.SetCellHyperLink(sheet, cell, file, "External")
}

// Hide takes a sheet's tab off the screen. (The library's own way reads every sheet of the workbook for it.)
func (d *Draft) Hide(sheet string) {
	sheets := d.file.WorkBook.Sheets.Sheet
	for number := range sheets {
		if sheets[number].Name == sheet {
			sheets[number].State = "hidden"
		}
	}
}
