package measure

import (
	"fmt"
	"go/ast"
	"go/parser"
	"go/token"
	"maps"
	"slices"
	"strings"
	"testing"
	"unicode"

	"pgregory.net/rapid"
)

// Each standard measure is declared once, in the order of measures.csv, and called as its line there, or by the other name
// given here. The names are read from the source itself, so that one that stands for another measure is seen.
func TestStandardMeasuresAreTheTablesLines(t *testing.T) {
	otherwise := map[string]string{
		"class": "ClassName", "species": "SpeciesName", "basis": "BasisName", "value": "CarcassValue", "bullock": "Bullock",
		"kidney, pelvic and heart fat": "InternalFat", "fat-free lean percent": "LeanPercent", "lean equation": "LeanEquationName",
		"pork carcass grade": "PorkGrade", "carcass weight per day of age": "CarcassWeightPerDay",
		"retail cuts per day of age": "RetailCutsPerDay",
	}
	declared := declarations(t)
	definitions := Standard().Definitions()
	if len(declared) != len(definitions) {
		t.Fatalf("%d are declared for %d lines", len(declared), len(definitions))
	}
	for at, definition := range definitions {
		want := otherwise[definition.Name]
		if want == "" {
			want = runTogether(definition.Name)
		}
		if declared[at] != [2]string{want, definition.Name} {
			t.Errorf("declaration %d is %s; line %d is %q (%s)", at+1, declared[at], at+1, definition.Name, want)
		}
	}
	for id, name := range map[ID]string{
		Tag: "tag", HotCarcassWeight: "hot carcass weight", YieldGrade: "yield grade", Points: "points", ChillLoss: "chill loss",
		LastRibFat: "last-rib fat", BodyWallThickness: "body wall thickness", ConformationScore: "conformation score", None: "",
	} {
		if id.String() != name || Standard().ByName(name) != id {
			t.Errorf("%q is %q", name, id.String())
		}
	}
}

// declarations gives the variables of the standard measures in the order of the source, each with the name it asks for.
func declarations(t *testing.T) (declared [][2]string) {
	file, err := parser.ParseFile(token.NewFileSet(), "standard.go", nil, 0)
	if err != nil {
		t.Fatal(err)
	}
	ast.Inspect(file, func(node ast.Node) bool {
		spec, ok := node.(*ast.ValueSpec)
		if !ok || len(spec.Values) == 0 {
			return true
		}
		if call, ok := spec.Values[0].(*ast.CallExpr); ok {
			if name, ok := call.Args[0].(*ast.BasicLit); ok {
				declared = append(declared, [2]string{spec.Names[0].Name, strings.Trim(name.Value, `"`)})
			}
		}
		return true
	})
	return declared
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
	own := Definition{Name: "rib color", Kind: KindNumber, Heading: "Rib color"}
	table, err := Standard().With(own)
	if err != nil {
		t.Fatal(err)
	}
	id := table.ByName("rib color")
	if definition, ok := Define(id); !ok || definition.ID != id || definition.Heading != "Rib color" || id.String() != "rib color" {
		t.Errorf("the rulebook's own measure is %+v, named %q", definition, id)
	}
	if table.ByName("tag") != Tag || len(table.Own()) != 1 || table.Own()[0].ID != id || len(Standard().Own()) != 0 {
		t.Errorf("of its own the table has %v", table.Own())
	}
	if Standard().ByName("rib color") != None {
		t.Error("the standard table knows a rulebook's own measure")
	}
	if _, err := table.With(Definition{Name: "tag"}); err == nil {
		t.Error("a name may stand twice")
	}
	if _, ok := Define(None); ok {
		t.Error("no measure is defined")
	}
	full := Standard()
	for err == nil {
		full, err = full.With(Definition{Name: strings.Repeat("x", len(full.definitions))})
		if err == nil && len(full.definitions) > Most {
			t.Fatal("more measures than a set holds")
		}
	}
}

// What one rulebook declares is another measure than what a second one does, though both come first after the standard ones.
func TestRowTellsTheOwnMeasuresOfTwoRulebooksApart(t *testing.T) {
	colour, err := Standard().With(Definition{Name: "rib color"})
	if err != nil {
		t.Fatal(err)
	}
	texture, err := Standard().With(Definition{Name: "texture"})
	if err != nil {
		t.Fatal(err)
	}
	var row Row[int]
	row.Set(colour.ByName("rib color"), 3)
	row.Set(Tag, 1)
	if got, ok := row.Get(colour.ByName("rib color")); got != 3 || !ok {
		t.Errorf("the own measure is %d, %v", got, ok)
	}
	if got, ok := row.Get(texture.ByName("texture")); ok {
		t.Errorf("another rulebook's measure is %d", got)
	}
	row.Delete(texture.ByName("texture"))
	if names := fmt.Sprint(slices.Collect(maps.Keys(maps.Collect(row.All())))); !strings.Contains(names, "rib color") || !strings.Contains(names, "tag") {
		t.Errorf("the row holds %s", names)
	}
	row.Delete(colour.ByName("rib color"))
	if row.Len() != 1 || len(row.own) != 0 {
		t.Errorf("%d are left", row.Len())
	}
}

// A Row keeps what a map would keep, in the order of the numbers.
func TestRowIsAMapInOrder(t *testing.T) {
	table := Standard()
	for err := error(nil); err == nil; {
		var next *Table
		if next, err = table.With(Definition{Name: fmt.Sprint("own ", len(table.definitions))}); err == nil {
			table = next
		}
	}
	rapid.Check(t, func(t *rapid.T) {
		var row Row[int]
		model := map[ID]int{}
		for range rapid.IntRange(0, 40).Draw(t, "steps") {
			id := table.definitions[rapid.IntRange(1, Most).Draw(t, "measure")-1].ID
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
				t.Fatalf("%s is %d, %v", id, value, ok)
			}
			before.Set(id, 7)
			if again, ok := row.Get(id); again != value || ok != (value == again && row.present.Has(id)) {
				t.Fatal("a change of a clone reached the row")
			}
		}
		last := None
		for id := range row.All() {
			if id.Compare(last) <= 0 {
				t.Fatalf("%s comes after %s", id, last)
			}
			last = id
		}
		if !maps.Equal(maps.Collect(row.All()), model) || row.Len() != len(model) {
			t.Fatalf("%v, not %v", maps.Collect(row.All()), model)
		}
	})
}
