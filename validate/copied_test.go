package validate

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"railbook/rules"
)

func TestRowsAlikeInMostMeasuresAreNoCopy(t *testing.T) {
	expect(t, "one measure differs", drawLot(t, rules.Beef, trueRow(t), trueRow(t).but(t, "tag=102; marbling=430")))
}

// Internal fat judged to the half percent runs on for rows; a ribeye to the tenth does not.
func TestRuns(t *testing.T) {
	rows := companions(t, "40")
	expect(t, "internal fat, one value throughout", drawLot(t, rules.Beef, rows...))
	for i := 11; i < 15; i++ {
		rows[i] = rows[i].but(t, "ribeye area=13.9")
	}
	expect(t, "four ribeyes", drawLot(t, rules.Beef, rows...),
		"look copied-down value F17")
}

// A row of four measures is alike by them; one of three tells nothing.
func TestFourMeasuresMakeARowAlike(t *testing.T) {
	for cells, want := range map[string]bool{
		"live weight=1311; hot carcass weight=807; measured fat=0.46; ribeye area=13.3": true,
		"live weight=1311; hot carcass weight=807; measured fat=0.46":                   false,
	} {
		found := Check(drawLot(t, rules.Beef, drawRow(t, "tag=1; class=Steers; "+cells), drawRow(t, "tag=2; class=Steers; "+cells)))
		if hasCode(found, "identical rows") != want {
			t.Errorf("%s: %q", cells, said(found))
		}
	}
}

// Three rows are the shortest run, where the sheet is long enough that chance makes fewer than one in fifty: of a value that stands
// nowhere else that is from 54 carcasses on (54/52² = .01997, 53/51² = .0204).
func TestTheShortestRunIsThree(t *testing.T) {
	for _, test := range []struct {
		count, length int
		want          bool
	}{{54, 3, true}, {53, 3, false}, {54, 2, false}, {200, 2, false}} {
		rows := companions(t, fmt.Sprint(test.count))
		for i := 30; i < 30+test.length; i++ {
			rows[i] = rows[i].but(t, "ribeye area=14.7")
		}
		found := said(Check(drawLot(t, rules.Beef, rows...)))
		if named := slices.ContainsFunc(found, func(words string) bool { return strings.Contains(words, "copied-down value") }); named != test.want {
			t.Errorf("%d of %d: %q", test.length, test.count, found)
		}
	}
}
