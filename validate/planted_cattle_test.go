package validate

import (
	"math"
	"math/rand/v2"
	"slices"
	"strconv"
	"testing"

	"railbook/grading"
	"railbook/rules"
	"railbook/rules/measure"

	"github.com/shopspring/decimal"
)

// The measures of made cattle, and their places among figures.
var madeMeasures = [...]measure.ID{
	measure.LiveWeight, measure.HotCarcassWeight, measure.MeasuredFat, measure.RibeyeArea, measure.InternalFat, measure.Marbling,
}

const (
	liveAt = iota
	carcassAt
	fatAt
	ribeyeAt
	internalAt
	marblingAt
)

// figures are the measures of a made carcass: lb, lb, in, sq in, %, hundreds of a degree.
type figures [len(madeMeasures)]float64

// shownDecimals says to how many decimals a measure is written where it keeps no step.
var shownDecimals = map[measure.ID]int32{measure.MeasuredFat: 2, measure.RibeyeArea: 1, measure.InternalFat: 1}

// cattle is what one kind of cattle is made of.
type cattle struct {
	class                      string
	live, liveSpread           float64 // lb
	dressing, dressingSpread   float64 // %
	ribeye, atWeight, ofWeight float64 // sq in at a carcass weight, and more for each lb
	ribeyeSpread               float64
	fat, fatSpread             float64 // in, and the spread of its logarithm
	internal, internalSpread   float64 // %
	marbling, marblingSpread   float64
}

// madeCattle are the four kinds of cattle at fairs. Market steers lie about the means of the National Beef Quality Audit
// 2022 (carcass 886 lb, fat 0.60 in, ribeye 14.1 sq in), a little lighter and leaner as fairs are, and dress 62 % (SDSU
// Extension). The others are placed about them by the ranges of the extension publications: heifers lighter, with the
// ribeye that is expected for their weight (SDSU Extension 2022: 11.0 sq in at 600 lb, 0.3 for 25 lb); dairy steers
// with 1.4 sq in to the hundredweight, little fat and a dressing percent two or three below; heavy cattle above the
// audit's weight and fat. Internal fat is 2 to 2.5 %, more in dairy steers. Spreads, and the means of the three, are this
// project's own.
var madeCattle = []cattle{
	{"Market Steers", 1350, 100, 62, 1.8, 14.0, 840, 0.0085, 1.2, 0.52, 0.34, 2.3, 0.5, 450, 85},
	{"Light Heifers", 1130, 85, 61.5, 1.9, 12.4, 695, 0.0095, 1.1, 0.50, 0.36, 2.3, 0.5, 460, 90},
	{"Dairy Steers", 1440, 110, 59.4, 1.8, 11.8, 855, 0.0080, 1.0, 0.28, 0.36, 2.7, 0.6, 470, 95},
	{"Heavy Cattle", 1530, 105, 63.2, 1.8, 14.8, 967, 0.0080, 1.3, 0.66, 0.34, 2.6, 0.6, 490, 95},
}

// dressingOfSheets is the spread of a whole sheet's dressing percent about its kind's: fill and shrink differ from day to day.
const dressingOfSheets = 0.7

// ownGrade is how a plant comes by the yield grade on its own sheet.
type ownGrade int

const (
	noOwnGrade ownGrade = iota
	toTheTenth
	toTheHundredth
	toTheWhole
	fromUnrounded // worked out before the measures were rounded for the sheet
	fromCamera    // estimated from a picture, apart from the measures
)

// A camera's yield grade lies off the measured one by so much, for a whole sheet and for a carcass (this project's own).
const (
	cameraOfSheets = 0.1
	cameraSpread   = 0.2
)

// habits is how a sheet is written.
type habits struct {
	steps    figures // of each measure; 0 for none
	keeps    float64 // the share of values that keep the step
	own      ownGrade
	cut      bool    // own grades are cut to their decimals, not rounded
	quality  bool    // the plant's quality grade stands there too
	thirds   bool    // with its third
	decimals int     // of a yield grade from unrounded measures
	camera   float64 // how far a camera is off on this sheet
	dressing []float64
}

// makeHabits draws how a sheet is written: half of the sheets have the plant's own grades.
func makeHabits(rng *rand.Rand) habits {
	oneOf := func(steps ...float64) float64 { return steps[rng.IntN(len(steps))] }
	h := habits{
		steps: figures{oneOf(1, 5), 1, oneOf(0.01, 0.05, 0.1), 0.1, 0.5, 10},
		keeps: oneOf(0.95, 0.99, 1),
	}
	if rng.IntN(2) == 0 {
		h.own = toTheTenth + ownGrade(rng.IntN(5))
		h.cut, h.quality, h.thirds, h.decimals = rng.IntN(2) == 0, rng.IntN(3) > 0, rng.IntN(2) == 0, 1+rng.IntN(2)
		h.camera = cameraOfSheets * rng.NormFloat64()
	}
	for range madeCattle {
		h.dressing = append(h.dressing, dressingOfSheets*rng.NormFloat64())
	}
	return h
}

// finest are the steps in which a value that keeps none is written.
var finest = figures{1, 1, 0.01, 0.01, 0.1, 1}

// makeSheet makes a sheet of one to four kinds of cattle. In seven sheets of eight each kind is a class; in the others one
// class has all. Half of the sheets stand in the order of the rail, half by kind.
func makeSheet(t testing.TB, rng *rand.Rand, count int) *plantedSheet {
	sheet := &plantedSheet{species: rules.Beef, kinds: plantedKinds, habits: makeHabits(rng)}
	kinds := rng.Perm(len(madeCattle))[:1+rng.IntN(len(madeCattle))]
	oneClass, byRail := rng.IntN(8) == 0, rng.IntN(2) == 0
	for i := range count {
		kind := kinds[i*len(kinds)/count]
		row := sheet.makeRow(rng, kind)
		row.truth[measure.ClassName] = madeCattle[kind].class
		if oneClass {
			row.truth[measure.ClassName] = "Market Beef"
		}
		sheet.rows = append(sheet.rows, row)
	}
	if byRail {
		rng.Shuffle(count, func(i, j int) { sheet.rows[i], sheet.rows[j] = sheet.rows[j], sheet.rows[i] })
	}
	for i, row := range sheet.rows {
		row.truth[measure.Tag] = strconv.Itoa(100 + i)
		sheet.writeOwnGrades(t, rng, row)
		row.sheet = row.truth.but(t, "")
	}
	return sheet
}

// makeRow makes a carcass of one kind and writes its measures. Fatter carcasses have a little more marbling (correlation
// 0.25) and a little less ribeye; measures are otherwise independent about their lines.
func (p *plantedSheet) makeRow(rng *rand.Rand, kind int) *plantedRow {
	of := &madeCattle[kind]
	fatness := rng.NormFloat64()
	live := of.live + of.liveSpread*rng.NormFloat64()
	carcass := live * (of.dressing + p.habits.dressing[kind] + of.dressingSpread*rng.NormFloat64()) / 100
	row := &plantedRow{truth: drawn{}, cattle: kind, unrounded: figures{
		live, carcass, math.Max(0.03, of.fat*math.Exp(of.fatSpread*fatness)),
		of.ribeye + of.ofWeight*(carcass-of.atWeight) - 0.2*fatness + of.ribeyeSpread*rng.NormFloat64(),
		math.Max(0.5, of.internal+of.internalSpread*rng.NormFloat64()),
		math.Max(110, of.marbling+of.marblingSpread*(0.25*fatness+0.97*rng.NormFloat64())),
	}}
	for i, id := range madeMeasures {
		step := p.habits.steps[i]
		if rng.Float64() >= p.habits.keeps {
			step = finest[i]
		}
		row.truth[id] = inSteps(row.unrounded[i], step)
	}
	maturity := 140 + 10*rng.IntN(5)
	if rng.IntN(40) == 0 {
		maturity = 200 + 10*rng.IntN(5)
	}
	row.truth[measure.Maturity] = strconv.Itoa(maturity)
	return row
}

// inSteps writes a number to the nearest step, at least one.
func inSteps(number, step float64) string {
	return decimal.NewFromFloat(step).Mul(decimal.NewFromFloat(math.Max(1, math.Round(number/step)))).String()
}

// writeOwnGrades writes the plant's own grades beside the true measures.
func (p *plantedSheet) writeOwnGrades(t testing.TB, rng *rand.Rand, row *plantedRow) {
	if p.habits.own == noOwnGrade {
		return
	}
	carcass := &grading.Carcass{Species: rules.Beef, Basis: rules.OnTheRail}
	for id, written := range row.truth {
		carcass.SetReading(id, grading.Reading{Value: valueOf(t, id, written), Written: written})
	}
	graded := grading.Grade(carcass, plantedBook())
	yield, _ := graded.Figure(measure.YieldGrade)
	number, decimals := yield.Number, int32(1)
	switch p.habits.own {
	case toTheHundredth:
		decimals = 2
	case toTheWhole:
		whole, _ := graded.Figure(measure.WholeYieldGrade)
		number, decimals = whole.Number, 0
	case fromUnrounded:
		number, decimals = decimal.NewFromFloat(yieldGradeOf(row.unrounded)), int32(p.habits.decimals)
	case fromCamera:
		number = decimal.NewFromFloat(yieldGradeOf(row.unrounded) + p.habits.camera + cameraSpread*rng.NormFloat64())
	}
	if p.habits.cut {
		number = number.RoundFloor(decimals)
	} else {
		number = number.Round(decimals)
	}
	row.truth[measure.SheetYieldGrade] = number.String()
	if quality, ok := graded.Figure(measure.QualityGrade); ok && p.habits.quality {
		row.truth[measure.SheetQualityGrade] = quality.Text
		if !p.habits.thirds {
			row.truth[measure.SheetQualityGrade] = rules.WholeGrade(quality.Text)
		}
	}
}

// yieldGradeOf works out the yield grade of made figures by the official equation (7 CFR 54.105).
func yieldGradeOf(f figures) float64 {
	return 2.5 + 2.5*f[fatAt] + 0.2*f[internalAt] + 0.0038*f[carcassAt] - 0.32*f[ribeyeAt]
}

// manyRows makes true rows for a benchmark.
func manyRows(t testing.TB, count int) []drawn {
	var rows []drawn
	for _, row := range makeSheet(t, rand.New(rand.NewPCG(1, 1)), count).rows {
		rows = append(rows, row.sheet)
	}
	return slices.Clip(rows)
}
