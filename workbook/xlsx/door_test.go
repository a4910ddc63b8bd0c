package xlsx

import (
	"go/ast"
	"go/parser"
	gotoken "go/token"
	"io/fs"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"strings"
	"testing"
)

// fileWith makes a file in a folder of its own.
func fileWith(t *testing.T, name, text string, permissions fs.FileMode) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), name)
	if err := os.WriteFile(path, []byte(text), permissions); err != nil {
		t.Fatal(err)
	}
	return path
}

func textOf(t *testing.T, path string) string {
	t.Helper()
	data, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	return string(data)
}

// oneFile makes sure that a folder holds nothing but the named files.
func onlyThere(t *testing.T, folder string, names ...string) {
	t.Helper()
	entries, err := os.ReadDir(folder)
	if err != nil {
		t.Fatal(err)
	}
	var found []string
	for _, entry := range entries {
		found = append(found, entry.Name())
	}
	if strings.Join(found, " ") != strings.Join(names, " ") {
		t.Errorf("in the folder are %v, not %v", found, names)
	}
}

func output(path, text string) Output {
	return Output{Path: path, Data: Whole([]byte(text)), Extensions: []string{".xlsx"}}
}

// An input is not written to by any name it goes by, with or without force, and neither as a log.
func TestDoorNeverWritesToAnInput(t *testing.T) {
	for name, alias := range map[string]func(input string) (alias string, err error){
		"its own name": func(input string) (string, error) { return input, nil },
		"another spelling": func(input string) (string, error) {
			folder, name := filepath.Split(input)
			return folder + "." + string(filepath.Separator) + name, nil
		},
		"a relative path": func(input string) (string, error) {
			folder, err := os.Getwd()
			if err != nil {
				return "", err
			}
			return filepath.Rel(folder, input)
		},
		"a hard link": func(input string) (string, error) {
			alias := filepath.Join(filepath.Dir(input), "alias"+filepath.Ext(input))
			return alias, os.Link(input, alias)
		},
		"a symbolic link": func(input string) (string, error) {
			alias := filepath.Join(filepath.Dir(input), "alias"+filepath.Ext(input))
			return alias, os.Symlink(input, alias)
		},
		"a folder's link": func(input string) (string, error) {
			folder := filepath.Join(filepath.Dir(input), "folder")
			return filepath.Join(folder, filepath.Base(input)), os.Symlink(filepath.Dir(input), folder)
		},
	} {
		t.Run(name, func(t *testing.T) {
			input := fileWith(t, "fair.xlsx", "the fair", 0o600)
			path, err := alias(input)
			if err != nil {
				t.Fatal(err)
			}
			wanted := output(path, "results")
			wanted.Force = true
			_, err = NewDoor(input).Write(wanted)
			says(t, err, "one of the files being read")
			if _, err = NewDoor("", input).Check(wanted); err == nil {
				t.Error("Check allows it")
			}
			wanted.MadeOf = []string{input}
			_, err = NewDoor().Write(wanted)
			says(t, err, "one of the files being read")
			log := fileWith(t, "fair.log", `{"program":"railbook"}`+"\n", 0o600)
			if path, err = alias(log); err != nil {
				t.Fatal(err)
			}
			_, err = NewDoor(log).Log(path)
			says(t, err, "one of the files being read")
			if textOf(t, input) != "the fair" || strings.Count(textOf(t, log), "\n") != 1 {
				t.Error("an input was changed")
			}
		})
	}
}

// An input that is not there is no name for an output either.
func TestDoorRefusesTheNameOfAMissingInput(t *testing.T) {
	path := filepath.Join(t.TempDir(), "fair.xlsx")
	_, err := NewDoor(path).Write(output(path, "results"))
	says(t, err, "one of the files being read")
	onlyThere(t, filepath.Dir(path))
}

// A file is replaced when it is asked for, and then by a whole one; the very same is left as it is.
func TestDoorReplacesOnlyWhenTold(t *testing.T) {
	path := fileWith(t, "results.xlsx", "earlier", 0o640)
	folder := filepath.Dir(path)
	_, err := NewDoor().Write(output(path, "results"))
	says(t, err, "exists already and is different", "--force")
	if textOf(t, path) != "earlier" {
		t.Error("it was replaced")
	}
	// As long, but different.
	_, err = NewDoor().Write(output(path, "earliar"))
	says(t, err, "exists already and is different")
	wanted := output(path, "results")
	wanted.Force = true
	door := NewDoor()
	if written, err := door.Write(wanted); err != nil || !written || textOf(t, path) != "results" {
		t.Error(written, err)
	}
	if written, err := door.Write(wanted); err != nil || written {
		t.Error("the very same was written again", written, err)
	}
	wanted.Data = Whole([]byte("of another workbook"))
	_, err = door.Write(wanted)
	says(t, err, "written a moment ago")
	if textOf(t, path) != "results" {
		t.Error("a result of the same command was replaced")
	}
	door = NewDoor()
	wanted.Data = Whole([]byte("results"))
	if written, err := door.Write(wanted); err != nil || written {
		t.Error("the very same was written again", written, err)
	}
	wanted.Data = Whole([]byte("of another workbook"))
	_, err = door.Write(wanted)
	says(t, err, "written a moment ago")
	onlyThere(t, folder, "results.xlsx")
}

// What can't be written leaves nothing behind and says what to do.
func TestDoorRefusesWhatIsNoFileToWrite(t *testing.T) {
	folder := t.TempDir()
	in := func(name string) string { return filepath.Join(folder, name) }
	if err := os.Mkdir(in("taken.xlsx"), 0o700); err != nil {
		t.Fatal(err)
	}
	if err := os.Symlink(in("nowhere.xlsx"), in("link.xlsx")); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(in("plain"), nil, 0o600); err != nil {
		t.Fatal(err)
	}
	for path, words := range map[string]string{
		"":                       "name a file in it",
		folder + "/":             "name a file in it",
		folder + "/..":           "name a file in it",
		in("taken.xlsx"):         "is a folder",
		in("link.xlsx"):          "is a link to another file",
		in("none/results.xlsx"):  "check that the folder exists",
		in("plain/results.xlsx"): "check that the folder exists",
		in("results.csv"):        "name it " + in("results.xlsx"),
		in("results"):            "name it " + in("results.xlsx"),
		in(strings.Repeat("long", 100) + ".xlsx"): "its name is too long",
	} {
		wanted := output(path, "results")
		wanted.Force = true
		_, err := NewDoor().Write(wanted)
		says(t, err, words)
	}
	onlyThere(t, folder, "link.xlsx", "plain", "taken.xlsx")
}

// No more people may read a result than may read each file it is made of, and its owner can work with it.
func TestDoorKeepsPermissionsNarrow(t *testing.T) {
	if runtime.GOOS == "windows" {
		t.Skip("Windows has other permissions")
	}
	for _, row := range []struct{ first, second, earlier, want fs.FileMode }{
		{0o644, 0o644, 0, 0o644},
		{0o600, 0o644, 0, 0o600},
		{0o644, 0o600, 0, 0o600},
		{0o444, 0o444, 0, 0o644},
		{0o755, 0o755, 0, 0o644},
		{0o644, 0o644, 0o600, 0o600},
		{0o600, 0o600, 0o644, 0o600},
	} {
		first, second := fileWith(t, "fair.xlsx", "1", 0o600), fileWith(t, "roster.xlsx", "2", 0o600)
		path := filepath.Join(t.TempDir(), "results.xlsx")
		if row.earlier != 0 {
			path = fileWith(t, "results.xlsx", "earlier", row.earlier)
		}
		for file, permissions := range map[string]fs.FileMode{first: row.first, second: row.second} {
			if err := os.Chmod(file, permissions); err != nil {
				t.Fatal(err)
			}
		}
		wanted := output(path, "results")
		wanted.MadeOf, wanted.Force = []string{first, second, ""}, true
		if _, err := NewDoor().Write(wanted); err != nil {
			t.Fatal(err)
		}
		info, err := os.Stat(path)
		if err != nil || info.Mode().Perm() != row.want {
			t.Errorf("made of %o and %o over %o it is %o, not %o (%v)", row.first, row.second, row.earlier, info.Mode().Perm(), row.want, err)
		}
		log := filepath.Join(t.TempDir(), "log.jsonl")
		file, err := NewDoor(first, second).Log(log)
		if err != nil {
			t.Fatal(err)
		}
		_ = file.Close()
		if info, err = os.Stat(log); err != nil || row.earlier == 0 && info.Mode().Perm() != row.want {
			t.Errorf("the log of %o and %o is %o (%v)", row.first, row.second, info.Mode().Perm(), err)
		}
	}
}

// A log is added to where it is an earlier one of ours; any other file is left alone.
func TestDoorAddsToItsOwnLogsAlone(t *testing.T) {
	for text, ours := range map[string]bool{
		"": true,
		`{"level":"info","program":"railbook"}` + "\n":                                 true,
		`{"level":"info","program":"railbook"}` + "\n{cut off":                         true,
		`{"level":"info","program":"railbook"}` + "\n" + strings.Repeat("{}\n", 1<<15): true, // longer than what is looked into
		`{"level":"info","program":"other"}` + "\n":                                    false,
		`{"level":"info"}` + "\n":                                                      false,
		`{"program":"railbook"}`:                                                       false,
		"notes of the office\n":                                                        false,
		"Tag,HCW\n1,800\n":                                                             false,
	} {
		path := fileWith(t, "run.log", text, 0o600)
		file, err := NewDoor().Log(path)
		if !ours {
			says(t, err, "no earlier log of railbook")
			if textOf(t, path) != text {
				t.Errorf("%q was changed", text)
			}
			continue
		}
		if err != nil {
			t.Errorf("%q: %v", text, err)
			continue
		}
		if _, err := file.Write([]byte("{}\n")); err != nil {
			t.Fatal(err)
		}
		_ = file.Close()
		if got := textOf(t, path); !strings.HasPrefix(got, text) || text != "" && !strings.HasSuffix(got, "\n{}\n") {
			t.Errorf("%q became %q", text, got)
		}
	}
	for _, name := range []string{"log.xlsx", "log.csv", "log", "log.pdf"} {
		path := filepath.Join(t.TempDir(), name)
		_, err := NewDoor().Log(path)
		says(t, err, "name it ")
		onlyThere(t, filepath.Dir(path))
	}
}

// What a killed process left goes with the next file written to the folder; what is being written by a living one stays.
func TestDoorSweepsWhatIsStale(t *testing.T) {
	folder := t.TempDir()
	living, err := newTemporary(folder, 0o600)
	if err != nil {
		t.Fatal(err)
	}
	for _, name := range []string{".railbook-0123456789abcdef.part", ".railbook-notes.txt", "other.part"} {
		if err := os.WriteFile(filepath.Join(folder, name), []byte("Teasel Marrow"), 0o600); err != nil {
			t.Fatal(err)
		}
	}
	if _, err := NewDoor().Write(output(filepath.Join(folder, "results.xlsx"), "results")); err != nil {
		t.Fatal(err)
	}
	onlyThere(t, folder, filepath.Base(living.path), ".railbook-notes.txt", "other.part", "results.xlsx")
	living.remove()
	onlyThere(t, folder, ".railbook-notes.txt", "other.part", "results.xlsx")
}

// Another program's file that appears between the look and the writing is not replaced.
func TestDoorReplacesNothingThatCameMeanwhile(t *testing.T) {
	wanted := output(filepath.Join(t.TempDir(), "results.xlsx"), "results")
	made, err := writeTemporary(wanted)
	if err != nil {
		t.Fatal(err)
	}
	defer made.remove()
	if err := os.WriteFile(wanted.Path, []byte("another's"), 0o600); err != nil {
		t.Fatal(err)
	}
	says(t, made.rename(wanted, false), "by another program a moment ago")
	if textOf(t, wanted.Path) != "another's" {
		t.Error("it was replaced")
	}
}

// makers are the functions that make, change or remove files, or start programs that do; the library's way of saving is one.
var makers = map[string][]string{
	"os": {
		"Create", "CreateTemp", "WriteFile", "OpenFile", "Mkdir", "MkdirAll", "MkdirTemp", "Rename", "Link", "Symlink", "Remove", "RemoveAll",
		"Truncate", "Chmod", "Chown", "Chtimes", "CopyFS", "OpenRoot", "NewFile",
	},
	"exec":    {"Command", "CommandContext"},
	"ioutil":  {"WriteFile", "TempFile", "TempDir"},
	"syscall": {"Open", "Creat", "Mkdir", "Rename", "Link", "Symlink", "Unlink"},
}

// No file is made but through the door.
func TestNothingElseMakesFiles(t *testing.T) {
	root := filepath.Join("..")
	for {
		if _, err := os.Stat(filepath.Join(root, "go.mod")); err == nil {
			break
		}
		root = filepath.Join(root, "..")
	}
	here, err := os.Getwd()
	if err != nil {
		t.Fatal(err)
	}
	read := 0
	err = filepath.WalkDir(root, func(path string, entry fs.DirEntry, err error) error {
		if err != nil || entry.IsDir() || filepath.Ext(path) != ".go" || strings.HasSuffix(path, "_test.go") || strings.Contains(path, "testdata") || strings.Contains(path, "sheetstest") {
			return err
		}
		if own, err := filepath.Abs(path); err != nil || filepath.Dir(own) == here && doorFiles[entry.Name()] {
			return err
		}
		read++
		for _, found := range makersIn(t, path) {
			t.Errorf("%s makes or changes a file, which the door alone may do", found)
		}
		return nil
	})
	if err != nil || read < 100 {
		t.Errorf("%d files were read, %v", read, err)
	}
}

var doorFiles = map[string]bool{"door.go": true, "temporary.go": true, "system_unix.go": true, "system_windows.go": true}

func makersIn(t *testing.T, path string) (found []string) {
	t.Helper()
	files := gotoken.NewFileSet()
	parsed, err := parser.ParseFile(files, path, nil, 0)
	if err != nil {
		t.Fatal(err)
	}
	ast.Inspect(parsed, func(node ast.Node) bool {
		selector, ok := node.(*ast.SelectorExpr)
		if !ok {
			return true
		}
		at := files.Position(selector.Pos()).String()
		if of, named := selector.X.(*ast.Ident); named {
			for _, name := range makers[of.Name] {
				if selector.Sel.Name == name {
					found = append(found, at+": "+of.Name+"."+name)
				}
			}
		}
		if name := selector.Sel.Name; name == "SaveAs" || name == "Save" {
			found = append(found, at+": "+name)
		}
		return true
	})
	return found
}

// A pipe is neither replaced nor waited for.
func TestDoorRefusesPipes(t *testing.T) {
	path := filepath.Join(t.TempDir(), "pipe.xlsx")
	if err := exec.Command("mkfifo", path).Run(); err != nil {
		t.Skip("no pipes can be made here")
	}
	wanted := output(path, "results")
	wanted.Force = true
	_, err := NewDoor().Write(wanted)
	says(t, err, "is no file but a device or a pipe")
	log := filepath.Join(filepath.Dir(path), "pipe.log")
	if err := os.Rename(path, log); err != nil {
		t.Fatal(err)
	}
	_, err = NewDoor().Log(log)
	says(t, err, "is no file but a device or a pipe")
}
