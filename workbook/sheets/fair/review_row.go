package fair

import (
	"slices"
	"strings"

	"railbook/rules"
	"railbook/rules/measure"
	"railbook/validate"
	"railbook/workbook/intake"
	"railbook/workbook/record"
	"railbook/workbook/sheets/kit"
)

func (p *Writer) findingRow(page *kit.Page, row *reviewRow, cellAlone bool, limits *reviewLimits) {
	finding := row.finding
	plain, wrapped := kit.Style{Role: kit.Body}, kit.Style{Role: kit.Body, Wrap: true}
	level := kit.Style{Role: kit.Strong}
	if row.onHold() {
		level.Role = kit.Flagged
	}
	where := kit.Entry{Value: whereWords(finding.At), Style: wrapped}
	if cellAlone {
		where.Value = finding.At.Cell
	}
	linked := finding.At.File == "" && finding.At.Sheet != "" && finding.At.Cell != ""
	if linked {
		where.Style.Role = kit.Link
	}
	cells := []kit.Entry{
		{Value: kit.ClassName(finding.Class), Style: wrapped},
		{Value: kit.TagWords(finding.Tag), Style: kit.Style{Role: kit.Strong}},
		{Value: levelWords[finding.Level], Style: level},
		where,
		{Value: finding.Measure.String(), Style: wrapped},
		{Value: finding.Read, Style: wrapped},
		{Value: row.wrong(), Style: wrapped},
		{Value: row.likely(), Style: plain},
	}
	cells = append(cells, decisionEntries(row.decision, asTyped(finding.Measure))...)
	cells = append(cells, kit.Entry{Value: row.state(), Style: wrapped})
	lowest, highest := limits.of(row.species, finding.Measure)
	page.WriteHigh(roomToWrite, append(cells, keyEntries(row, lowest, highest)...)...)
	if linked {
		page.Link(reviewWhere, finding.At.Sheet, finding.At.Cell)
	}
	limits.use(row.species, finding.Measure, page.Row, finding.Exchange.Cell != "")
}

// whereWords says the cell first: the name of its sheet may be longer than the column, and some programs cut it off.
func whereWords(at rules.Place) string {
	if at.Cell == "" {
		return placeSheet(at)
	}
	return at.Cell + ", " + placeSheet(at)
}

// sayNothingHere are words of findings that say nothing on the sheet where the judge decides.
var sayNothingHere = strings.NewReplacer(
	" Correct the cell or mark it in the Judge review sheet.", "", " Correct both cells or mark it in the Judge review sheet.", "",
	" in the Judge review sheet", "", " Look at it before signing.", "", " Fill in the cell, or leave the carcass out.", "",
)

// wrong is what is wrong with the cell, in all that was found of it.
func (r *reviewRow) wrong() string {
	if len(r.asked) == 0 {
		return "Not found any more: " + sayNothingHere.Replace(BriefMessage(r.finding))
	}
	var words []string
	for _, finding := range r.asked {
		text := sayNothingHere.Replace(BriefMessage(*finding))
		if !slices.Contains(words, text) {
			words = append(words, text)
		}
	}
	return strings.Join(append(words, nextQuestion(r.finding.Measure, r.asked)...), " ")
}

// nextQuestion asks at once what would be asked once the condition is marked.
func nextQuestion(id measure.ID, asked []*validate.Finding) []string {
	if !slices.ContainsFunc(asked, func(finding *validate.Finding) bool { return finding.Code == intake.RemarkNamesCondition }) {
		return nil
	}
	switch id {
	case measure.DarkCutter:
		return []string{"Say how far its grade is lowered as well: correct to 1/3, 1/2, 2/3 or full."}
	case measure.Trimmed:
		return []string{"Yes places it with the weight it has; if it can't be placed, leave it out."}
	}
	return nil
}

// likely is the likely true value, where one is known.
func (r *reviewRow) likely() string {
	for _, finding := range r.asked {
		if finding.Hint != "" {
			return finding.Hint
		}
	}
	return ""
}

// state says what became of the decision, or that there is none.
func (r *reviewRow) state() string {
	decision := r.decision
	switch {
	case decision == nil:
		return "open"
	case decision.Waiting && decision.Choice != "":
		return "waiting for the judge's initials"
	case decision.Waiting:
		return "waiting for the judge's decision"
	case decision.Refused:
		return "not usable: " + decision.Why
	case decision.Choice == validate.Withdraw && r.open():
		return "open; withdrawn: " + decision.Why
	case decision.Choice == validate.Withdraw:
		return "withdrawn: " + decision.Why
	case r.open():
		return "waiting: this is still open"
	case len(decision.Puts) > 0:
		return "applied; the plant wrote " + wroteWords(decision.Puts[0].Was)
	}
	return "applied"
}

func wroteWords(text string) string {
	if text == "" {
		return "nothing"
	}
	return text
}

// refusedWords says why a decision could not be used.
func (p *Writer) refusedWords(decision validate.Decision) string {
	if decision.Waiting && decision.Choice != "" {
		return "Waits for the judge's initials."
	}
	if decision.Waiting {
		return "Waits for the judge's decision."
	}
	if decision.Why == "" {
		return "The decision could not be used."
	}
	return "The decision could not be used: " + decision.Why + "."
}

// textFormat keeps what is typed as it is typed: 1/3 does not become a date, nor tag 0412 the number 412.
const textFormat = "@"

// asTyped is the format of the cell for the corrected value of a measure.
func asTyped(id measure.ID) string {
	if definition, known := measure.Define(id); known && definition.Kind == measure.KindNumber {
		return "" // its entry limits need a number
	}
	return textFormat
}

func decisionEntries(decision *validate.Decision, format string) []kit.Entry {
	if decision == nil || decision.Choice == validate.Withdraw {
		decision = &validate.Decision{}
	}
	filled, wrapped := kit.Style{Role: kit.Input}, kit.Style{Role: kit.Input, Wrap: true}
	value := decision.Value
	if decision.Then != "" {
		value += ", " + decision.Then
	}
	return []kit.Entry{
		{Value: string(decision.Choice), Style: filled},
		{Value: value, Style: kit.Style{Role: kit.Input, Format: format}},
		{Value: decision.Initials, Style: filled},
		{Value: decision.Remark, Style: wrapped},
		{Value: decision.Date, Style: filled},
	}
}

// keyEntries say what the row is about. A row that shows a decision keeps the place where that was made, so that it is known
// again.
func keyEntries(row *reviewRow, lowest, highest string) []kit.Entry {
	finding, applied := row.finding, ""
	at := finding.At
	var also []validate.Asked
	for i, other := range row.asked {
		if i > 0 && (other.Code != finding.Code || other.Read != finding.Read) {
			also = append(also, validate.Asked{Code: other.Code, Read: other.Read})
		}
	}
	if row.decision != nil {
		at = row.decision.Found
		if row.decision.Applied {
			applied = "yes"
		}
		if len(row.asked) == 0 {
			also = row.decision.Also
		}
	}
	texts := []string{
		row.kind, finding.Class, finding.Tag, finding.Measure.String(), finding.Code, finding.Read, string(finding.Level), finding.Message,
		at.File, at.Sheet, at.Cell, applied, lowest, highest, record.AskedText(also), finding.Exchange.Sheet, finding.Exchange.Cell,
	}
	entries := make([]kit.Entry, len(texts))
	for i, text := range texts {
		entries[i].Value = text
	}
	return entries
}
