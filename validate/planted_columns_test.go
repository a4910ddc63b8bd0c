package validate

import (
	"fmt"
	"math/rand/v2"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"railbook/rules/measure"
)

// The codes of what is said of a whole column.
const (
	shiftedColumn    = "column a row off"
	exchangedColumns = "columns exchanged"
)

// columnSlip is a slip in a whole column of a sheet.
type columnSlip struct {
	sheet *plantedSheet
	code  string
	of    []measure.ID
	first int // the first row that is off
}

// shiftedSheet makes a sheet one column of which is a row off from some row on: every value stands a row too low, or a row
// too high.
func shiftedSheet(t testing.TB, rng *rand.Rand, own bool) columnSlip {
	sheet := makeSheet(t, rng, 24+rng.IntN(127))
	for (sheet.habits.own != noOwnGrade) != own {
		sheet = makeSheet(t, rng, 24+rng.IntN(127))
	}
	columns := []measure.ID{measure.RibeyeArea, measure.MeasuredFat, measure.HotCarcassWeight, measure.LiveWeight}
	return sheet.shift(rng, columns[rng.IntN(len(columns))])
}

// ownShiftedSheet makes one whose own yield grade, or quality grade, is a row off.
func ownShiftedSheet(t testing.TB, rng *rand.Rand) columnSlip {
	sheet := makeSheet(t, rng, 24+rng.IntN(127))
	for sheet.habits.own == noOwnGrade {
		sheet = makeSheet(t, rng, 24+rng.IntN(127))
	}
	if sheet.habits.quality && rng.IntN(2) == 0 {
		return sheet.shift(rng, measure.SheetQualityGrade)
	}
	return sheet.shift(rng, measure.SheetYieldGrade)
}

func (sheet *plantedSheet) shift(rng *rand.Rand, column measure.ID) columnSlip {
	first, down := 4+rng.IntN(len(sheet.rows)-14), rng.IntN(2) == 0
	for i := first; i < len(sheet.rows); i++ {
		if down {
			sheet.rows[i].sheet[column] = sheet.rows[i-1].truth[column]
		} else if i+1 < len(sheet.rows) {
			sheet.rows[i].sheet[column] = sheet.rows[i+1].truth[column]
		}
	}
	return columnSlip{sheet, shiftedColumn, []measure.ID{column}, first}
}

// exchangedSheet makes a sheet two columns of which stand under each other's headings.
func exchangedSheet(t testing.TB, rng *rand.Rand) columnSlip {
	sheet := makeSheet(t, rng, 8+rng.IntN(143))
	pairs := [][]measure.ID{
		{measure.MeasuredFat, measure.InternalFat},
		{measure.RibeyeArea, measure.InternalFat},
		{measure.MeasuredFat, measure.RibeyeArea},
		{measure.LiveWeight, measure.HotCarcassWeight},
	}
	pair := pairs[rng.IntN(len(pairs))]
	for _, row := range sheet.rows {
		row.sheet[pair[0]], row.sheet[pair[1]] = row.truth[pair[1]], row.truth[pair[0]]
	}
	return columnSlip{sheet, exchangedColumns, pair, 0}
}

// mayBegin reads the rows between which a shift may begin.
var mayBegin = regexp.MustCompile(`any of the cells [A-Z]+(\d+) to [A-Z]+(\d+)`)

// named reports whether a finding names the slip, and for a shift its first row or one beside it (a row there may be as
// good off as on), or rows among which that is; findings counts all that is said of the sheet.
func (c columnSlip) named(t testing.TB) (named bool, findings int) {
	for _, finding := range Check(c.sheet.lot(t)) {
		if finding.Level == Note {
			continue
		}
		findings++
		instead := strings.Contains(finding.Message, "Or the "+strings.Replace(c.of[0].String(), "sheet", "sheet's own", 1))
		if finding.Code != c.code || finding.Measure != c.of[0] && finding.Measure != c.of[len(c.of)-1] && !instead {
			continue
		}
		from, _ := rowAndColumn(finding.At.Cell)
		upTo := from
		if may := mayBegin.FindStringSubmatch(finding.Message); may != nil {
			from, _ = strconv.Atoi(may[1])
			upTo, _ = strconv.Atoi(may[2])
		}
		named = named || c.code == exchangedColumns || c.first+5 >= from-1 && c.first+5 <= upTo+1
	}
	return named, findings
}

// countColumnSlips writes what is found of slips in whole columns, and what is said so of sheets with none.
func countColumnSlips(t testing.TB, seed uint64, count int, others []*plantedSheet) string {
	rng := rand.New(rand.NewPCG(seed, 1979))
	text := fmt.Sprintf("%-44s %8s %8s %18s\n", "in a whole column", "planted", "named", "findings a sheet")
	for _, kind := range []struct {
		name string
		make func() columnSlip
	}{
		{"a row off, with own grades", func() columnSlip { return shiftedSheet(t, rng, true) }},
		{"a row off, without", func() columnSlip { return shiftedSheet(t, rng, false) }},
		{"two columns exchanged", func() columnSlip { return exchangedSheet(t, rng) }},
		{"own grades a row off", func() columnSlip { return ownShiftedSheet(t, rng) }},
	} {
		all, findings := 0, 0
		for range count {
			named, said := kind.make().named(t)
			if named {
				all++
			}
			findings += said
		}
		text += fmt.Sprintf("%-44s %8d %8s %18.1f\n", kind.name, count, percentOf(all, count), float64(findings)/float64(count))
	}
	wrongly := 0
	for _, sheet := range others {
		for _, finding := range Check(sheet.lot(t)) {
			if finding.Code == shiftedColumn || finding.Code == exchangedColumns {
				wrongly++
				break
			}
		}
	}
	return text + fmt.Sprintf("%-44s %8d %8s\n", "said of a sheet without one", len(others), percentOf(wrongly, len(others)))
}
