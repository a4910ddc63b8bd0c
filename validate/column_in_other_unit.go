package validate

import (
	"strconv"

	"railbook/rules/measure"
)

// columnInOtherUnit says once for a sheet that most of a column's numbers, three at least, lie outside the look limits
// and would be inside in one and the same other unit or with the decimal point moved alike. The cells that cannot be true
// are held one by one all the same. A true column is never named, since most of it would have to be odd.
func columnInOtherUnit(s *checker) []Finding {
	var findings []Finding
	for i := range s.Sheets {
		sheet := &s.Sheets[i]
		rows := sheet.rows
		for _, id := range s.measuresIn(rows) {
			at, has := sheet.Columns[id]
			words, count, all := s.alike(rows, id)
			if !has || count < 3 || count*2 <= all {
				continue
			}
			finding := Finding{Level: Look, Code: "column in another unit", At: at, Measure: id}
			findings = append(findings, finding.say(strconv.Itoa(count)+" of "+strconv.Itoa(all)+" "+called(id)+" values are out of range, and the "+
				"whole column "+words+". If it is so, say the unit in the heading and grade again."))
		}
	}
	return findings
}

// alike gives the slip of unit or decimal point that explains the most values of a column that are out of range, how many
// it explains, and how many values there are.
func (s *checker) alike(rows []*row, id measure.ID) (words string, count, all int) {
	explained := map[string]int{}
	for _, r := range rows {
		place, limited := r.kind.place[id]
		if !limited || !r.cells[place].read || r.doubted.Has(id) {
			continue
		}
		all++
		if r.cells[place].level() == "" {
			continue
		}
		said := map[string]bool{}
		for _, slip := range scaleSlips(id, r.ReadingOf(id).Value) {
			if r.kind.limits[place].judge(slip.value) == "" && !said[slip.words] {
				said[slip.words] = true
				explained[slip.words]++
			}
		}
	}
	for _, other := range []string{depthWords, areaWords} { // nothing else explains these as well
		if explained[other] > count {
			words, count = other, explained[other]
		}
	}
	for _, units := range otherUnits {
		for _, unit := range units {
			if explained[unit.words] > count {
				words, count = unit.words, explained[unit.words]
			}
		}
	}
	if explained[movedPointWords] > count {
		words, count = movedPointWords, explained[movedPointWords]
	}
	return words, count, all
}
