package validate

import (
	"testing"

	"github.com/shopspring/decimal"

	"railbook/rules"
	"railbook/rules/measure"
)

// fedAnimals are dates and weights of an animal of each species that was fed as usual, in days from 1899-12-30.
var fedAnimals = map[rules.Species]string{
	rules.Beef:  "birth date=45000; start date=45220; weigh-in date=45420; kill date=45428; start weight=620; fair weight=1300",
	rules.Swine: "birth date=45000; start date=45060; weigh-in date=45170; kill date=45171; start weight=60; fair weight=270",
	rules.Lamb:  "birth date=45000; start date=45090; weigh-in date=45190; kill date=45191; start weight=75; fair weight=130",
	rules.Goat:  "birth date=45000; start date=45090; weigh-in date=45190; kill date=45191; start weight=50; fair weight=85",
}

// absurdFor is what makes each rate absurd: two days on feed, or ten times the weight.
var absurdFor = map[measure.ID]map[rules.Species]string{
	measure.WeightPerDayOfAge:   {rules.Beef: "fair weight=13000", rules.Swine: "fair weight=2700", rules.Lamb: "fair weight=1300", rules.Goat: "fair weight=850"},
	measure.CarcassWeightPerDay: {rules.Beef: "fair weight=13000; hot carcass weight=8000", rules.Swine: "fair weight=2700; hot carcass weight=2000", rules.Lamb: "fair weight=1300; hot carcass weight=680", rules.Goat: "fair weight=850; hot carcass weight=400"},
	measure.RetailCutsPerDay:    {rules.Beef: "ribeye area=900", rules.Lamb: "ribeye area=900", rules.Goat: "ribeye area=900"},
}

var twoDaysOnFeed = map[rules.Species]string{
	rules.Beef: "start date=45418", rules.Swine: "start date=45168", rules.Lamb: "start date=45188", rules.Goat: "start date=45188",
}

// Every rate that is computed for a species has limits, by which alone a planted absurd value is on hold, so that no slip in a date or
// a weight wins a class that is placed by it; the animal fed as usual is not named.
func TestEveryRateIsLimited(t *testing.T) {
	rates := 0
	for _, name := range rules.SpeciesNames() {
		species := rules.Species(name)
		for _, definition := range measure.Standard().Definitions() {
			if definition.Unit != "lb/day" && definition.Unit != "$/day" || !definition.For(string(species)) {
				continue
			}
			rates++
			absurd := absurdFor[definition.ID][species]
			if absurd == "" {
				absurd = twoDaysOnFeed[species]
			}
			for planted, want := range map[string]bool{"": false, absurd: true} {
				batch := fedLot(t, species, planted)
				var alone []rules.Limit
				for _, limit := range batch.Book.Limits {
					if limit.Measure == definition.ID && (limit.Species == species || limit.Species == "") && (limit.HoldBelow.Valid || limit.HoldAbove.Valid) {
						alone = append(alone, limit)
					}
				}
				batch.Book.Limits = alone
				setBasis(batch, rules.OnTheRail)
				if _, has := batch.Carcasses[0].Figure(definition.ID); !has {
					t.Fatalf("%s: no %s: %s", species, definition.ID, batch.Carcasses[0].Lacks(definition.ID))
				}
				held := false
				for _, finding := range Check(batch) {
					held = held || finding.Level == Hold && finding.Code == definition.ID.String()+" out of range"
				}
				if held != want {
					t.Errorf("%s, %s with %q is held: %v", species, definition.ID, planted, held)
				}
			}
		}
	}
	if rates < 20 {
		t.Errorf("only %d rates", rates)
	}
}

// A start date typed a year late is on hold for every species, whether it then comes after the weigh-in or leaves an animal two days
// on feed.
func TestAStartDateAYearLateCannotWin(t *testing.T) {
	late := map[rules.Species]string{
		rules.Beef: "start date=45585", rules.Swine: "start date=45425", rules.Lamb: "start date=45455", rules.Goat: "start date=45455",
	}
	for _, name := range rules.SpeciesNames() {
		species := rules.Species(name)
		for _, planted := range []string{late[species], twoDaysOnFeed[species]} {
			if level := levelOf(Check(fedLot(t, species, planted)), measure.StartDate); level != Hold {
				t.Errorf("%s with %s: level %q", species, planted, level)
			}
		}
		if found := Check(fedLot(t, species, "")); levelOf(found, measure.StartDate) != "" {
			t.Errorf("%s fed as usual: %q", species, said(found))
		}
	}
}

// fedLot is an animal that was fed as usual, with something planted in it, under a rulebook that prices every species.
func fedLot(t *testing.T, species rules.Species, planted string) *Batch {
	t.Helper()
	row := firstOf(t, species).but(t, fedAnimals[species])
	if planted != "" {
		row = row.but(t, planted)
	}
	batch := drawLot(t, species, row)
	book := rules.Default()
	for species, price := range map[rules.Species]int64{rules.Beef: 300, rules.Swine: 90, rules.Lamb: 300, rules.Goat: 300} {
		book.Settings.StartDressingPercent[species] = decimal.NewNullDecimal(decimal.NewFromInt(50))
		book.Settings.BasePrice[species] = decimal.NewNullDecimal(decimal.NewFromInt(price))
	}
	batch.Book = book
	for _, graded := range batch.Carcasses {
		graded.Carcass.ClearReading(measure.LiveWeight) // the fair's own weight is the final one
	}
	setBasis(batch, rules.OnTheRail)
	return batch
}
