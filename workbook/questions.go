package workbook

import (
	"bytes"
	"encoding/csv"
	"fmt"
	"path/filepath"
	"strings"

	"railbook/validate"
	"railbook/workbook/result"
)

// WriteQuestions writes the doubtful cells of one or more workbooks as a short list to send back to the plant: tag, measure,
// what is written, what is asked. A name that ends in .csv gives a CSV file, one that ends in .txt a text that can be pasted
// into a message.
func WriteQuestions(path string, all []*result.Results, options Options) error {
	data := questionsText
	if strings.EqualFold(filepath.Ext(path), ".csv") {
		data = questionsCSV
	}
	var inputs []string
	for _, results := range all {
		inputs = append(inputs, results.Book.Path)
	}
	output := options.output(path, ".txt", data(all), inputs...)
	output.Extensions = []string{".txt", ".csv"}
	_, err := options.door(inputs...).Write(output)
	return err
}

// asked gives the open findings that a plant can answer: those about a carcass that are more than a note.
func asked(results *result.Results) (list []validate.Finding) {
	for _, finding := range results.Findings {
		if finding.Settled == nil && finding.Level != validate.Note && finding.Carcass != nil {
			list = append(list, finding)
		}
	}
	return list
}

func questionsCSV(all []*result.Results) []byte {
	var text bytes.Buffer
	writer := csv.NewWriter(&text)
	_ = writer.Write([]string{"Tag", "Workbook", "Sheet", "Cell", "Measure", "What is written", "What is asked", "Your answer"})
	for _, results := range all {
		for _, finding := range asked(results) {
			_ = writer.Write([]string{
				neverFormula(finding.Tag), neverFormula(filepath.Base(results.Book.Path)), neverFormula(finding.At.Sheet), finding.At.Cell,
				finding.Measure.String(), neverFormula(finding.Read), question(finding), "",
			})
		}
	}
	writer.Flush()
	return text.Bytes()
}

func questionsText(all []*result.Results) []byte {
	var text bytes.Buffer
	for at, results := range all {
		if at > 0 {
			text.WriteString("\n")
		}
		text.WriteString(Wrapped("Questions about "+filepath.Base(results.Book.Path)+". Please look at the card or the carcass again and answer each line.", ""))
		for i, finding := range asked(results) {
			text.WriteString("\n")
			text.WriteString(Wrapped(fmt.Sprintf("%d. Tag %s, %s", i+1, orBlank(finding.Tag), finding.At), "   "))
			text.WriteString(Wrapped("   "+question(finding), "   "))
			text.WriteString("   Answer: ____________________\n")
		}
	}
	return text.Bytes()
}

// question turns a finding into what the plant is asked.
func question(finding validate.Finding) string {
	about := finding.Measure.String()
	if about == "" {
		return finding.Message
	}
	words := about + ": written is " + orBlank(finding.Read) + "."
	if finding.Read == "" {
		words = about + ": nothing is written. What was it?"
	}
	if finding.Hint != "" {
		return words + " Should it be " + finding.Hint + "?"
	}
	return words + " Is that right?"
}

// neverFormula keeps a spreadsheet program from taking text of the input for a formula.
func neverFormula(text string) string {
	if text != "" && strings.ContainsRune("=+-@\t\r", rune(text[0])) {
		return "'" + text
	}
	return text
}
