package command

import (
	"bufio"
	"bytes"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"strings"
	"testing"
)

// TestWindowsAsAnOfficeHasIt runs the Windows build under Wine, in a folder whose name has spaces and umlauts, and compares
// the results with those of this system's build, byte for byte. testdata/wine holds a stand-in for the one system library
// that Go asks for and Wine 8 lacks, and a program that holds a file open as a spreadsheet program does.
func TestWindowsAsAnOfficeHasIt(t *testing.T) {
	if os.Getenv("RAILBOOK_LONG") == "" {
		t.Skip("sets up a Windows of its own: set RAILBOOK_LONG=1")
	}
	for _, tool := range []string{"wine", "x86_64-w64-mingw32-gcc"} {
		if _, err := exec.LookPath(tool); err != nil {
			if os.Getenv("CI") != "" {
				t.Fatalf("no %s: install the packages wine, wine64 and gcc-mingw-w64-x86-64", tool)
			}
			t.Skipf("no %s: install the packages wine, wine64 and gcc-mingw-w64-x86-64", tool)
		}
	}
	office := newWindows(t)
	folder := filepath.Join(office.drive, "Schlachtkörper und Größen 2026")
	here := filepath.Join(t.TempDir(), "Schlachtkörper und Größen 2026")
	demo := filepath.Join("..", "..", "testdata", "demo")
	names := map[string]string{"fair.xlsx": "Märkte der Jugend.xlsx", "swine.xlsx": "swine.xlsx", "lamb.xlsx": "lämmer & co.xlsx"}
	for _, into := range []string{folder, here} {
		for from, to := range names {
			office.must(os.MkdirAll(into, 0o700))
			data, err := os.ReadFile(filepath.Join(demo, from))
			office.must(err)
			office.must(os.WriteFile(filepath.Join(into, to), data, 0o600))
		}
	}
	same := func(name string) {
		t.Helper()
		windows, err := os.ReadFile(filepath.Join(folder, name))
		office.must(err)
		other, err := os.ReadFile(filepath.Join(here, name))
		office.must(err)
		if !bytes.Equal(windows, other) {
			t.Errorf("%s: Windows wrote other bytes than %s", name, runtime.GOOS)
		}
	}
	native := func(arguments ...string) {
		t.Helper()
		command := exec.Command(office.native, arguments...)
		command.Dir = here
		if said, err := command.CombinedOutput(); err != nil {
			t.Fatalf("%v\n%s", err, said)
		}
	}

	// A workbook dropped on the program is its whole path, and no command.
	office.run(t, office.drive, 0, `C:\Schlachtkörper und Größen 2026\Märkte der Jugend.xlsx`)
	native("Märkte der Jugend.xlsx")
	same("Märkte der Jugend-results.xlsx")

	// Backslashes in a path that starts elsewhere.
	office.run(t, office.drive, 0, "grade", `Schlachtkörper und Größen 2026\swine.xlsx`)
	native("grade", "swine.xlsx")
	same("swine-results.xlsx")

	// The command prompt expands no wildcards; the program does, and passes over its own results.
	for _, results := range []string{"swine-results.xlsx", "Märkte der Jugend-results.xlsx"} {
		office.must(os.Remove(filepath.Join(folder, results)))
		office.must(os.Remove(filepath.Join(here, results)))
	}
	said := office.run(t, folder, 0, "grade", "*.xlsx")
	if !strings.Contains(said, "3 of 3 workbooks graded") {
		t.Errorf("*.xlsx: %s", said)
	}
	native("grade", "Märkte der Jugend.xlsx", "lämmer & co.xlsx", "swine.xlsx")
	for _, name := range names {
		same(strings.TrimSuffix(name, ".xlsx") + "-results.xlsx")
	}

	// The results are open in another program: they stay as they are, the sentence says so, and nothing is left behind.
	results := filepath.Join(folder, "swine-results.xlsx")
	before, err := os.ReadFile(results)
	office.must(err)
	release := office.hold(t, results)
	said = office.run(t, folder, 1, "grade", "swine.xlsx", "--base-price", "swine=99", "--force")
	if !strings.Contains(said, "swine-results.xlsx") || !strings.Contains(said, "close it in Excel") {
		t.Errorf("results held open: %s", said)
	}
	release()
	if after, err := os.ReadFile(results); err != nil || !bytes.Equal(before, after) {
		t.Errorf("the results held open are other ones (%v)", err)
	}
	entries, err := os.ReadDir(folder)
	office.must(err)
	if len(entries) != 2*len(names) {
		t.Errorf("the folder holds %v", entries)
	}
	office.run(t, folder, 0, "grade", "swine.xlsx", "--base-price", "swine=99", "--force")

	// A workbook held open is read all the same, as spreadsheet programs allow.
	release = office.hold(t, filepath.Join(folder, "swine.xlsx"))
	office.run(t, folder, 3, "check", "swine.xlsx")
	release()
}

// windows is a Windows of its own, with the program built for it.
type windows struct {
	t                      *testing.T
	drive, program, native string
	holder                 string
	environment            []string
}

func newWindows(t *testing.T) *windows {
	prefix := filepath.Join(t.TempDir(), "windows")
	w := &windows{
		t: t, drive: filepath.Join(prefix, "drive_c"), environment: append(os.Environ(), "WINEPREFIX="+prefix, "WINEDEBUG=-all", "WINEARCH=win64", "DISPLAY="),
	}
	shell := func(environment []string, name string, arguments ...string) {
		t.Helper()
		command := exec.Command(name, arguments...)
		command.Env = environment
		if said, err := command.CombinedOutput(); err != nil {
			t.Fatalf("%s %v: %v\n%s", name, arguments, err, said)
		}
	}
	shell(w.environment, "wine", "wineboot", "--init")
	t.Cleanup(func() {
		for _, end := range [][]string{{"wine", "wineboot", "--end-session", "--force", "--kill"}, {"wineserver", "--kill"}, {"wineserver", "--wait"}} {
			command := exec.Command(end[0], end[1:]...) // the server writes its registry when it ends
			command.Env = w.environment
			_ = command.Run()
		}
	})
	w.program, w.native, w.holder = filepath.Join(w.drive, "railbook.exe"), filepath.Join(t.TempDir(), "railbook"), filepath.Join(w.drive, "hold.exe")
	sources := filepath.Join("..", "..", "testdata", "wine")
	shell(os.Environ(), "x86_64-w64-mingw32-gcc", "-shared", "-O2", "-o", filepath.Join(w.drive, "windows", "system32", "bcryptprimitives.dll"),
		filepath.Join(sources, "prng.c"), "-ladvapi32")
	shell(os.Environ(), "x86_64-w64-mingw32-gcc", "-municode", "-O2", "-o", w.holder, filepath.Join(sources, "hold.c"))
	shell(os.Environ(), "go", "build", "-trimpath", "-o", w.native, filepath.Join("..", ".."))
	shell(append(os.Environ(), "CGO_ENABLED=0", "GOOS=windows", "GOARCH=amd64"), "go", "build", "-trimpath", "-o", w.program, filepath.Join("..", ".."))
	return w
}

func (w *windows) must(err error) {
	w.t.Helper()
	if err != nil {
		w.t.Fatal(err)
	}
}

// run runs the Windows program in a folder; it must end with the status.
func (w *windows) run(t *testing.T, folder string, status int, arguments ...string) string {
	t.Helper()
	command := exec.Command("wine", append([]string{w.program}, arguments...)...)
	command.Dir, command.Env = folder, w.environment
	said, _ := command.CombinedOutput()
	if got := command.ProcessState.ExitCode(); got != status {
		t.Fatalf("%v: exit status %d, want %d\n%s", arguments, got, status, said)
	}
	return strings.Join(strings.Fields(string(said)), " ")
}

// hold opens a file as a spreadsheet program does, until it is released.
func (w *windows) hold(t *testing.T, path string) (release func()) {
	t.Helper()
	command := exec.Command("wine", w.holder, filepath.Base(path))
	command.Dir, command.Env = filepath.Dir(path), w.environment
	input, err := command.StdinPipe()
	w.must(err)
	output, err := command.StdoutPipe()
	w.must(err)
	w.must(command.Start())
	if line, err := bufio.NewReader(output).ReadString('\n'); err != nil || strings.TrimSpace(line) != "held" {
		t.Fatalf("%s could not be held open: %q %v", path, line, err)
	}
	return func() {
		_ = input.Close()
		_ = command.Wait()
	}
}
