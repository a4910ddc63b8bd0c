package intake

import (
	"fmt"
	"strconv"
	"strings"

	"railbook/grading/placing"
	"railbook/rules"
	"railbook/rules/measure"
	"railbook/validate"
	"railbook/workbook/record"
)

// call reads one of the judge's own calls: a quality grade, a dark-cutter lowering, or a place.
func (r *review) call(row ourRow) {
	class, tag := row.typed(record.ClassColumn), row.typed(record.TagColumn)
	if row.text(record.KeyRowColumn) == record.TieRow {
		class, tag = row.text(record.KeyClassColumn), row.text(record.KeyTagColumn)
	}
	class, tag, problem := r.carcassKnown(class, tag)
	at := row.place(record.TagColumn)
	switch what := strings.ToLower(strings.Join(strings.Fields(row.typed(record.DecisionColumn)), " ")); what {
	case record.PlaceCall:
		r.rule(row, class, tag, problem)
	case record.QualityCall:
		r.callValue(row, class, tag, measure.QualityGrade, problem)
	case record.LoweringCall:
		r.callValue(row, class, tag, measure.DarkCutterLowering, problem)
	default:
		if what != "" {
			problem, at = fmt.Sprintf("%q is not a call; choose %s, %s or %s", row.typed(record.DecisionColumn), record.QualityCall, record.LoweringCall, record.PlaceCall), row.place(record.DecisionColumn)
		} else if problem == "" {
			problem, at = fmt.Sprintf("nothing is called; choose %s, %s or %s", record.QualityCall, record.LoweringCall, record.PlaceCall), row.place(record.DecisionColumn)
		}
		r.keepCall(row, class, tag, problem, at)
	}
}

// keepCall keeps a call that cannot be used, so that the judge finds it on the next sheet with what is wrong.
func (r *review) keepCall(row ourRow, class, tag, problem string, at rules.Place) {
	r.refuse(class, tag, measure.None, row.typed(record.CorrectedColumn), problem, at)
	r.decisions = append(r.decisions, validate.Decision{
		Tag: tag, Class: class, Code: record.JudgesCall, Was: row.text(record.KeyRowColumn), Choice: validate.Choice(row.typed(record.DecisionColumn)),
		Value: row.typed(record.CorrectedColumn), Initials: row.typed(record.InitialsColumn), Remark: row.typed(record.RemarkColumn), Date: row.typed(record.DateColumn),
		At: row.place(record.DecisionColumn), Level: validate.Look, Refused: true, Why: problem,
	})
}

// rule reads a place that the judge gives, to break a tie or against the rule.
func (r *review) rule(row ourRow, class, tag, problem string) {
	ruling := placing.Ruling{Class: class, Tag: tag, Reason: row.typed(record.RemarkColumn)}
	ruling.Initials, ruling.Date = r.initialsOf(row)
	written := row.typed(record.CorrectedColumn)
	at := row.place(record.TagColumn)
	place, err := strconv.Atoi(written)
	switch {
	case problem != "":
	case written == "":
		problem, at = "no place is given; write the place as a whole number", row.place(record.CorrectedColumn)
	case err != nil || place < 1:
		problem, at = fmt.Sprintf("the place %q is not a whole number from 1; write the place", written), row.place(record.CorrectedColumn)
	case ruling.Initials == "":
		problem, at = "the judge's initials are missing; a call counts only with them", row.place(record.InitialsColumn)
	case ruling.Reason == "" && row.text(record.KeyRowColumn) == record.CallRow:
		problem, at = "a place given against the rule needs a reason, which is printed; write it", row.place(record.RemarkColumn)
	}
	if problem != "" {
		r.keepCall(row, class, tag, problem, at)
		return
	}
	ruling.Place = place
	r.rulings = append(r.rulings, ruling)
}

// callValue reads a quality grade or a dark-cutter lowering of the judge's own.
func (r *review) callValue(row ourRow, class, tag string, id measure.ID, problem string) {
	decision := validate.Decision{
		Tag: tag, Class: class, Measure: id, Code: record.JudgesCall, Choice: validate.Correct, Value: row.typed(record.CorrectedColumn),
		Remark: row.typed(record.RemarkColumn), At: row.place(record.DecisionColumn), Level: validate.Look, Message: "The judge's own call.",
	}
	decision.Initials, decision.Date = r.initialsOf(row)
	at := row.place(record.TagColumn)
	switch {
	case problem != "":
	case decision.Value == "":
		problem, at = "no value is given; write the grade or the lowering", row.place(record.CorrectedColumn)
	case decision.Initials == "":
		problem, at = "the judge's initials are missing; a call counts only with them", row.place(record.InitialsColumn)
	default:
		if _, err := ReadValue(id, decision.Value, r.book); err != nil {
			problem, at = err.Error(), row.place(record.CorrectedColumn)
		}
	}
	r.add(decision, problem, at)
}
