//go:build unix

package xlsx

import (
	"fmt"
	"io/fs"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"syscall"
	"testing"
	"time"
)

// What a person does not let others read by their umask nobody else reads, and the owner always can.
func TestDoorKeepsToTheUmask(t *testing.T) {
	for umask, want := range map[int]fs.FileMode{0o077: 0o600, 0o027: 0o640, 0o777: 0o600, 0o277: 0o600} {
		input := fileWith(t, "fair.xlsx", "the fair", 0o600)
		if err := os.Chmod(input, 0o644); err != nil {
			t.Fatal(err)
		}
		folder := t.TempDir()
		made := output(filepath.Join(folder, "results.xlsx"), "results")
		made.MadeOf = []string{input}
		before := syscall.Umask(umask)
		_, err := NewDoor().Write(made)
		var log fs.File
		var logErr error
		if umask&0o600 == 0 {
			if _, logErr = NewDoor(input).Log(filepath.Join(folder, "run.log")); logErr == nil {
				log, logErr = os.Open(filepath.Join(folder, "run.log"))
			}
		}
		syscall.Umask(before)
		if err != nil || logErr != nil {
			t.Fatal(err, logErr)
		}
		if info, err := os.Stat(made.Path); err != nil || info.Mode().Perm() != want {
			t.Errorf("with the umask %o the results are %o, not %o (%v)", umask, info.Mode().Perm(), want, err)
		}
		if log != nil {
			if info, err := log.Stat(); err != nil || info.Mode().Perm() != want {
				t.Errorf("with the umask %o the log is %o, not %o (%v)", umask, info.Mode().Perm(), want, err)
			}
		}
	}
}

// A folder for results is open to no more people than what they are made of.
func TestDoorMakesFoldersNoWiderThanTheInput(t *testing.T) {
	before := syscall.Umask(0)
	defer syscall.Umask(before)
	for permissions, want := range map[fs.FileMode]fs.FileMode{0o600: 0o600, 0o640: 0o750, 0o644: 0o755} {
		input := fileWith(t, "fair.xlsx", "the fair", permissions)
		if err := os.Chmod(input, permissions); err != nil {
			t.Fatal(err)
		}
		folder := filepath.Join(t.TempDir(), "families")
		if err := NewDoor().Folder(folder, input); err != nil {
			t.Fatal(err)
		}
		info, err := os.Stat(folder)
		if err != nil || info.Mode().Perm()&^0o700 != want&^0o700 || info.Mode().Perm()&0o700 != 0o700 {
			t.Errorf("beside a file of %o the folder is %o (%v)", permissions, info.Mode().Perm(), err)
		}
	}
}

// abandonedIn tells this very program, started again, to abandon what it writes into a folder.
const abandonedIn = "RAILBOOK_ABANDONED_IN"

// TestAbandonedProcess is no test but what is abandoned, in a process of its own.
func TestAbandonedProcess(t *testing.T) {
	folder := os.Getenv(abandonedIn)
	if folder == "" {
		t.Skip("it is started by the test of what is abandoned")
	}
	if _, err := newTemporary(folder, 0o600); err != nil {
		t.Fatal(err)
	}
	path, _, err := TemporaryFolder()
	if err != nil {
		t.Fatal(err)
	}
	if _, err := WriteTemporary(path, "names.csv", []byte("Teasel Marrow")); err != nil {
		t.Fatal(err)
	}
	started := filepath.Join(folder, "started")
	go func() { _, _ = Run(time.Minute, path, "sh", "-c", "mktemp; sleep 60 & echo $! > "+started+"; wait") }()
	for range 1000 {
		if data, _ := os.ReadFile(started); strings.HasSuffix(string(data), "\n") {
			break
		}
		time.Sleep(5 * time.Millisecond)
	}
	Abandon()
	os.Exit(0)
}

// A process that is told to end leaves no file of its own, and ends what it started.
func TestAbandonLeavesNothing(t *testing.T) {
	folder, temporary := t.TempDir(), t.TempDir()
	child := exec.Command(os.Args[0], "-test.run", "^TestAbandonedProcess$")
	child.Env = append(os.Environ(), abandonedIn+"="+folder, "TMPDIR="+temporary)
	if said, err := child.CombinedOutput(); err != nil {
		t.Fatalf("%v: %s", err, said)
	}
	onlyThere(t, temporary)
	var process int
	if _, err := fmt.Sscan(textOf(t, filepath.Join(folder, "started")), &process); err != nil {
		t.Fatal(err)
	}
	onlyThere(t, folder, "started")
	endsSoon(t, process)
}

// endsSoon makes sure that a process ends that was told to.
func endsSoon(t *testing.T, process int) {
	t.Helper()
	for range 1000 {
		state, err := os.ReadFile(fmt.Sprintf("/proc/%d/stat", process))
		if syscall.Kill(process, 0) != nil || err == nil && strings.Contains(string(state), ") Z ") {
			return
		}
		time.Sleep(5 * time.Millisecond)
	}
	t.Errorf("the process %d goes on", process)
	_ = syscall.Kill(process, syscall.SIGKILL)
}

// Another program has only so long, and all that it started ends with it.
func TestRunEndsWhatTakesTooLong(t *testing.T) {
	folder := t.TempDir()
	_, err := Run(time.Second, folder, "sh", "-c", "sleep 20 & echo $! > "+folder+"/started; wait")
	says(t, err, "it took more than 1s")
	var process int
	if _, err := fmt.Sscan(textOf(t, filepath.Join(folder, "started")), &process); err != nil {
		t.Fatal(err)
	}
	endsSoon(t, process)
	if said, err := Run(time.Minute, folder, "sh", "-c", "echo done; echo twice >&2; mktemp"); err != nil || !strings.HasPrefix(said, "done\ntwice\n"+folder+"/") {
		t.Errorf("%q, %v", said, err)
	}
}

// A temporary folder is nobody else's, and goes with all that is in it.
func TestTemporaryFolderIsPrivateAndGoes(t *testing.T) {
	temporary := t.TempDir()
	t.Setenv("TMPDIR", temporary)
	before := syscall.Umask(0)
	defer syscall.Umask(before)
	path, done, err := TemporaryFolder()
	if err != nil {
		t.Fatal(err)
	}
	if _, err := WriteTemporary(path, "names.csv", []byte("Teasel Marrow")); err != nil {
		t.Fatal(err)
	}
	if info, err := os.Stat(path); err != nil || info.Mode().Perm() != 0o700 || filepath.Dir(path) != temporary {
		t.Error(path, info.Mode(), err)
	}
	done()
	onlyThere(t, temporary)
}
