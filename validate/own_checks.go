package validate

import "railbook/rules"

// ownYieldGrade has the judge look at a carcass whose own yield grade, as the sheet has it, its measures do not give.
func ownYieldGrade(s *survey) []Finding { return s.ownFigure(ownFigures[0]) }

// ownCutability does so for the sheet's own cutability.
func ownCutability(s *survey) []Finding { return s.ownFigure(ownFigures[1]) }

// ownDressingPercent does so for the sheet's own dressing percent.
func ownDressingPercent(s *survey) []Finding { return s.ownFigure(ownFigures[2]) }

// ownQualityGrade does so for the sheet's own quality grade.
func ownQualityGrade(s *survey) []Finding { return s.ownFigure(ownFigures[3]) }

// ownFigure names the carcasses one of whose own figures disagrees with the computed one, with the slip in a measure that
// would bring them together. A true row with a rightly computed figure is never named.
func (s *survey) ownFigure(own ownFigure) []Finding {
	var findings []Finding
	for _, r := range s.rows {
		if s.compareOwn(r, own) != disagrees || !r.sound(append(own.from, own.sheet)...) {
			continue
		}
		written := r.Readings[own.sheet].Value
		computed, _ := r.Figure(own.computed)
		words := "the sheet has " + string(own.computed) + " " + written.Text + ", but its measures give " +
			s.printed(computed, own.computed)
		code := "sheet's own " + string(own.computed) + " disagrees"
		if likely, ok := s.reconciling(r, own); ok {
			finding := s.about(Look, code, r, likely.measure)
			finding.Hint = likely.value.Number.String()
			findings = append(findings, finding.say(words+"; they would agree if "+called(likely.measure)+" "+
				r.Readings[likely.measure].Value.Number.String()+" is "+likely.meant()+"."+correctIt))
			continue
		}
		findings = append(findings, s.about(Look, code, r, own.sheet).say(words+". One of the measures or the sheet's own figure is wrong."+correctIt))
	}
	return findings
}

// reconciling gives the likeliest slip that makes the sheet's own figure and the computed one agree.
func (s *survey) reconciling(r *row, own ownFigure) (explanation, bool) {
	var cells []rules.Measure
	for _, measure := range own.from {
		if cell, ok := r.cellOf(measure); ok {
			cells = append(cells, cell)
		}
	}
	likely, ok := s.likeliest(r, cells...)
	if !ok {
		return explanation{}, false
	}
	mended := s.with(r, map[rules.Measure]rules.Value{likely.measure: likely.value})
	return likely, s.compareOwn(mended, own) == agrees
}

// printed writes a figure as it is shown: grades in words, numbers to the measure's decimals.
func (s *survey) printed(value rules.Value, measure rules.Measure) string {
	if definition, _ := rules.Define(measure); definition.Kind != rules.KindNumber {
		return value.Text
	}
	return rounded(value.Number, measure)
}

// sheetFigures says once for a sheet that its own figures as a whole are worked out otherwise than ours, instead of once
// for every row.
func sheetFigures(s *survey) []Finding {
	var findings []Finding
	for i := range s.Sheets {
		sheet := &s.Sheets[i]
		for _, own := range ownFigures {
			at, has := sheet.Columns[own.sheet]
			if !has || !s.unlikeOurs(sheet, own) {
				continue
			}
			finding := Finding{Level: Look, Code: "sheet's own " + string(own.computed) + " disagrees throughout", At: at, Measure: own.sheet}
			findings = append(findings, finding.say("the sheet's own "+string(own.computed)+
				" disagrees with the computed one in more than a third of the carcasses, so it is worked out otherwise or a whole column is "+
				"wrong. Ask the plant how it is worked out; it is not used to check single carcasses."))
		}
	}
	return findings
}
