package intake

import (
	"strings"
	"testing"
)

const byRailNumber = `
Rail #|HCW|Fat
1|801|.4
2|790|.45
3|744|.55`

// Carcasses known by rail number alone take the tag that a list gives for it, and are joined by that tag; one that no list
// gives a single tag for is joined to nobody, even where its rail number is somebody's ear tag.
func TestCrosswalk(t *testing.T) {
	tests := []struct {
		name   string
		pages  []*page
		wanted string
	}{
		{"with the exhibitors", []*page{sheetOf("Crosswalk", "Rail #|Ear tag|Exhibitor\n1|'0412|Ann Alder\n2|'0413|Bo Birch\n3|1|Cy Cedar")}, `
0412 / Steers / beef: rail-number=1 exhibitor=Ann Alder hot-carcass-weight=801 measured-fat=0.4
0413 / Steers / beef: rail-number=2 exhibitor=Bo Birch hot-carcass-weight=790 measured-fat=0.45
1 / Steers / beef: rail-number=3 exhibitor=Cy Cedar hot-carcass-weight=744 measured-fat=0.55
note tags by rail number
note class of the sheet`},
		{"and the roster apart", []*page{sheetOf("Crosswalk", "Rail #|Ear tag\n1|'0412\n2|'0413\n3|'0414"), sheetOf("Roster", "Tag|Exhibitor\n'0412|Ann Alder\n'0414|Cy Cedar\n2|Di Dogwood")}, `
0412 / Steers / beef: rail-number=1 exhibitor=Ann Alder hot-carcass-weight=801 measured-fat=0.4
0413 / Steers / beef: rail-number=2 hot-carcass-weight=790 measured-fat=0.45
0414 / Steers / beef: rail-number=3 exhibitor=Cy Cedar hot-carcass-weight=744 measured-fat=0.55
note tags by rail number
note class of the sheet`},
		{"a number missing and one twice", []*page{sheetOf("Crosswalk", "Rail #|Ear tag|Exhibitor\n1|2|Ann Alder\n3|'0413|Bo Birch\n3|'0414|Cy Cedar")}, `
2 / Steers / beef: rail-number=1 exhibitor=Ann Alder hot-carcass-weight=801 measured-fat=0.4
2 / Steers / beef: rail-number=2 hot-carcass-weight=790 measured-fat=0.45
3 / Steers / beef: rail-number=3 hot-carcass-weight=744 measured-fat=0.55
note tags by rail number
look rail number without a tag
note class of the sheet`},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			expect(t, readSheets(t, Options{}, append([]*page{sheetOf("Steers", byRailNumber)}, test.pages...)...), test.wanted)
		})
	}
}

// A carcass number beside an ear tag is the rail number, and words that come again under a heading of a tag are none.
func TestWhichColumnIsTheTag(t *testing.T) {
	tests := []struct{ name, headings, line1, line2, wanted string }{
		{"carcass number and ear tag", "Carcass #|Ear tag", "1|'0412", "2|'0413", "0412 0413"},
		{"carcass number alone", "Carcass #|Pen", "1|7", "2|8", "1 2"},
		{"county, color and tag", "Tag County|Tag color|Tag", "Fir|red|101", "Fir|red|102", "101 102"},
		{"words that differ", "Tag|Tag name", "Fir|101", "Oak|102", "Fir Oak"},
	}
	for _, test := range tests {
		result := readSheets(t, Options{}, sheetOf("Steers", test.headings+"|HCW|Fat\n"+test.line1+"|801|.4\n"+test.line2+"|790|.45"))
		var tags []string
		for _, carcass := range result.Carcasses {
			tags = append(tags, carcass.Tag)
		}
		if got := strings.Join(tags, " "); got != test.wanted {
			t.Errorf("%s: got %s, want %s", test.name, got, test.wanted)
		}
	}
}

// A list of winners, and the foot of a page, name no carcasses.
func TestLinesThatNameAnimalsAgain(t *testing.T) {
	for name, test := range map[string]struct{ below, wanted string }{
		"champions under their own line":   {"\nChampions\n101|first\n102|second", "101 102 note named again"},
		"champions by their words":         {"101|Grand Champion\n102|Reserve", "101 102 note named again"},
		"an animal that was not read":      {"\nChampions\n109|Grand Champion", "101 102"},
		"a second entry of a tag":          {"101|lost", "101 102 101"},
		"a champion that was measured":     {"101|Grand Champion|790|.4", "101 102 101"},
		"the foot of a page":               {"8/7/2025 pg 2", "101 102"},
		"a tag alone, numbered beforehand": {"103", "101 102 note numbered in advance"},
	} {
		result := readSheets(t, Options{}, sheetOf("Steers", "Tag|Award|HCW|Fat\n101||801|.4\n102||790|.45\n"+test.below))
		var got []string
		for _, carcass := range result.Carcasses {
			got = append(got, carcass.Tag)
		}
		for _, finding := range result.Findings {
			if finding.Code == "named again" || finding.Code == "numbered in advance" {
				got = append(got, "note "+finding.Code)
			}
		}
		if strings.Join(got, " ") != test.wanted {
			t.Errorf("%s: got %s, want %s", name, strings.Join(got, " "), test.wanted)
		}
	}
}
