package intake

import (
	"testing"

	"github.com/shopspring/decimal"

	"railbook/grading"
	"railbook/rules"
	"railbook/rules/measure"
	"railbook/workbook/record"
)

func TestRecordsAreOfTheDataAlone(t *testing.T) {
	at := func(sheet, cell string) rules.Place { return rules.Place{Sheet: sheet, Cell: cell} }
	carcass := (&grading.Carcass{
		Tag: "0412", Class: "Steers", Place: at("Kill sheet", "B7"),
	}).With(map[measure.ID]grading.Reading{
		measure.RibeyeArea:   {Value: measure.NumberValue(decimal.RequireFromString("13.60")), Place: at("Kill sheet", "G7"), Written: "13.60 sq in"},
		measure.Marbling:     {Place: at("Kill sheet", "H7"), Written: "S?", Unreadable: true},
		measure.QualityGrade: {Value: measure.Value{Text: "Low Choice"}, Place: at("Judge review", "I28"), Written: "Low Choice"},
	})
	want := map[measure.ID]record.Reading{
		measure.Tag:        {Sheet: "Kill sheet", Cell: "B7", Line: "7", Class: "Steers", Tag: "0412", Measure: measure.Tag, Written: "0412", Value: "0412"},
		measure.ClassName:  {Sheet: "Kill sheet", Cell: "B7", Line: "7", Class: "Steers", Tag: "0412", Measure: measure.ClassName, Written: "Steers", Value: "Steers"},
		measure.RibeyeArea: {Sheet: "Kill sheet", Cell: "G7", Line: "7", Class: "Steers", Tag: "0412", Measure: measure.RibeyeArea, Written: "13.60 sq in", Value: "13.6"},
		measure.Marbling:   {Sheet: "Kill sheet", Cell: "H7", Line: "7", Class: "Steers", Tag: "0412", Measure: measure.Marbling, Written: "S?"},
	}
	records := Records(&Result{Carcasses: []*grading.Carcass{carcass}})
	for _, record := range records {
		if record != want[record.Measure] {
			t.Errorf("got %+v, want %+v", record, want[record.Measure])
		}
	}
	if len(records) != len(want) {
		t.Errorf("%d records, want %d", len(records), len(want))
	}
}
