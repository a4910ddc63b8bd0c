package record

import (
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"
	"pgregory.net/rapid"

	"railbook/rules/measure"
)

// carcassAt gives the readings of a carcass: its tag and its ribeye area.
func carcassAt(line, class, tag, area string) []Reading {
	at := Reading{Sheet: "Rail", Line: line, Class: class, Tag: tag}
	first, second := at, at
	first.Measure, first.Cell, first.Written, first.Value = measure.Tag, "A"+line, tag, tag
	second.Measure, second.Cell, second.Written = measure.RibeyeArea, "D"+line, area
	if !strings.Contains(area, "?") {
		second.Value = area
	}
	return []Reading{first, second}
}

func TestDiff(t *testing.T) {
	before := append(carcassAt("4", "Steers", "401", "13.6"), carcassAt("5", "Steers", "402", "1?.2")...)
	join := func(parts ...[]Reading) (all []Reading) {
		for _, part := range parts {
			all = append(all, part...)
		}
		return all
	}
	for _, test := range []struct {
		name    string
		now     []Reading
		changes []string
		pairs   int
	}{
		{"nothing", before, nil, 2},
		{"the order", join(carcassAt("4", "Steers", "402", "1?.2"), carcassAt("5", "Steers", "401", "13.6")), nil, 2},
		{"a row inserted", join(carcassAt("4", "Steers", "401", "13.6"), carcassAt("6", "Steers", "402", "1?.2"), carcassAt("5", "Steers", "403", "12")), []string{"A5 tag not there>added"}, 2},
		{"a value", join(carcassAt("4", "Steers", "401", "13.7"), carcassAt("5", "Steers", "402", "1?.2")), []string{"D4 ribeye area 13.6>13.7"}, 2},
		{"what can't be read", join(carcassAt("4", "Steers", "401", "13.6"), carcassAt("5", "Steers", "402", "1?.3")), []string{"D5 ribeye area 1?.2>1?.3"}, 2},
		{"a tag", join(carcassAt("4", "Steers", "401", "13.6"), carcassAt("5", "Steers", "420", "1?.2")), []string{"A5 tag 402>420"}, 2},
		{"a value in a row that was moved", join(carcassAt("4", "Steers", "402", "1?.2"), carcassAt("5", "Steers", "401", "13.7")), []string{"D5 ribeye area 13.6>13.7"}, 2},
		{"a carcass taken out", carcassAt("4", "Steers", "401", "13.6"), []string{"A5 tag there>removed"}, 1},
	} {
		var got []string
		changes, pairs := Diff(before, test.now)
		for _, change := range changes {
			got = append(got, change.At.Cell+" "+change.Measure.String()+" "+change.Was+">"+change.Is)
		}
		if diff := cmp.Diff(test.changes, got); diff != "" || len(pairs) != test.pairs {
			t.Errorf("%s: %d pairs, changes (-want +got)\n%s", test.name, len(pairs), diff)
		}
	}
}

// Of two carcasses with one tag each is compared with the one that has its values, whichever stands first.
func TestDiffOfTwoWithOneTag(t *testing.T) {
	before := append(carcassAt("4", "Steers", "401", "13.6"), carcassAt("5", "Steers", "401", "12.1")...)
	now := append(carcassAt("4", "Steers", "401", "12.1"), carcassAt("5", "Steers", "401", "13.6")...)
	for _, readings := range [][]Reading{before, now} {
		for i := range readings {
			readings[i].Carcass = 1 + i/2
		}
	}
	if changes, pairs := Diff(before, now); len(changes) != 0 || len(pairs) != 2 {
		t.Errorf("got %d pairs and %v, want 2 and no change", len(pairs), changes)
	}
}

// Where all readings are the recorded ones, carcasses are paired without looking further, and as Diff pairs them; a reading that is
// another, more, fewer or elsewhere is left to Diff.
func TestUnchangedReadingsArePairedAsDiffPairsThem(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var before, now []Reading
		ids := rapid.Permutation([]int{3, 5, 1, 9}).Draw(t, "ids")
		for carcass := range rapid.IntRange(0, 4).Draw(t, "carcasses") {
			line := strconv.Itoa(4 + carcass)
			of := Reading{Sheet: "Rail", Line: line, Class: rapid.SampledFrom([]string{"Steers", "Heifers"}).Draw(t, "class"), Tag: rapid.SampledFrom([]string{"1", "2"}).Draw(t, "tag")}
			for _, id := range []measure.ID{measure.Tag, measure.RibeyeArea} {
				kept := of
				kept.Measure, kept.Cell, kept.Written = id, "A"+line, rapid.SampledFrom([]string{"1", "2"}).Draw(t, "written")
				kept.Value = kept.Written
				kept.Carcass = ids[carcass]
				before = append(before, kept)
				kept.Carcass = carcass + 1
				now = append(now, kept)
			}
			if rapid.Bool().Draw(t, "called") {
				before = append(before, Reading{Carcass: ids[carcass], Sheet: JudgeReviewSheet, Cell: "J9", Line: line, Class: of.Class, Tag: of.Tag, Measure: measure.QualityGrade, Written: "Choice", Value: "Choice"})
			}
		}
		pairs, unchanged := Unchanged(before, slices.Values(now))
		changes, want := Diff(before, now)
		if !unchanged || len(changes) > 0 {
			t.Fatalf("unchanged: %v, with %v", unchanged, changes)
		}
		if diff := cmp.Diff(want, pairs, cmp.AllowUnexported(Carcass{}), cmpopts.IgnoreFields(Carcass{}, "matched"), cmpopts.EquateEmpty(), cmp.Transformer("reading", func(r *Reading) Reading {
			kept := *r
			kept.Carcass = 0
			return kept
		})); diff != "" {
			t.Fatal(diff)
		}
		if len(now) == 0 {
			return
		}
		at := rapid.IntRange(0, len(now)-1).Draw(t, "which")
		other := slices.Clone(now)
		switch rapid.IntRange(0, 5).Draw(t, "edit") {
		case 0:
			other[at].Value += "7"
		case 1:
			other[at].Written += " "
		case 2:
			other[at].Cell = "Z1"
		case 3:
			other = slices.Delete(other, at, at+1)
		case 4:
			other = append(other, other[at])
		case 5:
			other[at].Line = "77"
		}
		if _, unchanged := Unchanged(before, slices.Values(other)); unchanged {
			t.Errorf("taken for unchanged: %v", other)
		}
	})
}
