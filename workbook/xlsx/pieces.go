package xlsx

import (
	"bytes"
	"io"
	"os"
	"sync"
)

// Piece is some of the bytes of a file: in memory, or a stretch of another file, which is read when it is wanted.
type Piece struct {
	held     []byte
	from     io.ReaderAt
	at, size int64
}

func (p Piece) length() int64 {
	if p.from != nil {
		return p.size
	}
	return int64(len(p.held))
}

// chunkSize is how much of a stretch is read at a time, in bytes.
const chunkSize = 1 << 16

// each gives the bytes in turn, good until the next.
func (p Piece) each(take func(data []byte) error) error {
	if p.from == nil {
		return take(p.held)
	}
	chunk := make([]byte, min(p.size, chunkSize))
	for at := int64(0); at < p.size; {
		some := chunk[:min(p.size-at, chunkSize)]
		if count, err := p.from.ReadAt(some, p.at+at); count < len(some) {
			return err
		}
		if err := take(some); err != nil {
			return err
		}
		at += int64(len(some))
	}
	return nil
}

// Pieces are what a file holds, piece by piece. They are never changed.
type Pieces []Piece

// Whole gives what is there in one piece.
func Whole(data []byte) Pieces { return Pieces{{held: data}} }

// Size is how many bytes there are.
func (p Pieces) Size() (bytes int64) {
	for _, piece := range p {
		bytes += piece.length()
	}
	return bytes
}

// each gives the bytes in turn, good until the next.
func (p Pieces) each(take func(data []byte) error) error {
	for _, piece := range p {
		if err := piece.each(take); err != nil {
			return err
		}
	}
	return nil
}

// Bytes gives all in one.
func (p Pieces) Bytes() ([]byte, error) {
	whole := make([]byte, 0, p.Size())
	err := p.each(func(data []byte) error {
		whole = append(whole, data...)
		return nil
	})
	return whole, err
}

// keptLength is the length from which bytes are kept as they came: what the writer of a ZIP file gathers is shorter, and used again.
const keptLength = 1 << 13

// gathered takes what the writer of a ZIP file writes.
type gathered struct {
	pieces  Pieces
	passing bool // what is written stands for a stretch of another file
}

// Write adds some bytes.
func (g *gathered) Write(data []byte) (int, error) {
	switch last := len(g.pieces) - 1; {
	case g.passing:
	case len(data) >= keptLength:
		g.pieces = append(g.pieces, Piece{held: data[:len(data):len(data)]})
	case last >= 0 && len(g.pieces[last].held) < keptLength && cap(g.pieces[last].held)-len(g.pieces[last].held) >= len(data):
		g.pieces[last].held = append(g.pieces[last].held, data...)
	default:
		g.pieces = append(g.pieces, Piece{held: append(make([]byte, 0, keptLength), data...)})
	}
	return len(data), nil
}

// pass adds a stretch of another file as what follows in the ZIP file, whose writer is given as many other bytes to count.
func (g *gathered) pass(piece Piece, flush func() error, entry io.Writer) error {
	if err := flush(); err != nil {
		return err
	}
	g.passing = true
	blank := make([]byte, min(piece.size, chunkSize))
	for left := piece.size; left > 0; left -= int64(len(blank)) {
		blank = blank[:min(left, chunkSize)]
		if _, err := entry.Write(blank); err != nil {
			return err
		}
	}
	if err := flush(); err != nil {
		return err
	}
	g.passing = false
	g.pieces = append(g.pieces, piece)
	return nil
}

// heldPacked is how many bytes of packed parts are kept in memory before the next ones go to a file.
const heldPacked = 1 << 20

// store keeps packed parts in a file without a name, beside where they are to be written, so that results need not be in memory as
// well as what they are made of. Where there can be none, it keeps them in memory.
type store struct {
	folder string // "" for none
	lock   sync.Mutex
	file   *os.File
	size   int64
}

// PackBeside says where the workbook will be written, so that its packed parts can wait there.
func (b *Book) PackBeside(folder string) { b.store.folder = folder }

// keep takes bytes over from a room that is used again.
func (s *store) keep(data []byte) Piece {
	if s == nil {
		return Piece{held: bytes.Clone(data)}
	}
	s.lock.Lock()
	defer s.lock.Unlock()
	if s.folder != "" && s.size > heldPacked && s.file == nil {
		s.file = unnamedFile(s.folder)
		if s.file == nil {
			s.folder = ""
		}
	}
	at := s.size
	if s.file == nil {
		s.size += int64(len(data))
		return Piece{held: bytes.Clone(data)}
	}
	if _, err := s.file.WriteAt(data, at); err != nil {
		s.file, s.folder = nil, "" // what is there stays readable
		return Piece{held: bytes.Clone(data)}
	}
	s.size += int64(len(data))
	return Piece{from: s.file, at: at, size: int64(len(data))}
}

// packedIn gives what an entry of a ZIP file holds, packed as it is.
func packedIn(file io.ReaderAt, offset, size int64) []Piece {
	if size == 0 {
		return nil
	}
	if size >= keptLength {
		return []Piece{{from: file, at: offset, size: size}}
	}
	held := make([]byte, size)
	if count, _ := file.ReadAt(held, offset); count < len(held) {
		return []Piece{{from: file, at: offset, size: size}} // reading it again says why
	}
	return []Piece{{held: held}}
}
