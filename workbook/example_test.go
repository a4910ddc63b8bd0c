package workbook_test

import (
	"fmt"
	"os"
	"path/filepath"

	"railbook/workbook"
)

// The invented fair graded: the results are written beside a copy of it.
func ExampleGrade() {
	folder, err := os.MkdirTemp("", "example")
	if err != nil {
		fmt.Println(err)
		return
	}
	defer os.RemoveAll(folder)
	fair, err := os.ReadFile("../testdata/demo/goat.xlsx")
	if err != nil {
		fmt.Println(err)
		return
	}
	path := filepath.Join(folder, "goat.xlsx")
	if err := os.WriteFile(path, fair, 0o600); err != nil {
		fmt.Println(err)
		return
	}
	outcome, err := workbook.Grade(path, workbook.Options{})
	if err != nil {
		fmt.Println(err)
		return
	}
	counts := workbook.Count(outcome.Results)
	fmt.Println(filepath.Base(outcome.Path), counts.Carcasses, "carcasses,", counts.OnHold, "on hold")
	// Output: goat-results.xlsx 10 carcasses, 2 on hold
}
