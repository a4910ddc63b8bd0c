package xlsx

import (
	"bufio"
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"runtime"
	"slices"
	"strings"
	"sync"
	"syscall"
)

// Door is the one way by which files are written. It knows every input of the command and never writes to one of them,
// by whatever path, link or spelling it is named; it replaces no other file unless told to; and it refuses links, devices
// and names by which no program would open the file. A file is there whole or not at all.
type Door struct {
	lock    sync.Mutex
	inputs  []string
	written []fs.FileInfo // by this door: two workbooks of one command never replace each other's results
}

// NewDoor makes the way out of a command that reads the inputs. Empty names are passed over.
func NewDoor(inputs ...string) *Door {
	door := &Door{}
	door.AddInputs(inputs...)
	return door
}

// AddInputs names further files that are read and so are never written to.
func (d *Door) AddInputs(paths ...string) {
	d.lock.Lock()
	defer d.lock.Unlock()
	for _, path := range paths {
		if path != "" && !slices.Contains(d.inputs, path) {
			d.inputs = append(d.inputs, path)
		}
	}
}

// Output is a file to be written.
type Output struct {
	Path       string
	Data       Pieces
	Extensions []string // the file's name ends in one of these, whatever the letters' case
	Force      bool     // a different file that is in the way is replaced
	MadeOf     []string // what it holds comes from these files: no more people may read it than may read each of them
}

// Check reports whether a file would be written: not where the very same is there already. The error says why it may
// not be written. Nothing is changed.
func (d *Door) Check(output Output) (fresh bool, err error) {
	d.AddInputs(output.MadeOf...)
	d.lock.Lock()
	defer d.lock.Unlock()
	there, same, err := d.look(output)
	return there == nil || !same, err
}

// Write writes a file unless the very same is there already.
func (d *Door) Write(output Output) (written bool, err error) {
	fresh, err := d.Check(output)
	if err != nil {
		return false, err
	}
	if !fresh {
		d.lock.Lock()
		defer d.lock.Unlock()
		d.remember(output.Path)
		return false, nil
	}
	temporary, err := writeTemporary(output)
	if err != nil {
		return false, err
	}
	defer temporary.remove()
	d.lock.Lock()
	defer d.lock.Unlock()
	there, same, err := d.look(output) // another program may have been here meanwhile
	if err != nil || there != nil && same {
		return false, err
	}
	if err := temporary.rename(output, there != nil); err != nil {
		return false, err
	}
	d.remember(output.Path)
	return true, nil
}

// remember keeps what this command has written, or found to be as it would write it, from being replaced by the same command.
func (d *Door) remember(path string) {
	if info, err := os.Lstat(path); err == nil {
		d.written = append(d.written, info)
	}
}

// look says what is at the place of an output, whether that is the very same, and whether it may be written at all.
func (d *Door) look(output Output) (there fs.FileInfo, same bool, err error) {
	path := output.Path
	if err := d.refuse(path, output.Extensions); err != nil {
		return nil, false, err
	}
	there, err = os.Lstat(path)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return nil, false, nil
	case err != nil:
		return nil, false, cannotWrite(path, err)
	}
	if err := refuseKind(path, there); err != nil {
		return nil, false, err
	}
	if same, err = holds(path, there, output.Data); err != nil {
		return nil, false, fmt.Errorf("%s is in the way and could not be read (%w): move it away, or name another file", path, cause(err))
	}
	ours := slices.ContainsFunc(d.written, func(info fs.FileInfo) bool { return os.SameFile(info, there) })
	switch {
	case same:
		return there, true, nil
	case ours:
		return nil, false, fmt.Errorf("%s was written a moment ago for another file of this command, and is left so: give each its own name, or do them one by one", path)
	case !output.Force:
		return nil, false, fmt.Errorf("%s exists already and is different; nothing was written. Move it away, name another file, or overwrite it with --force", path)
	}
	return there, false, nil
}

// refuse refuses a name that is an input's, or by which no program would open the file.
func (d *Door) refuse(path string, extensions []string) error {
	name := filepath.Base(path)
	if path == "" || os.IsPathSeparator(path[len(path)-1]) || name == "." || name == ".." {
		return fmt.Errorf("%q is a folder: name a file in it", path)
	}
	for _, input := range d.inputs {
		if SameFile(input, path) {
			return fmt.Errorf("%s is one of the files being read, and those are never written to: name another file", path)
		}
	}
	if !filepath.IsLocal(name) || runtime.GOOS == "windows" && strings.Contains(name, ":") {
		return fmt.Errorf("%s is no file but a device or a pipe: name a file", path)
	}
	if !slices.ContainsFunc(extensions, func(extension string) bool { return strings.EqualFold(filepath.Ext(name), extension) }) {
		stem := strings.TrimSuffix(path, filepath.Ext(path))
		return fmt.Errorf("programs would not open this file under the name %s, and nothing was written: name it %s", path, stem+strings.Join(extensions, " or "+stem))
	}
	return nil
}

// refuseKind refuses to replace what is no plain file.
func refuseKind(path string, there fs.FileInfo) error {
	switch {
	case there.IsDir():
		return fmt.Errorf("%s is a folder: name a file in it", path)
	case there.Mode()&fs.ModeSymlink != 0:
		return fmt.Errorf("%s is a link to another file: name that file itself, or move the link away", path)
	case !there.Mode().IsRegular():
		return fmt.Errorf("%s is no file but a device or a pipe: name a file", path)
	}
	return nil
}

// SameFile reports whether two names are of one file, whether or not it is there.
func SameFile(a, b string) bool {
	first, errFirst := os.Stat(a)
	second, errSecond := os.Stat(b)
	if errFirst == nil && errSecond == nil {
		return os.SameFile(first, second)
	}
	absoluteA, errFirst := filepath.Abs(a)
	absoluteB, errSecond := filepath.Abs(b)
	return errFirst == nil && errSecond == nil && absoluteA == absoluteB
}

var errDiffers = errors.New("it holds something else")

// holds reports whether a file holds exactly these bytes.
func holds(path string, info fs.FileInfo, data Pieces) (bool, error) {
	if info.Size() != data.Size() {
		return false, nil
	}
	file, err := os.Open(path)
	if err != nil {
		return false, err
	}
	defer file.Close()
	there := make([]byte, chunkSize)
	err = data.each(func(piece []byte) error {
		for some := range slices.Chunk(piece, len(there)) {
			if _, err := io.ReadFull(file, there[:len(some)]); err != nil && !errors.Is(err, io.ErrUnexpectedEOF) && !errors.Is(err, io.EOF) {
				return err
			}
			if !bytes.Equal(there[:len(some)], some) {
				return errDiffers
			}
		}
		return nil
	})
	if errors.Is(err, errDiffers) {
		return false, nil
	}
	return err == nil, err
}

// permissionsOf are those that a file made of the inputs may have: what each of them allows, and the owner's right to
// read and write. The system takes away what the umask forbids.
func permissionsOf(inputs []string) fs.FileMode {
	permissions := fs.FileMode(0o666)
	for _, input := range inputs {
		if info, err := os.Stat(input); input != "" && err == nil {
			permissions &= info.Mode().Perm()
		}
	}
	return permissions | 0o600
}

// Folder makes a folder for files made of the inputs, unless it is there.
func (d *Door) Folder(path string, madeOf ...string) error {
	permissions := permissionsOf(madeOf)
	err := os.MkdirAll(path, permissions|permissions&0o444>>2)
	if err != nil {
		return fmt.Errorf("the folder %s can't be made (%w): name another folder", path, cause(err))
	}
	return nil
}

// LogProgram is the field, and its value, by which an earlier log of ours is known.
const (
	LogProgram = "program"
	OurProgram = "railbook"
)

var logExtensions = []string{".jsonl", ".log", ".json", ".ndjson", ".txt"}

// Log opens a log to append to: a new file, or an earlier log of ours. Any other file is refused.
func (d *Door) Log(path string) (io.WriteCloser, error) {
	d.lock.Lock()
	defer d.lock.Unlock()
	if err := d.refuse(path, logExtensions); err != nil {
		return nil, err
	}
	there, err := os.Lstat(path)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		file, err := os.OpenFile(path, os.O_CREATE|os.O_EXCL|os.O_WRONLY|os.O_APPEND, permissionsOf(d.inputs))
		if err != nil {
			return nil, cannotWrite(path, err)
		}
		return file, nil
	case err != nil:
		return nil, cannotWrite(path, err)
	}
	if err := refuseKind(path, there); err != nil {
		return nil, err
	}
	file, err := os.OpenFile(path, os.O_RDWR|os.O_APPEND, 0)
	if err != nil {
		return nil, cannotWrite(path, err)
	}
	if err := earlierLog(file); err != nil {
		_ = file.Close()
		return nil, fmt.Errorf("%s is no earlier log of railbook, and is left as it is: name another file with --log", path)
	}
	return file, nil
}

// earlierLog makes sure that a file's first line is that of a log of ours, and that its last line is ended.
func earlierLog(file *os.File) error {
	size, err := file.Seek(0, io.SeekEnd)
	if err != nil || size == 0 {
		return err
	}
	if _, err := file.Seek(0, io.SeekStart); err != nil {
		return err
	}
	line, err := bufio.NewReader(io.LimitReader(file, 1<<16)).ReadBytes('\n')
	if err != nil {
		return err
	}
	var fields map[string]any
	if err := json.Unmarshal(line, &fields); err != nil {
		return err
	}
	if fields[LogProgram] != OurProgram {
		return errors.New("another program's")
	}
	last := make([]byte, 1)
	if _, err := file.ReadAt(last, size-1); err != nil {
		return err
	}
	if last[0] != '\n' {
		_, err = file.WriteString("\n")
	}
	return err
}

// cannotWrite says why a file cannot be written, and what to do.
func cannotWrite(path string, err error) error {
	folder := filepath.Dir(path)
	switch {
	case errors.Is(err, syscall.ENAMETOOLONG):
		return fmt.Errorf("%s can't be written because its name is too long: give it a shorter one", path)
	case errors.Is(err, fs.ErrNotExist):
		return fmt.Errorf("%s can't be written because there is no folder %s: check that the folder exists", path, folder)
	case errors.Is(err, syscall.ENOTDIR):
		return fmt.Errorf("%s can't be written because %s is no folder: check that the folder exists", path, folder)
	case errors.Is(err, syscall.EROFS):
		return fmt.Errorf("%s can't be written because its disk is read-only: write to another disk", path)
	case errors.Is(err, fs.ErrPermission):
		return fmt.Errorf("%s can't be written because you may not write to the folder %s: write to a folder of your own", path, folder)
	case errors.Is(err, syscall.ENOSPC), errors.Is(err, syscall.EDQUOT):
		return fmt.Errorf("%s can't be written because the disk is full: make room, or write to another disk", path)
	}
	return fmt.Errorf("%s can't be written (%w): write to another folder", path, cause(err))
}

// cause gives what the system says without the path, which the sentence names already.
func cause(err error) error {
	var path *fs.PathError
	if errors.As(err, &path) {
		return path.Err
	}
	var link *os.LinkError
	if errors.As(err, &link) {
		return link.Err
	}
	return err
}
