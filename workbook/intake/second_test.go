package intake_test

import (
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
			for _, finding := range intake.Differences(readText(t, firstEntry), readText(t, test.second)) {
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
