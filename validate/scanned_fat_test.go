package validate

import (
	"fmt"
	"testing"

	"railbook/rules"
	"railbook/rules/measure"
)

// scans are live cattle of two classes, one lean and one fat within the muscle, all plausible by the rulebook; one has another
// intramuscular fat.
func scans(t *testing.T, at int, written string) *Batch {
	t.Helper()
	var list []drawn
	for i, row := range companions(t, "40") {
		class, within := "Grass", 3.02+0.11*float64((i*7)%9)
		if i%2 == 1 {
			class, within = "Grain", 6.03+0.17*float64((i*5)%9)
		}
		row = row.but(t, fmt.Sprintf("class=%s; intramuscular fat=%.2f", class, within))
		if i == at {
			row = row.but(t, "intramuscular fat="+written)
		}
		for _, id := range []measure.ID{measure.HotCarcassWeight, measure.Marbling, measure.Maturity, measure.InternalFat} {
			delete(row, id)
		}
		list = append(list, row)
	}
	batch := drawLot(t, rules.Beef, list...)
	setBasis(batch, rules.LiveScan)
	return batch
}

// Intramuscular fat is held beside its class: what is usual among grain-fed cattle is far above grass-fed ones, and one slip that
// leads back to the class is the hint. The rulebook's range, 1.5 to 11, passes all of these but the moved decimal point.
func TestScannedFatBesideItsClass(t *testing.T) {
	const grass, grain = 20, 21
	for _, test := range []struct {
		at            int
		written, hint string // "-" for none found, "" for one without a likely value
	}{
		{grass, "8.43", ""}, // 4.83 is as odd
		{grass, "9.33", "3.93"},
		{grain, "8.43", "-"},
		{grain, "1.71", "7.11"},
		{grass, "34.8", "3.48"},
		{grass, ".348", "3.48"},
		{grain, "0.71", "7.1"},
		{grain, "7.11", "-"},
		{grass, "3.84", "-"},
		{grass, "4.35", "-"},
	} {
		batch := scans(t, test.at, test.written)
		found := about(t, batch, fmt.Sprint(201+test.at), measure.IntramuscularFat)
		if (found == nil) != (test.hint == "-") || found != nil && found.Hint != test.hint {
			t.Errorf("%s in row %d: want the hint %s, found %q", test.written, test.at, test.hint, said(Check(batch)))
		}
	}
}
