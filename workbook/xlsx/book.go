// Package xlsx handles a workbook as the package of bytes it is: it refuses files that are not what they seem, scans
// sheets without touching them, adds cells to a sheet's XML so that nothing else of it changes, and saves the same
// input as the same bytes, whole or not at all.
package xlsx

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"slices"

	"github.com/xuri/excelize/v2"

	"railbook/workbook/ahead"
)

// Book is an opened workbook, or a text file (CSV, TSV) presented as one of a single sheet.
type Book struct {
	Path   string
	SHA256 string // of the file's bytes, hexadecimal
	Text   bool   // a CSV or TSV file, or a workbook we made of one: it has no sheets to add columns to
	// DecimalComma is true for a text file that writes 0,45 for 0.45.
	DecimalComma bool

	contents    *contents // the package's parts; nil for a text file
	sheets      []sheetPart
	styles      []format
	strings     *sharedStrings
	date1904    bool
	table       *textTable // of a text file
	warnings    []string
	notes       []Note
	base        *contents         // the package that is added to: the contents, or those made of a text file
	standIn     *standIn          // in which the library makes our sheets; nil until something is added
	file        *excelize.File    // the stand-in's
	store       store             // of what is packed
	saved       Pieces            // what Content gave, until something is added
	front       string            // the sheet of ours that is in front; empty: whichever was
	leading     []string          // the sheets of ours that stand before the user's
	printed     map[string]int    // the last column printed of sheets of the user's that have no print area
	limited     map[string]bool   // those that got one
	ends        endsOfSheet       // of the sheet that was asked about last
	added       map[string]string // the parts of our own sheets, by their names
	rows        map[string]*Rows  // of our own sheets, by their parts
	additions   []*addition       // to sheets of the user's, made when the workbook is saved
	broken      error             // why nothing can be
	formats     map[string]int    // the cell styles made for appended columns, by number format
	flag        *int              // the style of flagged cells
	flagText    string            // its XML, where the workbook does not have it yet
	moved       []mark            // our defined names as they are set since
	recalculate bool              // cells were corrected: formulas of the user's may depend on them
	comparing   bool              // what is made is not to be written, only compared with what was read
}

// Sheet is one worksheet of a Book.
type Sheet struct {
	Name   string
	Hidden bool
}

// OpenOptions are what a person may say about a file before it is opened.
type OpenOptions struct {
	Password string
	// Unread tells by their marks which sheets of ours are not read, because the workbook is only opened to be made again and
	// compared (OnlyCompare, SameAsRead); nil where all are. They are blank until then.
	Unread func(mark string) bool
}

// Open reads and examines a file. Every kind of file that cannot be used gets a sentence of its own that says what it
// is and what to do.
func Open(path string, options OpenOptions) (*Book, error) {
	data, file, err := readInput(path)
	if err != nil {
		return nil, err
	}
	var book *Book
	if file != nil {
		book, err = openPackage(path, file, options)
	} else {
		book, err = OpenBytes(path, data, options)
	}
	if err != nil {
		return nil, err
	}
	book.warnings = append(book.warnings, lockWarnings(path)...)
	return book, nil
}

// openPackage examines a workbook that stays in its file, which is open as long as the book is there.
func openPackage(path string, file *os.File, options OpenOptions) (*Book, error) {
	size, err := file.Seek(0, io.SeekEnd)
	if err != nil {
		return nil, cannotRead(path, err)
	}
	sum, failed := sha256.New(), error(nil)
	digest := ahead.Value(func() string { // while the parts are unpacked
		_, failed = io.Copy(sum, io.NewSectionReader(file, 0, size))
		return hex.EncodeToString(sum.Sum(nil))
	})
	book := &Book{Path: path}
	err = book.readPackage(filepath.Base(path), file, size, options.Unread)
	if book.SHA256 = digest(); err == nil && failed != nil {
		err = cannotRead(path, failed)
	}
	if err != nil {
		_ = file.Close()
		return nil, err
	}
	return book, nil
}

// Again opens the bytes once more that the workbook was read from, as it was before anything was done to it. A text file, in which
// nothing is ever changed, is given as it is.
func (b *Book) Again() (*Book, error) {
	if b.contents == nil {
		return b, nil
	}
	book := &Book{Path: b.Path, SHA256: b.SHA256, warnings: slices.Clone(b.warnings)}
	return book, book.readPackage(filepath.Base(b.Path), b.contents.file, b.contents.size, nil)
}

// OpenBytes examines a file that has been read already. The path is only a name: of the kind of file, and in sentences.
func OpenBytes(path string, data []byte, options OpenOptions) (*Book, error) {
	sum := sha256.Sum256(data)
	book := &Book{Path: path, SHA256: hex.EncodeToString(sum[:])}
	name := filepath.Base(path)
	what, err := recognise(name, data)
	if err != nil {
		return nil, err
	}
	if what == encryptedFile {
		if data, err = decrypt(name, data, options.Password); err != nil {
			return nil, err
		}
		book.warnings = append(book.warnings, fmt.Sprintf("%s is protected by a password; what is written from it is not.", name))
		what = zipFile
	}
	if what == textFile {
		return book, book.readText(data)
	}
	return book, book.readPackage(name, bytes.NewReader(data), int64(len(data)), options.Unread)
}

// Warnings are what a person should know of the file although it can be used, in sentences.
func (b *Book) Warnings() []string { return b.warnings }

// Note says what is missing, damaged or in another form in a workbook of which every cell can be read.
type Note struct {
	Sheet string // empty where it is about the workbook
	Code  string // the same for every note of a kind
	Words string // a sentence that begins with a small letter
}

// The codes of notes.
const (
	PartMissing = "part missing"
	PartDamaged = "part damaged"
	StrictForm  = "strict form"
)

// Notes say what no carcass depends on and what is written from the workbook may do without: parts that are missing or damaged,
// and the Strict form. They are nil for a workbook that has all of its parts in the usual form.
func (b *Book) Notes() []Note { return b.notes }

func (b *Book) note(sheet, code, format string, values ...any) {
	b.notes = append(b.notes, Note{Sheet: sheet, Code: code, Words: fmt.Sprintf(format, values...)})
}

// Sheets gives the worksheets in the order of their tabs (chart sheets and the like are left out).
func (b *Book) Sheets() []Sheet {
	var list []Sheet
	for _, sheet := range b.sheets {
		list = append(list, Sheet{Name: sheet.name, Hidden: sheet.hidden})
	}
	return list
}
