package sheetstest

import (
	"strconv"

	"github.com/shopspring/decimal"

	"railbook/grading"
	"railbook/grading/placing"
	"railbook/rules"
	"railbook/rules/measure"
	"railbook/validate"
	"railbook/workbook/intake"
	"railbook/workbook/record"
	"railbook/workbook/result"
)

// An invented fair: two classes of cattle with a tie, a carcass on hold, one condemned, and findings of every level.

const (
	Steers  = "Market steers, lightweight"
	Heifers = "Market heifers"
)

type animal struct {
	Tag, Class, exhibitor, club string
	weight, fat, Ribeye, kidney string
	marbling, quality           string
	rank                        int64
}

var Animals = []animal{
	{"401", Steers, "Wilhelmina Ashgrove-Petersen", "Clover Hollow 4-H", "742", ".40", "13.2", "2.5", "430", "Low Choice", 21},
	{"402", Steers, "Theo Marrick", "Clover Hollow 4-H", "801", ".55", "12.6", "2.0", "540", "Average Choice", 22},
	{"403", Steers, "Ines Calloway", "Tern Point FFA", "688", ".30", "12.9", "2.0", "380", "High Select", 19},
	{"404", Steers, "Jonah Bexley", "Tern Point FFA", "756", ".62", "11.8", "3.0", "610", "High Choice", 23},
	{"405", Steers, "Priya Thornbury", "Clover Hollow 4-H", "812", ".48", "14.1", "2.5", "470", "Low Choice", 21},
	{"406", Steers, "Oskar Lindqvist", "Tern Point FFA", "779", ".80", "11.2", "3.5", "650", "High Choice", 23},
	{"407", Steers, "Marguerite Oyelaran", "Rock Ferry 4-H", "845", ".35", "15.0", "2.0", "410", "Low Choice", 21},
	{"408", Steers, "Dell Farraday", "Rock Ferry 4-H", "712", ".45", "12.0", "2.5", "450", "Low Choice", 21},
	{"0409", Steers, "Sanna Whitlow", "", "734", ".25", "13.8", "2.0", "350", "Low Select", 18},
	{"410", Heifers, "Rafe Dunmore", "Rock Ferry 4-H", "690", ".50", "12.4", "2.5", "560", "Average Choice", 22},
	{"411", Heifers, "Lotte Van Houten", "Tern Point FFA", "705", ".50", "12.4", "2.5", "560", "Average Choice", 22},
	{"412", Heifers, "Amos Kettleby", "Clover Hollow 4-H", "668", ".70", "11.0", "3.0", "720", "Low Prime", 24},
	{"413", Heifers, "Beatrix Soderlund", "Clover Hollow 4-H", "715", ".38", "13.0", "2.0", "420", "Low Choice", 21},
	{"414", Heifers, "Caspian Rowe", "Rock Ferry 4-H", "731", ".44", "136", "2.0", "440", "Low Choice", 21},
	{"415", Heifers, "Nell Abernathy", "Tern Point FFA", "699", ".42", "12.7", "2.0", "400", "Low Choice", 21},
}

func Number(text string) decimal.Decimal { return decimal.RequireFromString(text) }

func (a animal) Carcass(at int) *grading.Carcass {
	sheet, row := "Kill sheet", at+5
	cell := func(column string) rules.Place {
		return rules.Place{Sheet: sheet, Cell: column + strconv.Itoa(row)}
	}
	carcass := (&grading.Carcass{
		Tag: a.Tag, Class: a.Class, Species: rules.Beef, Basis: rules.OnTheRail, Place: cell("A"), Sequence: at,
	}).With(map[measure.ID]grading.Reading{
		measure.Tag:       {Value: measure.Value{Text: a.Tag}, Place: cell("A"), Written: a.Tag},
		measure.Exhibitor: {Value: measure.Value{Text: a.exhibitor}, Place: cell("B"), Written: a.exhibitor},
		measure.Marbling:  {Value: measure.Value{Number: Number(a.marbling), Text: "Small 40"}, Place: cell("H"), Written: a.marbling},
	})
	if a.club != "" {
		carcass.SetReading(measure.Club, grading.Reading{Value: measure.Value{Text: a.club}, Place: cell("C"), Written: a.club})
	}
	for _, figure := range []struct {
		measure         measure.ID
		written, column string
	}{
		{measure.HotCarcassWeight, a.weight, "D"},
		{measure.AdjustedFat, a.fat, "E"},
		{measure.RibeyeArea, a.Ribeye, "F"},
		{measure.InternalFat, a.kidney, "G"},
	} {
		carcass.SetReading(figure.measure, grading.Reading{Value: measure.NumberValue(Number(figure.written)), Place: cell(figure.column), Written: figure.written, Plain: true})
	}
	return carcass
}

// Graded works out the figures without package grading: these tests are about sheets, not sums.
func (a animal) Graded(carcass *grading.Carcass) *grading.Graded {
	weight, fat, ribeye, kidney := Number(a.weight), Number(a.fat), Number(a.Ribeye), Number(a.kidney)
	yield := Number("2.5").Add(Number("2.5").Mul(fat)).Add(Number("0.2").Mul(kidney)).Add(Number("0.0038").Mul(weight)).Sub(Number("0.32").Mul(ribeye))
	whole := decimal.Max(decimal.NewFromInt(1), yield.Truncate(0))
	price := decimal.NewFromInt(280 + a.rank)
	figure := func(value decimal.Decimal) grading.Figure { return grading.Figure{Value: measure.NumberValue(value)} }
	figures := map[measure.ID]grading.Figure{
		measure.AdjustedFat:            figure(fat),
		measure.YieldGrade:             figure(yield),
		measure.WholeYieldGrade:        figure(whole),
		measure.RibeyePerHundredweight: figure(ribeye.Mul(Number("100")).DivRound(weight, 6)),
		measure.MarblingScore:          figure(Number(a.marbling)),
		measure.QualityGrade:           {Value: measure.Value{Number: decimal.NewFromInt(a.rank), Text: a.quality}, Assumed: "maturity A, the sheet gives none"},
		measure.Price:                  figure(price),
		measure.CarcassValue:           figure(price.Mul(weight).Div(decimal.NewFromInt(100)).Round(2)),
	}
	graded := grading.Grade(carcass, rules.Shipped())
	for id, figure := range figures {
		graded.SetFigure(id, figure)
	}
	return graded
}

// FairResults are the results of the invented fair, without a workbook to write them into.
func FairResults(t Tester) *result.Results {
	t.Helper()
	book := rules.Default()
	results := &result.Results{Rules: book, Read: &intake.Result{}, Reasons: map[string]string{
		Steers + "\t402":  "A heavy, thick steer; I liked him for his marbling.",
		Heifers + "\t999": "Kept though the heifer went home.",
	}}
	block := intake.Block{Sheet: "Kill sheet", FirstRow: 4, LastRow: 19}
	for i, animal := range Animals {
		carcass := animal.Carcass(i)
		block.Lines = append(block.Lines, i+5)
		block.Carcasses = append(block.Carcasses, carcass)
		results.Read.Carcasses = append(results.Read.Carcasses, carcass)
		results.Carcasses = append(results.Carcasses, &result.Result{Graded: animal.Graded(carcass)})
	}
	block.Headings = []intake.Heading{
		{Column: 1, Cell: "A4", Text: "Ear Tag", Measure: measure.Tag, Because: "accepted heading"},
		{Column: 4, Cell: "D4", Text: "HCW (lb)", Measure: measure.HotCarcassWeight, Because: "accepted heading"},
		{Column: 9, Cell: "I4", Text: "Cooler", Because: ""},
	}
	results.Read.Blocks = []intake.Block{block}
	results.Read.Passed = []intake.PassedOver{{At: rules.Place{Sheet: "Kill sheet", Cell: "A21"}, Written: "Average", Why: "an average row"}}
	results.Findings, results.Decisions = fairFindings(results)
	results.Gather()
	entrants := results.Entrants()
	entrants[13].Out = &placing.KeptOut{Reason: "on hold: ribeye area out of range, sheet \"Kill sheet\", cell F18", OnHold: true}
	entrants[7].Out = &placing.KeptOut{Reason: "left out by the judge (AB): trimmed before weighing"}
	results.Placings = placing.PlaceClasses(entrants, nil, book)
	results.Gather()
	results.Changes = []record.Change{{
		At: rules.Place{Sheet: "Kill sheet", Cell: "D8"}, Class: Steers, Tag: "404", Measure: measure.HotCarcassWeight,
		Was: "765", Is: "756", Who: "AB", When: "2025-07-10", Moved: "404 (Market steers): value $ 2,318.00 to 2,290.68",
	}}
	results.Run = record.Run{
		InputName: "county-fair.xlsx", InputSHA256: "9f2c6d5e0a", Revision: 2, Version: "test", Status: record.Provisional,
		Rulebook: "Example grid 2025", RulebookSHA: "77aa01", State: "55bb02",
	}
	return results
}

func fairFindings(results *result.Results) ([]validate.Finding, []validate.Decision) {
	carcass := func(at int) *grading.Carcass { return results.Read.Carcasses[at] }
	leftOut := validate.Decision{
		Tag: "408", Class: Steers, Measure: measure.Trimmed, Code: "trimmed", Was: "trimmed", Choice: validate.LeaveOut, Initials: "AB",
		Remark: "Half the round was gone", Date: "2025-07-10", Found: rules.Place{Sheet: "Kill sheet", Cell: "I12"},
		Level: validate.Hold, Message: `Sheet "Kill sheet", cell I12: the carcass was trimmed, so its weight is not the whole carcass.`,
	}
	corrected := validate.Decision{
		Tag: "404", Class: Steers, Measure: measure.HotCarcassWeight, Code: "dressing percent out of range", Was: "765", Choice: validate.Correct,
		Value: "756", Initials: "AB", Date: "2025-07-10", Found: rules.Place{Sheet: "Kill sheet", Cell: "D8"}, Level: validate.Look, Applied: true,
		Message: `Sheet "Kill sheet", cell D8: dressing percent 69.5 is above 67.`,
	}
	call := validate.Decision{
		Tag: "403", Class: Steers, Measure: measure.QualityGrade, Code: record.JudgesCall, Choice: validate.Correct, Value: "High Select",
		Initials: "AB", Remark: "Lean colour is good", Date: "2025-07-10", Level: validate.Look,
	}
	decisions := []validate.Decision{leftOut, corrected, call}
	return []validate.Finding{
		{
			Level: validate.Note, Code: "maturity missing", At: rules.Place{Sheet: "Kill sheet", Cell: "A4"},
			Message: `Sheet "Kill sheet": no maturity is given, so maturity A is assumed for every carcass. If some are older, add a maturity column.`,
		},
		{
			Level: validate.Hold, Code: "ribeye area out of range", At: rules.Place{Sheet: "Kill sheet", Cell: "F18"}, Tag: "414", Class: Heifers,
			Measure: measure.RibeyeArea, Read: "136", Hint: "13.6", Carcass: carcass(13),
			Message: `Sheet "Kill sheet", cell F18: ribeye area 136 sq in can't be true (above 25). It looks like a missing decimal point (13.6). Correct the cell or decide in the Judge review sheet.`,
		},
		{
			Level: validate.Look, Code: "ribeye out of line with weight", At: rules.Place{Sheet: "Kill sheet", Cell: "F13"}, Tag: "0409", Class: Steers,
			Measure: measure.RibeyeArea, Read: "13.8", Carcass: carcass(8), Message: `Sheet "Kill sheet", cell F13: ribeye area 13.8 sq in is large for a 734 lb carcass.`,
		},
		{
			Level: leftOut.Level, Code: leftOut.Code, At: leftOut.Found, Tag: "408", Class: Steers, Measure: measure.Trimmed, Read: "trimmed",
			Message: leftOut.Message, Carcass: carcass(7), Settled: &decisions[0],
		},
		{
			Level: corrected.Level, Code: corrected.Code, At: corrected.Found, Tag: "404", Class: Steers, Measure: corrected.Measure, Read: "765",
			Message: corrected.Message, Settled: &decisions[1],
		},
	}, decisions
}

func DecimalOf(text string) decimal.NullDecimal { return decimal.NewNullDecimal(Number(text)) }
