package reading

import (
	"testing"

	"github.com/shopspring/decimal"

	"railbook/grading"
	"railbook/rules"
)

func TestRecordsAreOfTheDataAlone(t *testing.T) {
	at := func(sheet, cell string) rules.Place { return rules.Place{Sheet: sheet, Cell: cell} }
	carcass := &grading.Carcass{
		Tag: "0412", Class: "Steers", Place: at("Kill sheet", "B7"),
		Readings: map[rules.Measure]grading.Reading{
			rules.RibeyeArea:   {Value: rules.NumberValue(decimal.RequireFromString("13.60")), Place: at("Kill sheet", "G7"), Written: "13.60 sq in"},
			rules.Marbling:     {Place: at("Kill sheet", "H7"), Written: "S?", Unreadable: true},
			rules.QualityGrade: {Value: rules.Value{Text: "Low Choice"}, Place: at("Judge review", "I28"), Written: "Low Choice"},
		},
	}
	want := map[rules.Measure]ReadingRecord{
		rules.Tag:        {Sheet: "Kill sheet", Cell: "B7", Line: "7", Class: "Steers", Tag: "0412", Measure: rules.Tag, Written: "0412", Value: "0412"},
		rules.ClassName:  {Sheet: "Kill sheet", Cell: "B7", Line: "7", Class: "Steers", Tag: "0412", Measure: rules.ClassName, Written: "Steers", Value: "Steers"},
		rules.RibeyeArea: {Sheet: "Kill sheet", Cell: "G7", Line: "7", Class: "Steers", Tag: "0412", Measure: rules.RibeyeArea, Written: "13.60 sq in", Value: "13.6"},
		rules.Marbling:   {Sheet: "Kill sheet", Cell: "H7", Line: "7", Class: "Steers", Tag: "0412", Measure: rules.Marbling, Written: "S?"},
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
