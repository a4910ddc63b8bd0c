package workbook

import (
	"fmt"
	"slices"

	"railbook/grading/placing"
	"railbook/rules"
	"railbook/rules/address"
	"railbook/rules/measure"
	"railbook/validate"
	"railbook/workbook/intake"
	"railbook/workbook/record"
)

// decisionsNow joins what the judge wrote on the Judge review sheet with what was decided before, so that there is one decision
// about a cell: one that stands unchanged keeps what it was made about; another one in its row knows which cells the earlier
// one has changed; and one whose row was cleared is withdrawn. A row that was taken out of the sheet withdraws nothing.
func decisionsNow(kept, written, asked []validate.Decision) (decisions []validate.Decision) {
	before := make(map[intake.Decided]*validate.Decision)
	for i := range kept {
		before[intake.DecidedBy(&kept[i])] = &kept[i]
	}
	seen := make(map[intake.Decided]bool)
	for _, decision := range written {
		about := intake.DecidedBy(&decision)
		was := before[about]
		seen[about] = true
		switch {
		case was == nil:
		case same(&decision, was):
			unchanged := *was
			unchanged.At, unchanged.Refused, unchanged.Waiting, unchanged.Why = decision.At, decision.Refused, decision.Waiting, decision.Why
			decision = unchanged
		case decision.Choice == validate.Withdraw, decision.Choice == "" && decision.Value == "":
			at := decision.At
			decision = withdrawn(*was, decision.Initials, decision.Date)
			decision.At = at
		default:
			decision.Puts, decision.Applied = was.Puts, false
		}
		decisions = append(decisions, decision)
	}
	there := make(map[intake.Decided]bool)
	for i := range asked {
		there[intake.DecidedBy(&asked[i])] = true
	}
	for i := range kept {
		about := intake.DecidedBy(&kept[i])
		switch {
		case seen[about] || before[about] != &kept[i]:
		case kept[i].Code == record.JudgesCall && len(kept[i].Puts) == 0: // it stood beside the data and is gone with its row
		case there[about], kept[i].Code == record.JudgesCall:
			decisions = append(decisions, withdrawn(kept[i], "", ""))
		default:
			decisions = append(decisions, kept[i])
		}
	}
	return decisions
}

// untilConfirmed is why a decision waits whose record is gone.
const untilConfirmed = "the record of what was decided is gone, so this waits until it is confirmed; write \"confirmed\" as its remark"

// toBeConfirmed lets decisions wait that were read from the review sheet alone.
func (j *job) toBeConfirmed() {
	lost := j.previous.Damage != nil && len(j.previous.Readings) == 0
	for d := range j.results.Decisions {
		decision := &j.results.Decisions[d]
		kept := slices.IndexFunc(j.previous.Kept, func(was validate.Decision) bool {
			return was.Why == untilConfirmed && intake.DecidedBy(&was) == intake.DecidedBy(decision) && same(decision, &was)
		})
		if !decision.Refused && decision.Choice != validate.Withdraw && (lost || kept >= 0) {
			j.refuse(decision, untilConfirmed)
		}
	}
}

// forgetWithdrawn takes out what is said about rows without a choice where that takes an earlier decision back.
func (j *job) forgetWithdrawn() {
	j.results.Findings = slices.DeleteFunc(j.results.Findings, func(finding validate.Finding) bool {
		return finding.Code == record.NotApplied && slices.ContainsFunc(j.results.Decisions, func(decision validate.Decision) bool {
			return decision.Choice == validate.Withdraw && decision.At.Cell != "" && decision.At.Sheet == finding.At.Sheet && rowNumber(decision.At) == rowNumber(finding.At)
		})
	})
}

// same reports whether a decision stands in its row as it was kept.
func same(now, was *validate.Decision) bool {
	return now.Alike(was) && now.Initials == was.Initials && now.Remark == was.Remark && now.Date == was.Date
}

// withdrawn takes a decision back. Whoever did it may have left initials in the row.
func withdrawn(decision validate.Decision, initials, date string) validate.Decision {
	if decision.Choice == validate.Withdraw {
		return decision
	}
	decision.Why = decision.Words()
	if decision.Initials != "" {
		decision.Why += ", by " + decision.Initials
	}
	decision.Choice, decision.Value, decision.Then, decision.Remark = validate.Withdraw, "", "", ""
	decision.Initials, decision.Date, decision.Applied, decision.Refused = initials, date, false, false
	return decision
}

// refuseContradictions refuses decisions about one measure of a carcass that differ, and names the rows of both; of equal
// ones the first counts.
func (j *job) refuseContradictions() {
	decisions := j.results.Decisions
	about := make(map[intake.Decided][]int)
	drop := make([]bool, len(decisions))
	for d := range decisions {
		decision := &decisions[d]
		if decision.Choice == validate.Withdraw || decision.Measure == measure.None && decision.Code == record.JudgesCall {
			continue
		}
		bucket := intake.DecidedBy(decision)
		bucket.Found = rules.Place{}
		for _, known := range about[bucket] {
			other := &decisions[known]
			sameCell := other.Found == decision.Found || other.Code == record.JudgesCall || decision.Code == record.JudgesCall
			switch {
			case !sameCell:
			case decision.Alike(other):
				drop[d] = true
			default:
				j.refuse(decision, fmt.Sprintf("%s says %q about the same cell, and this row says %q; clear one of the two", rowWords(other.At), other.Words(), decision.Words()))
				if !other.Refused {
					j.refuse(other, fmt.Sprintf("%s says %q about the same cell, and this row says %q; clear one of the two", rowWords(decision.At), decision.Words(), other.Words()))
				}
			}
		}
		about[bucket] = append(about[bucket], d)
	}
	kept := decisions[:0:0]
	for d := range decisions {
		if !drop[d] {
			kept = append(kept, decisions[d])
		}
	}
	j.results.Decisions = kept
}

// rowNumber is the row of a cell.
func rowNumber(at rules.Place) int {
	_, row, _ := address.Parse(at.Cell) // 0 for none
	return row
}

// refuseRulings refuses two differing places that the judge gave one carcass; of equal ones the first counts. What was refused
// stays among the judge's own calls.
func (j *job) refuseRulings() {
	places := make(map[name][]placing.Ruling)
	var order []name
	for _, ruling := range j.results.Rulings {
		of := name{ruling.Class, ruling.Tag}
		if places[of] == nil {
			order = append(order, of)
		}
		if !slices.ContainsFunc(places[of], func(known placing.Ruling) bool { return known.Place == ruling.Place }) {
			places[of] = append(places[of], ruling)
		}
	}
	j.results.Rulings = nil
	for _, of := range order {
		if len(places[of]) == 1 {
			j.results.Rulings = append(j.results.Rulings, places[of][0])
			continue
		}
		for _, ruling := range places[of] {
			j.results.Decisions = append(j.results.Decisions, validate.Decision{
				Tag: of.tag, Class: of.class, Code: record.JudgesCall, Was: record.CallRow, Choice: record.PlaceCall, Value: fmt.Sprint(ruling.Place),
				Initials: ruling.Initials, Remark: ruling.Reason, Date: ruling.Date, At: rules.Place{Sheet: record.JudgeReviewSheet}, Level: validate.Look,
			})
			j.refuse(&j.results.Decisions[len(j.results.Decisions)-1],
				fmt.Sprintf("places %d and %d are both given to this carcass; clear one of the two rows", places[of][0].Place, places[of][1].Place))
		}
	}
}
