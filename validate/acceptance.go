package validate

import (
	"strings"

	"railbook/rules/measure"
)

// markBounds says of holds what a judge may do with them: past what the rulebook holds possible a value is accepted only with
// a remark; what cannot be true of any animal (below zero, a carcass as heavy as the live animal, a score outside its scale)
// never is.
func markBounds(findings []Finding, check string) {
	possible := strings.HasPrefix(check, "impossible") || check == "values exchanged"
	for i := range findings {
		finding := &findings[i]
		if finding.Level != Hold || finding.Carcass == nil {
			continue
		}
		value, read := finding.Carcass.Reading(finding.Measure)
		definition, _ := measure.Define(finding.Measure)
		score := definition.Unit == "" && definition.Kind != measure.KindText && definition.Kind != measure.KindMark
		carcass, weighed := finding.Carcass.Reading(measure.HotCarcassWeight)
		live, alive := finding.Carcass.Reading(measure.LiveWeight)
		heavier := weighed && alive && carcass.Value.Number.GreaterThanOrEqual(live.Value.Number)
		switch {
		case check == "score off the scale", check == "carcass heavier than live", check == "values exchanged" && heavier:
			finding.Never = true
		case check == "impossible value" && read && (value.Value.Number.IsNegative() || score):
			finding.Never = true
		}
		finding.Beyond = possible || finding.Never
	}
}
