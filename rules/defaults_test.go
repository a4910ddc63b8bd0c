package rules

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"railbook/rules/measure"

	"github.com/shopspring/decimal"
)

func number(text string) decimal.Decimal { return decimal.RequireFromString(text) }

// adjustment finds what the default grid adds for a figure, or "no line".
func adjustment(book *Rulebook, part Part, figure string) string {
	found := "no line"
	for _, line := range book.Grid {
		if line.Species != Beef || line.Part != part || !line.Band.Holds(number(figure)) {
			continue
		}
		if found != "no line" {
			return "two lines"
		}
		found = line.Adjust.StringFixed(2)
	}
	return found
}

// USDA Market News LM_CT155, National Weekly Direct Slaughter Cattle, Premiums and Discounts, week of 6 January 2025,
// simple averages. Which end of a band is closed is this project's decision.
func TestDefaultGridAtEveryBandEdge(t *testing.T) {
	book := Default()
	cases := []struct {
		part         Part
		figure, want string
	}{
		{YieldPart, "-0.5", "3.35"},
		{YieldPart, "0.9", "3.35"},
		{YieldPart, "1.0", "3.35"},
		{YieldPart, "1.999999", "3.35"},
		{YieldPart, "2.0", "1.77"},
		{YieldPart, "2.499999", "1.77"},
		{YieldPart, "2.5", "1.38"},
		{YieldPart, "2.999999", "1.38"},
		{YieldPart, "3.0", "0.00"},
		{YieldPart, "3.5", "0.00"},
		{YieldPart, "3.999999", "0.00"},
		{YieldPart, "4.0", "-12.45"},
		{YieldPart, "4.999999", "-12.45"},
		{YieldPart, "5.0", "-17.82"},
		{YieldPart, "7.4", "-17.82"},
		{WeightPart, "399.9", "no line"},
		{WeightPart, "400", "-29.29"},
		{WeightPart, "499.9", "-29.29"},
		{WeightPart, "500", "-22.64"},
		{WeightPart, "549.9", "-22.64"},
		{WeightPart, "550", "-11.57"},
		{WeightPart, "599.9", "-11.57"},
		{WeightPart, "600", "0.00"},
		{WeightPart, "899.9", "0.00"},
		{WeightPart, "900", "-1.07"},
		{WeightPart, "900.1", "-1.07"},
		{WeightPart, "999.9", "-1.07"},
		{WeightPart, "1000", "-5.00"},
		{WeightPart, "1050", "-5.00"},
		{WeightPart, "1050.1", "-15.45"},
		{WeightPart, "1800", "-15.45"},
	}
	for _, c := range cases {
		if got := adjustment(book, c.part, c.figure); got != c.want {
			t.Errorf("%s %s adds %s, not %s", c.part, c.figure, got, c.want)
		}
	}
}

// The same report's grades and conditions.
func TestDefaultGridNames(t *testing.T) {
	want := map[string]string{
		"quality Prime": "17.54", "quality Choice": "0.00", "quality Select": "-28.25", "quality Standard": "-40.93",
		"condition dairy type": "-2.64", "condition bullock": "-41.50", "condition hardbone": "-42.20",
		"condition dark cutter": "-38.75", "condition over 30 months": "-14.29",
	}
	got := make(map[string]string)
	for _, line := range Default().Grid {
		if line.Name != "" {
			got[fmt.Sprintf("%s %s", line.Part, line.Name)] = line.Adjust.StringFixed(2)
		}
	}
	for name, adjust := range want {
		if got[name] != adjust {
			t.Errorf("%s adds %q, not %s", name, got[name], adjust)
		}
	}
	if len(got) != len(want) {
		t.Errorf("the grid names %v", got)
	}
	for _, species := range []Species{Swine, Lamb, Goat} {
		for _, line := range Default().Grid {
			if line.Species == species {
				t.Errorf("no grid is published for %s, yet it has the line in %v", species, line.Place)
			}
		}
	}
}

// Usual ranges: SDSU Extension, NDSU Extension, National Beef Quality Audit 2022 where the table says so. The bounds
// themselves are this project's decision.
func TestDefaultLimits(t *testing.T) {
	cases := []struct {
		species                                    Species
		measure                                    measure.ID
		holdBelow, lookBelow, lookAbove, holdAbove string
		atToo                                      bool
	}{
		{Beef, measure.LiveWeight, "300", "800", "1700", "3000", false},
		{Beef, measure.HotCarcassWeight, "200", "500", "1100", "1800", false},
		{Beef, measure.DressingPercent, "48", "57", "67", "74", false},
		{Beef, measure.MeasuredFat, "0", "0.1", "1.2", "2", true},
		{Beef, measure.LeftFat, "0", "0.1", "1.2", "2", true},
		{Beef, measure.RightFat, "0", "0.1", "1.2", "2", true},
		{Beef, measure.AdjustedFat, "0", "0.1", "1.2", "2", true},
		{Beef, measure.RibeyeArea, "4", "9", "18", "25", false},
		{Beef, measure.RibeyePerHundredweight, "0.8", "1.25", "2.3", "3.2", false},
		{Beef, measure.InternalFat, "0", "1", "4.5", "8", false},
		{Beef, measure.ChillLoss, "0", "0.5", "5", "", false},
		{Beef, measure.Marbling, "0", "200", "900", "999", false},
		// Class means from 2.8 (Traces) to 10.1 (Slightly Abundant): Beef Improvement Federation Guidelines.
		{Beef, measure.IntramuscularFat, "0", "1.5", "11", "20", false},
		{Swine, measure.LiveWeight, "100", "200", "330", "500", false},
		{Swine, measure.HotCarcassWeight, "80", "145", "245", "400", false},
		{Swine, measure.DressingPercent, "58", "68", "80", "88", false},
		{Swine, measure.TenthRibFat, "0.05", "0.3", "1.5", "4", false},
		{Swine, measure.LastRibFat, "0.05", "0.3", "1.75", "4", false},
		{Swine, measure.LoinMuscleArea, "2", "4.5", "11", "16", false},
		{Swine, measure.LoinDepth, "1", "1.8", "3.2", "4.5", false},
		{Swine, measure.LeanPercent, "35", "45", "63", "70", false},
		{Lamb, measure.LiveWeight, "40", "85", "180", "300", false},
		{Lamb, measure.HotCarcassWeight, "20", "45", "100", "160", false},
		{Lamb, measure.DressingPercent, "36", "44", "62", "70", false},
		{Lamb, measure.MeasuredFat, "0", "0.05", "0.5", "1.5", false},
		{Lamb, measure.LeftFat, "0", "0.05", "0.5", "1.5", false},
		{Lamb, measure.RightFat, "0", "0.05", "0.5", "1.5", false},
		{Lamb, measure.AdjustedFat, "0", "0.05", "0.5", "1.5", false},
		{Lamb, measure.BodyWallThickness, "0.1", "0.4", "1.4", "3", false},
		{Lamb, measure.RibeyeArea, "0.5", "1.5", "4.9", "7", false},
		{Goat, measure.LiveWeight, "20", "40", "130", "250", false},
		{Goat, measure.HotCarcassWeight, "10", "18", "75", "150", false},
		{Goat, measure.DressingPercent, "30", "40", "56", "65", false},
		{Goat, measure.RibeyeArea, "0", "0.6", "3", "5", false},
		{Goat, measure.BodyWallThickness, "0", "0.2", "1", "3", false},
		// Scales: pork quality standards poster 2010, 7 CFR 54.135, U.S. standards for selection of goat carcasses; leg scores
		// from memory. All else is this project's decision.
		{Beef, measure.FairWeight, "300", "800", "1700", "3000", false},
		{Swine, measure.FairWeight, "100", "200", "330", "500", false},
		{Lamb, measure.FairWeight, "40", "85", "180", "300", false},
		{Goat, measure.FairWeight, "20", "40", "130", "250", false},
		{Beef, measure.StartWeight, "50", "300", "1100", "2500", false},
		{Swine, measure.StartWeight, "5", "20", "200", "400", false},
		{Lamb, measure.StartWeight, "5", "25", "130", "250", false},
		{Goat, measure.StartWeight, "3", "12", "90", "200", false},
		{"", measure.FatAdjustment, "-1", "-0.4", "0.4", "1", false},
		{Swine, measure.MeasuredFat, "0.05", "0.3", "1.5", "4", false},
		{Swine, measure.AdjustedFat, "0.05", "0.3", "1.5", "4", false},
		{Swine, measure.RibeyeArea, "2", "4.5", "11", "16", false},
		{Goat, measure.MeasuredFat, "0", "0.03", "0.4", "1.2", false},
		{Goat, measure.AdjustedFat, "0", "0.03", "0.4", "1.2", false},
		{Goat, measure.LeftFat, "0", "0.03", "0.4", "1.2", false},
		{Goat, measure.RightFat, "0", "0.03", "0.4", "1.2", false},
		{Beef, measure.DotsOutlined, "4", "9", "19", "26", false},
		{Beef, measure.DotsMissing, "0", "", "25", "100", false},
		{Beef, measure.DotsOutside, "0", "", "25", "100", false},
		{Beef, measure.PreliminaryYieldGrade, "", "2", "6", "", false},
		{Swine, measure.SheetYieldGrade, "", "0", "7", "", false},
		{Goat, measure.SheetYieldGrade, "", "0", "7", "", false},
		{Swine, measure.SheetCutability, "", "30", "75", "", false},
		{Beef, measure.LeftSideWeight, "100", "250", "550", "900", false},
		{Beef, measure.RightSideWeight, "100", "250", "550", "900", false},
		{Swine, measure.LeftSideWeight, "40", "72", "123", "200", false},
		{Swine, measure.RightSideWeight, "40", "72", "123", "200", false},
		{Lamb, measure.LeftSideWeight, "10", "22", "50", "80", false},
		{Lamb, measure.RightSideWeight, "10", "22", "50", "80", false},
		{Goat, measure.LeftSideWeight, "5", "9", "38", "75", false},
		{Goat, measure.RightSideWeight, "5", "9", "38", "75", false},
		{Swine, measure.ChillLoss, "0", "0.3", "6", "15", false},
		{Lamb, measure.ChillLoss, "0", "0.3", "7", "15", false},
		{Goat, measure.ChillLoss, "0", "0.3", "8", "15", false},
		{"", measure.LivePlacing, "", "1", "300", "", false},
		{"", measure.Maturity, "100", "", "", "599", false},
		{Beef, measure.SkeletalMaturity, "100", "", "", "599", false},
		{Beef, measure.LeanMaturity, "100", "", "", "599", false},
		{Swine, measure.LeanColor, "1", "", "", "6", false},
		{Swine, measure.PorkMarbling, "1", "", "6", "10", false},
		{Swine, measure.Firmness, "1", "", "", "3", false},
		{Swine, measure.Wetness, "1", "", "", "3", false},
		{Swine, measure.MusclingScore, "1", "", "", "3", false},
		{Lamb, measure.LegScore, "1", "", "", "15", false},
		{Lamb, measure.FlankStreaking, "0", "100", "900", "999", false},
		{Goat, measure.Selection, "1", "", "", "3", false},
		{Beef, measure.AverageDailyGain, "0.5", "1.5", "5", "6", false},
		{Swine, measure.AverageDailyGain, "0.5", "1", "2.8", "3.5", false},
		{Lamb, measure.AverageDailyGain, "0.1", "0.2", "1.1", "1.5", false},
		{Goat, measure.AverageDailyGain, "0.05", "0.1", "0.7", "1", false},
		{Beef, measure.CarcassGainPerDay, "0.3", "0.8", "3.8", "5", false},
		{Swine, measure.CarcassGainPerDay, "0.3", "0.7", "2.3", "3", false},
		{Lamb, measure.CarcassGainPerDay, "0.05", "0.1", "0.7", "1", false},
		{Goat, measure.CarcassGainPerDay, "0.02", "0.05", "0.4", "0.7", false},
		{Swine, measure.LeanGainPerDay, "0.2", "0.4", "1.3", "1.6", false},
		{Beef, measure.WeightPerDayOfAge, "0.6", "1.5", "4.2", "5.5", false},
		{Swine, measure.WeightPerDayOfAge, "0.4", "0.9", "2.2", "3.2", false},
		{Lamb, measure.WeightPerDayOfAge, "0.12", "0.25", "1.2", "2", false},
		{Goat, measure.WeightPerDayOfAge, "0.06", "0.12", "0.8", "1.5", false},
		{Beef, measure.CarcassWeightPerDay, "0.3", "0.9", "2.7", "3.6", false},
		{Swine, measure.CarcassWeightPerDay, "0.3", "0.65", "1.7", "2.4", false},
		{Lamb, measure.CarcassWeightPerDay, "0.06", "0.12", "0.7", "1.1", false},
		{Goat, measure.CarcassWeightPerDay, "0.03", "0.06", "0.4", "0.8", false},
		{Beef, measure.RetailCutsPerDay, "0.15", "0.4", "1.5", "2", false},
		{Lamb, measure.RetailCutsPerDay, "0.02", "0.05", "0.4", "0.6", false},
		{Goat, measure.RetailCutsPerDay, "0.01", "0.03", "0.25", "0.45", false},
		{Beef, measure.ValuePerDayOnFeed, "0", "", "25", "60", false},
		{Swine, measure.ValuePerDayOnFeed, "0", "", "6", "15", false},
		{Lamb, measure.ValuePerDayOnFeed, "0", "", "5", "12", false},
		{Goat, measure.ValuePerDayOnFeed, "0", "", "4", "10", false},
		{"", measure.DaysOnFeed, "1", "", "500", "1096", false},
		// Usual ranges: Michigan State University, live evaluation slides 2009 (length); study cards to the pork standard (belly);
		// a university goat carcass guide. The bounds are this project's decisions.
		{Swine, measure.CarcassLength, "20", "28", "36", "48", false},
		{Swine, measure.BellyThickness, "0.1", "0.6", "2.5", "4", false},
		{Goat, measure.FatCover, "1", "", "", "3", false},
		{Goat, measure.KidneyFat, "0", "0.5", "5", "10", false},
		{Lamb, measure.KidneyFat, "0", "0.5", "7", "12", false},
	}
	limits := Default().Limits
	if len(limits) != len(cases) {
		t.Errorf("there are %d limits, not %d", len(limits), len(cases))
	}
	for _, c := range cases {
		want := fmt.Sprint(c.holdBelow, c.lookBelow, c.lookAbove, c.holdAbove, c.atToo)
		got := "none"
		for _, limit := range limits {
			if limit.Species == c.species && limit.Measure == c.measure {
				got = fmt.Sprint(shown(limit.HoldBelow), shown(limit.LookBelow), shown(limit.LookAbove), shown(limit.HoldAbove), limit.HoldAt)
			}
		}
		if got != want {
			t.Errorf("%s %s: %s, not %s", c.species, c.measure, got, want)
		}
	}
}

func shown(number decimal.NullDecimal) string {
	if !number.Valid {
		return ""
	}
	return number.Decimal.String()
}

func TestDefaultSettings(t *testing.T) {
	settings := Default().Settings
	cases := []struct{ what, got, want string }{
		// An example base that the board replaces.
		{"base price", shown(settings.BasePrice[Beef]), "300"},
		{"base price source", settings.BasePriceSource[Beef], "example base: set your own"},
		// No priced grid is published for swine, lamb or goat.
		{"base price of swine", shown(settings.BasePrice[Swine]), ""},
		{"base price source of lamb", settings.BasePriceSource[Lamb], "no published grid: set your own"},
		// Customary when unknown: Beef Improvement Federation Guidelines.
		{"customary KPH", shown(settings.CustomaryKPH), "2.5"},
		{"carcass weights", string(settings.Weights), "hot"},
		// From memory.
		{"chilled to hot", shown(settings.ChilledToHot), "1.02"},
		{"marbling scale", string(settings.MarblingScale), "hundreds"},
		{"dark cutter", string(settings.DarkCutterTakes), "grade and discount"},
		{"conditions add", fmt.Sprint(settings.ConditionsAdd), "true"},
		{"price by thirds", fmt.Sprint(settings.PriceByThirds), "false"},
		// Common practice of live scan contests.
		{"scan dressing percent of goat", shown(settings.ScanDressingPercent[Goat]), "48"},
		// The middle of the usual ranges: this project's decision.
		{"scan dressing percent of lamb", shown(settings.ScanDressingPercent[Lamb]), "52"},
		{"start dressing percent of beef", shown(settings.StartDressingPercent[Beef]), "58"},
		{"start dressing percent of swine", shown(settings.StartDressingPercent[Swine]), ""},
		{"shrink", settings.Shrink.String(), "0"},
		{"shrink on", string(settings.ShrinkOn), "none"},
		{"days on feed end", string(settings.DaysEnd), "kill"},
		{"lean equation", settings.LeanEquation, "fat-free lean, ribbed"},
	}
	for _, c := range cases {
		if c.got != c.want {
			t.Errorf("%s is %q, not %q", c.what, c.got, c.want)
		}
	}
}

// The order in which beef judges usually reason: acceptable cutability first, then quality. Common practice.
func TestDefaultBeefRanking(t *testing.T) {
	want := []Key{
		{Measure: measure.WholeYieldGrade, Prefer: PassAtMost, Bound: decimal.NewNullDecimal(number("3"))},
		{Measure: measure.QualityGrade, Prefer: Highest},
		{Measure: measure.YieldGrade, Prefer: Lowest, Decimals: decimal.NewNullDecimal(number("1"))},
		{Measure: measure.MarblingScore, Prefer: Highest},
		{Measure: measure.RibeyePerHundredweight, Prefer: Highest},
	}
	ranking := Default().Rankings[0]
	if ranking.Name != "beef carcass" || ranking.Ties != TiesShare || len(ranking.Keys) != len(want) {
		t.Fatalf("the first ranking is %+v", ranking)
	}
	for step, key := range ranking.Keys {
		if key.Measure != want[step].Measure || key.Prefer != want[step].Prefer || !sameNumber(key.Bound, want[step].Bound) || !sameNumber(key.Decimals, want[step].Decimals) {
			t.Errorf("step %d is %+v, not %+v", step+1, key, want[step])
		}
	}
}

func TestEverySpeciesHasADefaultClassOnBothBases(t *testing.T) {
	classes := Default().Classes
	for _, species := range eachSpecies {
		for _, basis := range []Basis{OnTheRail, LiveScan} {
			found := 0
			for _, class := range classes {
				if class.Name == EveryOtherClass && class.Species == species && class.Basis == basis {
					found++
				}
			}
			if found != 1 {
				t.Errorf("%s %s has %d classes for every other class", species, basis, found)
			}
		}
	}
}

// Headings of the trade: common practice.
func TestHeadingsOfTheTrade(t *testing.T) {
	cases := []struct {
		species Species
		heading string
		measure measure.ID
	}{
		{Beef, "hot wt", measure.HotCarcassWeight},
		{Beef, "hang wt", measure.HotCarcassWeight},
		{Beef, "carc wt", measure.HotCarcassWeight},
		{Beef, "HCW", measure.HotCarcassWeight},
		{Beef, "rail wt", measure.HotCarcassWeight},
		{Beef, "cold wt", measure.ChilledCarcassWeight},
		{Beef, "live wt", measure.LiveWeight},
		{Beef, "sale wt", measure.LiveWeight},
		{Beef, "fair wt", measure.FairWeight},
		{Beef, "BF", measure.MeasuredFat},
		{Beef, "back fat", measure.MeasuredFat},
		{Beef, "12th rib fat", measure.MeasuredFat},
		{Beef, "FT", measure.MeasuredFat},
		{Beef, "adj BF", measure.AdjustedFat},
		{Beef, "Adj. Fat", measure.AdjustedFat},
		{Beef, "PYG", measure.PreliminaryYieldGrade},
		{Beef, "YG", measure.SheetYieldGrade},
		{Beef, "REA", measure.RibeyeArea},
		{Beef, "loin eye", measure.RibeyeArea},
		{Beef, "LMA", measure.RibeyeArea},
		{Beef, "int. fat", measure.InternalFat},
		{Beef, "KPH", measure.InternalFat},
		{Beef, "marb", measure.Marbling},
		{Beef, "mat", measure.Maturity},
		{Beef, "bone mat", measure.SkeletalMaturity},
		{Beef, "lean mat", measure.LeanMaturity},
		{Beef, "tag", measure.Tag},
		{Beef, "ear tag", measure.Tag},
		{Beef, "carcass #", measure.Tag},
		{Swine, "BF", measure.TenthRibFat},
		{Swine, "10th rib", measure.TenthRibFat},
		{Swine, "last rib", measure.LastRibFat},
		{Swine, "LEA", measure.LoinMuscleArea},
		{Swine, "loin depth", measure.LoinDepth},
		{Swine, "color", measure.LeanColor},
		{Swine, "marbling", measure.PorkMarbling},
		{Lamb, "body wall", measure.BodyWallThickness},
		{Lamb, "leg", measure.LegScore},
		{Lamb, "LEA", measure.RibeyeArea},
		{Goat, "LEA", measure.RibeyeArea},
		{Goat, "conformation", measure.Selection},
	}
	headings := Default().Headings
	for _, c := range cases {
		found := make(map[measure.ID]bool)
		for _, heading := range headings {
			if (heading.Species == "" || heading.Species == c.species) && foldHeading(heading.Text) == foldHeading(c.heading) {
				found[heading.Measure] = true
			}
		}
		if len(found) != 1 || !found[c.measure] {
			t.Errorf("the heading %q on a sheet of %s stands for %v, not %s", c.heading, c.species, found, c.measure)
		}
	}
}

// Every measure that is read has its own name or our own heading among the accepted headings.
func TestEveryReadMeasureHasAHeading(t *testing.T) {
	headings := Default().Headings
	for _, definition := range measure.Standard().Definitions() {
		if definition.Computed {
			continue
		}
		found := false
		for _, heading := range headings {
			found = found || heading.Measure == definition.ID
		}
		if !found {
			t.Errorf("no heading stands for %s", definition.ID)
		}
	}
}

func TestEveryDefaultLineHasASource(t *testing.T) {
	for _, table := range DefaultTables() {
		source := columnOf(table, "Source")
		for _, row := range table.Rows[1:] {
			if row[source].Text == "" {
				t.Errorf("%v has no source", row[0].Place)
			}
		}
	}
}

// The scores that a rail sheet offers are those of the published scales. Pork: pork quality standards poster 2010 (color 1
// to 6, marbling 1 to 6 and 10, firmness and wetness 1 to 3). Muscling: 7 CFR 53.153 (1 thin, 2 average, 3 thick). Leg: from
// memory (15 High Prime). Goat selection: institutional meat purchase specifications, Series 11, 2001. Marbling and
// maturity: whole degrees of the U.S. standards; lambs A and B only.
func TestRailSheetOffersThePublishedScores(t *testing.T) {
	for _, test := range []struct {
		species Species
		measure measure.ID
		want    string
	}{
		{Swine, measure.LeanColor, "1 2 3 4 5 6"},
		{Swine, measure.PorkMarbling, "1 2 3 4 5 6 10"},
		{Swine, measure.Firmness, "1 2 3"},
		{Swine, measure.Wetness, "1 2 3"},
		{Swine, measure.MusclingScore, "1 2 3"},
		{Swine, measure.Skinned, "yes no"},
		{Lamb, measure.LegScore, "15 14 13 12 11 10 9 8 7 6 5 4 3 2 1"},
		{Lamb, measure.Maturity, "100 to 299"},
		{Beef, measure.Maturity, "100 to 599"},
		{Beef, measure.Marbling, "100 to 999"},
		{Goat, measure.Selection, "1 2 3"},
	} {
		column, _ := RailColumnOf(test.species, OnTheRail, test.measure)
		got := strings.Join(column.Choices, " ")
		if column.UpTo > 0 {
			got = fmt.Sprintf("%d to %d", column.From, column.UpTo)
		}
		if got != test.want {
			t.Errorf("%s of %s offers %q, want %s", test.measure, test.species, got, test.want)
		}
	}
}

// Every line of the rail sheet's table is about a species, basis and measure that there is, and says what to do.
func TestRailSheetTable(t *testing.T) {
	for _, column := range railColumns() {
		definition, known := measure.Define(column.Measure)
		switch {
		case !known:
			t.Errorf("%q is no measure", column.Measure)
		case column.Species != "" && !slices.Contains(eachSpecies, column.Species) || !definition.For(string(column.Species)) && column.Species != "":
			t.Errorf("%q has no %s", column.Species, column.Measure)
		case column.Asked != AskedEach && column.Asked != AskedAsDots && column.Asked != AskedOnce && column.Asked != AskedNever:
			t.Errorf("%s is asked %q", column.Measure, column.Asked)
		case column.What == "":
			t.Errorf("%s is not explained", column.Measure)
		}
	}
}
