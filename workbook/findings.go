package workbook

import (
	"encoding/json"
	"fmt"
	"io"
	"path/filepath"

	"railbook/rules/phrase"
	"railbook/validate"
	"railbook/workbook/result"
)

// findingLine is one finding as a line of JSON.
type findingLine struct {
	Workbook string         `json:"workbook"`
	Level    validate.Level `json:"level"`
	Code     string         `json:"code"`
	File     string         `json:"file,omitempty"`
	Sheet    string         `json:"sheet"`
	Cell     string         `json:"cell"`
	Tag      string         `json:"tag"`
	Measure  string         `json:"measure"`
	Read     string         `json:"read"`
	Message  string         `json:"message"`
	Hint     string         `json:"hint"`
	Settled  string         `json:"settled,omitempty"` // how the judge settled it
}

// FindingsJSON prints the findings, one JSON object a line.
func FindingsJSON(to io.Writer, results *result.Results) error {
	encoder := json.NewEncoder(to)
	encoder.SetEscapeHTML(false)
	for _, finding := range results.Findings {
		line := findingLine{
			Workbook: filepath.Base(results.Book.Path), Level: finding.Level, Code: finding.Code, File: finding.At.File, Sheet: finding.At.Sheet, Cell: finding.At.Cell,
			Tag: finding.Tag, Measure: finding.Measure.String(), Read: finding.Read, Message: finding.Message, Hint: finding.Hint,
		}
		if finding.Settled != nil {
			line.Settled = string(finding.Settled.Choice)
		}
		if err := encoder.Encode(line); err != nil {
			return err
		}
	}
	return nil
}

// FindingsText prints the findings for a person on a terminal: gravest first, each in a sentence.
func FindingsText(to io.Writer, results *result.Results) error {
	tally := Count(results)
	_, err := fmt.Fprintf(to, "%s: %s read; %s, %s, %s.\n", filepath.Base(results.Book.Path),
		phrase.Plural(tally.Carcasses, "carcass", "carcasses"), phrase.Plural(tally.Holds, "hold", "holds"),
		phrase.Plural(tally.Looks, "to look at", "to look at"), phrase.Plural(tally.Notes, "note", "notes"))
	if err != nil {
		return err
	}
	for _, level := range []struct {
		level validate.Level
		title string
	}{
		{validate.Hold, "ON HOLD: left out of the placings until settled"},
		{validate.Look, "LOOK: placed, but worth a look before signing"},
		{validate.Note, "NOTE: what was assumed, converted or passed over"},
	} {
		if err := findingsOfLevel(to, results.Findings, level.level, level.title); err != nil {
			return err
		}
	}
	return nil
}

func findingsOfLevel(to io.Writer, findings []validate.Finding, level validate.Level, title string) error {
	first := true
	for _, finding := range findings {
		if finding.Level != level || finding.Settled != nil {
			continue
		}
		if first {
			fmt.Fprintf(to, "\n%s\n", title)
			first = false
		}
		line := "- " + finding.Message
		if finding.Tag != "" {
			line = "- Tag " + finding.Tag + ". " + finding.Message
		}
		if finding.Hint != "" {
			line += " (Likely: " + finding.Hint + ")"
		}
		if _, err := io.WriteString(to, Wrapped(line, "  ")); err != nil {
			return err
		}
	}
	return nil
}
