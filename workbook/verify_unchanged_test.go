package workbook

import (
	"archive/zip"
	"bytes"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
)

// rezipped writes a workbook whose parts are stored and not compressed, each as a function gives it.
func rezipped(t *testing.T, from string, change func(part string, plain []byte) []byte) (path string) {
	t.Helper()
	archive, err := zip.OpenReader(from)
	if err != nil {
		t.Fatal(err)
	}
	defer archive.Close()
	var out bytes.Buffer
	writer := zip.NewWriter(&out)
	for _, entry := range archive.File {
		reader, err := entry.Open()
		if err != nil {
			t.Fatal(err)
		}
		plain, err := io.ReadAll(reader)
		if err != nil {
			t.Fatal(err)
		}
		stored, err := writer.CreateHeader(&zip.FileHeader{Name: entry.Name, Method: zip.Store})
		if err != nil {
			t.Fatal(err)
		}
		if _, err := stored.Write(change(entry.Name, plain)); err != nil {
			t.Fatal(err)
		}
	}
	if err := writer.Close(); err != nil {
		t.Fatal(err)
	}
	path = filepath.Join(t.TempDir(), "rezipped.xlsx")
	if err := os.WriteFile(path, out.Bytes(), 0o600); err != nil {
		t.Fatal(err)
	}
	return path
}

// lastDigit is the last digit of a value or a text of a sheet.
var lastDigit = regexp.MustCompile(`(?s)^(.*)([0-9])(</v>|</t>)`)

// A signed workbook in which nothing was changed is known by its parts, whatever packed them: no cell of it is compared. One digit
// that is another on any of its sheets is named all the same.
func TestOneByteOnAnySheetIsFound(t *testing.T) {
	t.Parallel()
	signed := signedFair(t)
	for about, path := range map[string]string{"as it was written": signed, "packed otherwise": rezipped(t, signed, func(_ string, plain []byte) []byte { return plain })} {
		if work, _, err := examineSigned(path, Options{}); err != nil || !work.unchanged {
			t.Errorf("%s: it is not known as unchanged (%v)", about, err)
		}
	}
	changed := 0
	for number := 1; number <= 12; number++ {
		part, there := fmt.Sprintf("xl/worksheets/sheet%d.xml", number), false
		path := rezipped(t, signed, func(name string, plain []byte) []byte {
			at := lastDigit.FindSubmatchIndex(plain)
			if name != part || at == nil {
				return plain
			}
			there = true
			plain = bytes.Clone(plain)
			plain[at[4]] = '0' + (plain[at[4]]-'0'+1)%10
			return plain
		})
		if !there {
			continue
		}
		changed++
		found, err := Verify(path, Options{})
		if err != nil || len(found.Differences) == 0 {
			t.Errorf("a digit in %s was changed, and nothing is said (%v)", part, err)
		}
		if strings.Contains(found.Report(), "nothing has changed") {
			t.Errorf("%s: %s", part, found.Report())
		}
	}
	if changed < 9 {
		t.Errorf("only %d sheets have a digit", changed)
	}
}
