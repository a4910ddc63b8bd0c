package intake

import (
	"testing"

	"railbook/rules"
	"railbook/rules/measure"
)

// A sheet of short scan headings alone is a scan; its figures are those of the live animal.
func TestShortScanHeadingsMakeAScan(t *testing.T) {
	result := readSheets(t, Options{}, sheetOf("Steers", `
		Tag | Live wt | UFAT | UREA
		901 | 1300 | 0.4 | 13.5
	`), sheetOf("Barrows", `
		Tag | Sex | Live wt | UFAT | ULMA
		951 | Barrow | 265 | 0.7 | 7.4
	`), sheetOf("Heifers", `
		Tag | Live wt | US fat | U/S REA | US %IMF
		971 | 1180 | 0.3 | 12.9 | 4.4
	`))
	for _, carcass := range result.Carcasses {
		if carcass.Basis != rules.LiveScan {
			t.Errorf("tag %s is read as %q", carcass.Tag, carcass.Basis)
		}
	}
	expect(t, result, `
		901 / Steers / beef: live-weight=1300 measured-fat=0.4 ribeye-area=13.5
		951 / Barrows / swine: sex=Barrow live-weight=265 tenth-rib-fat=0.7 loin-muscle-area=7.4
		971 / Heifers / beef: live-weight=1180 measured-fat=0.3 ribeye-area=12.9 intramuscular-fat=4.4
		note class of the sheet
		note class of the sheet
		note class of the sheet
	`)
}

// What was scanned before the kill never stands for what was measured on the rail, nor against it.
func TestScanBesideTheCarcassIsLeft(t *testing.T) {
	result := readSheets(t, Options{}, sheetOf("Steers", `
		Tag | Live wt | HCW | Fat | REA | KPH | Marbling | Scan wt | UFAT | UREA
		901 | 1300 | 806 | 0.42 | 13.8 | 2.5 | SM 40 | 1275 | 0.40 | 13.1
	`))
	expect(t, result, `
		901 / Steers / beef: live-weight=1300 hot-carcass-weight=806 measured-fat=0.42 ribeye-area=13.8 kidney,-pelvic-and-heart-fat=2.5 marbling=Small 40
		note scan beside the carcass H1
		note class of the sheet
	`)
}

// Where each line says how it was measured, each is read by its own columns.
func TestBothInOneSheetByItsBasis(t *testing.T) {
	result := readSheets(t, Options{}, sheetOf("Steers", `
		Tag | Basis | Live wt | HCW | Fat | REA | KPH | Marbling | UFAT | UREA
		901 | carcass | 1300 | 806 | 0.42 | 13.8 | 2.5 | SM 40 | |
		902 | scan | 1290 | | | | | | 0.36 | 13.0
	`))
	if result.Carcasses[0].Basis != rules.OnTheRail || result.Carcasses[1].Basis != rules.LiveScan {
		t.Errorf("read as %q and %q", result.Carcasses[0].Basis, result.Carcasses[1].Basis)
	}
	if reading, ok := result.Carcasses[1].Reading(measure.MeasuredFat); !ok || reading.Value.Text != "0.36" {
		t.Errorf("the scanned fat was not read: %v", reading)
	}
}
