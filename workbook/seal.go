package workbook

import (
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"io"
	"slices"
	"strings"

	"railbook/grading"
	"railbook/grading/placing"
	"railbook/rules"
	"railbook/workbook/intake"
	"railbook/workbook/result"
)

// The kinds of lines that are sealed.
const (
	readingLine   = "reading"
	decisionLine  = "decision"
	rulingLine    = "ruling"
	reasonsLine   = "reasons"
	rulebookLine  = "rulebook"
	placingLine   = "placing"
	changeLine    = "change"
	lastYearLine  = "last year"
	signatureLine = "signature"
)

// usualReadings is how many cells are read of most carcasses.
const usualReadings = 16

// foundations lists everything that grading starts from, as lines: what was read, what the judge decided, and the whole
// rulebook. Two workbooks with the same lines have the same results.
func foundations(results *result.Results) []intake.SealedLine {
	lines := make([]intake.SealedLine, 0, usualReadings*len(results.Read.Carcasses))
	for record := range intake.EachRecord(results.Read) {
		value := record.Value
		if value == "" {
			value = "not understood: " + record.Written
		}
		lines = append(lines, intake.SealedLine{Kind: readingLine, Class: record.Class, Tag: record.Tag, Item: record.Measure.String(), Value: value})
	}
	for _, decision := range results.Decisions {
		lines = append(lines, intake.SealedLine{
			Kind: decisionLine, Class: decision.Class, Tag: decision.Tag, Item: decision.Measure.String() + ": " + decision.Code,
			Value: strings.Join([]string{
				string(decision.Choice), decision.Value, "was " + decision.Was, decision.Initials, decision.Remark, decision.Date,
			}, " | "),
		})
	}
	for _, ruling := range results.Rulings {
		lines = append(lines, intake.SealedLine{
			Kind: rulingLine, Class: ruling.Class, Tag: ruling.Tag, Item: "place",
			Value: strings.Join([]string{fmt.Sprint(ruling.Place), ruling.Reason, ruling.Initials, ruling.Date}, " | "),
		})
	}
	for key, text := range results.Reasons {
		class, tag, _ := strings.Cut(key, "\t")
		lines = append(lines, intake.SealedLine{Kind: reasonsLine, Class: class, Tag: tag, Item: "judge's words", Value: text})
	}
	for _, table := range results.Rules.Tables {
		lines = append(lines, rulebookLines(table)...)
	}
	return append(lines, lastYearSealed(results.LastYear)...)
}

// rulebookLines gives a line for each filled cell of a rulebook table; rows are counted without the blank ones.
func rulebookLines(table rules.Table) (lines []intake.SealedLine) {
	for number, row := range filledRows(table) {
		for column, cell := range row {
			heading := table.Rows[0][column].Text
			if text := rules.CanonicalCell(table.Name, heading, cell.Text); text != "" {
				lines = append(lines, intake.SealedLine{
					Kind: rulebookLine, Class: table.Name, Tag: fmt.Sprint(number + 1), Item: heading, Value: text,
				})
			}
		}
	}
	return lines
}

// filledRows gives the rows below a table's headings that are not blank, none longer than the headings.
func filledRows(table rules.Table) (rows []rules.Row) {
	if len(table.Rows) == 0 {
		return nil
	}
	for _, row := range table.Rows[1:] {
		row = row[:min(len(row), len(table.Rows[0]))]
		if slices.ContainsFunc(row, func(cell rules.Cell) bool { return strings.TrimSpace(cell.Text) != "" }) {
			rows = append(rows, row)
		}
	}
	return rows
}

// outcomes lists what the results say of each carcass: its place and every figure.
func outcomes(results *result.Results) []intake.SealedLine {
	var lines []intake.SealedLine
	add := func(class placing.ClassPlacing, graded *grading.Graded, place string) {
		lines = append(lines, intake.SealedLine{Kind: placingLine, Class: class.Class, Tag: graded.Tag, Item: "place", Value: place})
		for _, column := range grading.ColumnsWith(class.Species, class.Basis, []*grading.Graded{graded}) {
			if value, ok := graded.Figure(column.Measure); ok {
				lines = append(lines, intake.SealedLine{Kind: placingLine, Class: class.Class, Tag: graded.Tag, Item: column.Measure.String(), Value: value.Text})
			}
		}
	}
	for _, class := range results.Placings.Classes {
		for _, placed := range class.Placed {
			add(class, placed.Graded, fmt.Sprint(placed.Place))
		}
		for _, left := range class.Left {
			add(class, left.Graded, "not placed: "+left.Reason)
		}
	}
	return lines
}

// sealedLines lists all that a signature covers, in the order in which it is sealed.
func sealedLines(results *result.Results) []intake.SealedLine {
	lines := append(foundations(results), outcomes(results)...)
	lines = append(lines, recordLines(&results.Run, results.Changes)...)
	slices.SortFunc(lines, func(a, b intake.SealedLine) int { return strings.Compare(canonicalLine(a), canonicalLine(b)) })
	return lines
}

// digest is the SHA-256 of the lines' canonical text, whatever order they come in: each line's five fields with runs of
// white space made one space, parted by tabs and ended by a line feed, the lines sorted by their bytes, as UTF-8.
func digest(lines []intake.SealedLine) string {
	texts := make([]string, len(lines))
	for i, line := range lines {
		texts[i] = canonicalLine(line)
	}
	slices.Sort(texts)
	sum := sha256.New()
	for _, text := range texts {
		_, _ = io.WriteString(sum, text) // a digest takes everything
	}
	return hex.EncodeToString(sum.Sum(nil))
}

func canonicalLine(line intake.SealedLine) string {
	var text strings.Builder
	text.Grow(len(line.Kind) + len(line.Class) + len(line.Tag) + len(line.Item) + len(line.Value) + len("\t\t\t\t\n"))
	for i, field := range []string{line.Kind, line.Class, line.Tag, line.Item, line.Value} {
		if i > 0 {
			text.WriteByte('\t')
		}
		space := ""
		for word := range strings.FieldsSeq(field) {
			text.WriteString(space)
			text.WriteString(word)
			space = " "
		}
	}
	text.WriteByte('\n')
	return text.String()
}
