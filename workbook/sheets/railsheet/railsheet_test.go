package railsheet

import (
	"bytes"
	"fmt"
	"strings"
	"testing"

	"railbook/grading"
	"railbook/rules"
	"railbook/rules/address"
	"railbook/rules/measure"

	"github.com/shopspring/decimal"
	"github.com/xuri/excelize/v2"
	"pgregory.net/rapid"
)

// entryRules gives the entry rule of each column of a sheet, by its heading, as the library reads it back.
func entryRules(t *rapid.T, wanted RailSheets) (*excelize.File, string, map[string]*excelize.DataValidation) {
	book, err := WriteRailSheets(wanted, "blank.xlsx")
	if err != nil {
		t.Fatal(err)
	}
	data, err := book.Bytes()
	if err != nil {
		t.Fatal(err)
	}
	file, err := excelize.OpenReader(bytes.NewReader(data))
	if err != nil {
		t.Fatal(err)
	}
	sheet := file.GetSheetName(0)
	validations, err := file.GetDataValidations(sheet)
	if err != nil {
		t.Fatal(err)
	}
	found := make(map[string]*excelize.DataValidation)
	for _, validation := range validations {
		column, row, err := excelize.CellNameToCoordinates(strings.Split(validation.Sqref, ":")[0])
		if err != nil || row <= railHeadingRow {
			continue
		}
		name := address.Cell(column, railHeadingRow)
		heading, err := file.GetCellValue(sheet, name)
		if err != nil {
			t.Fatal(err)
		}
		found[heading] = validation
	}
	return file, sheet, found
}

// accepted reports whether an entry rule lets a value stand without a warning, by the meaning of the rule in ECMA-376
// part 1, 18.3.1.32: the ends of "between" belong to it. A rule by formula is worked out by the library.
func accepted(t *rapid.T, rule *excelize.DataValidation, value decimal.Decimal) bool {
	number := func(text string) decimal.Decimal { return decimal.RequireFromString(text) }
	switch {
	case rule.Type == "custom":
		return acceptedByFormula(t, rule, value)
	case rule.Type != "decimal":
		t.Fatalf("%s: a rule of the type %q for a figure with limits", rule.Sqref, rule.Type)
	}
	switch rule.Operator {
	case "", "between":
		return value.GreaterThanOrEqual(number(rule.Formula1)) && value.LessThanOrEqual(number(rule.Formula2))
	case "greaterThanOrEqual":
		return value.GreaterThanOrEqual(number(rule.Formula1))
	case "lessThanOrEqual":
		return value.LessThanOrEqual(number(rule.Formula1))
	}
	t.Fatalf("%s: an operator %q", rule.Sqref, rule.Operator)
	return false
}

func acceptedByFormula(t *rapid.T, rule *excelize.DataValidation, value decimal.Decimal) bool {
	file := excelize.NewFile()
	defer file.Close()
	cell := strings.Split(rule.Sqref, ":")[0]
	if err := file.SetCellValue("Sheet1", cell, value.InexactFloat64()); err != nil {
		t.Fatal(err)
	}
	if err := file.SetCellFormula("Sheet1", "A1", rule.Formula1); err != nil {
		t.Fatal(err)
	}
	said, err := file.CalcCellValue("Sheet1", "A1")
	if err != nil {
		t.Fatal(err)
	}
	return said == "TRUE"
}

// passes reports whether a limit says nothing of a value, by the words of the rulebook's page: at a bound nothing is
// said, but for an upper hold that holds at that too.
func passes(limit rules.Limit, value decimal.Decimal) bool {
	below := func(bound decimal.NullDecimal) bool { return bound.Valid && value.LessThan(bound.Decimal) }
	above := func(bound decimal.NullDecimal) bool { return bound.Valid && value.GreaterThan(bound.Decimal) }
	at := limit.HoldAt && limit.HoldAbove.Valid && value.Equal(limit.HoldAbove.Decimal)
	return !below(limit.LookBelow) && !below(limit.HoldBelow) && !above(limit.LookAbove) && !above(limit.HoldAbove) && !at
}

// Whatever limits a board writes, a cell warns of exactly the values that grading would ask about.
func TestEntryLimitsAreThoseOfTheRulebook(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		book := *rules.Default()
		book.Limits = nil
		limit := rules.Limit{Species: rules.Beef, Measure: measure.RibeyeArea, HoldAt: rapid.Bool().Draw(t, "hold at")}
		last := int64(0)
		for _, bound := range []*decimal.NullDecimal{&limit.HoldBelow, &limit.LookBelow, &limit.LookAbove, &limit.HoldAbove} {
			if rapid.Bool().Draw(t, "bounded") {
				last += rapid.Int64Range(0, 400).Draw(t, "up by")
				*bound = decimal.NewNullDecimal(decimal.New(last, -2))
			}
		}
		book.Limits = append(book.Limits, limit)
		if rapid.Bool().Draw(t, "for every species") {
			book.Limits[0].Species = ""
		}
		file, sheet, found := entryRules(t, RailSheets{
			Rules: &book, Entries: []*grading.Carcass{{Tag: "0401", Species: rules.Beef, Basis: rules.OnTheRail}},
		})
		defer file.Close()
		rule := found["Ribeye area, sq in"]
		if !limit.HoldBelow.Valid && !limit.LookBelow.Valid && !limit.LookAbove.Valid && !limit.HoldAbove.Valid {
			if rule.Type != "" {
				t.Fatalf("a rule %q without a limit", rule.Type)
			}
			return
		}
		if *rule.ErrorStyle != "warning" || !rule.ShowErrorMessage {
			t.Fatalf("the rule of sheet %q does not warn: %v", sheet, *rule.ErrorStyle)
		}
		if words := *rule.Error; !strings.Contains(words, "sq in") || len([]rune(words)) > mostRuleWords {
			t.Fatalf("the warning says %q", words)
		}
		value := decimal.New(rapid.Int64Range(1, last+50).Draw(t, "value"), -2)
		for _, bound := range []decimal.NullDecimal{limit.HoldBelow, limit.LookBelow, limit.LookAbove, limit.HoldAbove} {
			if bound.Valid && bound.Decimal.IsPositive() && rapid.Bool().Draw(t, "at a bound") {
				value = bound.Decimal
			}
		}
		if got, want := accepted(t, rule, value), passes(limit, value); got != want {
			t.Fatalf("%s: let stand is %v, want %v (%s %s %s, limit %+v)", value, got, want, rule.Operator, rule.Formula1, rule.Formula2, limit)
		}
	})
}

// Every drop-down offers words that are there, and every column of every kind is explained.
func TestEveryColumnIsExplained(t *testing.T) {
	var entries []*grading.Carcass
	for _, name := range rules.SpeciesNames() {
		species := rules.Species(name)
		for _, basis := range []rules.Basis{rules.OnTheRail, rules.LiveScan} {
			entries = append(entries, &grading.Carcass{Tag: fmt.Sprint(len(entries) + 1), Class: "A class", Species: species, Basis: basis})
		}
	}
	writer := &railWriter{RailSheets: RailSheets{Entries: entries, Rules: rules.Default(), PrintNames: true}, lists: newChoiceLists()}
	for _, kind := range writer.kinds() {
		p := &railPage{writer: writer, kind: kind}
		p.columns, p.printed = writer.columnsOf(kind, entries, false)
		for _, column := range p.columns[:p.printed] {
			words := p.guideOf(column)
			if words.what == "" || words.how == "" || words.example == "" && column.measure != measure.Exhibitor && column.measure != measure.InternalFat {
				t.Errorf("%s: %q is explained by %+v", kind.Words(), column.heading, words)
			}
			definition, _ := measure.Define(column.measure)
			if definition.Unit != "" && !strings.Contains(column.heading, definition.Unit) {
				t.Errorf("%s: the heading %q does not say its unit, %s", kind.Words(), column.heading, definition.Unit)
			}
			for _, choice := range column.choices {
				if choice == "" {
					t.Errorf("%s: %q offers a blank", kind.Words(), column.heading)
				}
			}
		}
		for _, id := range grading.Needed(kind.Species, kind.Basis) {
			if !p.asksFor(id) {
				t.Errorf("%s: nothing on the sheet gives %s, which a place needs", kind.Words(), id)
			}
		}
	}
}

// asksFor reports whether the columns give a measure or what it is worked out from.
func (p *railPage) asksFor(id measure.ID) bool {
	for _, column := range p.columns[:p.printed] {
		if column.measure == id {
			return true
		}
	}
	for _, way := range grading.Ways(p.kind.Species, p.kind.Basis, id) {
		all := true
		for _, from := range way {
			all = all && from != id && p.asksFor(from)
		}
		if all {
			return true
		}
	}
	return false
}
