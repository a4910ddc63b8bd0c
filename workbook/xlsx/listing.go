package xlsx

import (
	"archive/zip"
	"bytes"
	"errors"
	"io"
	"runtime"
	"slices"
	"strings"
	"sync"

	"github.com/sourcegraph/conc/pool"
)

// Nearly all of a large workbook is a few long lists of like elements: the rows of its sheets, the texts that cells share, the records
// of pivot tables. Such a list is not held. Its part is held as its frame, which is the part with the list emptied, and the list is
// unpacked again, piece by piece, for whoever goes through it. Of results of ours, whose data are gone through several times,
// those are held all the same.

// listing is the list of a part of which the frame is held.
type listing struct {
	source  listSource
	spaces  []declaredPrefix // that are declared where the list stands
	plain   bool             // every piece is plain, as isPlain says
	highest int              // highestShared of every piece; notCounted after a change
	strict  bool             // a piece has a name of the Strict variety
	targets []string         // the relationships that it names
	fault   error            // why it is not well made
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
	made.source, made.highest = &changedList{l.source, edits}, notCounted
	if held, is := l.source.(*heldList); is {
		made.source = held.changed(edits)
		l.letGo()
	}
	return &made
}

// letGo holds no more than the frame: for whoever still asks for it, the list is unpacked again.
func (l *listing) letGo() {
	if l == nil {
		return
	}
	if held, is := l.source.(*heldList); is {
		l.source = held.packed
	}
}

// notCounted stands for the highest number of a shared formula where a change may have taken it away, or will. It is less than any.
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
	mostListed = 192 << 20 // the size in bytes of the sheets of the user's together whose rows are held, where the workbook is ours: 100,000 carcasses'
)

// listed are the roots of parts with long lists: the element that the list is in, and what the list is of.
var listed = map[string]struct{ container, item string }{
	"worksheet":         {"sheetData", "row"},
	"sst":               {"sst", "si"},
	"pivotCacheRecords": {"pivotCacheRecords", "r"},
}

// heldList is a list that is held.
type heldList struct {
	pieces [][]byte
	packed listSource // which gives the same
}

func (l *heldList) each(take func(piece []byte, at int) error) error {
	at := 0
	for _, piece := range l.pieces {
		if err := take(piece, at); err != nil {
			return err
		}
		at += len(piece)
	}
	return nil
}

// changed gives the list with edits made, which are in order.
func (l *heldList) changed(edits []edit) *heldList {
	made := &heldList{packed: &changedList{l.packed, edits}}
	_ = (&changedList{l, edits}).each(func(piece []byte, _ int) error {
		made.pieces = append(made.pieces, piece)
		return nil
	})
	return made
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
	w, place := &window{reader: reader, data: roomForPiece()}, listPlace{none: true}
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
	list = &listing{spaces: declarations(place.root), plain: true, highest: notCounted} // until our columns are out, where the workbook is ours
	if place.container.start > place.root.start {
		list.spaces = append(list.spaces, declarations(place.container)...)
	}
	from := place.container.end
	w.drop(from)
	var (
		work   = pool.New().WithErrors().WithMaxGoroutines(runtime.GOMAXPROCS(0))
		lock   sync.Mutex
		broken *damage // the first in the part
	)
	fail := func(found *damage) {
		if broken == nil || found.offset < broken.offset {
			broken = found
		}
	}
	var pieces [][]byte
	holds := c.holdsList(entry)
	ends := place.each(w, func(piece []byte, at int) error {
		if holds {
			pieces = append(pieces, piece)
		}
		work.Go(func() error {
			if !holds {
				defer usedPiece(piece)
			}
			reader := xmlReader{data: view(piece), declared: slices.Clone(list.spaces), piece: true}
			err := reader.read()
			text := view(piece)
			highest, strict := notCounted, strings.Contains(text, strictStart)
			if c.data == nil {
				highest = highestShared(text)
			}
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
	list.source = &packedList{entry, place, from, w.at}
	if holds {
		list.source = &heldList{pieces, list.source}
	}
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

// holdsList reports whether the list of a part is to be held and there is room for it, and takes the room.
func (c *contents) holdsList(entry *zip.File) bool {
	c.lock.Lock()
	defer c.lock.Unlock()
	size := entry.UncompressedSize64
	if !c.data[canonicalPart(entry.Name)] || size > uint64(mostListed) || c.listed+int64(size) > int64(mostListed) {
		return false
	}
	c.listed += int64(size)
	return true
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
