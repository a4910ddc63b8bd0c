package xlsx

import (
	"os"
	"os/exec"
)

// lockFile has nothing to do on Windows: a file that is open can't be removed there.
func lockFile(*os.File) error { return nil }

func lockLeft(*os.File) error { return nil }

// readyToRename closes the file, because an open one can't be renamed.
func readyToRename(file *os.File) { _ = file.Close() }

func removeLeft(left *temporary) {
	_ = left.file.Close()
	_ = os.Remove(left.path)
}

// apart has nothing to do: Windows knows no groups of programs that end together.
func apart(*exec.Cmd) {}

func endProgram(process *os.Process) { _ = process.Kill() }
