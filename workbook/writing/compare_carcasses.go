package writing

import (
	"fmt"
	"strings"

	"github.com/shopspring/decimal"

	"railbook/grading"
)

var comparedWidths = []float64{10, 8, 8, 13, 11, 11, 10, 12, 12, 11, 48}

// Columns of the sheet of carcasses, from 1.
const (
	oldPriceColumn    = 5
	newPriceColumn    = 6
	priceChangeColumn = 7
	oldValueColumn    = 8
	newValueColumn    = 9
	valueChangeColumn = 10
)

// writeCarcasses writes every carcass under both rulebooks, a block a class, with the sums of each class.
func (s *comparisonSheets) writeCarcasses() {
	const headingRow = 3
	page := s.open(comparedSheet, "Every carcass under both rulebooks", comparedWidths, plan{
		Landscape: true, Tab: firstTab, RepeatFrom: headingRow, RepeatTo: headingRow, FreezeRows: headingRow, FreezeColumns: 1,
	})
	page.write(entry{"Tag", style{Role: heading}},
		centredHeading("Place was"), centredHeading("Place is"), entry{"Move", style{Role: heading}},
		numberHeading("$/cwt was"), numberHeading("$/cwt is"), numberHeading("Change"),
		numberHeading("Value $ was"), numberHeading("Value $ is"), numberHeading("Change"+gap), entry{"Why", style{Role: heading}})
	for _, class := range s.Classes() {
		block := classBlock{class: class}
		block.band = page.write(bandEntries(class.name(), len(comparedWidths))...)
		block.first = block.band + 1
		for _, row := range class.Rows {
			page.write(comparedRow(row, page.row+1)...)
		}
		block.total = page.write(sumRow(class, block.first, page.row)...)
		page.skip(1)
		s.blocks = append(s.blocks, block)
	}
	s.close(page)
}

func bandEntries(text string, columns int) []entry {
	entries := make([]entry, columns)
	for i := range entries {
		entries[i] = entry{"", style{Role: band}}
	}
	entries[0].value = text
	return entries
}

func comparedRow(row grading.Compared, at int) []entry {
	of := body
	if row.Moved() {
		of = strong
	}
	return []entry{
		{row.Tag, style{Role: of}},
		outcomePlace(row.Old, of), outcomePlace(row.New, of),
		{MoveWords(row), style{Role: of, Wrap: true}},
		moneyEntry(row.Old.Price, body), moneyEntry(row.New.Price, body),
		differenceEntry(row.Old.Price, row.New.Price, oldPriceColumn, at),
		moneyEntry(row.Old.Value, body), moneyEntry(row.New.Value, body),
		differenceEntry(row.Old.Value, row.New.Value, oldValueColumn, at),
		{whyMoved(row), style{Role: body, Wrap: true}},
	}
}

// outcomePlace shows a place, or that the carcass is not placed.
func outcomePlace(outcome grading.Outcome, of role) entry {
	if outcome.Place == 0 {
		return entry{"left out", style{Role: of, Align: "center"}}
	}
	return entry{outcome.Place, style{Role: of, Align: "center"}}
}

func centredHeading(text string) entry {
	return entry{text, style{Role: heading, Wrap: true, Align: "center"}}
}

// gap keeps the heading of a column of numbers away from that of a column of words.
const gap = "\u00a0\u00a0"

// MoveWords says in two words how a carcass moved; empty where it did not.
func MoveWords(row grading.Compared) string {
	was, is := row.Old.Place, row.New.Place
	switch {
	case !row.Moved():
		return ""
	case was == 0:
		return "now placed"
	case is == 0:
		return "now left out"
	case is < was:
		return fmt.Sprintf("up %d", was-is)
	case is > was:
		return fmt.Sprintf("down %d", is-was)
	case row.New.Shared && !row.Old.Shared:
		return "now shared"
	case row.Old.Shared && !row.New.Shared:
		return "now alone"
	}
	return "same place"
}

// whyMoved puts what moved a carcass and what changed its price into a cell.
func whyMoved(row grading.Compared) string {
	var parts []string
	if row.Old.Left != "" && row.New.Left != "" {
		parts = append(parts, sentence("left out: "+row.New.Left))
	}
	if row.PlaceWhy != "" {
		parts = append(parts, sentence(row.PlaceWhy))
	}
	for _, change := range row.PriceWhy {
		if !strings.Contains(row.PlaceWhy, change) {
			parts = append(parts, sentence(change))
		}
	}
	return strings.Join(parts, " ")
}

// differenceEntry is the new amount less the old one, as a formula over the two cells.
func differenceEntry(old, new decimal.NullDecimal, column, row int) entry {
	if !old.Valid || !new.Valid {
		return entry{"–", style{Role: body, Align: "right"}}
	}
	return entry{
		live{fmt.Sprintf("ROUND(%s%d-%s%d,2)", columnName(column+1), row, columnName(column), row), new.Decimal.Sub(old.Decimal)},
		style{Role: body, Format: changeFormat},
	}
}

// sumRow adds up the values of a class.
func sumRow(class ComparedClass, first, last int) []entry {
	entries := make([]entry, len(comparedWidths))
	for i := range entries {
		entries[i] = entry{"", style{Role: total}}
	}
	entries[0].value = "Sum"
	sum := func(column int, amount decimal.Decimal, format string) {
		name := columnName(column)
		entries[column-1] = entry{live{fmt.Sprintf("ROUND(SUM(%s%d:%s%d),2)", name, first, name, last), amount}, style{Role: total, Format: format}}
	}
	sum(oldValueColumn, class.Old.Value, moneyFormat)
	sum(newValueColumn, class.New.Value, moneyFormat)
	change := decimal.Zero
	for _, row := range class.Rows {
		if row.Old.Value.Valid && row.New.Value.Valid {
			change = change.Add(row.New.Value.Decimal.Sub(row.Old.Value.Decimal))
		}
	}
	sum(valueChangeColumn, change, changeFormat)
	return entries
}
