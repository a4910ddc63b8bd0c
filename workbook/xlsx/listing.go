package xlsx

import (
	"archive/zip"
	"bytes"
	"crypto/sha256"
	"errors"
	"fmt"
	"io"
	"runtime"
	"slices"
	"strings"
	"sync"

	"github.com/klauspost/compress/flate"
	"golang.org/x/sync/errgroup"
)

// Nearly all of a large workbook is a few long lists of like elements: the rows of its sheets, the texts that cells share, the records
// of pivot tables. Such a list is not held. Its part is held as its frame, which is the part with the list emptied, and the list is
// unpacked again, piece by piece, for whoever goes through it.

// listing is the list of a part of which the frame is held.
type listing struct {
	source  listSource
	spaces  []declaredPrefix // that are declared where the list stands
	plain   bool             // every piece is plain, as isPlain says
	highest int              // highestShared of every piece; notCounted after a change
	strict  bool             // a piece has a name of the Strict variety
	targets []string         // the relationships that it names
	fault   error            // why it is not well made
	sum     []byte           // SHA-256 of the list as the input has it, where the input is ours
	ends    []rowEnds        // of the rows of a sheet, once they are asked for
}

// listSource gives a list from its beginning, piece by piece: each of whole elements, with its offset in the list, good until the next.
type listSource interface {
	each(take func(piece []byte, at int) error) error
}

// each gives the list piece by piece. Damage that is found in a piece is said to be where it is in the list.
func (l *listing) each(take func(piece []byte, at int) error) error {
	return l.source.each(func(piece []byte, at int) error {
		err := take(piece, at)
		if found := (*damage)(nil); errors.As(err, &found) {
			found.offset += at
		}
		return err
	})
}

// changed gives the list with edits made, whose offsets are those in the list. An edit stands within one element or between two.
func (l *listing) changed(edits []edit) *listing {
	if len(edits) == 0 {
		return l
	}
	sortEdits(edits)
	made := *l
	made.source, made.highest, made.ends = &changedList{l.source, edits}, notCounted, nil
	return &made
}

// notCounted stands for the highest number of a shared formula where a change may have taken it away.
const notCounted = -2

// highestShared gives the highest number of a shared formula in the list, -1 for none: that of what is there now, so that the same
// workbook gets the same numbers whether or not columns with formulas were taken out of it before.
func (l *listing) highestShared() (int, error) {
	if l.highest != notCounted {
		return l.highest, nil
	}
	highest := -1
	err := l.each(func(piece []byte, _ int) error {
		highest = max(highest, highestShared(view(piece)))
		return nil
	})
	return highest, err
}

// They are changed by tests alone.
var (
	listedSize = 2 << 20   // the size in bytes from which a part's list is not held
	listPiece  = PieceSize // how much of a list is unpacked at a time, in bytes
)

// listed are the roots of parts with long lists: the element that the list is in, and what the list is of.
var listed = map[string]struct{ container, item string }{
	"worksheet":         {"sheetData", "row"},
	"sst":               {"sst", "si"},
	"pivotCacheRecords": {"pivotCacheRecords", "r"},
}

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

// each takes the elements of the list piece by piece, up to its end or to that of what is read.
func (p *listPlace) each(w *window, take func(piece []byte, at int) error) error {
	for {
		for !w.ended && len(w.data) < listPiece {
			if err := w.more(); err != nil {
				return err
			}
		}
		end, last, err := p.cut(w.data)
		switch {
		case end > 0 || last:
			if err := take(w.data[:end], w.at); err != nil {
				return err
			}
			if w.drop(end); last {
				return nil
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
		return l.unpack(&window{reader: io.LimitReader(reader, int64(l.to-l.from))}, take)
	}, take)
}

// unpack takes the list out of its part piece by piece.
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
		if err := take(w.data[:end], w.at); err != nil {
			return err
		}
		w.drop(end)
	}
}

var errStopped = errors.New("no more is wanted")

// aheadOf gives the pieces of a list in their order while the next one is being unpacked.
func aheadOf(unpack func(take func(piece []byte, at int) error) error, take func(piece []byte, at int) error) error {
	type unpacked struct {
		piece []byte
		at    int
	}
	var work errgroup.Group
	next, stopped := make(chan unpacked, 1), make(chan struct{})
	work.Go(func() error {
		defer close(next)
		return unpack(func(piece []byte, at int) error {
			select {
			case next <- unpacked{append(NewPiece(), piece...), at}:
				return nil
			case <-stopped:
				return errStopped
			}
		})
	})
	defer func() {
		close(stopped)
		_ = work.Wait() // before what is read from is closed
	}()
	var before []byte
	for some := range next {
		usedPiece(before)
		before = some.piece
		if err := take(some.piece, some.at); err != nil {
			return err
		}
	}
	return work.Wait()
}

// changedList is a list with edits made in it.
type changedList struct {
	under listSource
	edits []edit // in order
}

func (l *changedList) each(take func(piece []byte, at int) error) error {
	left, moved, end := l.edits, 0, 0
	err := l.under.each(func(piece []byte, at int) error {
		count := 0
		for count < len(left) && left[count].from < at+len(piece) {
			count++
		}
		changed := piece
		if count > 0 {
			some := slices.Clone(left[:count])
			for i := range some {
				some[i].from -= at
				some[i].to -= at
			}
			changed = apply(piece, some)
		}
		left, end = left[count:], at+len(piece)
		err := take(changed, at+moved)
		moved += len(changed) - len(piece)
		return err
	})
	if err != nil {
		return err
	}
	var last []byte // what is put at the very end
	for _, added := range left {
		last = append(last, added.text...)
	}
	if len(last) == 0 {
		return nil
	}
	return take(last, end+moved)
}

// readListed reads a part whose list, where it has one, is not held: it gives the part, or its frame and the list.
func (c *contents) readListed(entry *zip.File, reader io.Reader) (plain []byte, list *listing, err error) {
	w, place := &window{reader: reader}, listPlace{none: true}
	for found := false; !found && !w.ended && len(w.data) < largestElement; {
		if err := w.more(); err != nil {
			return nil, nil, err
		}
		if at, err := findList(w.data); err == nil {
			place, found = at, true
		}
	}
	if place.none {
		plain, err = c.readHeld(entry, w.data, reader)
		return plain, nil, err
	}
	list, plain, err = c.listOf(entry, w, place)
	if err == nil {
		_, err = io.Copy(io.Discard, reader) // to the checksum, where the list is not well made
	}
	return plain, list, err
}

// listOf goes through a list that has been found for the first time, reads every piece of it as wellFormed does, and gives it with the
// frame of its part.
func (c *contents) listOf(entry *zip.File, w *window, place listPlace) (list *listing, frame []byte, err error) {
	frame = bytes.Clone(w.data[:place.container.end])
	if place, err = findList(frame); err != nil { // its names are to stay when the window moves on
		return nil, nil, err
	}
	list = &listing{spaces: declarations(place.root), plain: true, highest: -1}
	if place.container.start > place.root.start {
		list.spaces = append(list.spaces, declarations(place.container)...)
	}
	from := place.container.end
	w.drop(from)
	var (
		work   errgroup.Group
		lock   sync.Mutex
		broken *damage // the first in the part
	)
	fail := func(found *damage) {
		if broken == nil || found.offset < broken.offset {
			broken = found
		}
	}
	work.SetLimit(runtime.GOMAXPROCS(0))
	sum := sha256.New()
	ends := place.each(w, func(piece []byte, at int) error {
		if c.ours {
			sum.Write(piece)
		}
		piece = append(NewPiece(), piece...)
		work.Go(func() error {
			defer usedPiece(piece)
			reader := xmlReader{data: view(piece), declared: slices.Clone(list.spaces), piece: true}
			err := reader.read()
			text := view(piece)
			highest, strict := highestShared(text), strings.Contains(text, strictStart)
			lock.Lock()
			defer lock.Unlock()
			if found := (*damage)(nil); errors.As(err, &found) {
				fail(&damage{found.offset + at, found.what})
			}
			for _, target := range reader.targets {
				list.targets = append(list.targets, strings.Clone(target))
			}
			list.plain, list.highest, list.strict = list.plain && !reader.odd, max(list.highest, highest), list.strict || strict
			return nil
		})
		return nil
	})
	_ = work.Wait() // each piece has a fault of its own
	slices.Sort(list.targets)
	if found := (*damage)(nil); errors.As(ends, &found) {
		fail(&damage{found.offset + w.at, found.what})
	} else if errors.Is(ends, errElement) {
		fail(&damage{w.at, ends.Error()})
	} else if ends != nil {
		return nil, nil, ends
	}
	list.source, list.sum = &packedList{entry, place, from, w.at}, sum.Sum(nil)
	if broken != nil { // the frame is whole all the same, so that what is wrong is said of the list
		list.fault = broken
		frame = append(frame, "</"+place.container.prefix+place.container.name+">"...)
		if place.container.start > place.root.start {
			frame = append(frame, "</"+place.root.prefix+place.root.name+">"...)
		}
		return list, frame, nil
	}
	for !w.ended && err == nil {
		err = w.more()
	}
	if errors.Is(err, errElement) {
		err = errHeld
	}
	return list, append(frame, w.data...), err
}

// isPlain reports whether a part and its list, if that is not held, are plain.
func (l *listing) isPlain(part []byte) bool { return (l == nil || l.plain) && isPlain(view(part)) }

// within walks through a piece of a list.
func within(piece []byte) tags {
	return tags{data: view(piece), open: []string{"the list"}, within: 1, seen: true}
}

// inside gives what is directly inside an element of a part piece by piece: the list that is not held, or else what the part holds.
func (l *listing) inside(part []byte, element element, take func(piece []byte, at int) error) error {
	switch {
	case l != nil:
		return l.each(take)
	case element.closed:
		return nil
	}
	return take(part[element.token.end:element.inner], element.token.end)
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
