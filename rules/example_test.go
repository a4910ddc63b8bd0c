package rules_test

import (
	"fmt"

	"railbook/rules"
)

func ExampleLoad() {
	tables := rules.DefaultTables()
	for _, table := range tables {
		if table.Name == rules.SettingsTable {
			table.Rows[3][2].Text = "three hundred" // the base price of beef
		}
	}
	_, faults := rules.Load(tables)
	for _, fault := range faults {
		fmt.Println(fault.Place.Cell, fault.Message)
	}
	// Output: C4 The setting "base price" is "three hundred". It should be a number from 0 to 10000.
}

func ExampleGradeChart() {
	for _, line := range rules.GradeChart("swine", "pork carcass grade")[:3] {
		fmt.Println(line.Group, line.Grade, line.At00.Decimal)
	}
	// Output:
	// 1 U.S. No. 2 0
	// 1 U.S. No. 3 3
	// 1 U.S. No. 4 4
}
