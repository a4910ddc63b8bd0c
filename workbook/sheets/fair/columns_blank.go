package fair

import (
	"strings"

	"railbook/grading"
	"railbook/rules/measure"
	"railbook/rules/phrase"
	"railbook/workbook/result"
)

// doubtedColumns tells which of the computed columns rest on what is on hold, and so stay blank; nil where none does.
func (c *columns) doubtedColumns(carcass *result.Result, shown []grading.Column) (doubted []bool) {
	if !carcass.Doubted() {
		return nil
	}
	for i, column := range shown {
		if carcass.Doubt(column.Measure) == nil {
			continue
		}
		if doubted == nil {
			doubted = make([]bool, len(shown))
		}
		doubted[i] = true
	}
	return doubted
}

// whyBlank says why computed columns of a carcass are blank: what waits for the judge, and for the others the reason, each
// once. Where the whole sheet lacks a figure for one reason the sheet says so, not its rows.
func (c *columns) whyBlank(carcass *result.Result, shown []grading.Column) (sentences []string) {
	var waiting, reasons []string
	lacking := make(map[string][]string)
	if carcass.Method == nil {
		return nil
	}
	for _, column := range shown {
		if definition, _ := carcass.Method.Define(column.Measure); definition == nil {
			continue
		}
		reason := carcass.Lacks(column.Measure)
		switch {
		case reason == "" && carcass.Doubt(column.Measure) != nil:
			waiting = append(waiting, column.Measure.String())
		case reason == "" || c.lackedThroughout(carcass, column.Measure, reason):
		default:
			if lacking[reason] == nil {
				reasons = append(reasons, reason)
			}
			lacking[reason] = append(lacking[reason], column.Measure.String())
		}
	}
	if len(waiting) > 0 {
		sentences = append(sentences, "Blank until then: "+strings.Join(waiting, ", "))
	}
	for _, reason := range reasons {
		sentences = append(sentences, "No "+phrase.JoinOr(lacking[reason])+": "+reason)
	}
	return sentences
}

// lackedColumn names a computed column of one kind of carcass on one sheet.
type lackedColumn struct {
	sheet  string
	kind   result.KindOfClass
	figure measure.ID
}

// commonLack is why the carcasses of a sheet lack a figure.
type commonLack struct {
	reason string
	all    bool // all of them, two or more, for that reason
}

// lackedThroughout reports whether a figure is missing for a reason that is the whole sheet's or the rulebook's: every carcass of
// the kind lacks it alike, or the board has set no price.
func (c *columns) lackedThroughout(carcass *result.Result, figure measure.ID, reason string) bool {
	if price := carcass.FigureOf(measure.Price).Missing; price == reason && !c.Rules.Settings.BasePrice[carcass.Species].Valid {
		return true
	}
	key := lackedColumn{carcass.Place.Sheet, result.KindOfClass{Species: carcass.Species, Basis: carcass.Basis}, figure}
	lack, known := c.common[key]
	if !known {
		lack = c.lackOf(key)
		c.common[key] = lack
	}
	return lack.all && lack.reason == reason
}

func (c *columns) lackOf(key lackedColumn) (lack commonLack) {
	count := 0
	for _, other := range c.Carcasses {
		if other.Place.Sheet != key.sheet || (result.KindOfClass{Species: other.Species, Basis: other.Basis}) != key.kind {
			continue
		}
		reason := other.Lacks(key.figure)
		if count++; count > 1 && reason != lack.reason || reason == "" {
			return commonLack{}
		}
		lack.reason = reason
	}
	lack.all = count > 1
	return lack
}
