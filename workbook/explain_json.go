package workbook

import (
	"encoding/json"
	"io"
	"path/filepath"

	"railbook/rules/measure"
	"railbook/workbook/intake"
	"railbook/workbook/result"
)

// explainedLine is one heading, cell or passed-over cell as a line of JSON.
type explainedLine struct {
	Workbook string `json:"workbook"`
	Kind     string `json:"kind"` // heading, cell or passed over
	Sheet    string `json:"sheet"`
	Cell     string `json:"cell"`
	Tag      string `json:"tag,omitempty"`
	Written  string `json:"written"`
	Measure  string `json:"measure,omitempty"` // empty for a heading that is left alone
	Value    string `json:"value,omitempty"`   // empty for what was not understood
	Why      string `json:"why,omitempty"`
}

// ExplainJSON prints how a workbook was read, one JSON object a line: each heading, each cell, and what was passed over.
func ExplainJSON(to io.Writer, results *result.Results) error {
	encoder := json.NewEncoder(to)
	encoder.SetEscapeHTML(false)
	name := filepath.Base(results.Book.Path)
	var lines []explainedLine
	for _, block := range results.Read.Blocks {
		for _, heading := range block.Headings {
			line := explainedLine{Kind: "heading", Sheet: block.Sheet, Cell: heading.Cell, Written: heading.Text, Why: heading.Because}
			if heading.Measure != measure.None {
				line.Measure = heading.Measure.String()
			}
			lines = append(lines, line)
		}
	}
	for _, record := range intake.Records(results.Read) {
		lines = append(lines, explainedLine{
			Kind: "cell", Sheet: record.Sheet, Cell: record.Cell, Tag: record.Tag, Written: record.Written,
			Measure: record.Measure.String(), Value: record.Value,
		})
	}
	for _, passed := range results.Read.Passed {
		lines = append(lines, explainedLine{Kind: "passed over", Sheet: passed.At.Sheet, Cell: passed.At.Cell, Written: passed.Written, Why: passed.Why})
	}
	for _, line := range lines {
		line.Workbook = name
		if err := encoder.Encode(line); err != nil {
			return err
		}
	}
	return nil
}
