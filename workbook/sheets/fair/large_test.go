package fair

import (
	"fmt"
	"testing"

	"railbook/grading/placing"
	"railbook/rules"
	"railbook/rules/measure"
	"railbook/validate"
	"railbook/workbook/ahead"
	"railbook/workbook/intake"
	"railbook/workbook/result"
	"railbook/workbook/sheets/kit"
	"railbook/workbook/sheets/sheetstest"

	"github.com/xuri/excelize/v2"
)

// largeResults are results of so many carcasses, each with a finding, in classes of a hundred.
func largeResults(t sheetstest.Tester, carcasses int) *result.Results {
	results := sheetstest.FairResults(t)
	results.Read, results.Carcasses, results.Findings, results.Decisions, results.Placings = &intake.Result{}, nil, nil, nil, placing.Placings{}
	block := intake.Block{Sheet: "Kill sheet", FirstRow: 4}
	for i := range carcasses {
		animal := sheetstest.Animals[i%len(sheetstest.Animals)]
		animal.Tag, animal.Class = fmt.Sprint(i+1), fmt.Sprintf("Class %d", i/100+1)
		carcass := animal.Carcass(i)
		graded := animal.Graded(carcass)
		block.Lines = append(block.Lines, i+5)
		results.Read.Carcasses = append(results.Read.Carcasses, carcass)
		results.Carcasses = append(results.Carcasses, &result.Result{Graded: graded})
		results.Findings = append(results.Findings, validate.Finding{
			Level: []validate.Level{validate.Look, validate.Note, validate.Hold}[i%3], Code: "ribeye out of line with weight", At: carcass.ReadingOf(measure.RibeyeArea).Place,
			Tag: animal.Tag, Class: animal.Class, Measure: measure.RibeyeArea, Read: animal.Ribeye, Message: "The ribeye area is large for the weight.", Carcass: carcass,
		})
		if i%100 == 0 {
			results.Placings.Classes = append(results.Placings.Classes, placing.ClassPlacing{Class: animal.Class, Species: rules.Beef, Basis: rules.OnTheRail})
		}
		class := &results.Placings.Classes[len(results.Placings.Classes)-1]
		class.Placed = append(class.Placed, placing.Placed{Entrant: &placing.Entrant{Graded: graded}, Place: i%100 + 1, Decider: -1})
	}
	results.Read.Blocks = []intake.Block{block}
	results.Gather()
	return results
}

func TestManyCarcassesKeepEveryLine(t *testing.T) {
	if testing.Short() {
		t.Skip("writes a large workbook")
	}
	const carcasses = 20000
	results := largeResults(t, carcasses)
	previous := readBack(t, writeAll(t, results))
	if want := len(intake.Records(results.Read)); len(previous.Readings) != want {
		t.Errorf("%d readings came back of %d", len(previous.Readings), want)
	}
}

func BenchmarkOurSheets(b *testing.B) {
	for _, carcasses := range []int{200, 10000, 100000} {
		b.Run(fmt.Sprint(carcasses), func(b *testing.B) {
			results := largeResults(b, carcasses)
			for b.Loop() {
				into := *results
				into.Book = sheetstest.BlankBook(b)
				if err := writeSheets(&into, nil, ahead.Value(into.State().LinesBeforeViews)); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

func TestLinksStopWhereASheetHoldsNoMore(t *testing.T) {
	if kit.MostLinks > excelize.TotalSheetHyperlinks {
		t.Error("a sheet cannot hold so many links")
	}
}
