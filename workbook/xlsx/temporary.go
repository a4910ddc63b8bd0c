package xlsx

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"io/fs"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"slices"
	"strings"
	"sync"
	"time"
)

// The name of a temporary file: short, so that it fits wherever the file's own name does, and no workbook's.
const (
	temporaryStart = ".railbook-"
	temporaryEnd   = ".part"
)

// unfinished are the temporary files and folders of this process, which go at any end of it.
var unfinished struct {
	lock    sync.Mutex
	paths   map[string]bool
	running []*os.Process // programs that write into such a folder
}

func remember(path string) {
	unfinished.lock.Lock()
	defer unfinished.lock.Unlock()
	if unfinished.paths == nil {
		unfinished.paths = map[string]bool{}
	}
	unfinished.paths[path] = true
}

func forget(path string) {
	unfinished.lock.Lock()
	defer unfinished.lock.Unlock()
	delete(unfinished.paths, path)
}

// Abandon removes all temporary files of this process and lets it make no more: for a process that is told to end.
func Abandon() {
	unfinished.lock.Lock() // and never unlocked: whoever wants to make a temporary file waits for the end
	for _, process := range unfinished.running {
		endProgram(process)
	}
	for path := range unfinished.paths {
		_ = os.RemoveAll(path)
	}
}

// Run runs another program that writes into a temporary folder, its own temporary files too, for so long at most, and gives what it
// says. The program and all that it started end with this process or with its time.
func Run(most time.Duration, folder, name string, arguments ...string) (said string, err error) {
	limit, cancel := context.WithTimeout(context.Background(), most)
	defer cancel()
	var output bytes.Buffer
	command := exec.CommandContext(limit, name, arguments...)
	command.Stdout, command.Stderr = &output, &output
	command.Env = os.Environ()
	for _, variable := range []string{"TMPDIR", "TMP", "TEMP"} { // where a program that is ended in its work leaves files of its own
		command.Env = append(command.Env, variable+"="+folder)
	}
	command.Cancel = func() error {
		endProgram(command.Process)
		return nil
	}
	command.WaitDelay = time.Second
	apart(command)
	unfinished.lock.Lock()
	err = command.Start()
	if err == nil {
		unfinished.running = append(unfinished.running, command.Process)
	}
	unfinished.lock.Unlock()
	if err != nil {
		return "", err
	}
	err = command.Wait()
	unfinished.lock.Lock()
	unfinished.running = slices.DeleteFunc(unfinished.running, func(process *os.Process) bool { return process == command.Process })
	unfinished.lock.Unlock()
	if limit.Err() != nil {
		return "", fmt.Errorf("it took more than %v", most)
	}
	return strings.TrimSpace(output.String()), err
}

// TemporaryFolder makes a folder for another program's files; done removes it.
func TemporaryFolder() (path string, done func(), err error) {
	for {
		path = filepath.Join(os.TempDir(), fmt.Sprintf("railbook-%016x", rand.Uint64()))
		remember(path)
		err = os.Mkdir(path, 0o700)
		if err == nil {
			return path, func() {
				_ = os.RemoveAll(path)
				forget(path)
			}, nil
		}
		forget(path)
		if !errors.Is(err, fs.ErrExist) {
			return "", nil, fmt.Errorf("there is no room for temporary files in %s (%w): make room there, or name another folder in TMPDIR", os.TempDir(), cause(err))
		}
	}
}

// WriteTemporary puts a file into a folder that TemporaryFolder made, for another program to read.
func WriteTemporary(folder, name string, data []byte) (path string, err error) {
	path = filepath.Join(folder, name)
	if err := os.WriteFile(path, data, 0o600); err != nil {
		return "", fmt.Errorf("there is no room for temporary files in %s (%w): make room there, or name another folder in TMPDIR", folder, cause(err))
	}
	return path, nil
}

// temporary is a file that has all its bytes but not yet its name. It stays open and locked until it is renamed or
// removed, so that nobody takes it for one that a killed process left.
type temporary struct {
	path string
	file *os.File
}

// writeTemporary puts an output's bytes on disk beside where they are to be.
func writeTemporary(output Output) (*temporary, error) {
	folder := filepath.Dir(output.Path)
	sweep(folder)
	made, err := newTemporary(folder, temporaryPermissions(output))
	if err != nil {
		return nil, cannotWrite(output.Path, err)
	}
	err = output.Data.each(func(data []byte) error {
		_, err := made.file.Write(data)
		return err
	})
	if err == nil {
		err = made.file.Sync()
	}
	if err != nil {
		made.remove()
		return nil, cannotWrite(output.Path, err)
	}
	return made, nil
}

// unnamedFile makes a file that is gone with the process, whatever its end; nil where there can be none.
func unnamedFile(folder string) *os.File {
	if runtime.GOOS == "windows" { // which removes no file that is open
		return nil
	}
	made, err := newTemporary(folder, 0o600)
	if err != nil {
		return nil
	}
	err = os.Remove(made.path)
	forget(made.path)
	if err != nil {
		_ = made.file.Close()
		return nil
	}
	return made.file
}

// temporaryPermissions are those of the inputs, and no more than a file has that is to be replaced.
func temporaryPermissions(output Output) fs.FileMode {
	permissions := permissionsOf(output.MadeOf)
	if there, err := os.Lstat(output.Path); err == nil {
		permissions &= there.Mode().Perm()
	}
	return permissions | 0o600
}

func newTemporary(folder string, permissions fs.FileMode) (*temporary, error) {
	for {
		path := filepath.Join(folder, fmt.Sprintf("%s%016x%s", temporaryStart, rand.Uint64(), temporaryEnd))
		remember(path)
		file, err := os.OpenFile(path, os.O_CREATE|os.O_EXCL|os.O_RDWR, permissions)
		if err != nil {
			forget(path)
			if errors.Is(err, fs.ErrExist) {
				continue
			}
			return nil, err
		}
		made := &temporary{path, file}
		_ = lockFile(file)
		if !made.stillThere() { // swept between its making and its locking
			made.remove()
			continue
		}
		if info, err := file.Stat(); err == nil && info.Mode().Perm()&0o600 != 0o600 {
			_ = file.Chmod(info.Mode().Perm() | 0o600) // whatever the umask, the owner may go on working with it
		}
		return made, nil
	}
}

func (t *temporary) stillThere() bool {
	byName, err := os.Lstat(t.path)
	if err != nil {
		return false
	}
	open, err := t.file.Stat()
	return err == nil && os.SameFile(byName, open)
}

// rename gives the file its name. Where no file is to be replaced, none is, though another process has just put one there.
func (t *temporary) rename(output Output, replace bool) error {
	readyToRename(t.file)
	if !replace {
		err := os.Link(t.path, output.Path)
		if errors.Is(err, fs.ErrExist) {
			return fmt.Errorf("%s was put there by another program a moment ago; nothing was written. Look at it, then run this again", output.Path)
		}
		if err == nil {
			syncFolder(output.Path)
			return nil
		}
		// Not every disk has hard links; there the look of a moment ago is all there is.
	}
	if err := os.Rename(t.path, output.Path); err != nil {
		return fmt.Errorf("%s can't be replaced (%w): close it in Excel and run this again", output.Path, cause(err))
	}
	syncFolder(output.Path)
	return nil
}

// syncFolder puts a file's name on disk. A folder can't be synced on every system; the file itself is on disk already.
func syncFolder(path string) {
	if folder, err := os.Open(filepath.Dir(path)); err == nil {
		_ = folder.Sync()
		_ = folder.Close()
	}
}

func (t *temporary) remove() {
	_ = t.file.Close()
	_ = os.Remove(t.path)
	forget(t.path)
}

// sweep removes the temporary files of processes that were killed: those that nobody holds locked.
func sweep(folder string) {
	entries, err := os.ReadDir(folder)
	if err != nil {
		return
	}
	for _, entry := range entries {
		if !entry.Type().IsRegular() || !strings.HasPrefix(entry.Name(), temporaryStart) || !strings.HasSuffix(entry.Name(), temporaryEnd) {
			continue
		}
		left := &temporary{path: filepath.Join(folder, entry.Name())}
		if left.file, err = os.OpenFile(left.path, os.O_RDWR, 0); err != nil {
			continue
		}
		if lockLeft(left.file) == nil && left.stillThere() {
			removeLeft(left)
		}
		_ = left.file.Close()
	}
}
