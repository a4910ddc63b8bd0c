package validate

import (
	"testing"

	"railbook/rules"
)

// The true row computes 2.612: a sheet may round it, cut it, or give the whole grade.
func TestOwnFiguresAgreeRoundedOrCut(t *testing.T) {
	for _, own := range []string{
		"sheet yield grade=2.61", "sheet yield grade=2.62", "sheet yield grade=2.6", "sheet yield grade=2",
		"sheet quality grade=Low Choice", "sheet quality grade=Choice", "sheet quality grade=Ch-",
		"sheet dressing percent=62.4", "sheet dressing percent=62", "sheet cutability=50.69", "sheet cutability=50.7",
	} {
		expect(t, own, drawLot(t, rules.Beef, trueRow(t).but(t, own)))
	}
	for own, want := range map[string]string{
		"sheet yield grade=2.64":          "look sheet's own yield grade disagrees J5",
		"sheet yield grade=2.8":           "look sheet's own yield grade disagrees J5",
		"sheet yield grade=3":             "look sheet's own yield grade disagrees J5",
		"sheet quality grade=Prime":       "look sheet's own quality grade disagrees K5",
		"sheet quality grade=High Select": "look sheet's own quality grade disagrees K5",
		"sheet dressing percent=60":       "look sheet's own dressing percent disagrees L5",
		"sheet cutability=51.3":           "look sheet's own cutability disagrees M5",
	} {
		expect(t, own, drawLot(t, rules.Beef, trueRow(t).but(t, own)), want)
	}
}

// A sheet whose own figures are all worked out otherwise is asked about once.
func TestOwnFiguresWorkedOutOtherwise(t *testing.T) {
	var rows []drawn
	for _, companion := range companions(t, "20") {
		rows = append(rows, companion.but(t, "sheet cutability=79.1"))
	}
	expect(t, "another percent", drawLot(t, rules.Beef, rows...), "look sheet's own cutability disagrees throughout M4")
}
