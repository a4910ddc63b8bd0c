package validate

import (
	"fmt"
	"maps"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/shopspring/decimal"

	"railbook/grading"
	"railbook/rules"
)

// columnsOfTests are the columns of the sheets that tests draw, in order; the heading row is row 4, the first carcass
// stands in row 5.
var columnsOfTests = []rules.Measure{
	rules.Tag, rules.ClassName, rules.LiveWeight, rules.HotCarcassWeight, rules.MeasuredFat, rules.RibeyeArea, rules.InternalFat,
	rules.Marbling, rules.Maturity, rules.SheetYieldGrade, rules.SheetQualityGrade, rules.SheetDressingPercent, rules.SheetCutability,
	rules.ChilledCarcassWeight, rules.LeftSideWeight, rules.RightSideWeight, rules.SkeletalMaturity, rules.LeanMaturity,
	rules.DarkCutter, rules.Hardbone, rules.DairyType, rules.Over30Months, rules.Under30Months, rules.Bullock, rules.Condemned,
	rules.Retained, rules.Trimmed, rules.BloodSplash, rules.Sex, rules.DarkCutterLowering, rules.FatAdjustment, rules.AdjustedFat,
	rules.FairWeight, rules.Exhibitor,
}

// drawn is one row of a test's sheet as a person would write it: "tag=101 live weight=1250 …". Values are plain numbers,
// marbling in hundreds, maturity in hundreds, marks yes or no, anything else text.
type drawn map[rules.Measure]string

// drawRow reads a test's row: the measures by name, separated by semicolons.
func drawRow(t testing.TB, text string) drawn {
	t.Helper()
	row := drawn{}
	for _, part := range strings.Split(text, ";") {
		name, value, ok := strings.Cut(strings.TrimSpace(part), "=")
		if _, known := rules.Define(rules.Measure(name)); !ok || !known {
			t.Fatalf("%q names no measure", part)
		}
		row[rules.Measure(name)] = value
	}
	return row
}

// but gives the row with some cells changed; an empty value takes the cell away.
func (d drawn) but(t testing.TB, text string) drawn {
	t.Helper()
	changed := drawn{}
	for measure, value := range d {
		changed[measure] = value
	}
	if text == "" {
		return changed
	}
	for measure, value := range drawRow(t, text) {
		changed[measure] = value
		if value == "" {
			delete(changed, measure)
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
func drawLot(t testing.TB, species rules.Species, rows ...drawn) *Lot {
	t.Helper()
	return drawLotBy(t, rules.Default(), species, rows...)
}

// drawLotBy grades them by one rulebook.
func drawLotBy(t testing.TB, book *rules.Rulebook, species rules.Species, rows ...drawn) *Lot {
	t.Helper()
	lot := &Lot{Book: book}
	sheet := Sheet{
		Name: "Steers", Heading: rules.Place{Sheet: "Steers", Cell: "A4"},
		Columns: map[rules.Measure]rules.Place{}, Weights: rules.WeightsHot,
	}
	columns := append([]rules.Measure{}, columnsOfTests...)
	for _, row := range rows {
		for _, measure := range slices.Sorted(maps.Keys(row)) {
			if !slices.Contains(columns, measure) {
				columns = append(columns, measure)
			}
		}
	}
	for i, row := range rows {
		carcass := &grading.Carcass{
			Tag: row[rules.Tag], Class: row[rules.ClassName], Species: species, Basis: rules.OnTheRail, Sequence: i,
			Place: rules.Place{Sheet: "Steers", Cell: fmt.Sprintf("A%d", i+5)}, Readings: map[rules.Measure]grading.Reading{},
		}
		for column, measure := range columns {
			written, has := row[measure]
			if !has {
				continue
			}
			sheet.Columns[measure] = rules.Place{Sheet: "Steers", Cell: columnLetters(column) + "4"}
			carcass.Readings[measure] = grading.Reading{
				Value: valueOf(t, measure, written), Written: written, Plain: true,
				Place: rules.Place{Sheet: "Steers", Cell: fmt.Sprintf("%s%d", columnLetters(column), i+5)},
			}
		}
		graded := grading.Grade(carcass, lot.Book)
		lot.Carcasses = append(lot.Carcasses, graded)
		sheet.Carcasses = append(sheet.Carcasses, graded)
	}
	lot.Sheets = []Sheet{sheet}
	return lot
}

// valueOf makes the value that reading would make of a cell as tests write it.
func valueOf(t testing.TB, measure rules.Measure, written string) rules.Value {
	t.Helper()
	definition, _ := rules.Define(measure)
	switch definition.Kind {
	case rules.KindText:
		return rules.Value{Text: written}
	case rules.KindMark:
		if written == "yes" {
			return rules.Value{Number: decimal.NewFromInt(1), Text: "yes"}
		}
		return rules.Value{Text: "no"}
	case rules.KindGrade:
		grade, _, ok := grading.ParseQualityGrade(written)
		if !ok {
			t.Fatalf("%q is no quality grade", written)
		}
		return grade
	}
	if day, err := time.Parse(time.DateOnly, written); err == nil && definition.Kind == rules.KindDate {
		return rules.Value{Number: decimal.NewFromInt(int64(day.Sub(dayZero).Hours() / 24)), Text: written}
	}
	number, err := decimal.NewFromString(written)
	if err != nil {
		t.Fatalf("%s %q: %v", measure, written, err)
	}
	switch definition.Kind {
	case rules.KindMaturity:
		return rules.Value{Number: number, Text: grading.FormatMaturity(number)}
	case rules.KindMarbling:
		return rules.Value{Number: number, Text: grading.FormatMarbling(number)}
	}
	return rules.NumberValue(number)
}

// said lists findings as "level code cell hint".
func said(findings []Finding) []string {
	var list []string
	for _, finding := range findings {
		list = append(list, strings.TrimSpace(fmt.Sprintf("%s %s %s %s", finding.Level, finding.Code, finding.At.Cell, finding.Hint)))
	}
	return list
}
