package workbook

import (
	"bytes"
	"errors"
	"fmt"
	"io/fs"
	"os"
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
