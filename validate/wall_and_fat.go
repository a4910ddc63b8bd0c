package validate

import "railbook/rules"

const bodyWall rules.Measure = "body wall thickness"

// wallAndFat holds a carcass whose body wall is no thicker than the fat over its ribeye: the wall is lean, bone and fat,
// so one of the two is wrong. No true carcass is named.
func wallAndFat(s *survey) []Finding {
	var findings []Finding
	for _, r := range s.rows {
		wall, hasWall := r.Reading(bodyWall)
		fat, hasFat := r.number(rules.AdjustedFat)
		if !hasFat {
			fat, hasFat = r.number(rules.MeasuredFat)
		}
		if !hasWall || !hasFat || wall.Value.Number.GreaterThan(fat) || !r.sound(bodyWall, rules.AdjustedFat) {
			continue
		}
		words := "the body wall " + withUnit(wall.Value.Number, bodyWall) + " must be thicker than the fat " + withUnit(fat, rules.AdjustedFat) + " that is part of it"
		fatCell, _ := r.cellOf(rules.AdjustedFat)
		likely, ok := s.likeliest(r, bodyWall, fatCell)
		if !ok {
			findings = append(findings, s.about(Hold, "body wall no thicker than fat", r, bodyWall).say(words+"."+correctIt))
			continue
		}
		finding := s.about(Hold, "body wall no thicker than fat", r, likely.measure)
		finding.Hint = likely.value.String()
		findings = append(findings, finding.say(words+"; the "+called(likely.measure)+" "+likely.meant()+"."+correctIt))
	}
	return findings
}
