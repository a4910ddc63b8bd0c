package record_test

import (
	"fmt"
	"slices"

	"railbook/rules/measure"
	"railbook/workbook/record"
)

// A ribeye area that was typed over between two gradings.
func ExampleDiff() {
	tag := record.Reading{Carcass: 1, Sheet: "Rail", Cell: "A4", Line: "4", Class: "Steers", Tag: "0412", Measure: measure.Tag, Written: "0412", Value: "0412"}
	area := record.Reading{Carcass: 1, Sheet: "Rail", Cell: "D4", Line: "4", Class: "Steers", Tag: "0412", Measure: measure.RibeyeArea, Written: "136", Value: "136"}
	retyped := area
	retyped.Written, retyped.Value = "13.6", "13.6"
	changes, _ := record.Diff([]record.Reading{tag, area}, []record.Reading{tag, retyped})
	for _, change := range changes {
		fmt.Printf("%s: %s of tag %s was %s, is %s\n", change.At, change.Measure, change.Tag, change.Was, change.Is)
	}
	// Output: sheet "Rail", cell D4: ribeye area of tag 0412 was 136, is 13.6
}

// What is kept is plain text, and is read back as it was written.
func ExampleState_Lines() {
	none := func(func(record.Reading) bool) {}
	state := record.State{Run: record.Run{InputName: "fair.xlsx", Revision: 2}, Readings: none, Words: map[string]string{"Steers\t0412": "A fine top."}}
	lines := state.Lines()
	again := record.StateOf(lines, "Recorded")
	fmt.Println(lines[0])
	fmt.Println(again.Whole, again.Run.InputName, again.Run.Revision, again.Words["Steers\t0412"])
	spoiled := slices.Clone(lines)
	spoiled[1] += "!"
	fmt.Println(record.StateOf(spoiled, "Recorded").Whole)
	// Output:
	// railbook record 1
	// true fair.xlsx 2 A fine top.
	// false
}
