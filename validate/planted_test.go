package validate

import (
	"fmt"
	"math"
	"math/rand/v2"
	"strconv"
	"strings"
	"testing"

	"github.com/shopspring/decimal"

	"railbook/grading"
	"railbook/rules"
)

// plantedRow is a made carcass with what is true of it and what the sheet says.
type plantedRow struct {
	truth, sheet drawn
	kind         string          // the slip planted in it; empty for a true row
	cell         rules.Measure   // the one cell a single-cell slip changed; empty for others
	loses        decimal.Decimal // as its kind's
	beside       bool            // a true row that a slip elsewhere makes part of (the original of a copy): it is not counted
}

// plantedSheet is one sheet of made carcasses.
type plantedSheet struct {
	species   rules.Species
	kinds     []slipKindOfTest
	rows      []*plantedRow
	ownGrades bool
}

// makeSheet makes youth-fair cattle. Means follow the National Beef Quality Audit 2022 and the extension figures for
// market cattle, a little lighter as fairs are: live weight 1,350 lb (SD 105), dressing percent 62 (SD 0.7 from sheet to
// sheet and 1.8 within), ribeye 14 sq in at 840 lb with 0.85 sq in more for 100 lb (SD 1.2 about it), fat 0.52 in
// (log-normal, SD 0.34 of the logarithm), internal fat 2.3 % (SD 0.5, to the half percent), marbling Small 50 (SD 85,
// correlation 0.25 with fat). Correlations: fat lowers ribeye a little. The spreads are this project's own.
func makeSheet(rng *rand.Rand, count int, ownGrades bool) *plantedSheet {
	sheet := &plantedSheet{species: rules.Beef, kinds: plantedKinds, ownGrades: ownGrades}
	dressing := 62 + 0.7*rng.NormFloat64()
	for i := range count {
		fatness := rng.NormFloat64()
		live := math.Round(1350 + 105*rng.NormFloat64())
		carcass := math.Round(live * (dressing + 1.8*rng.NormFloat64()) / 100)
		ribeye := 14 + 0.0085*(carcass-840) - 0.2*fatness + 1.18*rng.NormFloat64()
		fat := 0.49 * math.Exp(0.34*fatness)
		internal := math.Max(0.5, math.Round(2*(2.3+0.5*rng.NormFloat64()))/2)
		marbling := math.Max(110, math.Round((450+85*(0.25*fatness+0.97*rng.NormFloat64()))/10)*10)
		maturity := 140 + 10*rng.IntN(5)
		if rng.IntN(40) == 0 {
			maturity = 200 + 10*rng.IntN(5)
		}
		truth := drawn{
			rules.Tag: strconv.Itoa(100 + i), rules.ClassName: []string{"Steers", "Heifers"}[min(1, i*3/(count*2))],
			rules.LiveWeight:       strconv.FormatFloat(live, 'f', 0, 64),
			rules.HotCarcassWeight: strconv.FormatFloat(carcass, 'f', 0, 64),
			rules.MeasuredFat:      strconv.FormatFloat(fat, 'f', 2, 64),
			rules.RibeyeArea:       strconv.FormatFloat(ribeye, 'f', 1, 64),
			rules.InternalFat:      strconv.FormatFloat(internal, 'f', 1, 64),
			rules.Marbling:         strconv.FormatFloat(marbling, 'f', 0, 64),
			rules.Maturity:         strconv.Itoa(maturity),
		}
		sheet.rows = append(sheet.rows, &plantedRow{truth: truth})
	}
	return sheet
}

// grade writes the plant's own yield grade (to the hundredth) and quality grade beside the true measures.
func (p *plantedSheet) grade(t testing.TB, book *rules.Rulebook) {
	for _, row := range p.rows {
		if p.ownGrades {
			carcass := &grading.Carcass{Species: rules.Beef, Basis: rules.OnTheRail, Readings: map[rules.Measure]grading.Reading{}}
			for measure, written := range row.truth {
				carcass.Readings[measure] = grading.Reading{Value: valueOf(t, measure, written), Written: written}
			}
			graded := grading.Grade(carcass, book)
			yield, _ := graded.Figure(rules.YieldGrade)
			quality, _ := graded.Figure(rules.QualityGrade)
			row.truth[rules.SheetYieldGrade] = yield.Number.StringFixed(2)
			row.truth[rules.SheetQualityGrade] = quality.Text
		}
		row.sheet = row.truth.but(t, "")
	}
}

// slipKindOfTest is one kind of slip that the benchmark plants.
type slipKindOfTest struct {
	name  string
	goal  string          // which goal it counts toward: "gross", "plausible" or "none"
	cell  rules.Measure   // for a slip in one cell
	loses decimal.Decimal // how far the true value may lie from the best hint, since the slip rounded it
	plant func(rng *rand.Rand, rows []*plantedRow, i int) bool
}

// inCell plants a slip that changes one number.
func inCell(name, goal string, cell rules.Measure, change func(rng *rand.Rand, written string) string) slipKindOfTest {
	return slipKindOfTest{name: name, goal: goal, cell: cell, plant: func(rng *rand.Rand, rows []*plantedRow, i int) bool {
		changed := change(rng, rows[i].truth[cell])
		if changed == "" || decimal.RequireFromString(changed).Equal(decimal.RequireFromString(rows[i].truth[cell])) {
			return false
		}
		rows[i].sheet[cell] = changed
		return true
	}}
}

// inUnit plants a number written in another unit, to so many decimals. The slip loses half a unit of the last decimal, and
// the hint half of one of its own: half a pound, 0.005 in of fat, 0.05 sq in of area.
func inUnit(name string, cell rules.Measure, factor string, decimals int32) slipKindOfTest {
	kind := inCell(name, "gross", cell, func(_ *rand.Rand, written string) string {
		return decimal.RequireFromString(written).Mul(decimal.RequireFromString(factor)).StringFixed(decimals)
	})
	definition, _ := rules.Define(cell)
	hint := map[string]string{"lb": "0.5", "in": "0.005", "sq in": "0.05"}[definition.Unit]
	kind.loses = decimal.New(5, -decimals-1).DivRound(decimal.RequireFromString(factor), 4).Add(decimal.RequireFromString(hint))
	return kind
}

// shifted moves the decimal point.
func shifted(places int32) func(*rand.Rand, string) string {
	return func(_ *rand.Rand, written string) string {
		return decimal.RequireFromString(written).Shift(places).String()
	}
}

// swapOfTwo exchanges two neighbouring digits that differ, as they are written.
func swapOfTwo(rng *rand.Rand, written string) string {
	var at []int
	digits := []byte(written)
	next := func(i int) int {
		if i+1 < len(digits) && digits[i+1] == '.' {
			return i + 2
		}
		return i + 1
	}
	for i := range digits {
		if j := next(i); digits[i] != '.' && j < len(digits) && digits[i] != digits[j] && (i > 0 || digits[0] != '0') && (i > 0 || digits[j] != '0') {
			at = append(at, i)
		}
	}
	if len(at) == 0 {
		return ""
	}
	i := at[rng.IntN(len(at))]
	digits[i], digits[next(i)] = digits[next(i)], digits[i]
	return string(digits)
}

// aHundred adds or takes a hundred.
func aHundred(rng *rand.Rand, written string) string {
	number := decimal.RequireFromString(written)
	if rng.IntN(2) == 0 {
		return number.Add(hundred).String()
	}
	return number.Sub(hundred).String()
}

// exchanged plants the values of two columns in each other's place.
func exchanged(name string, a, b rules.Measure) slipKindOfTest {
	return slipKindOfTest{name: name, goal: "gross", plant: func(_ *rand.Rand, rows []*plantedRow, i int) bool {
		rows[i].sheet[a], rows[i].sheet[b] = rows[i].truth[b], rows[i].truth[a]
		return rows[i].truth[a] != rows[i].truth[b]
	}}
}

// plantedKinds are the kinds of slip, fixed before the checks were tuned. Each is planted equally often.
var plantedKinds = []slipKindOfTest{
	inCell("ribeye without its decimal point (136)", "gross", rules.RibeyeArea, shifted(1)),
	inCell("ribeye a tenth (1.36)", "gross", rules.RibeyeArea, shifted(-1)),
	inUnit("ribeye in square centimetres", rules.RibeyeArea, "6.4516", 1),
	inCell("fat in tenths (4)", "gross", rules.MeasuredFat, shifted(1)),
	inUnit("fat in millimetres", rules.MeasuredFat, "25.4", 1),
	inCell("fat a tenth (0.04)", "gross", rules.MeasuredFat, shifted(-1)),
	inCell("fat in hundredths (40)", "gross", rules.MeasuredFat, shifted(2)),
	inCell("internal fat as a fraction (0.025)", "gross", rules.InternalFat, shifted(-2)),
	inCell("internal fat a tenth (0.25)", "gross", rules.InternalFat, shifted(-1)),
	inCell("internal fat ten times (25)", "gross", rules.InternalFat, shifted(1)),
	inUnit("carcass weight in kilograms", rules.HotCarcassWeight, "0.45359237", 0),
	inCell("carcass weight a tenth (78.0)", "gross", rules.HotCarcassWeight, shifted(-1)),
	inCell("carcass weight with a digit more (7800)", "gross", rules.HotCarcassWeight, shifted(1)),
	inUnit("live weight in kilograms", rules.LiveWeight, "0.45359237", 0),
	{name: "live weight in the carcass column as well", goal: "gross", cell: rules.HotCarcassWeight, plant: func(_ *rand.Rand, rows []*plantedRow, i int) bool {
		rows[i].sheet[rules.HotCarcassWeight] = rows[i].truth[rules.LiveWeight]
		return true
	}},
	exchanged("live and carcass weight exchanged", rules.LiveWeight, rules.HotCarcassWeight),
	exchanged("fat and ribeye exchanged", rules.MeasuredFat, rules.RibeyeArea),
	exchanged("ribeye and internal fat exchanged", rules.RibeyeArea, rules.InternalFat),
	{name: "row copied down", goal: "gross", plant: func(_ *rand.Rand, rows []*plantedRow, i int) bool {
		if i == 0 || rows[i-1].kind != "" || rows[i-1].beside {
			return false
		}
		for measure, written := range rows[i-1].sheet {
			if measure != rules.Tag && measure != rules.ClassName {
				rows[i].sheet[measure] = written
			}
		}
		rows[i-1].beside = true
		return true
	}},
	{name: "ribeye copied down over four rows", goal: "gross", plant: func(_ *rand.Rand, rows []*plantedRow, i int) bool {
		if i+4 >= len(rows) {
			return false
		}
		for _, row := range rows[i : i+5] {
			if row.kind != "" || row.beside {
				return false
			}
		}
		for _, row := range rows[i+1 : i+5] {
			row.sheet[rules.RibeyeArea] = rows[i].truth[rules.RibeyeArea]
			row.beside = true
		}
		return true
	}},
	inCell("carcass weight, two digits swapped", "plausible", rules.HotCarcassWeight, swapOfTwo),
	inCell("live weight, two digits swapped", "plausible", rules.LiveWeight, swapOfTwo),
	inCell("ribeye, two digits swapped", "plausible", rules.RibeyeArea, swapOfTwo),
	inCell("fat, two digits swapped", "plausible", rules.MeasuredFat, swapOfTwo),
	inCell("carcass weight a hundred off", "plausible", rules.HotCarcassWeight, aHundred),
	inCell("live weight a hundred off", "plausible", rules.LiveWeight, aHundred),
	{name: "tags swapped with a neighbour", goal: "plausible", plant: func(rng *rand.Rand, rows []*plantedRow, i int) bool {
		j := i + 1 + rng.IntN(3)
		if j >= len(rows) || rows[j].kind != "" || rows[j].beside {
			return false
		}
		for measure := range rows[i].truth {
			if measure != rules.Tag && measure != rules.ClassName && measure != rules.LiveWeight {
				rows[i].sheet[measure], rows[j].sheet[measure] = rows[j].truth[measure], rows[i].truth[measure]
			}
		}
		rows[j].beside = true
		return true
	}},
	inCell("chilled weight in one row", "none", rules.HotCarcassWeight, func(_ *rand.Rand, written string) string {
		return decimal.RequireFromString(written).Mul(decimal.RequireFromString("0.975")).StringFixed(0)
	}),
	inCell("marbling a degree off", "none", rules.Marbling, aHundred),
}

// rowsForASlip is how many rows of a sheet there are to each slip planted in it.
const rowsForASlip = 20

// plantSlips plants slips of the kinds in turn, from kind number next on, and gives the next number.
func (p *plantedSheet) plantSlips(rng *rand.Rand, next int) int {
	for range len(p.rows) / rowsForASlip {
		kind := p.kinds[next%len(p.kinds)]
		for range 100 {
			i := rng.IntN(len(p.rows))
			if p.rows[i].kind != "" || p.rows[i].beside || !kind.plant(rng, p.rows, i) {
				continue
			}
			p.rows[i].kind, p.rows[i].cell, p.rows[i].loses = kind.name, kind.cell, kind.loses
			next++
			break
		}
	}
	return next
}

// tally counts what became of the rows of one kind.
type tally struct {
	planted, caught, hintable, hinted int
	withOwn, caughtWithOwn            int // those in sheets with the plant's own grades
}

// outcome is what the checks made of many planted sheets.
type outcome struct {
	planted     []slipKindOfTest
	kinds       map[string]*tally
	trueRows    int
	falseAlarms map[string]int // by code
	flaggedTrue int
	examples    []string
}

// runPlanted makes sheets of cattle, plants slips in them and counts what the checks find.
func runPlanted(t *testing.T, seed uint64, sheets int) *outcome {
	t.Helper()
	return runSheets(t, seed, sheets, plantedKinds, func(rng *rand.Rand, i int) *plantedSheet {
		sheet := makeSheet(rng, 20+rng.IntN(181), i%2 == 1)
		sheet.grade(t, rules.Default())
		return sheet
	})
}

func runSheets(t *testing.T, seed uint64, sheets int, kinds []slipKindOfTest, sheetOf func(rng *rand.Rand, i int) *plantedSheet) *outcome {
	t.Helper()
	rng := rand.New(rand.NewPCG(seed, 2022))
	result := &outcome{planted: kinds, kinds: map[string]*tally{}, falseAlarms: map[string]int{}}
	next := 0
	for i := range sheets {
		sheet := sheetOf(rng, i)
		next = sheet.plantSlips(rng, next)
		result.count(t, sheet)
	}
	return result
}

func (o *outcome) count(t *testing.T, sheet *plantedSheet) {
	t.Helper()
	var rows []drawn
	for _, row := range sheet.rows {
		rows = append(rows, row.sheet)
	}
	lot := drawLot(t, sheet.species, rows...)
	flagged := map[int][]Finding{}
	for _, finding := range Check(lot) {
		if finding.Carcass != nil && finding.Level != Note {
			flagged[finding.Carcass.Sequence] = append(flagged[finding.Carcass.Sequence], finding)
		}
	}
	for i, row := range sheet.rows {
		switch {
		case row.kind != "":
			o.countSlip(row, flagged[i], sheet, flagged, i)
		case row.beside:
		default:
			o.trueRows++
			if len(flagged[i]) > 0 {
				o.flaggedTrue++
				o.falseAlarms[flagged[i][0].Code]++
				o.examples = append(o.examples, flagged[i][0].Message)
			}
		}
	}
}

func (o *outcome) countSlip(row *plantedRow, found []Finding, sheet *plantedSheet, flagged map[int][]Finding, i int) {
	key := row.kind
	if o.kinds[key] == nil {
		o.kinds[key] = &tally{}
	}
	one := o.kinds[key]
	one.planted++
	if sheet.ownGrades {
		one.withOwn++
	}
	caught := len(found) > 0
	if row.kind == "ribeye copied down over four rows" {
		for j := i; j < i+5; j++ {
			caught = caught || len(flagged[j]) > 0
		}
	}
	if !caught {
		return
	}
	one.caught++
	if sheet.ownGrades {
		one.caughtWithOwn++
	}
	if row.cell == "" {
		return
	}
	one.hintable++
	for _, finding := range found {
		if finding.Measure == row.cell && trueHint(finding.Hint, row.truth[row.cell], row.loses) {
			one.hinted++
			return
		}
	}
}

// trueHint reports whether a hint is the true value, within what the slip rounded away.
func trueHint(hint, truth string, loses decimal.Decimal) bool {
	return hint != "" && decimal.RequireFromString(hint).Sub(decimal.RequireFromString(truth)).Abs().LessThanOrEqual(loses)
}

// report writes the outcome as the page shows it.
func (o *outcome) report() string {
	text := fmt.Sprintf("%-44s %8s %8s %9s %9s %8s\n", "kind of slip", "planted", "caught", "with own", "without", "hint")
	for _, kind := range o.planted {
		if one := o.kinds[kind.name]; one != nil {
			text += one.line(kind.name, kind.cell != "")
		}
	}
	for _, goal := range []string{"gross", "plausible", "none"} {
		if o.goal(goal).planted == 0 {
			continue
		}
		text += o.goal(goal).line(goalWords[goal], false)
	}
	hinted, hintable := o.hints()
	text += fmt.Sprintf("%-44s %8d %37s\n", "hint is the true value, of single cells caught", hintable, percentOf(hinted, hintable))
	text += fmt.Sprintf("%-44s %8d %8s\n", "true rows flagged", o.trueRows, percentOf(o.flaggedTrue, o.trueRows))
	return text
}

// goalWords says what the kinds of a goal are.
var goalWords = map[string]string{
	"gross":     "decimal, unit, column and copy slips",
	"plausible": "plausible slips",
	"none":      "slips without a goal",
}

// line writes a tally: what was planted, the share caught of all, of those beside the plant's own grades and of the others,
// and the share of true hints.
func (one tally) line(name string, hints bool) string {
	hint := ""
	if hints {
		hint = percentOf(one.hinted, one.hintable)
	}
	return strings.TrimRight(fmt.Sprintf("%-44s %8d %8s %9s %9s %8s", name, one.planted, percentOf(one.caught, one.planted),
		percentOf(one.caughtWithOwn, one.withOwn), percentOf(one.caught-one.caughtWithOwn, one.planted-one.withOwn), hint), " ") + "\n"
}

func percentOf(part, whole int) string {
	if whole == 0 {
		return "-"
	}
	return fmt.Sprintf("%.1f %%", share(part, whole))
}

func share(part, whole int) float64 { return 100 * float64(part) / float64(max(1, whole)) }

// goal adds up the kinds that count toward a goal.
func (o *outcome) goal(goal string) tally {
	var all tally
	for _, kind := range o.planted {
		if one := o.kinds[kind.name]; one != nil && kind.goal == goal {
			all.planted, all.caught = all.planted+one.planted, all.caught+one.caught
			all.withOwn, all.caughtWithOwn = all.withOwn+one.withOwn, all.caughtWithOwn+one.caughtWithOwn
		}
	}
	return all
}

// hints gives how many of the flagged single-cell slips have the true value as their hint.
func (o *outcome) hints() (hinted, hintable int) {
	for _, one := range o.kinds {
		hinted, hintable = hinted+one.hinted, hintable+one.hintable
	}
	return hinted, hintable
}

// manyRows makes true rows for a benchmark.
func manyRows(t testing.TB, count int) []drawn {
	sheet := makeSheet(rand.New(rand.NewPCG(1, 1)), count, false)
	sheet.grade(t, rules.Default())
	var rows []drawn
	for _, row := range sheet.rows {
		rows = append(rows, row.sheet)
	}
	return rows
}
