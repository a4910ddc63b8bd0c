package xlsx

import (
	"archive/zip"
	"cmp"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"maps"
	"path/filepath"
	"slices"
	"strings"
)

// Bytes gives the workbook as it is to be written, in one piece.
func (b *Book) Bytes() ([]byte, error) {
	content, err := b.Content()
	if err != nil {
		return nil, err
	}
	return content.Bytes()
}

// Content gives the workbook as it is to be written: the same content is the same bytes. Asked again with nothing added since, it
// gives the same without the work.
func (b *Book) Content() (Pieces, error) {
	if b.saved != nil {
		return b.saved, nil
	}
	if err := b.prepare(); err != nil {
		return nil, err
	}
	parts, err := b.finished()
	if err != nil {
		return nil, fmt.Errorf("the results of %s can't be put together: %w", filepath.Base(b.Path), err)
	}
	if err := b.checkMade(parts); err != nil {
		return nil, fmt.Errorf("the results of %s would be damaged in their %w. Nothing was written; please report it", filepath.Base(b.Path), err)
	}
	packed, entries, err := b.packAll(parts)
	if err != nil {
		return nil, fmt.Errorf("the results of %s can't be packed: %w", filepath.Base(b.Path), err)
	}
	if err := b.readBack(entries, packed.Size()); err != nil {
		return nil, err
	}
	b.saved = packed
	return packed, nil
}

// collector takes the parts that the library would write into a ZIP file.
type collector struct{ parts map[string]*collected }

type collected struct{ data []byte }

// Write keeps what comes in one piece without copying it.
func (c *collected) Write(data []byte) (int, error) {
	if c.data == nil {
		c.data = data[:len(data):len(data)]
	} else {
		c.data = append(c.data, data...)
	}
	return len(data), nil
}

func (c *collector) Create(name string) (io.Writer, error) {
	part := &collected{}
	c.parts[name] = part
	return part, nil
}

func (c *collector) AddFS(fs.FS) error { return errors.ErrUnsupported }

func (c *collector) Close() error { return nil }

// finished gives every part as it will be written: the user's own bytes, with what is added put into them.
func (b *Book) finished() (map[string][]byte, error) {
	made := &contents{parts: maps.Clone(b.base.parts), main: b.base.main, styles: b.base.styles}
	if err := b.addPrintAreas(made); err != nil {
		return nil, err
	}
	if err := b.addToSheets(made); err != nil {
		return nil, err
	}
	if b.recalculate {
		if err := made.recalculateOnLoad(); err != nil {
			return nil, err
		}
	}
	if b.flagText != "" {
		if err := made.insert(made.styles, "dxfs", stylesOrder, []string{b.flagText}); err != nil {
			return nil, err
		}
	}
	if b.standIn != nil {
		if err := made.addStandIn(b.standIn); err != nil {
			return nil, err
		}
	}
	if b.front != "" {
		b.rememberFront()
		if err := b.bringToFront(made); err != nil {
			return nil, err
		}
	}
	if err := made.setMarks(b.moved); err != nil {
		return nil, err
	}
	if err := b.leadSheets(made); err != nil {
		return nil, err
	}
	return made.parts, made.sortTypes()
}

// sortTypes puts the entries of [Content_Types].xml in order, because the library writes those of a workbook of its own as
// a map gives them, and leaves out those of parts that are not there, which some programs go looking for.
func (c *contents) sortTypes() error {
	data := c.parts[contentTypesPart]
	root, list, err := children(data, "")
	if err != nil {
		return err
	}
	var entries []string
	for _, element := range list {
		if part, given := element.attribute("PartName"); !given || c.taken(strings.TrimPrefix(part, "/")) {
			entries = append(entries, string(data[element.start:element.until]))
		}
	}
	slices.Sort(entries)
	c.parts[contentTypesPart] = apply(data, []edit{{root.token.end, root.inner, strings.Join(slices.Compact(entries), "")}})
	return nil
}

// recalculateOnLoad asks programs to calculate the user's own formulas anew.
func (c *contents) recalculateOnLoad() error {
	data := c.parts[c.main]
	_, list, err := children(data, "")
	if err != nil {
		return err
	}
	for _, element := range list {
		if element.name == "calcPr" {
			tag := withAttribute(string(data[element.start:element.token.end]), "fullCalcOnLoad", "1")
			c.parts[c.main] = apply(data, []edit{{element.start, element.token.end, tag}})
			return nil
		}
	}
	return c.insertElement(c.main, "calcPr", workbookOrder, `<calcPr fullCalcOnLoad="1"/>`)
}

// firstParts come first in a package, for programs that tell a file's kind by its first bytes.
var firstParts = []string{contentTypesPart, rootRelations, "xl/workbook.xml"}

func rank(part string) int {
	if at := slices.Index(firstParts, part); at >= 0 {
		return at
	}
	return len(firstParts)
}

// packAll makes the ZIP file: parts in order, no times, unchanged parts as the input packed them.
func (b *Book) packAll(parts map[string][]byte) (Pieces, []*zip.File, error) {
	var names []string
	var entries []*zip.File
	for name := range parts {
		names = append(names, name)
	}
	slices.SortFunc(names, func(x, y string) int {
		return cmp.Or(cmp.Compare(rank(x), rank(y)), strings.Compare(x, y))
	})
	all := &gathered{}
	archive := zip.NewWriter(all)
	for _, name := range names {
		packed, err := b.packPart(name, parts[name])
		if err != nil {
			return nil, nil, err
		}
		header := zip.FileHeader{
			Name: name, Method: packed.method, CRC32: packed.sum,
			CompressedSize64: uint64(packed.length()), UncompressedSize64: uint64(packed.size),
		}
		entries = append(entries, &zip.File{FileHeader: header})
		entry, err := archive.CreateRaw(&header)
		if err != nil {
			return nil, nil, err
		}
		for _, piece := range packed.pieces {
			if piece.from != nil {
				err = all.pass(piece, archive.Flush, entry)
			} else {
				_, err = entry.Write(piece.held)
			}
			if err != nil {
				return nil, nil, err
			}
		}
	}
	err := archive.Close()
	return all.pieces, entries, err
}

// packPart compresses a part, or takes it as it was packed in the input where it is still the same.
func (b *Book) packPart(name string, plain []byte) (packedBytes, error) {
	if rows, ours := b.rows[name]; ours {
		return rows.within(name, plain, &b.store)
	}
	held := b.base.lists[name]
	if b.contents != nil {
		if was := b.contents.packed[name]; was.is(plain) && was.list == held {
			if offset, err := was.entry.DataOffset(); err == nil {
				return packedBytes{
					was.entry.Method, was.entry.CRC32, int(was.entry.UncompressedSize64),
					packedIn(b.contents.file, offset, int64(was.entry.CompressedSize64)),
				}, nil
			}
		}
	}
	if held != nil {
		return b.packListed(name, plain, held)
	}
	return packWhole(plain, &b.store)
}

// packListed compresses a part of which the list was changed, or the frame.
func (b *Book) packListed(name string, frame []byte, held *listing) (whole packedBytes, err error) {
	rows := &Rows{packing: packing{store: &b.store, spaces: held.spaces}}
	err = held.each(func(piece []byte, _ int) error {
		rows.Add(append(NewPiece(), piece...))
		return nil
	})
	if err != nil {
		return whole, err
	}
	return rows.within(name, frame, &b.store)
}
