package xlsx

import (
	"bytes"
	"fmt"
	"hash/crc32"
	"io"
	"slices"
	"strings"
	"sync"

	"github.com/klauspost/compress/flate"
)

// Rows takes the rows of a sheet: the XML that stands within <sheetData>. The library writes a row cell by cell, at several
// times the cost; everything else of the sheet is still filled in through Draft.
type Rows struct {
	packing packing
	packed  *packedBytes // once all of them are there
}

// Fill gives a sheet without rows, one that NewSheet added or one of an empty workbook of our own, its rows. More may be added
// to them until the workbook is saved.
func (b *Book) Fill(sheet string, rows *Rows) error {
	part, added := b.added[sheet]
	if !added {
		var err error
		if part, err = b.sheetPart(sheet); err != nil {
			return err
		}
	}
	if b.rows == nil {
		b.rows = make(map[string]*Rows)
	}
	b.rows[part], b.saved = rows, nil
	b.take(rows, part)
	return nil
}

// Add packs some more rows, about PieceSize bytes of them at a time, which must come from NewPiece and are taken over.
func (r *Rows) Add(xml []byte) {
	r.packing.rows = true
	r.packing.add(xml)
}

// pieces are kept for the next rows: each is a megabyte.
var pieces sync.Pool

// NewPiece gives an empty slice to write rows into, with room for a piece and the row that fills it.
func NewPiece() []byte {
	if kept, found := pieces.Get().(*[]byte); found {
		return (*kept)[:0]
	}
	return make([]byte, 0, PieceSize+PieceSize/16)
}

// usedPiece lets a slice of NewPiece be used again.
func usedPiece(piece []byte) {
	if cap(piece) >= PieceSize {
		pieces.Put(&piece)
	}
}

// take makes the rows of a part wait where those of the workbook do, or be compared with its own.
func (b *Book) take(rows *Rows, part string) {
	rows.packing.store = &b.store
	if b.comparing {
		rows.packing.like = b.contents.compareWith(part)
	}
}

// around gives what stands before and behind the rows in a sheet that has none.
func around(part string, sheet []byte) (head, tail []byte, err error) {
	_, list, err := children(sheet, "")
	if err != nil {
		return nil, nil, err
	}
	at := slices.IndexFunc(list, func(tagged element) bool { return tagged.name == "sheetData" })
	if at < 0 || list[at].inner > list[at].token.end {
		return nil, nil, fmt.Errorf("the rows have no place in %s", part)
	}
	closing := "</" + list[at].prefix + "sheetData>"
	head = append(bytes.Clone(sheet[:list[at].start]), strings.TrimSuffix(emptied(sheet, list[at]), closing)...)
	return head, append([]byte(closing), sheet[list[at].until:]...), nil
}

// within gives the sheet of a part, packed, with the rows where its own are missing.
func (r *Rows) within(part string, sheet []byte, store *store) (whole packedBytes, err error) {
	before, behind, err := around(part, sheet)
	if err != nil {
		return whole, err
	}
	if r.packed == nil {
		packed, err := r.packing.end()
		if err != nil {
			return whole, err
		}
		r.packed = &packed
	}
	head, err := packWhole(before, store)
	if err != nil {
		return whole, err
	}
	tail, err := packWhole(behind, store)
	return head.followedBy(*r.packed).followedBy(tail), err
}

// listed gives the rows, once all of them are there, as a list like the one that they were made of.
func (r *Rows) listed(of *listing, highest int) (*listing, error) {
	packed, err := r.packing.end()
	made := *of
	made.source, made.highest = packedRows(packed.pieces[:len(packed.pieces)-1]), highest
	return &made, err
}

// packedRows are pieces of rows, each packed so that it can be unpacked without the others.
type packedRows []Piece

func (p packedRows) each(take func(piece []byte, at int) error) error {
	at := 0
	for _, packed := range p {
		data, err := Pieces{packed}.Bytes()
		if err != nil {
			return err
		}
		plain := bytes.NewBuffer(NewPiece())
		if _, err := io.Copy(plain, flate.NewReader(io.MultiReader(bytes.NewReader(data), bytes.NewReader(endOfStream)))); err != nil {
			return err
		}
		if err := take(plain.Bytes(), at); err != nil {
			return err
		}
		at += plain.Len()
		usedPiece(plain.Bytes())
	}
	return nil
}

// followedBy gives two parts as one.
func (p packedBytes) followedBy(next packedBytes) packedBytes {
	inner := p.pieces[:len(p.pieces)-1] // without the end of the stream
	return packedBytes{p.method, joinedSum(p.sum, next.sum, next.size), p.size + next.size, slices.Concat(inner, next.pieces)}
}

// joinedSum gives the CRC-32 of a text from those of its two halves and the length of the second. The sum is linear: that
// of the first half moves on as if as many zero bytes followed it.
func joinedSum(first, second uint32, length int) uint32 {
	var zeros [1 << 14]byte
	moved := first
	for ; length > 0; length -= len(zeros) {
		moved = ^crc32.Update(^moved, crc32.IEEETable, zeros[:min(length, len(zeros))])
	}
	return moved ^ second
}
