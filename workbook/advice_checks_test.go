package workbook

import (
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"railbook/rules"
	"railbook/rules/address"
	"railbook/rules/measure"
	"railbook/validate"

	"github.com/xuri/excelize/v2"
)

// checkExample is one example of the page of the checks, as a workbook, with the questions that the page says come of it.
type checkExample struct {
	name  string
	rows  string
	asked []string // "hold: duplicate tag"
}

var (
	checkBlock = regexp.MustCompile("(?s)```rows\n(.*?)```\n\n```words\n(.*?)```")
	checkAsks  = regexp.MustCompile(`(?m)^((?:hold|look): .+?)(?:, hint .*)?$`)
)

// checkExamples gives every example of the page of the checks whose animals are on the rail; live ones are scanned, not
// weighed, and have no rail sheet to draw.
func checkExamples(t *testing.T) (list []checkExample) {
	t.Helper()
	page, err := os.ReadFile(filepath.Join("..", "validate", "README.md"))
	if err != nil {
		t.Fatal(err)
	}
	for _, section := range strings.Split(string(page), "\n### ")[1:] {
		name, _, _ := strings.Cut(section, "\n")
		for number, block := range checkBlock.FindAllStringSubmatch(section, -1) {
			if !strings.Contains(block[1], "basis:") {
				example := checkExample{name: fmt.Sprintf("%s %d", name, number+1), rows: block[1]}
				for _, said := range checkAsks.FindAllStringSubmatch(block[2], -1) {
					example.asked = append(example.asked, said[1])
				}
				list = append(list, example)
			}
		}
	}
	if len(list) < 60 {
		t.Fatalf("only %d examples of checks", len(list))
	}
	return list
}

// firstCarcasses are the carcasses that the lines of the page's examples change: see its introduction.
var firstCarcasses = map[rules.Species]string{
	rules.Beef: "class=Steers; live weight=1250; hot carcass weight=780; measured fat=0.4; ribeye area=13.6; " +
		"kidney, pelvic and heart fat=2.5; marbling=440; maturity=160",
	rules.Swine: "class=Barrows; live weight=270; hot carcass weight=200; tenth-rib fat=0.8; loin muscle area=7; skinned=no",
	rules.Lamb:  "class=Market lambs; live weight=125; hot carcass weight=66; measured fat=0.2; body wall thickness=0.8; ribeye area=2.8",
	rules.Goat:  "class=Market goats; live weight=80; hot carcass weight=40; measured fat=0.1; body wall thickness=0.5; ribeye area=1.8",
}

// draw makes the workbook of an example: the headings in row 4, the first carcass in row 5, and the roster on a sheet of its own.
func (e checkExample) draw(t *testing.T) adviceSheet {
	t.Helper()
	sheet := adviceSheet{name: e.name, path: filepath.Join(t.TempDir(), "fair.xlsx"), example: true, options: Options{Species: rules.Beef}}
	heading, roster := "Hot carcass weight", ""
	var lines, without []string
	others := 0
	for _, line := range strings.Split(strings.TrimSpace(e.rows), "\n") {
		switch name, value, _ := strings.Cut(line, ": "); name {
		case "roster":
			roster = value
		case "without":
			without = strings.Split(value, "; ")
		case "species":
			sheet.options.Species = rules.Species(value)
		case "the heading says":
			heading = value
		case "others":
			others, _ = strconv.Atoi(value)
		default:
			lines = append(lines, strings.TrimPrefix(line, "as it is"))
		}
	}
	var carcasses []map[measure.ID]string
	for i, line := range lines {
		carcasses = append(carcasses, checkRow(t, fmt.Sprintf("tag=%d; %s; %s", 101+i, firstCarcasses[sheet.options.Species], line)))
	}
	for i := range others {
		live := 1205 + 17*((i*7)%13)
		percent := 61.2 + 0.3*float64((i*5)%9)
		carcasses = append(carcasses, checkRow(t, fmt.Sprintf("tag=%d; %s; live weight=%d; hot carcass weight=%.0f; measured fat=%.2f; ribeye area=%.1f; marbling=%d",
			201+i, firstCarcasses[rules.Beef], live, float64(live)*percent/100, 0.3+0.03*float64((i*4)%11), 12.6+0.2*float64((i*3)%10), 380+10*((i*6)%15))))
	}
	var columns []measure.ID
	for _, carcass := range carcasses {
		for id := range carcass {
			definition, _ := measure.Define(id)
			if !slices.Contains(columns, id) && !slices.Contains(without, definition.Name) {
				columns = append(columns, id)
			}
		}
	}
	slices.SortFunc(columns, measure.CompareNames)
	columns = append([]measure.ID{measure.Tag}, slices.DeleteFunc(columns, func(id measure.ID) bool { return id == measure.Tag })...)
	file := excelize.NewFile()
	defer file.Close()
	if _, err := file.NewSheet("Steers"); err != nil {
		t.Fatal(err)
	}
	for column, id := range columns {
		definition, _ := measure.Define(id)
		text := definition.Heading
		if id == measure.HotCarcassWeight {
			text = heading
		}
		put(t, file, "Steers", address.Cell(column+1, 4), text)
		for row, carcass := range carcasses {
			number, err := strconv.ParseFloat(carcass[id], 64)
			switch {
			case carcass[id] == "":
			case id == measure.DarkCutterLowering: // which the page counts in thirds
				put(t, file, "Steers", address.Cell(column+1, row+5), carcass[id]+"/3")
			case err != nil || id == measure.Tag && !looksLikeNumber.MatchString(carcass[id]):
				put(t, file, "Steers", address.Cell(column+1, row+5), carcass[id])
			default:
				put(t, file, "Steers", address.Cell(column+1, row+5), number)
			}
		}
	}
	if roster != "" {
		if _, err := file.NewSheet("Roster"); err != nil {
			t.Fatal(err)
		}
		for row, tag := range append([]string{"Tag"}, strings.Fields(roster)...) {
			put(t, file, "Roster", address.Cell(1, row+1), tag)
			put(t, file, "Roster", address.Cell(2, row+1), map[bool]string{true: "Exhibitor", false: "Child " + tag}[row == 0])
		}
	}
	saveExample(t, file, sheet.path)
	return sheet
}

// checkRow reads the measures of a carcass; the last that is said of one counts, and an empty one takes it away.
func checkRow(t *testing.T, text string) map[measure.ID]string {
	t.Helper()
	row := map[measure.ID]string{}
	for _, part := range strings.Split(text, "; ") {
		if part = strings.TrimSpace(part); part == "" {
			continue
		}
		name, value, _ := strings.Cut(part, "=")
		id := measure.Standard().ByName(name)
		if id == measure.None {
			t.Fatalf("%q names no measure", part)
		}
		row[id] = value
	}
	return row
}

// saidByReading are questions of the page that reading has settled or asked before the checks are run.
var saidByReading = map[string]string{"hold: class missing": "look: class same as above"}

// TestEveryAdviceOfTheChecksIsRun draws the examples of the page of the checks as workbooks, and does what each of their findings
// says is to be done: the finding is gone then, and nothing worse has come. What the page says of an example is found in its
// workbook as well.
func TestEveryAdviceOfTheChecksIsRun(t *testing.T) {
	followed, asked := 0, 0
	for number, example := range checkExamples(t) {
		if os.Getenv("RAILBOOK_LONG") == "" && number%6 != 0 {
			continue
		}
		t.Run(example.name, func(t *testing.T) {
			sheet := example.draw(t)
			results, err := Examine(sheet.path, sheet.options)
			if err != nil {
				t.Fatal(err)
			}
			var said []string
			for _, finding := range results.Findings {
				if finding.Level != validate.Note {
					said = append(said, string(finding.Level)+": "+finding.Code)
				}
			}
			for _, wanted := range example.asked {
				if !slices.Contains(said, wanted) && !slices.Contains(said, saidByReading[wanted]) {
					t.Errorf("the page says %q, and of its workbook is said only %q", wanted, said)
				}
			}
			done, found := followAdvices(t, sheet, results)
			followed, asked = followed+done, asked+found
		})
	}
	t.Logf("%d advices followed for %d findings", followed, asked)
}
