package command

import (
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"os"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/urfave/cli/v2"
)

// optionNamed finds the options that a sentence names.
var optionNamed = regexp.MustCompile(`--([a-z][a-z-]*[a-z])`)

// Every message that advises an option is said by commands that take it. Each room is given the commands that its messages come out
// of: what is read and checked is said by those that read carcasses, a file that can't be opened by all of them.
func TestAdvisedOptionsAreTaken(t *testing.T) {
	takes := map[string]map[string]bool{}
	var every []string
	app := application("test")
	for _, command := range app.Commands {
		parts := map[string]*cli.Command{command.Name: command}
		if len(command.Subcommands) > 0 {
			parts = map[string]*cli.Command{}
			for _, part := range command.Subcommands {
				parts[command.Name+" "+part.Name] = part
			}
		}
		for name, part := range parts {
			every = append(every, name)
			takes[name] = map[string]bool{}
			for _, flag := range part.Flags {
				for _, option := range flag.Names() {
					takes[name][option] = true
				}
			}
		}
	}
	reading := []string{"grade", "check"}
	said := map[string][]string{ // the longest path that a file begins with counts
		"rules": reading, "grading": reading, "validate": reading, "workbook/intake": reading,
		"workbook/plant/answers.go": {"check"}, // it names the command that wrote the list
		"workbook/examine.go":       reading,
		"workbook/last_year.go":     {"grade"},
		"workbook/office.go":        {"grade"}, // the sentence names the command
		"workbook/blanksheet.go":    {"sheet"},
		"workbook/rulebook.go":      {"grade"}, // the sentence names the command
		"workbook/report.go":        {"sign"},  // the sentence names the command
		"workbook/print.go":         {"print"},
		"workbook/xlsx/file.go":     every,
		"workbook/xlsx/door.go":     nil, // of writing: below
	}
	writing := []string{"grade", "check", "sheet", "sign", "verify", "publish", "print", "rulebook new", "rulebook compare"}
	elsewhere := map[string][]string{ // options that lead to another command, by the sentence
		"roster": {"grade"}, "second": {"grade"}, "last-year": {"grade"},
	}
	found := 0
	root := filepath.Join("..", "..")
	for _, room := range []string{"rules", "grading", "validate", "workbook"} {
		err := filepath.WalkDir(filepath.Join(root, room), func(path string, entry fs.DirEntry, err error) error {
			if err != nil || entry.IsDir() || !strings.HasSuffix(path, ".go") || strings.HasSuffix(path, "_test.go") {
				return err
			}
			name, err := filepath.Rel(root, path)
			if err != nil {
				return err
			}
			name = filepath.ToSlash(name)
			if strings.HasPrefix(name, "workbook/command/") || strings.HasPrefix(name, "workbook/sheets/sheetstest/") {
				return nil
			}
			for _, text := range literals(t, path) {
				for _, option := range optionNamed.FindAllStringSubmatch(text, -1) {
					if strings.HasPrefix(text, "--") && !strings.Contains(text, " ") {
						continue // an argument for another program
					}
					found++
					commands, known := []string(nil), false
					for room, of := range said {
						if strings.HasPrefix(name, room) && (!known || of != nil) {
							commands, known = of, true
						}
					}
					if to, leads := elsewhere[option[1]]; leads {
						commands, known = to, true
					}
					if name == "workbook/xlsx/door.go" {
						commands = writing
						if option[1] == "log" {
							commands = reading
						}
					}
					if !known {
						t.Errorf("%s advises --%s: say in this test which commands print %q", name, option[1], text)
					}
					for _, command := range commands {
						if !takes[command][option[1]] {
							t.Errorf("%s: %q advises --%s, which railbook %s does not take", name, text, option[1], command)
						}
					}
				}
			}
			return nil
		})
		if err != nil {
			t.Fatal(err)
		}
	}
	if found < 20 {
		t.Errorf("only %d messages advise an option", found)
	}
}

// literals gives the texts in a file of Go.
func literals(t *testing.T, path string) (texts []string) {
	t.Helper()
	source, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	file, err := parser.ParseFile(token.NewFileSet(), path, source, 0)
	if err != nil {
		t.Fatal(err)
	}
	ast.Inspect(file, func(node ast.Node) bool {
		if literal, is := node.(*ast.BasicLit); is && literal.Kind == token.STRING {
			if text, err := strconv.Unquote(literal.Value); err == nil {
				texts = append(texts, text)
			}
		}
		return true
	})
	return texts
}
