package intake

import (
	"fmt"
	"strings"

	"railbook/grading"
	"railbook/rules"
	"railbook/rules/measure"
	"railbook/rules/phrase"
	"railbook/validate"

	"github.com/shopspring/decimal"
)

// A remark may put a value in question, with the value that is likely right: "re-weigh 790", "REA other side 14.9".
var (
	reweighed  = phrase.NewPattern(`(?i)\bre-?weigh(?:ed|t)?\b\D{0,15}(\d+(?:\.\d+)?)`)
	otherSide  = phrase.NewPattern(`(?i)\b(rea|rib ?eye(?: area)?|fat|back ?fat|bf|lea|loin(?: eye)?(?: area)?)\b[^\d]{0,25}\bside\b\D{0,6}(\d*\.?\d+)`)
	fatPulled  = phrase.NewPattern(`(?i)\bfat\b.{0,12}\b(?:pulled|torn|ripped|gouged|cut (?:off|away))\b(?:.{0,12}\badd(?:ed)?\b\D{0,4}(\d*\.\d+))?`)
	doubtedTag = phrase.NewPattern(`(?i)\b(?:id|identity|ident)\b.{0,12}(?:\bquestion|\bunsure|\buncertain|\bdoubt|\?)|\b(?:questionable|doubtful|uncertain) (?:id|identity)\b`)
)

// A remark may name a measure and doubt it in the same breath: "KPH est.", "wt includes hide".
var (
	doubtWord    = phrase.NewPattern(`(?i)\b(?:est|estimated?|guess\w*|approx\w*|includ\w*|incl|off|wrong|errors?|mistaken?|misread|check|verify|re-?check\w*|not sure|unsure|doubtful|questionable|mis-?ribbed|ribbed wrong|crooked|angled?|slanted|callous\w*|can(?:'?t|not) measure)\b|\?`)
	namesMeasure = []struct {
		measure measure.ID
		pattern *phrase.Pattern
	}{
		{measure.RibeyeArea, phrase.NewPattern(`(?i)\b(?:REA|rib ?eye)\b`)},
		{measure.LoinMuscleArea, phrase.NewPattern(`(?i)\b(?:LEA|LMA|loin ?eye|loin)\b`)},
		{measure.InternalFat, phrase.NewPattern(`(?i)\b(?:KPH|kidneys?)\b`)},
		{measure.Marbling, phrase.NewPattern(`(?i)\bmarb(?:ling)?\b`)},
		{measure.MeasuredFat, phrase.NewPattern(`(?i)\b(?:fat|BF|back ?fat)\b`)},
		{measure.HotCarcassWeight, phrase.NewPattern(`(?i)\b(?:HCW|wt|weight|scales?)\b`)},
	}
	kidneysOut = phrase.NewPattern(`(?i)\bkidneys? (?:\w+ )?(?:out|pulled|removed|missing|gone)\b|\bKPH (?:out|pulled|removed)\b`)
	takenOff   = phrase.NewPattern(`(?i)\b(?:(add(?:ed)?|plus)|subtract|minus|deduct|less|take off)\b\D{0,6}(\d*\.?\d+)`)
	// anotherNumber is a number that stands by itself, and is part of no date or time.
	anotherNumber = phrase.NewPattern(`(?:^|[^\d./:-])(\d{1,4}(?:\.\d+)?|\.\d+)(?:[^\d./:-]|[.:-]?(?:\s|$)|$)`)
	// doubtedName is a comment on a name, a class or a tag that says that it is another.
	doubtedName = phrase.NewPattern(`(?i)\b(?:really|actually|should|wrong|not (?:his|hers?|theirs?|the)|belongs|swap\w*|switch\w*|changed?|transfer\w*|sister|brother|sibling|verify|unsure|not sure)\b|\?\s*$`)
)

// A comment on a value may say what it should be, or only that it is doubtful.
var (
	shouldBe  = phrase.NewPattern(`(?i)\b(?:should (?:be|read|say|have been)|s/b|correct(?:ed)? (?:to|is|value)|changed? to|actually)\b\D{0,10}?(\d*\.?\d+)`)
	saidWrong = phrase.NewPattern(`(?i)\b(?:check|verify|not sure|unsure|doubtful|questionable|looks? (?:wrong|odd|off|high|low)|wrong|guess(?:ed)?|estimated?)\b|\?\s*$`)
)

// questionValues asks about the values that the words on a carcass's line, and the comments there, put in question.
func (tr *tableReader) questionValues(carcass *grading.Carcass) {
	if tr.kind != carcassTable {
		return
	}
	for _, words := range tr.remarked {
		tr.questionValuesBy(carcass, words)
	}
}

func (tr *tableReader) questionValuesBy(carcass *grading.Carcass, words searched) {
	if found := reweighed.FindStringSubmatch(words.text); found != nil {
		tr.questionValue(carcass, words, weightNear(carcass, found[1]), found[1])
		return
	}
	if found := otherSide.FindStringSubmatch(words.text); found != nil {
		if heading, ok := tr.vocabulary.recognise(found[1]).of(carcass.Species); ok {
			tr.questionValue(carcass, words, heading.Measure, found[2])
		}
		return
	}
	if found := fatPulled.FindStringSubmatch(words.text); found != nil {
		id, likely := fatPulledOff(carcass, found[1])
		tr.questionValue(carcass, words, id, likely)
	}
	if doubtedTag.MatchString(words.text) {
		tr.questionValue(carcass, words, measure.Tag, "")
		return
	}
	if id, has := measuredAt(carcass, words.at); has && words.what == onThisCell && id != measure.Remarks {
		tr.questionByComment(carcass, words, id)
		return
	}
	if len(conditionsNamed(words.text)) > 0 || fatPulled.MatchString(words.text) {
		return
	}
	for _, named := range namesMeasure {
		_, has := carcass.Reading(named.measure)
		if has && named.pattern.MatchString(words.text) && (doubtWord.MatchString(words.text) || named.measure == measure.InternalFat && kidneysOut.MatchString(words.text)) {
			tr.questionValue(carcass, words, named.measure, "")
			return
		}
	}
}

// questionByComment asks about the value that a comment is attached to, where the comment doubts it or names another number.
func (tr *tableReader) questionByComment(carcass *grading.Carcass, words searched, id measure.ID) {
	definition, _ := measure.Define(id)
	now := carcass.ReadingOf(id)
	if definition.Kind == measure.KindText {
		if doubtedName.MatchString(words.text) && len(conditionsNamed(words.text)) == 0 {
			tr.questionValue(carcass, words, id, "")
		}
		return
	}
	if found := shouldBe.FindStringSubmatch(words.text); found != nil {
		tr.questionValue(carcass, words, id, found[1])
		return
	}
	if found := takenOff.FindStringSubmatch(words.text); found != nil && definition.Kind == measure.KindNumber && !now.Unreadable {
		if change, err := decimal.NewFromString(found[2]); err == nil {
			if found[1] == "" {
				change = change.Neg()
			}
			tr.questionValue(carcass, words, id, now.Value.Number.Add(change).String())
			return
		}
	}
	if len(conditionsNamed(words.text)) > 0 {
		return
	}
	another := false
	if definition.Kind == measure.KindNumber {
		for _, found := range anotherNumber.FindAllStringSubmatch(words.text, -1) {
			number, err := decimal.NewFromString(found[1])
			another = another || err == nil && !number.Equal(now.Value.Number) && sameSize(number, now.Value.Number)
		}
	}
	if another || saidWrong.MatchString(words.text) || doubtWord.MatchString(words.text) {
		tr.questionValue(carcass, words, id, "")
	}
}

// sameSize reports whether a number may be another value of the same thing: half as much to twice as much.
func sameSize(number, value decimal.Decimal) bool {
	two := decimal.NewFromInt(2)
	return number.Mul(two).GreaterThanOrEqual(value) && number.LessThanOrEqual(value.Mul(two))
}

// measuredAt gives the measure that was read from a cell.
func measuredAt(carcass *grading.Carcass, at rules.Place) (measure.ID, bool) {
	for id, reading := range carcass.Readings() {
		if reading.Place == at {
			return id, true
		}
	}
	return measure.ID{}, false
}

// weightNear gives the weight that a number is nearest to.
func weightNear(carcass *grading.Carcass, number string) measure.ID {
	likely := decimal.RequireFromString(number)
	hot, weighed := carcass.Reading(measure.HotCarcassWeight)
	live, alive := carcass.Reading(measure.LiveWeight)
	if alive && (!weighed || live.Value.Number.Sub(likely).Abs().LessThan(hot.Value.Number.Sub(likely).Abs())) {
		return measure.LiveWeight
	}
	return measure.HotCarcassWeight
}

// fatPulledOff gives what is likely where fat was pulled off with the hide: an adjustment of the fat where the species has
// one, else the fat with what is to be added.
func fatPulledOff(carcass *grading.Carcass, more string) (measure.ID, string) {
	definition, _ := measure.Define(measure.FatAdjustment)
	added, err := decimal.NewFromString(more)
	switch fat, has := carcass.Reading(measure.MeasuredFat); {
	case err != nil:
		return measure.MeasuredFat, ""
	case definition.For(string(carcass.Species)):
		return measure.FatAdjustment, added.String()
	case has:
		return measure.MeasuredFat, fat.Value.Number.Add(added).String()
	}
	return measure.MeasuredFat, ""
}

func (tr *tableReader) questionValue(carcass *grading.Carcass, words searched, id measure.ID, likely string) {
	if number, err := decimal.NewFromString(likely); err == nil {
		likely = number.String()
	}
	now, has := carcass.Written(id)
	about := id.String()
	if has {
		about += fmt.Sprintf(" (%s in cell %s)", now.Written, now.Place.Cell)
	}
	if has && likely != "" && now.Value.Number.String() == likely {
		return // it was corrected already
	}
	what := "If it is wrong, correct it"
	if likely != "" {
		what = "If it should be " + likely + ", correct it"
	}
	tr.find(validate.Finding{
		Level: validate.Look, Code: "remark questions a value", At: words.at, Measure: id, Read: words.text, Hint: likely, Carcass: carcass,
		Message: fmt.Sprintf("%s puts the %s in question. %s; otherwise accept as is.", phrase.Capital(words.said()), about, what),
	})
}

// colourLegend is a line that gives the colour of cells a meaning: "Yellow = retained by inspector".
var colourLegend = phrase.NewPattern(`(?i)^\W*(?:yellow|red|green|blue|orange|pink|purple|gr[ae]y|shaded|highlighted|colou?red|bold)\b[^=:]{0,25}(?:=|:|\bmeans?\b|\bare\b| - )\s*\pL.*`)

// askLegend asks once for a sheet about a legend that gives colours a meaning, since colours are not read.
func (r *reader) askLegend(tr *tableReader) {
	animals := map[int]bool{}
	for _, animal := range tr.animals {
		animals[animal.line] = true
	}
	for _, line := range tr.table.page.lines {
		if animals[line.number] {
			continue
		}
		for _, cell := range line.cells {
			text := clean(cell.Raw)
			if nothing(cell) || !colourLegend.MatchString(text) || !hasLetter(text) || line.number >= tr.table.top && line.number <= tr.table.bottom {
				continue
			}
			at := tr.table.page.place(position{line.number, cell.Column})
			if r.legends[rules.Place{Sheet: at.Sheet}] {
				return
			}
			if r.legends == nil {
				r.legends = map[rules.Place]bool{}
			}
			r.legends[rules.Place{Sheet: at.Sheet}] = true
			r.find(validate.Finding{
				Level: validate.Look, Code: "colours have a meaning", At: at, Read: text,
				Message: fmt.Sprintf("%s gives the colour of cells a meaning, and colours are not read. Write it in words on the lines that have the colour, or accept as is.", phrase.Quote(strings.TrimSpace(text))),
			})
			return
		}
	}
}
