package validate

import (
	"strconv"

	"railbook/rules/measure"
)

// identicalRows has the judge look at a carcass all of whose measures, at least four, are those of an earlier one of its
// sheet: a row copied down. Two true carcasses alike in weight, fat, ribeye and marbling are too rare to meet.
func identicalRows(s *checker) []Finding {
	var findings []Finding
	for i := range s.Sheets {
		first := map[string]*row{}
		for _, r := range s.Sheets[i].rows {
			text, count := r.measuresRead()
			if count < fewestAlike {
				continue
			}
			earlier := first[text]
			if earlier == nil {
				first[text] = r
				continue
			}
			findings = append(findings, s.aboutRow(Look, "identical rows", r).say("every measure is the same as in "+
				earlier.Place.Cell+", so one of the rows may have been copied."+lookAtIt))
			r.copied = true
		}
	}
	return findings
}

// fewestAlike is how many measures a row must have for its likeness to mean anything.
const fewestAlike = 4

// measuresRead writes out the limited measures read of a carcass, to compare rows by.
func (r *row) measuresRead() (text string, count int) {
	key := make([]byte, 0, 64)
	for i := range r.cells {
		if r.cells[i].read {
			key = strconv.AppendFloat(append(key, r.kind.measures[i].String()...), r.cells[i].float, 'g', -1, 64)
			count++
		}
	}
	return string(key), count
}

// A run of equal values is named only where chance would hardly make it: so many such runs, or fewer, are expected in the
// whole sheet given how common the value is elsewhere in it.
const (
	expectedRuns = 0.02
	shortestRun  = 3
)

// copiedValues has the judge look at a run of one value down a column, at least three, that chance would make in fewer
// than one sheet in fifty. Measures that are judged in steps, such as internal fat, have long runs of their own and are
// left out.
func copiedValues(s *checker) []Finding {
	var findings []Finding
	for i := range s.Sheets {
		rows := s.Sheets[i].rows
		measures := s.measuresIn(rows)
		runs := make([][][]*row, len(measures))
		sideBySide(len(measures), 1, func(at, _ int) { runs[at] = runsOf(rows, measures[at]) })
		for at, id := range measures {
			for _, run := range runs[at] {
				findings = append(findings, s.runFinding(run, id)...)
			}
		}
	}
	return findings
}

// runsOf gives the runs of one value down a column that are no chance.
func runsOf(rows []*row, id measure.ID) (runs [][]*row) {
	valueOf := func(r *row) (value float64, ok bool) {
		place, limited := r.kind.place[id]
		if !limited || !r.cells[place].read || r.copied || r.passed {
			return 0, false
		}
		return r.cells[place].float, true
	}
	type ofClass struct {
		class string
		value float64
	}
	different := map[float64]bool{}
	common, total := map[ofClass]int{}, map[string]int{}
	for _, r := range rows {
		if value, ok := valueOf(r); ok {
			different[value] = true
			common[ofClass{r.Class, value}]++
			total[r.Class]++
		}
	}
	for start := 0; start < len(rows) && len(different) >= enoughSteps; {
		value, has := valueOf(rows[start])
		class := rows[start].Class
		end := start + 1
		for ; has && end < len(rows); end++ {
			if next, ok := valueOf(rows[end]); !ok || next != value {
				break
			}
		}
		length := end - start
		if has && length >= shortestRun && expected(length, common[ofClass{class, value}]-length, total[class]) < expectedRuns {
			runs = append(runs, rows[start:end])
		}
		start = end
	}
	return runs
}

// expected gives how many runs of this length chance makes of a value that stands this often in the rest of the column.
func expected(length, elsewhere, total int) float64 {
	elsewhere = max(0, elsewhere)
	share := float64(elsewhere+1) / float64(max(1, total-length+1))
	count := float64(total)
	for range length - 1 {
		count *= share
	}
	return count
}

// runFinding names a run once, at its second cell: the first is the likely original.
func (s *checker) runFinding(run []*row, id measure.ID) []Finding {
	if !run[1].sound(id) {
		return nil
	}
	first, last := run[0].ReadingOf(id), run[len(run)-1].ReadingOf(id)
	for _, r := range run[1:] {
		r.doubt(id)
	}
	return []Finding{s.about(Look, "copied-down value", run[1], id).say(called(id) + " " + first.Written +
		" stands in " + strconv.Itoa(len(run)) + " rows one after another, cells " + first.Place.Cell + " to " + last.Place.Cell + ", so it may have been copied down." + lookAtIt)}
}
