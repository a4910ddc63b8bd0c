//go:build unix

package xlsx

import (
	"os"
	"os/exec"
	"syscall"
)

// lockFile locks a file of our own for as long as it is open.
func lockFile(file *os.File) error { return syscall.Flock(int(file.Fd()), syscall.LOCK_EX) }

// lockLeft locks a file that nobody holds, or fails at once.
func lockLeft(file *os.File) error {
	return syscall.Flock(int(file.Fd()), syscall.LOCK_EX|syscall.LOCK_NB)
}

// readyToRename has nothing to do: an open file can be renamed, and stays locked meanwhile.
func readyToRename(*os.File) {}

// removeLeft removes a file while it is locked.
func removeLeft(left *temporary) { _ = os.Remove(left.path) }

// apart gives a program, and all that it starts, a group of their own, so that they can be ended together.
func apart(command *exec.Cmd) { command.SysProcAttr = &syscall.SysProcAttr{Setpgid: true} }

func endProgram(process *os.Process) { _ = syscall.Kill(-process.Pid, syscall.SIGKILL) }
