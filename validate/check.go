package validate

import (
	"cmp"
	"slices"
	"strconv"

	"railbook/rules/measure"
)

// check is one check: its name, under which the page describes it, and what it does.
type check struct {
	name string
	find func(*checker) []Finding
}

// checks are all the checks, in the order in which they run. A cell that one of them doubts is taken as explained: those
// after it say nothing that would only follow from that cell. So what cannot be true comes first, then what explains a
// row, then what is merely unusual.
var checks = []check{
	{"duplicate tag", duplicateTag},
	{"tag missing", missingTag},
	{"class missing", missingClass},
	{"tag not on the roster", tagNotOnRoster},
	{"entry without a carcass", entryWithoutCarcass},
	{"inspector's marks", inspectorMarks},
	{"condition marks", conditionMarks},
	{"signs of a condition", conditionsDisagree},
	{"age and maturity", ageAgainstMaturity},
	{"column missing", missingColumn},
	{"value missing", missingValue},
	{"assumed for the sheet", assumedForSheet},
	{"columns exchanged", columnsExchanged},
	{"column a row off", columnARowOff},
	{"column in another unit", columnInOtherUnit},
	{"values exchanged", valuesExchanged},
	{"impossible value", impossibleValue},
	{"score off the scale", offScale},
	{"chilled given for hot", chilledForHot},
	{"identical rows", identicalRows},
	{"carcass heavier than live", carcassHeavierThanLive},
	{"chilled and hot weight", chilledAndHot},
	{"sides and whole", sidesAndWhole},
	{"fat of two sides", fatOfSides},
	{"impossible dressing percent", impossibleDressingPercent},
	{"impossible ribeye for the weight", impossibleRibeyeForWeight},
	{"body wall and fat", wallAndFat},
	{"dates in order", datesInOrder},
	{"start and final weight", startAndFinalWeight},
	{"conditions asked for", conditionsAsked},
	{"impossible rate", impossibleRate},
	{"cow or bull", cowOrBull},
	{"sex and class", sexOfClass},
	{"copied-down value", copiedValues},
	{"sheet's own figures throughout", ownFiguresThroughout},
	{"tags swapped", slipsBy("tags swapped")},
	{"values of two rows exchanged", slipsBy("values of two rows exchanged")},
	{"values look exchanged", slipsBy("values look exchanged")},
	{"digits swapped", slipsBy("digits swapped")},
	{"a hundred off", slipsBy("a hundred off")},
	{"wrong digit", slipsBy("wrong digit")},
	{"decimal point moved", slipsBy("decimal point moved")},
	{"another unit", slipsBy("another unit")},
	{"value of the row above", slipsBy("value of the row above")},
	{"sheet's own figure disagrees", slipsBy("sheet's own figure disagrees")},
	{"out of line with the class", slipsBy("out of line with the class")},
	{"leg score and conformation beside the class", musclingBesideClass},
	{"fair weight and live weight", fairAndLiveWeight},
	{"unusual value", unusualValue},
	{"unusual dressing percent", unusualDressingPercent},
	{"unusual ribeye for the weight", unusualRibeyeForWeight},
	{"unusual rate", unusualRate},
	{"no price in the grid", noPrice},
	{"no base price", noBasePrice},
}

// Check runs every check over the batch. Findings come in the order of sheet, row and column, gravest first within a cell.
func Check(batch *Batch) []Finding {
	checker := newChecker(batch)
	var findings []Finding
	for _, check := range checks {
		found := check.find(checker)
		markBounds(found, check.name)
		checker.remember(found)
		findings = append(findings, found...)
	}
	return inOrder(findings, batch)
}

// inOrder sorts findings by sheet (in the order of the workbook), row, column and level.
func inOrder(findings []Finding, batch *Batch) []Finding {
	sheets := map[string]int{}
	for _, sheet := range batch.Sheets {
		if _, known := sheets[sheet.Name]; !known {
			sheets[sheet.Name] = len(sheets)
		}
	}
	order := func(name string) int {
		if place, known := sheets[name]; known {
			return place
		}
		return len(sheets)
	}
	slices.SortStableFunc(findings, func(a, b Finding) int {
		aRow, aColumn := rowAndColumn(a.At.Cell)
		bRow, bColumn := rowAndColumn(b.At.Cell)
		return cmp.Or(
			cmp.Compare(a.At.File, b.At.File),
			cmp.Compare(order(a.At.Sheet), order(b.At.Sheet)),
			cmp.Compare(a.At.Sheet, b.At.Sheet),
			cmp.Compare(aRow, bRow),
			cmp.Compare(aColumn, bColumn),
			cmp.Compare(severity[a.Level], severity[b.Level]),
		)
	})
	return findings
}

var severity = map[Level]int{Hold: 0, Look: 1, Note: 2}

// rowAndColumn takes a cell's name apart: "G14" is row 14, column 7. Anything else is row 0.
func rowAndColumn(cell string) (row, column int) {
	letters := 0
	for letters < len(cell) && cell[letters] >= 'A' && cell[letters] <= 'Z' {
		column = column*26 + int(cell[letters]-'A') + 1
		letters++
	}
	row, err := strconv.Atoi(cell[letters:])
	if err != nil {
		return 0, 0
	}
	return row, column
}

// about starts a finding about one cell of a carcass; its words are added by the check.
func (s *checker) about(level Level, code string, carcass *row, id measure.ID) Finding {
	finding := Finding{
		Level: level, Code: code, At: carcass.Place, Measure: id,
		Tag: carcass.Tag, Class: carcass.Class, Carcass: carcass.Carcass,
	}
	if reading, written := carcass.Written(id); written {
		finding.At, finding.Read = reading.Place, reading.Written
	}
	return finding
}

// aboutRow starts a finding about a carcass as a whole.
func (s *checker) aboutRow(level Level, code string, carcass *row) Finding {
	return s.about(level, code, carcass, measure.None)
}

// say gives the finding its sentence: where, what is wrong and what to do.
func (f Finding) say(words string) Finding {
	f.Message = f.At.Begin(words)
	return f
}
