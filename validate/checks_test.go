package validate

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"railbook/grading"
	"railbook/rules"
	"railbook/rules/measure"

	"github.com/shopspring/decimal"
	"pgregory.net/rapid"
)

// A true carcass, alone or among others, is not named.
func TestTrueRowsAreNotNamed(t *testing.T) {
	rows := append([]drawn{trueRow(t)}, companions(t, "30")...)
	for _, batch := range []*Batch{drawLot(t, rules.Beef, trueRow(t)), drawLot(t, rules.Beef, rows...)} {
		if found := said(Check(batch)); len(found) > 0 {
			t.Errorf("of %d true carcasses: %q", len(batch.Carcasses), found)
		}
	}
}

// One wrong cell gives one finding, at that cell, whatever else would follow from it.
func TestOneWrongCellGivesOneFinding(t *testing.T) {
	for _, wrong := range []string{
		"ribeye area=136", "ribeye area=1.36", "ribeye area=87.7", "measured fat=4", "measured fat=10.2", "measured fat=40",
		"hot carcass weight=78", "hot carcass weight=7800", "hot carcass weight=354", "live weight=567", "live weight=12500",
		"kidney, pelvic and heart fat=25", "kidney, pelvic and heart fat=0.025", "kidney, pelvic and heart fat=0.25",
	} {
		for _, own := range []string{"", "sheet yield grade=2.61; sheet cutability=50.69; sheet dressing percent=62.4; sheet quality grade=Low Choice"} {
			rows := append([]drawn{trueRow(t).but(t, own).but(t, wrong)}, companions(t, "14")...)
			findings := Check(drawLot(t, rules.Beef, rows...))
			name, _, _ := strings.Cut(wrong, "=")
			id := measure.Standard().ByName(name)
			if len(findings) != 1 || findings[0].Measure != id {
				t.Errorf("%s (own figures: %q): %q", wrong, own, said(findings))
				continue
			}
			truth := valueOf(t, id, trueRow(t)[id]).Number
			if hint := decimal.RequireFromString(findings[0].Hint); !hint.Equal(truth) {
				t.Errorf("%s: hint %s, want %s", wrong, hint, truth)
			}
		}
	}
}

// The two rows that a published teaching table misprints disagree with what their measures give (Utah State University
// Extension: .30/14.4/765/2.5 printed 1.92, .20/13.6/740/2.5 printed 2.05).
func TestMisprintedRowsDisagree(t *testing.T) {
	for _, row := range []string{
		"measured fat=0.30; ribeye area=14.4; hot carcass weight=765; live weight=; sheet yield grade=1.92",
		"measured fat=0.20; ribeye area=13.6; hot carcass weight=740; live weight=; sheet yield grade=2.05",
	} {
		found := said(Check(drawLot(t, rules.Beef, trueRow(t).but(t, row))))
		if !slices.ContainsFunc(found, func(text string) bool { return strings.HasPrefix(text, "look ") }) {
			t.Errorf("%s: %q", row, found)
		}
	}
}

// The rows the same table prints rightly agree (.20/14.0/809/2.5 → 2.09 and .75/13.0/745/3.5 → 3.75).
func TestPublishedRowsAgree(t *testing.T) {
	for _, row := range []string{
		"measured fat=0.20; ribeye area=14.0; hot carcass weight=809; live weight=; sheet yield grade=2.09",
		"measured fat=0.75; ribeye area=13.0; hot carcass weight=745; live weight=; kidney, pelvic and heart fat=3.5; sheet yield grade=3.75",
	} {
		if found := said(Check(drawLot(t, rules.Beef, trueRow(t).but(t, row)))); len(found) > 0 {
			t.Errorf("%s: %q", row, found)
		}
	}
}

// Whatever stands in the cells, checking does not fail, every finding names its place and says what to do, and the order
// of findings is that of the rows.
func TestAnythingCanBeChecked(t *testing.T) {
	measures := columnsOfTests[2:9]
	rapid.Check(t, func(rt *rapid.T) {
		var rows []drawn
		for range rapid.IntRange(0, 20).Draw(rt, "rows") {
			row := drawn{measure.Tag: rapid.SampledFrom([]string{"", "1", "2", "3", "14"}).Draw(rt, "tag")}
			for _, id := range measures {
				digits, places := rapid.Int64Range(-100, 99999).Draw(rt, "digits"), rapid.Int32Range(-3, 3).Draw(rt, "places")
				if id == measure.Marbling || id == measure.Maturity {
					digits, places = rapid.Int64Range(100, 599).Draw(rt, "score"), 0
				}
				if rapid.IntRange(0, 4).Draw(rt, "blank") > 0 {
					row[id] = decimal.New(digits, places).String()
				}
			}
			rows = append(rows, row)
		}
		last := 0
		for _, finding := range Check(drawLot(t, rules.Beef, rows...)) {
			row, _ := rowAndColumn(finding.At.Cell)
			if row < last || !strings.HasPrefix(finding.Message, `Sheet "Steers", cell `+finding.At.Cell+": ") || !strings.HasSuffix(finding.Message, ".") {
				rt.Fatalf("finding %+v after row %d", finding, last)
			}
			last = row
		}
	})
}

// A cell that could not be read is reading's to report: nothing that follows from it is said here.
func TestUnreadableCellIsSaidOnce(t *testing.T) {
	batch := drawLot(t, rules.Beef, trueRow(t))
	carcass := batch.Carcasses[0].Carcass
	carcass.SetReading(measure.RibeyeArea, grading.Reading{Written: "13,6,1", Unreadable: true, Place: carcass.ReadingOf(measure.RibeyeArea).Place})
	graded := grading.Grade(carcass, batch.Book)
	batch.Carcasses[0], batch.Sheets[0].Carcasses[0] = graded, graded
	if found := said(Check(batch)); len(found) > 0 {
		t.Errorf("%q", found)
	}
}

// Sheets without any carcass, and carcasses without any sheet, are no reason to fail.
func TestEmptyLots(t *testing.T) {
	batch := drawLot(t, rules.Beef)
	if found := Check(batch); len(found) > 0 {
		t.Errorf("%q", said(found))
	}
	batch = drawLot(t, rules.Beef, trueRow(t).but(t, "ribeye area=136"))
	batch.Sheets = nil
	if found := Check(batch); len(found) != 1 {
		t.Errorf("without a sheet: %q", said(found))
	}
}

// BenchmarkCheck checks a large fair's carcasses.
func BenchmarkCheck(b *testing.B) {
	for _, count := range []int{200, 10000} {
		b.Run(fmt.Sprint(count), func(b *testing.B) {
			batch := drawLot(b, rules.Beef, manyRows(b, count)...)
			b.ResetTimer()
			for range b.N {
				Check(batch)
			}
		})
	}
}
