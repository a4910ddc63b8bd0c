package rules

import (
	_ "embed"
	"encoding/csv"
	"fmt"
	"strconv"
	"strings"
	"sync"
)

// Measure is the name of something read from a sheet or computed from it, as the rulebook writes it:
// "hot carcass weight". Each measure has one Definition, in tables/measures.csv.
type Measure string

// The measures that more than one package speaks of. A measure of one species alone is named in that
// species' file of package grading.
const (
	Tag                  Measure = "tag"
	ElectronicTag        Measure = "electronic tag"
	OldTag               Measure = "old tag"
	RailNumber           Measure = "rail number"
	ClassName            Measure = "class"
	SpeciesName          Measure = "species"
	BasisName            Measure = "basis"
	Exhibitor            Measure = "exhibitor"
	Club                 Measure = "club"
	Family               Measure = "family"
	Consent              Measure = "consent"
	Sex                  Measure = "sex"
	Breed                Measure = "breed"
	LivePlacing          Measure = "live placing"
	Remarks              Measure = "remarks"
	LiveWeight           Measure = "live weight"
	FairWeight           Measure = "fair weight"
	HotCarcassWeight     Measure = "hot carcass weight"
	ChilledCarcassWeight Measure = "chilled carcass weight"
	LeftSideWeight       Measure = "left side weight"
	RightSideWeight      Measure = "right side weight"
	MeasuredFat          Measure = "measured fat"
	LeftFat              Measure = "left fat"
	RightFat             Measure = "right fat"
	FatAdjustment        Measure = "fat adjustment"
	AdjustedFat          Measure = "adjusted fat"
	RibeyeArea           Measure = "ribeye area"
	DotsOutlined         Measure = "dots outlined"
	DotsMissing          Measure = "dots missing"
	DotsOutside          Measure = "dots outside"
	InternalFat          Measure = "kidney, pelvic and heart fat"
	Marbling             Measure = "marbling"
	Maturity             Measure = "maturity"
	SkeletalMaturity     Measure = "skeletal maturity"
	LeanMaturity         Measure = "lean maturity"
	DarkCutterLowering   Measure = "dark cutter lowering"
	DarkCutter           Measure = "dark cutter"
	Hardbone             Measure = "hardbone"
	DairyType            Measure = "dairy type"
	Over30Months         Measure = "over 30 months"
	Under30Months        Measure = "under 30 months"
	Bullock              Measure = "bullock"
	Condemned            Measure = "condemned"
	Retained             Measure = "retained"
	Trimmed              Measure = "trimmed"
	BloodSplash          Measure = "blood splash"
	SheetYieldGrade      Measure = "sheet yield grade"
	SheetQualityGrade    Measure = "sheet quality grade"
	SheetDressingPercent Measure = "sheet dressing percent"
	SheetCutability      Measure = "sheet cutability"
	BirthDate            Measure = "birth date"
	StartDate            Measure = "start date"
	StartWeight          Measure = "start weight"
	WeighInDate          Measure = "weigh-in date"
	KillDate             Measure = "kill date"
	IntramuscularFat     Measure = "intramuscular fat"

	DressingPercent        Measure = "dressing percent"
	YieldGrade             Measure = "yield grade"
	WholeYieldGrade        Measure = "whole yield grade"
	Cutability             Measure = "cutability"
	RibeyePerHundredweight Measure = "ribeye per hundredweight"
	MarblingScore          Measure = "marbling score"
	OverallMaturity        Measure = "overall maturity"
	QualityGrade           Measure = "quality grade"
	Price                  Measure = "price"
	CarcassValue           Measure = "value"
	Premium                Measure = "premium"
	Points                 Measure = "points"
)

// Definition is all the program knows of a measure apart from how it is computed.
type Definition struct {
	Measure  Measure
	Species  []Species // the species that have it; empty for all
	Kind     Kind
	Unit     string // "lb", "in", "sq in", "%", "$/cwt", …; empty for none
	Decimals int    // how many decimals are printed; comparisons use the 6-decimal figure
	Computed bool   // computed by package grading; false for what is read from a sheet
	Heading  string // our own heading for it
	Meaning  string // a sentence for a family
}

//go:embed tables/measures.csv
var measuresCSV string

var definitions = sync.OnceValue(func() map[Measure]Definition {
	table := make(map[Measure]Definition)
	for _, definition := range mustReadDefinitions(measuresCSV) {
		table[definition.Measure] = definition
	}
	return table
})

// Define gives a measure's definition; ok is false for a name that is no measure.
func Define(measure Measure) (definition Definition, ok bool) {
	definition, ok = definitions()[measure]
	return definition, ok
}

// Definitions gives every measure's definition in the order of the table.
func Definitions() []Definition { return mustReadDefinitions(measuresCSV) }

// For reports whether a species has this measure.
func (d Definition) For(species Species) bool {
	for _, one := range d.Species {
		if one == species {
			return true
		}
	}
	return len(d.Species) == 0
}

// mustReadDefinitions reads the embedded table; a fault in it is a fault of the program and is found by every test.
func mustReadDefinitions(text string) []Definition {
	rows, err := csv.NewReader(strings.NewReader(text)).ReadAll()
	if err != nil {
		panic(fmt.Sprintf("rules: tables/measures.csv: %v", err))
	}
	var list []Definition
	for _, row := range rows[1:] {
		definition := Definition{
			Measure: Measure(row[0]), Kind: Kind(row[2]), Unit: row[3],
			Computed: row[5] == "computed", Heading: row[6], Meaning: row[7],
		}
		if row[1] != "all" {
			for _, name := range strings.Split(row[1], "|") {
				definition.Species = append(definition.Species, Species(name))
			}
		}
		if row[4] != "" {
			if definition.Decimals, err = strconv.Atoi(row[4]); err != nil {
				panic(fmt.Sprintf("rules: tables/measures.csv: decimals of %s: %v", row[0], err))
			}
		}
		list = append(list, definition)
	}
	return list
}
