package intake_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"railbook/rules"
	"railbook/validate"
	"railbook/workbook/intake"
	"railbook/workbook/xlsx"
)

// readText reads a sheet given as comma-separated lines.
func readText(t testing.TB, lines string) *intake.Result {
	t.Helper()
	book, err := xlsx.OpenBytes("cards.csv", []byte(lines), xlsx.OpenOptions{})
	if err != nil {
		t.Fatal(err)
	}
	result, err := intake.Read([]*xlsx.Book{book}, rules.Default(), intake.Options{})
	if err != nil {
		t.Fatal(err)
	}
	return result
}

const firstEntry = `Steers
Tag,Exhibitor,HCW,Fat,REA,KPH,Marbling
0412,Aster Gatepost,812,0.45,13.6,2.5,SM 40
0413,Umber Saltbox,790,0.3,12.9,2,SL 80
0414,Clover Inkpot,845,0.6,14.2,3,MT 10
`

func TestSecondEntryHoldsEveryDifference(t *testing.T) {
	tests := []struct {
		name, second string
		wanted       []string // level, tag, measure, hint
	}{
		{"the same", firstEntry, nil},
		{
			"a digit",
			`Steers
Tag,HCW,Fat,REA,KPH,Marbling
0412,812,0.45,16.3,2.5,SM 40
0413,790,0.3,12.9,2,SL 80
0414,845,0.6,14.2,3,MT 10
`,
			[]string{"hold 0412 ribeye area 16.3"},
		},
		{
			"another layout, other units, a measure of its own",
			`Steers
Marbling,Tag,Carcass wt (kg),Fat (mm),Ribeye (cm²),Dressing %
440,412,368.3,11.4,87.74,62
380,413,358.3,7.6,83.2,61
510,414,383.3,15.2,91.6,63
`,
			nil,
		},
		{
			"another layout and a difference",
			`Steers
Tag,Fat (mm),HCW,Marbling
412,11.4,812,440
413,9.1,790,380
414,15.2,854,510
`,
			[]string{"hold 0413 measured fat 0.3583", "hold 0414 hot carcass weight 854"},
		},
		{
			"a tag typed otherwise",
			strings.Replace(firstEntry, "0413", "0431", 1),
			[]string{"hold 0413 tag 0431"},
		},
		{
			"a blank and a carcass too few",
			`Steers
Tag,HCW,Fat,REA,KPH,Marbling
0412,812,,13.6,2.5,SM 40
0413,790,0.3,12.9,2,SL 80
`,
			[]string{"look 0412 measured fat ", "look  tag "},
		},
		{
			"a tag twice",
			strings.Replace(firstEntry, "0413", "0412", 1),
			[]string{"look 0412 tag ", "look  tag "},
		},
		{
			"unreadable there",
			strings.Replace(firstEntry, "12.9", "l2.9", 1),
			[]string{"look 0413 ribeye area "},
		},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			var got []string
			for _, finding := range intake.Differences(readText(t, firstEntry), readText(t, test.second), "second.csv") {
				if finding.Code == "second entry compared" {
					continue // which comes whatever is found
				}
				got = append(got, string(finding.Level)+" "+finding.Tag+" "+finding.Measure.String()+" "+finding.Hint)
				if finding.Level == validate.Hold && finding.Carcass == nil {
					t.Errorf("a hold without a carcass: %s", finding.Message)
				}
			}
			if strings.Join(got, "\n") != strings.Join(test.wanted, "\n") {
				t.Errorf("got\n%s\nwant\n%s", strings.Join(got, "\n"), strings.Join(test.wanted, "\n"))
			}
		})
	}
}

// TestSecondEntryAsksOnce: what one slip or one habit explains is one question, or one note, for all its cells; below the
// fewest cells that show it, each is asked about by itself.
func TestSecondEntryAsksOnce(t *testing.T) {
	const first = `Steers
Tag,HCW,Fat,REA,KPH,Marbling,Maturity
1,801.4,0.45,13.6,2.5,SM 40,A60
2,790.2,0.3,12.9,2,SL 80,A70
3,845,0.6,14.2,3,MT 10,A50
4,760,0.5,12.1,2.5,SM 60,A40
`
	tests := []struct {
		name   string
		change []string // old and new, by turns
		wanted string   // level, code, carcasses that it is about
	}{
		{"two numbers at whole steps", []string{"801.4", "801", "790.2", "790"}, "note second entry coarser 0"},
		{"one alone may be a slip", []string{"801.4,0.45", "801,0.45", "790.2,0.3", "790.2,0.3"}, "hold second entry differs 1"},
		{"past half of the step", []string{"801.4", "801", "790.2", "791"}, "hold second entry differs 1|hold second entry differs 1"},
		{"a degree for its score", []string{"SM 40", "Sm", "MT 10", "Modest"}, "note second entry coarser 0"},
		{"a third for a score in it", []string{"SM 40", "Sm°"}, "note second entry coarser 0"},
		{"a third for a score outside it", []string{"SM 40", "Sm+"}, "hold second entry differs 1"},
		{"the last score of a third", []string{"SM 60", "SM 67", "SL 80", "Sl+"}, "hold second entry differs 1|note second entry coarser 0"},
		{"a score at the end of its third", []string{"SM 40", "Sm-"}, "hold second entry differs 1"},
		{"a degree of another score", []string{"SM 40", "Sl"}, "hold second entry differs 1"},
		{"a raised score is no degree", []string{"SM 40", "Sm⁵⁰"}, "hold second entry differs 1"},
		{"a letter of maturity", []string{"A60", "A"}, "note second entry coarser 0"},
		{"a column one line off", []string{"13.6", "11.8", "12.9", "13.6", "14.2", "12.9", "12.1", "14.2"}, "hold second entry a line off 4"},
		{"a column one line off the other way", []string{"13.6", "12.9", "12.9,2,", "14.2,2,", "14.2", "12.1", "12.1", "11.2"}, "hold second entry a line off 4"},
		{"two lines are too few", []string{"14.2", "12.9", "12.1", "14.2"}, "hold second entry differs 1|hold second entry differs 1"},
		{"two columns one line off", []string{
			"13.6,2.5,SM 40", "11.8,2.5,SL 10", "12.9,2,SL 80", "13.6,2,SM 40", "14.2,3,MT 10", "12.9,3,SL 80", "12.1,2.5,SM 60", "14.2,2.5,MT 10",
		}, "hold second entry a line off 4"},
		{"a line one column off", []string{"4,760,0.5,12.1,2.5", "4,2.2,760,0.5,12.1"}, "hold second entry a column off 1"},
		{"two columns exchanged", []string{"REA,KPH", "KPH,REA"}, "hold second entry under other headings 4"},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			second := first
			var parts []string
			for i := 0; i < len(test.change); i += 2 {
				parts = append(parts, test.change[i], test.change[i+1])
			}
			second = strings.NewReplacer(parts...).Replace(second)
			var got []string
			for _, finding := range intake.Differences(readText(t, first), readText(t, second), "second.csv") {
				if finding.Code != "second entry compared" && finding.Code != "second entry asks" {
					got = append(got, fmt.Sprintf("%s %s %d", finding.Level, finding.Code, len(finding.Carcasses())))
				}
			}
			slices.Sort(got)
			if strings.Join(got, "|") != test.wanted {
				t.Errorf("got %s, want %s", strings.Join(got, "|"), test.wanted)
			}
		})
	}
}

// TestSecondEntrySaysWhatItCompared: whatever was found, the last finding says what was compared and what was not.
func TestSecondEntrySaysWhatItCompared(t *testing.T) {
	tests := []struct{ first, second, wanted string }{
		{firstEntry, firstEntry, `Second entry "second.csv", compared: 6 measures of 3 carcasses; nothing that either has was left uncompared.`},
		{firstEntry, strings.Replace(firstEntry, "REA", "Ey Sz", 1), `compared: 5 measures of 3 carcasses; not compared: ribeye area (heading "Ey Sz" of the second entry not known).`},
		{strings.Replace(firstEntry, "REA", "Ey Sz", 1), firstEntry, `not compared: ribeye area (heading "Ey Sz" of this workbook not known).`},
		{strings.Replace(firstEntry, "REA", "Ey Sz", 1), strings.Replace(firstEntry, "REA", "Ey Sz", 1), `compared: 5 measures of 3 carcasses; not compared: ribeye area (heading "Ey Sz" of this workbook not known).`},
		{firstEntry, strings.ReplaceAll(firstEntry, "KPH", "Pen"), `not compared: kidney, pelvic and heart fat (the second entry has no column of it).`},
		{firstEntry, "Steers\nTag,HCW,Fat\n0412,812,0.45\n", `compared: 2 measures of 1 carcass; not compared: exhibitor (the second entry has no column of it), ribeye area (the second entry has no column of it)`},
		{strings.Replace(firstEntry, "SM 40", "", 1), "Steers\nTag,HCW,Fat,Marbling\n0412,812,0.45,\n", `marbling (the second entry has nothing under "Marbling")`},
	}
	for _, test := range tests {
		findings := intake.Differences(readText(t, test.first), readText(t, test.second), "second.csv")
		last := findings[len(findings)-1]
		if last.Level != validate.Note || last.Code != "second entry compared" || !strings.Contains(last.Message, test.wanted) {
			t.Errorf("got  %s\nwant %s", last.Message, test.wanted)
		}
	}
}
