package reading

import (
	"slices"
	"strings"
	"testing"

	"railbook/rules"
)

// Headings as plants and fair offices write them: common practice.
func TestHeadingsAsPeopleWriteThem(t *testing.T) {
	tests := []struct {
		text    string
		species rules.Species
		measure rules.Measure // empty: not recognised
		unit    string
	}{
		{"HCW", rules.Beef, rules.HotCarcassWeight, ""},
		{"H.C.W.", rules.Beef, rules.HotCarcassWeight, ""},
		{"hot wt", rules.Beef, rules.HotCarcassWeight, ""},
		{"Hot Weight", rules.Beef, rules.HotCarcassWeight, ""},
		{"Hot\nCarcass\nWeight (lbs.)", rules.Beef, rules.HotCarcassWeight, "lb"},
		{"HCW (kg)", rules.Beef, rules.HotCarcassWeight, "kg"},
		{"HCW, kg", rules.Beef, rules.HotCarcassWeight, "kg"},
		{"HCW #", rules.Beef, rules.HotCarcassWeight, "lb"},
		{"Weight, hot", rules.Beef, rules.HotCarcassWeight, ""},
		{"HotWt", rules.Beef, rules.HotCarcassWeight, ""},
		{"Carcass Wt.", rules.Beef, rules.HotCarcassWeight, ""},
		{"Hang wt", rules.Beef, rules.HotCarcassWeight, ""},
		{"Carcass #", rules.Beef, rules.Tag, ""},
		{"Cold carc. wt", rules.Beef, rules.ChilledCarcassWeight, ""},
		{"Left side hot wt", rules.Beef, rules.LeftSideWeight, ""},
		{"Fat", rules.Beef, rules.MeasuredFat, ""},
		{"Fat (mm)", rules.Beef, rules.MeasuredFat, "mm"},
		{"BF 10ths", rules.Beef, rules.MeasuredFat, "tenths"},
		{`12th Rib Fat (")`, rules.Beef, rules.MeasuredFat, "in"},
		{"12th rib fat, in.", rules.Beef, rules.MeasuredFat, "in"},
		{"Fat 1/10 in", rules.Beef, rules.MeasuredFat, "tenths"},
		{"Adj. Fat", rules.Beef, rules.AdjustedFat, ""},
		{"Fat adj.", rules.Beef, rules.FatAdjustment, ""},
		{"Fat", rules.Swine, "tenth-rib fat", ""},
		{"REA (cm²)", rules.Beef, rules.RibeyeArea, "sq cm"},
		{"REA sq. in.", rules.Beef, rules.RibeyeArea, "sq in"},
		{"Rib-Eye Area (in²)", rules.Beef, rules.RibeyeArea, "sq in"},
		{"RIBEYE", rules.Beef, rules.RibeyeArea, ""},
		{"REA", rules.Swine, "loin muscle area", ""},
		{"KPH %", rules.Beef, rules.InternalFat, ""},
		{"K.P.H. (%)", rules.Beef, rules.InternalFat, ""},
		{"%KPH", rules.Beef, rules.InternalFat, ""},
		{"KPH", rules.Lamb, "", ""},
		{"Marb.", rules.Beef, rules.Marbling, ""},
		{"Marbling", rules.Swine, "pork marbling", ""},
		{"> 30 months", rules.Beef, rules.Over30Months, ""},
		{"< 30 months", rules.Beef, rules.Under30Months, ""},
		{"Live wt (plant)", rules.Beef, rules.LiveWeight, ""},
		{"Weigh-in wt", rules.Beef, rules.FairWeight, ""},
		{"YG", rules.Beef, rules.SheetYieldGrade, ""},
		{"Dressing %", rules.Beef, rules.SheetDressingPercent, ""},
		{"Body Wall", rules.Goat, "body wall thickness", ""},
		{"Scan wt (live, lb)", rules.Beef, rules.LiveWeight, "lb"},
		{"Scan weight", rules.Swine, rules.LiveWeight, ""},
		{"Live wt at scan", rules.Lamb, rules.LiveWeight, ""},
		{"Live weight at scan (kg)", rules.Beef, rules.LiveWeight, "kg"},
		{"Weight at scan", rules.Goat, rules.LiveWeight, ""},
		{"Ultrasound live wt", rules.Beef, rules.LiveWeight, ""},
		{"UFAT", rules.Beef, rules.MeasuredFat, ""},
		{"UFAT (in)", rules.Swine, "tenth-rib fat", "in"},
		{"UBF", rules.Swine, "tenth-rib fat", ""},
		{"US BF", rules.Swine, "tenth-rib fat", ""},
		{"US 10th rib BF", rules.Swine, "tenth-rib fat", ""},
		{"U/S fat", rules.Swine, "tenth-rib fat", ""},
		{"Scan 10th rib fat, in", rules.Swine, "tenth-rib fat", "in"},
		{"US fat", rules.Lamb, rules.MeasuredFat, ""},
		{"U/S backfat", rules.Beef, rules.MeasuredFat, ""},
		{"UREA", rules.Beef, rules.RibeyeArea, ""},
		{"UREA (sq in)", rules.Lamb, rules.RibeyeArea, "sq in"},
		{"US REA, sq in", rules.Goat, rules.RibeyeArea, "sq in"},
		{"US LEA", rules.Goat, rules.RibeyeArea, ""},
		{"ULMA", rules.Swine, "loin muscle area", ""},
		{"US LMA", rules.Swine, "loin muscle area", ""},
		{"US LEA, sq in", rules.Swine, "loin muscle area", "sq in"},
		{"U/S loin area", rules.Swine, "loin muscle area", ""},
		{"US loin depth", rules.Swine, "loin depth", ""},
		{"US body wall", rules.Lamb, "body wall thickness", ""},
		{"%IMF", rules.Beef, rules.IntramuscularFat, ""},
		{"IMF (%)", rules.Beef, rules.IntramuscularFat, ""},
		{"US %IMF", rules.Beef, rules.IntramuscularFat, ""},
		{"UPFAT", rules.Beef, rules.IntramuscularFat, ""},
		{"HCW (mm)", rules.Beef, "", ""},
		{"Weight", rules.Beef, "", ""},
		{"Ribeye aera", rules.Beef, "", ""},
		{"Pen", rules.Beef, "", ""},
		{"Results are due at the office on Thursday, please call before that", rules.Beef, "", ""},
	}
	v := newVocabulary(rules.Default(), nil)
	for _, test := range tests {
		found := v.recognise(test.text)
		heading, _ := found.of(test.species)
		if heading.Measure != test.measure && !(test.measure == "" && !slices.Contains(found.candidates, heading)) || test.measure != "" && found.unit != test.unit {
			t.Errorf("%q for %s: %q in %q, want %q in %q", test.text, test.species, heading.Measure, found.unit, test.measure, test.unit)
		}
	}
}

// TestEveryAcceptedHeadingIsRecognised: what the rulebook lists means what the rulebook says, whatever its letter case.
func TestEveryAcceptedHeadingIsRecognised(t *testing.T) {
	book := rules.Default()
	v := newVocabulary(book, nil)
	for _, accepted := range book.Headings {
		if accepted.Measure == rules.SpeciesName && accepted.Species != "" {
			continue
		}
		for _, text := range []string{accepted.Text, strings.ToUpper(accepted.Text), " " + accepted.Text + " "} {
			species := accepted.Species
			heading, ok := v.recognise(text).of(species)
			if !ok || heading.Measure != accepted.Measure {
				t.Errorf("%q (%s) was read as %q, the rulebook says %q", text, species, heading.Measure, accepted.Measure)
			}
		}
	}
}

func TestOwnHeadingsAreRecognised(t *testing.T) {
	v := newVocabulary(rules.Default(), nil)
	for _, definition := range rules.Definitions() {
		if definition.Computed {
			continue
		}
		for _, species := range append(slices.Clone(definition.Species), "") {
			if species == "" && len(definition.Species) > 0 {
				continue
			}
			heading, ok := v.recognise(definition.Heading).of(species)
			if !ok || heading.Measure != definition.Measure {
				t.Errorf("our own heading %q was read as %q, not as %s", definition.Heading, heading.Measure, definition.Measure)
			}
		}
	}
}

func TestNearestHeading(t *testing.T) {
	v := newVocabulary(rules.Default(), nil)
	for text, want := range map[string]rules.Measure{
		"Ribeye aera": rules.RibeyeArea, "Marbeling": rules.Marbling, "Exibitor": rules.Exhibitor, "Hot carcas weigth": rules.HotCarcassWeight,
		"Pen": "", "Buyer": "", "Lot": "",
	} {
		if near, _ := v.nearest(text); near.Measure != want {
			t.Errorf("%q comes nearest to %q (%s), want %q", text, near.Text, near.Measure, want)
		}
	}
}

// FuzzHeadings: no heading breaks the reader, and what is recognised is recognised again in its folded form.
func FuzzHeadings(f *testing.F) {
	for _, seed := range []string{"HCW (kg)", "Fat, in.", "BF 10ths", "REA (cm²)", "", "\x00", "((((", "in in in", "%", "Tag #", "½ fat"} {
		f.Add(seed)
	}
	v := newVocabulary(rules.Default(), nil)
	f.Fuzz(func(t *testing.T, text string) {
		found := v.lookUp(text)
		v.nearest(text)
		if len(found.candidates) == 0 {
			return
		}
		if again := v.lookUp(strings.Join(fold(text), " ")); len(again.candidates) == 0 || again.candidates[0].Measure != found.candidates[0].Measure {
			t.Fatalf("%q is %s, but folded it is %v", text, found.candidates[0].Measure, again.candidates)
		}
		if found.unit != "" && scales[found.unit].unit != found.unit {
			t.Fatalf("%q has the unit %q, which is none", text, found.unit)
		}
	})
}
