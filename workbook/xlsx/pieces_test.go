package xlsx

import (
	"bytes"
	"crypto/rand"
	"os"
	"path/filepath"
	"runtime"
	"testing"
)

// Packed parts stay in memory up to a megabyte; what follows waits in a file that has no name any more, and is the same when it is read.
func TestPackedPartsWaitBesideTheResults(t *testing.T) {
	if runtime.GOOS == "windows" {
		t.Skip("Windows removes no file that is open")
	}
	noise := make([]byte, heldPacked+1)
	_, _ = rand.Read(noise)
	for about, row := range map[string]struct {
		folder string
		first  int
		beside bool
	}{
		"no more than is held":    {t.TempDir(), heldPacked, false},
		"a byte more":             {t.TempDir(), heldPacked + 1, true},
		"no folder to wait in":    {"", heldPacked + 1, false},
		"a folder that is nought": {filepath.Join(t.TempDir(), "none"), heldPacked + 1, false},
	} {
		kept := &store{folder: row.folder}
		var pieces Pieces
		for _, data := range [][]byte{noise[:row.first], noise[5:100_000], noise[7:8]} {
			pieces = append(pieces, kept.keep(data))
		}
		whole, err := pieces.Bytes()
		if want := bytes.Join([][]byte{noise[:row.first], noise[5:100_000], noise[7:8]}, nil); err != nil || !bytes.Equal(whole, want) {
			t.Errorf("%s: %d bytes came back as %d (%v)", about, len(want), len(whole), err)
		}
		if beside := pieces[1].from != nil; beside != row.beside || pieces[0].from != nil {
			t.Errorf("%s: in a file is %v, the first %v", about, beside, pieces[0].from != nil)
		}
		if left, _ := os.ReadDir(row.folder); row.folder != "" && len(left) > 0 {
			t.Errorf("%s: %s is there by name", about, left[0].Name())
		}
	}
}

// A disk that takes no more keeps nothing from being held, and what was written before is read again.
func TestPackedPartsAreHeldWhereTheFileFails(t *testing.T) {
	kept := &store{folder: t.TempDir(), size: heldPacked + 1}
	pieces := Pieces{kept.keep([]byte("on disk"))}
	if kept.file == nil {
		t.Skip("there is no such file here")
	}
	read, err := os.Open(os.DevNull) // which nobody may write to
	if err != nil {
		t.Fatal(err)
	}
	defer read.Close()
	kept.file = read
	pieces = append(pieces, kept.keep([]byte(", in memory")), kept.keep([]byte(", and so on")))
	if whole, err := pieces.Bytes(); err != nil || string(whole) != "on disk, in memory, and so on" {
		t.Errorf("%q, %v", whole, err)
	}
}

// Workbooks whose parts wait in a file have the same bytes as those that were never out of memory.
func TestContentIsTheSameBesideAndInMemory(t *testing.T) {
	picture := make([]byte, 2*keptLength)
	_, _ = rand.Read(picture)
	data := pack(t, with(plainWorkbook(twoRows), "xl/media/image1.png", string(picture)))
	var results [2][]byte
	for i, folder := range []string{"", t.TempDir()} {
		book := open(t, data)
		book.PackBeside(folder)
		book.store.size = heldPacked + 1
		if _, err := book.NewSheet("Placings", "railbook_sheet_placings"); err != nil {
			t.Fatal(err)
		}
		content, err := book.Content()
		if err != nil {
			t.Fatal(err)
		}
		results[i], err = content.Bytes()
		if err != nil || int64(len(results[i])) != content.Size() {
			t.Fatal(len(results[i]), content.Size(), err)
		}
		output := Output{Path: filepath.Join(t.TempDir(), "results.xlsx"), Data: content, Extensions: []string{".xlsx"}}
		if written, err := NewDoor().Write(output); err != nil || !written {
			t.Fatal(written, err)
		}
		if again, err := NewDoor().Write(output); err != nil || again {
			t.Error("the very same was written twice", err)
		}
		onDisk, err := os.ReadFile(output.Path)
		if err != nil || !bytes.Equal(onDisk, results[i]) {
			t.Error("the file differs from the content", err)
		}
	}
	if !bytes.Equal(results[0], results[1]) {
		t.Error("the results differ")
	}
}
