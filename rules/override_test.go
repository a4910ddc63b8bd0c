package rules

import (
	"slices"
	"strings"
	"testing"

	"railbook/rules/measure"

	"github.com/shopspring/decimal"
)

func TestOverridesChangeOneThing(t *testing.T) {
	tables := DefaultTables()
	changed := WithBasePrice(tables, Beef, decimal.RequireFromString("287.5"))
	changed = WithBasePrice(changed, Swine, decimal.RequireFromString("92"))
	changed = WithSpecies(changed, Lamb)
	book, faults := Load(changed)
	if book == nil {
		t.Fatalf("the changed rulebook is refused: %v", faults)
	}
	if got := book.Settings.BasePrice[Beef].Decimal.String(); got != "287.5" {
		t.Errorf("base price of beef is %s, want 287.5", got)
	}
	if got := book.Settings.BasePrice[Swine].Decimal.String(); got != "92" {
		t.Errorf("base price of swine is %s, want 92", got)
	}
	if got := book.Settings.UnmarkedSpecies; got != Lamb {
		t.Errorf("unmarked sheets are %q, want lamb", got)
	}
	if again := Default(); again.Settings.BasePrice[Beef].Decimal.String() != "300" {
		t.Error("the default tables were changed along")
	}
}

// A heading given by hand means what it was given for and no longer what the rulebook said.
func TestHeadingByHandMovesHeading(t *testing.T) {
	for _, heading := range []string{"Dressed", "Live wt", "bf"} {
		book, faults := Load(WithHeading(DefaultTables(), measure.HotCarcassWeight, heading))
		if book == nil {
			t.Fatalf("%s: the changed rulebook is refused: %v", heading, faults)
		}
		var measures []measure.ID
		for _, accepted := range book.Headings {
			if strings.EqualFold(accepted.Text, heading) {
				measures = append(measures, accepted.Measure)
			}
		}
		if !slices.Equal(measures, []measure.ID{measure.HotCarcassWeight}) {
			t.Errorf("%s means %v, want hot carcass weight alone", heading, measures)
		}
	}
}

func TestFindMeasure(t *testing.T) {
	for name, want := range map[string]measure.ID{"HCW": measure.HotCarcassWeight, "Hot Carcass  Weight": measure.HotCarcassWeight, "REA": measure.RibeyeArea, "KPH %": measure.InternalFat} {
		if got, ok := FindMeasure(name); !ok || got != want {
			t.Errorf("%q is found as %q, want %q", name, got, want)
		}
	}
	if got, ok := FindMeasure("girth"); ok {
		t.Errorf("girth is found as %q, want nothing", got)
	}
}
