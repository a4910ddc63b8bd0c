package xlsx

import (
	"fmt"
	"strconv"
	"strings"

	"railbook/rules/address"
)

func byColumn(a, b Cell) int { return a.Column - b.Column }

func (s *scanner) cells(row token) error {
	s.scratch = s.scratch[:0]
	if row.closed {
		return nil
	}
	depth, previous := s.depth(), 0
	for {
		cell, kind, plain, err := s.plainCell(previous)
		if !plain && err == nil {
			tag, errNext := s.next()
			if errNext != nil || s.depth() < depth {
				return errNext
			}
			if tag.kind != startElement {
				continue
			}
			if tag.name != "c" {
				if _, err := s.skip(tag); err != nil {
					return err
				}
				continue
			}
			if cell, kind, err = s.cellHead(tag, previous); err == nil && !tag.closed {
				err = s.cellBody(tag, kind, &cell)
			}
		}
		if err != nil {
			return err
		}
		previous = cell.Column
		if err := s.keepCell(cell, kind); err != nil {
			return err
		}
	}
}

// keepCell keeps a cell of the row being read, if it holds something.
func (s *scanner) keepCell(cell Cell, kind string) error {
	if cell.Kind == Blank && !cell.Formula {
		return nil
	}
	if s.count++; s.mostCells > 0 && s.count > s.mostCells {
		return errTooMany
	}
	if s.head > 0 && s.count > s.head {
		return errMoreCells
	}
	if kind != "s" {
		if cell.Raw = s.keep(cell.Raw); s.texted > mostTexts {
			return errTooLong
		}
	}
	s.scratch = append(s.scratch, cell)
	if s.struck || cell.Style >= 0 && int(cell.Style) < len(s.formats) && s.formats[cell.Style].struck {
		s.strike(cell.Column)
	}
	return nil
}

// plainCell reads a cell that is written as nearly all are, <c r="B7" s="2"><v>812</v></c>, at one look. Of any other, plain is false
// and nothing was read.
func (s *scanner) plainCell(previous int) (cell Cell, kind string, plain bool, err error) {
	rest := s.data[s.at:]
	if !strings.HasPrefix(rest, "<c ") {
		return cell, "", false, nil
	}
	end := strings.IndexByte(rest, '>')
	if end < 0 || rest[end-1] == '/' {
		return cell, "", false, nil
	}
	inner, before, after := rest[end+1:], "<v>", "</v></c>"
	inline := strings.HasPrefix(inner, "<is><t>")
	if inline {
		before, after = "<is><t>", "</t></is></c>"
	}
	if !strings.HasPrefix(inner, before) {
		return cell, "", false, nil
	}
	inner = inner[len(before):]
	until := strings.IndexByte(inner, '<')
	if until < 0 || !strings.HasPrefix(inner[until:], after) {
		return cell, "", false, nil
	}
	if cell, kind, err = s.cellHead(token{attributes: rest[len("<c"):end], start: s.at}, previous); err != nil {
		return cell, kind, true, err
	}
	s.at += end + 1 + len(before) + until + len(after) - len("</c>")
	s.struck = false
	text := entities(inner[:until])
	switch {
	case !inline:
		err = s.value(kind, text, &cell)
	case text != "":
		cell.Kind, cell.Raw = Text, escapedCharacters(text)
	}
	s.at += len("</c>")
	return cell, kind, true, err
}

func (s *scanner) strike(column int) { s.strikeAt(Place{column, s.row.Number}) }

func (s *scanner) strikeAt(place Place) {
	if s.grid.Struck == nil {
		s.grid.Struck = map[Place]bool{}
	}
	s.grid.Struck[place] = true
}

// cellHead reads the attributes of <c>: its place, its style and the type of its value.
func (s *scanner) cellHead(tag token, previous int) (cell Cell, kind string, err error) {
	cell.Column = previous + 1
	rest := tag.attributes
	for {
		rest = withoutBlanksBefore(rest)
		equals := strings.IndexByte(rest, '=')
		if equals < 0 || equals+2 > len(rest) {
			break
		}
		end := strings.IndexByte(rest[equals+2:], rest[equals+1])
		if end < 0 {
			break
		}
		value := rest[equals+2 : equals+2+end]
		switch rest[:equals] {
		case "r":
			column, row, ok := address.Parse(value)
			if !ok || row != s.row.Number {
				return cell, "", &damage{tag.start, fmt.Sprintf("row %d has a cell %q", s.row.Number, shorten(value))}
			}
			cell.Column = column
		case "s":
			style, _ := strconv.ParseInt(value, 10, 32)
			cell.Style = int32(style)
		case "t":
			kind = value
		}
		rest = rest[equals+3+end:]
	}
	if cell.Column > address.LastColumn {
		return cell, "", &damage{tag.start, fmt.Sprintf("row %d has too many cells", s.row.Number)}
	}
	return cell, kind, nil
}

// cellBody reads the formula and the value of a cell.
func (s *scanner) cellBody(element token, kind string, cell *Cell) error {
	depth := s.depth()
	s.struck = false
	for {
		tag, err := s.next()
		if err != nil || s.depth() < depth {
			return err
		}
		if tag.kind != startElement {
			continue
		}
		switch tag.name {
		case "f":
			cell.Formula = true
			if s.printed != nil {
				err = s.formula(tag, Place{cell.Column, s.row.Number})
			} else {
				_, err = s.skip(tag)
			}
		case "v":
			var raw string
			if raw, err = s.content(tag); err == nil {
				err = s.value(kind, raw, cell)
			}
		case "is":
			var text string
			if text, s.struck, err = s.richText(tag); err == nil && (text != "" || cell.Formula) {
				cell.Kind, cell.Raw = Text, text
			}
		default:
			_, err = s.skip(tag)
		}
		if err != nil {
			return err
		}
	}
}
