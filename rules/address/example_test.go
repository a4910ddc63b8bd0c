package address_test

import (
	"fmt"

	"railbook/rules/address"
)

func ExampleCell() {
	fmt.Println(address.Cell(7, 14), address.Fixed(7, 14), address.Span(7, 14, 8, 20))
	// Output: G14 $G$14 G14:H20
}

func ExampleParse() {
	fmt.Println(address.Parse("$G$14"))
	// Output: 7 14 true
}
