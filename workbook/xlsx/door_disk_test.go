//go:build linux

package xlsx

import (
	"bytes"
	"crypto/rand"
	"os/exec"
	"path/filepath"
	"testing"
)

// A disk that is full, or that nobody may write to, leaves what was there and nothing of ours. The disk is a real one of
// 64 KB in memory, which only the superuser may make.
func TestDoorOnFullAndReadOnlyDisks(t *testing.T) {
	disk := t.TempDir()
	if said, err := exec.Command("mount", "-t", "tmpfs", "-o", "size=64k", "tmpfs", disk).CombinedOutput(); err != nil {
		t.Skipf("no disk can be made here: %s", said)
	}
	t.Cleanup(func() { _ = exec.Command("umount", disk).Run() })
	path := filepath.Join(disk, "results.xlsx")
	if _, err := NewDoor().Write(output(path, "earlier")); err != nil {
		t.Fatal(err)
	}
	large := output(path, "")
	noise := make([]byte, 128<<10)
	_, _ = rand.Read(noise)
	large.Force, large.Data = true, Whole(noise)
	_, err := NewDoor().Write(large)
	says(t, err, "the disk is full", "make room")
	onlyThere(t, disk, "results.xlsx")
	if !bytes.Equal([]byte(textOf(t, path)), []byte("earlier")) {
		t.Error("the earlier results are gone")
	}
	if said, err := exec.Command("mount", "-o", "remount,ro", disk).CombinedOutput(); err != nil {
		t.Fatalf("%v: %s", err, said)
	}
	small := output(filepath.Join(disk, "other.xlsx"), "results")
	_, err = NewDoor().Write(small)
	says(t, err, "its disk is read-only")
	_, err = NewDoor().Log(filepath.Join(disk, "run.log"))
	says(t, err, "its disk is read-only")
	onlyThere(t, disk, "results.xlsx")
}
