package intake

import "testing"

const fourOnTheRail = `
Tag|HCW|Fat|REA|KPH|Marbling
101|801|.4|13.1|2.5|430
102|790|.45|12.9|2|410
103|744|.55|12.4|3|510
104|760|.5|12.5|2.5|450`

// A list may enter several animals to a line, each under its own numbered headings; a sheet of carcasses has one to a line.
func TestSeveralAnimalsToALine(t *testing.T) {
	expect(t, readSheets(t, Options{}, sheetOf("Steers", fourOnTheRail), sheetOf("Roster", `
Exhibitor|Club|Steer 1 Tag|Steer 2 Tag|Consent
Ann Alder|Upper Fork|101|102|yes
Bo Birch|Lower Fork|104||no`)), `
101 / Steers / beef: exhibitor=Ann Alder club=Upper Fork consent=yes hot-carcass-weight=801 measured-fat=0.4 ribeye-area=13.1 kidney,-pelvic-and-heart-fat=2.5 marbling=Small 30
102 / Steers / beef: exhibitor=Ann Alder club=Upper Fork consent=yes hot-carcass-weight=790 measured-fat=0.45 ribeye-area=12.9 kidney,-pelvic-and-heart-fat=2 marbling=Small 10
103 / Steers / beef: hot-carcass-weight=744 measured-fat=0.55 ribeye-area=12.4 kidney,-pelvic-and-heart-fat=3 marbling=Modest 10
104 / Steers / beef: exhibitor=Bo Birch club=Lower Fork consent=no hot-carcass-weight=760 measured-fat=0.5 ribeye-area=12.5 kidney,-pelvic-and-heart-fat=2.5 marbling=Small 50
note class of the sheet`)
	expect(t, readSheets(t, Options{}, sheetOf("Steers", fourOnTheRail), sheetOf("Roster", `
Tag #1|Live wt 1|Tag #2|Live wt 2|Exhibitor
101|1300|102|1310|Ann Alder`)), `
101 / Steers / beef: exhibitor=Ann Alder fair-weight=1300 hot-carcass-weight=801 measured-fat=0.4 ribeye-area=13.1 kidney,-pelvic-and-heart-fat=2.5 marbling=Small 30
102 / Steers / beef: exhibitor=Ann Alder fair-weight=1310 hot-carcass-weight=790 measured-fat=0.45 ribeye-area=12.9 kidney,-pelvic-and-heart-fat=2 marbling=Small 10
103 / Steers / beef: hot-carcass-weight=744 measured-fat=0.55 ribeye-area=12.4 kidney,-pelvic-and-heart-fat=3 marbling=Modest 10
104 / Steers / beef: hot-carcass-weight=760 measured-fat=0.5 ribeye-area=12.5 kidney,-pelvic-and-heart-fat=2.5 marbling=Small 50
note class of the sheet`)
}

// An exhibitor written once is that of the lines below where at least a third of them are blank and no name comes back.
// Consent is each line's own, but a refusal holds for all of the child's animals.
func TestExhibitorWrittenOnce(t *testing.T) {
	const measures = "|801|.4"
	tests := []struct{ name, lines, wanted string }{
		{"two of six", "Ann Alder|101" + measures + "\n|102" + measures + "\nBo Birch|103" + measures + "\n|104" + measures + "\nCy Cedar|105" + measures + "\nDi Dogwood|106" + measures, "Ann Alder,Ann Alder,Bo Birch,Bo Birch,Cy Cedar,Di Dogwood look"},
		{"one of four", "Ann Alder|101" + measures + "\n|102" + measures + "\nBo Birch|103" + measures + "\nCy Cedar|104" + measures, "Ann Alder,,Bo Birch,Cy Cedar"},
		{"one name", "Ann Alder|101" + measures + "\n|102" + measures, "Ann Alder,"},
		{"two names", "Ann Alder|101" + measures + "\n|102" + measures + "\nBo Birch|103" + measures, "Ann Alder,Ann Alder,Bo Birch look"},
		{"the first is blank", "|101" + measures + "\nAnn Alder|102" + measures + "\n|103" + measures, ",Ann Alder,"},
		{"a name comes back", "Ann Alder|101" + measures + "\n|102" + measures + "\nAnn Alder|103" + measures, "Ann Alder,,Ann Alder"},
		{"none is written", "|101" + measures + "\n|102" + measures, ","},
	}
	for _, test := range tests {
		result := readSheets(t, Options{}, sheetOf("Steers", "Exhibitor|Tag|HCW|Fat\n"+test.lines))
		got := ""
		for i, carcass := range result.Carcasses {
			if i > 0 {
				got += ","
			}
			got += nameOf(carcass)
		}
		for _, finding := range result.Findings {
			if finding.Code == "exhibitor same as above" {
				got += " look"
			}
		}
		if got != test.wanted {
			t.Errorf("%s: got %s, want %s", test.name, got, test.wanted)
		}
	}
	expect(t, readSheets(t, Options{}, sheetOf("Steers", `
Exhibitor|Tag|HCW|Fat
Ann Alder|101|801|.4
Bo Birch|102|790|.45
|103|744|.55`), sheetOf("Roster", "Tag|Exhibitor\n103|Cy Cedar")), `
101 / Steers / beef: exhibitor=Ann Alder hot-carcass-weight=801 measured-fat=0.4
102 / Steers / beef: exhibitor=Bo Birch hot-carcass-weight=790 measured-fat=0.45
103 / Steers / beef: exhibitor=Cy Cedar hot-carcass-weight=744 measured-fat=0.55
note class of the sheet`)
	expect(t, readSheets(t, Options{}, sheetOf("Steers", `
Exhibitor|Tag|HCW|Fat|Consent
Ann Alder|101|801|.4|no
|102|790|.45|
Bo Birch|103|744|.55|yes
|104|760|.5|`)), `
101 / Steers / beef: exhibitor=Ann Alder consent=no hot-carcass-weight=801 measured-fat=0.4
102 / Steers / beef: exhibitor=Ann Alder consent=no hot-carcass-weight=790 measured-fat=0.45
103 / Steers / beef: exhibitor=Bo Birch consent=yes hot-carcass-weight=744 measured-fat=0.55
104 / Steers / beef: exhibitor=Bo Birch hot-carcass-weight=760 measured-fat=0.5
look exhibitor same as above
note class of the sheet`)
}
