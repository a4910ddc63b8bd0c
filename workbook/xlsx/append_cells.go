package xlsx

import (
	"bytes"
	"cmp"
	"fmt"
	"strconv"
	"strings"

	"railbook/rules/address"

	"github.com/xuri/excelize/v2"
)

type columnShape struct {
	column int
	shape  string
}

func (a *appending) styles(b *Book) (err error) {
	a.style = func(format string) int {
		style, err := b.cellStyle("cell " + format)
		a.failed = cmp.Or(a.failed, err)
		return style
	}
	if a.heading, err = b.cellStyle("heading"); err != nil {
		return err
	}
	for i := range a.block.Headings {
		format := ""
		if i < len(a.block.Formats) {
			format = a.block.Formats[i]
		}
		style, err := b.cellStyle("cell " + format)
		if err != nil {
			return err
		}
		a.columns = append(a.columns, style)
	}
	return nil
}

// cellStyle gives the style of headings ("heading") or of cells with a number format ("cell 0.00"), made once each.
func (b *Book) cellStyle(name string) (int, error) {
	if style, made := b.formats[name]; made {
		return style, nil
	}
	style := &excelize.Style{
		Font:      &excelize.Font{Family: b.base.typeface(), Size: 11},
		Alignment: &excelize.Alignment{Vertical: "bottom"},
	}
	if format, isCell := strings.CutPrefix(name, "cell "); !isCell {
		style.Font.Bold = true
		style.Alignment.WrapText = true
		style.Fill = excelize.Fill{Type: "pattern", Pattern: 1, Color: []string{"EBE3D8"}}
		style.Border = []excelize.Border{{Type: "bottom", Style: 1, Color: "5A2A27"}}
	} else if format != "" {
		style.CustomNumFmt = &format
	}
	number, err := b.file.NewStyle(style)
	if err != nil {
		return 0, fmt.Errorf("the format of the added columns can't be made: %w", err)
	}
	if b.formats == nil {
		b.formats = map[string]int{}
	}
	b.formats[name] = number
	return number, nil
}

// typeface gives the name of the workbook's first font, which is that of plain cells.
func (c *contents) typeface() string {
	if _, names, err := children(c.parts[c.styles], "font"); err == nil {
		for _, element := range names {
			if name, _ := element.attribute("val"); element.name == "name" && name != "" && utf16Length(name) < excelize.MaxFontFamilyLength {
				return name
			}
		}
	}
	return "Calibri"
}

// eachRow gives the block's cells of the rows from the headings down, each row once: so they are asked for.
func (a *appending) eachRow(yield func([]byte) bool) {
	for number := a.block.HeadingRow; number <= a.block.LastRow && yield(bytes.Clone(a.cells(number))); number++ {
	}
}

// cells writes the block's cells of one row.
func (a *appending) cells(number int) []byte {
	a.cellText = a.cellText[:0]
	if number == a.block.HeadingRow {
		for i, heading := range a.block.Headings {
			a.cell(a.block.FirstColumn+i, number, a.heading, NewCell{Kind: Text, Value: heading})
		}
		return a.cellText
	}
	for i, cell := range a.block.Row(number) {
		style := a.columns[i]
		if cell.Format != "" && a.style != nil {
			style = a.style(cell.Format)
		}
		a.cell(a.block.FirstColumn+i, number, style, cell)
	}
	return a.cellText
}

// cell writes one cell: a formula with its cached value, or a plain value; nothing for a blank.
func (a *appending) cell(column, row, style int, cell NewCell) {
	formula := cell.Formula != "" || cell.Shape != ""
	if !formula && cell.Kind == Blank {
		return
	}
	text := append(a.cellText, '<')
	text = append(text, a.prefix...)
	text = append(text, `c r="`...)
	text = address.Append(text, column, row)
	text = append(text, '"')
	if style != 0 {
		text = append(text, ` s="`...)
		text = strconv.AppendInt(text, int64(style), 10)
		text = append(text, '"')
	}
	switch {
	case cell.Kind == Text && formula:
		text = append(text, ` t="str"`...)
	case cell.Kind == Text:
		text = append(text, ` t="inlineStr"`...)
	case cell.Kind == Bool:
		text = append(text, ` t="b"`...)
	case cell.Kind == ErrorValue:
		text = append(text, ` t="e"`...)
	}
	text = append(text, '>')
	if formula {
		text = a.formula(text, column, row, cell)
	}
	text = a.cached(text, cell, formula)
	text = append(text, "</"...)
	text = append(text, a.prefix...)
	a.cellText = append(text, "c>"...)
}

// formula writes <f>: the first of its shape with the text, the others with its number alone.
func (a *appending) formula(text []byte, column, row int, cell NewCell) []byte {
	text = append(text, '<')
	text = append(text, a.prefix...)
	if cell.Shape == "" {
		text = append(text, "f>"...)
		text = append(text, escape(cell.Formula)...)
		text = append(text, "</"...)
		text = append(text, a.prefix...)
		return append(text, "f>"...)
	}
	key := columnShape{column, cell.Shape}
	id, shared := a.shapes[key]
	if shared {
		text = append(text, `f t="shared" si="`...)
		text = strconv.AppendInt(text, int64(id), 10)
		return append(text, `"/>`...)
	}
	id = a.nextID
	a.nextID++
	a.shapes[key] = id
	text = fmt.Appendf(text, `f t="shared" ref="%s:%s" si="%d">`, address.Cell(column, row), address.Cell(column, a.block.LastRow), id)
	text = append(text, escape(cell.Formula)...)
	text = append(text, "</"...)
	text = append(text, a.prefix...)
	return append(text, "f>"...)
}

// cached writes <v>, or <is> for a text that is no formula's.
func (a *appending) cached(text []byte, cell NewCell, formula bool) []byte {
	value := cell.Value
	switch cell.Kind {
	case Blank:
		return text
	case Bool:
		value = map[bool]string{true: "1", false: "0"}[strings.EqualFold(value, "TRUE")]
	}
	if cell.Kind == Text && !formula {
		return append(text, withPrefix(a.prefix, `<is><t xml:space="preserve">`+escape(value)+`</t></is>`)...)
	}
	text = append(text, '<')
	text = append(text, a.prefix...)
	text = append(text, "v>"...)
	text = append(text, escape(value)...)
	text = append(text, "</"...)
	text = append(text, a.prefix...)
	return append(text, "v>"...)
}
