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
	if c.Read != "" && c.Else != "" {
		name += ", " + c.Read + ","
		beside = ", set beside " + c.Else
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
