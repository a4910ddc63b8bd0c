package plant_test

import (
	"fmt"

	"railbook/rules/measure"
	"railbook/workbook/plant"
)

// The list as comma-separated values, with a column for the answer.
func ExampleCSV() {
	question := plant.Question{
		Rail: "12", Tag: "0401", Class: "Steers", Heading: "REA", Written: "115", Asked: "Is it 11.5?",
		About: plant.About{Workbook: "fair.xlsx", Sheet: "Rail", Cell: "D4", Measure: measure.RibeyeArea, Check: "out of range"},
	}
	fmt.Print(string(plant.CSV([]plant.Question{question})))
	// Output:
	// Rail,Tag,Class,As headed,What is written,What is asked,Your answer,Sheet,Cell,Workbook,Measure,Check
	// 12,0401,Steers,REA,115,Is it 11.5?,,Rail,D4,fair.xlsx,ribeye area,out of range
}
