package record

import (
	"slices"
	"testing"

	"pgregory.net/rapid"
)

// Of a record that was changed in one line, that very line is named.
func TestTheChangedRowIsNamed(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		lines := drawState(t).Lines()
		at := rapid.IntRange(1, len(lines)-1).Draw(t, "line")
		lines[at] += "7"
		state := StateOf(lines, "Recorded")
		if state.Whole || !slices.Equal(state.Changed, []int{at + 1}) {
			t.Fatalf("row %d was changed, and named are %v of %d", at+1, state.Changed, len(lines))
		}
	})
}

// Where a record is long, the first of several lines is named.
func TestOfALongRecordTheRowsAreNamedTogether(t *testing.T) {
	lines := []string{Form}
	for range 2*mostSums + 5 {
		lines = append(lines, "change|2025-08-21")
	}
	lines = WithViews(lines, nil)
	lines[4] = "change|2025-08-22"
	if state := StateOf(lines, "Recorded"); !slices.Equal(state.Changed, []int{4}) {
		t.Errorf("row 5 was changed, and named are the rows from %v", state.Changed)
	}
}
