package validate

import (
	"github.com/shopspring/decimal"

	"railbook/grading"
	"railbook/rules"
)

// survey is a lot made ready for the checks: every carcass with its sheet, its limits and what is doubted of it so far.
type survey struct {
	*Lot
	rows    []*row
	rowOf   map[*grading.Carcass]*row
	kinds   map[rules.Species]*kind
	sheets  map[*Sheet][]*row
	peers   map[peerKey]*peers
	members map[peerKey][]*row // by class, and with an empty class all of a kind

	decimals map[sheetMeasure]int32 // to how many decimals a sheet gives its own figures
	unlike   map[sheetMeasure]bool  // a sheet's own figures that are worked out otherwise than ours
	chilled  map[*Sheet]bool        // sheets whose weights look chilled, so that their own figures tell nothing of a row
	donors   map[donorKey]*row
	inputsOf map[figureOf][]rules.Measure
}

// row is one carcass as the checks see it.
type row struct {
	*grading.Graded
	sheet       *Sheet // nil where the lot names no sheet for it
	kind        *kind
	cells       []cell // of the kind's measures
	doubted     map[rules.Measure]bool
	odd         []oddity // worked out once
	held        bool     // something of it is on hold
	copied      bool     // all of it is that of an earlier row
	ownDoubted  bool     // one of the sheet's own figures about its weight and measures is said to disagree
	asked       bool     // likely is worked out
	likely      explanation
	passed      bool // the inspector has settled the whole carcass: it is not asked further
	unplaceable bool // its whole sheet lacks what it would be placed by, and that is said of the sheet
}

func newSurvey(lot *Lot) *survey {
	s := &survey{
		Lot:     lot,
		rowOf:   map[*grading.Carcass]*row{},
		kinds:   map[rules.Species]*kind{},
		sheets:  map[*Sheet][]*row{},
		peers:   map[peerKey]*peers{},
		members: map[peerKey][]*row{},

		decimals: map[sheetMeasure]int32{},
		unlike:   map[sheetMeasure]bool{},
		chilled:  map[*Sheet]bool{},
		donors:   map[donorKey]*row{},
		inputsOf: map[figureOf][]rules.Measure{},
	}
	sheetOf := map[*grading.Graded]*Sheet{}
	for i := range lot.Sheets {
		for _, graded := range lot.Sheets[i].Carcasses {
			sheetOf[graded] = &lot.Sheets[i]
		}
	}
	for _, graded := range lot.Carcasses {
		one := &row{Graded: graded, sheet: sheetOf[graded], doubted: map[rules.Measure]bool{}}
		for measure, reading := range graded.Readings {
			if reading.Unreadable {
				one.doubted[measure] = true
			}
		}
		one.kind = s.kindOf(graded.Species)
		one.cells = one.kind.cellsFor(one)
		s.rows = append(s.rows, one)
		s.rowOf[graded.Carcass] = one
		kind, class := peerKey{graded.Species, graded.Basis, ""}, peerKey{graded.Species, graded.Basis, graded.Class}
		s.members[kind] = append(s.members[kind], one)
		if class != kind {
			s.members[class] = append(s.members[class], one)
		}
		if one.sheet != nil {
			s.sheets[one.sheet] = append(s.sheets[one.sheet], one)
		}
	}
	return s
}

// remember marks the cells that findings doubt.
func (s *survey) remember(findings []Finding) {
	for _, finding := range findings {
		one := s.rowOf[finding.Carcass]
		if one == nil || finding.Level == Note {
			continue
		}
		one.held = one.held || finding.Level == Hold
		one.doubted[finding.Measure] = true
	}
}

// sound reports whether none of the measures is doubted, nor any cell that stands for one of them.
func (r *row) sound(measures ...rules.Measure) bool {
	if r.passed {
		return false
	}
	for _, measure := range measures {
		for _, cell := range standIns(measure) {
			if r.doubted[cell] {
				return false
			}
		}
	}
	return true
}

// standIns are the measures whose cells may hold what a measure is worked out from, the measure itself first.
func standIns(measure rules.Measure) []rules.Measure {
	switch measure {
	case rules.AdjustedFat:
		return []rules.Measure{rules.AdjustedFat, rules.MeasuredFat, rules.LeftFat, rules.RightFat, rules.FatAdjustment}
	case rules.MeasuredFat:
		return []rules.Measure{rules.MeasuredFat, rules.LeftFat, rules.RightFat}
	case rules.HotCarcassWeight:
		return []rules.Measure{
			rules.HotCarcassWeight, rules.ChilledCarcassWeight, rules.LeftSideWeight, rules.RightSideWeight,
		}
	case rules.RibeyeArea:
		return []rules.Measure{rules.RibeyeArea, rules.DotsOutlined, rules.DotsMissing, rules.DotsOutside}
	case rules.LiveWeight:
		return []rules.Measure{rules.LiveWeight, rules.FairWeight}
	case rules.MarblingScore:
		return []rules.Measure{rules.Marbling}
	case rules.OverallMaturity:
		return []rules.Measure{rules.Maturity, rules.SkeletalMaturity, rules.LeanMaturity}
	}
	return []rules.Measure{measure}
}

// cellsOf are the measures whose cells hold what a measure is worked out from: the adjusted fat of a sheet with measured
// fat and an adjustment comes of both.
func (r *row) cellsOf(measure rules.Measure) []rules.Measure {
	var cells []rules.Measure
	for _, cell := range standIns(measure) {
		if _, ok := r.Reading(cell); ok {
			cells = append(cells, cell)
		}
	}
	return cells
}

// cellOf is the first of them.
func (r *row) cellOf(measure rules.Measure) (rules.Measure, bool) {
	if cells := r.cellsOf(measure); len(cells) > 0 {
		return cells[0], true
	}
	return "", false
}

// doubt marks cells as explained by a finding that stands elsewhere in the row.
func (r *row) doubt(cells ...rules.Measure) {
	for _, cell := range cells {
		r.doubted[cell] = true
	}
}

// number gives a measure of the carcass as a number, read or computed.
func (r *row) number(measure rules.Measure) (decimal.Decimal, bool) {
	value, ok := r.Figure(measure)
	return value.Number, ok
}

// marked reports whether the carcass carries a yes mark.
func (r *row) marked(measure rules.Measure) bool {
	reading, ok := r.Reading(measure)
	return ok && reading.Value.Number.Sign() > 0
}
