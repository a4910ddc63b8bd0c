package workbook

import (
	"path/filepath"
	"slices"
	"strings"

	"railbook/workbook/plant"
	"railbook/workbook/result"
	"railbook/workbook/xlsx"
)

// WriteQuestions writes the doubtful cells of one or more workbooks as a list of questions to send back to the plant. A name that
// ends in .xlsx gives a workbook with a column for the answers, one in .csv comma-separated values, one in .txt a text that can
// be pasted into a message.
func WriteQuestions(path string, all []*result.Results, options Options) error {
	var inputs, names []string
	var questions []plant.Question
	for _, results := range all {
		inputs = append(inputs, results.Book.Path)
		if name := filepath.Base(results.Book.Path); !slices.Contains(names, name) {
			names = append(names, name)
		}
		questions = append(questions, plant.Questions(results)...)
	}
	var data []byte
	var err error
	switch strings.ToLower(filepath.Ext(path)) {
	case ".xlsx":
		data, err = plant.Workbook(questions)
	case ".csv":
		data = plant.CSV(questions)
	default:
		data = plant.Text(names, questions, Wrapped)
	}
	if err != nil {
		return err
	}
	output := options.output(path, ".xlsx", xlsx.Whole(data), inputs...)
	output.Extensions = []string{".xlsx", ".csv", ".txt"}
	_, err = options.door().Write(output)
	return err
}
