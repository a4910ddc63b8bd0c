package xlsx

import "os"

// lockFile has nothing to do on Windows: a file that is open can't be removed there.
func lockFile(*os.File) error { return nil }

func lockLeft(*os.File) error { return nil }

// readyToRename closes the file, because an open one can't be renamed.
func readyToRename(file *os.File) { _ = file.Close() }

func removeLeft(left *temporary) {
	_ = left.file.Close()
	_ = os.Remove(left.path)
}
