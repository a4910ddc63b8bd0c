package validate

import (
	"strings"
	"testing"

	"railbook/rules"
	"railbook/rules/measure"
)

// TestOneAnswerForSeveralSheets holds that sheets without KPH or maturity are asked about together, tables of one sheet as one,
// but a sheet by itself that has a column which may be it; and whether hogs were skinned for each sheet.
func TestOneAnswerForSeveralSheets(t *testing.T) {
	lotOf := func(species rules.Species, names []string, rows ...drawn) *Batch {
		batch := drawLot(t, species, rows...)
		all := batch.Sheets[0]
		batch.Sheets = nil
		for i, name := range names {
			sheet := all
			sheet.Name, sheet.Heading.Sheet, sheet.Carcasses = name, name, all.Carcasses[i:i+1]
			batch.Sheets = append(batch.Sheets, sheet)
		}
		return batch
	}
	said := func(batch *Batch, code string) string {
		text := ""
		for _, finding := range Check(batch) {
			if finding.Code == code {
				words, _, _ := strings.Cut(finding.Message, ";")
				words, _, _ = strings.Cut(words, " (kidney")
				text += words + "\n"
			}
		}
		return text
	}
	row := trueRow(t).but(t, "kidney, pelvic and heart fat=; maturity=")
	rows := []drawn{row, row.but(t, "tag=102; hot carcass weight=792; live weight=1271"), row.but(t, "tag=103; hot carcass weight=777; live weight=1241")}
	beef := lotOf(rules.Beef, []string{"Steers", "Steers", "Heifers"}, rows...)
	if got, want := said(beef, "KPH not given"), "Sheet \"Steers\", cell A4: this sheet and \"Heifers\" give no KPH\n"; got != want {
		t.Errorf("got %s, want %s", got, want)
	}
	if got, want := said(beef, "maturity not given"), "Sheet \"Steers\", cell A4: this sheet and \"Heifers\" give no maturity\n"; got != want {
		t.Errorf("got %s, want %s", got, want)
	}
	tables := lotOf(rules.Beef, []string{"Steers", "Steers", "Steers"}, rows...)
	if got, want := said(tables, "KPH not given"), "Sheet \"Steers\", cell A4: the sheet gives no KPH\n"; got != want {
		t.Errorf("tables of one sheet: got %s, want %s", got, want)
	}
	perhaps := lotOf(rules.Beef, []string{"Steers", "Cows", "Heifers"}, rows...)
	perhaps.Sheets[1].Unread = map[measure.ID][]string{measure.InternalFat: {"Kd"}}
	if got, want := said(perhaps, "KPH not given"), "Sheet \"Steers\", cell A4: this sheet and \"Heifers\" give no KPH\nSheet \"Cows\", cell A4: the sheet gives no KPH\n"; got != want {
		t.Errorf("one with a column that may be it: got %s, want %s", got, want)
	}
	hog := firstOf(t, rules.Swine).but(t, "skinned=")
	swine := lotOf(rules.Swine, []string{"Barrows", "Gilts"}, hog, hog.but(t, "tag=102; hot carcass weight=198; live weight=266"))
	if got := strings.Count(said(swine, "skin not stated"), "\n"); got != 2 {
		t.Errorf("the skin of hogs on two sheets is asked about %d times", got)
	}
}
