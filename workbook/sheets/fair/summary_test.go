package fair

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"github.com/shopspring/decimal"
	"github.com/xuri/excelize/v2"

	"railbook/grading"
	"railbook/rules"
	"railbook/rules/measure"
	"railbook/validate"
	"railbook/workbook/record"
	"railbook/workbook/result"
	"railbook/workbook/sheets/kit"
	"railbook/workbook/sheets/sheetstest"
)

func TestSummaryLeavesOutWhatIsOnHold(t *testing.T) {
	results := sheetstest.FairResults(t)
	groups := groupsOf(results, result.KindOfClass{Species: rules.Beef, Basis: rules.OnTheRail})
	overall := groups[len(groups)-1]
	if len(overall.all) != 14 || overall.held != 1 || overall.placed != 13 {
		t.Fatalf("%d counted, %d on hold, %d placed", len(overall.all), overall.held, overall.placed)
	}
	// The ribeye of 136 square inches on hold must not be in the mean.
	mean, ok := result.MeanOf(overall.all, measure.RibeyeArea)
	if !ok || mean.GreaterThan(sheetstest.Number("14")) {
		t.Errorf("the mean ribeye area is %s", mean)
	}
}

func TestQualityByYieldAddsUp(t *testing.T) {
	lines := sheetLines(t, writeAll(t, sheetstest.FairResults(t)), record.SummarySheet)
	total := lineWith(lines, "All", "14")
	if want := []string{"All", "1", "9", "3", "1", "0", "14"}; !slices.Equal(total, want) {
		t.Errorf("the totals are %q", total)
	}
}

func TestSummaryBesideLastYear(t *testing.T) {
	results := sheetstest.FairResults(t)
	past := sheetstest.FairResults(t)
	past.Findings = append(past.Findings, validate.Finding{Level: validate.Hold, Carcass: past.Carcasses[0].Carcass})
	past.Gather()
	results.LastYear = LastYearLines("2024.xlsx", past)
	file := writeAll(t, results)
	lines := sheetLines(t, file, record.SummarySheet)
	if lineWith(lines, "Carcasses", "14", "13", "1") == nil || !strings.Contains(everything(lines), "Last year: 2024.xlsx") {
		t.Errorf("last year is not beside this one:\n%s", everything(lines))
	}
	if lineWith(lines, "Quality grade, beef", "This year, %", "Last year, %") == nil {
		t.Errorf("the chart of two years has no figures:\n%s", everything(lines))
	}
	results.LastYear = []record.LastYearLine{{File: "2023.xlsx", Species: "goat", Kind: string(rules.OnTheRail), Figure: record.CarcassesCounted, Value: "4"}}
	if all := everything(sheetLines(t, writeAll(t, results), record.SummarySheet)); !strings.Contains(all, "2023.xlsx has no beef to set beside these.") {
		t.Error("a year without beef is not said")
	}
}

func TestValuesFallIntoBandsOfARoundWidth(t *testing.T) {
	bands := bandsOf(gradedOf(sheetstest.FairResults(t)), measure.CarcassValue)
	count := 0
	for _, band := range bands {
		count += band.count
	}
	if count != len(sheetstest.Animals) || len(bands) < 2 || len(bands) > 12 {
		t.Errorf("%d carcasses in %d bands", count, len(bands))
	}
}

func TestChartsAreDrawnFromFiguresOnTheSheet(t *testing.T) {
	lines := sheetLines(t, writeAll(t, sheetstest.FairResults(t)), record.SummarySheet)
	want := []string{
		"Whole yield grade, beef", "Carcasses", "Quality grade, beef", "Carcasses",
		"Adjusted fat, in", "First in its class", "Market heifers", "Market steers, lightweight", "The rulebook's aim",
		"Value $, beef", "Carcasses",
	}
	if !slices.ContainsFunc(lines, func(line []string) bool { return slices.Equal(line, want) }) {
		t.Errorf("the charts' figures are not all there:\n%s", everything(lines))
	}
}

// A chart shows every grade in order, those that nobody had with a zero: of a short scale all, of a long one those between the
// worst and the best that there are. A grade that is not of the scale leaves what was found as it is.
func TestChartsShowEveryGradeInOrder(t *testing.T) {
	for _, test := range []struct {
		species rules.Species
		id      measure.ID
		found   string // the highest rank first
		want    string
	}{
		{rules.Beef, measure.QualityGrade, "High Choice 2, Low Select 1", "Low Select 1, High Select 0, Low Choice 0, Average Choice 0, High Choice 2"},
		{rules.Beef, measure.QualityGrade, "Low Choice 3", "Low Choice 3"},
		{rules.Beef, measure.WholeYieldGrade, "4 1, 2 5", "1 0, 2 5, 3 0, 4 1, 5 0"},
		{rules.Swine, measure.PorkGrade, "U.S. No. 1 4", "U.S. Utility 0, U.S. No. 4 0, U.S. No. 3 0, U.S. No. 2 0, U.S. No. 1 4"},
		{rules.Lamb, measure.QualityGrade, "Low Prime 1, Average Choice 2", "Average Choice 2, High Choice 0, Low Prime 1"},
		{rules.Beef, measure.QualityGrade, "Blue 2, Red 1", "Red 1, Blue 2"},
	} {
		var tallies []tally
		var shares []share
		for word := range strings.SplitSeq(test.found, ", ") {
			at := strings.LastIndex(word, " ")
			count := int(word[at+1] - '0')
			tallies = append(tallies, tally{words: word[:at], count: count})
			shares = append(shares, share{words: word[:at], now: decimal.NewFromInt(int64(count))})
		}
		scale := scaleOf(test.species, test.id)
		var counted, shared []string
		for _, tally := range everyTally(scale, tallies) {
			counted = append(counted, fmt.Sprintf("%s %d", tally.words, tally.count))
		}
		for _, share := range everyShare(scale, shares) {
			shared = append(shared, fmt.Sprintf("%s %s", share.words, share.now))
		}
		if got := strings.Join(counted, ", "); got != test.want {
			t.Errorf("%s counted: %s, want %s", test.found, got, test.want)
		}
		if got := strings.Join(shared, ", "); got != test.want {
			t.Errorf("%s shared: %s, want %s", test.found, got, test.want)
		}
	}
}

// The scatter rings the first of each class and frames the aim, within the axes; an aim that grows with the weight is no frame.
func TestTheAimIsFramedWithinTheAxes(t *testing.T) {
	bound := func(text string) rules.Bound {
		return rules.Bound{NullDecimal: decimal.NewNullDecimal(sheetstest.Number(text))}
	}
	overall := group{kind: result.KindOfClass{Species: rules.Beef}, targets: []rules.Target{
		{Species: rules.Beef, Measure: measure.AdjustedFat, From: bound("0.3"), UpTo: bound("0.45")},
		{Species: rules.Swine, Measure: measure.RibeyeArea, From: bound("1")},
		{Species: rules.Beef, Measure: measure.RibeyeArea, From: bound("12.5")},
		{Species: rules.Beef, Measure: measure.BodyWallThickness, From: rules.Bound{NullDecimal: decimal.NewNullDecimal(decimal.Zero), PerPound: decimal.NewFromInt(1)}},
	}}
	for _, test := range []struct {
		id                  measure.ID
		low, high, from, to string
		has                 bool
	}{
		{measure.AdjustedFat, "0.1", "1", "0.3", "0.45", true},
		{measure.AdjustedFat, "0.4", "1", "0.4", "0.45", true},
		{measure.AdjustedFat, "0.5", "1", "0.5", "1", false},
		{measure.RibeyeArea, "10", "16", "12.5", "16", true},
		{measure.BodyWallThickness, "0", "2", "0", "2", false},
		{measure.InternalFat, "0", "2", "0", "2", false},
	} {
		from, to, has := aimWithin(overall, test.id, sheetstest.Number(test.low), sheetstest.Number(test.high))
		if from.String() != test.from || to.String() != test.to || has != test.has {
			t.Errorf("%s within %s to %s: %s to %s, %v", test.id, test.low, test.high, from, to, has)
		}
	}
}

// A fair's own workbook may have lower rows than ours; the charts must still stand clear of one another and of the page's end.
func TestRowsUnderChartsKeepTheirHeight(t *testing.T) {
	file := openResults(t, sheetstest.FairResults(t))
	low, custom := 10.0, true
	if err := file.SetSheetProps(record.SummarySheet, &excelize.SheetPropsOptions{DefaultRowHeight: &low, CustomHeight: &custom}); err != nil {
		t.Fatal(err)
	}
	kept := 0
	for row := 1; row <= 120; row++ {
		height, err := file.GetRowHeight(record.SummarySheet, row)
		if err != nil {
			t.Fatal(err)
		}
		if height == kit.ChartRowHeight {
			kept++
		}
	}
	if kept < 2*kit.ChartRows {
		t.Errorf("%d rows have the height of those under charts, want at least %d", kept, 2*kit.ChartRows)
	}
}

func gradedOf(results *result.Results) (graded []*grading.Graded) {
	for _, carcass := range results.Carcasses {
		graded = append(graded, carcass.Graded)
	}
	return graded
}
