package intake

import (
	"strings"

	"railbook/grading"
	"railbook/rules"
	"railbook/rules/measure"
	"railbook/rules/phrase"
	"railbook/workbook/xlsx"

	"github.com/shopspring/decimal"
)

// words reads what graders write: marbling, maturity, quality grades, and how far dark lean lowers one.
func (p *cellParser) words(cell xlsx.Cell) parsedCell {
	if cell.Kind == xlsx.Number && cell.Date {
		return parsedCell{problem: "was turned into a date by the spreadsheet program; type it again, as text", code: "date in place of a value"}
	}
	if cell.Kind == xlsx.Bool {
		return parsedCell{problem: "says " + cell.Raw + ", which is no " + p.definition.Name}
	}
	if cell.Kind == xlsx.Text && (len(cell.Raw) > longestNumber || powerOfTen.MatchString(cell.Raw)) {
		return parsedCell{problem: "can't be read as " + p.definition.Name + "; type it again"}
	}
	switch p.definition.Kind {
	case measure.KindMarbling:
		return p.marblingScore(cell)
	case measure.KindMaturity:
		return maturity(cell)
	case measure.KindGrade:
		return p.grade(cell)
	}
	return lowering(cell)
}

// degreeOf is what is asked for: streaking is written in the words of marbling, but it is none.
func (p *cellParser) degreeOf() string {
	if p.definition.ID == measure.FlankStreaking {
		return "a degree of streaking"
	}
	return "a degree of marbling"
}

// gradeInBrackets is a quality grade that stands behind the marbling it follows from.
var gradeInBrackets = phrase.NewPattern(`^(.*\S)\s*\(([^()]+)\)$`)

func (p *cellParser) marblingScore(cell xlsx.Cell) parsedCell {
	if found := gradeInBrackets.FindStringSubmatch(cell.Raw); found != nil && p.definition.ID == measure.Marbling {
		if _, _, grade := grading.ParseQualityGrade(found[2]); grade {
			cell.Raw = found[1]
			parsed := p.marblingScore(cell)
			parsed.note, parsed.reading.Plain = "the marbling alone was read; the grade in brackets behind it was compared with it", false
			parsed.grade = found[2]
			return parsed
		}
	}
	score, ok := grading.ParseMarbling(cell.Raw, p.marbling)
	switch {
	case !ok:
		return parsedCell{problem: "can't be read as " + p.degreeOf() + "; write it as Small 40, SM 40 or 440", hint: likelyMarbling(cell.Raw, p.marbling)}
	case score.How == grading.MarblingAmbiguous:
		problem := "can be read in more than one way: " + score.Note + "; write it as Small 40 or 440"
		if !hasLetter(cell.Raw) {
			problem += ", or set the marbling scale in the rulebook"
		}
		return parsedCell{problem: problem, code: "ambiguous marbling number"}
	}
	parsed := parsedCell{reading: grading.Reading{Value: score.Value}}
	switch score.How {
	case grading.MarblingByNumber:
		parsed.reading.Plain = cell.Kind == xlsx.Number && score.Value.Number.String() == cell.Raw
		if cell.Kind == xlsx.Text && !p.text {
			parsed.note = "a number stored as text and read as the number"
		} else if cell.Raw != score.Value.Number.String() {
			parsed.note = "cut to a whole number"
		}
	case grading.MarblingByScale:
		parsed.note = "read on the scale " + string(p.marbling)
	case grading.MarblingAssumed:
		parsed.note = score.Note
	}
	return parsed
}

// powerOfTen is how a spreadsheet program writes a number that is too long for its cell: it is none of these words.
var powerOfTen = phrase.NewPattern(`(?i)^[+-]?[\d.,]+e[+-]?\d+$`)

var misreadZero = phrase.NewPattern(`[oO]$`)

// likelyMarbling is what an unreadable score probably was.
func likelyMarbling(text string, scale rules.MarblingScale) string {
	for _, try := range []string{strings.Trim(text, "?~*()[]. "), misreadZero.ReplaceAllString(text, "0")} {
		if score, ok := grading.ParseMarbling(try, scale); ok && score.How != grading.MarblingAmbiguous {
			return score.Value.Text
		}
	}
	return ""
}

func maturity(cell xlsx.Cell) parsedCell {
	read, ok := grading.ParseMaturity(cell.Raw)
	if !ok {
		return parsedCell{problem: "can't be read as a maturity: " + read.Note + "; write it as A60"}
	}
	return parsedCell{reading: grading.Reading{Value: read.Value, Plain: cell.Kind == xlsx.Number && read.Value.Number.String() == cell.Raw}, note: read.Note}
}

func (p *cellParser) grade(cell xlsx.Cell) parsedCell {
	if p.definition.ID == measure.Conformation {
		return conformation(cell)
	}
	if value, _, ok := grading.ParseQualityGrade(cell.Raw); ok {
		return parsedCell{reading: grading.Reading{Value: value}}
	}
	if part, ok := grading.ParsePartOfChoice(cell.Raw); ok {
		return parsedCell{reading: grading.Reading{Value: part}, note: "the upper part of Choice read as Choice, the lower third as Low Choice"}
	}
	if brandOfBeef.MatchString(cell.Raw) {
		return parsedCell{problem: "names a brand of beef, for which carcasses of more than one grade qualify; write the grade, as Low Choice or Ch-"}
	}
	return parsedCell{problem: "can't be read as a quality grade; write it as Low Choice or Ch-"}
}

// brandOfBeef is what some plants write in place of a grade.
var brandOfBeef = phrase.NewPattern(`(?i)^(?:CAB|certified\b.*)$`)

// legScore reads a leg score that is written as a grade: "Ch+".
func legScore(text string) parsedCell {
	value, whole, ok := grading.ParseLegScore(text)
	if !ok {
		return parsedCell{problem: "can't be read as a leg score; write a number from 7 (Low Good) to 15 (High Prime), or the grade, as High Choice or Ch+"}
	}
	parsed := parsedCell{reading: grading.Reading{Value: value}, note: "a grade read as its leg score, from 15 for High Prime to 7 for Low Good"}
	if whole {
		parsed.note = "a grade without low or high read as the leg score of its middle"
	}
	return parsed
}

// conformation reads the grade, in words or by its number on the scale of leg scores.
func conformation(cell xlsx.Cell) parsedCell {
	if value, _, ok := grading.ParseQualityGrade(cell.Raw); ok && !strings.HasSuffix(value.Text, "Select") {
		return parsedCell{reading: grading.Reading{Value: value}}
	}
	if typed, problem := readNumber(cell.Raw, false); problem == "" && !typed.hasUnit {
		if value, ok := grading.ConformationOf(measure.NumberValue(typed.number)); ok {
			return parsedCell{reading: grading.Reading{Value: value}, note: "a number on the scale of leg scores read as its grade, 12 as High Choice"}
		}
	}
	return parsedCell{problem: "can't be read as a conformation; write it as High Choice or Ch+, or as a number from 7 (Low Good) to 15 (High Prime)"}
}

// loweringSteps are the judged amounts by which dark lean lowers a grade, in sixths of a full grade.
var loweringSteps = map[string]struct {
	sixths int64
	words  string
}{
	"0": {0, "0"}, "none": {0, "0"}, "no": {0, "0"},
	"1/3": {2, "1/3"}, "third": {2, "1/3"}, "one third": {2, "1/3"}, "0.33": {2, "1/3"}, "0.333": {2, "1/3"}, "33%": {2, "1/3"},
	"1/2": {3, "1/2"}, "half": {3, "1/2"}, "one half": {3, "1/2"}, "0.5": {3, "1/2"}, "50%": {3, "1/2"},
	"2/3": {4, "2/3"}, "two thirds": {4, "2/3"}, "0.67": {4, "2/3"}, "0.66": {4, "2/3"}, "0.667": {4, "2/3"}, "67%": {4, "2/3"},
	"1": {6, "full"}, "full": {6, "full"}, "full grade": {6, "full"}, "1 full": {6, "full"}, "100%": {6, "full"},
}

func lowering(cell xlsx.Cell) parsedCell {
	text := strings.ToLower(zeroBefore(normalNumber(cell.Raw)))
	text = strings.TrimSpace(strings.TrimSuffix(strings.TrimSuffix(text, "grade"), "of a"))
	step, known := loweringSteps[strings.ReplaceAll(text, "-", " ")]
	if !known {
		return parsedCell{problem: "can't be read as how far the grade is lowered; write 0, 1/3, 1/2, 2/3 or full"}
	}
	return parsedCell{reading: grading.Reading{Value: measure.Value{Number: decimal.NewFromInt(step.sixths), Text: step.words}}}
}
