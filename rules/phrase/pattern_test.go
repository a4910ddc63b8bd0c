package phrase

import (
	"go/ast"
	"go/constant"
	"go/parser"
	"go/token"
	"go/types"
	"io/fs"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"
)

// Each pattern of the program is an expression, though none is compiled before its sheet needs it. The standard library's
// type checker works out what is put together of constants, and its regexp compiles it.
func TestPatternsCompile(t *testing.T) {
	count := 0
	err := filepath.WalkDir("../..", func(path string, entry fs.DirEntry, err error) error {
		if err != nil || !entry.IsDir() {
			return err
		}
		if name := entry.Name(); name == "testdata" || strings.HasPrefix(name, ".") && name != "." && name != ".." {
			return filepath.SkipDir
		}
		for _, pattern := range patternsOf(t, path) {
			if _, err := regexp.Compile(pattern); err != nil {
				t.Errorf("%s: %v", path, err)
			}
			count++
		}
		return nil
	})
	if err != nil || count < 100 {
		t.Errorf("%d patterns were looked at, %v", count, err)
	}
}

// patternsOf gives the expressions that a package's files make patterns of. What other packages declare is not needed for it.
func patternsOf(t *testing.T, folder string) (patterns []string) {
	t.Helper()
	set := token.NewFileSet()
	var files []*ast.File
	var calls []*ast.CallExpr
	names, _ := filepath.Glob(filepath.Join(folder, "*.go"))
	for _, name := range names {
		if strings.HasSuffix(name, "_test.go") {
			continue
		}
		file, err := parser.ParseFile(set, name, nil, parser.SkipObjectResolution)
		if err != nil {
			t.Fatal(err)
		}
		files = append(files, file)
		ast.Inspect(file, func(node ast.Node) bool {
			if call, is := node.(*ast.CallExpr); is && (isSelector(call.Fun, "phrase", "NewPattern") || isSelector(call.Fun, "phrase", "NewRarePattern")) {
				calls = append(calls, call)
			}
			return true
		})
	}
	if calls == nil {
		return nil
	}
	known := types.Info{Types: map[ast.Expr]types.TypeAndValue{}}
	lenient := types.Config{Error: func(error) {}, IgnoreFuncBodies: true}
	_, _ = lenient.Check(folder, set, files, &known)
	for _, call := range calls {
		value := known.Types[call.Args[0]].Value
		if value == nil || value.Kind() != constant.String {
			t.Errorf("%s: a pattern is made of what is no constant", set.Position(call.Pos()))
			continue
		}
		patterns = append(patterns, constant.StringVal(value))
	}
	return patterns
}

func isSelector(expression ast.Expr, from, name string) bool {
	selector, is := expression.(*ast.SelectorExpr)
	if !is || selector.Sel.Name != name {
		return false
	}
	of, is := selector.X.(*ast.Ident)
	return is && of.Name == from
}

// A pattern finds what the standard library's expression finds.
func TestPatternIsItsExpression(t *testing.T) {
	const expression = `(?i)(a+)-?(b?)`
	pattern, want := NewPattern(expression), regexp.MustCompile(expression)
	rapid.Check(t, func(t *rapid.T) {
		text := rapid.StringOfN(rapid.SampledFrom([]rune("aAb-x")), 0, 8, -1).Draw(t, "text")
		upper := strings.ToUpper
		for _, pair := range [][2]any{
			{pattern.MatchString(text), want.MatchString(text)},
			{pattern.FindString(text), want.FindString(text)},
			{pattern.FindStringIndex(text), want.FindStringIndex(text)},
			{pattern.FindStringSubmatch(text), want.FindStringSubmatch(text)},
			{pattern.FindAllString(text, 2), want.FindAllString(text, 2)},
			{pattern.FindAllStringSubmatch(text, 2), want.FindAllStringSubmatch(text, 2)},
			{pattern.FindAllStringSubmatchIndex(text, 2), want.FindAllStringSubmatchIndex(text, 2)},
			{pattern.ReplaceAllString(text, "<$2>"), want.ReplaceAllString(text, "<$2>")},
			{pattern.ReplaceAllStringFunc(text, upper), want.ReplaceAllStringFunc(text, upper)},
			{pattern.Split(text, 2), want.Split(text, 2)},
		} {
			if diff := cmp.Diff(pair[1], pair[0]); diff != "" {
				t.Fatalf("%q: %s", text, diff)
			}
		}
	})
}
