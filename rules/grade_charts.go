package rules

import (
	_ "embed"
	"encoding/csv"
	"fmt"
	"strings"

	"github.com/shopspring/decimal"
)

//go:embed tables/grade_charts.csv
var gradeChartsCSV string

// ChartLine is one line of a grade chart: the least score for a grade within a group, such as the least marbling for Low
// Choice in maturity B. Within the group the least slides in a straight line from At00 to At100.
type ChartLine struct {
	Group  string              // "A" to "E" for a maturity, "1" to "3" for a muscling score
	Grade  string              // what a carcass at or above the least has: a grade in words, or a score as a number
	Lower  []string            // the grade as a judge may lower it by 1/3, 1/2, 2/3 and a full grade; nil where none is lowered
	At00   decimal.NullDecimal // the least at 00 of the group, in the unit of the score; not valid for the group's lowest grade
	At100  decimal.NullDecimal // the least at 100 of the group
	Source string
}

// GradeChart gives the chart by which a figure of a species is graded, group by group and within a group from the lowest
// grade up; none where no such chart ships with the program. The sources stand with the lines of tables/grade_charts.csv.
func GradeChart(species Species, figure string) []ChartLine {
	return gradeCharts[chartKey{species, figure}]
}

// chartKey names a chart by the species and the figure it grades.
type chartKey struct {
	species Species
	figure  string
}

var gradeCharts = mustReadGradeCharts(gradeChartsCSV)

// mustReadGradeCharts reads the embedded table; a fault in it is a fault of the program and is found by every test.
func mustReadGradeCharts(text string) map[chartKey][]ChartLine {
	rows, err := csv.NewReader(strings.NewReader(text)).ReadAll()
	if err != nil {
		panic(fmt.Sprintf("rules: tables/grade_charts.csv: %v", err))
	}
	least := func(text string) decimal.NullDecimal {
		if text == "" {
			return decimal.NullDecimal{}
		}
		return decimal.NewNullDecimal(decimal.RequireFromString(text))
	}
	charts := make(map[chartKey][]ChartLine)
	for _, row := range rows[1:] {
		line := ChartLine{Group: row[2], Grade: row[3], At00: least(row[8]), At100: least(row[9]), Source: row[10]}
		if row[4] != "" {
			line.Lower = row[4:8]
		}
		key := chartKey{Species(row[0]), row[1]}
		charts[key] = append(charts[key], line)
	}
	return charts
}
