package writing

import (
	"github.com/xuri/excelize/v2"

	"railbook/workbook/parts"
)

// The look of our sheets: one typeface, one palette. Nothing is said by colour alone: whatever is tinted also carries
// a word or a border, so that a black and white print says the same.
const (
	typeface = "Arial"

	inkColour    = "262626"
	accentColour = "5A2A27" // oxblood: titles and rules
	headingFill  = "EBE3D8" // parchment
	bandFill     = "F5F1EA" // the line that opens a class
	ruleColour   = "A79C8C"
	inputFill    = "FFF6D1" // straw: cells that people fill in
	inputBorder  = "7A5C00"
	flagFill     = "F4D9D3"
	mutedColour  = "5F5F5F"
	linkColour   = "1F4E79"
	firstTab     = "FF5A2A27" // sheets people read
	inputTab     = "FFC79A00" // sheets people fill in
	workingTab   = "FF8C8478" // sheets the program keeps
	bodySize     = 10.0
	headingSize  = 9.0
	titleSize    = 16.0
	subtitleSize = 11.0
	paperSize    = 11.0
	listedSize   = 12.0
)

// role is what a cell is for; it settles its typeface, fill and border.
type role uint8

const (
	body role = iota
	strong
	title
	subtitle
	band    // the line that opens a block
	heading // of a column
	note
	input        // people write here: unlocked, tinted and bordered
	listed       // bordered like what people fill in, and filled in already
	paperHeading // of a column that is filled in by hand: large enough to be read at arm's length
	paperNote
	flagged
	link
	total
)

// style is all in which two cells of ours may differ. Each style is made once in a workbook.
type style struct {
	Role    role
	Format  string // number format; empty for general
	Align   string // "left", "center", "right"; empty for the content's own
	Wrap    bool
	Across  bool // merged over several columns: the text does not set the row's height
	Middle  bool // halfway up its row, which is higher than its text
	Indent  bool // a little away from the text of the column before
	Upright bool // written upwards, so that a narrow column can have a long heading
}

// look makes the styles of one workbook.
type look struct {
	file   *excelize.File
	fill   func(sheet string) (*parts.Rows, error) // takes a sheet's rows as XML; nil: they are written through the library
	signed bool                                    // nothing may be filled in any more
	made   map[style]int
}

func newLook(file *excelize.File, signed bool) *look {
	return &look{file: file, signed: signed, made: make(map[style]int)}
}

// lookOf makes the styles of a workbook whose own sheets are added to a user's.
func lookOf(book *parts.Book, signed bool) *look {
	look := newLook(book.Excel(), signed)
	look.fill = func(sheet string) (*parts.Rows, error) {
		rows := &parts.Rows{}
		return rows, book.Fill(sheet, rows)
	}
	return look
}

// id gives the workbook's number for a style.
func (l *look) id(wanted style) (int, error) {
	wanted.Across = false
	if id, ok := l.made[wanted]; ok {
		return id, nil
	}
	id, err := l.file.NewStyle(l.styleOf(wanted))
	if err == nil {
		l.made[wanted] = id
	}
	return id, err
}

func (l *look) styleOf(wanted style) *excelize.Style {
	made := &excelize.Style{
		Font:       l.font(wanted.Role),
		Border:     borders(wanted.Role),
		Alignment:  &excelize.Alignment{Horizontal: wanted.Align, Vertical: "top", WrapText: wanted.Wrap},
		Protection: &excelize.Protection{Locked: wanted.Role != input || l.signed},
	}
	if fill := fillOf(wanted.Role); fill != "" {
		made.Fill = excelize.Fill{Type: "pattern", Pattern: 1, Color: []string{fill}}
	}
	switch {
	case wanted.Role == heading, wanted.Role == paperHeading:
		made.Alignment.Vertical = "bottom"
	case wanted.Middle:
		made.Alignment.Vertical = "center"
	}
	if wanted.Indent {
		made.Alignment.Horizontal, made.Alignment.Indent = "left", 1
	}
	if wanted.Upright {
		made.Alignment.TextRotation = 90
	}
	if wanted.Format != "" {
		made.CustomNumFmt = &wanted.Format
	}
	return made
}

func (l *look) font(of role) *excelize.Font {
	font := &excelize.Font{Family: typeface, Size: sizeOf(of), Color: inkColour}
	switch of {
	case title, band:
		font.Bold, font.Color = true, accentColour
	case subtitle, heading, paperHeading, strong, total, listed:
		font.Bold = true
	case paperNote:
		font.Italic = true
	case note:
		font.Italic, font.Color = true, mutedColour
	case link:
		font.Underline, font.Color = "single", linkColour
	}
	return font
}

// sizeOf is the size of a role's letters in points.
func sizeOf(of role) float64 {
	switch of {
	case title:
		return titleSize
	case subtitle, band:
		return subtitleSize
	case heading, note:
		return headingSize
	case paperHeading, paperNote:
		return paperSize
	case listed:
		return listedSize
	}
	return bodySize
}

func fillOf(of role) string {
	switch of {
	case heading, paperHeading:
		return headingFill
	case band:
		return bandFill
	case input:
		return inputFill
	case flagged:
		return flagFill
	}
	return ""
}

func borders(of role) []excelize.Border {
	switch of {
	case body, strong, link, flagged:
		return []excelize.Border{{Type: "bottom", Color: ruleColour, Style: 7}}
	case heading, paperHeading:
		return []excelize.Border{{Type: "top", Color: accentColour, Style: 1}, {Type: "bottom", Color: accentColour, Style: 2}}
	case total:
		return []excelize.Border{{Type: "top", Color: accentColour, Style: 1}, {Type: "bottom", Color: accentColour, Style: 1}}
	case band:
		return []excelize.Border{{Type: "bottom", Color: accentColour, Style: 1}}
	case input, listed:
		return []excelize.Border{
			{Type: "left", Color: inputBorder, Style: 1},
			{Type: "right", Color: inputBorder, Style: 1},
			{Type: "top", Color: inputBorder, Style: 1},
			{Type: "bottom", Color: inputBorder, Style: 1},
		}
	}
	return nil
}
