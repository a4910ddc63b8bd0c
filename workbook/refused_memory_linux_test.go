package workbook

import (
	"archive/zip"
	"errors"
	"fmt"
	"io"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"runtime/debug"
	"strings"
	"testing"
)

// refusedFile tells this very program, started again, to grade a workbook that it is to refuse.
const refusedFile = "RAILBOOK_REFUSED_FILE"

// TestRefusedFile is no test but the grading of one, in a process of its own whose memory can be seen.
func TestRefusedFile(t *testing.T) {
	path := os.Getenv(refusedFile)
	if path == "" {
		t.Skip("it is started by the test of what is refused")
	}
	debug.SetGCPercent(40) // as the program sets it for what is large
	if _, err := Grade(path, Options{Output: path + ".results.xlsx"}); err == nil {
		t.Fatal("it was graded")
	}
	// What the system tells of a process that has ended is never less than what its parent took.
	peak := peakMB(t)
	if peak > mostRefusedMB {
		t.Errorf("%d MB were taken before it was refused", peak)
	}
	t.Logf("%d MB", peak)
}

// mostRefusedMB is the most memory of the whole process, in MB, for a file that is refused.
const mostRefusedMB = 400

// A sheet of more than the bound that is damaged at its very end is refused within it: however long a list is, it is never held.
func TestADamagedEndTakesLittleMemory(t *testing.T) {
	if os.Getenv("RAILBOOK_LONG") == "" {
		t.Skip("a long run: RAILBOOK_LONG is not set")
	}
	const part, until = "xl/worksheets/sheet1.xml", "</sheetData>"
	row := `<row><c><v>%d</v></c>` + strings.Repeat(`<c><v>812.5</v></c>`, 8) + "</row>"
	parts := plainPackage()
	before, after, found := strings.Cut(parts[part], until)
	if !found {
		t.Fatalf("%s has no %s", part, until)
	}
	delete(parts, part)
	path := filepath.Join(t.TempDir(), "damaged.xlsx")
	file, err := os.Create(path)
	if err != nil {
		t.Fatal(err)
	}
	defer file.Close()
	archive := zip.NewWriter(file)
	write := func(to io.Writer, text string) {
		if err == nil {
			_, err = io.WriteString(to, text)
		}
	}
	for name, text := range parts {
		entry, _ := archive.Create(name)
		write(entry, text)
	}
	entry, _ := archive.Create(part)
	write(entry, before)
	random := rand.New(rand.NewPCG(1, 2))
	for size := 0; size < (mostRefusedMB+20)<<20; size += len(row) {
		write(entry, fmt.Sprintf(row, random.IntN(1_000_000)))
	}
	write(entry, "<a></b>"+until+after)
	if err := errors.Join(err, archive.Close()); err != nil {
		t.Fatal(err)
	}
	refusedWithin(t, path)
}

// refusedWithin grades a file that is to be refused in a process of its own.
func refusedWithin(t *testing.T, path string) {
	t.Helper()
	child := exec.Command(os.Args[0], "-test.run", "^TestRefusedFile$", "-test.v")
	child.Env = append(os.Environ(), refusedFile+"="+path)
	said, err := child.CombinedOutput()
	if err != nil {
		t.Errorf("%s: %v: %s", filepath.Base(path), err, said)
	}
	t.Logf("%s: %s", filepath.Base(path), said)
}

// Files that hold as much as they may and are packed as tightly as they may are refused within the bound, wherever that is found:
// by their directory, in their sheets, or by what the sheets say.
func TestWhatIsRefusedTakesLittleMemory(t *testing.T) {
	if os.Getenv("RAILBOOK_LONG") == "" {
		t.Skip("a long run: RAILBOOK_LONG is not set")
	}
	const size = 63 << 20
	row := func(cell string) string { return "<row>" + strings.Repeat(cell, 1<<14) + "</row>" }
	folder := t.TempDir()
	var honest strings.Builder // numbers that no two rows have alike, three times as much of them: no sheet of carcasses
	for number := range size / 50 {
		fmt.Fprintf(&honest, "<row><c><v>%d</v></c><c><v>%d</v></c></row>", number*7919%1_000_003, number*104_729%10_000_019)
	}
	for name, rows := range map[string]string{
		"numbers":  row(`<c><v>1</v></c>`),
		"blanks":   row(`<c/>`),
		"texts":    row(`<c t="s"><v>0</v></c>`),
		"in place": row(`<c t="inlineStr"><is><t>steer</t></is></c>`),
		"few":      "<row>" + strings.Repeat(`<c><v>1</v></c>`, 60) + "</row>",
		"formulas": row(`<c><f>A1</f></c>`),
		"honest":   honest.String(),
	} {
		parts := plainPackage()
		before, _, _ := strings.Cut(parts["xl/worksheets/sheet1.xml"], "<row")
		parts["xl/worksheets/sheet1.xml"] = before + strings.Repeat(rows, max(3, size/len(rows))) + "</sheetData></worksheet>"
		path := filepath.Join(folder, name+".xlsx")
		if err := os.WriteFile(path, packageOf(t, parts), 0o600); err != nil {
			t.Fatal(err)
		}
		refusedWithin(t, path)
	}
}
