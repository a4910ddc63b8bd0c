package xlsx

import (
	"archive/zip"
	"bytes"
	"fmt"
	"hash/crc32"
	"runtime"
	"slices"
	"sync"

	"github.com/klauspost/compress/flate"
	"github.com/sourcegraph/conc/pool"
)

// PieceSize is how much of a part is packed at a time: large parts keep all processors busy, and no part of ours need
// be in memory whole.
const PieceSize = 1 << 20

// The level of deflate: on sheets, the next higher one takes twice the time for a tenth of the size, which is little time
// where the part is small.
const (
	compression      = 2
	compressionSmall = 6
	smallPart        = 400 << 10
)

// packedBytes is a part as it stands in a ZIP file, in pieces.
type packedBytes struct {
	method uint16
	sum    uint32
	size   int // unpacked
	pieces []Piece
}

// endOfStream is the empty last block of a deflate stream (RFC 1951, 3.2.6); each piece before it ends on a whole byte.
var endOfStream = []byte{0x03, 0x00}

// packWhole compresses a part.
func packWhole(plain []byte, store *store) (packedBytes, error) {
	work := packing{store: store}
	for piece := range slices.Chunk(plain, PieceSize) {
		work.add(piece)
	}
	return work.end()
}

// packing compresses the pieces of a part as they come, on all processors.
type packing struct {
	part   packedBytes
	pieces []*Piece
	store  *store           // where the packed pieces wait; nil for in memory
	rows   bool             // each piece is some rows, to be read before they are packed, and its bytes may be used again
	spaces []declaredPrefix // the prefixes that the rows may use
	like   *comparison      // what the rows are compared with that are not packed; nil where they are packed
	work   *pool.ErrorPool
}

// add takes the next piece, which must not be changed afterwards.
func (p *packing) add(plain []byte) {
	if p.like != nil {
		p.part.size += len(plain)
		p.like.add(plain)
		return
	}
	if p.pieces == nil {
		p.work = pool.New().WithErrors().WithFirstError().WithMaxGoroutines(runtime.GOMAXPROCS(0))
	}
	p.part.sum = crc32.Update(p.part.sum, crc32.IEEETable, plain)
	p.part.size += len(plain)
	packed := new(Piece)
	p.pieces = append(p.pieces, packed)
	rows, spaces := p.rows, p.spaces // as they are for this piece
	p.work.Go(func() (err error) {
		if rows {
			defer usedPiece(plain)
			if err := wellFormedRows(plain, spaces); err != nil {
				return fmt.Errorf("the rows of a sheet are not well made: %w", err)
			}
		}
		*packed, err = deflate(plain, p.store)
		return err
	})
}

// end gives the whole part.
func (p *packing) end() (packedBytes, error) {
	var err error
	if p.pieces != nil {
		err = p.work.Wait()
	}
	p.part.method = zip.Deflate
	for _, piece := range p.pieces {
		p.part.pieces = append(p.part.pieces, *piece)
	}
	p.part.pieces = append(p.part.pieces, Piece{held: endOfStream})
	return p.part, err
}

// deflaters are kept for the next piece of their level: each is a megabyte.
var deflaters = map[int]*sync.Pool{compression: {}, compressionSmall: {}}

// deflater packs a piece into a room of its own.
type deflater struct {
	*flate.Writer
	packed bytes.Buffer
}

func deflate(plain []byte, store *store) (Piece, error) {
	level := compression
	if len(plain) < smallPart {
		level = compressionSmall
	}
	kept := deflaters[level]
	work, made := kept.Get().(*deflater)
	if made {
		work.packed.Reset()
		work.Reset(&work.packed)
	} else {
		work = &deflater{}
		var err error
		if work.Writer, err = flate.NewWriter(&work.packed, level); err != nil {
			return Piece{}, err
		}
	}
	defer kept.Put(work)
	if _, err := work.Write(plain); err != nil {
		return Piece{}, err
	}
	if err := work.Flush(); err != nil {
		return Piece{}, err
	}
	return store.keep(work.packed.Bytes()), nil
}

// length is how many bytes the part takes packed.
func (p packedBytes) length() int64 { return Pieces(p.pieces).Size() }
