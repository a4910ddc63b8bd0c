package railsheet

import (
	"math"
	"slices"
	"strings"
	"unicode/utf8"

	"railbook/grading"
	"railbook/rules"
	"railbook/rules/address"
	"railbook/rules/measure"
	"railbook/workbook/result"
	"railbook/workbook/sheets/kit"

	"github.com/shopspring/decimal"
)

// railColumn is one column of a rail sheet.
type railColumn struct {
	measure   measure.ID // empty: a column that helps to fill in another and is passed over by the reader
	heading   string
	width     float64
	choices   []string // the words of its drop-down; nil for none
	dots      dotColumn
	counted   dotColumns // an area: the columns from which it is worked out; none for any other
	customary decimal.NullDecimal
}

// columnsOf gives the columns of a sheet: those to be printed and filled in, then what else the roster knows.
func (w *railWriter) columnsOf(kind result.KindOfClass, entries []*grading.Carcass, banded bool) (columns []railColumn, printed int) {
	measures := []measure.ID{measure.Tag}
	if kind.Basis != rules.LiveScan {
		measures = append(measures, measure.RailNumber)
	}
	if !banded && slices.ContainsFunc(entries, func(carcass *grading.Carcass) bool { return carcass.Class != "" }) {
		measures = append(measures, measure.ClassName)
	}
	if w.PrintNames && !w.NoNames {
		measures = append(measures, measure.Exhibitor)
	}
	asDots := map[measure.ID]bool{}
	for _, asked := range rules.RailColumns(kind.Species, kind.Basis) {
		if asked.Asked != rules.AskedOnce {
			measures = append(measures, asked.Measure)
			asDots[asked.Measure] = asked.Asked == rules.AskedAsDots
		}
	}
	measures = append(measures, measure.Remarks)
	for _, id := range measures {
		column := w.columnFor(kind, id)
		if asDots[id] {
			for _, dots := range dotColumnsAsked {
				column.counted[dots.kind] = address.Column(len(columns) + 1)
				columns = append(columns, railColumn{heading: dots.heading, width: numberWidth, dots: dots.kind})
			}
		}
		columns = append(columns, column)
	}
	widen(columns, entries)
	printed = len(columns)
	if w.NoNames {
		return columns, printed
	}
	for _, definition := range w.Rules.Measures.Definitions() {
		if definition.Computed || slices.Contains(measures, definition.ID) || !readOfAny(entries, definition.ID) ||
			!definition.For(string(kind.Species)) || slices.Contains(tellKind, definition.ID) || banded && definition.ID == measure.ClassName {
			continue
		}
		columns = append(columns, railColumn{
			measure: definition.ID, heading: result.HeadingOf(definition.ID), width: rosterWidth(entries, definition),
		})
	}
	return columns, printed
}

// numberWidth is how wide a column is in which a number is written by hand.
const numberWidth = 7.0

// widen makes every column wide enough for the words of its heading, the classes wide enough for two lines, and gives the
// remarks what is left of the paper.
func widen(columns []railColumn, entries []*grading.Carcass) {
	for i := range columns {
		column := &columns[i]
		for _, word := range strings.Fields(column.heading) {
			column.width = math.Max(column.width, kit.FreshWidthFor(word, kit.PaperHeading))
		}
		if column.measure == measure.Tag {
			column.width = math.Max(column.width, float64(longestTag(entries))*1.3+2)
		}
		if column.measure == measure.ClassName {
			longest := 0
			for _, carcass := range entries {
				longest = max(longest, utf8.RuneCountInString(carcass.Class), 2*longestWord(carcass.Class))
			}
			column.width = math.Min(math.Max(column.width, float64(longest)*0.72), 24)
		}
	}
	last := len(columns) - 1
	if left := kit.FreshLandscapeWidth - usedOfLast(columns); left > 0 {
		columns[last].width = math.Min(columns[last].width+left, 60)
	}
}

// pagesOf gives how many columns stand on the first page, and on how many pages side by side all of them do, the first column
// on each.
func pagesOf(columns []railColumn) (first, pages int) {
	used := 0.0
	first, pages = len(columns), 1
	for i, column := range columns {
		if used+column.width > kit.FreshLandscapeWidth && i > 1 {
			if pages == 1 {
				first = i
			}
			pages++
			used = columns[0].width
		}
		used += column.width
	}
	return first, pages
}

// usedOfLast is how wide the columns of the last page are.
func usedOfLast(columns []railColumn) float64 {
	used := 0.0
	for i, column := range columns {
		if used+column.width > kit.FreshLandscapeWidth && i > 1 {
			used = columns[0].width
		}
		used += column.width
	}
	return used
}

func longestTag(entries []*grading.Carcass) int {
	longest := 0
	for _, carcass := range entries {
		longest = max(longest, utf8.RuneCountInString(carcass.Tag))
	}
	return longest
}

func longestWord(text string) int {
	longest := 0
	for _, word := range strings.Fields(text) {
		longest = max(longest, utf8.RuneCountInString(word))
	}
	return longest
}

// tellKind are what the roster says and the sheet itself says again.
var tellKind = []measure.ID{measure.SpeciesName, measure.BasisName}

func (w *railWriter) columnFor(kind result.KindOfClass, id measure.ID) railColumn {
	column := railColumn{measure: id, heading: w.headingFor(kind, id), width: numberWidth, choices: choicesOf(kind, id)}
	switch definition, _ := measure.Define(id); {
	case id == measure.RailNumber:
		column.width = numberWidth
	case id == measure.ClassName:
		column.width = 15
	case id == measure.Exhibitor:
		column.width = 18
	case id == measure.Remarks:
		column.width = 22
	case definition.Kind == measure.KindMark:
		column.width = 6
	case definition.Kind == measure.KindMarbling:
		column.width = 13
	case definition.Kind == measure.KindGrade:
		column.width = 13
	case id == measure.InternalFat && kind.Basis == rules.LiveScan:
		column.customary = w.Rules.Settings.CustomaryKPH
	}
	return column
}

// headingFor is a column's heading with its unit. Whether a carcass weight is hot is asked once for the sheet, so the
// heading does not say it; what is scanned says so.
func (w *railWriter) headingFor(kind result.KindOfClass, id measure.ID) string {
	switch {
	case id == measure.HotCarcassWeight && w.accepts(id, bareWeight):
		return bareWeight + ", lb"
	case id == measure.LiveWeight && kind.Basis == rules.LiveScan && w.accepts(id, scanWeight):
		return scanWeight + ", lb"
	}
	return result.HeadingOf(id)
}

// The headings that are not the measure's own.
const (
	bareWeight = "Carcass weight"
	scanWeight = "Scan weight"
)

// accepts reports whether the rulebook reads a heading as a measure.
func (w *railWriter) accepts(id measure.ID, heading string) bool {
	return slices.ContainsFunc(w.Rules.Headings, func(each rules.Heading) bool {
		return each.Measure == id && strings.EqualFold(each.Text, heading)
	})
}

func (c railColumn) kind() measure.Kind {
	definition, _ := measure.Define(c.measure)
	return definition.Kind
}

func (c railColumn) align() string {
	switch {
	case c.wraps():
		return "left"
	case c.measure == measure.Tag:
		return "left"
	}
	return "center"
}

func (c railColumn) wraps() bool {
	switch c.measure {
	case measure.ClassName, measure.Exhibitor, measure.Remarks, measure.Club, measure.Family:
		return true
	}
	return false
}

// format keeps tags as text, so that a leading zero stays when one is typed again, and shows days as days.
func (c railColumn) format() string {
	switch {
	case c.kind() == measure.KindDate:
		return "yyyy-mm-dd"
	case c.kind() == measure.KindText && c.measure != measure.None:
		return "@"
	}
	return ""
}

func readOfAny(entries []*grading.Carcass, id measure.ID) bool {
	return slices.ContainsFunc(entries, func(carcass *grading.Carcass) bool {
		_, ok := carcass.Reading(id)
		return ok
	})
}

// rosterWidth makes a column wide enough for what the roster says.
func rosterWidth(entries []*grading.Carcass, definition measure.Definition) float64 {
	longest := 8
	for _, carcass := range entries {
		if reading, ok := carcass.Reading(definition.ID); ok {
			longest = max(longest, utf8.RuneCountInString(reading.Value.Text))
		}
	}
	return float64(min(longest, 30)) + 2
}
