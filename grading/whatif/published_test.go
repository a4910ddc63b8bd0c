package whatif

import (
	"encoding/csv"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/rogpeppe/go-internal/txtar"

	"railbook/rules"
)

// neverFailed are the limits of the published rule sets of which it is true that they never decide: the upper ends of scores, which
// end there (color 1 to 6, the others 1 to 3: pork quality standards poster 2010, muscling 7 CFR 54.135).
var neverFailed = map[string][]string{
	"swine-contest-minimum": {"muscling score <= 3", "lean color <= 6", "firmness <= 3", "wetness <= 3"},
}

// What is said when a rulebook is checked: the twenty rule sets that boards could have typed have no fault, nothing of them does
// nothing, and of their limits only the ends of scores are called ones that never decide.
func TestCheckingPublishedRuleSetsSaysNothingUntrue(t *testing.T) {
	files, err := filepath.Glob(filepath.Join("..", "placing", "testdata", "published", "*.txtar"))
	if err != nil || len(files) != 20 {
		t.Fatalf("%d rule sets: %v", len(files), err)
	}
	for _, file := range files {
		name := strings.TrimSuffix(filepath.Base(file), ".txtar")
		archive, err := txtar.ParseFile(file)
		if err != nil {
			t.Fatal(err)
		}
		var tables []rules.Table
		for _, part := range archive.Files {
			table := strings.TrimSuffix(part.Name, ".csv")
			if _, known := rules.LayoutOf(table); !known {
				continue
			}
			rows, err := csv.NewReader(strings.NewReader(string(part.Data))).ReadAll()
			if err != nil {
				t.Fatal(err)
			}
			tables = append(tables, rules.MakeTable(table, rows))
		}
		book, faults := rules.Load(tables)
		if book == nil {
			t.Errorf("%s: %v", name, faults)
			continue
		}
		for _, fault := range faults {
			if !strings.HasPrefix(fault.Message, "There is no sheet") { // the set is laid over the defaults
				t.Errorf("%s, %v: %s", name, fault.Place, fault.Message)
			}
		}
		for _, warning := range NeverDecides(book) {
			if limit := limitText(warning.Limit); warning.Fails != nil || !slices.Contains(neverFailed[name], limit) {
				t.Errorf("%s, %v: %s is said never to decide", name, warning.Limit.Requirement.Place, limit)
			}
		}
	}
}
