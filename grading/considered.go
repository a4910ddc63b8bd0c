package grading

import (
	"railbook/rules"
	"railbook/rules/measure"
)

// Considered gives the readings that a figure of a species does without, and that move it where they are there: firmness, color and
// wetness for the pork carcass grade.
func Considered(species rules.Species, basis rules.Basis, id measure.ID) (readings []measure.ID) {
	plan := planFor(species, basis)
	if plan == nil {
		return nil
	}
	definition, _ := plan.Define(id)
	if definition == nil {
		return nil
	}
	ways, _ := definition.Rule.(Arithmetic)
	for _, way := range ways {
		for _, operand := range way.needs {
			if reading, ok := operand.(considered); ok {
				readings = append(readings, measure.ID(reading))
			}
		}
		readings = append(readings, way.weighs...)
	}
	return readings
}
