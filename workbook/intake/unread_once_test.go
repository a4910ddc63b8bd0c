package intake

import (
	"fmt"
	"strings"
	"testing"
)

// Cells that one act settles are asked about one by one up to three, and from four on once for their column.
func TestCellsThatOneActSettles(t *testing.T) {
	for lines, wanted := range map[int]string{3: "hold F2 1|hold F3 1|hold F4 1", 4: "hold F1 4"} {
		text := "Tag|HCW|Fat|REA|KPH|Marbling\n"
		for i := range lines {
			text += fmt.Sprintf("10%d|801|.4|13.1|2.5|4.%d\n", i, i+1)
		}
		var got []string
		for _, finding := range readSheets(t, Options{}, sheetOf("Steers", text+"109|801|.4|13.1|2.5|440")).Findings {
			if finding.Code == "ambiguous marbling number" {
				got = append(got, fmt.Sprintf("%s %s %d", finding.Level, finding.At.Cell, len(finding.Carcasses())))
			}
		}
		if strings.Join(got, "|") != wanted {
			t.Errorf("%d cells: got %s, want %s", lines, strings.Join(got, "|"), wanted)
		}
	}
}

// Ditto signs for a class are asked about one by one up to three, and from four on once for their column; those for a name are
// one question, and hold nobody.
func TestDittoSignsAreAskedOnce(t *testing.T) {
	for lines, wanted := range map[int]string{
		3: "hold ditto signs B3 1|hold ditto signs B4 1|hold ditto signs B5 1|look cells left blank C1 0", 4: "hold ditto signs B1 4|look cells left blank C1 0",
	} {
		text := "Tag|Class|Exhibitor|HCW|Fat|KPH\n101|Heavy|Aster Gatepost|801|.4|2\n"
		for i := range lines {
			text += fmt.Sprintf("20%d|\"|\"|80%d|.4|2\n", i, i)
		}
		var got []string
		for _, finding := range readSheets(t, Options{}, sheetOf("Steers", text)).Findings {
			if finding.Code == dittoSigns || finding.Code == "cells left blank" {
				got = append(got, fmt.Sprintf("%s %s %s %d", finding.Level, finding.Code, finding.At.Cell, len(finding.Carcasses())))
			}
		}
		if strings.Join(got, "|") != wanted {
			t.Errorf("%d signs: got %s, want %s", lines, strings.Join(got, "|"), wanted)
		}
	}
}

// Carcasses that stand in one class and were all entered in one other are asked about one by one up to three, and from four on
// together; what another entry says is a question of its own.
func TestClassesOfTheRosterAreAskedOnce(t *testing.T) {
	for number, wanted := range map[int]string{3: "A2 1|A3 1|A4 1|A5 1", 4: "A2 4|A6 1"} {
		sheet, roster := "Tag|Class|HCW|Fat|KPH\n", "Tag|Exhibitor|Class\n"
		for i := range number + 1 {
			entered := "Heavy steers"
			if i == number {
				entered = "Dairy steers"
			}
			sheet += fmt.Sprintf("10%d|Light steers|80%d|.4|2\n", i, i)
			roster += fmt.Sprintf("10%d|Child %d|%s\n", i, i, entered)
		}
		var got []string
		for _, finding := range readSheets(t, Options{}, sheetOf("Steers", sheet), sheetOf("Entries", roster)).Findings {
			if finding.Code == classDiffers {
				got = append(got, fmt.Sprintf("%s %d", finding.At.Cell, len(finding.Carcasses())))
				if together := "4 carcasses that stand in class \"Light steers\" (A2, A3, A4, A5) were entered in \"Heavy steers\""; len(finding.Carcasses()) > 1 && !strings.Contains(finding.Message, together) {
					t.Errorf("said: %s", finding.Message)
				}
			}
		}
		if strings.Join(got, "|") != wanted {
			t.Errorf("%d carcasses: got %s, want %s", number, strings.Join(got, "|"), wanted)
		}
	}
}
