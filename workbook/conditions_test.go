package workbook

import (
	"encoding/csv"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/xuri/excelize/v2"

	"railbook/rules"
	"railbook/validate"
)

// writtenMarks are a yes and a no as offices write them; the lines of the table take them in turn.
var writtenMarks = map[string][]any{
	"yes": {"yes", "Y", "X", "x", "✓", "YES", true},
	"no":  {"no", "N", "No", false},
}

// Every sign of every condition of grading/placing/testdata/conditions.csv, written in a workbook: the grade in its column, the line of
// the price on the card, and what is held and said on the card because signs contradict each other come of the same condition as
// eligibility and groups do, which that package's own test reads the table for.
func TestEverySignOfAConditionOnTheCard(t *testing.T) {
	signs := signsOfConditions(t)
	outcome, err := Grade(signsFair(t, signs), Options{})
	if err != nil {
		t.Fatal(err)
	}
	published, err := Publish(outcome.Path, Options{}, PublishOptions{})
	if err != nil {
		t.Fatal(err)
	}
	cards := cardRows(t, published.Cards.Path)
	rows := shownRows(t, outcome.Path, "Steers")
	grades := slices.Index(rows[0], "Quality grade")
	for at, sign := range signs {
		name := fmt.Sprintf("%s by %v", sign.condition, sign.signs)
		carcass := published.Results.Carcasses[at]
		card := cards["Tag "+carcass.Tag]
		remark := sign.signs["remarks"] != ""
		clash := slices.ContainsFunc(carcass.Findings, func(finding *validate.Finding) bool {
			return finding.Level == validate.Hold && (finding.Code == "signs of a condition disagree" || finding.Code == "age marks disagree")
		})
		if clash != sign.contradicted {
			t.Errorf("%s: held as contradicted: %v", name, clash)
		}
		if grade := rows[at+1][grades]; sign.grade != "-" && !remark && grade != sign.gradeShown() {
			t.Errorf("%s: the sheet shows the grade %q, want %q", name, grade, sign.gradeShown())
		}
		if words := flat(card); sign.grade != "-" && sign.gradeShown() != "" && !remark && !sign.keptBack() && !strings.Contains(words, sign.grade) {
			t.Errorf("%s: no %s on the card:\n%s", name, sign.grade, words)
		}
		sign.holdCard(t, name, card)
	}
}

// signOfCondition is a line of the table.
type signOfCondition struct {
	condition    string
	signs        map[string]string
	is           bool
	contradicted bool
	grade        string
}

// keptBack reports whether the inspector kept the carcass back.
func (s signOfCondition) keptBack() bool {
	return s.is && (s.condition == "condemned" || s.condition == "retained")
}

// gradeShown is the grade that stands in its column: none where contradicting signs leave it open.
func (s signOfCondition) gradeShown() string {
	if s.contradicted {
		return ""
	}
	return s.grade
}

// holdCard holds a card against what its carcass is: priced by the line of the condition, marked with it, kept back, or asked about.
func (s signOfCondition) holdCard(t *testing.T, name string, card [][]string) {
	t.Helper()
	words := flat(card)
	at := slices.IndexFunc(rules.Default().Grid, func(line rules.GridLine) bool {
		return line.Part == rules.ConditionPart && line.Name == s.condition
	})
	switch {
	case at >= 0:
		discount := strings.TrimPrefix(rules.Default().Grid[at].Adjust.StringFixed(2), "-")
		priced := slices.ContainsFunc(card, func(row []string) bool {
			return strings.EqualFold(row0(row), s.condition) && strings.Contains(strings.Join(row, " "), discount)
		})
		if priced != (s.is && !s.contradicted) && s.grade != "-" {
			t.Errorf("%s: priced as that on the card: %v\n%s", name, priced, words)
		}
		if s.contradicted && !strings.Contains(words, "This carcass has no place yet") {
			t.Errorf("%s: the card does not say that it is held:\n%s", name, words)
		}
	case s.condition == "condemned" || s.condition == "retained":
		if kept := strings.Contains(words, "was kept back"); kept != s.is && s.signs["remarks"] == "" {
			t.Errorf("%s: kept back on the card: %v\n%s", name, kept, words)
		}
	case s.signs[s.condition] == "yes":
		if !slices.ContainsFunc(card, func(row []string) bool { return strings.EqualFold(row0(row), s.condition) }) {
			t.Errorf("%s: the mark is not on the card:\n%s", name, words)
		}
	}
}

func row0(row []string) string {
	if len(row) == 0 {
		return ""
	}
	return row[0]
}

func signsOfConditions(t *testing.T) (signs []signOfCondition) {
	t.Helper()
	file, err := os.Open(filepath.Join("..", "grading", "placing", "testdata", "conditions.csv"))
	if err != nil {
		t.Fatal(err)
	}
	defer file.Close()
	lines, err := csv.NewReader(file).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	for _, line := range lines[1:] {
		sign := signOfCondition{line[0], map[string]string{}, line[2] == "yes", line[3] == "yes", line[4]}
		for _, written := range strings.Split(line[1], "; ") {
			name, value, _ := strings.Cut(written, "=")
			sign.signs[name] = value
		}
		signs = append(signs, sign)
	}
	return signs
}

// signsFair is a workbook with an ordinary carcass for each line of the table, and its signs in columns of their own.
func signsFair(t *testing.T, signs []signOfCondition) string {
	t.Helper()
	headings := []any{"Tag", "Class", "HCW", "Fat", "REA", "KPH", "Marbling", "Maturity"}
	ordinary := len(headings)
	for _, sign := range signs {
		for name := range sign.signs {
			if name != "maturity" && !slices.Contains(headings, any(name)) {
				headings = append(headings, name)
			}
		}
	}
	slices.SortFunc(headings[ordinary:], func(a, b any) int { return strings.Compare(fmt.Sprint(a), fmt.Sprint(b)) })
	file := excelize.NewFile()
	defer file.Close()
	if err := file.SetSheetName("Sheet1", "Steers"); err != nil {
		t.Fatal(err)
	}
	if err := file.SetSheetRow("Steers", "A1", &headings); err != nil {
		t.Fatal(err)
	}
	for at, sign := range signs {
		row := make([]any, len(headings))
		copy(row, []any{fmt.Sprintf("S%d", 101+at), "Steers", 740 + at%40, .5 + float64(at%9)/100, 12.1 + float64(at%11)/10, 2.5, "Slightly Abundant 20", "A60"})
		for name, value := range sign.signs {
			column := slices.Index(headings, any(name))
			if name == "maturity" {
				column = slices.Index(headings, any("Maturity"))
			}
			row[column] = value
			if forms := writtenMarks[value]; forms != nil {
				row[column] = forms[at%len(forms)]
			}
		}
		cell, _ := excelize.CoordinatesToCellName(1, at+2)
		if err := file.SetSheetRow("Steers", cell, &row); err != nil {
			t.Fatal(err)
		}
	}
	path := filepath.Join(t.TempDir(), "signs.xlsx")
	if err := file.SaveAs(path); err != nil {
		t.Fatal(err)
	}
	return path
}
