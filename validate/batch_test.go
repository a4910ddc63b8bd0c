package validate

import (
	"fmt"
	"maps"
	"slices"
	"strings"
	"testing"
	"time"

	"railbook/grading"
	"railbook/rules"
	"railbook/rules/measure"

	"github.com/shopspring/decimal"
)

// columnsOfTests are the columns of the sheets that tests draw, in order; the heading row is row 4, the first carcass
// stands in row 5.
var columnsOfTests = []measure.ID{
	measure.Tag, measure.ClassName, measure.LiveWeight, measure.HotCarcassWeight, measure.MeasuredFat, measure.RibeyeArea, measure.InternalFat,
	measure.Marbling, measure.Maturity, measure.SheetYieldGrade, measure.SheetQualityGrade, measure.SheetDressingPercent, measure.SheetCutability,
	measure.ChilledCarcassWeight, measure.LeftSideWeight, measure.RightSideWeight, measure.SkeletalMaturity, measure.LeanMaturity,
	measure.DarkCutter, measure.Hardbone, measure.DairyType, measure.Over30Months, measure.Under30Months, measure.Bullock, measure.Condemned,
	measure.Retained, measure.Trimmed, measure.BloodSplash, measure.Sex, measure.DarkCutterLowering, measure.FatAdjustment, measure.AdjustedFat,
	measure.FairWeight, measure.Exhibitor,
}

// drawn is one row of a test's sheet as a person would write it: "tag=101 live weight=1250 …". Values are plain numbers,
// marbling in hundreds, maturity in hundreds, marks yes or no, anything else text.
type drawn map[measure.ID]string

// drawRow reads a test's row: the measures by name, separated by semicolons.
func drawRow(t testing.TB, text string) drawn {
	t.Helper()
	row := drawn{}
	for _, part := range strings.Split(text, ";") {
		name, value, ok := strings.Cut(strings.TrimSpace(part), "=")
		if _, known := measure.Define(measure.Standard().ByName(name)); !ok || !known {
			t.Fatalf("%q names no measure", part)
		}
		row[measure.Standard().ByName(name)] = value
	}
	return row
}

// but gives the row with some cells changed; an empty value takes the cell away.
func (d drawn) but(t testing.TB, text string) drawn {
	t.Helper()
	changed := drawn{}
	for id, value := range d {
		changed[id] = value
	}
	if text == "" {
		return changed
	}
	for id, value := range drawRow(t, text) {
		changed[id] = value
		if value == "" {
			delete(changed, id)
		}
	}
	return changed
}

// trueRow is the carcass of the trade's table of slips: 780 lb, 0.40 in, 13.6 sq in, 2.5 % make yield grade 2.61.
func trueRow(t testing.TB) drawn {
	return drawRow(t, "tag=101; class=Steers; live weight=1250; hot carcass weight=780; measured fat=0.4; ribeye area=13.6; "+
		"kidney, pelvic and heart fat=2.5; marbling=440; maturity=160")
}

// columnLetters names a column of a test's sheet.
func columnLetters(i int) string {
	if i < 26 {
		return string(rune('A' + i))
	}
	return "A" + string(rune('A'+i-26))
}

// drawLot grades the rows as the one sheet "Steers" of a lot.
func drawLot(t testing.TB, species rules.Species, rows ...drawn) *Batch {
	t.Helper()
	return drawLotBy(t, plantedBook(), species, rows...)
}

// drawLotBy grades them by one rulebook.
func drawLotBy(t testing.TB, book *rules.Rulebook, species rules.Species, rows ...drawn) *Batch {
	t.Helper()
	batch := &Batch{Book: book}
	sheet := Sheet{
		Name: "Steers", Heading: rules.Place{Sheet: "Steers", Cell: "A4"},
		Columns: map[measure.ID]rules.Place{}, Weights: rules.WeightsHot,
	}
	columns := append([]measure.ID{}, columnsOfTests...)
	for _, row := range rows {
		for _, id := range slices.SortedFunc(maps.Keys(row), measure.CompareNames) {
			if !slices.Contains(columns, id) {
				columns = append(columns, id)
			}
		}
	}
	for i, row := range rows {
		carcass := &grading.Carcass{
			Tag: row[measure.Tag], Class: row[measure.ClassName], Species: species, Basis: rules.OnTheRail, Sequence: i,
			Place: rules.Place{Sheet: "Steers", Cell: fmt.Sprintf("A%d", i+5)},
		}
		for column, id := range columns {
			written, has := row[id]
			if !has {
				continue
			}
			sheet.Columns[id] = rules.Place{Sheet: "Steers", Cell: columnLetters(column) + "4"}
			carcass.SetReading(id, grading.Reading{
				Value: valueOf(t, id, written), Written: written, Plain: true,
				Place: rules.Place{Sheet: "Steers", Cell: fmt.Sprintf("%s%d", columnLetters(column), i+5)},
			})
		}
		graded := grading.Grade(carcass, batch.Book)
		batch.Carcasses = append(batch.Carcasses, graded)
		sheet.Carcasses = append(sheet.Carcasses, graded)
	}
	batch.Sheets = []Sheet{sheet}
	return batch
}

// valueOf makes the value that reading would make of a cell as tests write it.
func valueOf(t testing.TB, id measure.ID, written string) measure.Value {
	t.Helper()
	definition, _ := measure.Define(id)
	switch definition.Kind {
	case measure.KindText:
		return measure.Value{Text: written}
	case measure.KindMark:
		if written == "yes" {
			return measure.Value{Number: decimal.NewFromInt(1), Text: "yes"}
		}
		return measure.Value{Text: "no"}
	case measure.KindGrade:
		grade, _, ok := grading.ParseQualityGrade(written)
		if !ok {
			t.Fatalf("%q is no quality grade", written)
		}
		return grade
	}
	if day, err := time.Parse(time.DateOnly, written); err == nil && definition.Kind == measure.KindDate {
		return measure.Value{Number: decimal.NewFromInt(int64(day.Sub(dayZero).Hours() / 24)), Text: written}
	}
	number, err := decimal.NewFromString(written)
	if err != nil {
		t.Fatalf("%s %q: %v", id, written, err)
	}
	switch definition.Kind {
	case measure.KindMaturity:
		return measure.Value{Number: number, Text: grading.FormatMaturity(number)}
	case measure.KindMarbling:
		return measure.Value{Number: number, Text: grading.FormatMarbling(number)}
	}
	return measure.NumberValue(number)
}

// said lists findings as "level code cell hint".
func said(findings []Finding) []string {
	var list []string
	for _, finding := range findings {
		list = append(list, strings.TrimSpace(fmt.Sprintf("%s %s %s %s", finding.Level, finding.Code, finding.At.Cell, finding.Hint)))
	}
	return list
}
