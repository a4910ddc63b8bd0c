package workbook

import (
	"fmt"
	"path/filepath"
	"strings"

	"railbook/rules/phrase"
	"railbook/workbook/xlsx"
)

// door is the way out for what is made of the inputs, which each output names.
func (o Options) door() *xlsx.Door {
	if o.Door == nil {
		return xlsx.NewDoor()
	}
	return o.Door
}

// inputs are the files that are read with these options.
func (o Options) inputs(further ...string) []string {
	return append(append(further[:len(further):len(further)], o.Second, o.Rulebook, o.LastYear, o.Answers, o.Decisions), o.Rosters...)
}

// output is a file made of the inputs and of what the options name.
func (o Options) output(path, extension string, data xlsx.Pieces, inputs ...string) xlsx.Output {
	return xlsx.Output{Path: path, Data: data, Extensions: []string{extension}, Force: o.Force, MadeOf: o.inputs(inputs...)}
}

// write writes a workbook made of the inputs, unless the very same is there already.
func (o Options) write(book *xlsx.Book, path, extension string, inputs ...string) (written bool, err error) {
	data, err := book.Content()
	if err != nil {
		return false, err
	}
	return o.door().Write(o.output(path, extension, data, inputs...))
}

// ourEnding is what a results workbook's name ends in, so that the next revision is named after the first input.
var ourEnding = phrase.NewPattern(`-(results(-\d+)?|signed)$`)

// resultsPath names the results workbook of a revision, beside the input: fair.xlsx gives fair-results.xlsx, then
// fair-results-2.xlsx.
func resultsPath(input string, revision int) string {
	if revision == 1 {
		return besideInput(input, "results")
	}
	return besideInput(input, fmt.Sprintf("results-%d", revision))
}

// besideInput names a file beside the input: fair-results.xlsx and "signed" give fair-signed.xlsx.
func besideInput(input, ending string) string {
	name := filepath.Base(input)
	stem := strings.TrimSuffix(name, filepath.Ext(name))
	stem = ourEnding.ReplaceAllString(stem, "")
	return filepath.Join(filepath.Dir(input), stem+"-"+ending+extensionFor(input))
}

// freshBeside names a workbook that is made afresh beside the input. Macros are the input's own and do not go along.
func freshBeside(input, ending string) string {
	path := besideInput(input, ending)
	return strings.TrimSuffix(path, filepath.Ext(path)) + ".xlsx"
}

// extensionFor is the extension of what is made of a workbook: a macro workbook's macros stay with it only under its own.
func extensionFor(input string) string {
	if strings.EqualFold(filepath.Ext(input), ".xlsm") {
		return ".xlsm"
	}
	return ".xlsx"
}
