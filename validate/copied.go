package validate

import (
	"strconv"
	"strings"

	"railbook/rules"
)

// identicalRows has the judge look at a carcass all of whose measures, at least four, are those of an earlier one of its
// sheet: a row copied down. Two true carcasses alike in weight, fat, ribeye and marbling are too rare to meet.
func identicalRows(s *survey) []Finding {
	var findings []Finding
	for i := range s.Sheets {
		first := map[string]*row{}
		for _, r := range s.sheets[&s.Sheets[i]] {
			text, count := s.measuresOf(r)
			if count < 4 {
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

// measuresOf writes out the limited measures of a carcass that vary from one to the next.
func (s *survey) measuresOf(r *row) (text string, count int) {
	var parts []string
	for _, measure := range s.limited(r.Species) {
		reading, ok := r.Reading(measure)
		if !ok {
			continue
		}
		parts = append(parts, string(measure)+"="+reading.Value.Number.String())
		count++
	}
	return strings.Join(parts, ";"), count
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
func copiedValues(s *survey) []Finding {
	var findings []Finding
	for i := range s.Sheets {
		rows := s.sheets[&s.Sheets[i]]
		if len(rows) == 0 {
			continue
		}
		for _, measure := range s.limited(rows[0].Species) {
			findings = append(findings, s.runsOf(rows, measure)...)
		}
	}
	return findings
}

func (s *survey) runsOf(rows []*row, measure rules.Measure) []Finding {
	valueOf := func(r *row) string {
		reading, ok := r.Reading(measure)
		if !ok || r.copied || r.passed {
			return ""
		}
		return reading.Value.Number.String()
	}
	common := map[string]int{}
	total := 0
	for _, r := range rows {
		if value := valueOf(r); value != "" {
			common[value]++
			total++
		}
	}
	var findings []Finding
	for start := 0; start < len(rows) && len(common) >= enoughSteps; {
		value := valueOf(rows[start])
		end := start + 1
		for end < len(rows) && value != "" && valueOf(rows[end]) == value {
			end++
		}
		length := end - start
		if length >= shortestRun && expected(length, common[value]-length, total) < expectedRuns {
			findings = append(findings, s.runFindings(rows[start:end], measure)...)
		}
		start = end
	}
	return findings
}

// expected gives how many runs of this length chance makes of a value that stands this often in the rest of the column.
func expected(length, elsewhere, total int) float64 {
	share := float64(elsewhere+1) / float64(max(1, total-length+1))
	count := float64(total)
	for range length - 1 {
		count *= share
	}
	return count
}

// runFindings names each cell of a run after its first, which is the likely original.
func (s *survey) runFindings(run []*row, measure rules.Measure) []Finding {
	var findings []Finding
	first := run[0].Readings[measure]
	for _, r := range run[1:] {
		if !r.sound(measure) {
			continue
		}
		findings = append(findings, s.about(Look, "copied-down value", r, measure).say(called(measure)+" "+first.Written+
			" stands in "+strconv.Itoa(len(run))+" rows one after another from cell "+first.Place.Cell+", so it may have been copied down."+lookAtIt))
	}
	return findings
}
