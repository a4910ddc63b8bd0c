package xlsx

import (
	"bytes"
	"crypto/sha256"
)

// OnlyCompare makes whatever is added to the workbook from here on be compared with what was read (SameAsRead), without being packed:
// it is not to be written.
func (b *Book) OnlyCompare() { b.comparing = true }

// SameAsRead reports whether the workbook as it would be written has the very parts that it was read with, byte for byte, however they
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
		was, there := b.contents.packed[name]
		if !there {
			return false, nil
		}
		if same, err := b.sameAs(was, name, plain); !same || err != nil {
			return false, err
		}
	}
	return true, nil
}

// sameAs reports whether a part is the one that was read.
func (b *Book) sameAs(was packedPart, name string, plain []byte) (bool, error) {
	rows, ours := b.rows[name]
	if !ours {
		return was.list == b.base.lists[name] && bytes.Equal(was.plain, plain), nil
	}
	head, tail, err := around(name, plain)
	if err != nil || rows.packing.sum == nil {
		return false, err
	}
	sum, read := rows.packing.sum.Sum(nil), was.plain
	frame, framed := bytes.CutPrefix(read, head)
	read, closed := bytes.CutSuffix(frame, tail)
	switch {
	case !framed || !closed:
		return false, nil
	case was.list != nil:
		return len(read) == 0 && bytes.Equal(sum, was.list.sum), nil
	}
	its := sha256.Sum256(read)
	return bytes.Equal(sum, its[:]), nil
}
