package reading

import (
	"fmt"
	"regexp"

	"railbook/grading"
	"railbook/rules"
	"railbook/validate"
)

// conditions are what a remark may say of a carcass that decides more than a measurement. A mark is the plant's or the
// judge's to make: a remark only raises the question.
var conditions = []struct {
	measure rules.Measure
	level   validate.Level
	pattern *regexp.Regexp
}{
	{rules.Condemned, validate.Hold, regexp.MustCompile(`(?i)\bcondemn`)},
	{rules.Retained, validate.Hold, regexp.MustCompile(`(?i)\bretain(?:ed)?\b|\bheld (?:by|for) `)},
	{rules.DarkCutter, validate.Look, regexp.MustCompile(`(?i)\bdark[ -]*cut|\bdark lean\b|^dark$|\bDC\b`)},
	{rules.Trimmed, validate.Look, regexp.MustCompile(`(?i)\btrim(?:med|ming)?\b|\btrim loss\b`)},
	{rules.HotCarcassWeight, validate.Look, regexp.MustCompile(`(?i)\b(?:cooler|cold|chill(?:ed)?)[ -]*(?:carc(?:ass)?[ .]*)?(?:wt|weight)`)},
	{rules.Tag, validate.Look, regexp.MustCompile(`(?i)\btags?\b`)},
	{rules.BloodSplash, validate.Look, regexp.MustCompile(`(?i)\bblood[ -]?(?:splash|spot|shot)|\becchymosis\b`)},
}

var negated = regexp.MustCompile(`(?i)\b(?:not?|non|without|never)\b[^,;.]{0,20}$`)

// conditionsIn raises every condition that a remark names and no mark has said already.
func (tr *tableReader) conditionsIn(carcass *grading.Carcass, remark grading.Reading) {
	for _, condition := range conditions {
		at := condition.pattern.FindStringIndex(remark.Written)
		if at == nil || negated.MatchString(remark.Written[:at[0]]) {
			continue
		}
		finding := validate.Finding{
			Level: condition.level, Code: "remark names a condition", At: remark.Place, Measure: condition.measure, Read: remark.Written,
			Message: fmt.Sprintf("the remark %s names a condition: %s. %s", quote(remark.Written), condition.measure, whatToDo(condition.level, condition.measure)),
			Hint:    "yes", Carcass: carcass,
		}
		if condition.measure == rules.HotCarcassWeight {
			finding.Hint = ""
			finding.Message = fmt.Sprintf("the remark %s says that this carcass was weighed cold. If so, correct its hot carcass weight.", quote(remark.Written))
		}
		if condition.measure == rules.Tag {
			finding.Hint = ""
			finding.Message = fmt.Sprintf("the remark %s speaks of the tag. If this is another animal's tag, correct it; otherwise accept as is.", quote(remark.Written))
		}
		tr.remarks = append(tr.remarks, finding)
	}
}

func whatToDo(level validate.Level, measure rules.Measure) string {
	if level == validate.Hold {
		return "The plant's inspector decides; the carcass is not placed until the judge says that it was released."
	}
	return "If it is so, mark it: correct " + string(measure) + " to yes; otherwise accept as is."
}

// raiseRemarks reports the conditions that no mark of the carcass has answered.
func (r *reader) raiseRemarks() {
	for _, finding := range r.remarks {
		mark, marked := finding.Carcass.Reading(finding.Measure)
		if marked && finding.Measure != rules.HotCarcassWeight && mark.Value.Number.Sign() > 0 {
			continue
		}
		r.find(finding)
	}
}
