package validate

import (
	"railbook/rules/measure"
)

// weightsExchanged holds, at both cells, a carcass whose live weight and carcass weight stand in each other's columns: the carcass weighs
// more than the live animal, and exchanged the two make a usual dressing percent. It can't be raised by a true row, since
// no carcass outweighs the animal.
func weightsExchanged(s *survey) []Finding {
	var findings []Finding
	for _, r := range s.rows {
		carcass, hasCarcass := r.Reading(measure.HotCarcassWeight)
		live, hasLive := r.Reading(measure.LiveWeight)
		if !hasCarcass || !hasLive || carcass.Value.Number.LessThanOrEqual(live.Value.Number) ||
			!r.sound(measure.HotCarcassWeight, measure.LiveWeight) {
			continue
		}
		mended := s.with(r, map[measure.ID]measure.Value{
			measure.HotCarcassWeight: live.Value, measure.LiveWeight: carcass.Value,
		})
		percent, ok := mended.number(measure.DressingPercent)
		limit, limited := r.limit(measure.DressingPercent)
		if !ok || !limited || limit.judge(percent) != "" {
			continue
		}
		ending := ": the other way round the dressing percent is " + rounded(percent, measure.DressingPercent) +
			". Correct both cells or mark both in the Judge review sheet."
		first := s.about(Hold, "live and carcass weight exchanged", r, measure.HotCarcassWeight)
		first.Hint = live.Value.Number.String()
		second := s.about(Hold, "live and carcass weight exchanged", r, measure.LiveWeight)
		second.Hint = carcass.Value.Number.String()
		findings = append(
			findings,
			first.say("the carcass weight "+carcass.Value.Number.String()+" and the live weight "+live.Value.Number.String()+
				" in cell "+live.Place.Cell+" look exchanged"+ending),
			second.say("the live weight "+live.Value.Number.String()+" and the carcass weight "+carcass.Value.Number.String()+
				" in cell "+carcass.Place.Cell+" look exchanged"+ending),
		)
	}
	return findings
}
