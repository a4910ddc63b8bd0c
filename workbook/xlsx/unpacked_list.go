package xlsx

import (
	"archive/zip"
	"errors"
	"fmt"
	"io"
	"slices"
	"strings"
	"sync"

	"github.com/klauspost/compress/flate"
	"github.com/sourcegraph/conc/pool"
)

// listPlace is where a list begins in a part.
type listPlace struct {
	root, container token
	item            string
	none            bool // the part has no list
}

// findList finds the list of a part of which the beginning is there; an error may mean that more of it is needed.
func findList(data []byte) (place listPlace, err error) {
	walk := tags{data: view(data)}
	if place.root, err = walk.next(); err != nil {
		return place, err
	}
	names, known := listed[place.root.name]
	place.container, place.item = place.root, place.root.prefix+names.item
	for known && place.container.name != names.container {
		tag, err := walk.next()
		switch {
		case err != nil:
			return place, err
		case walk.depth() == 0:
			known = false
		case tag.kind == startElement && tag.name == names.container:
			place.container, place.item = tag, tag.prefix+names.item
		default:
			if _, err := walk.skipIfStart(tag); err != nil {
				return place, err
			}
		}
	}
	place.none = !known || place.container.closed
	return place, nil
}

// window is what has been read of a part and not yet been taken.
type window struct {
	reader io.Reader
	data   []byte
	at     int // where it begins in the part
	ended  bool
}

var errElement = fmt.Errorf("an element of it takes more than %d MB", largestElement>>20)

// more reads some more, as much again as is there.
func (w *window) more() error {
	if len(w.data) >= largestElement {
		return errElement
	}
	size := max(listPiece, len(w.data))
	w.data = slices.Grow(w.data, size)
	count, err := io.ReadFull(w.reader, w.data[len(w.data):len(w.data)+size])
	w.data = w.data[:len(w.data)+count]
	if errors.Is(err, io.EOF) || errors.Is(err, io.ErrUnexpectedEOF) {
		w.ended, err = true, nil
	}
	return err
}

func (w *window) drop(count int) {
	w.at += count
	w.data = append(w.data[:0], w.data[count:]...)
}

// cutOff hands over the first of what is there, to be kept or given to usedPiece.
func (w *window) cutOff(count int) (piece []byte) {
	piece = w.data[:count]
	w.data = append(roomForPiece(), w.data[count:]...)
	w.at += count
	return piece
}

// roomForPiece is where a piece of a list is unpacked.
func roomForPiece() []byte {
	if listPiece < PieceSize {
		return make([]byte, 0, listPiece)
	}
	return NewPiece()
}

// cut gives where the last whole element ends that is in the window, and whether the list ends there.
func (p *listPlace) cut(data []byte) (end int, last bool, err error) {
	text, container := view(data), p.container.prefix+p.container.name
	if !strings.Contains(text, "<!") && !strings.Contains(text, "<?") {
		if at := strings.Index(text, "</"+container); at >= 0 && at+len(container)+2 < len(text) && strings.IndexByte(" \t\r\n>", text[at+len(container)+2]) >= 0 {
			return at, true, nil
		}
		if at := strings.LastIndex(text, "</"+p.item+">"); at >= 0 {
			return at + len(p.item) + len("</>"), false, nil
		}
	}
	walk := tags{data: text, open: []string{container}, seen: true}
	for {
		tag, err := walk.next()
		switch {
		case err != nil:
			return end, false, err
		case walk.depth() == 0:
			return tag.start, true, nil
		case walk.depth() == 1:
			end = tag.end
		}
	}
}

// each takes the elements of the list piece by piece, up to its end or to that of what is read. Each piece is handed over.
func (p *listPlace) each(w *window, take func(piece []byte, at int) error) error {
	for {
		for !w.ended && len(w.data) < listPiece/2 { // nearly a whole piece is there when the list begins
			if err := w.more(); err != nil {
				return err
			}
		}
		end, last, err := p.cut(w.data)
		switch {
		case end > 0 || last:
			at := w.at
			if err := take(w.cutOff(end), at); err != nil || last {
				return err
			}
		case w.ended:
			return err
		default:
			if err := w.more(); err != nil {
				return err
			}
		}
	}
}

// packedList is a list as the input has it.
type packedList struct {
	entry    *zip.File
	place    listPlace
	from, to int // in the unpacked part
}

func (l *packedList) each(take func(piece []byte, at int) error) error {
	reader, err := l.entry.Open()
	if err != nil {
		return err
	}
	defer reader.Close()
	if _, err := io.CopyN(io.Discard, reader, int64(l.from)); err != nil {
		return err
	}
	return aheadOf(func(take func(piece []byte, at int) error) error {
		return l.unpack(&window{reader: io.LimitReader(reader, int64(l.to-l.from)), data: roomForPiece()}, take)
	}, take)
}

// unpack takes the list out of its part piece by piece. Each piece is handed over.
func (l *packedList) unpack(w *window, take func(piece []byte, at int) error) error {
	for {
		for !w.ended && len(w.data) < listPiece {
			if err := w.more(); err != nil {
				return err
			}
		}
		if w.ended {
			if w.at+len(w.data) < l.to-l.from {
				return errDifferent
			}
			return take(w.data, w.at) // with what stands between the last element and the end
		}
		end, _, _ := l.place.cut(w.data) // an element that is not whole yet needs more
		if end == 0 {
			if err := w.more(); err != nil {
				return err
			}
			continue
		}
		at := w.at
		if err := take(w.cutOff(end), at); err != nil {
			return err
		}
	}
}

var errStopped = errors.New("no more is wanted")

// aheadOf gives the pieces of a list in their order while the next one is being unpacked, each of which is handed over.
func aheadOf(unpack func(take func(piece []byte, at int) error) error, take func(piece []byte, at int) error) error {
	type unpacked struct {
		piece []byte
		at    int
	}
	work := pool.New().WithErrors()
	ended := sync.OnceValue(work.Wait)
	next, stopped := make(chan unpacked, 1), make(chan struct{})
	work.Go(func() error {
		defer close(next)
		return unpack(func(piece []byte, at int) error {
			select {
			case next <- unpacked{piece, at}:
				return nil
			case <-stopped:
				return errStopped
			}
		})
	})
	defer func() {
		close(stopped)
		_ = ended() // before what is read from is closed
	}()
	var before []byte
	for some := range next {
		usedPiece(before)
		before = some.piece
		if err := take(some.piece, some.at); err != nil {
			return err
		}
	}
	return ended()
}

// inflaters are kept for the next part: each has room for what it unpacks.
var inflaters sync.Pool

// inflater unpacks an entry, and is kept when that is closed.
type inflater struct{ io.ReadCloser }

func newInflater(packed io.Reader) io.ReadCloser {
	if kept, found := inflaters.Get().(io.ReadCloser); found {
		_ = kept.(flate.Resetter).Reset(packed, nil)
		return &inflater{kept}
	}
	return &inflater{flate.NewReader(packed)}
}

// Close keeps the reader.
func (i *inflater) Close() error {
	if i.ReadCloser != nil {
		inflaters.Put(i.ReadCloser)
		i.ReadCloser = nil
	}
	return nil
}
