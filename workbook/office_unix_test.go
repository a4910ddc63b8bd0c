//go:build unix

package workbook

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"railbook/workbook/xlsx"
)

// withOffice puts a program of the name of LibreOffice's before all others, which does what the lines of a shell say. They know
// the folder it is to write to as $folder, and the file it is to read as $source.
func withOffice(t *testing.T, lines string) (temporary string) {
	t.Helper()
	programs, temporary := t.TempDir(), t.TempDir()
	const arguments = "#!/bin/sh\nfor argument; do source=$argument; [ \"$before\" = --outdir ] && folder=$argument; before=$argument; done\nmkdir -p \"$folder/profile\"\n"
	if err := os.WriteFile(filepath.Join(programs, "soffice"), []byte(arguments+lines), 0o700); err != nil {
		t.Fatal(err)
	}
	t.Setenv("PATH", programs+string(filepath.ListSeparator)+os.Getenv("PATH"))
	t.Setenv("TMPDIR", temporary)
	return temporary
}

func namesIn(t *testing.T, folder string) (names string) {
	t.Helper()
	entries, err := os.ReadDir(folder)
	if err != nil {
		t.Fatal(err)
	}
	for _, entry := range entries {
		names += entry.Name() + " "
	}
	return strings.TrimSpace(names)
}

// oldWorkbook is a file of the format of old, as far as anybody looks before LibreOffice does.
func oldWorkbook(t *testing.T) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), "old.xls")
	if err := os.WriteFile(path, []byte("\x09\x08\x10\x00\x00\x06\x05\x00"), 0o600); err != nil {
		t.Fatal(err)
	}
	return path
}

// LibreOffice converts only when it is asked to, never over a file, whatever is forced, and its profile is gone at every end.
func TestConversionWritesOverNoFileAndLeavesNothing(t *testing.T) {
	fair, err := filepath.Abs("../testdata/demo/lamb.xlsx")
	if err != nil {
		t.Fatal(err)
	}
	saves := "cp '" + fair + "' \"$folder/old.xlsx\"\n"
	for about, row := range map[string]struct {
		does    string
		options Options
		taken   bool   // old.xlsx is there before
		words   string // of the refusal; empty: it is graded
		leaves  string
	}{
		"not asked for":                 {saves, Options{}, false, "railbook grade --convert ", "old.xls"},
		"asked for":                     {saves, Options{Convert: true}, false, "", "old-results.xlsx old.xls old.xlsx"},
		"taken":                         {saves, Options{Convert: true}, true, "writes over no file", "old.xls old.xlsx"},
		"taken and forced":              {saves, Options{Convert: true, Force: true}, true, "writes over no file", "old.xls old.xlsx"},
		"taken meanwhile, forced":       {saves + "echo meanwhile > \"${source%.xls}.xlsx\"\n", Options{Convert: true, Force: true}, false, "exists already and is different", "old.xls old.xlsx"},
		"it fails":                      {"echo no room >&2\nexit 3\n", Options{Convert: true}, false, "no room", "old.xls"},
		"it writes nothing":             {"exit 0\n", Options{Convert: true}, false, "it wrote nothing", "old.xls"},
		"it writes what is no workbook": {"echo text > \"$folder/old.xlsx\"\n", Options{Convert: true}, false, "CSV", "old.xls old.xlsx"},
	} {
		t.Run(about, func(t *testing.T) {
			temporary, path := withOffice(t, row.does), oldWorkbook(t)
			to := convertedPath(path)
			if row.taken {
				if err := os.WriteFile(to, []byte("the office's own"), 0o600); err != nil {
					t.Fatal(err)
				}
			}
			_, err := Grade(path, row.options)
			if row.words == "" && err != nil || row.words != "" && (err == nil || !strings.Contains(err.Error(), row.words)) {
				t.Errorf("%v", err)
			}
			if there := namesIn(t, filepath.Dir(path)); there != row.leaves {
				t.Errorf("in the folder are %s", there)
			}
			if left := namesIn(t, temporary); left != "" {
				t.Errorf("in the temporary folder are %s", left)
			}
			if data, err := os.ReadFile(to); row.taken && (err != nil || string(data) != "the office's own") {
				t.Errorf("it was written over: %s, %v", data, err)
			}
		})
	}
}

// LibreOffice has a minute; what takes longer is ended.
func TestConversionTakesAMinuteAtMost(t *testing.T) {
	if longestConversion != time.Minute {
		t.Error(longestConversion)
	}
	withOffice(t, "exec sleep 20\n")
	folder, done, err := xlsx.TemporaryFolder()
	if err != nil {
		t.Fatal(err)
	}
	defer done()
	if _, err := savedAs("xlsx", time.Second, officeProgram(), folder, oldWorkbook(t)); err == nil || !strings.Contains(err.Error(), "it took more than 1s") {
		t.Error(err)
	}
}

// Without LibreOffice the sentence says what to do by hand, and --convert what it lacks.
func TestConversionWithoutLibreOffice(t *testing.T) {
	t.Setenv("PATH", t.TempDir())
	path := oldWorkbook(t)
	for convert, words := range map[bool]string{false: "save it as", true: "LibreOffice, which was not found on this machine"} {
		_, err := Grade(path, Options{Convert: convert})
		if err == nil || !strings.Contains(err.Error(), words) || strings.Contains(err.Error(), "railbook grade --convert") {
			t.Error(err)
		}
	}
}
