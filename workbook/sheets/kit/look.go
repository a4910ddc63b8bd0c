package kit

import (
	"math"

	"railbook/workbook/record"
	"railbook/workbook/xlsx"
)

// The look of our sheets: one typeface, one palette. Nothing is said by colour alone: whatever is tinted also carries
// a word or a border, so that a black and white print says the same.
const (
	typeface = "Arial"

	inkColour    = "262626"
	accentColour = "5A2A27" // oxblood: titles and rules
	headingFill  = "EBE3D8" // parchment
	bandFill     = "F5F1EA" // the line that opens a class
	RuleColour   = "A79C8C"
	inputFill    = "FFF6D1" // straw: cells that people fill in
	inputBorder  = "7A5C00"
	flagFill     = "F4D9D3"
	mutedColour  = "5F5F5F"
	linkColour   = "1F4E79"
	FirstTab     = "FF5A2A27" // sheets people read
	InputTab     = "FFC79A00" // sheets people fill in
	WorkingTab   = "FF8C8478" // sheets the program keeps
	bodySize     = 10.0
	HeadingSize  = 10.0
	titleSize    = 16.0
	subtitleSize = 11.0
	PaperSize    = 10.0
	listedSize   = 12.0
)

// Role is what a cell is for; it settles its typeface, fill and border.
type Role uint8

const (
	Body Role = iota
	Strong
	Title
	Subtitle
	Band    // the line that opens a block
	Heading // of a column
	Note
	Input        // people write here: unlocked, tinted and bordered
	Ruled        // people write here by hand: unlocked and bordered, without a tint that a copier turns grey
	Listed       // bordered like what people fill in, and filled in already
	PaperHeading // of a column that is filled in by hand: large enough to be read at arm's length
	PaperNote
	Flagged
	Link
	Total
)

// A role in larger type is the same role with one of these added; MostLarger is the largest.
const (
	largerBy   Role = 1 << 6
	MostLarger      = 2
)

// larger gives the role in type that is so many steps larger.
func (r Role) larger(steps int) Role { return r&(largerBy-1) + Role(steps)*largerBy }

// plain gives the role, whatever its type's size.
func (r Role) plain() Role { return r & (largerBy - 1) }

// Style is all in which two cells of ours may differ. Each style is made once in a workbook.
type Style struct {
	Role   Role
	Format string // number format; empty for general
	Align  string // "left", "center", "right"; empty for the content's own
	Wrap   bool
	Across bool // merged over several columns: the text does not set the row's height
	Middle bool // halfway up its row, which is higher than its text
	Indent bool // a little away from the text of the column before
	Open   bool // the first of two lines that belong together: nothing is drawn between them
}

// Look makes the styles of one workbook.
type Look struct {
	draft  *xlsx.Draft
	Fill   func(sheet string) (*xlsx.Rows, error) // takes a sheet's rows as XML; nil: they are written through the library
	signed bool                                   // nothing may be filled in any more
	unit   float64                                // of a column's width, in points
	made   map[Style]int
	Views  []record.View // what the pages that nobody fills in say
}

func NewLook(draft *xlsx.Draft, signed bool) *Look {
	return &Look{draft: draft, signed: signed, unit: freshUnit, made: make(map[Style]int)}
}

// UsersLook makes the styles of a workbook made afresh whose columns are counted as those of a user's are.
func UsersLook(draft *xlsx.Draft) *Look {
	look := NewLook(draft, false)
	look.unit = usersUnit
	return look
}

// LookOf makes the styles of a workbook whose own sheets are added to a user's.
func LookOf(book *xlsx.Book, signed bool) *Look {
	look := NewLook(book.Draft(), signed)
	look.unit = usersUnit
	look.Fill = func(sheet string) (*xlsx.Rows, error) {
		rows := &xlsx.Rows{}
		return rows, book.Fill(sheet, rows)
	}
	return look
}

// id gives the workbook's number for a style.
func (l *Look) id(wanted Style) (int, error) {
	wanted.Across = false
	if id, ok := l.made[wanted]; ok {
		return id, nil
	}
	id, err := l.draft.AddStyle(l.styleOf(wanted))
	if err == nil {
		l.made[wanted] = id
	}
	return id, err
}

func (l *Look) styleOf(wanted Style) xlsx.Style {
	made := xlsx.Style{
		Typeface: typeface, Size: sizeOf(wanted.Role), Colour: inkColour, Bold: isBold(wanted.Role),
		Fill: fillOf(wanted.Role), Borders: borders(wanted.Role),
		Across: wanted.Align, Down: "top", Wrap: wanted.Wrap, Number: wanted.Format,
		Locked: wanted.Role.plain() != Input && wanted.Role.plain() != Ruled || l.signed,
	}
	switch wanted.Role.plain() {
	case Title, Band:
		made.Colour = accentColour
	case PaperNote:
		made.Italic = true
	case Note:
		made.Italic, made.Colour = true, mutedColour
	case Link:
		made.Underlined, made.Colour = true, linkColour
	}
	switch {
	case wanted.Role.plain() == Heading, wanted.Role.plain() == PaperHeading:
		made.Down = "bottom"
	case wanted.Middle:
		made.Down = "center"
	}
	if wanted.Indent {
		made.Across, made.Indent = "left", 1
	}
	if wanted.Open {
		made.Borders = nil
	}
	return made
}

func isBold(of Role) bool {
	switch of.plain() {
	case Title, Band, Subtitle, Heading, PaperHeading, Strong, Total, Listed:
		return true
	}
	return false
}

// sizeOf is the size of a role's letters in points.
func sizeOf(of Role) float64 {
	const step = 0.1 // of the size
	return math.Round(2*plainSize(of.plain())*(1+step*float64(of/largerBy))) / 2
}

func plainSize(of Role) float64 {
	switch of {
	case Title:
		return titleSize
	case Subtitle, Band:
		return subtitleSize
	case Heading, Note:
		return HeadingSize
	case PaperHeading, PaperNote:
		return PaperSize
	case Listed:
		return listedSize
	}
	return bodySize
}

func fillOf(of Role) string {
	switch of.plain() {
	case Heading:
		return headingFill
	case Band:
		return bandFill
	case Input:
		return inputFill
	case Flagged:
		return flagFill
	}
	return ""
}

func borders(of Role) []xlsx.Border {
	switch of.plain() {
	case Body, Strong, Link, Flagged:
		return []xlsx.Border{{Side: "bottom", Colour: RuleColour, Line: 7}}
	case Heading, PaperHeading:
		return []xlsx.Border{{Side: "top", Colour: accentColour, Line: 1}, {Side: "bottom", Colour: accentColour, Line: 2}}
	case Total:
		return []xlsx.Border{{Side: "top", Colour: accentColour, Line: 1}, {Side: "bottom", Colour: accentColour, Line: 1}}
	case Band:
		return []xlsx.Border{{Side: "bottom", Colour: accentColour, Line: 1}}
	case Input, Ruled, Listed:
		return []xlsx.Border{
			{Side: "left", Colour: inputBorder, Line: 1},
			{Side: "right", Colour: inputBorder, Line: 1},
			{Side: "top", Colour: inputBorder, Line: 1},
			{Side: "bottom", Colour: inputBorder, Line: 1},
		}
	}
	return nil
}
