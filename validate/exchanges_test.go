package validate

import (
	"fmt"
	"strings"
	"testing"

	"railbook/rules"
	"railbook/rules/measure"
)

// Weights of heavy cattle are no unusual weights under each other's heading, but no carcass outweighs its animal. Live weights in
// kilograms are not taken for carcass weights: the dressing percent would be near 73.
func TestHeavyCattlesWeightsExchangedThroughout(t *testing.T) {
	for _, kilograms := range []bool{false, true} {
		rows := companions(t, "30")
		for i := range rows {
			live, percent := 1500+9*((i*7)%13), 61+(i*5)%5
			carcass := live * percent / 100
			rows[i] = rows[i].but(t, fmt.Sprintf("live weight=%d; hot carcass weight=%d; ribeye area=15.%d", carcass, live, i%8))
			if kilograms {
				rows[i] = rows[i].but(t, fmt.Sprintf("live weight=%d; hot carcass weight=%d", live*10/22, carcass))
			}
		}
		if findings := Check(drawLot(t, rules.Beef, rows...)); hasCode(findings, exchangedColumns) == kilograms || !kilograms && len(findings) != 1 {
			t.Errorf("kilograms %v: %q", kilograms, said(findings)[:min(5, len(findings))])
		}
	}
}

// exchangedPairs are the columns that stand under each other's headings most often.
var exchangedPairs = [][2]measure.ID{
	{measure.MeasuredFat, measure.InternalFat},
	{measure.RibeyeArea, measure.InternalFat},
	{measure.MeasuredFat, measure.RibeyeArea},
	{measure.HotCarcassWeight, measure.LiveWeight},
}

// Two cells of a row that stand in each other's column are one finding, which names both and nothing else; and so is a whole sheet of
// them, with all of its carcasses. Never is one of them said to be in tenths.
func TestExchangedCellsAndColumnsAreOneFinding(t *testing.T) {
	for _, pair := range exchangedPairs {
		for _, whole := range []bool{false, true} {
			rows := companions(t, "30")
			for i, row := range rows {
				if whole || i == 12 {
					row[pair[0]], row[pair[1]] = row[pair[1]], row[pair[0]]
				}
			}
			findings := Check(drawLot(t, rules.Beef, rows...))
			if len(findings) != 1 {
				t.Errorf("%v, whole sheet %v: %q", pair, whole, said(findings))
				continue
			}
			found, carcasses := findings[0], 1
			if whole {
				carcasses = len(rows)
			}
			if named := found.Measure == pair[0] || found.Measure == pair[1]; !named || found.Exchange.Cell == "" || found.Exchange == found.At ||
				!strings.Contains(found.Message, "look exchanged") || strings.Contains(found.Message, "tenths") || len(found.Carcasses()) != carcasses {
				t.Errorf("%v, whole sheet %v: of %d carcasses: %s", pair, whole, len(found.Carcasses()), found.Message)
			}
		}
	}
}

// Of every figure that a class makes usual, six of it stand before the shipped look bound and five do not; what cannot be true is held
// whatever the class.
func TestEachFigureOfAClassStandsBeforeItsShippedLook(t *testing.T) {
	for _, test := range []struct {
		code string
		row  func(i, beyond int) string // the first is beyond the bound, the others just within
		held string
	}{
		{"live weight out of range", func(i, beyond int) string {
			live := 1640 + 8*i + 64*beyond
			return fmt.Sprintf("live weight=%d; hot carcass weight=%d; ribeye area=15.%d", live, live*62/100, i%8)
		}, "live weight=3100"},
		{"hot carcass weight out of range", func(i, beyond int) string {
			weight := 1060 + 5*i + 43*beyond
			return fmt.Sprintf("live weight=%d; hot carcass weight=%d; ribeye area=16.%d", weight*100/65, weight, i%8)
		}, "hot carcass weight=1900"},
		{"fat thickness out of range", func(i, beyond int) string { return fmt.Sprintf("measured fat=1.%02d", 5+i+18*beyond) }, "measured fat=4"},
		{"dressing percent out of range", func(i, beyond int) string {
			return fmt.Sprintf("live weight=1250; hot carcass weight=%d; ribeye area=12.%d", 721+4*i-15*beyond, i)
		}, "hot carcass weight=500"},
		{"ribeye out of line with weight", func(i, beyond int) string {
			return fmt.Sprintf("live weight=1250; hot carcass weight=78%d; ribeye area=%.1f", i, 10+0.2*float64(i)-0.5*float64(beyond))
		}, "ribeye area=26"},
	} {
		for size, want := range map[int]int{5: 1, 6: 0} {
			rows := companions(t, "12")[:size]
			for i := range rows {
				rows[i] = rows[i].but(t, test.row(i, max(0, 1-i)))
			}
			beyond := 0
			for _, finding := range Check(drawLot(t, rules.Beef, rows...)) {
				if finding.Code == test.code && finding.Level == Look {
					beyond++
				}
			}
			if beyond != want {
				t.Errorf("%s: %d questions in a class of %d, want %d", test.code, beyond, size, want)
			}
			rows[3] = rows[3].but(t, test.held)
			held := false
			for _, finding := range Check(drawLot(t, rules.Beef, rows...)) {
				held = held || finding.Level == Hold && finding.Carcass != nil && finding.Tag == rows[3][measure.Tag]
			}
			if !held {
				t.Errorf("%s: %s is not held in a class of %d", test.code, test.held, size)
			}
		}
	}
}

// A number off the step of its column is asked about by that alone where one in fifty is off it, and not where one in 49 is; the number
// on the step that one slip explains is the likely value.
func TestOffTheStepAloneHasTheNumberOnTheStep(t *testing.T) {
	for count, want := range map[int]bool{50: true, 49: false} {
		rows := companions(t, "50")[:count]
		for i := range rows {
			live := 1205 + 5*((i*7)%31)
			rows[i] = rows[i].but(t, fmt.Sprintf("live weight=%d; hot carcass weight=%d", live, live*(612+3*((i*5)%9))/1000))
		}
		rows[20] = rows[20].but(t, "live weight=1292; hot carcass weight=800")
		found := false
		for _, finding := range Check(drawLot(t, rules.Beef, rows...)) {
			if finding.Level == Note {
				continue
			}
			found = true
			if finding.Measure != measure.LiveWeight || finding.Tag != rows[20][measure.Tag] || finding.Hint != "1290" && finding.Hint != "1295" || !strings.Contains(finding.Message, "in steps of 5") {
				t.Errorf("of %d: %s", count, finding.Message)
			}
		}
		if found != want {
			t.Errorf("one of %d off the step: asked about %v, want %v", count, found, want)
		}
	}
}
