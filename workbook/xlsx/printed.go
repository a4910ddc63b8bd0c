package xlsx

import (
	"encoding/xml"
	"errors"
	"io"
	"path/filepath"
	"slices"
	"strings"
)

// Printed is a sheet as it prints: what stands in its cells, and all that makes the same cells look otherwise on paper.
type Printed struct {
	*Grid
	Formulas    map[Place]string // without "="; of cells that share one, each its own
	Conditional []string         // the cells that conditional formats stand on
	Titles      []string         // the texts of the titles of its charts, in order
	formats     []format
	lastRow     int // how far rows are read; 0 for all
}

// Printed reads a sheet as it prints.
func (b *Book) Printed(sheet string) (*Printed, error) {
	printed := &Printed{Formulas: make(map[Place]string), formats: b.styles}
	grid, err := b.scan(sheet, printed)
	if err != nil || b.contents == nil {
		return &Printed{Grid: grid}, err
	}
	printed.Grid = grid
	part, err := b.sheetPart(sheet)
	if err != nil {
		return nil, err
	}
	printed.Titles, err = b.chartTitles(part)
	return printed, err
}

// ScanFormulas reads the rows of a sheet down to one, and their formulas.
func (b *Book) ScanFormulas(sheet string, lastRow int) (*Grid, map[Place]string, error) {
	printed := &Printed{Formulas: make(map[Place]string), lastRow: lastRow}
	if b.contents == nil {
		grid, err := b.scanText(sheet)
		return grid, printed.Formulas, err
	}
	grid, err := b.scanTo(sheet, printed, 0, nil)
	if errors.Is(err, errMoreCells) {
		err = nil // it is read no further
	}
	return grid, printed.Formulas, err
}

// NumberFormat gives the code of a cell's number format; empty for the general one.
func (p *Printed) NumberFormat(cell *Cell) string {
	if int(cell.Style) >= len(p.formats) || cell.Style < 0 {
		return ""
	}
	return p.formats[cell.Style].code
}

// sharedFormula is a formula that several cells share, as the first one has it.
type sharedFormula struct {
	text string
	at   Place
}

// formula reads the formula of a cell (ECMA-376 part 1, 18.3.1.40).
func (s *scanner) formula(element token, at Place) error {
	kind, _ := element.attribute("t")
	number, shares := element.attribute("si")
	text, err := s.content(element)
	if err != nil {
		return err
	}
	text = s.keep(text)
	if kind == "shared" && shares {
		if text != "" {
			s.shared[strings.Clone(number)] = sharedFormula{text, at}
		} else if first, known := s.shared[number]; known {
			text = shiftFormula(first.text, at.Column-first.at.Column, at.Row-first.at.Row)
		}
	}
	s.printed.Formulas[at] = text
	return nil
}

// chartTitles gives the texts of the titles of a sheet's charts and of their axes.
func (b *Book) chartTitles(sheet string) (titles []string, err error) {
	drawings, err := b.related(sheet, "drawing")
	if err != nil {
		return nil, err
	}
	for _, drawing := range drawings {
		charts, err := b.related(drawing, "chart")
		if err != nil {
			return nil, err
		}
		for _, chart := range charts {
			found, err := titlesOf(b.contents.parts[chart])
			if err != nil {
				return nil, errDamaged(filepath.Base(b.Path), chart, "its chart is no longer readable")
			}
			titles = append(titles, found...)
		}
	}
	return titles, nil
}

// related gives the parts of a kind to which a part is related, in their order.
func (b *Book) related(part, kind string) (targets []string, err error) {
	list, err := b.contents.relations(part)
	if err != nil {
		return nil, errDamaged(filepath.Base(b.Path), relationsPart(part), err.Error())
	}
	for _, relation := range list {
		if _, there := b.contents.parts[relation.Target]; there && relation.kind() == kind && relation.TargetMode != "External" {
			targets = append(targets, relation.Target)
		}
	}
	slices.Sort(targets)
	return targets, nil
}

// titlesOf reads the titles of a chart (ECMA-376 part 1, 21.2.2.210): of each the text of its paragraphs in one.
func titlesOf(data []byte) (titles []string, err error) {
	decoder := xml.NewDecoder(strings.NewReader(string(data)))
	var title strings.Builder
	within, inText := 0, false
	for {
		part, err := decoder.Token()
		if part == nil {
			if errors.Is(err, io.EOF) {
				err = nil
			}
			return titles, err
		}
		switch part := part.(type) {
		case xml.StartElement:
			if part.Name.Local == "title" {
				within++
			}
			inText = within > 0 && part.Name.Local == "t"
		case xml.EndElement:
			inText = false
			if part.Name.Local == "title" {
				if within--; within == 0 && title.Len() > 0 {
					titles = append(titles, strings.Join(strings.Fields(title.String()), " "))
					title.Reset()
				}
			}
		case xml.CharData:
			if inText {
				title.Write(part)
			}
		}
	}
}
