package plant

import (
	"bytes"
	"encoding/csv"
	"fmt"
	"strings"

	"railbook/rules/phrase"
	"railbook/workbook/sheets/kit"
)

// CSV writes the list as comma-separated values.
func CSV(questions []Question) []byte {
	var text bytes.Buffer
	writer := csv.NewWriter(&text)
	columns := columnsFor(questions)
	headings := make([]string, len(columns))
	for i, column := range columns {
		headings[i] = column.heading
	}
	_ = writer.Write(headings)
	for _, question := range questions {
		line := make([]string, len(columns))
		for i, column := range columns {
			line[i] = neverFormula(column.of(question))
		}
		_ = writer.Write(line)
	}
	writer.Flush()
	return text.Bytes()
}

// neverFormula keeps a spreadsheet program from taking text of the input for a formula.
func neverFormula(text string) string {
	if text != "" && strings.ContainsRune("=+-@\t\r", rune(text[0])) {
		return "'" + text
	}
	return text
}

// Text writes the lists of some workbooks so that they can be pasted into a message.
func Text(workbooks []string, questions []Question, wrapped func(line, indent string) string) []byte {
	var text bytes.Buffer
	for at, workbook := range workbooks {
		if at > 0 {
			text.WriteString("\n")
		}
		text.WriteString(wrapped("Questions about "+workbook+". "+guide, ""))
		number := 0
		for _, question := range questions {
			if question.Workbook != workbook {
				continue
			}
			number++
			text.WriteString("\n")
			text.WriteString(wrapped(fmt.Sprintf("%d. %s", number, question.title()), "   "))
			text.WriteString(wrapped("   "+question.Asked, "   "))
			text.WriteString("   Answer: ____________________\n")
		}
		if number == 0 {
			text.WriteString("\nThere is nothing to ask.\n")
		}
	}
	return text.Bytes()
}

// title names the carcass, the measure as the plant heads it and what is written: Rail 12, tag 0401, REA: 115.
func (q Question) title() string {
	var parts []string
	if q.Rail != "" {
		parts = append(parts, "rail "+q.Rail)
	}
	if q.Tag != "" {
		parts = append(parts, "tag "+q.Tag)
	}
	if len(parts) == 0 || q.Rail == "" {
		parts = append(parts, `sheet "`+q.Sheet+`", cell `+q.Cell)
	}
	words := phrase.Capital(strings.Join(parts, ", "))
	if q.Heading != "" {
		words += "; " + q.Heading + ": " + orBlank(q.Written)
	}
	return words
}

const (
	listSheet = "Questions"
	guide     = "Please look at the card or the carcass again and answer each line: the right value, or \"as written\" where it is right as it stands."
	typedText = "@" // what is typed stays as it is typed: 1/3 does not become a date, nor tag 0412 the number 412
)

// Workbook writes the list as a workbook with a column for the answers.
func Workbook(questions []Question) ([]byte, error) {
	draft, err := kit.FreshDraft("Questions for the plant")
	if err != nil {
		return nil, err
	}
	columns := columnsFor(questions)
	setup := kit.PageSetup{
		Name: listSheet, Title: "Questions for the plant", Subtitle: phrase.Plural(len(questions), "question", "questions"), Status: "For the plant",
		Landscape: true, RepeatFrom: headingRow, RepeatTo: headingRow, FreezeRows: headingRow, Protected: true, Tab: kit.InputTab,
	}
	headings := make([]string, len(columns))
	visible := 0
	for i, column := range columns {
		setup.Widths = append(setup.Widths, column.width)
		headings[i] = column.heading
		if column.hidden {
			setup.Hidden = append(setup.Hidden, i+1)
		} else {
			visible++
		}
	}
	page := kit.OpenPage(draft.NewSheet, kit.NewLook(draft, false), setup)
	page.Across(guide, kit.Note, 1, visible)
	page.Headings(headings...)
	for _, question := range questions {
		page.WriteHigh(roomToWrite, entries(question, columns)...)
	}
	if len(questions) == 0 {
		page.Across("There is nothing to ask.", kit.Body, 1, visible)
	}
	page.PrintTo(visible)
	if err := page.Close(); err != nil {
		return nil, err
	}
	return draft.Bytes()
}

const (
	headingRow  = 4
	roomToWrite = 24 // points: a row that can be filled in by hand
)

func entries(question Question, columns []column) []kit.Entry {
	line := make([]kit.Entry, len(columns))
	for i, column := range columns {
		line[i] = kit.Entry{Value: column.of(question), Style: kit.Style{Role: kit.Body, Wrap: true, Format: typedText}}
		switch column.heading {
		case tagHeading, "Rail":
			line[i].Style.Role = kit.Strong
		case answerHeading:
			line[i].Style.Role = kit.Input
		}
	}
	return line
}
