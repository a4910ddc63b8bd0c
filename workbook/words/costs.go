package words

import (
	"fmt"

	"railbook/grading"
	"railbook/grading/whatif"
	"railbook/rules/measure"
	"railbook/rules/phrase"
)

// Cost says to a family what one thing about a carcass took off its value or its grade.
func Cost(c whatif.Cost) string {
	name := phrase.Capital(c.Measure.String())
	beside := ""
	if read, other := grading.Say(c.Measure, c.Read), costBeside(c); read != "" && other != "" {
		name += ", " + read + ","
		beside = ", set beside " + other
	}
	took := ""
	if c.Worth.Valid {
		took = " took off " + grading.SayNumber(measure.CarcassValue, c.Worth.Decimal)
	}
	switch {
	case c.Becomes != "" && took != "":
		return fmt.Sprintf("%s%s%s: the grade is %s and not %s.", name, took, beside, c.Was, c.Becomes)
	case c.Becomes != "":
		return fmt.Sprintf("%s made the grade %s and not %s%s.", name, c.Was, c.Becomes, beside)
	}
	return name + took + beside + "."
}

// costBeside says what a carcass was held beside; nothing for a mark, which is there or is not.
func costBeside(c whatif.Cost) string {
	switch kind := grading.DefinitionOf(c.Measure).Kind; {
	case kind == measure.KindMark:
		return ""
	case kind == measure.KindMaturity:
		return "the youngest"
	case kind == measure.KindLowering:
		return "no lowering"
	case c.Measure == measure.InternalFat:
		return "the customary " + grading.SayNumber(c.Measure, c.Beside)
	}
	return "a score of " + c.Beside.String()
}
