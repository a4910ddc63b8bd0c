package validate

import (
	"math"
	"slices"
	"testing"

	"railbook/grading"
	"railbook/rules"
	"railbook/rules/measure"

	"github.com/shopspring/decimal"
)

// oracle scores each row of a sheet as one would who knows how it was made: the kind of each carcass, the means and spreads,
// the sheet's steps and its plant's way of grading, and every kind of slip with its chances. A row's score is the logarithm of
// how much likelier it is with one of the slips than without. What it does not catch, no program can be asked to.
type oracle struct {
	*plantedSheet
	t        testing.TB
	quality  map[string]string
	asItIs   []float64
	writings []figures
}

// never is the logarithm of the chance of what cannot be.
const never = -60.0

func oracleScores(t testing.TB, sheet *plantedSheet, qualities map[string]string) []float64 {
	o := &oracle{plantedSheet: sheet, t: t, quality: qualities}
	for _, row := range sheet.rows {
		o.writings = append(o.writings, figuresOf(row.sheet))
	}
	for i, row := range sheet.rows {
		o.asItIs = append(o.asItIs, o.chance(row, o.writings[i], row.sheet))
	}
	scores := make([]float64, len(sheet.rows))
	for i := range sheet.rows {
		with := 0.0
		for k := range sheet.kinds {
			with += math.Exp(math.Min(600, o.withSlip(&sheet.kinds[k], i)-o.asItIs[i]))
		}
		scores[i] = math.Log(with / float64(len(sheet.kinds)))
	}
	return scores
}

func figuresOf(row drawn) figures {
	var f figures
	for i, id := range madeMeasures {
		f[i] = decimal.RequireFromString(row[id]).InexactFloat64()
	}
	return f
}

// chance gives the logarithm of how likely a carcass is written so without any slip.
func (o *oracle) chance(row *plantedRow, f figures, written drawn) float64 {
	of := &madeCattle[row.cattle]
	if f[liveAt] <= 0 || f[carcassAt] <= 0 || f[fatAt] <= 0 || f[internalAt] <= 0 || f[marblingAt] <= 0 {
		return never
	}
	fatness := math.Log(f[fatAt]/of.fat) / of.fatSpread
	dressing := of.dressing + o.habits.dressing[row.cattle]
	total := logNormal(f[liveAt], of.live, of.liveSpread) +
		logNormal(f[carcassAt], f[liveAt]*dressing/100, f[liveAt]*of.dressingSpread/100) +
		logNormal(fatness, 0, 1) - math.Log(of.fatSpread*f[fatAt]) +
		logNormal(f[ribeyeAt], of.ribeye+of.ofWeight*(f[carcassAt]-of.atWeight)-0.2*fatness, of.ribeyeSpread) +
		logNormal(f[internalAt], of.internal, of.internalSpread) +
		logNormal(f[marblingAt], of.marbling+of.marblingSpread*0.25*fatness, 0.97*of.marblingSpread)
	for i, number := range f {
		total += o.stepChance(i, number)
	}
	return math.Max(never, total+o.ownChance(f, written))
}

// logNormal is the logarithm of the normal density.
func logNormal(number, mean, deviation float64) float64 {
	away := (number - mean) / deviation
	return -away*away/2 - math.Log(deviation*math.Sqrt(2*math.Pi))
}

// stepChance is the logarithm of the share of numbers about one that are written as it is.
func (o *oracle) stepChance(i int, number float64) float64 {
	on := func(step float64) bool {
		return math.Abs(number/step-math.Round(number/step)) < 1e-6
	}
	share := 0.0
	if on(o.habits.steps[i]) {
		share += o.habits.keeps * o.habits.steps[i]
	}
	if on(finest[i]) {
		share += (1 - o.habits.keeps) * finest[i]
	}
	return math.Log(math.Max(share, 1e-15))
}

// ownChance is the logarithm of how likely the plant's own grades are beside the measures.
func (o *oracle) ownChance(f figures, written drawn) float64 {
	if o.habits.own == noOwnGrade {
		return 0
	}
	own := decimal.RequireFromString(written[measure.SheetYieldGrade]).InexactFloat64()
	graded, decimals, total := yieldGradeOf(f), 1.0, 0.0
	agree := func(number float64) float64 {
		step := math.Pow(10, -decimals)
		low, high := own-step/2, own+step/2
		if o.habits.cut {
			low, high = own, own+step
		}
		if number < low-1e-9 || number > high+1e-9 {
			return never / 2
		}
		return 0
	}
	rounding := func() float64 {
		sum := math.Pow(10, -2*decimals)
		for i, weight := range map[int]float64{fatAt: 2.5, internalAt: 0.2, carcassAt: 0.0038, ribeyeAt: 0.32} {
			sum += math.Pow(weight*o.habits.steps[i], 2)
		}
		return sum / 12
	}
	middle := own
	if o.habits.cut {
		middle += math.Pow(10, -decimals) / 2
	}
	switch o.habits.own {
	case toTheTenth:
		total = agree(graded)
	case toTheHundredth:
		decimals = 2
		total = agree(graded)
	case toTheWhole:
		if math.Min(5, math.Max(1, math.Floor(graded+1e-9))) != own {
			total = never / 2
		}
	case fromUnrounded:
		decimals = float64(o.habits.decimals)
		middle = own
		if o.habits.cut {
			middle += math.Pow(10, -decimals) / 2
		}
		total = logNormal(middle, graded, math.Sqrt(rounding())) - decimals*math.Ln10
	case fromCamera:
		total = logNormal(middle, graded+o.habits.camera, math.Sqrt(cameraSpread*cameraSpread+rounding())) - math.Ln10
	}
	if o.habits.quality {
		marbling := decimal.NewFromFloat(math.Round(f[marblingAt])).String()
		if o.qualityOf(marbling, written[measure.Maturity]) != written[measure.SheetQualityGrade] {
			total += never / 2
		}
	}
	return math.Max(never, total)
}

// qualityOf grades marbling and maturity as the sheet's plant writes it.
func (o *oracle) qualityOf(marbling, maturity string) string {
	key := marbling + " " + maturity
	if _, known := o.quality[key]; !known {
		carcass := (&grading.Carcass{Species: rules.Beef, Basis: rules.OnTheRail}).With(map[measure.ID]grading.Reading{
			measure.Marbling: {Value: valueOf(o.t, measure.Marbling, marbling)}, measure.Maturity: {Value: valueOf(o.t, measure.Maturity, maturity)},
		})
		grade, _ := grading.Grade(carcass, plantedBook()).Figure(measure.QualityGrade)
		o.quality[key] = grade.Text
	}
	if !o.habits.thirds {
		return rules.WholeGrade(o.quality[key])
	}
	return o.quality[key]
}

// withSlip is the logarithm of how likely a row is written so with a slip of one kind in it.
func (o *oracle) withSlip(kind *slipKindOfTest, i int) float64 {
	row := o.rows[i]
	switch kind.pattern {
	case inOneCell:
		return o.withSlipIn(kind, row, i)
	case exchangedCells:
		a, b := slices.Index(madeMeasures[:], kind.with[0]), slices.Index(madeMeasures[:], kind.with[1])
		back := o.writings[i]
		back[a], back[b] = back[b], back[a]
		return o.chance(row, back, row.sheet)
	case likeRowAbove:
		if i == 0 || row.sheet[kind.with[0]] != o.rows[i-1].sheet[kind.with[0]] {
			return never * 2
		}
		return o.withoutCell(row, o.writings[i], slices.Index(madeMeasures[:], kind.with[0]))
	case likeOtherCell:
		if row.sheet[kind.with[0]] != row.sheet[kind.with[1]] {
			return never * 2
		}
		return o.withoutCell(row, o.writings[i], slices.Index(madeMeasures[:], kind.with[0]))
	case betweenRows:
		return o.exchangedWithOther(kind, i)
	}
	return o.copies(kind, i)
}

// withSlipIn adds up the true values that a cell may have had.
func (o *oracle) withSlipIn(kind *slipKindOfTest, row *plantedRow, i int) float64 {
	at := slices.Index(madeMeasures[:], kind.cell)
	written := decimal.RequireFromString(row.sheet[kind.cell])
	total := never * 2
	for _, truth := range kind.origin(written, shownDecimals[kind.cell]) {
		may := kind.change(truth, shownDecimals[kind.cell])
		hits := 0
		for _, changed := range may {
			if changed.Equal(written) {
				hits++
			}
		}
		if hits == 0 {
			continue
		}
		back := o.writings[i]
		back[at] = truth.InexactFloat64()
		total = addedUp(total, o.chance(row, back, row.sheet)+math.Log(float64(hits)/float64(len(may))))
	}
	return total
}

// addedUp gives the logarithm of the sum of two chances.
func addedUp(a, b float64) float64 {
	if a < b {
		a, b = b, a
	}
	return a + math.Log1p(math.Exp(b-a))
}

// withoutCell gives the chance of a row whose one cell tells nothing: over all values it may have had.
func (o *oracle) withoutCell(row *plantedRow, f figures, at int) float64 {
	of, total := &madeCattle[row.cattle], never*2
	step := o.habits.steps[at]
	from := [...]float64{of.live - 5*of.liveSpread, f[liveAt] * 0.5, 0, 5, 0, 0}[at]
	upTo := [...]float64{of.live + 5*of.liveSpread, f[liveAt] * 0.72, 2, 22, 0, 0}[at]
	for number := step * math.Ceil(from/step); number <= upTo; number += step {
		f[at] = number
		total = addedUp(total, o.chance(row, f, row.sheet))
	}
	return total
}

// exchangedWithOther holds two rows with their cells exchanged beside the two as they are. One of the three rows below is taken
// with equal chances; a pair is seen from either of its rows.
func (o *oracle) exchangedWithOther(kind *slipKindOfTest, i int) float64 {
	total := never * 2
	for j := max(0, i-3); j <= i+3 && j < len(o.rows); j++ {
		if j == i {
			continue
		}
		mine, others := o.moved(kind, i, j), o.moved(kind, j, i)
		total = addedUp(total, mine+others-o.asItIs[j]-math.Log(3))
	}
	return total
}

// moved gives the chance of a row with the cells of another.
func (o *oracle) moved(kind *slipKindOfTest, i, from int) float64 {
	row := o.rows[i].sheet.but(o.t, "")
	for _, id := range kind.with {
		delete(row, id)
		if written, has := o.rows[from].sheet[id]; has {
			row[id] = written
		}
	}
	return o.chance(o.rows[i], figuresOf(row), row)
}

// copies are the slips that show at once.
func (o *oracle) copies(kind *slipKindOfTest, i int) float64 {
	sure := o.asItIs[i] + 40
	like := func(i, j int, measures ...measure.ID) bool {
		return j >= 0 && i < len(o.rows) && !slices.ContainsFunc(measures, func(id measure.ID) bool {
			return o.rows[i].sheet[id] != o.rows[j].sheet[id]
		})
	}
	switch kind.pattern {
	case sameTag:
		if like(i, i-1, measure.Tag) {
			return sure
		}
	case wholeRow:
		if like(i, i-1, madeMeasures[:]...) {
			return sure
		}
	case runDown:
		if like(i+1, i, kind.with...) && like(i+2, i, kind.with...) && like(i+3, i, kind.with...) && like(i+4, i, kind.with...) {
			return sure
		}
	}
	return never * 2
}
