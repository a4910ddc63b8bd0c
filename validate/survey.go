package validate

import (
	"railbook/grading"
	"railbook/rules"
	"railbook/rules/measure"

	"github.com/shopspring/decimal"
)

// survey is a lot made ready for the checks: every carcass with its sheet, its limits and what is doubted of it so far.
type survey struct {
	*Lot
	rows   []*row
	rowOf  map[*grading.Carcass]*row
	kinds  map[rules.Species]*kind
	sheets map[*Sheet][]*row

	decimals map[sheetMeasure]int32 // to how many decimals a sheet gives its own figures
	chilled  map[*Sheet]bool        // sheets whose weights look chilled, so that their own figures tell nothing of a row
	donors   map[donorKey]*row
	inputsOf map[figureOf][]measure.ID
	slips    map[string][]Finding // of the checks that name a row by its likeliest slip
}

// row is one carcass as the checks see it.
type row struct {
	*grading.Graded
	sheet       *Sheet // nil where the lot names no sheet for it
	kind        *kind
	cells       []cell // of the kind's measures
	doubted     measure.Set
	model       *sheetModel // of the animals it is fitted with; nil until one is asked for
	inModel     int         // its place among them
	held        bool        // something of it is on hold
	copied      bool        // all of it is that of an earlier row
	passed      bool        // the inspector has settled the whole carcass: it is not asked further
	unplaceable bool        // its whole sheet lacks what it would be placed by, and that is said of the sheet
}

func newSurvey(lot *Lot) *survey {
	s := &survey{
		Lot:    lot,
		rowOf:  map[*grading.Carcass]*row{},
		kinds:  map[rules.Species]*kind{},
		sheets: map[*Sheet][]*row{},

		decimals: map[sheetMeasure]int32{},
		chilled:  map[*Sheet]bool{},
		donors:   map[donorKey]*row{},
		inputsOf: map[figureOf][]measure.ID{},
	}
	sheetOf := map[*grading.Graded]*Sheet{}
	for i := range lot.Sheets {
		for _, graded := range lot.Sheets[i].Carcasses {
			sheetOf[graded] = &lot.Sheets[i]
		}
	}
	for _, graded := range lot.Carcasses {
		one := &row{Graded: graded, sheet: sheetOf[graded]}
		for id, reading := range graded.Readings() {
			if reading.Unreadable {
				one.doubted.Add(id)
			}
		}
		one.kind = s.kindOf(graded.Species)
		one.cells = one.kind.cellsFor(one)
		s.rows = append(s.rows, one)
		s.rowOf[graded.Carcass] = one
		if one.sheet != nil {
			s.sheets[one.sheet] = append(s.sheets[one.sheet], one)
		}
	}
	return s
}

// remember marks the cells that findings doubt: those of a pair in both its rows.
func (s *survey) remember(findings []Finding) {
	for i := range findings {
		finding := &findings[i]
		if finding.Carcass == nil || finding.Level == Note {
			continue
		}
		for _, carcass := range finding.Carcasses() {
			if one := s.rowOf[carcass]; one != nil {
				one.held = one.held || finding.Level == Hold
				one.doubted.Add(finding.Measure)
			}
		}
	}
}

// sound reports whether none of the measures is doubted, nor any cell that stands for one of them.
func (r *row) sound(measures ...measure.ID) bool {
	if r.passed {
		return false
	}
	for _, id := range measures {
		for _, cell := range standIns(id) {
			if r.doubted.Has(cell) {
				return false
			}
		}
	}
	return true
}

// standIns are the measures whose cells may hold what a measure is worked out from, the measure itself first.
func standIns(id measure.ID) []measure.ID {
	switch id {
	case measure.AdjustedFat:
		return []measure.ID{measure.AdjustedFat, measure.MeasuredFat, measure.LeftFat, measure.RightFat, measure.FatAdjustment}
	case measure.MeasuredFat:
		return []measure.ID{measure.MeasuredFat, measure.LeftFat, measure.RightFat}
	case measure.HotCarcassWeight:
		return []measure.ID{
			measure.HotCarcassWeight, measure.ChilledCarcassWeight, measure.LeftSideWeight, measure.RightSideWeight,
		}
	case measure.RibeyeArea:
		return []measure.ID{measure.RibeyeArea, measure.DotsOutlined, measure.DotsMissing, measure.DotsOutside}
	case measure.LiveWeight:
		return []measure.ID{measure.LiveWeight, measure.FairWeight}
	case measure.MarblingScore:
		return []measure.ID{measure.Marbling}
	case measure.OverallMaturity:
		return []measure.ID{measure.Maturity, measure.SkeletalMaturity, measure.LeanMaturity}
	}
	return []measure.ID{id}
}

// cellsOf are the measures whose cells hold what a measure is worked out from: the adjusted fat of a sheet with measured
// fat and an adjustment comes of both.
func (r *row) cellsOf(id measure.ID) []measure.ID {
	var cells []measure.ID
	for _, cell := range standIns(id) {
		if _, ok := r.Reading(cell); ok {
			cells = append(cells, cell)
		}
	}
	return cells
}

// cellOf is the first of them.
func (r *row) cellOf(id measure.ID) (measure.ID, bool) {
	if cells := r.cellsOf(id); len(cells) > 0 {
		return cells[0], true
	}
	return measure.None, false
}

// doubt marks cells as explained by a finding that stands elsewhere in the row.
func (r *row) doubt(cells ...measure.ID) {
	for _, cell := range cells {
		r.doubted.Add(cell)
	}
}

// number gives a measure of the carcass as a number, read or computed.
func (r *row) number(id measure.ID) (decimal.Decimal, bool) {
	value, ok := r.Figure(id)
	return value.Number, ok
}

// marked reports whether the carcass carries a yes mark.
func (r *row) marked(id measure.ID) bool {
	reading, ok := r.Reading(id)
	return ok && reading.Value.Number.Sign() > 0
}
