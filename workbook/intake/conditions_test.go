package intake

import (
	"strings"
	"testing"
)

// TestConditionWords holds what words on a carcass's line are taken to name, and what they are not. The words are those of
// plants' and offices' sheets (common practice).
func TestConditionWords(t *testing.T) {
	tests := []struct{ heading, text, named string }{
		{"Disposition", "CONDEMNED", "condemned"},
		{"Disposition", "Passed", ""},
		{"Disposition", "not condemned", ""},
		{"Insp.", "RETAINED", "retained"},
		{"Insp.", "held for vet", "retained"},
		{"Dk Cut?", "X", "dark cutter"},
		{"Dk Cut?", "n", ""},
		{"Dk Cut?", "none", ""},
		{"Dk Cut?", "3", ""},
		{"Cond?", "Y", "condemned"},
		{"Cond. score", "5", ""},
		{"Condemned lbs", "12", "condemned"},
		{"Condemned lbs", "0", ""},
		{"Not condemned", "x", ""},
		{"Trim/Defect", "severe trim", "trimmed"},
		{"Status", "did not make weight", "out"},
		{"Status", "didn't weigh", "out"},
		{"Status", "weighed", ""},
		{"Status", "DNS", "out"},
		{"Status", "No-show", "out"},
		{"Status", "showed", ""},
		{"Status", "sold privately", "out"},
		{"Status", "sold", ""},
		{"Status", "dead on arrival", "out"},
		{"Status", "deadline met", ""},
		{"Ribbon", "DQ", "out"},
		{"Ribbon", "NC", "out"},
		{"Ribbon", "Blue", ""},
		{"State", "NC", ""},
		{"Sire", "Dead Ringer 14", ""},
		{"Sire", "condemned", "condemned"},
		{"Buyer", "Retained Ranch", ""},
		{"Buyer", "Withdrawn", "out"},
		{"Hide color", "dark", ""},
		{"Insp.", "lean is dark, drop 1/3", "dark cutter"},
		{"Insp.", "very dark", ""},
		{"Insp.", "dark meat", "dark cutter"},
		{"Insp.", "lean not dark", ""},
		{"Insp.", "hard-boned", "hardbone"},
		{"Insp.", "hard to bone", ""},
		{"Insp.", "dairy type", "dairy type"},
		{"Insp.", "not of dairy type", ""},
		{"Buyer", "Dairy Barn", ""},
		{"Insp.", "30+ mos.", "over 30 months"},
		{"Insp.", "over 30", "over 30 months"},
		{"Insp.", "over 300 lb side", ""},
		{"Insp.", "30 months", ""},
		{"Insp.", "staggy", "bullock"},
		{"Insp.", "late stage", ""},
		{"Insp.", "skinned", "skinned"},
		{"Insp.", "not skinned", ""},
		{"Insp.", "thick-skinned", "skinned"}, // asks, and no more
		{"Insp.", "advanced bone", "hardbone"},
		{"Insp.", "C bone", "hardbone"},
		{"Insp.", "B bone", ""},
		{"Insp.", "T-bone", ""},
		{"Insp.", "heiferette", "hardbone"},
		{"QG", "Ch/HB", "hardbone"},
		{"Trim lb", "12", "trimmed"},
		{"Trim", "8.5 lb", "trimmed"},
		{"Trim lb", "0", ""},
		{"Trim lb", "0.0", ""},
		{"Status", "pulled from the contest", "out"},
		{"Status", "hide pulled", ""},
		{"Status", "not eligible", "out"},
		{"Status", "eligible", ""},
	}
	for _, test := range tests {
		var names []string
		for _, condition := range namedUnder(test.heading, test.text) {
			if condition.measure == notCompeting {
				names = append(names, "out")
				continue
			}
			names = append(names, condition.measure.String())
		}
		if got := strings.Join(names, ", "); got != test.named {
			t.Errorf("%q under %q names %q, want %q", test.text, test.heading, got, test.named)
		}
	}
}

// TestWordsBehindNames holds that what is set off behind an exhibitor's name is no part of it (common practice).
func TestWordsBehindNames(t *testing.T) {
	for text, out := range map[string]bool{
		"Cal Mott - DQ": true, "Cal Mott (scratched)": true, "Cal Mott * no show": true, "Cal Mott – Withdrawn": true,
		"Cal Mott": false, "DQ": false, "Ann-Marie Dead": false, "Lowe, Ann & Bob": false, "Cal Mott (Ridge)": false, "Scratch Farm": false,
	} {
		if got := len(namedBehind(text)) > 0; got != out {
			t.Errorf("%q: %v", text, got)
		}
	}
}

// TestAbsentInOtherWords holds which words say of a line without measures that its animal was not there; beside measures
// they say nothing.
func TestAbsentInOtherWords(t *testing.T) {
	for _, test := range []struct{ weight, remark, tags string }{
		{"", "sold at barn", "101"},
		{"", "went home", "101"},
		{"NS", "", "101"},
		{"", "ill-tempered", "101 102"},
		{"790", "sold at barn", "101 102"},
		{"0", "went home", "101 102"},
	} {
		var tags []string
		result := readSheets(t, Options{}, sheetOf("Steers", "Tag|HCW|Fat|KPH|Remarks\n101|812|.45|2|\n102|"+test.weight+"|||"+test.remark))
		for _, carcass := range result.Carcasses {
			tags = append(tags, carcass.Tag)
		}
		if got := strings.Join(tags, " "); got != test.tags {
			t.Errorf("%q and %q: tags %s, want %s", test.weight, test.remark, got, test.tags)
		}
	}
}

// TestManyOfAColumn holds from when on a column is asked about once: four lines, and more than a third.
func TestManyOfAColumn(t *testing.T) {
	tests := []struct{ marked, lines, questions int }{{3, 3, 3}, {4, 4, 1}, {4, 11, 1}, {4, 12, 4}, {5, 15, 5}, {5, 14, 1}}
	for _, test := range tests {
		sheet := "Tag|HCW|Fat|KPH|Insp.\n"
		for line := range test.lines {
			mark := ""
			if line < test.marked {
				mark = "retained"
			}
			sheet += strings.Repeat("1", line+1) + "|812|.45|2|" + mark + "\n"
		}
		result := readSheets(t, Options{}, sheetOf("Steers", sheet))
		holds, kept := 0, 0
		for _, finding := range result.Findings {
			if finding.Level == "hold" {
				holds++
				kept += len(finding.Carcasses())
			}
		}
		if holds != test.questions || kept != test.marked {
			t.Errorf("%d marks on %d lines: %d questions that keep %d carcasses out, want %d and %d",
				test.marked, test.lines, holds, kept, test.questions, test.marked)
		}
	}
}

// TestColumnOfOneCondition holds what is asked where a whole column names one thing: dark cutters are marked, so that their
// grade and price are lowered, and only animals that can't be placed are left out.
func TestColumnOfOneCondition(t *testing.T) {
	tests := []struct{ heading, text, level, asks string }{
		{"Remarks", "dark cutter", "look", `name dark cutter. Where that is so, write yes on the line in a column headed "Dark cutter", so that it counts`},
		{"Insp.", "dark cutter", "hold", `name dark cutter. Where that is so, write yes on the line in a column headed "Dark cutter", so that it counts`},
		{"Remarks", "blood splash", "look", `write yes on the line in a column headed "Blood splash"`},
		{"Remarks", "retained", "hold", "name retained. If that is so, leave these carcasses out here"},
		{"Status", "scratched", "hold", "does not compete. If that is so, leave these carcasses out here"},
		{"Remarks", "cooler wt", "look", "say that the carcass was weighed cold. If so, correct those weights"},
		{"Remarks", "tag torn", "look", "speak of the tag"},
	}
	for _, test := range tests {
		sheet := "Tag|HCW|Fat|KPH|" + test.heading + "\n"
		for line := range 5 {
			sheet += strings.Repeat("1", line+1) + "|812|.45|2|" + test.text + "\n"
		}
		found := false
		for _, finding := range readSheets(t, Options{}, sheetOf("Steers", sheet)).Findings {
			if finding.Code == "column names a condition" {
				found = true
				if string(finding.Level) != test.level || !strings.Contains(finding.Message, test.asks) {
					t.Errorf("%q under %q: %s: %s", test.text, test.heading, finding.Level, finding.Message)
				}
			}
		}
		if !found {
			t.Errorf("%q under %q: the column is not asked about", test.text, test.heading)
		}
	}
}
