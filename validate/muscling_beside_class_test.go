package validate

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"railbook/rules"
	"railbook/rules/measure"
)

// lambs are ordinary lambs of one class, the heavier ones a little thicker in the leg, the first of which is otherwise.
func lambs(t *testing.T, count int, first string) *Batch {
	t.Helper()
	var list []drawn
	for i := range count {
		live := 112 + 4*((i*5)%9)
		score := 11 + (live-112)/16
		grade := []string{"Average Choice", "High Choice", "Low Prime"}[score-11]
		list = append(list, firstOf(t, rules.Lamb).but(t, fmt.Sprintf("tag=%d; live weight=%d; hot carcass weight=%.1f; measured fat=%.2f; ribeye area=%.1f; leg score=%d; conformation=%s",
			301+i, live, float64(live)*(0.52+0.004*float64((i*4)%7)), 0.14+0.02*float64((i*3)%7), 2.5+0.1*float64((i*7)%8), score, grade)))
	}
	list[0] = list[0].but(t, first)
	return drawLot(t, rules.Lamb, list...)
}

// A leg score far from those of the class is looked at, with the score that one slip explains; a class of five tells nothing, one of
// six does. What leg and conformation both say is the lamb's own way.
func TestLegScoreBesideItsClass(t *testing.T) {
	for _, test := range []struct {
		count       int
		first, hint string // "-" for none found, "" for one without a likely value
	}{
		{20, "leg score=2; conformation=", "12"},
		{20, "leg score=1", "11"},
		{20, "leg score=7; conformation=", ""}, // 17 is off the scale
		{20, "leg score=7", ""},
		{20, "leg score=7; conformation=Low Good", "-"},
		{20, "leg score=12", "-"},
		{20, "leg score=14", "-"},
		{20, "leg score=9; conformation=", "-"}, // two thirds below
		{6, "leg score=2; conformation=", "12"},
		{5, "leg score=2; conformation=", "-"},
	} {
		batch := lambs(t, test.count, test.first)
		found := about(t, batch, "301", measure.LegScore)
		if (found == nil) != (test.hint == "-") || found != nil && (found.Hint != test.hint || found.Level != Look) {
			t.Errorf("%d lambs, %s: want %q, found %q", test.count, test.first, test.hint, said(Check(batch)))
		}
		for _, finding := range Check(batch) {
			if strings.Contains(finding.Code, "out of line") && finding.Tag != "301" {
				t.Errorf("%s: a true lamb is named: %s", test.first, finding.Message)
			}
		}
	}
}

// So is conformation, by the grade's thirds.
func TestConformationBesideItsClass(t *testing.T) {
	for first, want := range map[string]bool{
		"conformation=Low Good": true, "leg score=; conformation=Low Good": true, "leg score=7; conformation=Low Good": false,
		"conformation=Low Choice": false, "leg score=; conformation=Average Prime": false,
	} {
		batch := lambs(t, 20, first)
		if found := about(t, batch, "301", measure.Conformation); (found != nil) != want {
			t.Errorf("%s: named %v, want %v: %q", first, found != nil, want, said(Check(batch)))
		}
	}
}

// A score follows weight and fat: in a class whose scores rise with both, the light and lean lamb with the score of the heavy and
// fat ones is looked at, and the heavy and fat one with it is not.
func TestMusclingIsHeldBesideWeightAndFat(t *testing.T) {
	for _, rising := range []measure.ID{measure.HotCarcassWeight, measure.MeasuredFat} {
		for first, want := range map[int]bool{0: true, 29: false} {
			var list []drawn
			for at := range 30 {
				i := at * 7 % 30
				weight, fat := 60+float64(i%3), 0.2+0.01*float64(i%3)
				if rising == measure.HotCarcassWeight {
					weight = 48 + float64(i)
				} else {
					fat = 0.1 + 0.01*float64(i)
				}
				list = append(list, firstOf(t, rules.Lamb).but(t, fmt.Sprintf("tag=%d; live weight=%.0f; hot carcass weight=%.1f; measured fat=%.2f; leg score=%d",
					301+i, weight/0.53, weight, fat, 6+i*8/29)))
				if i == first {
					list[at] = list[at].but(t, "leg score=14")
				}
			}
			if found := about(t, drawLot(t, rules.Lamb, list...), fmt.Sprint(301+first), measure.LegScore); (found != nil) != want {
				t.Errorf("scores rising with %s, 14 in row %d: named %v, want %v: %q", rising, first, found != nil, want, said(Check(drawLot(t, rules.Lamb, list...))))
			}
		}
	}
}

// Where the scores of a class lie far apart, one five thirds away is nothing; one ten thirds away is.
func TestAWideClassAllowsMore(t *testing.T) {
	for first, want := range map[string]bool{"leg score=6": false, "leg score=1": true} {
		var list []drawn
		for i := range 21 {
			list = append(list, firstOf(t, rules.Lamb).but(t, fmt.Sprintf("tag=%d; live weight=%d; hot carcass weight=%d; leg score=%d",
				301+i, 118+(i*5)%13, 62+(i*4)%9, 8+(i*8)%7)))
		}
		list[0] = list[0].but(t, first)
		batch := drawLot(t, rules.Lamb, list...)
		named := hasCode(Check(batch), "leg score out of line with the class")
		if named != want {
			t.Errorf("%s: named %v, want %v: %q", first, named, want, said(Check(batch)))
		}
	}
}

// A score is asked about from three thirds of a grade and three and a half spreads on. Every case has to occur close to both sides.
func TestFromWhereOnMusclingIsAskedAbout(t *testing.T) {
	short, far := map[string]int{}, map[string]int{}
	for count := 6; count <= 30; count++ {
		for score := 1; score <= 15; score++ {
			s := newChecker(lambs(t, count, fmt.Sprintf("leg score=%d; conformation=", score)))
			var scores []float64
			for _, r := range s.rows {
				written, _ := musclingScores[0].of(r)
				scores = append(scores, written)
			}
			_, apart, usual := musclingApart(s.rows, scores)
			away := math.Abs(apart[0] - usual.middle)
			named := len(s.musclingOf(s.rows[:len(s.rows):len(s.rows)], musclingScores[0])) > 0
			if want := away >= 3.0 && away >= 3.5*usual.deviation; named != want {
				t.Errorf("%d lambs, leg score %d: %.2f thirds and %.2f spreads away, named %v", count, score, away, away/usual.deviation, named)
			}
			rule, at, near := "thirds", away/3.0, 0.03
			if 3.5*usual.deviation > 3.0 {
				rule, at, near = "spreads", away/(3.5*usual.deviation), 0.14
			}
			switch {
			case at >= 0.9 && at < 1:
				short[rule]++
			case at >= 1 && at < 1+near:
				far[rule]++
			}
		}
	}
	for _, rule := range []string{"thirds", "spreads"} {
		if short[rule] == 0 || far[rule] == 0 {
			t.Errorf("%s: %d scores just short of it, %d just past it", rule, short[rule], far[rule])
		}
	}
}
