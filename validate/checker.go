package validate

import (
	"slices"

	"railbook/grading"
	"railbook/rules"
	"railbook/rules/measure"

	"github.com/shopspring/decimal"
)

// checker is a lot made ready for the checks: every carcass with its sheet, its limits and what is doubted of it so far.
type checker struct {
	*Batch
	rows  []*row
	kinds map[rules.Species]*kind

	decimals map[sheetMeasure]int32 // to how many decimals a sheet gives its own figures
	donors   map[donorKey]*row
	inputsOf map[figureOf][]measure.ID
	slips    map[string][]Finding // of the checks that name a row by its likeliest slip
}

// row is one carcass as the checks see it.
type row struct {
	*grading.Graded
	sheet       *Sheet                     // nil where the batch names no sheet for it
	form        map[measure.ID]rules.Place // where its measures stand on its printed form
	kind        *kind
	cells       []cell // of the kind's measures
	doubted     measure.Set
	inClass     int         // the number of its class, among those of one sheet, species and basis
	model       *sheetModel // of the animals it is fitted with; nil until one is asked for
	inModel     int         // its place among them
	held        bool        // something of it is on hold
	copied      bool        // all of it is that of an earlier row
	passed      bool        // the inspector has settled the whole carcass: it is not asked further
	unplaceable bool        // its whole sheet lacks what it would be placed by, and that is said of the sheet
}

func newChecker(batch *Batch) *checker {
	s := &checker{
		Batch: &Batch{batch.Book, batch.Carcasses, slices.Clone(batch.Sheets), batch.Entries},
		kinds: map[rules.Species]*kind{},

		decimals: map[sheetMeasure]int32{},
		donors:   map[donorKey]*row{},
		inputsOf: map[figureOf][]measure.ID{},
	}
	rows := make([]row, len(batch.Carcasses))
	for i, graded := range batch.Carcasses {
		rows[i].Graded = graded
		s.rows = append(s.rows, &rows[i])
	}
	for i := range s.Sheets {
		sheet := &s.Sheets[i]
		for at, graded := range sheet.Carcasses {
			row := s.rowOf(graded.Carcass)
			if row == nil {
				continue
			}
			row.sheet, sheet.rows = sheet, append(sheet.rows, row)
			if sheet.Cells != nil {
				row.form = sheet.Cells[at]
			}
		}
	}
	classes := map[sheetClass]int{}
	for _, row := range s.rows {
		row.kind = s.kindOf(row.Species)
		class := sheetClass{modelKey{row.sheet, row.Species, row.Basis}, row.Class}
		if _, known := classes[class]; !known {
			classes[class] = len(classes)
		}
		row.inClass = classes[class]
	}
	sideBySide(len(s.rows), rowsAtOnce, func(from, upTo int) {
		for _, row := range s.rows[from:upTo] {
			row.doubtUnreadable()
			row.cells = row.kind.cellsFor(row)
		}
	})
	return s
}

// sheetClass is a class as one sheet has it, of animals that are fitted together.
type sheetClass struct {
	modelKey
	class string
}

func (r *row) doubtUnreadable() {
	if !r.HasUnreadable() {
		return
	}
	for id, reading := range r.Readings() {
		if reading.Unreadable {
			r.doubted.Add(id)
		}
	}
}

// rowOf gives the row of a carcass: the one of its Sequence, where the batch is all that was read; nil where it is not in the batch.
func (s *checker) rowOf(carcass *grading.Carcass) *row {
	if at := carcass.Sequence; at < len(s.rows) && s.rows[at].Carcass == carcass {
		return s.rows[at]
	}
	if at := slices.IndexFunc(s.rows, func(r *row) bool { return r.Carcass == carcass }); at >= 0 {
		return s.rows[at]
	}
	return nil
}

// remember marks the cells that findings doubt: those of a pair in both its rows.
func (s *checker) remember(findings []Finding) {
	for i := range findings {
		finding := &findings[i]
		if finding.Carcass == nil || finding.Level == Note {
			continue
		}
		for _, carcass := range finding.Carcasses() {
			if row := s.rowOf(carcass); row != nil {
				row.held = row.held || finding.Level == Hold
				row.doubted.Add(finding.Measure)
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
		if _, ok := r.Value(cell); ok {
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

// mayHave reports whether a measure is one of the carcass's species.
func (r *row) mayHave(id measure.ID) bool {
	definition, _ := measure.Define(id)
	return definition.For(string(r.Species))
}

// marked reports whether the carcass carries a yes mark.
func (r *row) marked(id measure.ID) bool {
	value, ok := r.Value(id)
	return ok && value.Number.Sign() > 0
}
