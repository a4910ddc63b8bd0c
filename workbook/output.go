package workbook

import (
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
