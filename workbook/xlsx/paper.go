package xlsx

import (
	"github.com/xuri/excelize/v2"

	"railbook/rules/address"
)

// Paper is how a sheet is printed, on letter paper (8.5 by 11 inches), and shown.
type Paper struct {
	Tab            string // colour of its tab, as FF5A2A27
	Landscape      bool
	FullSize       bool // printed in its own size; else made as small as its pages take
	PagesWide      int
	PagesHigh      int     // 0: as many as it takes
	Side           float64 // margins, in inches
	Top, Bottom    float64
	Edge           float64 // from the edge of the paper to its header and footer
	Header, Footer string  // with the codes of ECMA-376 part 1, 18.3.1.46
	RepeatRows     [2]int  // the first and last row repeated on every page; zeros: none
	RepeatColumns  int     // how many columns from the first are repeated
	Filtered       string  // cells with filter buttons; empty: none
	Zoom           float64 // percent, on the screen; 0: the program's own
	Protected      bool
}

// SetPaper sets how a sheet is printed and shown. It comes before the sheet's rows.
func (d *Draft) SetPaper(sheet string, paper Paper) error {
	if paper.Filtered != "" {
		if err := d.file.AutoFilter(sheet, paper.Filtered, nil); err != nil {
			return err
		}
	}
	for _, step := range []func(string, Paper) error{d.setPages, d.repeat, d.setHeader, d.setView} {
		if err := step(sheet, paper); err != nil {
			return err
		}
	}
	return nil
}

func (d *Draft) setPages(sheet string, paper Paper) error {
	fit := !paper.FullSize
	if err := d.file.SetSheetProps(sheet, &excelize.SheetPropsOptions{FitToPage: &fit, TabColorRGB: &paper.Tab}); err != nil {
		return err
	}
	letter, orientation, first := 1, "portrait", uint(1)
	if paper.Landscape {
		orientation = "landscape"
	}
	layout := &excelize.PageLayoutOptions{
		Size: &letter, Orientation: &orientation, FitToWidth: &paper.PagesWide, FitToHeight: &paper.PagesHigh, FirstPageNumber: &first,
	}
	if err := d.file.SetPageLayout(sheet, layout); err != nil {
		return err
	}
	centred := true
	margins := &excelize.PageLayoutMarginsOptions{
		Left: &paper.Side, Right: &paper.Side, Top: &paper.Top, Bottom: &paper.Bottom, Header: &paper.Edge, Footer: &paper.Edge, Horizontally: &centred,
	}
	if err := d.file.SetPageMargins(sheet, margins); err != nil {
		return err
	}
	return d.file.SetSheetDimension(sheet, "")
}

// repeat gives the sheet its repeated rows and columns, which are a defined name of the sheet.
func (d *Draft) repeat(sheet string, paper Paper) error {
	if paper.RepeatRows[1] == 0 {
		return nil
	}
	repeated := address.Sheet(sheet) + "!" + address.Rows(paper.RepeatRows[0], paper.RepeatRows[1])
	if paper.RepeatColumns > 0 {
		repeated = columnsOf(sheet, paper.RepeatColumns) + "," + repeated
	}
	return d.file.SetDefinedName(&excelize.DefinedName{Name: "_xlnm.Print_Titles", RefersTo: repeated, Scope: sheet})
}

func (d *Draft) setHeader(sheet string, paper Paper) error {
	return d.file.SetHeaderFooter(sheet, &excelize.HeaderFooterOptions{OddHeader: paper.Header, OddFooter: paper.Footer})
}

func (d *Draft) setView(sheet string, paper Paper) error {
	grid := false
	view := &excelize.ViewOptions{ShowGridLines: &grid}
	if paper.Zoom > 0 {
		view.ZoomScale = &paper.Zoom
	}
	if err := d.file.SetSheetView(sheet, 0, view); err != nil || !paper.Protected {
		return err
	}
	return d.file.ProtectSheet(sheet, &excelize.SheetProtectionOptions{
		SelectLockedCells: true, SelectUnlockedCells: true, AutoFilter: true, FormatColumns: true, FormatRows: true,
	})
}

// PrintTo prints a sheet only to a column and a row.
func (d *Draft) PrintTo(sheet string, column, row int) error {
	area := address.Sheet(sheet) + "!" + address.FixedSpan(1, 1, column, row)
	names := d.file.WorkBook.DefinedNames
	number := -1
	for at := range d.file.WorkBook.Sheets.Sheet {
		if d.file.WorkBook.Sheets.Sheet[at].Name == sheet {
			number = at
		}
	}
	if names == nil || number < 0 {
		return d.file.SetDefinedName(&excelize.DefinedName{Name: printArea, RefersTo: area, Scope: sheet})
	}
	// The library asks of every name there is how its sheet is called, which takes a workbook of a thousand cards longer than all else.
	for _, name := range names.DefinedName {
		if name.Name == printArea && name.LocalSheetID != nil && *name.LocalSheetID == number {
			return excelize.ErrDefinedNameDuplicate
		}
	}
	added := names.DefinedName[0]
	added.Name, added.Comment, added.Data, added.LocalSheetID, added.Hidden = printArea, "", area, &number, false
	names.DefinedName = append(names.DefinedName, added)
	return nil
}

// RowWriter writes the rows of a sheet from the top, after its columns are set.
type RowWriter struct{ stream *excelize.StreamWriter }

// Rows begins the rows of a sheet.
func (d *Draft) Rows(sheet string) (*RowWriter, error) {
	stream, err := d.file.NewStreamWriter(sheet)
	return &RowWriter{stream}, err
}

// SetWidth sets the width of a column in characters.
func (w *RowWriter) SetWidth(column int, width float64) error {
	return w.stream.SetColWidth(column, column, width)
}

// HideColumn keeps a column from being shown.
func (w *RowWriter) HideColumn(column int) error {
	return w.stream.SetColVisible(column, column, false)
}

// Freeze keeps the first columns and rows on the screen.
func (w *RowWriter) Freeze(columns, rows int) error {
	pane := "bottomLeft"
	if columns > 0 {
		pane = "bottomRight"
	}
	corner := address.Cell(columns+1, rows+1)
	return w.stream.SetPanes(&excelize.Panes{
		Freeze: true, XSplit: columns, YSplit: rows, TopLeftCell: corner, ActivePane: pane,
		Selection: []excelize.Selection{{SQRef: corner, ActiveCell: corner, Pane: pane}},
	})
}

// RowCell is a cell to be written: a text, a number or nothing, or a formula with its value.
type RowCell struct {
	Style   int
	Formula string
	Value   any
}

// Write writes a row. A nil cell is left out.
func (w *RowWriter) Write(row int, height float64, hidden bool, cells []*RowCell) error {
	written := make([]any, len(cells))
	for i, cell := range cells {
		if cell != nil {
			written[i] = excelize.Cell{StyleID: cell.Style, Formula: cell.Formula, Value: cell.Value}
		}
	}
	return w.stream.SetRow(address.Cell(1, row), written, excelize.RowOpts{Height: height, Hidden: hidden})
}

// Merge makes one cell of those from one column of a row to another.
func (w *RowWriter) Merge(row, from, to int) error {
	return w.stream.MergeCell(address.Cell(from, row), address.Cell(to, row))
}

// Break begins a new printed page at a row.
func (w *RowWriter) Break(row int) error { return w.stream.InsertPageBreak(address.Cell(1, row)) }

// Close finishes the sheet.
func (w *RowWriter) Close() error { return w.stream.Flush() }
