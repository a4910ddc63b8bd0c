package rules

import (
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
)

// What one species needs stands in grading and in the tables. Outside of them no code names a species: these four names are for
// grading, whose files they are, and for tests.
func TestNoOtherCodeNamesASpecies(t *testing.T) {
	named := regexp.MustCompile(`(?i)\b(` + strings.Join(SpeciesNames(), "|") + `)s?\b`)
	shown := regexp.MustCompile(`=92\.50|a word for|a brand of`) // what a message shows as an example
	files := token.NewFileSet()
	err := filepath.WalkDir("..", func(path string, entry fs.DirEntry, err error) error {
		if err != nil || !strings.HasSuffix(path, ".go") || strings.HasSuffix(path, "_test.go") {
			return err
		}
		at := filepath.ToSlash(path)
		if strings.HasPrefix(at, "../grading/") || strings.HasPrefix(at, "../workbook/sheets/sheetstest/") || at == "../rules/species.go" {
			return nil
		}
		file, err := parser.ParseFile(files, path, nil, 0)
		if err != nil {
			return err
		}
		ast.Inspect(file, func(node ast.Node) bool {
			text := ""
			switch node := node.(type) {
			case *ast.BasicLit:
				text = node.Value
			case *ast.Ident:
				text = node.Name
			}
			if named.MatchString(text) && !shown.MatchString(text) {
				t.Errorf("%s names a species: %s", files.Position(node.Pos()), text)
			}
			return true
		})
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
}
