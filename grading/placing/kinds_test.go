package placing_test

import (
	"encoding/csv"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"railbook/grading"
	"railbook/grading/placing"
	"railbook/rules"
	"railbook/rules/measure"
	"railbook/workbook/words"

	"github.com/google/go-cmp/cmp"
	"github.com/rogpeppe/go-internal/txtar"
	"github.com/shopspring/decimal"
)

// TestKindsOfRuleSets places a class under each kind of rule seen in published rule sets. The kinds are published, the
// numbers invented; each file says what its rule asks, and its places were worked out from the rule by hand.
func TestKindsOfRuleSets(t *testing.T) {
	files, err := filepath.Glob("testdata/kinds/*.txtar")
	if err != nil || len(files) < 10 {
		t.Fatalf("%d kinds, %v", len(files), err)
	}
	for _, file := range files {
		t.Run(strings.TrimSuffix(filepath.Base(file), ".txtar"), func(t *testing.T) {
			archive, err := txtar.ParseFile(file)
			if err != nil {
				t.Fatal(err)
			}
			book, herd, want := kind(t, archive)
			var got []string
			placings := placing.PlaceClasses(placing.Entered(herd), nil, book)
			for _, class := range placings.Classes {
				for at, placed := range class.Placed {
					got = append(got, strings.TrimRight(fmt.Sprintf("%s: %d %s %s", class.Class, placed.Place, placed.Tag, placed.Group), " ")+" | "+words.Why(&class, at))
				}
				for _, notPlaced := range class.NotPlaced {
					got = append(got, fmt.Sprintf("%s: - %s | %s", class.Class, notPlaced.Tag, notPlaced.Reason))
				}
			}
			for _, award := range placings.Awards {
				var winners []string
				for _, winner := range award.Winners {
					winners = append(winners, winner.Tag)
				}
				got = append(got, award.Name+": "+strings.Join(winners, ", ")+award.Reason)
			}
			if diff := cmp.Diff(want, got); diff != "" {
				t.Error(diff)
			}
			if os.Getenv("SHOW_PLACINGS") != "" {
				t.Log("\n" + strings.Join(got, "\n"))
			}
		})
	}
}

// kind reads a rulebook's tables, the carcasses and the expected lines from the files of an archive. Tables that are
// not there are the default ones.
func kind(t *testing.T, archive *txtar.Archive) (book *rules.Rulebook, herd []*grading.Graded, want []string) {
	t.Helper()
	var tables []rules.Table
	var rows [][]string
	for _, file := range archive.Files {
		switch name := strings.TrimSuffix(file.Name, ".csv"); name {
		case "Placings":
			want = strings.Split(strings.TrimSpace(string(file.Data)), "\n")
		case "Carcasses":
			rows = csvRows(t, file)
		default:
			tables = append(tables, tableOf(name, csvRows(t, file)))
		}
	}
	book, faults := rules.Load(tables)
	for _, fault := range faults {
		if !fault.Warning {
			t.Fatalf("%v: %s", fault.Place, fault.Message)
		}
	}
	for i, row := range rows[1:] {
		carcass := &grading.Carcass{Species: rules.Beef, Basis: rules.OnTheRail, Sequence: i}
		carcass.Place = rules.Place{Sheet: "Carcasses", Cell: fmt.Sprintf("A%d", i+2)}
		for column, text := range row {
			id := book.Measures.ByName(rows[0][column])
			switch id {
			case measure.Tag:
				carcass.Tag = text
			case measure.ClassName:
				carcass.Class = text
			case measure.SpeciesName:
				carcass.Species = rules.Species(text)
			default:
				if text != "" {
					carcass.SetReading(id, grading.Reading{Value: valueWritten(t, id, text), Written: text})
				}
			}
		}
		herd = append(herd, grading.Grade(carcass, book))
	}
	return book, herd, want
}

func csvRows(t *testing.T, file txtar.File) [][]string {
	t.Helper()
	rows, err := csv.NewReader(strings.NewReader(string(file.Data))).ReadAll()
	if err != nil {
		t.Fatalf("%s: %v", file.Name, err)
	}
	return rows
}

func tableOf(name string, rows [][]string) rules.Table {
	table := rules.Table{Name: name}
	for r, row := range rows {
		var cells rules.Row
		for c, text := range row {
			cells = append(cells, rules.Cell{Text: text, Place: rules.Place{Sheet: name, Cell: fmt.Sprintf("%c%d", 'A'+c, r+1)}})
		}
		table.Rows = append(table.Rows, cells)
	}
	return table
}

// valueWritten reads a cell of a test's carcasses by the kind of its measure.
func valueWritten(t *testing.T, id measure.ID, text string) measure.Value {
	t.Helper()
	definition, ok := measure.Define(id)
	if !ok {
		t.Fatalf("%q is no measure", id)
	}
	switch definition.Kind {
	case measure.KindMarbling:
		reading, ok := grading.ParseMarbling(text, rules.MarblingHundreds)
		if !ok {
			t.Fatalf("%q is no marbling", text)
		}
		return reading.Value
	case measure.KindMaturity:
		reading, ok := grading.ParseMaturity(text)
		if !ok {
			t.Fatalf("%q is no maturity", text)
		}
		return reading.Value
	case measure.KindText:
		return measure.Value{Text: text}
	case measure.KindMark:
		if text == "no" {
			return measure.Value{Text: "no"}
		}
		return measure.Value{Number: decimal.NewFromInt(1), Text: "yes"}
	case measure.KindDate:
		day, err := time.Parse(time.DateOnly, text)
		if err != nil {
			t.Fatal(err)
		}
		epoch := time.Date(1899, 12, 30, 0, 0, 0, 0, time.UTC)
		return measure.Value{Number: decimal.NewFromInt(int64(day.Sub(epoch).Hours() / 24)), Text: text}
	case measure.KindLowering: // in sixths of a grade
		return measure.Value{Number: decimal.NewFromInt(map[string]int64{"0": 0, "1/3": 2, "1/2": 3, "2/3": 4, "full": 6}[text]), Text: text}
	default:
		return measure.NumberValue(decimal.RequireFromString(text))
	}
}
