package intake_test

import (
	"fmt"

	"railbook/rules"
	"railbook/rules/measure"
	"railbook/workbook/intake"
	"railbook/workbook/xlsx"
)

// A sheet as a plant may type it: the weight has its unit, and the fat is in tenths.
func ExampleRead() {
	text := "Steers\nEar tag,HCW,Fat,REA,KPH\n0412,801 lb,.40,13.1,2.5\n"
	book, err := xlsx.OpenBytes("steers.csv", []byte(text), xlsx.OpenOptions{})
	if err != nil {
		fmt.Println(err)
		return
	}
	read, err := intake.Read([]*xlsx.Book{book}, rules.Default(), intake.Options{})
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, carcass := range read.Carcasses {
		weight := carcass.ReadingOf(measure.HotCarcassWeight)
		fmt.Printf("tag %s, %s: %q is %s lb\n", carcass.Tag, weight.Place, weight.Written, weight.Value.Number)
	}
	// Output: tag 0412, sheet "steers", cell B3: "801 lb" is 801 lb
}
