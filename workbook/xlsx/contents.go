package xlsx

import (
	"archive/zip"
	"bytes"
	"encoding/xml"
	"errors"
	"fmt"
	"io"
	"maps"
	"path"
	"slices"
	"strings"
	"sync"
	"unicode/utf8"

	"github.com/sourcegraph/conc/iter"
)

// contents are the parts of a workbook's package by name.
type contents struct {
	file   io.ReaderAt // the input, packed
	size   int64       // of the input, in bytes
	lock   sync.Mutex  // while parts are unpacked
	parts  map[string][]byte
	lists  map[string]*listing   // of the parts that are held as their frames
	held   int64                 // bytes of the input that are held unpacked, lists aside
	listed int64                 // bytes of parts of the input whose lists are held
	packed map[string]packedPart // as they were in the input
	loose  map[string]bool       // what the input names and does not have: a relationship, by its part
	data   map[string]bool       // the parts of sheets of the user's in an input that is ours
	unread map[string]bool       // the parts of sheets of ours that are not read
	main   string                // the workbook's own part, once it is found
	styles string                // the part of the styles, once prepared
}

// packedPart is a part as the input holds it, so that an unchanged one need not be packed again.
type packedPart struct {
	plain []byte
	list  *listing // nil where all of it is held
	entry *zip.File
}

// blankSheet stands for a sheet that is not read.
const blankSheet = `<worksheet xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main"><sheetData/></worksheet>`

const (
	contentTypesPart = "[Content_Types].xml"
	rootRelations    = "_rels/.rels"
)

// unpack reads every part, which checks every checksum, but for the sheets of ours whose marks are not to be read.
func unpack(name string, file io.ReaderAt, size int64, unread func(mark string) bool) (*contents, error) {
	archive, err := zip.NewReader(file, size)
	if err != nil {
		return nil, fmt.Errorf("%s is damaged: its end is missing or was changed. Ask for the file again, or copy it again from where it came", name)
	}
	archive.RegisterDecompressor(zip.Deflate, newInflater)
	if err := withinLimits(name, archive.File, size); err != nil {
		return nil, err
	}
	all := &contents{file: file, size: size, parts: map[string][]byte{}, lists: map[string]*listing{}, packed: map[string]packedPart{}, loose: map[string]bool{}}
	for _, entry := range archive.File {
		if strings.HasSuffix(entry.Name, "/") {
			continue
		}
		partName := canonicalPart(entry.Name)
		if entry.Flags&1 != 0 {
			return nil, fmt.Errorf("%s is a ZIP file with a password, not an Excel workbook: unpack it first", name)
		}
		if _, twice := all.parts[partName]; twice {
			return nil, errDamaged(name, partName, "it is there twice")
		}
		all.parts[partName] = nil
		all.packed[partName] = packedPart{entry: entry}
	}
	if err := all.hangsTogether(name, unread); err != nil {
		return nil, err
	}
	return all, all.unpackParts(name)
}

// unpackParts reads every part, on all processors. Of several that are damaged it tells of the first by name, and reads none behind it.
func (c *contents) unpackParts(name string) (err error) {
	names := slices.Sorted(maps.Keys(c.packed))
	var lock sync.Mutex
	failed := len(names)
	iter.ForEachIdx(names, func(number int, part *string) {
		lock.Lock()
		passed := number > failed
		lock.Unlock()
		if passed {
			return
		}
		fault := c.unpackPart(name, *part)
		lock.Lock()
		defer lock.Unlock()
		if fault != nil && number < failed {
			failed, err = number, fault
		}
	})
	return err
}

// unpackPart reads a part.
func (c *contents) unpackPart(name, part string) error {
	c.lock.Lock()
	entry := c.packed[part].entry
	if c.unread[part] {
		c.parts[part] = []byte(blankSheet)
		c.packed[part] = packedPart{plain: c.parts[part], entry: entry}
		c.lock.Unlock()
		return nil
	}
	c.lock.Unlock()
	plain, list, err := c.readPart(part, entry)
	if errors.Is(err, errLonger) {
		return errTooLarge(name)
	}
	if errors.Is(err, errHeld) {
		return errTooMuchHeld(name)
	}
	if err != nil {
		return errDamaged(name, part, "its checksum or packing is wrong")
	}
	if list != nil && !c.holds(len(plain)) {
		return errTooMuchHeld(name)
	}
	c.lock.Lock()
	defer c.lock.Unlock()
	c.parts[part] = plain
	c.packed[part] = packedPart{plain, list, entry}
	if list != nil {
		c.lists[part] = list
	}
	return nil
}

// hangsTogether refuses what the names of the parts, and the small parts that say how they hang together, tell to be no workbook or
// a damaged one: before any sheet is in memory.
func (c *contents) hangsTogether(name string, unread func(mark string) bool) error {
	early := &Book{contents: &contents{parts: maps.Clone(c.parts), packed: maps.Clone(c.packed)}}
	load := func(part string) error {
		entry := early.contents.packed[part].entry
		if entry.UncompressedSize64 > mostOfRelations {
			return errDamaged(name, part, fmt.Sprintf("it takes %d MB, which is more than it can have to say", entry.UncompressedSize64>>20))
		}
		return early.contents.unpackPart(name, part)
	}
	for _, part := range slices.Sorted(maps.Keys(c.parts)) {
		if _, relations := ownerOf(part); relations || part == contentTypesPart || part == "mimetype" {
			if err := load(part); err != nil {
				return err
			}
		}
	}
	main, err := early.contents.mainPart(name)
	if err != nil {
		return err
	}
	c.main = main
	if _, err := early.checkTargets(name, main); err != nil {
		return err
	}
	related, err := early.contents.relations(main)
	if err != nil {
		return errDamaged(name, relationsPart(main), err.Error())
	}
	for _, relation := range related {
		if part, found := early.contents.packed[relation.Target]; found && relation.kind() == "styles" && part.entry.UncompressedSize64 > mostOfStyles {
			return errDamaged(name, relation.Target, fmt.Sprintf("it takes %d MB, which is more than it can have to say", part.entry.UncompressedSize64>>20))
		}
	}
	if early.contents.packed[main].entry.UncompressedSize64 > mostOfRelations {
		return nil // it is read in its turn
	}
	if err := load(main); err != nil {
		return err
	}
	if err := early.listSheets(name, main); err != nil {
		return err
	}
	if bytes.Contains(early.contents.parts[main], []byte(ownMark)) {
		early.Path, c.data, c.unread = name, make(map[string]bool), make(map[string]bool)
		ours := make(map[string]string) // their marks
		for mark, sheet := range early.Ours() {
			ours[sheet] = mark
		}
		for _, sheet := range early.sheets {
			mark, own := ours[sheet.name]
			c.data[sheet.part] = !own
			c.unread[sheet.part] = own && unread != nil && strings.HasPrefix(mark, sheetMark) && unread(mark)
		}
	}
	return nil
}

func (c *contents) readPart(part string, entry *zip.File) (plain []byte, list *listing, err error) {
	reader, err := entry.Open()
	if err != nil {
		return nil, nil, err
	}
	defer reader.Close()
	if passedThrough(part, entry) {
		count, err := io.Copy(io.Discard, io.LimitReader(reader, int64(entry.UncompressedSize64)+1))
		if err == nil && uint64(count) > entry.UncompressedSize64 {
			err = errLonger
		}
		return []byte(passedMark), nil, err
	}
	counted := &counting{reader: io.LimitReader(reader, int64(entry.UncompressedSize64)+1)}
	if isMarkup(part) && entry.UncompressedSize64 > uint64(listedSize) {
		plain, list, err = c.readListed(entry, counted)
	} else {
		plain, err = c.readHeld(entry, nil, counted)
	}
	if err == nil && counted.count > entry.UncompressedSize64 {
		err = errLonger
	}
	return plain, list, err
}

// holds reports whether there is room to hold so many bytes, and takes the room.
func (c *contents) holds(size int) bool {
	c.lock.Lock()
	defer c.lock.Unlock()
	if c.held+int64(size) > mostHeld {
		return false
	}
	c.held += int64(size)
	return true
}

// readHeld reads all of a part whose beginning may have been read.
func (c *contents) readHeld(entry *zip.File, begun []byte, rest io.Reader) ([]byte, error) {
	if entry.UncompressedSize64 > uint64(mostHeld) || !c.holds(int(entry.UncompressedSize64)) {
		return nil, errHeld
	}
	var plain bytes.Buffer
	// A declared size may be a lie: no more memory is taken at once than the packed bytes can fill.
	plain.Grow(int(min(entry.UncompressedSize64, max(suspectSize, entry.CompressedSize64*suspectRatio))) + bytes.MinRead)
	plain.Write(begun)
	_, err := io.Copy(&plain, rest)
	return plain.Bytes(), err
}

// counting counts what is read.
type counting struct {
	reader io.Reader
	count  uint64
}

func (c *counting) Read(data []byte) (int, error) {
	count, err := c.reader.Read(data)
	c.count += uint64(count)
	return count, err
}

// canonicalPart gives a part's name as every program understands it.
func canonicalPart(name string) string {
	name = strings.TrimPrefix(strings.ReplaceAll(name, `\`, "/"), "/")
	switch strings.ToLower(name) {
	case "[content_types].xml":
		return contentTypesPart
	case "xl/sharedstrings.xml":
		return "xl/sharedStrings.xml"
	}
	return name
}

func errDamaged(name, part, what string) error {
	return fmt.Errorf("%s is damaged in its part %s: %s. Ask for the file again, or open it in Excel or LibreOffice, check that every row is there, and save it again", name, part, what)
}

// relation is one relationship of a part to another.
type relation struct {
	ID         string `xml:"Id,attr"`
	Type       string `xml:"Type,attr"`
	Target     string `xml:"Target,attr"`
	TargetMode string `xml:"TargetMode,attr"`
}

// kind is the last word of the relationship's type: "worksheet".
func (r relation) kind() string { return path.Base(r.Type) }

// relations gives the relationships of a part ("" for the package's own), their targets as part names.
func (c *contents) relations(part string) ([]relation, error) {
	data, found := c.parts[relationsPart(part)]
	if !found {
		return nil, nil
	}
	var list struct {
		Relations []relation `xml:"Relationship"`
	}
	if err := xml.Unmarshal(data, &list); err != nil {
		return nil, &damage{0, "it is no longer readable"}
	}
	for i, relation := range list.Relations {
		if relation.TargetMode != "External" {
			list.Relations[i].Target = c.resolve(part, relation.Target)
		}
	}
	return list.Relations, nil
}

// relationsPart gives the name of the part that holds another's relationships.
func relationsPart(part string) string {
	folder, base := path.Split(part)
	return folder + "_rels/" + base + ".rels"
}

// resolve gives the name of the part a target points to. Some writers get letters' case wrong.
func (c *contents) resolve(from, target string) string {
	target, _, _ = strings.Cut(strings.ReplaceAll(target, `\`, "/"), "#")
	if !strings.HasPrefix(target, "/") {
		target = path.Join("/", path.Dir("/"+from), target)
	}
	target = canonicalPart(path.Clean(target))
	if _, found := c.parts[target]; found {
		return target
	}
	for name := range c.parts {
		if strings.EqualFold(name, target) {
			return name
		}
	}
	return target
}

// readable reports whether a part is UTF-8, which all that follows takes for granted.
func readable(data []byte) error {
	if bytes.HasPrefix(data, []byte("\xFF\xFE")) || bytes.HasPrefix(data, []byte("\xFE\xFF")) {
		return &damage{0, "it is written in UTF-16, which is rare"}
	}
	if !utf8.Valid(data) {
		return &damage{0, "its letters are not readable"}
	}
	return nil
}
