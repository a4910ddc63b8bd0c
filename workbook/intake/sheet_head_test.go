package intake

import (
	"bytes"
	"fmt"
	"strings"
	"testing"

	"railbook/rules"
	"railbook/workbook/xlsx"

	"github.com/xuri/excelize/v2"
)

// Of a sheet with very many cells and no table in its beginning no more is read, which a Note says; one whose table begins there is
// read to its end.
func TestAVeryLargeSheetIsReadWhereItsTableBegins(t *testing.T) {
	file := excelize.NewFile()
	set := func(sheet string, row int, values ...any) {
		if err := file.SetSheetRow(sheet, fmt.Sprintf("A%d", row), &values); err != nil {
			t.Fatal(err)
		}
	}
	if _, err := file.NewSheet("Scale"); err != nil {
		t.Fatal(err)
	}
	set("Sheet1", 1, "Tag", "Class", "HCW", "Adj fat", "REA", "KPH", "Marbling")
	for row := 2; row <= 9; row++ {
		set("Sheet1", row, fmt.Sprint(400+row), "Steers", 800+row, 0.45, 13.2, 2.5, 440)
		set("Scale", row, row, row, row, row, row, row, row)
	}
	var data bytes.Buffer
	if err := file.Write(&data); err != nil {
		t.Fatal(err)
	}
	was := headCells
	defer func() { headCells = was }()
	for cells, noted := range map[int]bool{55: true, 56: false, was: false} { // the scale's sheet has 56, the other one 63
		headCells = cells
		book, err := xlsx.OpenBytes("fair.xlsx", data.Bytes(), xlsx.OpenOptions{})
		if err != nil {
			t.Fatal(err)
		}
		result, err := Read([]*xlsx.Book{book}, rules.Shipped(), Options{})
		if err != nil || len(result.Carcasses) != 8 {
			t.Fatalf("%d cells: %d carcasses, %v", cells, len(result.Carcasses), err)
		}
		said := false
		for _, finding := range result.Findings {
			said = said || strings.Contains(finding.Message, `Sheet "Scale"`) && strings.Contains(finding.Message, "read no further")
		}
		if said != noted {
			t.Errorf("%d cells: said %v, want %v: %v", cells, said, noted, result.Findings)
		}
	}
}
