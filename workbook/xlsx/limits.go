package xlsx

import (
	"archive/zip"
	"bytes"
	"errors"
	"fmt"
	"io"
	"math"
	"os"
	"path/filepath"
)

const (
	// LargestFile is the most that is read from disk, and the most that the parts of a workbook which are looked into may hold
	// once unpacked, in bytes.
	LargestFile = 4 << 30
	// largestSealed is the most that a file may take which only the whole of it tells: one with a password, or an old one.
	largestSealed = 128 << 20
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
	// mostOfStyles is the most that the part of the styles may hold, in bytes: a workbook has at most 65,490 cell formats (Excel
	// specifications and limits, Microsoft), which take a half of it.
	mostOfStyles = 32 << 20
	// passedSize is the size in bytes from which a part that nobody looks into is read once, for its checksum, and not kept.
	passedSize = 1 << 20
	passedMark = "passed through"
)

// They are changed by tests alone.
var (
	// heldFile is the most that a workbook may take, in bytes, to be read into memory as it is packed. Of a larger one the parts are
	// read from the file when they are wanted.
	heldFile int64 = 2 << 20
	// largestElement is the most, in bytes, that is held to find where an element of a list ends: a row has 16,384 cells, whose texts
	// are shared as a rule.
	largestElement = 64 << 20
	// mostHeld is the most, in bytes, that all parts and frames may take which are held unpacked.
	mostHeld int64 = 256 << 20
	// mostTexts is the most, in bytes, that the texts take that cells share, or those that stand in the cells of a sheet.
	mostTexts = 256 << 20
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
		if entry.UncompressedSize64 > math.MaxInt {
			return errTooLarge(name)
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

var (
	errTooMany   = errors.New("more cells than bytes") // why no more cells of a sheet are read
	errMoreCells = errors.New("more cells follow")     // after as many as were wanted
	errTooLong   = errors.New("too much text")         // why no more texts are
	errHeld      = errors.New("too much to be held")   // why a part is not unpacked
	errLonger    = errors.New("longer than declared")
	errDifferent = errors.New("cut short") // what is read again is not what was there
)

func errTooTight(name, part string, size uint64) error {
	return fmt.Errorf("%s is too large once unpacked (%s: %d MB of next to nothing): copy the carcass sheets to a workbook of their own", name, part, size>>20)
}

func errTooLarge(name string) error {
	return fmt.Errorf("%s is too large once unpacked (over %d MB): copy the carcass sheets to a workbook of their own", name, LargestFile>>20)
}

func errTextsTooLong(name, part string) error {
	return fmt.Errorf("%s is too large: the texts in its part %s take over %d MB. Copy the carcass sheets to a workbook of their own", name, part, mostTexts>>20)
}

func errTooMuchHeld(name string) error {
	return fmt.Errorf("%s is too large once unpacked (over %d MB beside the rows of its sheets and their texts): copy the carcass sheets to a workbook of their own", name, mostHeld>>20)
}

func errEnormous(name string, size int64) error {
	return fmt.Errorf("%s is enormous (%d MB): copy the carcass sheets to a workbook of their own", name, size>>20)
}

// openLarge looks at the beginning and the directory of a large file before any more of it is in memory, and opens it if it is a
// workbook. It gives no file where only the whole of it tells what it is.
func openLarge(path string, size int64) (*os.File, error) {
	name := filepath.Base(path)
	file, err := os.Open(path)
	if err != nil {
		return nil, nil // reading it says why
	}
	opened := false
	defer func() {
		if !opened {
			_ = file.Close()
		}
	}()
	head := make([]byte, 1<<16)
	if _, err := io.ReadFull(file, head); err != nil {
		return nil, nil
	}
	if bytes.HasPrefix(head, []byte("\xD0\xCF\x11\xE0")) {
		if size > largestSealed {
			return nil, errEnormous(name, size)
		}
		return nil, nil // only the whole of it tells what it is
	}
	kind, err := recognise(name, head)
	switch {
	case err != nil:
		return nil, err
	case kind == textFile && size > largestText:
		return nil, errEnormous(name, size)
	case kind != zipFile:
		return nil, nil
	}
	if archive, err := zip.NewReader(file, size); err == nil {
		if err := withinLimits(name, archive.File, size); err != nil {
			return nil, err
		}
	}
	opened = true
	return file, nil
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
