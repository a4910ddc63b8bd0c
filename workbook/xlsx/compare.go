package xlsx

import (
	"bufio"
	"bytes"
	"errors"
	"io"

	"railbook/workbook/ahead"
)

// OnlyCompare makes whatever is added to the workbook from here on be compared with what was read (SameAsRead), without being packed:
// it is not to be written.
func (b *Book) OnlyCompare() { b.comparing = b.contents != nil }

// SameAsRead reports whether the workbook as it would be written has the very parts that it was read from, byte for byte, however they
// are packed. OnlyCompare comes before anything is added.
func (b *Book) SameAsRead() (bool, error) {
	if err := b.prepare(); err != nil || b.contents == nil {
		return false, err
	}
	parts, err := b.finished()
	if err != nil || len(parts) != len(b.contents.packed) {
		return false, err
	}
	for name, plain := range parts {
		if same, err := b.sameAs(name, plain); !same || err != nil {
			return false, err
		}
	}
	return true, nil
}

// sameAs reports whether a part is the one of its name that the workbook was read from.
func (b *Book) sameAs(name string, plain []byte) (bool, error) {
	was, there := b.contents.packed[name]
	if !there {
		return false, nil
	}
	rows, ours := b.rows[name]
	if !ours {
		return was.list == b.base.lists[name] && bytes.Equal(was.plain, plain), nil
	}
	if rows.packing.like == nil {
		return false, nil
	}
	head, tail, err := around(name, plain)
	return err == nil && rows.packing.like.end(head, tail), err
}

// comparison compares a part that is made with one of the input, which is unpacked meanwhile and never held.
type comparison struct {
	packed  io.ReadCloser
	read    *bufio.Reader
	head    []byte // what stands before the rows of the one that is read
	differs bool
	last    func() bool // waits until all that was added is compared
}

// mostCompared is how much is compared at a time, in bytes, and the most that may stand before rows that are compared.
const mostCompared = 1 << 16

// compareWith begins the comparison with a part of the input.
func (c *contents) compareWith(part string) *comparison {
	made := &comparison{differs: true, last: func() bool { return true }}
	was, there := c.packed[part]
	if !there {
		return made
	}
	var err error
	if made.packed, err = was.entry.Open(); err != nil {
		return made
	}
	made.read = bufio.NewReaderSize(made.packed, mostCompared)
	begun, _ := made.read.Peek(mostCompared) // the end of a short part is no fault
	place, err := findList(begun)
	if err != nil || place.none {
		made.close()
		return made
	}
	made.head, made.differs = bytes.Clone(begun[:place.container.end]), false
	made.move(place.container.end)
	return made
}

// add compares what comes next, beside whoever makes what follows it. It is a piece that is taken over.
func (c *comparison) add(made []byte) {
	c.last()
	c.last = ahead.Value(func() bool {
		defer usedPiece(made)
		c.compare(made)
		return true
	})
}

// compare compares what comes next.
func (c *comparison) compare(made []byte) {
	for len(made) > 0 && !c.differs {
		some := made[:min(len(made), mostCompared)]
		read, err := c.read.Peek(len(some))
		if err != nil || !bytes.Equal(read, some) {
			c.close()
			return
		}
		c.move(len(some))
		made = made[len(some):]
	}
}

func (c *comparison) move(count int) { _, _ = c.read.Discard(count) } // it was seen already

// close ends a comparison that found a difference.
func (c *comparison) close() {
	c.differs = true
	_ = c.packed.Close()
}

// end reports whether all that was added is all that was read, with what stands before and behind it.
func (c *comparison) end(head, tail []byte) bool {
	if c.last(); c.differs || !bytes.Equal(c.head, head) {
		return false
	}
	if c.compare(tail); c.differs {
		return false
	}
	_, err := c.read.Peek(1) // there the checksum is compared too
	c.close()
	return errors.Is(err, io.EOF)
}
