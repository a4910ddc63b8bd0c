package intake

import (
	"fmt"
	"strconv"
	"strings"

	"railbook/grading/placing"
	"railbook/rules"
	"railbook/rules/measure"
	"railbook/validate"
)

// call reads one of the judge's own calls: a quality grade, a dark-cutter lowering, or a place.
func (r *review) call(row ourRow) {
	class, tag := row.typed(ClassColumn), row.typed(TagColumn)
	if row.text(KeyRowColumn) == TieRow {
		class, tag = row.text(KeyClassColumn), row.text(KeyTagColumn)
	}
	class, tag, problem := r.carcassKnown(class, tag)
	at := row.place(TagColumn)
	switch what := strings.ToLower(strings.Join(strings.Fields(row.typed(DecisionColumn)), " ")); what {
	case PlaceCall:
		r.rule(row, class, tag, problem)
	case QualityCall:
		r.callValue(row, class, tag, measure.QualityGrade, problem)
	case LoweringCall:
		r.callValue(row, class, tag, measure.DarkCutterLowering, problem)
	default:
		if what != "" {
			problem, at = fmt.Sprintf("%q is not a call; choose %s, %s or %s", row.typed(DecisionColumn), QualityCall, LoweringCall, PlaceCall), row.place(DecisionColumn)
		} else if problem == "" {
			problem, at = fmt.Sprintf("nothing is called; choose %s, %s or %s", QualityCall, LoweringCall, PlaceCall), row.place(DecisionColumn)
		}
		r.keepCall(row, class, tag, problem, at)
	}
}

// keepCall keeps a call that cannot be used, so that the judge finds it on the next sheet with what is wrong.
func (r *review) keepCall(row ourRow, class, tag, problem string, at rules.Place) {
	r.refuse(class, tag, measure.None, row.typed(CorrectedColumn), problem, at)
	r.decisions = append(r.decisions, validate.Decision{
		Tag: tag, Class: class, Code: JudgesCall, Was: row.text(KeyRowColumn), Choice: validate.Choice(row.typed(DecisionColumn)),
		Value: row.typed(CorrectedColumn), Initials: row.typed(InitialsColumn), Remark: row.typed(RemarkColumn), Date: row.typed(DateColumn),
		At: row.place(DecisionColumn), Level: validate.Look, Refused: true,
	})
}

// rule reads a place that the judge gives, to break a tie or against the rule.
func (r *review) rule(row ourRow, class, tag, problem string) {
	ruling := placing.Ruling{Class: class, Tag: tag, Reason: row.typed(RemarkColumn), Initials: row.typed(InitialsColumn), Date: row.typed(DateColumn)}
	written := row.typed(CorrectedColumn)
	at := row.place(TagColumn)
	place, err := strconv.Atoi(written)
	switch {
	case problem != "":
	case written == "":
		problem, at = "no place is given; write the place as a whole number", row.place(CorrectedColumn)
	case err != nil || place < 1:
		problem, at = fmt.Sprintf("the place %q is not a whole number from 1; write the place", written), row.place(CorrectedColumn)
	case ruling.Initials == "":
		problem, at = "the judge's initials are missing; a call counts only with them", row.place(InitialsColumn)
	case ruling.Reason == "" && row.text(KeyRowColumn) == CallRow:
		problem, at = "a place given against the rule needs a reason, which is printed; write it", row.place(RemarkColumn)
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
		Tag: tag, Class: class, Measure: id, Code: JudgesCall, Choice: validate.Correct, Value: row.typed(CorrectedColumn),
		Initials: row.typed(InitialsColumn), Remark: row.typed(RemarkColumn), Date: row.typed(DateColumn), At: row.place(DecisionColumn),
		Level: validate.Look, Message: "The judge's own call.",
	}
	at := row.place(TagColumn)
	switch {
	case problem != "":
	case decision.Value == "":
		problem, at = "no value is given; write the grade or the lowering", row.place(CorrectedColumn)
	case decision.Initials == "":
		problem, at = "the judge's initials are missing; a call counts only with them", row.place(InitialsColumn)
	default:
		if _, err := ReadValue(id, decision.Value, r.book); err != nil {
			problem, at = err.Error(), row.place(CorrectedColumn)
		}
	}
	r.add(decision, problem, at)
}
