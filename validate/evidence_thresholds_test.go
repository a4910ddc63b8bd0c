package validate

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"testing"

	"railbook/rules"
	"railbook/rules/measure"
)

// A likely value of an unusual, possible row is shown from a gain of 2.5 on; what cannot be true always has its likeliest.
func TestFromWhichGainALikelyValueIsShown(t *testing.T) {
	s := &checker{}
	for _, test := range []struct {
		level Level
		gain  float64
		shown bool
	}{{Look, 2.49, false}, {Look, 2.5, true}, {Hold, 0.01, true}} {
		if shown := s.worthAHint(nil, test.level, explanation{gain: test.gain}); shown != test.shown {
			t.Errorf("%s, a gain of %v: shown %v, want %v", test.level, test.gain, shown, test.shown)
		}
	}
}

// Two columns are exchanged where each row is at least e cubed times likelier the other way round: a gain of 3.
func TestHowMuchLikelierExchangedRowsAre(t *testing.T) {
	below, above := 0, 0
	for hundredths := 60; hundredths <= 260; hundredths += 5 {
		rows := companions(t, "10")
		for i := range rows {
			rows[i] = rows[i].but(t, fmt.Sprintf("measured fat=%.2f; kidney, pelvic and heart fat=0.9", float64(hundredths)/100))
		}
		s := newChecker(drawLot(t, rules.Beef, rows...))
		m, _ := s.modelOf(s.rows[0])
		fat, ok := m.place[measure.MeasuredFat]
		if !ok {
			fat = m.place[measure.AdjustedFat]
		}
		a, b := m.place[measure.InternalFat], fat
		prior := func(j int, x float64) float64 { return m.columns[j].prior.density(m.columns[j].figure(x)) }
		x := m.rows[0].x
		gain := prior(a, x[b]) + prior(b, x[a]) - prior(a, x[a]) - prior(b, x[b])
		if is := m.exchangedThroughout(min(a, b), max(a, b)); is != (gain >= 3) {
			t.Errorf("fat %d hundredths: the gain is %.2f, exchanged %v", hundredths, gain, is)
		} else if is {
			above++
		} else {
			below++
		}
	}
	if below < 2 || above < 2 {
		t.Errorf("%d below the gain, %d above", below, above)
	}
}

// In a column that keeps its step loosely, a value on the step counts only where 0.7 speaks for it besides the step.
func TestHowMuchMustSpeakBesidesTheStep(t *testing.T) {
	counted, held := 0, 0
	for live := 1181; live <= 1560; live += 7 {
		rows := companions(t, "16")
		for i := range rows {
			weight, _ := strconv.Atoi(rows[i][measure.LiveWeight])
			rows[i] = rows[i].but(t, fmt.Sprintf("live weight=%d", weight/5*5))
		}
		rows[7] = rows[7].but(t, fmt.Sprintf("live weight=%d", live))
		s := newChecker(drawLot(t, rules.Beef, rows...))
		m, i := s.modelOf(s.rows[7])
		j := m.place[measure.LiveWeight]
		if !m.columns[j].loose || m.columns[j].step != 5 {
			t.Fatalf("the column has step %v, loose %v", m.columns[j].step, m.columns[j].loose)
		}
		r := m.rows[i]
		by := workings{x: slices.Clone(r.x)}
		m.cluesOf(i, j, &by)
		for _, clue := range by.clues {
			at := slices.IndexFunc(m.readingsOf(j, r.x[j], nil), func(of reading) bool { return of.sort == clue.sort && of.value == clue.value })
			if at < 0 {
				continue
			}
			x := slices.Clone(r.x)
			x[j] = clue.value
			all := m.density(r, x) - r.clean + m.readingsOf(j, r.x[j], nil)[at].chance
			besides := all - m.stepDensity(j, clue.value) + m.stepDensity(j, r.x[j])
			switch {
			case all <= 0:
			case besides < 0.7 && clue.gain > 0, besides >= 0.7 && math.Abs(clue.gain-all) > 1e-9:
				t.Errorf("live weight %d, %v: %.2f besides the step, %.2f in all, and it counts %.2f", live, clue.value, besides, all, clue.gain)
			case besides < 0.7:
				held++
			default:
				counted++
			}
		}
	}
	if counted < 2 || held < 2 {
		t.Errorf("%d count, %d do not", counted, held)
	}
}

// Values three rows apart may stand in each other's row, four rows apart not.
func TestHowFarApartValuesAreExchanged(t *testing.T) {
	for apart, want := range map[int]bool{3: true, 4: false, -3: true, -4: false} {
		rows := companions(t, "24")
		rows[10] = rows[10].but(t, "live weight=1200; hot carcass weight=900")
		rows[10+apart] = rows[10+apart].but(t, "live weight=1450; hot carcass weight=745; ribeye area=14")
		s := newChecker(drawLot(t, rules.Beef, rows...))
		m, i := s.modelOf(s.rows[10])
		found := slices.ContainsFunc(m.exchangedWith(i, &m.work), func(sign clue) bool { return sign.sort == rowsExchanged && sign.other == i+apart })
		if found != want {
			t.Errorf("%d rows apart: compared %v, want %v", apart, found, want)
		}
	}
}

// Live weights are compared with those of at most 60 odd rows, however many there are.
func TestWithHowManyOddRowsLiveWeightsAreCompared(t *testing.T) {
	for odd, want := range map[int]int{59: 59, 60: 60, 61: 60} {
		rows := companions(t, "300")
		for i := range odd {
			rows[3*i] = rows[3*i].but(t, "live weight=1690")
		}
		s := newChecker(drawLot(t, rules.Beef, rows...))
		m, _ := s.modelOf(s.rows[0])
		if list := m.oddLive(); len(list) != want {
			t.Errorf("of %d odd rows %d are compared, want %d", odd, len(list), want)
		}
	}
}
