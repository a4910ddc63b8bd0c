package validate

import (
	"slices"

	"railbook/grading"
	"railbook/rules"
	"railbook/rules/measure"
)

// ownFigure is a figure that a sheet may already carry beside the measures it comes from.
type ownFigure struct {
	sheet, computed measure.ID
}

var ownFigures = []ownFigure{
	{measure.SheetYieldGrade, measure.YieldGrade},
	{measure.SheetCutability, measure.Cutability},
	{measure.SheetDressingPercent, measure.DressingPercent},
	{measure.SheetQualityGrade, measure.QualityGrade},
}

// figureOf names a computed figure of one kind of carcass.
type figureOf struct {
	species rules.Species
	basis   rules.Basis
	figure  measure.ID
}

// inputs gives the measures a sheet may give that a figure of the carcass is worked out from.
func (s *checker) inputs(r *row, figure measure.ID) []measure.ID {
	key := figureOf{r.Species, r.Basis, figure}
	if known, ok := s.inputsOf[key]; ok {
		return known
	}
	s.inputsOf[key] = nil // a measure may be both read and worked out from its own cell
	var list []measure.ID
	for _, way := range grading.Ways(r.Species, r.Basis, figure) {
		for _, id := range way {
			if id == figure {
				list = append(list, id)
				continue
			}
			list = append(list, s.inputs(r, id)...)
		}
	}
	slices.SortFunc(list, measure.CompareNames)
	s.inputsOf[key] = slices.Compact(list)
	return s.inputsOf[key]
}

// sameGrade compares quality grades: "Choice" on the sheet, without its third, is any Choice.
func sameGrade(written, computed measure.Value) bool {
	if written.Text == rules.WholeGrade(written.Text) {
		return grading.SameWholeGrade(written, computed)
	}
	return written.Number.Equal(computed.Number)
}

// decimalsOf says to how many decimals, two at most, a sheet gives a measure: the most that any of its rows shows, since
// a spreadsheet shows 3.0 as 3.
func (s *checker) decimalsOf(r *row, id measure.ID) int32 {
	rows := []*row{r}
	if r.sheet != nil {
		rows = r.sheet.rows
	}
	key := sheetMeasure{r.sheet, id}
	if known, ok := s.decimals[key]; ok && r.sheet != nil {
		return known
	}
	most := int32(0)
	for _, row := range rows {
		if value, ok := row.Value(id); ok {
			most = max(most, -value.Number.Exponent())
		}
	}
	most = min(most, 2)
	if r.sheet != nil {
		s.decimals[key] = most
	}
	return most
}

// sheetMeasure names a column of a sheet.
type sheetMeasure struct {
	sheet   *Sheet
	measure measure.ID
}
