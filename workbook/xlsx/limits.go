package xlsx

import (
	"archive/zip"
	"bytes"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
)

const (
	// LargestFile is the most that is read from disk, and the most that the parts of a workbook which are looked into may hold
	// once unpacked, in bytes.
	LargestFile = 1 << 30
	// largestText is the most that a text file may hold: a full sheet of carcasses takes less.
	largestText = 128 << 20
	// A part, or all parts together, of more than suspectSize bytes that is packed more than suspectRatio : 1 holds nothing
	// that anybody typed: large sheets of ours are packed 6 to 11 : 1, no sheet of carcasses was seen over 40 : 1, and files made to
	// fill a computer's memory are over 200 : 1.
	suspectSize  = 64 << 20
	suspectRatio = 50
	// A sheet of more than fewCells cells that hold something must have a byte in the packed file for each: those of ours have
	// three or more.
	fewCells = 1 << 20
	// mostOfRelations is the most that a part may hold, in bytes, which says how others hang together: a sheet can have 65,530 links
	// (Excel specifications and limits, Microsoft), which take a third of it.
	mostOfRelations = 32 << 20
	// passedSize is the size in bytes from which a part that nobody looks into is read once, for its checksum, and not kept.
	passedSize = 1 << 20
	passedMark = "passed through"
)

// passedThrough reports whether a part goes into the results as it is packed.
func passedThrough(part string, entry *zip.File) bool {
	return entry.UncompressedSize64 > passedSize && !isMarkup(part) && part != "mimetype" && filepath.Ext(part) != ".vml"
}

// withinLimits refuses, before anything is unpacked, what would take more memory than any workbook of carcasses. The sizes
// are the declared ones; reading a part holds it to its own.
func withinLimits(name string, entries []*zip.File, size int64) error {
	var packed, unpacked, held uint64
	for _, entry := range entries {
		packed += min(entry.CompressedSize64, 1<<40)
		unpacked += min(entry.UncompressedSize64, 1<<40)
		if part := canonicalPart(entry.Name); !passedThrough(part, entry) {
			held += min(entry.UncompressedSize64, 1<<40)
		}
		if suspect(entry.UncompressedSize64, entry.CompressedSize64) {
			return errTooTight(name, canonicalPart(entry.Name), entry.UncompressedSize64)
		}
	}
	switch {
	case packed > uint64(size):
		return fmt.Errorf("%s is damaged: its parts lie over each other. Ask for the file again, or copy it again from where it came", name)
	case suspect(unpacked, packed):
		return errTooTight(name, "all parts together", unpacked)
	case held > LargestFile:
		return errTooLarge(name)
	}
	return nil
}

func suspect(unpacked, packed uint64) bool {
	return unpacked > suspectSize && unpacked/suspectRatio > packed
}

// mostCells is how many cells that hold something are read of a sheet that is packed in so many bytes.
func mostCells(packed uint64) int { return int(max(fewCells, min(packed, 1<<40))) }

// errTooMany is why no more cells of a sheet are read.
var errTooMany = errors.New("more cells than bytes")

func errTooTight(name, part string, size uint64) error {
	return fmt.Errorf("%s is too large once unpacked (%s: %d MB of next to nothing): copy the carcass sheets to a workbook of their own", name, part, size>>20)
}

func errTooLarge(name string) error {
	return fmt.Errorf("%s is too large once unpacked (over %d MB): copy the carcass sheets to a workbook of their own", name, LargestFile>>20)
}

func errEnormous(name string, size int64) error {
	return fmt.Errorf("%s is enormous (%d MB): copy the carcass sheets to a workbook of their own", name, size>>20)
}

// refuseLarge looks at the beginning and the directory of a large file before all of it is read into memory.
func refuseLarge(path string, size int64) error {
	name := filepath.Base(path)
	file, err := os.Open(path)
	if err != nil {
		return nil // reading it says why
	}
	defer file.Close()
	head := make([]byte, 1<<16)
	if _, err := io.ReadFull(file, head); err != nil {
		return nil
	}
	if bytes.HasPrefix(head, []byte("\xD0\xCF\x11\xE0")) {
		return nil // only the whole of it tells what it is
	}
	kind, err := recognise(name, head)
	switch {
	case err != nil:
		return err
	case kind == textFile && size > largestText:
		return errEnormous(name, size)
	case kind == zipFile:
		if archive, err := zip.NewReader(file, size); err == nil {
			return withinLimits(name, archive.File, size)
		}
	}
	return nil
}

// readBack makes sure that what is about to be written is within the limits of what is read.
func (b *Book) readBack(entries []*zip.File, size int64) error {
	err := withinLimits("it", entries, size)
	if size > LargestFile {
		err = errors.New("its file is too large")
	}
	if err != nil {
		return fmt.Errorf("the results of %s could not be read again, and nothing was written (%w). Grade its sheets as workbooks of their own", filepath.Base(b.Path), err)
	}
	return nil
}
