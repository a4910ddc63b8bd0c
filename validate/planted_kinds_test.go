package validate

import (
	"math/rand/v2"
	"slices"
	"strings"

	"railbook/rules/measure"

	"github.com/shopspring/decimal"
)

// slipKindOfTest is one kind of slip that the benchmark plants.
type slipKindOfTest struct {
	name  string
	goal  string          // "loud": it cannot be true or is plainly out of all range; "silent": a plausible value
	cell  measure.ID      // for a slip in one cell
	loses decimal.Decimal // how far the true value may lie from the best hint, since the slip rounded it
	plant func(rng *rand.Rand, rows []*plantedRow, i int) bool

	// What one who knows the generator reckons with: the numbers that a slip in the cell may make of a true one, and those that
	// may have been the true one; the rest by their pattern.
	change, origin change
	pattern        pattern
	with           []measure.ID // the cells that the pattern is about
}

// pattern is how a slip in more than one cell shows.
type pattern int

const (
	inOneCell      pattern = iota
	exchangedCells         // two cells of a row hold each other's value
	likeRowAbove           // a cell holds that of the row above
	likeOtherCell          // a cell holds that of another cell of its row
	betweenRows            // cells of two rows near one another are exchanged
	wholeRow               // all cells are those of the row above
	runDown                // one value stands in five rows
	sameTag
)

// change gives every number that may come of one, each as likely as the others; none where nothing can.
type change func(number decimal.Decimal, decimals int32) []decimal.Decimal

// inCell is a slip that changes one number; origin leads back, and is the change itself where that is its own way back.
func inCell(name, goal string, cell measure.ID, change, origin change) slipKindOfTest {
	return slipKindOfTest{name: name, goal: goal, cell: cell, change: change, origin: origin, plant: func(rng *rand.Rand, rows []*plantedRow, i int) bool {
		truth := decimal.RequireFromString(rows[i].truth[cell])
		may := change(truth, shownDecimals[cell])
		if len(may) == 0 {
			return false
		}
		changed := may[rng.IntN(len(may))]
		rows[i].sheet[cell] = changed.String()
		return !changed.Equal(truth)
	}}
}

// inUnit is a number written in another unit, to so many decimals. The slip loses half a unit of the last decimal, and
// the hint half of one of its own: half a pound, 0.005 in of fat, 0.05 sq in of area.
func inUnit(name string, cell measure.ID, factor string, decimals int32) slipKindOfTest {
	times := decimal.RequireFromString(factor)
	definition, _ := measure.Define(cell)
	hint := decimal.RequireFromString(map[string]string{"lb": "0.5", "in": "0.005", "sq in": "0.05"}[definition.Unit])
	kind := inCell(name, "loud", cell, byFactor(factor, decimals), fromFactor(factor))
	kind.loses = decimal.New(5, -decimals-1).DivRound(times, 4).Add(hint)
	return kind
}

// losing says how far the true value may lie from the best hint, lb: the slip rounded it.
func losing(pounds int64, kind slipKindOfTest) slipKindOfTest {
	kind.loses = decimal.NewFromInt(pounds)
	return kind
}

// byFactor multiplies and rounds.
func byFactor(factor string, decimals int32) change {
	times := decimal.RequireFromString(factor)
	return func(number decimal.Decimal, _ int32) []decimal.Decimal {
		return []decimal.Decimal{number.Mul(times).Round(decimals)}
	}
}

// fromFactor gives the numbers that a factor may have made a rounded one of.
func fromFactor(factor string) change {
	times := decimal.RequireFromString(factor)
	return func(number decimal.Decimal, decimals int32) []decimal.Decimal {
		var list []decimal.Decimal
		for away := int64(-3); away <= 3; away++ {
			list = append(list, number.DivRound(times, decimals).Add(decimal.New(away, -decimals)))
		}
		return list
	}
}

// shifted moves the decimal point.
func shifted(places int32) change {
	return func(number decimal.Decimal, _ int32) []decimal.Decimal {
		return []decimal.Decimal{number.Shift(places)}
	}
}

func negative(number decimal.Decimal, _ int32) []decimal.Decimal {
	return []decimal.Decimal{number.Neg()}
}

// aHundred adds or takes a hundred, and so on.
func aHundred(number decimal.Decimal, _ int32) []decimal.Decimal {
	return []decimal.Decimal{number.Add(hundred), number.Sub(hundred)}
}

func aWhole(number decimal.Decimal, _ int32) []decimal.Decimal {
	return []decimal.Decimal{number.Add(decimal.New(1, 0)), number.Sub(decimal.New(1, 0))}
}

// digitsOf takes a number's digits apart as its column shows them.
func digitsOf(number decimal.Decimal, decimals int32) (digits []byte, scale int32) {
	scale = max(decimals, -number.Exponent(), 0)
	return []byte(strings.Replace(number.Abs().StringFixed(scale), ".", "", 1)), scale
}

func fromDigits(digits []byte, scale int32) decimal.Decimal {
	return decimal.RequireFromString(string(digits)).Shift(-scale)
}

// twoSwapped exchanges two neighbouring digits that differ; the first digit stays one.
func twoSwapped(number decimal.Decimal, decimals int32) []decimal.Decimal {
	var list []decimal.Decimal
	digits, scale := digitsOf(number, decimals)
	for i := 0; i+1 < len(digits); i++ {
		if digits[i] == digits[i+1] || i == 0 && (digits[0] == '0' || digits[1] == '0') {
			continue
		}
		swapped := slices.Clone(digits)
		swapped[i], swapped[i+1] = swapped[i+1], swapped[i]
		list = append(list, fromDigits(swapped, scale))
	}
	return list
}

// besideOnThePad are the keys that touch one another on a number pad.
var besideOnThePad = map[byte]string{'0': "12", '1': "024", '2': "0135", '3': "26", '4': "157", '5': "2468", '6': "359", '7': "48", '8': "579", '9': "68"}

// wrongKey strikes a neighbouring key instead of one digit. The last digit of a weight is left alone: nothing depends on it.
func wrongKey(leave int) change {
	return func(number decimal.Decimal, decimals int32) []decimal.Decimal {
		var list []decimal.Decimal
		digits, scale := digitsOf(number, decimals)
		for i := range len(digits) - leave {
			for _, key := range []byte(besideOnThePad[digits[i]]) {
				struck := slices.Clone(digits)
				struck[i] = key
				if struck[0] != '0' || digits[0] == '0' && i > 0 {
					list = append(list, fromDigits(struck, scale))
				}
			}
		}
		return list
	}
}

// twice types one digit twice; once takes it back.
func twice(number decimal.Decimal, decimals int32) []decimal.Decimal {
	var list []decimal.Decimal
	digits, scale := digitsOf(number, decimals)
	for i := range digits {
		list = append(list, fromDigits(slices.Insert(slices.Clone(digits), i, digits[i]), scale))
	}
	return list
}

func once(number decimal.Decimal, decimals int32) []decimal.Decimal {
	var list []decimal.Decimal
	digits, scale := digitsOf(number, decimals)
	for i := 0; i+1 < len(digits); i++ {
		if digits[i] == digits[i+1] {
			list = append(list, fromDigits(slices.Delete(slices.Clone(digits), i, i+1), scale))
		}
	}
	return list
}

// firstLost loses the first digit; firstFound finds it again.
func firstLost(number decimal.Decimal, decimals int32) []decimal.Decimal {
	digits, scale := digitsOf(number, decimals)
	if len(digits) < 3 {
		return nil
	}
	return []decimal.Decimal{fromDigits(digits[1:], scale)}
}

func firstFound(number decimal.Decimal, _ int32) []decimal.Decimal {
	var list []decimal.Decimal
	for place := int64(100); place <= 1000; place *= 10 {
		for digit := int64(1); digit <= 9; digit++ {
			list = append(list, number.Add(decimal.NewFromInt(digit*place)))
		}
	}
	return list
}

// exchanged plants the values of two columns in each other's place.
func exchanged(name string, a, b measure.ID) slipKindOfTest {
	return slipKindOfTest{name: name, goal: "loud", pattern: exchangedCells, with: []measure.ID{a, b}, plant: func(_ *rand.Rand, rows []*plantedRow, i int) bool {
		rows[i].sheet[a], rows[i].sheet[b] = rows[i].truth[b], rows[i].truth[a]
		return rows[i].truth[a] != rows[i].truth[b]
	}}
}

// likeCell plants the value of one column in another as well.
func likeCell(name string, cell, other measure.ID) slipKindOfTest {
	return slipKindOfTest{name: name, goal: "loud", cell: cell, pattern: likeOtherCell, with: []measure.ID{cell, other}, plant: func(_ *rand.Rand, rows []*plantedRow, i int) bool {
		rows[i].sheet[cell] = rows[i].truth[other]
		return true
	}}
}

// likeAbove plants the value of the row above.
func likeAbove(name string, cell measure.ID) slipKindOfTest {
	return slipKindOfTest{name: name, goal: "silent", pattern: likeRowAbove, with: []measure.ID{cell}, plant: func(_ *rand.Rand, rows []*plantedRow, i int) bool {
		if i == 0 || !rows[i-1].untouched() {
			return false
		}
		rows[i].sheet[cell] = rows[i-1].truth[cell]
		return rows[i].sheet[cell] != rows[i].truth[cell]
	}}
}

// betweenTwo exchanges cells of a row with those of one of the three rows below it.
func betweenTwo(name string, moves ...measure.ID) slipKindOfTest {
	return slipKindOfTest{name: name, goal: "silent", pattern: betweenRows, with: moves, plant: func(rng *rand.Rand, rows []*plantedRow, i int) bool {
		j := i + 1 + rng.IntN(3)
		if j >= len(rows) || !rows[j].untouched() {
			return false
		}
		differ := false
		for _, id := range moves {
			move := func(to, from *plantedRow) {
				delete(to.sheet, id)
				if written, has := from.truth[id]; has {
					to.sheet[id] = written
				}
			}
			move(rows[i], rows[j])
			move(rows[j], rows[i])
			differ = differ || rows[i].truth[id] != rows[j].truth[id]
		}
		rows[i].partners, rows[j].beside = []int{j}, differ
		return differ
	}}
}

// plantedKinds are the kinds of slip, fixed before the checks were tuned. Each is planted equally often.
var plantedKinds = []slipKindOfTest{
	inCell("ribeye without its decimal point (136)", "loud", measure.RibeyeArea, shifted(1), shifted(-1)),
	inCell("ribeye a tenth (1.36)", "loud", measure.RibeyeArea, shifted(-1), shifted(1)),
	inUnit("ribeye in square centimetres", measure.RibeyeArea, "6.4516", 1),
	inCell("ribeye negative", "loud", measure.RibeyeArea, negative, negative),
	inCell("fat in tenths (4)", "loud", measure.MeasuredFat, shifted(1), shifted(-1)),
	inUnit("fat in millimetres", measure.MeasuredFat, "25.4", 1),
	inCell("fat a tenth (0.04)", "loud", measure.MeasuredFat, shifted(-1), shifted(1)),
	inCell("fat in hundredths (40)", "loud", measure.MeasuredFat, shifted(2), shifted(-2)),
	inCell("fat negative", "loud", measure.MeasuredFat, negative, negative),
	inCell("internal fat as a fraction (0.025)", "loud", measure.InternalFat, shifted(-2), shifted(2)),
	inCell("internal fat a tenth (0.25)", "loud", measure.InternalFat, shifted(-1), shifted(1)),
	inCell("internal fat ten times (25)", "loud", measure.InternalFat, shifted(1), shifted(-1)),
	inUnit("carcass weight in kilograms", measure.HotCarcassWeight, "0.45359237", 0),
	inCell("carcass weight a tenth (78.0)", "loud", measure.HotCarcassWeight, shifted(-1), shifted(1)),
	inCell("carcass weight, a digit typed twice", "loud", measure.HotCarcassWeight, twice, once),
	losing(1, inCell("carcass weight of one side only", "loud", measure.HotCarcassWeight, byFactor("0.5", 0), fromFactor("0.5"))),
	inCell("carcass weight without its first digit", "loud", measure.HotCarcassWeight, firstLost, firstFound),
	inUnit("live weight in kilograms", measure.LiveWeight, "0.45359237", 0),
	inCell("live weight a tenth (125.0)", "loud", measure.LiveWeight, shifted(-1), shifted(1)),
	inCell("live weight, a digit typed twice", "loud", measure.LiveWeight, twice, once),
	inCell("live weight without its first digit", "loud", measure.LiveWeight, firstLost, firstFound),
	inCell("marbling ten times (4400)", "loud", measure.Marbling, shifted(1), shifted(-1)),
	inCell("marbling a tenth (44)", "loud", measure.Marbling, shifted(-1), shifted(1)),
	likeCell("live weight in the carcass column as well", measure.HotCarcassWeight, measure.LiveWeight),
	likeCell("carcass weight in the live column as well", measure.LiveWeight, measure.HotCarcassWeight),
	exchanged("live and carcass weight exchanged", measure.LiveWeight, measure.HotCarcassWeight),
	exchanged("fat and ribeye exchanged", measure.MeasuredFat, measure.RibeyeArea),
	exchanged("ribeye and internal fat exchanged", measure.RibeyeArea, measure.InternalFat),
	exchanged("fat and internal fat exchanged", measure.MeasuredFat, measure.InternalFat),
	{name: "tag of the row above", goal: "loud", pattern: sameTag, plant: func(_ *rand.Rand, rows []*plantedRow, i int) bool {
		if i == 0 || !rows[i-1].untouched() {
			return false
		}
		rows[i].sheet[measure.Tag] = rows[i-1].truth[measure.Tag]
		rows[i].partners, rows[i-1].beside = []int{i - 1}, true
		return true
	}},
	{name: "row copied down", goal: "loud", pattern: wholeRow, plant: func(_ *rand.Rand, rows []*plantedRow, i int) bool {
		if i == 0 || !rows[i-1].untouched() {
			return false
		}
		for id, written := range rows[i-1].sheet {
			if id != measure.Tag && id != measure.ClassName {
				rows[i].sheet[id] = written
			}
		}
		rows[i].partners, rows[i-1].beside = []int{i - 1}, true
		return true
	}},
	{name: "ribeye copied down over four rows", goal: "loud", pattern: runDown, with: []measure.ID{measure.RibeyeArea}, plant: func(_ *rand.Rand, rows []*plantedRow, i int) bool {
		if i+4 >= len(rows) || slices.ContainsFunc(rows[i:i+5], func(row *plantedRow) bool { return !row.untouched() }) {
			return false
		}
		for j, row := range rows[i+1 : i+5] {
			row.sheet[measure.RibeyeArea] = rows[i].truth[measure.RibeyeArea]
			row.beside = true
			rows[i].partners = append(rows[i].partners, i+1+j)
		}
		return true
	}},

	inCell("carcass weight, two digits swapped", "silent", measure.HotCarcassWeight, twoSwapped, twoSwapped),
	inCell("live weight, two digits swapped", "silent", measure.LiveWeight, twoSwapped, twoSwapped),
	inCell("ribeye, two digits swapped", "silent", measure.RibeyeArea, twoSwapped, twoSwapped),
	inCell("fat, two digits swapped", "silent", measure.MeasuredFat, twoSwapped, twoSwapped),
	inCell("marbling, two digits swapped", "silent", measure.Marbling, twoSwapped, twoSwapped),
	inCell("carcass weight, a wrong key", "silent", measure.HotCarcassWeight, wrongKey(1), wrongKey(1)),
	inCell("live weight, a wrong key", "silent", measure.LiveWeight, wrongKey(1), wrongKey(1)),
	inCell("ribeye, a wrong key", "silent", measure.RibeyeArea, wrongKey(0), wrongKey(0)),
	inCell("fat, a wrong key", "silent", measure.MeasuredFat, wrongKey(0), wrongKey(0)),
	inCell("carcass weight a hundred off", "silent", measure.HotCarcassWeight, aHundred, aHundred),
	inCell("live weight a hundred off", "silent", measure.LiveWeight, aHundred, aHundred),
	inCell("marbling a degree off", "silent", measure.Marbling, aHundred, aHundred),
	inCell("ribeye one off (12.6)", "silent", measure.RibeyeArea, aWhole, aWhole),
	losing(1, inCell("chilled weight in one row", "silent", measure.HotCarcassWeight, byFactor("0.975", 0), fromFactor("0.975"))),
	likeAbove("carcass weight of the row above", measure.HotCarcassWeight),
	likeAbove("live weight of the row above", measure.LiveWeight),
	likeAbove("ribeye of the row above", measure.RibeyeArea),
	likeAbove("fat of the row above", measure.MeasuredFat),
	betweenTwo("carcass weights of two rows exchanged", measure.HotCarcassWeight),
	betweenTwo("tags swapped with a neighbour", measure.HotCarcassWeight, measure.MeasuredFat, measure.RibeyeArea, measure.InternalFat,
		measure.Marbling, measure.Maturity, measure.SheetYieldGrade, measure.SheetQualityGrade),
}
