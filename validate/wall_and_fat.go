package validate

import (
	"railbook/rules/measure"
)

// wallAndFat holds a carcass whose body wall is no thicker than the fat over its ribeye: the wall is lean, bone and fat,
// so one of the two is wrong. No true carcass is named.
func wallAndFat(s *checker) []Finding {
	var findings []Finding
	for _, r := range s.rows {
		wall, hasWall := r.Value(measure.BodyWallThickness)
		fat, hasFat := r.number(measure.AdjustedFat)
		if !hasFat {
			fat, hasFat = r.number(measure.MeasuredFat)
		}
		if !hasWall || !hasFat || wall.Number.GreaterThan(fat) || !r.sound(measure.BodyWallThickness, measure.AdjustedFat) {
			continue
		}
		words := "the body wall " + withUnit(wall.Number, measure.BodyWallThickness) + " must be thicker than the fat " + withUnit(fat, measure.AdjustedFat) + " that is part of it"
		fatCell, _ := r.cellOf(measure.AdjustedFat)
		likely, ok := s.likeliest(r, measure.BodyWallThickness, fatCell)
		if !ok {
			finding := s.about(Hold, "body wall no thicker than fat", r, measure.BodyWallThickness)
			finding.Doubts = r.cellsOf(measure.AdjustedFat)
			findings = append(findings, finding.say(words+"."+correctIt))
			continue
		}
		finding := s.about(Hold, "body wall no thicker than fat", r, likely.measure)
		finding.Hint = likely.value.String()
		findings = append(findings, finding.say(words+"; the "+called(likely.measure)+" "+likely.meant()+"."+correctIt))
	}
	return findings
}
