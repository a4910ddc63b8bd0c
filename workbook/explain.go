package workbook

import (
	"fmt"
	"io"

	"railbook/rules/measure"
	"railbook/rules/phrase"
	"railbook/workbook/intake"
	"railbook/workbook/result"
)

// Explain prints how a workbook was read: which heading as which measure, each cell and its value, and what was passed
// over and why.
func Explain(to io.Writer, results *result.Results) error {
	for _, block := range results.Read.Blocks {
		if _, err := fmt.Fprintf(to, "\nSheet %q: %s, headings in line %d\n", block.Sheet,
			phrase.Plural(len(block.Carcasses), "carcass", "carcasses"), block.FirstRow); err != nil {
			return err
		}
		for _, heading := range block.Headings {
			if _, err := io.WriteString(to, Wrapped("  "+headingWords(heading), "      ")); err != nil {
				return err
			}
		}
	}
	if _, err := fmt.Fprintln(to, "\nCells"); err != nil {
		return err
	}
	for _, record := range intake.Records(results.Read) {
		value := record.Value
		if value == "" {
			value = "not understood"
		}
		if _, err := fmt.Fprintf(to, "  %s!%s  tag %s  %s: %q read as %s\n", record.Sheet, record.Cell, record.Tag, record.Measure, record.Written, value); err != nil {
			return err
		}
	}
	if len(results.Read.Passed) > 0 {
		if _, err := fmt.Fprintln(to, "\nPassed over"); err != nil {
			return err
		}
	}
	for _, passed := range results.Read.Passed {
		if _, err := fmt.Fprintf(to, "  %s!%s  %q: %s\n", passed.At.Sheet, passed.At.Cell, passed.Written, passed.Why); err != nil {
			return err
		}
	}
	return nil
}

func headingWords(heading intake.Heading) string {
	if heading.Measure == measure.None {
		return fmt.Sprintf("%s %q: left alone", heading.Cell, heading.Text)
	}
	unit := heading.Unit
	if unit == "" {
		definition, _ := measure.Define(heading.Measure)
		unit = definition.Unit
	}
	words := fmt.Sprintf("%s %q: %s", heading.Cell, heading.Text, heading.Measure)
	if unit != "" {
		words += " in " + unit
	}
	if heading.Because != "" {
		words += " (" + heading.Because + ")"
	}
	return words
}
