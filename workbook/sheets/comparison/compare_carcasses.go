package comparison

import (
	"railbook/grading/whatif"
	"railbook/rules/address"
	"railbook/workbook/sheets/kit"
	"railbook/workbook/words"

	"github.com/shopspring/decimal"
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
	page := s.open(comparedSheet, "Every carcass under both rulebooks", comparedWidths, kit.PageSetup{
		Landscape: true, Tab: kit.FirstTab, RepeatFrom: headingRow, RepeatTo: headingRow, FreezeRows: headingRow, FreezeColumns: 1,
	})
	page.Write(kit.Entry{Value: "Tag", Style: kit.Style{Role: kit.Heading}},
		centredHeading("Place was"), centredHeading("Place is"), kit.Entry{Value: "Move", Style: kit.Style{Role: kit.Heading}},
		kit.NumberHeading("$/cwt was"), kit.NumberHeading("$/cwt is"), kit.NumberHeading("Change"),
		kit.NumberHeading("Value $ was"), kit.NumberHeading("Value $ is"), kit.NumberHeading("Change"+gap), kit.Entry{Value: "Why", Style: kit.Style{Role: kit.Heading}})
	for _, class := range s.Classes() {
		block := classBlock{class: class}
		block.band = page.Write(bandEntries(class.Name(), len(comparedWidths))...)
		block.first = block.band + 1
		for _, row := range class.Rows {
			page.Write(comparedRow(row, page.Row+1)...)
		}
		block.total = page.Write(sumRow(class, block.first, page.Row)...)
		page.Skip(1)
		s.blocks = append(s.blocks, block)
	}
	s.Close(page)
}

func bandEntries(text string, columns int) []kit.Entry {
	entries := make([]kit.Entry, columns)
	for i := range entries {
		entries[i] = kit.Entry{Value: "", Style: kit.Style{Role: kit.Band}}
	}
	entries[0].Value = text
	return entries
}

func comparedRow(row whatif.Compared, at int) []kit.Entry {
	of := kit.Body
	if row.Moved() {
		of = kit.Strong
	}
	return []kit.Entry{
		{Value: row.Tag, Style: kit.Style{Role: of}},
		outcomePlace(row.Old, of), outcomePlace(row.New, of),
		{Value: words.Moved(row), Style: kit.Style{Role: of, Wrap: true}},
		moneyEntry(row.Old.Price, kit.Body), moneyEntry(row.New.Price, kit.Body),
		differenceEntry(row.Old.Price, row.New.Price, oldPriceColumn, at),
		moneyEntry(row.Old.Value, kit.Body), moneyEntry(row.New.Value, kit.Body),
		differenceEntry(row.Old.Value, row.New.Value, oldValueColumn, at),
		{Value: words.WhyOtherwise(row), Style: kit.Style{Role: kit.Body, Wrap: true}},
	}
}

// outcomePlace shows a place, or that the carcass is not placed.
func outcomePlace(outcome whatif.Outcome, of kit.Role) kit.Entry {
	if outcome.Place == 0 {
		return kit.Entry{Value: "left out", Style: kit.Style{Role: of, Align: "center"}}
	}
	return kit.Entry{Value: outcome.Place, Style: kit.Style{Role: of, Align: "center"}}
}

func centredHeading(text string) kit.Entry {
	return kit.Entry{Value: text, Style: kit.Style{Role: kit.Heading, Wrap: true, Align: "center"}}
}

// gap keeps the heading of a column of numbers away from that of a column of words.
const gap = "\u00a0\u00a0"

// differenceEntry is the new amount less the old one, as a formula over the two cells.
func differenceEntry(old, new decimal.NullDecimal, column, row int) kit.Entry {
	if !old.Valid || !new.Valid {
		return kit.Entry{Value: "–", Style: kit.Style{Role: kit.Body, Align: "right"}}
	}
	return kit.Entry{
		Value: kit.Live{Formula: "ROUND(" + address.Cell(column+1, row) + "-" + address.Cell(column, row) + ",2)", Value: new.Decimal.Sub(old.Decimal)},
		Style: kit.Style{Role: kit.Body, Format: changeFormat},
	}
}

// sumRow adds up the values of a class.
func sumRow(class ComparedClass, first, last int) []kit.Entry {
	entries := make([]kit.Entry, len(comparedWidths))
	for i := range entries {
		entries[i] = kit.Entry{Value: "", Style: kit.Style{Role: kit.Total}}
	}
	entries[0].Value = "Sum"
	sum := func(column int, amount decimal.Decimal, format string) {
		entries[column-1] = kit.Entry{Value: kit.Live{Formula: "ROUND(SUM(" + address.Span(column, first, column, last) + "),2)", Value: amount}, Style: kit.Style{Role: kit.Total, Format: format}}
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
