package fair

import (
	"fmt"
	"strings"

	"railbook/rules/measure"
	"railbook/rules/phrase"
	"railbook/validate"
	"railbook/workbook/record"
	"railbook/workbook/sheets/kit"
)

const (
	printColumns  = 4
	rowsOfAPrint  = 6 // of one question
	boxToTick     = "[   ] "
	roomToWriteIn = "____________"
)

// writeJudgePrint writes the open questions of the Judge review sheet for paper, a block each, with boxes to tick. It is made
// from that sheet and never read: what is ticked is typed into the Judge review sheet.
func (p *Writer) writeJudgePrint() error {
	page := p.open(kit.PageSetup{
		Name: record.JudgePrintSheet, Mark: record.JudgePrintMark, Title: "Questions for the judge: " + p.Status(),
		Subtitle: "On paper only: what is decided here is typed into the Judge review sheet, in the same order.",
		Widths:   []float64{25, 25, 15, 15}, Protected: true, Tab: kit.WorkingTab,
	})
	plain := kit.Style{Role: kit.Body}
	page.Skip(1)
	page.Write(kit.Entry{Value: "Initials " + roomToWriteIn, Style: kit.Style{Role: kit.Strong}}, kit.Entry{Value: "", Style: plain},
		kit.Entry{Value: "Date " + roomToWriteIn, Style: kit.Style{Role: kit.Strong}})
	page.Across("They stand for every question that has none of its own.", kit.Note, 1, printColumns)
	page.Skip(1)
	open := 0
	for _, row := range p.reviewRows() {
		if row.open() {
			open++
			page.KeepTogether(rowsOfAPrint)
			row.print(page, open)
		}
	}
	if open == 0 {
		page.Across("Nothing is on hold and nothing is to be looked at.", kit.Body, 1, printColumns)
		return page.CloseHidden() // an empty page says nothing
	}
	return page.Close()
}

// print writes one question: the animal, what is written and where, what is wrong, the likely value, and what may be decided. A
// hold says so in capitals between bars, so that it is told from a look without colour.
func (r *reviewRow) print(page *kit.Page, number int) {
	level := "Look: placed, but look at it"
	if r.onHold() {
		level = "||| HOLD ||| not placed until this is settled"
	}
	page.Across(fmt.Sprintf("%d.  Tag %s, %s.   %s", number, kit.TagWords(r.finding.Tag), kit.ClassName(r.finding.Class), level), kit.Band, 1, printColumns)
	page.Across(r.writtenWords(), kit.Strong, 1, printColumns)
	page.Across(shortSentence(r.wrong()), kit.Body, 1, printColumns)
	page.WriteHigh(roomToWrite, r.boxes()...)
}

// writtenWords says what is written and where.
func (r *reviewRow) writtenWords() string {
	words := "Written: "
	if r.finding.Measure != measure.None {
		words = phrase.Capital(r.finding.Measure.String()) + ": "
	}
	if r.finding.Read == "" {
		words += "blank"
	} else {
		words += r.finding.Read
	}
	if where := whereWords(r.finding.At); where != "" {
		words += " (" + where + ")"
	}
	if likely := r.likely(); likely != "" {
		words += ".  Likely " + likely
	}
	return words
}

// shortSentence is the first sentence of a text.
func shortSentence(text string) string {
	first, _, more := strings.Cut(text, ". ")
	if more {
		first += "."
	}
	return first
}

// boxes are what may be decided, to be ticked.
func (r *reviewRow) boxes() []kit.Entry {
	plain := kit.Style{Role: kit.Body, Middle: true}
	texts := []string{boxToTick + string(validate.Accept), boxToTick + string(validate.Correct) + " " + roomToWriteIn, boxToTick + string(validate.LeaveOut), "initials ______"}
	if r.finding.Exchange.Cell != "" {
		texts[0] = boxToTick + string(validate.Exchange) + "  " + boxToTick + "accept"
	}
	entries := make([]kit.Entry, len(texts))
	for i, text := range texts {
		entries[i] = kit.Entry{Value: text, Style: plain}
	}
	return entries
}
