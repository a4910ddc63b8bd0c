package xlsx

import (
	"fmt"
	"path/filepath"
)

// addition is all that is added to one sheet of the user's. It is made when the workbook is saved, and packed row by row:
// a large sheet with its added columns is never in memory whole.
type addition struct {
	sheet   string
	blocks  []*appending
	flagged []string
	flag    int // the style of flagged cells
}

// addition gives the additions to a sheet, to add to.
func (b *Book) addition(sheet string) (*addition, error) {
	if _, err := b.sheetPart(sheet); err != nil {
		return nil, err
	}
	b.saved = nil
	for _, addition := range b.additions {
		if addition.sheet == sheet {
			return addition, nil
		}
	}
	added := &addition{sheet: sheet}
	b.additions = append(b.additions, added)
	return added, nil
}

// addToSheets makes the additions in the parts as they will be written.
func (b *Book) addToSheets(made *contents) error {
	for _, addition := range b.additions {
		part, err := b.sheetPart(addition.sheet)
		if err == nil {
			made.parts[part], err = b.withAdditions(addition, part, made.parts[part], b.base.lists[part])
		}
		if err != nil {
			return errDamaged(filepath.Base(b.Path), part, fmt.Sprintf("nothing can be added to the sheet %q: %v", addition.sheet, err))
		}
	}
	return nil
}

func (b *Book) withAdditions(added *addition, part string, data []byte, held *listing) (sheet []byte, err error) {
	rows := &Rows{}
	b.take(rows, part)
	for i, block := range added.blocks {
		out := &piecewise{}
		if held != nil {
			out.piece = NewPiece()
		}
		switch last := i == len(added.blocks)-1; {
		case last:
			out.rows = rows
		case held != nil:
			out.rows = &Rows{packing: packing{store: &b.store}}
		}
		around, err := block.sheet(data, held, out)
		if err != nil {
			return nil, err
		}
		block.undo.printed = b.limited[added.sheet]
		b.setMark(mark{name: block.block.Mark, sheet: added.sheet, area: block.area(), comment: block.undo.String()})
		if data, err = out.close(around); err != nil {
			return nil, err
		}
		if held != nil && out.rows != rows {
			if held, err = out.rows.listed(held, block.nextID-1); err != nil {
				return nil, err
			}
		}
	}
	if len(added.blocks) > 0 {
		if b.rows == nil {
			b.rows = make(map[string]*Rows)
		}
		b.rows[part] = rows
	}
	if len(added.flagged) == 0 {
		return data, nil
	}
	root, list, err := children(data, "")
	if err != nil {
		return nil, err
	}
	return apply(data, []edit{flagRules(data, root, list, added.flagged, added.flag)}), nil
}

// piecewise takes the rows of a sheet as they are made.
type piecewise struct {
	rows   *Rows // packs each piece; nil where the rows are wanted in one
	piece  []byte
	spaces []declaredPrefix // that the sheet declares
}

func (p *piecewise) Write(data []byte) (int, error) {
	p.piece = append(p.piece, data...)
	return len(data), nil
}

// WriteString writes a text.
func (p *piecewise) WriteString(text string) { p.piece = append(p.piece, text...) }

// between lets go of a piece that is full. It is called where a row has ended and none has begun.
func (p *piecewise) between() {
	if p.rows != nil && len(p.piece) > PieceSize {
		p.send()
		p.piece = NewPiece()
	}
}

func (p *piecewise) send() {
	p.rows.packing.spaces = p.spaces
	p.rows.Add(p.piece)
}

// close gives the sheet: without its rows if they have gone their way, and else with them.
func (p *piecewise) close(around []byte) ([]byte, error) {
	if p.rows != nil {
		p.send()
		return around, nil
	}
	within, _, err := children(around, "sheetData")
	return apply(around, []edit{{within.inner, within.inner, view(p.piece)}}), err
}
