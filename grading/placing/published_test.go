package placing_test

import (
	"fmt"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"railbook/grading/placing"

	"github.com/google/go-cmp/cmp"
	"github.com/rogpeppe/go-internal/txtar"
)

// Twenty rule sets for four species as a board would type them, each with a class of twenty carcasses, ties and failures.
// The places and groups stand in the files, worked out apart from this program, under the kind of rule each follows and where that comes
// from. No rule set has a fault.
func TestPublishedRuleSets(t *testing.T) {
	files, err := filepath.Glob("testdata/published/*.txtar")
	if err != nil || len(files) != 20 {
		t.Fatalf("%d rule sets: %v", len(files), err)
	}
	for _, file := range files {
		t.Run(strings.TrimSuffix(filepath.Base(file), ".txtar"), func(t *testing.T) {
			archive, err := txtar.ParseFile(file)
			if err != nil {
				t.Fatal(err)
			}
			if comment := string(archive.Comment); !strings.HasPrefix(comment, "Rule: ") || !strings.Contains(comment, "\nSource: ") {
				t.Errorf("no kind of rule and no source stand at its head: %s", comment)
			}
			book, herd, want := kind(t, archive)
			if len(herd) != 20 {
				t.Errorf("%d carcasses", len(herd))
			}
			var got, left []string
			for _, class := range placing.PlaceClasses(placing.Entered(herd), nil, book).Classes {
				for _, placed := range class.Placed {
					got = append(got, strings.TrimSpace(fmt.Sprintf("%d %s %s", placed.Place, placed.Tag, placed.Group)))
				}
				for _, absent := range class.NotPlaced {
					left = append(left, "- "+absent.Tag)
				}
			}
			slices.Sort(left)
			if diff := cmp.Diff(want, append(got, left...)); diff != "" {
				t.Error(diff)
			}
		})
	}
}

// The independent computation in testdata/published/reference.py, in Python's exact fractions, gives the same places, groups and
// carcasses left out for every rule set as stand in the files.
func TestReferenceAgreesWithPublishedRuleSets(t *testing.T) {
	python, err := exec.LookPath("python3")
	if err != nil {
		t.Skip("python3 is not installed")
	}
	files, err := filepath.Glob("testdata/published/*.txtar")
	if err != nil || len(files) != 20 {
		t.Fatalf("%d rule sets: %v", len(files), err)
	}
	said, err := exec.Command(python, append([]string{"testdata/published/reference.py"}, files...)...).Output()
	if err != nil {
		t.Fatal(err)
	}
	var want strings.Builder
	for _, file := range files {
		archive, err := txtar.ParseFile(file)
		if err != nil {
			t.Fatal(err)
		}
		_, _, lines := kind(t, archive)
		want.WriteString("== " + file + "\n" + strings.Join(lines, "\n") + "\n")
	}
	if diff := cmp.Diff(strings.Split(want.String(), "\n"), strings.Split(string(said), "\n")); diff != "" {
		t.Error(diff)
	}
}
