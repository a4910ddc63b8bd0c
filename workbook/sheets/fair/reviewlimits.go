package fair

import (
	"slices"
	"strings"

	"railbook/rules"
	"railbook/rules/measure"
	"railbook/validate"
	"railbook/workbook/record"
	"railbook/workbook/sheets/kit"
)

// reviewLimits gathers which rows of the Judge review sheet take which kind of value, and then sets the drop-downs and
// entry limits of them all.
type reviewLimits struct {
	limits map[limitKey]rules.Limit
	rows   map[limitKey][]int
	keys   []limitKey // in order of first use, so that the same results give the same sheet
	others []int      // the rows of two cells that look exchanged
	first  int        // the first row of the judge's own calls
	last   int
	names  []string // of the classes
}

type limitKey struct {
	species rules.Species
	measure measure.ID
}

func newReviewLimits(book *rules.Rulebook) *reviewLimits {
	l := &reviewLimits{limits: make(map[limitKey]rules.Limit), rows: make(map[limitKey][]int)}
	for _, limit := range book.Limits {
		l.limits[limitKey{limit.Species, limit.Measure}] = limit
	}
	return l
}

// of gives the bounds outside which a corrected value cannot be true; empty where the rulebook has none.
func (l *reviewLimits) of(species rules.Species, id measure.ID) (lowest, highest string) {
	limit := l.limits[limitKey{species, id}]
	if limit.HoldBelow.Valid {
		lowest = limit.HoldBelow.Decimal.String()
	}
	if limit.HoldAbove.Valid {
		highest = limit.HoldAbove.Decimal.String()
	}
	return lowest, highest
}

func (l *reviewLimits) use(species rules.Species, id measure.ID, row int, exchange bool) {
	if exchange {
		l.others = append(l.others, row)
	}
	key := limitKey{species, id}
	if l.rows[key] == nil {
		l.keys = append(l.keys, key)
	}
	l.rows[key] = append(l.rows[key], row)
}

func (l *reviewLimits) useCalls(first, last int, classes []string) {
	l.first, l.last, l.names = first, last, classes
}

// add puts the drop-downs and limits on the sheet.
func (l *reviewLimits) add(p *kit.Page) {
	var every []int
	for _, key := range l.keys {
		every = append(every, l.rows[key]...)
		l.corrected(p, key)
	}
	slices.Sort(every)
	every = slices.DeleteFunc(every, func(row int) bool { return slices.Contains(l.others, row) })
	choices := []string{string(validate.Accept), string(validate.Correct), string(validate.LeaveOut)}
	p.DropDown(reviewDecision, every, choices, "Decision", "Choose one: "+strings.Join(choices, ", ")+".")
	choices = append([]string{string(validate.Exchange)}, choices...)
	p.DropDown(reviewDecision, l.others, choices, "Decision", "Choose one: "+strings.Join(choices, ", ")+".")
	calls := hiddenFrom(l.first, l.last)
	p.DropDown(reviewDecision, calls, []string{record.QualityCall, record.LoweringCall, record.PlaceCall}, "Your call",
		"Choose what you call, then give it under Corrected value.")
	if len(strings.Join(l.names, ",")) < 250 && !strings.Contains(strings.Join(l.names, ""), ",") {
		p.DropDown(reviewClass, calls, l.names, "Class", "Choose the class of the carcass.")
	}
}

// corrected sets what may be entered as the corrected value of a measure.
func (l *reviewLimits) corrected(p *kit.Page, key limitKey) {
	definition, known := measure.Define(key.measure)
	if !known {
		return
	}
	rows, title := l.rows[key], definition.Heading
	switch definition.Kind {
	case measure.KindNumber:
		lowest, highest := l.of(key.species, key.measure)
		p.NumberLimit(reviewCorrected, rows, lowest, highest, definition)
	case measure.KindMark:
		if key.measure == measure.DarkCutter {
			p.DropDown(reviewCorrected, rows, []string{"no", "yes", "yes, 0", "yes, 1/3", "yes, 1/2", "yes, 2/3", "yes, full"}, title,
				"no; or yes and how far the grade is lowered")
			return
		}
		p.DropDown(reviewCorrected, rows, []string{"yes", "no"}, title, "yes or no")
	case measure.KindLowering:
		p.DropDown(reviewCorrected, rows, []string{"0", "1/3", "1/2", "2/3", "full"}, title, "How far the grade is lowered.")
	case measure.KindMarbling:
		p.Prompt(reviewCorrected, rows, title, "A degree and how far into it, such as Small 40, or a number such as 440.")
	case measure.KindMaturity:
		p.Prompt(reviewCorrected, rows, title, "A group and how far into it, such as A60.")
	case measure.KindDate:
		p.Prompt(reviewCorrected, rows, title, "A date such as 2025-06-30.")
	case measure.KindGrade:
		p.Prompt(reviewCorrected, rows, title, "A grade with its third, such as Low Choice.")
	}
}
