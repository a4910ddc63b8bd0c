package names_test

import (
	"fmt"

	"railbook/workbook/names"
)

func ExampleSame() {
	fmt.Println(names.Same("Teakettle, Aster", "Aster Teakettle"), names.Same("Aster Teakettle", "Fennel Teakettle"))
	// Output: true false
}
