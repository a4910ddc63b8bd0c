package parts

import (
	"bytes"
	"fmt"
)

// Fill gives a sheet without rows, one that NewSheet added or one of an empty workbook of our own, its rows: the XML that stands
// within <sheetData>, in pieces. The library writes a row cell by cell, at several times the cost; everything else of the sheet is
// still filled in through Excel.
func (b *Book) Fill(sheet string, rows [][]byte) error {
	part, added := b.added[sheet]
	if !added {
		var err error
		if part, err = b.sheetPart(sheet); err != nil {
			return err
		}
	}
	if b.rows == nil {
		b.rows = make(map[string][][]byte)
	}
	b.rows[part], b.saved = rows, nil
	return nil
}

// filled puts the rows of our own sheets where the library left an empty table.
func (b *Book) filled(parts map[string][]byte) error {
	for part, rows := range b.rows {
		data := parts[part]
		for _, empty := range []string{"<sheetData></sheetData>", "<sheetData/>"} {
			if before, after, found := bytes.Cut(data, []byte(empty)); found {
				pieces := append([][]byte{before, []byte("<sheetData>")}, rows...)
				parts[part] = bytes.Join(append(pieces, []byte("</sheetData>"), after), nil)
				data = nil
				break
			}
		}
		if data != nil {
			return fmt.Errorf("the rows of %s have no place in it", part)
		}
	}
	return nil
}
