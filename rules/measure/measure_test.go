package measure

import (
	"go/ast"
	"go/parser"
	"go/token"
	"maps"
	"strings"
	"testing"
	"unicode"

	"pgregory.net/rapid"
)

// Each constant's number is the number of its line in measures.csv. The constants are read from the source itself, so
// that one put in the wrong place is seen; a constant is called as its measure, or by the other name given here.
func TestConstantsAreTheTablesLines(t *testing.T) {
	otherwise := map[string]string{
		"class": "ClassName", "species": "SpeciesName", "basis": "BasisName", "value": "CarcassValue", "bullock": "Bullock",
		"kidney, pelvic and heart fat": "InternalFat", "fat-free lean percent": "LeanPercent", "lean equation": "LeanEquationName",
		"pork carcass grade": "PorkGrade", "carcass weight per day of age": "CarcassWeightPerDay",
		"retail cuts per day of age": "RetailCutsPerDay",
	}
	names := constantNames(t)
	definitions := Definitions()
	if len(names) != len(definitions) || len(definitions) != int(standardEnd)-1 {
		t.Fatalf("%d constants up to %d for %d lines", len(names), standardEnd-1, len(definitions))
	}
	for at, definition := range definitions {
		want := otherwise[definition.Name]
		if want == "" {
			want = runTogether(definition.Name)
		}
		if names[at] != want {
			t.Errorf("constant %d is %s; line %d is %q (%s)", at+1, names[at], at+1, definition.Name, want)
		}
	}
	for id, name := range map[ID]string{
		Tag: "tag", HotCarcassWeight: "hot carcass weight", YieldGrade: "yield grade", Points: "points", ChillLoss: "chill loss",
		LastRibFat: "last-rib fat", BodyWallThickness: "body wall thickness", ConformationScore: "conformation score",
	} {
		if id.String() != name || Standard().ByName(name) != id {
			t.Errorf("%d is %q and %q is %d", id, id.String(), name, Standard().ByName(name))
		}
	}
}

// constantNames gives the names of the measures' constants in the order of the source.
func constantNames(t *testing.T) (names []string) {
	file, err := parser.ParseFile(token.NewFileSet(), "standard.go", nil, 0)
	if err != nil {
		t.Fatal(err)
	}
	ast.Inspect(file, func(node ast.Node) bool {
		if spec, ok := node.(*ast.ValueSpec); ok && spec.Names[0].Name != "None" && spec.Names[0].Name != "standardEnd" {
			names = append(names, spec.Names[0].Name)
		}
		return true
	})
	return names
}

// runTogether writes a measure's name as a constant is called: LastRibFat.
func runTogether(name string) string {
	var text strings.Builder
	for _, word := range strings.FieldsFunc(name, func(r rune) bool { return !unicode.IsLetter(r) && !unicode.IsDigit(r) }) {
		text.WriteString(strings.ToUpper(word[:1]) + word[1:])
	}
	return text.String()
}

func TestTableWithOwnMeasures(t *testing.T) {
	table, err := Standard().With(Definition{Name: "points carcass merit", Kind: KindNumber})
	if err != nil {
		t.Fatal(err)
	}
	own := table.ByName("points carcass merit")
	if own != standardEnd || table.Name(own) != "points carcass merit" || table.ByName("tag") != Tag {
		t.Errorf("the measure is number %d, named %q", own, table.Name(own))
	}
	if Standard().ByName("points carcass merit") != None || own.String() != "" {
		t.Error("the standard table knows a rulebook's own measure")
	}
	if _, err := table.With(Definition{Name: "tag"}); err == nil {
		t.Error("a name may stand twice")
	}
	if _, ok := table.Define(own + 1); ok || table.Name(None) != "" {
		t.Error("a number of no measure is defined")
	}
	full := Standard()
	for err == nil {
		full, err = full.With(Definition{Name: strings.Repeat("x", len(full.definitions))})
		if err == nil && len(full.definitions) > Most {
			t.Fatal("more measures than a set holds")
		}
	}
}

// A Row keeps what a map would keep, in the order of the numbers.
func TestRowIsAMapInOrder(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var row Row[int]
		model := map[ID]int{}
		for range rapid.IntRange(0, 40).Draw(t, "steps") {
			id := ID(rapid.IntRange(1, Most).Draw(t, "measure"))
			if rapid.Bool().Draw(t, "set") {
				value := rapid.Int().Draw(t, "value")
				row.Set(id, value)
				model[id] = value
			} else {
				row.Delete(id)
				delete(model, id)
			}
			before := row.Clone()
			value, ok := row.Get(id)
			if want, has := model[id]; value != want || ok != has {
				t.Fatalf("%d is %d, %v", id, value, ok)
			}
			before.Set(id, 7)
			if again, ok := row.Get(id); again != value || ok != (value == again && row.present.Has(id)) {
				t.Fatal("a change of a clone reached the row")
			}
		}
		last := None
		for id := range row.All() {
			if id <= last {
				t.Fatalf("%d comes after %d", id, last)
			}
			last = id
		}
		if !maps.Equal(maps.Collect(row.All()), model) || row.Len() != len(model) {
			t.Fatalf("%v, not %v", maps.Collect(row.All()), model)
		}
	})
}
