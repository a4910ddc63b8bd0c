package validate

import (
	"fmt"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"railbook/rules"
	"railbook/rules/measure"

	"github.com/shopspring/decimal"
)

// sweptModels makes sheets of true carcasses, one of which has one value after another in one cell, and gives the model of each.
func sweptModels(t *testing.T, see func(name string, s *checker, m *sheetModel, r *row, i int)) {
	t.Helper()
	for _, sweep := range []struct {
		id               measure.ID
		from, upTo, step float64
		decimals         int
	}{
		{measure.LiveWeight, 1180, 1560, 11, 0},
		{measure.HotCarcassWeight, 640, 980, 2, 0},
		{measure.RibeyeArea, 9.7, 17.6, 0.3, 1},
		{measure.MeasuredFat, 0.11, 1.15, 0.07, 2},
	} {
		for value := sweep.from; value <= sweep.upTo; value += sweep.step {
			rows := companions(t, "24")
			written := fmt.Sprintf("%.*f", sweep.decimals, value)
			rows[11] = rows[11].but(t, sweep.id.String()+"="+written)
			s := newChecker(drawLot(t, rules.Beef, rows...))
			m, i := s.modelOf(s.rows[11])
			see(sweep.id.String()+" "+written, s, m, s.rows[11], i)
		}
	}
}

// A row is named from a score of -0.4 on and not below; a likely value is given from two fifths of what speaks for its cell on, and a
// second cell named from three fifths as much on. Every case has to occur on both sides.
func TestTheScoreDecidesWhetherToSpeak(t *testing.T) {
	named, passed, given, unsure, both, alone := 0, 0, 0, 0, 0, 0
	sweptModels(t, func(name string, s *checker, m *sheetModel, r *row, i int) {
		if m.beyondPossible(m.rows[i]) {
			return
		}
		s.slips = map[string][]Finding{}
		s.nameSlip(r)
		var found []Finding
		for _, list := range s.slips {
			found = append(found, list...)
		}
		if speaks := m.rows[i].score >= -0.4; speaks != (len(found) > 0) {
			t.Errorf("%s: the score is %.2f, and found is %q", name, m.rows[i].score, said(found))
			return
		}
		if len(found) == 0 {
			passed++
			return
		}
		named++
		top, second := m.weighed(i)
		if top.other >= 0 || top.sort == ownMistaken {
			return
		}
		share := math.Exp(math.Min(500, top.gain)) / top.sum
		if sure := top.value > 0 && share >= 0.4; sure != (found[0].Hint != "") {
			t.Errorf("%s: %.2f of what speaks for the cell speaks for %v, and the hint is %q", name, share, top.value, found[0].Hint)
		} else if sure {
			given++
		} else {
			unsure++
		}
		if second.cell < 0 || second.sort == rowsExchanged || second.sort == tagsExchanged || second.sort == cellsExchanged {
			return
		}
		if wanted := second.sum >= 0.6*top.sum; wanted != strings.Contains(found[0].Message, "may be the wrong one as well") {
			t.Errorf("%s: the second cell has %.2f of the first, and the finding says %s", name, second.sum/top.sum, found[0].Message)
		} else if wanted {
			both++
		} else {
			alone++
		}
	})
	for what, count := range map[string]int{"named": named, "passed": passed, "with a likely value": given, "without": unsure, "two cells": both, "one": alone} {
		if count < 2 {
			t.Errorf("%s: only %d rows", what, count)
		}
	}
}

// A step is kept where nine values in ten keep it, and tells by itself from 20 values on of which at most one in 50 is off it; with fewer
// than ten values all must keep it.
func TestFromWhereOnAStepTells(t *testing.T) {
	values := func(count, off int) (list []float64) {
		for i := range count {
			list = append(list, 1200+5*float64(i))
			if i < off {
				list[i] += 2
			}
		}
		return list
	}
	for _, test := range []struct {
		count, off int
		step       float64
		loose      bool
	}{
		{20, 0, 5, false},
		{19, 0, 5, true},
		{50, 1, 5, false},
		{49, 1, 5, true},
		{100, 2, 5, false},
		{100, 3, 5, true},
		{30, 3, 5, true},
		{29, 3, 0, false}, // nine in ten do not keep it
		{10, 1, 5, true},
		{9, 1, 0, false},
		{9, 0, 5, true},
	} {
		c := modelColumn{}
		c.fitStep(values(test.count, test.off))
		if test.step == 0 && c.step > 1 || test.step > 0 && (c.step < test.step || c.loose != test.loose) {
			t.Errorf("%d values, %d off: step %v, loose %v; want %v, %v", test.count, test.off, c.step, c.loose, test.step, test.loose)
		}
	}
}

// Two animals tell nothing of what is usual, three do.
func TestFewestAnimalsThatTell(t *testing.T) {
	toward := newBell(0, 1, 0)
	if two := fitted([]float64{5, 5.1}, toward); two.middle != 0 {
		t.Errorf("two animals move the middle to %v", two.middle)
	}
	if three := fitted([]float64{5, 5.1, 4.9}, toward); three.middle < 2 {
		t.Errorf("three animals leave the middle at %v", three.middle)
	}
}

// A class of six stands before a shipped look bound, one of five does not; a class is asked about as a whole where three of it, and a
// quarter of it, are beyond.
func TestTheClassBeforeTheShippedLook(t *testing.T) {
	class := func(size, beyond int) []drawn {
		rows := companions(t, "40")[:size]
		for i := range rows {
			live := 1640 + 8*i%60
			if i < beyond {
				live = 1705 + 3*i
			}
			rows[i] = rows[i].but(t, fmt.Sprintf("live weight=%d; hot carcass weight=%d; ribeye area=15.%d", live, live*62/100+i%5, i%8))
		}
		return rows
	}
	for _, test := range []struct {
		size, beyond    int
		singles, groups int
	}{
		{5, 1, 1, 0},
		{6, 1, 0, 0},
		{6, 2, 0, 0},
		{6, 3, 0, 1},
		{12, 3, 0, 1},
		{13, 3, 0, 0},
		{13, 4, 0, 1},
	} {
		batch := drawLot(t, rules.Beef, class(test.size, test.beyond)...)
		if singles, groups := beyondLive(Check(batch)); singles != test.singles || groups != test.groups {
			t.Errorf("%d of %d beyond the shipped bound: %d single questions and %d of a group, want %d and %d: %q",
				test.beyond, test.size, singles, groups, test.singles, test.groups, said(Check(batch)))
		}
	}
}

func beyondLive(findings []Finding) (singles, groups int) {
	for _, finding := range findings {
		switch finding.Code {
		case "live weight out of range":
			singles++
		case "live weight of a group above the range":
			groups++
		}
	}
	return singles, groups
}

// A bound that the board wrote always speaks, of two one by one and of three at once, and the text says whose it is; a group has one
// question that all its carcasses are part of.
func TestTheBoardsOwnLookAlwaysSpeaks(t *testing.T) {
	for beyond, want := range map[int][2]int{1: {1, 0}, 2: {2, 0}, 3: {0, 1}} {
		book := *rules.Default()
		book.Limits = append([]rules.Limit(nil), book.Limits...)
		for i := range book.Limits {
			if book.Limits[i].Species == rules.Beef && book.Limits[i].Measure == measure.LiveWeight {
				book.Limits[i].LookAbove = decimal.NewNullDecimal(decimal.NewFromInt(1450))
			}
		}
		rows := companions(t, "30")
		for i := range beyond {
			rows[i] = rows[i].but(t, fmt.Sprintf("live weight=%d; hot carcass weight=%d", 1451+i, 905+i))
		}
		findings := Check(drawLotBy(t, &book, rules.Beef, rows...))
		if singles, groups := beyondLive(findings); [2]int{singles, groups} != want {
			t.Errorf("%d beyond the board's bound: %d singly, %d as a group, want %v: %q", beyond, singles, groups, want, said(findings))
		}
		for _, finding := range findings {
			if finding.Code == "live weight of a group above the range" && (!strings.Contains(finding.Message, "the board's own look bound") || len(finding.Others) != 3) {
				t.Errorf("of %d carcasses: %s", len(finding.Others), finding.Message)
			}
		}
	}
}

// A sheet's own figures are exact from four in five on, and few that lie just beside are slips; a camera's are used up to a spread of
// 0.45 of a yield grade.
func TestWhenOwnFiguresAreExact(t *testing.T) {
	rows := func(agreeing, far, near int) (list []*ownReading) {
		add := func(count int, apart float64, agrees bool) {
			for range count {
				list = append(list, &ownReading{has: true, written: 3 + apart, computed: 3, agrees: agrees})
			}
		}
		add(agreeing, 0, true)
		add(far, 0.9, false)
		add(near, 0.15, false)
		return list
	}
	own := &ownModel{of: &ownFigures[0], decimals: 1}
	for _, test := range []struct {
		agreeing, far, near int
		exact               bool
	}{
		{8, 2, 0, true},
		{79, 21, 0, false},
		{80, 20, 0, true},
		{40, 0, 1, true},
		{49, 0, 2, true},  // 2 of 51 lie beside
		{48, 0, 2, false}, // 2 of 50: not as exact as that
		{3, 2, 0, true},   // of five, two may be wrong
		{2, 3, 0, false},
	} {
		if exact, _ := own.fit(rows(test.agreeing, test.far, test.near)); exact != test.exact {
			t.Errorf("%d agree, %d are far, %d near: exact %v, want %v", test.agreeing, test.far, test.near, exact, test.exact)
		}
	}
	for deviation, otherwise := range map[float64]bool{0.44: false, 0.46: true} {
		own.about = bell{deviation: deviation}
		if own.otherwise() != otherwise {
			t.Errorf("a spread of %v is otherwise: %v", deviation, own.otherwise())
		}
		own.about = bell{middle: deviation, deviation: 0.1}
		if own.otherwise() != otherwise {
			t.Errorf("%v apart is otherwise: %v", deviation, own.otherwise())
		}
	}
}

// A column is a row off where several rows say so: one row alone, however sure, does not; columns are exchanged from three rows on of which four in five say so.
func TestHowMuchAWholeColumnTakes(t *testing.T) {
	shifted := func(last int) *Batch {
		rows := companions(t, "30")
		for i := range rows {
			rows[i] = rows[i].but(t, fmt.Sprintf("sheet dressing percent=%.1f", dressing(t, rows[i])))
		}
		for i := len(rows) - 1; i >= len(rows)-last; i-- {
			rows[i] = rows[i].but(t, "live weight="+companions(t, "30")[i-1][measure.LiveWeight])
		}
		return drawLot(t, rules.Beef, rows...)
	}
	for last, want := range map[int]bool{1: false, 4: true, 8: true} {
		if found := hasCode(Check(shifted(last)), "column a row off"); found != want {
			t.Errorf("the last %d rows off: named %v, want %v", last, found, want)
		}
	}
	exchanged := func(count, off int) *Batch {
		rows := companions(t, "30")[:count]
		for i := range off {
			rows[i] = rows[i].but(t, "measured fat=2.5; kidney, pelvic and heart fat="+rows[i][measure.MeasuredFat])
		}
		return drawLot(t, rules.Beef, rows...)
	}
	for _, test := range []struct {
		count, off int
		want       bool
	}{{3, 3, true}, {2, 2, false}, {10, 8, true}, {10, 7, false}} {
		if found := hasCode(Check(exchanged(test.count, test.off)), "columns exchanged"); found != test.want {
			t.Errorf("%d of %d rows exchanged: named %v, want %v", test.off, test.count, found, test.want)
		}
	}
}

func dressing(t *testing.T, row drawn) float64 {
	t.Helper()
	live, carcass := decimal.RequireFromString(row[measure.LiveWeight]), decimal.RequireFromString(row[measure.HotCarcassWeight])
	percent, _ := carcass.Mul(hundred).Div(live).Float64()
	return percent
}

func hasCode(findings []Finding, code string) bool {
	for _, finding := range findings {
		if finding.Code == code {
			return true
		}
	}
	return false
}

// A negative number has its absolute value as the likely one.
func TestANegativeHasItsAbsoluteValue(t *testing.T) {
	for _, id := range []measure.ID{measure.LiveWeight, measure.HotCarcassWeight, measure.RibeyeArea, measure.MeasuredFat, measure.InternalFat} {
		rows := companions(t, "12")
		was := rows[5][id]
		rows[5] = rows[5].but(t, id.String()+"=-"+was)
		found := false
		for _, finding := range Check(drawLot(t, rules.Beef, rows...)) {
			if finding.Measure == id && finding.Level == Hold {
				found = true
				if want := decimal.RequireFromString(was).String(); finding.Hint != want {
					t.Errorf("%s -%s: the hint is %q, want %s", id, was, finding.Hint, want)
				}
			}
		}
		if !found {
			t.Errorf("%s -%s is not held", id, was)
		}
	}
}

// No true sheet has a column named as a row off, or two as exchanged, whatever the plant's own grades are.
func TestNoTrueColumnIsNamed(t *testing.T) {
	rng := rand.New(rand.NewPCG(5, 1979))
	for range 12 {
		for _, finding := range Check(makeSheet(t, rng, 24+rng.IntN(60)).lot(t)) {
			if finding.Code == shiftedColumn || finding.Code == exchangedColumns {
				t.Error(finding.Message)
			}
		}
	}
}

// Weights stand in each other's columns where, turned about, they dress as cattle do or a little less (look below 57, hold below 48);
// between 67 and 74 % is what kilograms beside pounds make.
func TestFromWhereOnWeightsAreTurned(t *testing.T) {
	for weights, want := range map[[2]string]bool{ // live, carcass as they stand
		{"620", "1000"}: true, {"670", "1000"}: true, {"671", "1000"}: false, {"739", "1000"}: false,
		{"570", "1000"}: true, {"569", "1000"}: true, {"480", "1000"}: true, {"479", "1000"}: false, {"1000", "620"}: false,
	} {
		rows := companions(t, "24")
		rows[11] = rows[11].but(t, "live weight="+weights[0]+"; hot carcass weight="+weights[1])
		s := newChecker(drawLot(t, rules.Beef, rows...))
		m, i := s.modelOf(s.rows[11])
		if got := m.weightsTurned(m.rows[i], m.place[measure.HotCarcassWeight], m.place[measure.LiveWeight]); got != want {
			t.Errorf("live %s, carcass %s: turned %v", weights[0], weights[1], got)
		}
	}
}
