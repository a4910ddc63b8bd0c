package xlsx_test

import (
	"fmt"

	"railbook/workbook/xlsx"
)

func ExampleOpenBytes() {
	book, err := xlsx.OpenBytes("steers.csv", []byte("Tag,HCW\n0412,801\n"), xlsx.OpenOptions{})
	if err != nil {
		fmt.Println(err)
		return
	}
	sheet := book.Sheets()[0].Name
	grid, err := book.Scan(sheet)
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, row := range grid.Rows {
		fmt.Println(row.Number, row.Cells[0].Raw, row.Cells[1].Raw)
	}
	// Output:
	// 1 Tag HCW
	// 2 0412 801
}

// A file that is no workbook gets a sentence of its own.
func ExampleOpenBytes_notAWorkbook() {
	_, err := xlsx.OpenBytes("fair.xlsx", nil, xlsx.OpenOptions{})
	fmt.Println(err)
	// Output: fair.xlsx is empty: ask for it again, or save it again from the program it was made with
}
