package validate

import (
	"math/rand/v2"
	"os"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
)

// judgedSeed makes the sheets that the goals are judged on. The checks are tuned on other seeds (1 to 9).
const judgedSeed = 886142

// judgedSheets is how many sheets the goals are judged on, and how many a quick look takes.
const (
	judgedSheets = 260
	quickSheets  = 12
)

// judge skips a test unless the full judgement is asked for: it takes minutes.
func judge(t *testing.T) {
	t.Helper()
	if os.Getenv("RAILBOOK_LONG") == "" {
		t.Skip("grades and checks some twenty thousand carcasses: set RAILBOOK_LONG=1")
	}
}

// TestFewSlipsQuickly holds the checks to looser goals on few sheets.
func TestFewSlipsQuickly(t *testing.T) {
	sheets := sheetsOfCattle(t, judgedSeed, quickSheets)
	result := outcomeOf(t, plantedKinds, sheets)
	if loud := result.goal("loud"); share(loud.caught, loud.planted) < 95 {
		t.Errorf("of loud slips %s are caught; the goal on few sheets is 95 %%", percentOf(loud.caught, loud.planted))
	}
}

// TestPlantedSlips plants slips in sheets of cattle and holds the checks to the goals, beside one who knows the generator
// and beside detectors that anyone may have.
func TestPlantedSlips(t *testing.T) {
	judge(t)
	sheets := sheetsOfCattle(t, judgedSeed, judgedSheets)
	result := outcomeOf(t, plantedKinds, sheets)
	holdPageTo(t, "measured", result.report())
	compared, _ := comparison(t, sheets, result)
	holdPageTo(t, "compared", compared)
	holdPageTo(t, "measured columns", countColumnSlips(t, judgedSeed, 26, sheets[:60]))
	if loud := result.goal("loud"); share(loud.caught, loud.planted) < 97 {
		t.Errorf("of loud slips %s are caught; the goal is 97 %%", percentOf(loud.caught, loud.planted))
	}
}

// TestPlantedSlipsInOtherSpecies does so for swine, lambs, goats and cattle scanned alive, where no sheet carries grades of its own.
func TestPlantedSlipsInOtherSpecies(t *testing.T) {
	judge(t)
	for _, made := range madeSpecies {
		rng := rand.New(rand.NewPCG(judgedSeed, 2022))
		var sheets []*plantedSheet
		next := 0
		for range 60 {
			sheet := made.sheet(rng, 20+rng.IntN(101))
			next = sheet.plantSlips(rng, next)
			sheets = append(sheets, sheet)
		}
		result := outcomeOf(t, made.kinds(), sheets)
		holdPageTo(t, "measured "+made.name(), result.report())
		if loud := result.goal("loud"); share(loud.caught, loud.planted) < 97 && !made.scanned {
			t.Errorf("%s: of loud slips %s are caught; the goal is 97 %%", made.name(), percentOf(loud.caught, loud.planted))
		}
		if share(result.trueRows.flagged, result.trueRows.rows) > 3 {
			t.Errorf("%s: %s of true rows are flagged; the goal is at most 3 %%", made.name(), percentOf(result.trueRows.flagged, result.trueRows.rows))
		}
	}
}

// holdPageTo compares a table on the page with what was counted.
func holdPageTo(t *testing.T, table, counted string) {
	t.Helper()
	text, err := os.ReadFile(page)
	if err != nil {
		t.Fatal(err)
	}
	before, after, ok := strings.Cut(string(text), "```"+table+"\n")
	shown, rest, closed := strings.Cut(after, "```")
	if !ok || !closed {
		t.Fatalf("the page has no table %q", table)
	}
	if *update {
		if err := os.WriteFile(page, []byte(before+"```"+table+"\n"+counted+"```"+rest), 0o644); err != nil {
			t.Fatal(err)
		}
	} else if diff := cmp.Diff(shown, counted); diff != "" {
		t.Errorf("the page (-) and what was counted (+) differ:\n%s", diff)
	}
}
