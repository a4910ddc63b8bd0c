package validate

// ownFiguresThroughout says once for a sheet that its own figures as a whole are worked out otherwise than ours, instead of once
// for every row.
func ownFiguresThroughout(s *survey) []Finding {
	var findings []Finding
	for i := range s.Sheets {
		sheet := &s.Sheets[i]
		for i := range ownFigures {
			own := &ownFigures[i]
			at, has := sheet.Columns[own.sheet]
			if !has || !s.unlikeOurs(sheet, own) {
				continue
			}
			finding := Finding{Level: Look, Code: "sheet's own " + own.computed.String() + " disagrees throughout", At: at, Measure: own.sheet}
			findings = append(findings, finding.say("the sheet's own "+own.computed.String()+
				" disagrees with the computed one in more than a third of the carcasses, so it is worked out otherwise or a whole column is "+
				"wrong. Ask the plant how it is worked out; it is not used to check single carcasses."))
		}
	}
	return findings
}
