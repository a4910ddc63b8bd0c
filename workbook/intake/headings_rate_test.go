package intake

import (
	"encoding/csv"
	"fmt"
	"os"
	"slices"
	"strings"
	"testing"

	"railbook/rules"
	"railbook/rules/measure"
	"railbook/rules/phrase"
	"railbook/validate"
)

// columnValues are what stands under a heading of each measure, six carcasses of a fair's kind (common practice).
var columnValues = map[string]string{
	"tag": "1041,1042,1047,2203,2204,388", "electronic tag": "840003123456781,840003123456782,840003123456783,840003123456784,840003123456785,840003123456786",
	"old tag": "17,18,19,20,21,22", "rail number": "1,2,3,4,5,6", "class": "Market Steers,Market Steers,Market Steers,Bred and Owned,Bred and Owned,Bred and Owned",
	"exhibitor": "Pip Larch,Ivy Stoat,Ned Plover,Wren Ashby,Tam Birdsong,Sol Underhill", "club": "Upper Fork,Upper Fork,Pine Hill,Pine Hill,Oak Dale,Oak Dale",
	"family": "Larch,Stoat,Plover,Ashby,Birdsong,Underhill", "consent": "yes,yes,no,yes,yes,no", "sex": "S,S,H,S,H,S", "breed": "AN,HH,XB,AN,AR,XB",
	"live placing": "1,2,3,4,5,6", "remarks": "long loin,nice one,,good color,,plain", "live weight": "1290,1244,1301,1198,1210,1265", "fair weight": "1302,1251,1315,1205,1222,1270",
	"hot carcass weight": "806,771,818,744,752,790", "chilled carcass weight": "790,756,802,729,737,774", "left side weight": "403,386,409,372,376,395", "right side weight": "402,385,408,371,375,394",
	"measured fat": "0.45,0.3,0.5,0.55,0.4,0.35", "left fat": "0.2,0.25,0.15,0.3,0.2,0.25", "right fat": "0.2,0.25,0.2,0.3,0.25,0.2", "fat adjustment": "0.05,0,-0.05,0.1,0,0.05",
	"adjusted fat": "0.5,0.3,0.45,0.65,0.4,0.4", "ribeye area": "13.4,12.9,13.8,12.4,12.1,13.0", "kidney, pelvic and heart fat": "2.5,2,3,2.5,2,3", "marbling": "Sm 40,Sl 80,Mt 10,Sm 60,Md 20,Sl 90",
	"maturity": "A60,A50,A60,A70,A50,A60", "skeletal maturity": "A60,A50,A60,A70,A50,A60", "lean maturity": "A50,A50,A60,A60,A50,A70", "sheet yield grade": "2.7,2.1,3.0,3.4,2.6,2.4",
	"sheet quality grade": "Ch-,Se+,Ch,Ch-,Ch+,Se+", "sheet dressing percent": "62.5,62,62.9,62.1,62.1,62.5", "sheet cutability": "50.2,51.1,49.8,48.9,50.4,50.8",
	"birth date": "2024-03-01,2024-02-20,2024-03-11,2024-02-14,2024-03-05,2024-02-27", "start date": "2025-02-01,2025-02-01,2025-02-01,2025-02-01,2025-02-01,2025-02-01",
	"start weight": "640,612,655,590,601,630", "weigh-in date": "2025-08-01,2025-08-01,2025-08-01,2025-08-01,2025-08-01,2025-08-01", "kill date": "2025-08-06,2025-08-06,2025-08-06,2025-08-06,2025-08-06,2025-08-06",
	"intramuscular fat": "4.2,3.9,5.1,4.4,6,3.8", "tenth-rib fat": "0.7,0.6,0.55,0.8,0.65,0.75", "last-rib fat": "0.9,0.8,0.7,1,0.85,0.95", "loin muscle area": "8.1,7.8,8.3,7.2,7.9,7.5", "loin depth": "2.5,2.4,2.6,2.3,2.4,2.5",
	"muscling score": "2,3,2,2,3,2", "skinned": "no,no,no,no,no,no", "lean color": "3,3,4,3,2,3", "pork marbling": "2,3,2,1,2,3", "firmness": "3,3,2,3,4,3", "wetness": "3,3,2,3,3,3",
	"body wall thickness": "0.8,0.9,0.7,1,0.8,0.9", "leg score": "12,13,11,12,13,11", "flank streaking": "Sm 20,Sl 80,Sm 50,Mt 10,Sm 30,Sl 90", "conformation": "Ch+,Ch,Pr-,Ch,Ch+,Pr-", "selection": "1,2,1,2,1,2",
	"": "Corner,Lark,Mill,Corner,Brook,Mill",
}

// markValues are those of a column of conditions.
const markValues = ",x,,,,"

// smaller are what lambs, goats and hogs have where they differ from cattle.
var smaller = map[rules.Species]map[string]string{
	rules.Swine: {"hot carcass weight": "205,198,190,211,202,195", "live weight": "282,270,262,290,275,268"},
	rules.Lamb:  {"hot carcass weight": "68,73,64,70,66,71", "measured fat": "0.2,0.25,0.15,0.3,0.2,0.25", "ribeye area": "2.7,3,2.6,2.9,2.8,3.1", "live weight": "131,140,125,134,128,138"},
	rules.Goat:  {"hot carcass weight": "41,46,38,44,40,43", "measured fat": "0.08,0.1,0.05,0.09,0.1,0.07", "ribeye area": "2.1,2.3,1.9,2.2,2.0,2.1", "body wall thickness": "0.5,0.6,0.5,0.6,0.5,0.6"},
}

// standardSheet is the rest of the sheet around the heading in question.
var standardSheet = map[rules.Species][][2]string{
	rules.Beef:  {{"Ear tag", "tag"}, {"Class name", "class"}, {"HCW", "hot carcass weight"}, {"Fat thickness", "measured fat"}, {"Ribeye area", "ribeye area"}, {"KPH", "kidney, pelvic and heart fat"}, {"Marbling", "marbling"}},
	rules.Swine: {{"Ear tag", "tag"}, {"Class name", "class"}, {"HCW", "hot carcass weight"}, {"10th rib fat", "tenth-rib fat"}, {"Loin muscle area", "loin muscle area"}},
	rules.Lamb:  {{"Ear tag", "tag"}, {"Class name", "class"}, {"HCW", "hot carcass weight"}, {"Fat thickness", "measured fat"}, {"Body wall", "body wall thickness"}, {"Ribeye area", "ribeye area"}},
	rules.Goat:  {{"Ear tag", "tag"}, {"Class name", "class"}, {"HCW", "hot carcass weight"}, {"Fat thickness", "measured fat"}, {"Ribeye area", "ribeye area"}},
}

// verdict is what became of a heading.
type verdict string

const (
	right        verdict = "read"
	rightlyAsked verdict = "asked"
	onlyNamed    verdict = "named as not used"
	silent       verdict = "silent"
	wronglyRead  verdict = "wrongly read or suggested"
)

func valuesOf(species rules.Species, name string) []string {
	if own := smaller[species][name]; own != "" {
		return strings.Split(own, ",")
	}
	if values, known := columnValues[name]; known {
		return strings.Split(values, ",")
	}
	return strings.Split(markValues, ",")
}

// sheetWith draws a sheet of six carcasses with one heading as an office writes it.
func sheetWith(species rules.Species, heading, name string) string {
	columns := [][2]string{}
	for _, part := range standardSheet[species] {
		if part[1] == name {
			columns = append(columns, [2]string{heading, name})
			continue
		}
		columns = append(columns, part)
	}
	if !slices.ContainsFunc(columns, func(part [2]string) bool { return part[0] == heading && part[1] == name }) {
		columns = append(columns, [2]string{heading, name})
	}
	lines := make([]string, 7)
	for _, part := range columns {
		lines[0] += strings.ReplaceAll(part[0], "|", "/") + "|"
		for i, value := range valuesOf(species, part[1]) {
			lines[i+1] += value + "|"
		}
	}
	return strings.Join(lines, "\n") + "\n"
}

// judged says what became of one heading of the table.
func judged(r *reader, species rules.Species, heading, name, expected string) (verdict, string) {
	r.scanSheet(sheetOf("Sheet1", sheetWith(species, heading, name)), false)
	if r.countTables(carcassTable) == 0 {
		return onlyNamed, "no carcass sheet is found, and all headings are named"
	}
	r.readTables()
	result := r.result
	wanted := measure.Standard().ByName(name)
	read := measure.None
	for _, block := range result.Blocks {
		for _, headed := range block.Headings {
			if headed.Text == strings.Join(strings.Fields(heading), " ") && headed.Measure != measure.None {
				read = headed.Measure
			}
		}
	}
	suggested := measure.None
	for _, finding := range result.Findings {
		if finding.Measure != measure.None && (finding.Read == heading || strings.Contains(finding.Message, "="+heading+`"`) ||
			finding.Code == "condition named" && strings.Contains(finding.Message, phrase.Quote(heading))) && finding.Level != "note" {
			suggested = finding.Measure
		}
	}
	switch {
	case expected == "passed" && (read == measure.None && suggested == measure.None):
		return right, ""
	case expected == "passed":
		return wronglyRead, fmt.Sprintf("read as %s, suggested as %s", read, suggested)
	case read == wanted:
		return right, ""
	case read != measure.None:
		return wronglyRead, "read as " + read.String()
	case suggested == wanted:
		return rightlyAsked, ""
	case suggested != measure.None:
		return wronglyRead, "suggested as " + suggested.String()
	}
	if slices.ContainsFunc(result.Findings, func(finding validate.Finding) bool { return strings.Contains(finding.Message, phrase.Quote(heading)) }) {
		return onlyNamed, ""
	}
	return silent, ""
}

// TestHeadingsRate holds how many of the headings that offices write are read, or asked about with the right measure. The
// table was drawn before the reader was read; a heading is tried on a sheet of six carcasses of its species.
func TestHeadingsRate(t *testing.T) {
	file, err := os.Open("../../testdata/headings.csv")
	if err != nil {
		t.Fatal(err)
	}
	defer file.Close()
	lines, err := csv.NewReader(file).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	lines = lines[1:]
	counts, all, good := map[verdict]int{}, map[string]int{}, map[string]int{}
	readers := map[rules.Species]*reader{}
	for species := range standardSheet {
		readers[species] = newReader(rules.Default(), Options{Species: species})
	}
	for _, line := range lines {
		found, why := judged(afresh(readers[rules.Species(line[0])]), rules.Species(line[0]), line[1], line[2], line[3])
		counts[found]++
		group := line[2]
		all[group]++
		if found == right || found == rightlyAsked {
			good[group]++
			continue
		}
		t.Logf("%s %q, meant for %q: %s %s", line[0], line[1], line[2], found, why)
	}
	total := len(lines)
	t.Logf("of %d headings: %d read or passed over rightly, %d rightly asked, %d named as not used, %d silent, %d wrong", total, counts[right], counts[rightlyAsked], counts[onlyNamed], counts[silent], counts[wronglyRead])
	if total < 250 || (counts[right]+counts[rightlyAsked])*100 < total*92 || (counts[silent]+counts[wronglyRead])*100 > total*2 {
		t.Errorf("right or rightly asked %.1f %%, want 92 %% at least; silent or wrong %.1f %%, want 2 %% at most",
			float64(counts[right]+counts[rightlyAsked])*100/float64(total), float64(counts[silent]+counts[wronglyRead])*100/float64(total))
	}
	for _, group := range []string{"tag", "class", "remarks", "condemned", "retained", "trimmed", "dark cutter", "blood splash", "hardbone", "dairy type", "bullock"} {
		if good[group]*100 < all[group]*85 {
			t.Errorf("%s: %d of %d, want 85 %% at least", group, good[group], all[group])
		}
	}
}
