package validate

import (
	"strings"
	"testing"

	"railbook/rules"
	"railbook/rules/measure"

	"github.com/shopspring/decimal"
)

// Every single finding that a look bound makes says whose bound it is: the shipped one, or the board's where the board wrote another
// on that side; and what the class makes odd says that it is the class.
func TestASingleFindingSaysWhoseBoundItIs(t *testing.T) {
	for _, test := range []struct {
		figure        measure.ID
		shippedBy     string // a row beyond the shipped bound
		above         bool
		bound, beyond string // the board's own, and a row beyond that alone
	}{
		{measure.HotCarcassWeight, "hot carcass weight=1130; live weight=1690; ribeye area=17", true, "790", "hot carcass weight=795"},
		{measure.LiveWeight, "live weight=1710; hot carcass weight=1050; ribeye area=16", true, "1240", ""},
		{measure.DressingPercent, "hot carcass weight=710", false, "62.3", "hot carcass weight=775"},
		{measure.RibeyePerHundredweight, "ribeye area=9.5", false, "1.7", "ribeye area=13"},
		{measure.AverageDailyGain, "start date=2025-04-10; start weight=620; weigh-in date=2025-08-01", true, "3", "start date=2025-04-10; start weight=900; weigh-in date=2025-08-01"},
	} {
		for by, row := range map[string]string{"usual range as shipped": test.shippedBy, "the board's own look bound": test.beyond} {
			book := *rules.Default()
			book.Limits = append([]rules.Limit(nil), book.Limits...)
			for i := range book.Limits {
				of := &book.Limits[i]
				if of.Species != rules.Beef && of.Species != "" || of.Measure != test.figure || by == "usual range as shipped" {
					continue
				}
				if own := decimal.NewNullDecimal(decimal.RequireFromString(test.bound)); test.above {
					of.LookAbove = own
				} else {
					of.LookBelow = own
				}
			}
			said := 0
			for _, finding := range Check(drawLotBy(t, &book, rules.Beef, trueRow(t).but(t, row))) {
				if finding.Level != Look || !strings.Contains(finding.Message, " is not, by ") {
					continue
				}
				if strings.Contains(finding.Message, by) {
					said++
				} else if by != "usual range as shipped" {
					t.Errorf("%s, %s: %s", test.figure, by, finding.Message)
				}
			}
			if said == 0 {
				t.Errorf("%s: nothing says %s", test.figure, by)
			}
		}
	}
	rows := companions(t, "40")
	rows[9] = rows[9].but(t, "ribeye area=17.7")
	found := about(t, drawLot(t, rules.Beef, rows...), rows[9][measure.Tag], measure.RibeyeArea)
	if found == nil || !strings.Contains(found.Message, "going by the 40 carcasses it is held beside") {
		t.Errorf("what the class makes odd is said as %+v", found)
	}
}
