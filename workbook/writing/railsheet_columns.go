package writing

import (
	"slices"
	"unicode/utf8"

	"github.com/shopspring/decimal"

	"railbook/grading"
	"railbook/rules"
)

// railColumn is one column of a rail sheet.
type railColumn struct {
	measure   rules.Measure // empty: a column that helps to fill in another and is passed over by the reader
	heading   string
	width     float64
	upright   bool     // its heading is written upwards
	choices   []string // the words of its drop-down; nil for none
	dots      bool     // dots of a grid are counted here
	counted   string   // an area: the letter of the column in which its dots are counted; empty for none
	customary decimal.NullDecimal
}

const dotsHeading = "Grid dots counted"

// The marks that are asked of every carcass, and of beef besides.
var (
	railMarks     = []rules.Measure{rules.Condemned, rules.Retained, rules.Trimmed, rules.BloodSplash}
	beefRailMarks = []rules.Measure{rules.DarkCutter, rules.Hardbone, rules.DairyType, rules.Over30Months, rules.Bullock}
)

// asked gives what is measured of a kind, in the order in which it is measured.
func asked(kind kindOfClass) []rules.Measure {
	if kind.Basis == rules.LiveScan {
		return map[rules.Species][]rules.Measure{
			rules.Beef:  {rules.LiveWeight, rules.MeasuredFat, rules.RibeyeArea, rules.IntramuscularFat, rules.InternalFat},
			rules.Swine: {rules.Sex, rules.LiveWeight, grading.TenthRibFat, grading.LoinMuscleArea},
			rules.Lamb:  {rules.LiveWeight, rules.MeasuredFat, rules.RibeyeArea, grading.BodyWallThickness},
			rules.Goat:  {rules.LiveWeight, rules.RibeyeArea, grading.BodyWallThickness},
		}[kind.Species]
	}
	measures := map[rules.Species][]rules.Measure{
		rules.Beef: {
			rules.LiveWeight, rules.HotCarcassWeight, rules.MeasuredFat, rules.FatAdjustment, rules.RibeyeArea, rules.InternalFat,
			rules.Marbling, rules.Maturity,
		},
		rules.Swine: {
			rules.LiveWeight, rules.HotCarcassWeight, grading.TenthRibFat, grading.LastRibFat, grading.LoinMuscleArea,
			grading.MusclingScore, grading.LeanColor, "pork marbling", grading.Firmness, grading.Wetness,
		},
		rules.Lamb: {
			rules.LiveWeight, rules.HotCarcassWeight, rules.MeasuredFat, rules.FatAdjustment, grading.BodyWallThickness, rules.RibeyeArea,
			grading.LegScore, grading.FlankStreaking, grading.Conformation, rules.Maturity,
		},
		rules.Goat: {
			rules.LiveWeight, rules.HotCarcassWeight, rules.RibeyeArea, grading.BodyWallThickness, "selection",
		},
	}[kind.Species]
	if kind.Species == rules.Beef {
		measures = append(measures, beefRailMarks...)
	}
	return append(measures, railMarks...)
}

// areas are the measures that are counted on a dot grid.
var areas = []rules.Measure{rules.RibeyeArea, grading.LoinMuscleArea}

// columnsOf gives the columns of a sheet: those to be printed and filled in, then what else the roster knows.
func (w *railWriter) columnsOf(kind kindOfClass, entries []*grading.Carcass) (columns []railColumn, printed int) {
	measures := []rules.Measure{rules.RailNumber, rules.Tag, rules.ClassName}
	if kind.Basis == rules.LiveScan {
		measures = measures[1:]
	}
	if w.PrintNames && !w.NoNames {
		measures = append(measures, rules.Exhibitor)
	}
	measures = append(append(measures, asked(kind)...), rules.Remarks)
	for _, measure := range measures {
		column := w.columnFor(kind, measure)
		if slices.Contains(areas, measure) && kind.Basis == rules.OnTheRail {
			dots := columnName(len(columns) + 1)
			columns = append(columns, railColumn{heading: dotsHeading, width: 8.5, dots: true})
			column.counted = dots
		}
		columns = append(columns, column)
	}
	printed = len(columns)
	if w.NoNames {
		return columns, printed
	}
	for _, definition := range rules.Definitions() {
		if definition.Computed || slices.Contains(measures, definition.Measure) || !readOfAny(entries, definition.Measure) ||
			!definition.For(kind.Species) || slices.Contains(tellKind, definition.Measure) {
			continue
		}
		columns = append(columns, railColumn{
			measure: definition.Measure, heading: headingOf(definition.Measure), width: rosterWidth(entries, definition),
		})
	}
	return columns, printed
}

// tellKind are what the roster says and the sheet itself says again.
var tellKind = []rules.Measure{rules.SpeciesName, rules.BasisName}

func (w *railWriter) columnFor(kind kindOfClass, measure rules.Measure) railColumn {
	column := railColumn{measure: measure, heading: railHeading(kind, measure), width: 9.5, choices: w.choicesOf(kind, measure)}
	switch definition, _ := rules.Define(measure); {
	case measure == rules.RailNumber:
		column.width = 8
	case measure == rules.Tag:
		column.width = 10
	case measure == rules.ClassName:
		column.width = 18
	case measure == rules.Exhibitor:
		column.width = 20
	case measure == rules.Remarks:
		column.width = 24
	case definition.Kind == rules.KindMark:
		column.width, column.upright = 5, true
	case definition.Kind == rules.KindMarbling:
		column.width = 13
	case definition.Kind == rules.KindGrade:
		column.width = 14
	case measure == rules.InternalFat && kind.Basis == rules.LiveScan:
		column.customary = w.Rules.Settings.CustomaryKPH
	}
	return column
}

// railHeading is a column's heading with its unit. Whether a carcass weight is hot is asked once for the sheet, so the
// heading does not say it; what is scanned says so.
func railHeading(kind kindOfClass, measure rules.Measure) string {
	switch {
	case measure == rules.HotCarcassWeight:
		return "Carcass weight, lb"
	case measure == rules.LiveWeight && kind.Basis == rules.LiveScan:
		return "Scan weight, lb"
	}
	return headingOf(measure)
}

func (c railColumn) kind() rules.Kind {
	definition, _ := rules.Define(c.measure)
	return definition.Kind
}

func (c railColumn) align() string {
	switch {
	case c.wraps():
		return "left"
	case c.measure == rules.Tag:
		return "left"
	}
	return "center"
}

func (c railColumn) wraps() bool {
	switch c.measure {
	case rules.ClassName, rules.Exhibitor, rules.Remarks, rules.Club, rules.Family:
		return true
	}
	return false
}

// format keeps tags as text, so that a leading zero stays when one is typed again, and shows days as days.
func (c railColumn) format() string {
	switch {
	case c.kind() == rules.KindDate:
		return "yyyy-mm-dd"
	case c.kind() == rules.KindText && c.measure != "":
		return "@"
	}
	return ""
}

func readOfAny(entries []*grading.Carcass, measure rules.Measure) bool {
	return slices.ContainsFunc(entries, func(one *grading.Carcass) bool {
		_, ok := one.Reading(measure)
		return ok
	})
}

// rosterWidth makes a column wide enough for what the roster says.
func rosterWidth(entries []*grading.Carcass, definition rules.Definition) float64 {
	longest := 8
	for _, one := range entries {
		if reading, ok := one.Reading(definition.Measure); ok {
			longest = max(longest, utf8.RuneCountInString(reading.Value.Text))
		}
	}
	return float64(min(longest, 30)) + 2
}
