package intake

import (
	"errors"
	"strings"
	"unicode/utf8"

	"railbook/grading"
	"railbook/rules/measure"
	"railbook/rules/phrase"
	"railbook/workbook/xlsx"

	"github.com/shopspring/decimal"
	"golang.org/x/text/unicode/norm"
)

// number reads a number in the measure's unit.
func (p *cellParser) number(cell xlsx.Cell) parsedCell {
	switch cell.Kind {
	case xlsx.Number:
		return p.storedNumber(cell)
	case xlsx.Bool:
		return parsedCell{problem: "says " + cell.Raw + ", which is no number; type the value"}
	}
	if p.definition.ID == measure.LivePlacing {
		if found := ordinal.FindStringSubmatch(normalNumber(cell.Raw)); found != nil {
			cell.Raw = found[1]
		}
	}
	written, problem := readNumber(cell.Raw, p.decimalComma)
	if p.definition.ID == measure.SheetYieldGrade || p.definition.ID == measure.PreliminaryYieldGrade {
		if rest, cut := cutPrefixFold(cell.Raw, "yg"); problem != "" && cut {
			written, problem = readNumber(rest, p.decimalComma)
		}
	}
	switch {
	case problem != "" && p.definition.ID == measure.LegScore:
		return legScore(cell.Raw)
	case problem != "":
		return parsedCell{problem: problem, hint: p.likelyNumber(cell.Raw)}
	}
	return p.writtenNumber(written, cell.Raw)
}

// ordinal is how people write where an animal stood: 1st, 2nd place.
var ordinal = phrase.NewPattern(`(?i)^(\d{1,3}) ?(?:st|nd|rd|th)\.?(?: place)?$`)

func cutPrefixFold(text, prefix string) (string, bool) {
	if len(text) > len(prefix) && strings.EqualFold(text[:len(prefix)], prefix) {
		return clean(text[len(prefix):]), true
	}
	return text, false
}

func (p *cellParser) storedNumber(cell xlsx.Cell) parsedCell {
	if cell.Date {
		return p.dateForNumber(cell)
	}
	number, err := decimal.NewFromString(cell.Raw)
	if err != nil {
		return parsedCell{problem: "holds " + cell.Raw + ", which is no number; type the value again"}
	}
	if !cell.Percent {
		return parsedCell{
			reading: grading.Reading{
				Value: measure.NumberValue(p.scale.convert(number)), Plain: p.scale.own(), Factor: p.scale.factor(),
			},
			note: p.scale.conversion(),
		}
	}
	hundred := decimal.NewFromInt(100)
	if p.definition.Unit != "%" {
		return parsedCell{
			problem: "is formatted as a percent, " + number.Mul(hundred).String() +
				" %, under a heading that is no percent; type the value as a plain number",
			hint: number.String(),
		}
	}
	return parsedCell{
		reading: grading.Reading{Value: measure.NumberValue(number.Mul(hundred)), Factor: "100"},
		note:    "formatted as a percent and read as it is shown: 2.5% is 2.5",
	}
}

// dateForNumber says what a spreadsheet program probably turned into a date.
func (p *cellParser) dateForNumber(cell xlsx.Cell) parsedCell {
	parsed := parsedCell{
		problem: "was turned into a date by the spreadsheet program; type the value again, as a number",
		code:    "date in place of a number",
	}
	if day, ok := dayOf(cell.Raw, p.date1904); ok {
		ratio := decimal.NewFromInt(int64(day.Month())).DivRound(decimal.NewFromInt(int64(day.Day())), 4)
		if p.definition.Unit == "in" && ratio.LessThan(decimal.NewFromInt(5)) {
			parsed.hint = ratio.String()
		}
	}
	return parsed
}

// typedNumber is a number as somebody wrote it.
type typedNumber struct {
	number    decimal.Decimal
	unit      scale
	hasUnit   bool
	thousands bool
	fraction  bool
	comma     bool // a decimal comma
	point     bool // a decimal point in a file with decimal commas
}

func (p *cellParser) writtenNumber(written typedNumber, text string) parsedCell {
	unit := p.scale
	if written.hasUnit {
		if written.unit.base != p.definition.Unit {
			return parsedCell{problem: `is written in ` + unitName(written.unit.unit) + `, which does not fit ` + p.definition.Name + `; type the value in ` + unitOr(p.definition.Unit)}
		}
		unit = written.unit
	}
	parsed := parsedCell{reading: grading.Reading{Value: measure.NumberValue(unit.convert(written.number))}}
	switch {
	case !unit.own():
		parsed.note = unit.conversion()
	case written.hasUnit:
		parsed.note = "written with the unit and read as the number in front of it"
	case written.fraction:
		parsed.note = "written as a fraction and read as its decimal"
		parsed.reading.Value = measure.NumberValue(unit.convert(written.number.Round(4)))
	case written.thousands:
		parsed.note = "written with a comma for the thousands"
	case written.point:
		parsed.note = "written with a decimal point among decimal commas"
	case written.comma:
		parsed.note = "written with a decimal comma"
	case !p.text:
		parsed.note = "a number stored as text and read as the number"
	default:
		parsed.reading.Plain = true
	}
	return parsed
}

func unitOr(unit string) string {
	if unit == "" {
		return "plain numbers"
	}
	return unitName(unit)
}

const (
	pointNumber  = `[1-9]\d{0,2}(?:,\d{3})+(?:\.\d+)?|\d+\.\d+|\.\d+|0?,\d+|\d+,\d{1,2}|\d+`
	commaNumber  = `[1-9]\d{0,2}(?:\.\d{3})+(?:,\d+)?|\d+,\d+|,\d+|\d+\.\d+|\.\d+|\d+`
	fractionForm = `(?:(\d+)[ -])?(\d+)/(\d+)`
)

var (
	pointForm = phrase.NewPattern(`^([+\-]?) ?(?:` + fractionForm + `|(` + pointNumber + `)) ?(\D.*)?$`)
	commaForm = phrase.NewPattern(`^([+\-]?) ?(?:` + fractionForm + `|(` + commaNumber + `)) ?(\D.*)?$`)
	thousands = phrase.NewPattern(`^[1-9]\d{0,2}(?:,\d{3})+`)
	groups    = phrase.NewPattern(`^[1-9]\d{0,2}(?:\.\d{3})+(?:,|$)`)
)

// longestNumber is how many letters a number may be written with; what is longer is something else.
const longestNumber = 40

// readNumber understands a number as people type it: 1,234, .45", 13.2 sq in, 3/10, 4 tenths, 812#, 2.5%. The problem
// is a sentence's end where it cannot be understood.
func readNumber(text string, decimalComma bool) (typedNumber, string) {
	text = normalNumber(text)
	if !strings.ContainsAny(text, "0123456789") {
		return typedNumber{}, notANumber
	}
	form := pointForm
	if decimalComma {
		form = commaForm
	}
	found := form.FindStringSubmatch(text)
	if found == nil || len(text) > longestNumber {
		return typedNumber{}, notANumber
	}
	sign, whole, over, under, plain, unit := found[1], found[2], found[3], found[4], found[5], found[6]
	var typed typedNumber
	if unit == "." {
		unit = "" // a full stop behind a whole number
	}
	if unit != "" {
		typed.unit, typed.hasUnit = readCellUnit(unit)
		if !typed.hasUnit {
			return typedNumber{}, notANumber
		}
	}
	var err error
	switch {
	case under != "":
		typed.number, err = readFraction(whole, over, under)
		typed.fraction = true
	case decimalComma:
		typed.comma = strings.Contains(plain, ",")
		typed.point = !typed.comma && strings.Contains(plain, ".") && !groups.MatchString(plain)
		if groups.MatchString(plain) {
			plain = strings.ReplaceAll(plain, ".", "")
		}
		typed.number, err = decimal.NewFromString(zeroBefore(strings.Replace(plain, ",", ".", 1)))
	default:
		typed.thousands = thousands.MatchString(plain)
		typed.comma = !typed.thousands && strings.Contains(plain, ",")
		if typed.comma { // 13,5: no thousand is written so
			plain = strings.Replace(plain, ",", ".", 1)
		}
		typed.number, err = decimal.NewFromString(zeroBefore(strings.ReplaceAll(plain, ",", "")))
	}
	if err != nil {
		return typedNumber{}, notANumber
	}
	if sign == "-" {
		typed.number = typed.number.Neg()
	}
	return typed, ""
}

const notANumber = "can't be read as a number; type the value again"

func zeroBefore(number string) string {
	if strings.HasPrefix(number, ".") {
		return "0" + number
	}
	return number
}

var halves = strings.NewReplacer("¼", " 1/4", "½", " 1/2", "¾", " 3/4", "⅓", " 1/3", "⅔", " 2/3", "⅛", " 1/8", "⅜", " 3/8", "⅝", " 5/8", "⅞", " 7/8")

var numberMarks = strings.NewReplacer("−", "-", "–", "-", "⁄", "/", "”", `"`, "″", `"`, "“", `"`, "''", `"`)

// normalNumber brings the many blanks, dashes and fractions to one form.
func normalNumber(text string) string {
	if !plainASCII(text) || strings.Contains(text, "''") {
		text = norm.NFKC.String(halves.Replace(text))
		text = numberMarks.Replace(text)
	}
	return strings.TrimPrefix(clean(text), "'")
}

// plainASCII reports whether a text has nothing of what Unicode knows in several forms.
func plainASCII(text string) bool {
	for i := range len(text) {
		if text[i] >= utf8.RuneSelf {
			return false
		}
	}
	return true
}

var errNoFraction = errors.New("not a proper fraction")

func readFraction(whole, over, under string) (decimal.Decimal, error) {
	parts := [3]decimal.Decimal{}
	for i, digits := range []string{whole, over, under} {
		if digits == "" {
			continue
		}
		number, err := decimal.NewFromString(digits)
		if err != nil {
			return decimal.Zero, err
		}
		parts[i] = number
	}
	if parts[2].LessThanOrEqual(parts[1]) || parts[2].GreaterThan(decimal.NewFromInt(100)) {
		return decimal.Zero, errNoFraction // 812/820 is two weights
	}
	return parts[0].Add(parts[1].DivRound(parts[2], 8)), nil
}

// readCellUnit understands the unit behind a number in a cell.
func readCellUnit(text string) (scale, bool) {
	text = strings.TrimSuffix(clean(text), ".")
	if text == "#" || text == "#s" {
		return scales["lb"], true
	}
	return readUnit(text)
}

// likelyNumber is what an unreadable number probably was, in the measure's unit; empty where that is anybody's guess.
func (p *cellParser) likelyNumber(text string) string {
	text = strings.TrimSpace(strings.Trim(normalNumber(text), "?~*()[]. "))
	tries := []string{text, slipsOfTheKey.Replace(text)}
	for _, try := range tries {
		for _, decimalComma := range []bool{p.decimalComma, true} {
			typed, problem := readNumber(try, decimalComma)
			if problem != "" {
				continue
			}
			if parsed := p.writtenNumber(typed, try); parsed.problem == "" {
				return parsed.reading.Value.Text
			}
		}
	}
	return ""
}

var slipsOfTheKey = strings.NewReplacer("O", "0", "o", "0", "l", "1", "I", "1", "S", "5", "B", "8", "..", ".", ",.", ".", ".,", ".", ". ", ".", ";", ".", ":", ".")
