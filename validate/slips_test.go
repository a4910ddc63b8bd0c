package validate

import (
	"math/rand/v2"
	"os"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
)

// judgedSeed makes the sheets that the goals are judged on. The checks were tuned on other seeds (1 to 9).
const judgedSeed = 886141

// TestPlantedSlips plants slips in realistic sheets and holds the checks to the goals.
func TestPlantedSlips(t *testing.T) {
	if testing.Short() {
		t.Skip("grades and checks some ten thousand carcasses")
	}
	result := runPlanted(t, judgedSeed, 300)
	holdPageTo(t, "measured", result.report())
	if gross := result.goal("gross"); share(gross.caught, gross.planted) < 97 {
		t.Errorf("of decimal, unit, column and copy slips %s are caught; the goal is 97 %%", percentOf(gross.caught, gross.planted))
	}
	if plausible := result.goal("plausible"); share(plausible.caught, plausible.planted) < 65 {
		t.Errorf("of plausible slips %s are caught; the goal is 65 %%", percentOf(plausible.caught, plausible.planted))
	}
	if share(result.flaggedTrue, result.trueRows) > 3 {
		t.Errorf("%s of true rows are flagged; the goal is at most 3 %%", percentOf(result.flaggedTrue, result.trueRows))
	}
	if hinted, hintable := result.hints(); share(hinted, hintable) < 80 {
		t.Errorf("the hint is the true value in %s of flagged single-cell slips; the goal is 80 %%", percentOf(hinted, hintable))
	}
}

// TestPlantedSlipsInOtherSpecies does so for swine, lambs and goats, where no sheet carries grades of its own. Plausible
// slips have no goal there.
func TestPlantedSlipsInOtherSpecies(t *testing.T) {
	if testing.Short() {
		t.Skip("grades and checks some ten thousand carcasses")
	}
	for _, made := range madeSpecies {
		result := runSheets(t, judgedSeed, 60, made.kinds(), func(rng *rand.Rand, _ int) *plantedSheet {
			return made.sheet(rng, 20+rng.IntN(101))
		})
		holdPageTo(t, "measured "+string(made.species), result.report())
		if gross := result.goal("gross"); share(gross.caught, gross.planted) < 97 {
			t.Errorf("%s: of decimal, unit and column slips %s are caught; the goal is 97 %%", made.species, percentOf(gross.caught, gross.planted))
		}
		if share(result.flaggedTrue, result.trueRows) > 3 {
			t.Errorf("%s: %s of true rows are flagged; the goal is at most 3 %%", made.species, percentOf(result.flaggedTrue, result.trueRows))
		}
		if hinted, hintable := result.hints(); share(hinted, hintable) < 80 {
			t.Errorf("%s: the hint is the true value in %s; the goal is 80 %%", made.species, percentOf(hinted, hintable))
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
