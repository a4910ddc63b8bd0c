package main

import (
	"archive/zip"
	"bytes"
	"compress/flate"
	"encoding/json"
	"errors"
	"fmt"
	"hash/crc32"
	"io/fs"
	"os"
	"os/exec"
	"path/filepath"
	"reflect"
	"runtime"
	"strconv"
	"strings"
	"sync"
	"syscall"
	"testing"
	"time"

	"railbook/workbook/sheets/sheetstest/python"

	"github.com/rogpeppe/go-internal/testscript"
)

func TestMain(m *testing.M) {
	testscript.Main(m, map[string]func(){"railbook": main})
}

// TestScripts runs the whole-program cases: each file of testdata/script is a sequence of commands with what they
// must print, write and return. The commands of our own are described at scriptCommands.
func TestScripts(t *testing.T) {
	testdata, err := filepath.Abs("testdata")
	if err != nil {
		t.Fatal(err)
	}
	testscript.Run(t, testscript.Params{
		Dir:                 "testdata/script",
		RequireUniqueNames:  true,
		RequireExplicitExec: false,
		Setup: func(env *testscript.Env) error {
			env.Setenv("TESTDATA", testdata)
			env.Setenv("DEMO", filepath.Join(testdata, "demo"))
			env.Setenv("NO_COLOR", "1")
			env.Setenv("COLUMNS", "1000") // a message is found in one line
			return nil
		},
		Condition: toolIsThere,
		Cmds:      scriptCommands,
	})
}

// scriptCommands are the script commands of our own:
//
//	status N COMMAND…        runs the command, which must exit with status N
//	unchanged INPUT OUTPUT [SHEET!CELL…]   every original cell, style, merge, comment and width is in the output but the cells named
//	cells FILE SHEET RANGE   prints the cached values, a line a row, cells separated by " | "
//	formulas FILE SHEET RANGE   the same with the formulas
//	charts FILE              prints each chart and how many of its cells hold a value
//	links FILE SHEET         prints the cells that lead to other files, and where
//	nothing FOLDER           the folder is empty
//	setcell FILE SHEET [CELL VALUE]...   types values into cells as openpyxl does
//	fill FILE OUT WHAT [WEIGHTS]   fills in a blank rail sheet with plausible values
//	validations FILE SHEET   prints the entry rules of a sheet, a line each
//	recalculate FILE         LibreOffice recalculates everything; no cell of ours may change in value or type
//	resave FILE OUT          LibreOffice opens FILE and saves it as OUT, in the format OUT's ending names
//	pages FILE               prints how many pages FILE prints on; no page may show #### or an error value
//	sheet TABLE.csv OUT SHEET   makes a workbook of a text table
//	decide FILE DECISIONS.csv   fills in the Judge review sheet
//	judge FILE ENTRIES.csv   plays a judge who settles the Judge review sheet, and prints how many cells that takes
//	bomb OUT [PART]          makes a small workbook that unpacks to more than a gigabyte, all of it in PART where one is named
//	within MB STATUS COMMAND…   runs the command, which must exit with STATUS and never take more than so much memory
//	build OUT FOLDER PLAN    builds the program with the Go files of FOLDER added, PLAN put into the list of plans, and the
//	                         rows of FOLDER's tables below those of the program's own
//	samebytes A B            the two files are the same, byte for byte
var scriptCommands = map[string]func(ts *testscript.TestScript, neg bool, args []string){
	"status":      status,
	"samebytes":   sameBytes,
	"bomb":        bomb,
	"within":      within,
	"build":       buildWithSpecies,
	"unchanged":   pythonProgram("unchanged.py"),
	"cells":       pythonProgram("cells.py", "values"),
	"formulas":    pythonProgram("cells.py", "formulas"),
	"charts":      pythonProgram("charts.py"),
	"links":       pythonProgram("links.py"),
	"nothing":     nothing,
	"setcell":     pythonProgram("setcell.py"),
	"fill":        pythonProgram("fill.py"),
	"validations": pythonProgram("validations.py"),
	"sheet":       pythonProgram("sheet.py"),
	"decide":      pythonProgram("decide.py"),
	"judge":       pythonProgram("judge.py"),
	"recalculate": pythonProgram("recalculate.py"),
	"resave":      pythonProgram("resave.py"),
	"seal":        pythonProgram("seal.py"),
	"swaprows":    pythonProgram("swaprows.py"),
	"pages":       pythonProgram("pages.py"),
}

// pythonProgram gives a command that runs a program of testdata, which reads workbooks through other eyes than ours.
func pythonProgram(name string, first ...string) func(ts *testscript.TestScript, neg bool, args []string) {
	return func(ts *testscript.TestScript, neg bool, args []string) {
		testdata := ts.Getenv("TESTDATA")
		program := append(append([]string{filepath.Join(testdata, name)}, first...), args...)
		printed, fault, err := python.Served(filepath.Join(testdata, "serve.py"), ts.MkAbs("."), program...)
		ts.Check(err)
		fmt.Fprint(ts.Stdout(), printed)
		fmt.Fprint(ts.Stderr(), fault)
		switch {
		case neg && fault == "":
			ts.Fatalf("%s succeeded, which was not wanted", name)
		case !neg && fault != "":
			ts.Fatalf("%s failed", name)
		}
	}
}

func status(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) < 2 {
		ts.Fatalf("usage: status N COMMAND [ARGUMENT…]")
	}
	want, err := strconv.Atoi(args[0])
	ts.Check(err)
	got := 0
	if err := ts.Exec(args[1], args[2:]...); err != nil {
		var exit *exec.ExitError
		if !errors.As(err, &exit) {
			ts.Fatalf("%v", err)
		}
		got = exit.ExitCode()
	}
	if got != want {
		ts.Fatalf("exit status %d, want %d", got, want)
	}
}

func sameBytes(ts *testscript.TestScript, neg bool, args []string) {
	if len(args) != 2 {
		ts.Fatalf("usage: samebytes A B")
	}
	first, err := os.ReadFile(ts.MkAbs(args[0]))
	ts.Check(err)
	second, err := os.ReadFile(ts.MkAbs(args[1]))
	ts.Check(err)
	if bytes.Equal(first, second) == neg {
		ts.Fatalf("%s and %s: same bytes is %v", args[0], args[1], !neg)
	}
}

func nothing(ts *testscript.TestScript, neg bool, args []string) {
	entries, err := os.ReadDir(ts.MkAbs(args[0]))
	ts.Check(err)
	if (len(entries) == 0) == neg {
		ts.Fatalf("in %s: %v", args[0], entries)
	}
}

// within asks the system for the most memory that a command took.
func within(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) < 3 {
		ts.Fatalf("usage: within MB STATUS COMMAND [ARGUMENT…]")
	}
	most, err := strconv.Atoi(args[0])
	ts.Check(err)
	want, err := strconv.Atoi(args[1])
	ts.Check(err)
	program := ""
	for _, folder := range filepath.SplitList(ts.Getenv("PATH")) {
		if _, err := os.Stat(filepath.Join(folder, args[2])); err == nil && program == "" {
			program = filepath.Join(folder, args[2])
		}
	}
	command := exec.Command(program, args[3:]...)
	command.Dir, command.Env = ts.MkAbs("."), append(os.Environ(), "PATH="+ts.Getenv("PATH"))
	said, err := command.CombinedOutput()
	ts.Logf("%s", said)
	if command.ProcessState == nil {
		ts.Fatalf("%v", err)
	}
	if got := command.ProcessState.ExitCode(); got != want {
		ts.Fatalf("exit status %d, want %d", got, want)
	}
	if took, known := peakMemory(command.ProcessState); known && took > most {
		ts.Fatalf("%d MB of memory, more than %d", took, most)
	}
}

// peakMemory gives the most memory a process had, in megabytes, on systems that say so in kilobytes.
func peakMemory(state *os.ProcessState) (megabytes int, known bool) {
	usage := reflect.ValueOf(state.SysUsage())
	if runtime.GOOS != "linux" || usage.Kind() != reflect.Pointer {
		return 0, false
	}
	return int(usage.Elem().FieldByName("Maxrss").Int() >> 10), true
}

// bomb writes an archive of parts of a hundred megabytes of blanks each, which share one packed form, or of one such part of
// a gigabyte.
func bomb(ts *testscript.TestScript, _ bool, args []string) {
	var packed bytes.Buffer
	blanks := bytes.Repeat([]byte(" "), 1<<20)
	deflater, err := flate.NewWriter(&packed, flate.BestSpeed)
	ts.Check(err)
	sum := crc32.NewIEEE()
	size := 100
	if len(args) > 1 {
		size = 1024
	}
	for range size {
		_, _ = sum.Write(blanks)
		_, err = deflater.Write(blanks)
		ts.Check(err)
	}
	ts.Check(deflater.Close())
	file, err := os.Create(ts.MkAbs(args[0]))
	ts.Check(err)
	archive := zip.NewWriter(file)
	names := []string{"[Content_Types].xml", "_rels/.rels", "xl/workbook.xml", "xl/_rels/workbook.xml.rels"}
	for number := range 7 {
		names = append(names, fmt.Sprintf("xl/worksheets/sheet%d.xml", number+1))
	}
	if len(args) > 1 {
		names = args[1:]
	}
	for _, name := range names {
		part, err := archive.CreateRaw(&zip.FileHeader{
			Name: name, Method: zip.Deflate, CRC32: sum.Sum32(),
			CompressedSize64: uint64(packed.Len()), UncompressedSize64: uint64(size) << 20,
		})
		ts.Check(err)
		_, err = part.Write(packed.Bytes())
		ts.Check(err)
	}
	ts.Check(archive.Close())
	ts.Check(file.Close())
}

// buildWithSpecies lays a further species over the program's own files and builds it.
func buildWithSpecies(ts *testscript.TestScript, _ bool, args []string) {
	out, folder, plan := ts.MkAbs(args[0]), ts.MkAbs(args[1]), args[2]
	laid, overlay := ts.MkAbs(args[1]+"-laid"), map[string]string{}
	ts.Check(os.MkdirAll(laid, 0o700))
	lay := func(name string, text []byte) {
		own, err := filepath.Abs(name)
		ts.Check(err)
		overlay[own] = filepath.Join(laid, filepath.Base(name))
		ts.Check(os.WriteFile(overlay[own], text, 0o600))
	}
	ts.Check(fs.WalkDir(os.DirFS(folder), ".", func(name string, entry fs.DirEntry, err error) error {
		if err != nil || entry.IsDir() {
			return err
		}
		text, err := os.ReadFile(filepath.Join(folder, name))
		if err == nil && filepath.Ext(name) == ".csv" {
			var own []byte
			own, err = os.ReadFile(name)
			text = append(own, text...)
		}
		lay(name, text)
		return err
	}))
	methods, err := os.ReadFile("grading/method.go")
	ts.Check(err)
	before, after, _ := strings.Cut(string(methods), "= register(")
	lay("grading/method.go", []byte(before+"= register("+strings.Replace(after, "\n)", "\n\t"+plan+",\n)", 1)))
	list, err := json.Marshal(map[string]any{"Replace": overlay})
	ts.Check(err)
	file := filepath.Join(laid, "overlay.json")
	ts.Check(os.WriteFile(file, list, 0o600))
	said, err := exec.Command("go", "build", "-overlay", file, "-o", out, ".").CombinedOutput()
	if err != nil {
		ts.Fatalf("%v\n%s", err, said)
	}
}

var libreOffice = sync.OnceValues(func() (string, error) {
	for _, program := range []string{"soffice", "pdftotext"} {
		if _, err := exec.LookPath(program); err != nil {
			return "", fmt.Errorf("no %s: install the packages libreoffice-calc and poppler-utils", program)
		}
	}
	return "soffice", nil
})

// toolIsThere answers the conditions [openpyxl] and [libreoffice], and [long], which holds where RAILBOOK_LONG is set. Where CI
// is set a missing tool is a failure, so that nothing is skipped there unseen.
func toolIsThere(condition string) (bool, error) {
	if condition == "long" {
		return os.Getenv("RAILBOOK_LONG") != "", nil
	}
	find, known := map[string]func() (string, error){
		"openpyxl": python.Find, "libreoffice": libreOffice,
	}[condition]
	if !known {
		return false, fmt.Errorf("unknown condition %q", condition)
	}
	_, err := find()
	if err != nil && os.Getenv("CI") == "" {
		fmt.Fprintln(os.Stderr, "some whole-program cases are skipped:", err)
		return false, nil
	}
	return err == nil, err
}

// TestKilledAtAnyTime ends the program in the middle of its work, as a power cut (SIGKILL) or a person (SIGTERM) does. The
// input stays as it was, the results are the earlier ones or the new ones, and nothing of either is left anywhere else: at
// once where the program was told, with the next run where it was not.
func TestKilledAtAnyTime(t *testing.T) {
	if runtime.GOOS == "windows" {
		t.Skip("Windows has no such signals")
	}
	kills := 6
	if os.Getenv("RAILBOOK_LONG") != "" {
		kills = 100
	}
	program, err := os.Executable()
	if err != nil {
		t.Fatal(err)
	}
	folder, temporary := t.TempDir(), t.TempDir()
	grade := func(options ...string) *exec.Cmd {
		arguments := append([]string{"railbook", "grade", "--force", "fair.xlsx"}, options...)
		return &exec.Cmd{Path: program, Args: arguments, Dir: folder, Env: append(os.Environ(), "TMPDIR="+temporary)}
	}
	read := func(name string) []byte {
		data, err := os.ReadFile(filepath.Join(folder, name))
		if err != nil {
			t.Fatal(err)
		}
		return data
	}
	holds := func(folder string, names ...string) {
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
			t.Errorf("in %s are %v, not %v", folder, found, names)
		}
	}
	input, err := os.ReadFile(filepath.Join("testdata", "demo", "fair.xlsx"))
	if err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(filepath.Join(folder, "fair.xlsx"), input, 0o600); err != nil {
		t.Fatal(err)
	}
	states := make([][]byte, 2)
	prices := [][]string{{"--base-price", "300"}, {"--base-price", "310"}}
	var took time.Duration
	for i, price := range prices {
		began := time.Now()
		if said, err := grade(price...).CombinedOutput(); err != nil {
			t.Fatalf("%v\n%s", err, said)
		}
		took, states[i] = time.Since(began), read("fair-results.xlsx")
	}
	if bytes.Equal(states[0], states[1]) {
		t.Fatal("the two gradings are the same")
	}
	for kill := range kills {
		signal := []os.Signal{syscall.SIGKILL, syscall.SIGTERM}[kill%2]
		running := grade(prices[kill/2%2]...)
		if err := running.Start(); err != nil {
			t.Fatal(err)
		}
		time.Sleep(took * time.Duration(kill+1) / time.Duration(kills))
		_ = running.Process.Signal(signal) // it may have ended already
		_ = running.Wait()
		if got := read("fair-results.xlsx"); !bytes.Equal(got, states[0]) && !bytes.Equal(got, states[1]) {
			t.Fatalf("after %v %d the results are neither the earlier ones nor the new ones", signal, kill)
		}
		if !bytes.Equal(read("fair.xlsx"), input) {
			t.Fatalf("after %v %d the input is another", signal, kill)
		}
		holds(temporary)
		if signal == syscall.SIGTERM && kill > 0 {
			if said, err := grade(prices[1-kill/2%2]...).CombinedOutput(); err != nil {
				t.Fatalf("%v\n%s", err, said)
			}
			holds(folder, "fair-results.xlsx", "fair.xlsx")
		}
	}
}

// TestManyProgramsOneName starts several gradings to one name at once, each with its own prices: one is there whole, every
// other is told so, and nothing else is left.
func TestManyProgramsOneName(t *testing.T) {
	program, err := os.Executable()
	if err != nil {
		t.Fatal(err)
	}
	input, err := os.ReadFile(filepath.Join("testdata", "demo", "lamb.xlsx"))
	if err != nil {
		t.Fatal(err)
	}
	for round := range 3 {
		folder := t.TempDir()
		if err := os.WriteFile(filepath.Join(folder, "lamb.xlsx"), input, 0o600); err != nil {
			t.Fatal(err)
		}
		const programs = 4
		said := make([]bytes.Buffer, programs)
		running := make([]*exec.Cmd, programs)
		for i := range running {
			price := strconv.Itoa(300 + i)
			running[i] = &exec.Cmd{
				Path: program, Args: []string{"railbook", "grade", "lamb.xlsx", "--base-price", price}, Dir: folder,
				Env: os.Environ(), Stdout: &said[i], Stderr: &said[i],
			}
			if err := running[i].Start(); err != nil {
				t.Fatal(err)
			}
		}
		won := 0
		for i, command := range running {
			err := command.Wait()
			switch text := said[i].String(); {
			case err == nil:
				won++
			case command.ProcessState.ExitCode() != 1 || !strings.Contains(text, "lamb-results.xlsx"):
				t.Errorf("round %d: %v\n%s", round, err, text)
			}
		}
		entries, err := os.ReadDir(folder)
		if err != nil {
			t.Fatal(err)
		}
		if won != 1 || len(entries) != 2 {
			t.Errorf("round %d: %d won, and the folder holds %v", round, won, entries)
		}
		again := &exec.Cmd{Path: program, Args: []string{"railbook", "grade", "lamb-results.xlsx"}, Dir: folder, Env: os.Environ()}
		if text, err := again.CombinedOutput(); err != nil || !strings.Contains(string(text), "changed") {
			t.Errorf("round %d: the winner's results are not whole: %v\n%s", round, err, text)
		}
	}
}
