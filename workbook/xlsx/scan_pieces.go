package xlsx

import (
	"errors"
	"runtime"

	"github.com/sourcegraph/conc/stream"
)

// unknownRow stands for the row before a piece of which nothing says where it stands in the sheet, and errUnknownRow says that a row
// of it has no number of its own.
const unknownRow = -1

var errUnknownRow = errors.New("a row has no number of its own")

// scannedPiece is what was read of a piece of a sheet without those before it.
type scannedPiece struct {
	*scanner
	previous int // the number of its last row
	err      error
}

// listSideBySide reads a list of rows piece by piece, several at once, and puts them together in their order. A piece that can't be read
// alone is read again after those before it, and so is one in which something is wrong or with which there would be too much: that
// way the same is said as of a sheet that is read from its beginning.
func (s *scanner) listSideBySide(previous *int) error {
	work := stream.New().WithMaxGoroutines(runtime.GOMAXPROCS(0))
	var failed error
	stopped := make(chan struct{})
	spare := make(chan *scanner, runtime.GOMAXPROCS(0)) // each has room left for cells and texts
	err := s.list.each(func(piece []byte, at int) error {
		select {
		case <-stopped:
			return errStopped
		default:
		}
		piece = append(NewPiece(), piece...)
		work.Go(func() stream.Callback {
			scanned := s.piece(piece, spare)
			return func() {
				defer usedPiece(piece)
				if failed == nil {
					if failed = s.join(scanned, piece, at, previous); failed != nil {
						close(stopped)
					}
				}
				select {
				case spare <- scanned.scanner:
				default:
				}
			}
		})
		return nil
	})
	work.Wait()
	if failed != nil {
		return failed
	}
	return err
}

// piece reads a piece of the list alone.
func (s *scanner) piece(piece []byte, spare chan *scanner) *scannedPiece {
	var alone *scanner
	select {
	case alone = <-spare:
	default:
		alone = &scanner{texts: s.texts, formats: s.formats, date1904: s.date1904, mostCells: s.mostCells, list: s.list, struckTexts: s.struckTexts}
	}
	alone.tags, alone.grid, alone.count, alone.texted = within(piece), &Grid{}, 0, 0
	read := &scannedPiece{scanner: alone, previous: unknownRow}
	read.err = alone.rows(&read.previous)
	return read
}

// join adds a piece that was read to those before it.
func (s *scanner) join(read *scannedPiece, piece []byte, at int, previous *int) error {
	count, texted := s.count+read.count, s.texted+read.texted
	if read.err != nil || s.mostCells > 0 && count > s.mostCells || s.head > 0 && count > s.head || texted > mostTexts {
		s.tags = within(piece)
		err := s.rows(previous)
		if found := (*damage)(nil); errors.As(err, &found) {
			found.offset += at
		}
		return err
	}
	if read.previous != unknownRow {
		*previous = read.previous
	}
	s.count, s.texted = count, texted
	s.grid.Rows = append(s.grid.Rows, read.grid.Rows...)
	for place := range read.grid.Struck {
		s.strikeAt(place)
	}
	return nil
}
