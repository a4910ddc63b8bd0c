package intake

import (
	"slices"

	"railbook/rules"
	"railbook/rules/measure"
	"railbook/validate"
)

// Decided is what a decision is about: a carcass and a measure at a cell; where there is no measure or no carcass, a kind of
// finding. One row of the Judge review sheet asks about it.
type Decided struct {
	Class, Tag string
	Measure    measure.ID
	Code       string
	Found      rules.Place
}

// DecidedBy gives what a decision is about.
func DecidedBy(decision *validate.Decision) Decided {
	about := Decided{decision.Class, decision.Tag, decision.Measure, decision.Code, decision.Found}
	if decision.Measure != measure.None && (decision.Tag != "" || decision.Class != "") {
		about.Code = ""
	}
	return about
}

// strength orders choices: the strongest of several about one cell is the one that takes effect.
var strength = map[validate.Choice]int{validate.LeaveOut: 3, validate.Exchange: 2, validate.Correct: 2, validate.Accept: 1}

// oneForACell joins decisions of a workbook made before, which asked about a cell in several rows, so that there is one for
// each measure of a carcass: the strongest, which answers what all of them were asked.
func oneForACell(decisions []validate.Decision) []validate.Decision {
	var joined []validate.Decision
	for _, decision := range decisions {
		at := slices.IndexFunc(joined, func(known validate.Decision) bool {
			return known.Class == decision.Class && known.Tag == decision.Tag && known.Measure == decision.Measure && known.Found.Sheet == decision.Found.Sheet &&
				known.Measure != measure.None && known.Measure != measure.Tag && known.Tag != "" && !known.Refused && !decision.Refused
		})
		if at < 0 {
			joined = append(joined, decision)
			continue
		}
		other := joined[at]
		if strength[decision.Choice] > strength[other.Choice] {
			decision, other = other, decision
			joined[at] = other
		}
		joined[at].Also = append(joined[at].Also, validate.Asked{Code: decision.Code, Read: decision.Was})
	}
	return joined
}
