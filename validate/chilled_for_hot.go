package validate

import (
	"slices"

	"railbook/rules"
	"railbook/rules/measure"

	"github.com/shopspring/decimal"
)

// Chilled carcasses weigh 1 to 6 % less than hot; the factors that turn one into the other.
var (
	leastChilled = decimal.RequireFromString("1.01")
	mostChilled  = decimal.RequireFromString("1.06")
)

// chilledForHot has the judge look at a sheet whose own yield grades or dressing percents rest on weights a few percent
// above the carcass weights it gives: the sheet gives chilled weights, its figures come of hot ones. It needs the sheet's
// own figures, and three carcasses of one mind; without them a chilled weight is only the class's dressing percent being
// a point low, which proves nothing.
func chilledForHot(s *checker) []Finding {
	var findings []Finding
	for i := range s.Sheets {
		sheet := &s.Sheets[i]
		at, has := sheet.Columns[measure.HotCarcassWeight]
		if !has || sheet.Weights == rules.WeightsChilled {
			continue
		}
		factor, agreed := s.impliedFactor(sheet.rows)
		if !agreed || factor.LessThan(leastChilled) || factor.GreaterThan(mostChilled) {
			continue
		}
		percent := factor.Sub(decimal.NewFromInt(1)).Mul(hundred).StringFixed(1)
		finding := Finding{Level: Look, Code: "chilled given for hot", At: at, Measure: measure.HotCarcassWeight}
		findings = append(findings, finding.say("the sheet's own figures rest on carcass weights "+percent+
			" % above the ones it gives, so these look like chilled weights. Ask the plant; if they are, write \"chilled\" in the heading, in place of \"hot\" where that stands there."))
		sheet.chilled = true
	}
	return findings
}

// impliedFactor gives the middle of the factors by which carcass weights would have to be multiplied for the sheet's own
// figures to come out; agreed where three or more, and at least two in three, lie within half a percent of it.
func (s *checker) impliedFactor(rows []*row) (middle decimal.Decimal, agreed bool) {
	var factors []decimal.Decimal
	for _, r := range rows {
		if factor, ok := s.factorOf(r); ok {
			factors = append(factors, factor)
		}
	}
	if len(factors) < 3 {
		return decimal.Decimal{}, false
	}
	slices.SortFunc(factors, decimal.Decimal.Cmp)
	middle = factors[len(factors)/2]
	near := 0
	for _, factor := range factors {
		if factor.Sub(middle).Abs().LessThanOrEqual(decimal.RequireFromString("0.006")) {
			near++
		}
	}
	return middle, near*3 >= len(factors)*2
}

// factorOf gives the factor one carcass's own dressing percent, or yield grade to the hundredth, implies.
func (s *checker) factorOf(r *row) (decimal.Decimal, bool) {
	if !r.sound(measure.HotCarcassWeight) {
		return decimal.Decimal{}, false
	}
	if own, ok := r.Value(measure.SheetDressingPercent); ok && s.decimalsOf(r, measure.SheetDressingPercent) > 0 {
		if computed, has := r.number(measure.DressingPercent); has && computed.Sign() > 0 {
			return own.Number.DivRound(computed, 6), true
		}
	}
	own, ok := r.Value(measure.SheetYieldGrade)
	computed := r.FigureOf(measure.YieldGrade)
	if !ok || computed.Missing != "" || s.decimalsOf(r, measure.SheetYieldGrade) < 2 {
		return decimal.Decimal{}, false
	}
	for _, term := range r.Terms(measure.YieldGrade) {
		if term.Measure == measure.HotCarcassWeight && term.Value.Number.Sign() > 0 {
			more := own.Number.Sub(computed.Value.Number).DivRound(term.Value.Number, 6)
			return more.Add(decimal.NewFromInt(1)), true
		}
	}
	return decimal.Decimal{}, false
}

// looksChilled reports whether one carcass's own figure rests on a weight that is above the one given by what a carcass
// loses in the cooler.
func (s *checker) looksChilled(r *row) bool {
	factor, ok := s.factorOf(r)
	return ok && factor.GreaterThan(leastChilled) && factor.LessThan(mostChilled)
}
