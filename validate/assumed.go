package validate

import (
	"slices"
	"strconv"
	"strings"

	"railbook/rules"
	"railbook/rules/measure"
	"railbook/rules/phrase"
)

// assumption is something the grades need and may be assumed where it is not given.
type assumption struct {
	code     string
	measures []measure.ID // any of which says it
	figure   measure.ID   // which the carcass has all the same where it is assumed
	sheet    string       // what is said of a sheet that does not say it at all
	sheets   string       // what is said once of several such sheets, behind their names; empty: each is asked about
	scan     string       // what is said of a sheet of live scans; empty: nothing
	row      string       // what is said of one carcass whose cell is blank
}

// assumptions are those that a carcass's own figures show: internal fat, maturity, and the skin of a hog.
func (s *checker) assumptions() []assumption {
	customary := s.Book.Settings.CustomaryKPH.Decimal.String()
	return []assumption{
		{
			"KPH not given",
			[]measure.ID{measure.InternalFat},
			measure.InternalFat,
			"the sheet gives no KPH (kidney, pelvic and heart fat); the customary " + customary +
				" % is used for every carcass. Ask the plant for it, or whether it was pulled before weighing; if the customary figure is to stand, accept it in the Judge review sheet.",
			"give no KPH (kidney, pelvic and heart fat); the customary " + customary +
				" % is used for every carcass of theirs. Ask the plant for it, or whether it was pulled before weighing; if the customary figure is to stand, accept it in the Judge review sheet.",
			"nobody can measure KPH (kidney, pelvic and heart fat) in a live animal; the " + customary +
				" % that the rulebook calls customary stands in every estimate here.",
			"KPH is blank; the customary " + customary + " % is used. Fill in the cell or accept it in the Judge review sheet.",
		},
		{
			"maturity not given",
			[]measure.ID{measure.Maturity, measure.SkeletalMaturity, measure.LeanMaturity},
			measure.QualityGrade,
			"the sheet gives no maturity; A is assumed for every carcass. Ask the judge whether all were A; if so, accept it in the Judge review sheet.",
			"give no maturity; A is assumed for every carcass of theirs. Ask the judge whether all were A; if so, accept it in the Judge review sheet.",
			"", // a live animal is not graded for quality
			"maturity is blank; A is assumed. Fill in the cell or accept it in the Judge review sheet.",
		},
		{
			"quality grade of the plant",
			[]measure.ID{measure.Marbling},
			measure.QualityGrade,
			"the sheet gives no marbling; the plant's own quality grade stands for every carcass that has one, as the rulebook says. Accept it in the Judge review sheet, or add the marbling.",
			"give no marbling; the plant's own quality grade stands for every carcass of theirs that has one, as the rulebook says. Accept it in the Judge review sheet, or add the marbling.",
			"", // a live animal is not graded for quality
			"marbling is blank; the plant's own quality grade stands, as the rulebook says. Fill in the cell or accept it in the Judge review sheet.",
		},
		{
			"skin not stated",
			[]measure.ID{measure.Skinned},
			measure.LeanWeight,
			"the sheet does not say whether the carcasses were skinned; skin on is assumed for every one, and the lean equations are only " +
				"for that. Ask the plant, and write \"Skinned: no\" or \"Skinned: yes\" above the headings.",
			"", // hogs of one plant may be skinned and those of another not
			"", // a live animal has its skin
			"skinned is blank; skin on is assumed. Fill in the cell or accept it in the Judge review sheet.",
		},
	}
}

// assumedForSheet asks once for a sheet, not once for each carcass, what the sheet leaves out and the grades need:
// maturity, internal fat, the skin of hogs, and whether the weights are hot or chilled; and says what is assumed meanwhile.
// Where one answer does for several sheets they are asked about together. A carcass whose cell is blank in a sheet that has
// the column is named by itself.
func assumedForSheet(s *checker) []Finding {
	var findings []Finding
	for _, assumption := range s.assumptions() {
		var asked []*Sheet
		scanned := false
		for i := range s.Sheets {
			sheet := &s.Sheets[i]
			said, whole, scan := s.assumedIn(sheet, assumption)
			findings = append(findings, said...)
			if scan && !(scanned && assumption.sheets != "") {
				finding := Finding{Level: Note, Code: assumption.code, At: sheet.Heading, Measure: assumption.measures[0]} // there is nobody to ask
				findings = append(findings, finding.say(assumption.scan))
			}
			scanned = scanned || scan
			if whole {
				asked = append(asked, sheet)
			}
		}
		findings = append(findings, assumption.ask(asked)...)
	}
	for i := range s.Sheets {
		findings = append(findings, s.hotOrChilled(&s.Sheets[i])...)
	}
	return findings
}

// ask puts the question about sheets that do not say a thing at all: one for all of them where one answer does, but each by
// itself that has a column which may be it.
func (a *assumption) ask(sheets []*Sheet) (findings []Finding) {
	var together []*Sheet
	for _, sheet := range sheets {
		perhaps := mayBe(sheet, a.measures...)
		if a.sheets != "" && perhaps == "" {
			together = append(together, sheet)
			continue
		}
		finding := Finding{Level: Look, Code: a.code, At: sheet.Heading, Measure: a.measures[0]}
		findings = append(findings, finding.say(a.sheet+strings.TrimRight(" "+perhaps, " ")))
	}
	if len(together) == 0 {
		return findings
	}
	first := together[0]
	var others []string
	for _, sheet := range together[1:] {
		if name := strconv.Quote(sheet.Name); sheet.Name != first.Name && !slices.Contains(others, name) {
			others = append(others, name)
		}
	}
	finding := Finding{Level: Look, Code: a.code, At: first.Heading, Measure: a.measures[0]}
	if len(others) == 0 {
		return append(findings, finding.say(a.sheet))
	}
	return append(findings, finding.say("this sheet and "+phrase.JoinAnd(others)+" "+a.sheets))
}

// assumedIn names the carcasses of a sheet that lack a thing which others of it have. It reports whether the whole sheet lacks
// it, and whether some of its carcasses are live animals, of which it can't be known.
func (s *checker) assumedIn(sheet *Sheet, assumed assumption) (findings []Finding, whole, scan bool) {
	var blank []*row
	given := false
	for _, r := range sheet.rows {
		if slices.ContainsFunc(assumed.measures, func(id measure.ID) bool { return !s.blank(r, id) }) {
			given = true
			continue
		}
		if assumed.figure == measure.QualityGrade && r.QualityOfPlant() != (assumed.measures[0] == measure.Marbling) {
			continue // it rests on the plant's stamp, or on marbling and maturity
		}
		if figure, has := r.Computed(assumed.figure); has && figure.Missing == "" && !r.passed {
			blank = append(blank, r)
		}
	}
	scanned := func(r *row) bool { return r.Basis == rules.LiveScan }
	scan = assumed.scan != "" && slices.ContainsFunc(blank, scanned)
	blank = slices.DeleteFunc(blank, scanned)
	if !given {
		return nil, len(blank) > 0, scan
	}
	for _, r := range blank {
		finding := s.about(Look, assumed.code, r, assumed.measures[0])
		finding.At = s.cellFor(r, assumed.measures[0])
		findings = append(findings, finding.say(assumed.row))
	}
	return findings, false, scan
}

// hotOrChilled asks what a carcass weight is whose heading does not say.
func (s *checker) hotOrChilled(sheet *Sheet) []Finding {
	at, has := sheet.Columns[measure.HotCarcassWeight]
	if !has || sheet.Weights != "" || len(sheet.rows) == 0 || sheet.rows[0].Basis == rules.LiveScan {
		return nil
	}
	if !slices.ContainsFunc(sheet.rows, func(r *row) bool { return !r.passed }) {
		return nil
	}
	finding := Finding{Level: Look, Code: "hot or chilled not stated", At: at, Measure: measure.HotCarcassWeight}
	return []Finding{finding.say("the heading does not say whether carcass weights are hot or chilled; they are taken as " +
		string(s.Book.Settings.Weights) + ". Ask the plant, and write \"hot\" or \"chilled\" in the heading or above it.")}
}
