package xlsx

import (
	"fmt"
	"io"
	"path/filepath"
	"slices"

	"github.com/xuri/excelize/v2"
)

// loadLibrary opens the stand-in in which the library makes our sheets, once.
func (b *Book) loadLibrary() error {
	if err := b.prepare(); err != nil || b.file != nil {
		return err
	}
	made, err := b.newStandIn()
	if err != nil {
		b.broken = b.errFixed(err)
	}
	b.standIn = made
	if made != nil {
		b.file = made.file
	}
	return b.broken
}

// prepare makes ready the package that is added to, once.
func (b *Book) prepare() error {
	b.saved = nil
	if b.base != nil || b.broken != nil {
		return b.broken
	}
	var err error
	if b.contents == nil {
		b.base, err = b.packageOfText()
	} else {
		b.base = b.contents
	}
	if err == nil {
		err = b.base.prepare(b.Path)
	}
	if err != nil {
		b.broken = b.errFixed(err)
	}
	return b.broken
}

// errFixed says that nothing can be added to the workbook.
func (b *Book) errFixed(err error) error {
	return fmt.Errorf("%s can't be added to (%w): open it in Excel or LibreOffice and save it again", filepath.Base(b.Path), err)
}

func (b *Book) isSheet(part string) bool {
	return slices.ContainsFunc(b.sheets, func(sheet sheetPart) bool { return sheet.part == part })
}

// partsOf gives every part that the library would write into a file.
func partsOf(file *excelize.File) (map[string][]byte, error) {
	taken := &collector{parts: map[string]*collected{}}
	file.SetZipWriter(func(io.Writer) excelize.ZipWriter { return taken })
	if _, err := file.WriteToBuffer(); err != nil {
		return nil, err
	}
	parts := map[string][]byte{}
	for name, part := range taken.parts {
		parts[name] = part.data
	}
	return parts, nil
}
