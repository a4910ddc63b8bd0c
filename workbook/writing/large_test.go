package writing

import (
	"fmt"
	"testing"

	"github.com/xuri/excelize/v2"

	"railbook/grading"
	"railbook/rules"
	"railbook/rules/measure"
	"railbook/validate"
	"railbook/workbook/reading"
)

// largeResults are results of so many carcasses, each with a finding, in classes of a hundred.
func largeResults(t tester, carcasses int) *Results {
	results := fairResults(t)
	results.Read, results.Graded, results.Findings, results.Decisions, results.Placings = &reading.Result{}, nil, nil, nil, grading.Placings{}
	block := reading.Block{Sheet: "Kill sheet", FirstRow: 4, Rows: make(map[*grading.Carcass]int, carcasses)}
	for i := range carcasses {
		one := animals[i%len(animals)]
		one.tag, one.class = fmt.Sprint(i+1), fmt.Sprintf("Class %d", i/100+1)
		carcass := one.carcass(i)
		graded := one.graded(carcass)
		block.Rows[carcass] = i + 5
		results.Read.Carcasses = append(results.Read.Carcasses, carcass)
		results.Graded = append(results.Graded, graded)
		results.Findings = append(results.Findings, validate.Finding{
			Level: []validate.Level{validate.Look, validate.Note, validate.Hold}[i%3], Code: "ribeye out of line with weight", At: carcass.Readings[measure.RibeyeArea].Place,
			Tag: one.tag, Class: one.class, Measure: measure.RibeyeArea, Read: one.ribeye, Message: "The ribeye area is large for the weight.", Carcass: carcass,
		})
		if i%100 == 0 {
			results.Placings.Classes = append(results.Placings.Classes, grading.ClassPlacing{Class: one.class, Species: rules.Beef, Basis: rules.OnTheRail})
		}
		class := &results.Placings.Classes[len(results.Placings.Classes)-1]
		class.Placed = append(class.Placed, grading.Placed{Graded: graded, Place: i%100 + 1, Decider: -1, Why: "Low Choice over High Select"})
	}
	results.Read.Blocks = []reading.Block{block}
	return results
}

func TestManyCarcassesKeepEveryLine(t *testing.T) {
	if testing.Short() {
		t.Skip("writes a large workbook")
	}
	const carcasses = 20000
	results := largeResults(t, carcasses)
	previous := readBack(t, writeAll(t, results))
	if want := len(reading.Records(results.Read)); len(previous.Readings) != want {
		t.Errorf("%d readings came back of %d", len(previous.Readings), want)
	}
}

func BenchmarkOurSheets(b *testing.B) {
	for _, carcasses := range []int{200, 10000, 100000} {
		b.Run(fmt.Sprint(carcasses), func(b *testing.B) {
			results := largeResults(b, carcasses)
			for b.Loop() {
				into := *results
				into.Book = blankBook(b)
				if err := writeSheets(&into); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

func TestLinksStopWhereASheetHoldsNoMore(t *testing.T) {
	if mostLinks > excelize.TotalSheetHyperlinks {
		t.Error("a sheet cannot hold so many links")
	}
}
