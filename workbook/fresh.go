package workbook

import (
	"bytes"
	"errors"
	"fmt"
	"io/fs"
	"os"

	"railbook/workbook/parts"
)

// differs reports whether a file has to be written: false where the very same is there already. A different file in the
// way is an error unless it is to be overwritten.
func differs(path string, data []byte, force bool) (bool, error) {
	there, err := os.ReadFile(path)
	switch {
	case errors.Is(err, fs.ErrNotExist):
	case err != nil:
		return false, fmt.Errorf("%s is in the way and could not be read (%w): move it away, or name another file", path, err)
	case bytes.Equal(there, data):
		return false, nil
	case !force:
		return false, fmt.Errorf("%s exists already and is different; nothing was written. Move it away, name another file with -o, or overwrite it with --force", path)
	}
	return true, nil
}

// saveFresh writes a workbook with the extension that is wanted, unless the very same is there already.
func saveFresh(book *parts.Book, path, extension string, force bool) (written bool, err error) {
	if err := refuseExtension(path, extension); err != nil {
		return false, err
	}
	data, err := book.Bytes()
	if err != nil {
		return false, err
	}
	if written, err = differs(path, data, force); err != nil || !written {
		return false, err
	}
	return true, book.Save(path)
}

// refuseInputs refuses to write over anything that was read.
func refuseInputs(path string, inputs ...string) error {
	for _, input := range inputs {
		if input != "" && sameFile(input, path) {
			return fmt.Errorf("%s is one of the files being read, and those are never written to: name another file with -o", path)
		}
	}
	return nil
}
