package workbook_test

import (
	"fmt"
	"os"
	"path/filepath"

	"railbook/workbook"
)

// copied lays a copy of a workbook into a folder of its own, which the caller removes.
func copied(path string) (folder, laid string, err error) {
	if folder, err = os.MkdirTemp("", "example"); err != nil {
		return "", "", err
	}
	data, err := os.ReadFile(path)
	if err != nil {
		return folder, "", err
	}
	laid = filepath.Join(folder, filepath.Base(path))
	return folder, laid, os.WriteFile(laid, data, 0o600)
}

// The invented fair graded: the results are written beside a copy of it.
func ExampleGrade() {
	folder, path, err := copied("../testdata/demo/goat.xlsx")
	defer os.RemoveAll(folder)
	if err != nil {
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

// A sheet without an open question, graded and signed. While a carcass is on hold, Sign refuses and says what is to be settled.
func ExampleSign() {
	folder, path, err := copied("../testdata/layouts/class-column.xlsx")
	defer os.RemoveAll(folder)
	if err != nil {
		fmt.Println(err)
		return
	}
	graded, err := workbook.Grade(path, workbook.Options{})
	if err != nil {
		fmt.Println(err)
		return
	}
	signed, err := workbook.Sign(graded.Path, "Hedda Quince", "2025-08-21", workbook.Options{})
	if err != nil {
		fmt.Println(err)
		return
	}
	run := signed.Results.Run
	fmt.Println(filepath.Base(signed.Path), run.Status, "by", run.Judge, "on", run.Date)
	// Output: class-column-signed.xlsx Signed by Hedda Quince on 2025-08-21
}

// A workbook that was signed by an earlier version of the program, in which nothing has changed since.
func ExampleVerify() {
	verified, err := workbook.Verify("../testdata/kept/fair-signed.xlsx", workbook.Options{Version: "development"})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(len(verified.Differences), "differences since", verified.Run.Judge, "signed")
	// Output: 0 differences since Hedda Quince signed
}

// Family cards and the public sheet, which names those alone who have consent.
func ExamplePublish() {
	folder, path, err := copied("../testdata/layouts/class-column.xlsx")
	defer os.RemoveAll(folder)
	if err != nil {
		fmt.Println(err)
		return
	}
	graded, err := workbook.Grade(path, workbook.Options{})
	if err != nil {
		fmt.Println(err)
		return
	}
	published, err := workbook.Publish(graded.Path, workbook.Options{}, workbook.PublishOptions{})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(filepath.Base(published.Cards.Path), filepath.Base(published.Public.Path))
	fmt.Println(published.Named, "named with consent,", published.Tagged, "by the tag alone")
	// Output:
	// class-column-cards.xlsx class-column-public.xlsx
	// 0 named with consent, 3 by the tag alone
}
