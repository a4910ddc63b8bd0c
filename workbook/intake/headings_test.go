package intake

import (
	"slices"
	"strings"
	"testing"

	"railbook/rules"
	"railbook/rules/measure"
)

// Headings as plants and fair offices write them: common practice.
func TestHeadingsAsPeopleWriteThem(t *testing.T) {
	tests := []struct {
		text    string
		species rules.Species
		measure measure.ID // empty: not recognised
		unit    string
	}{
		{"HCW", rules.Beef, measure.HotCarcassWeight, ""},
		{"H.C.W.", rules.Beef, measure.HotCarcassWeight, ""},
		{"hot wt", rules.Beef, measure.HotCarcassWeight, ""},
		{"Hot Weight", rules.Beef, measure.HotCarcassWeight, ""},
		{"Hot\nCarcass\nWeight (lbs.)", rules.Beef, measure.HotCarcassWeight, "lb"},
		{"HCW (kg)", rules.Beef, measure.HotCarcassWeight, "kg"},
		{"HCW, kg", rules.Beef, measure.HotCarcassWeight, "kg"},
		{"HCW #", rules.Beef, measure.HotCarcassWeight, "lb"},
		{"Weight, hot", rules.Beef, measure.HotCarcassWeight, ""},
		{"HotWt", rules.Beef, measure.HotCarcassWeight, ""},
		{"Carcass Wt.", rules.Beef, measure.HotCarcassWeight, ""},
		{"Hang wt", rules.Beef, measure.HotCarcassWeight, ""},
		{"Carcass #", rules.Beef, measure.Tag, ""},
		{"Cold carc. wt", rules.Beef, measure.ChilledCarcassWeight, ""},
		{"Left side hot wt", rules.Beef, measure.LeftSideWeight, ""},
		{"Fat", rules.Beef, measure.MeasuredFat, ""},
		{"Fat (mm)", rules.Beef, measure.MeasuredFat, "mm"},
		{"BF 10ths", rules.Beef, measure.MeasuredFat, "tenths"},
		{`12th Rib Fat (")`, rules.Beef, measure.MeasuredFat, "in"},
		{"12th rib fat, in.", rules.Beef, measure.MeasuredFat, "in"},
		{"Fat 1/10 in", rules.Beef, measure.MeasuredFat, "tenths"},
		{"Adj. Fat", rules.Beef, measure.AdjustedFat, ""},
		{"Fat adj.", rules.Beef, measure.FatAdjustment, ""},
		{"Fat", rules.Swine, measure.TenthRibFat, ""},
		{"REA (cm²)", rules.Beef, measure.RibeyeArea, "sq cm"},
		{"REA sq. in.", rules.Beef, measure.RibeyeArea, "sq in"},
		{"Rib-Eye Area (in²)", rules.Beef, measure.RibeyeArea, "sq in"},
		{"RIBEYE", rules.Beef, measure.RibeyeArea, ""},
		{"REA", rules.Swine, measure.LoinMuscleArea, ""},
		{"KPH %", rules.Beef, measure.InternalFat, ""},
		{"K.P.H. (%)", rules.Beef, measure.InternalFat, ""},
		{"%KPH", rules.Beef, measure.InternalFat, ""},
		{"KPH", rules.Lamb, measure.None, ""},
		{"KPH", rules.Goat, measure.KidneyFat, ""},
		{"KPH %", rules.Goat, measure.KidneyFat, ""},
		{"Marb.", rules.Beef, measure.Marbling, ""},
		{"Marbling", rules.Swine, measure.PorkMarbling, ""},
		{"> 30 months", rules.Beef, measure.Over30Months, ""},
		{"< 30 months", rules.Beef, measure.Under30Months, ""},
		{"Live wt (plant)", rules.Beef, measure.LiveWeight, ""},
		{"Weigh-in wt", rules.Beef, measure.FairWeight, ""},
		{"YG", rules.Beef, measure.SheetYieldGrade, ""},
		{"Dressing %", rules.Beef, measure.SheetDressingPercent, ""},
		{"Body Wall", rules.Goat, measure.BodyWallThickness, ""},
		{"Scan wt (live, lb)", rules.Beef, measure.LiveWeight, "lb"},
		{"Scan weight", rules.Swine, measure.LiveWeight, ""},
		{"Live wt at scan", rules.Lamb, measure.LiveWeight, ""},
		{"Live weight at scan (kg)", rules.Beef, measure.LiveWeight, "kg"},
		{"Weight at scan", rules.Goat, measure.LiveWeight, ""},
		{"Ultrasound live wt", rules.Beef, measure.LiveWeight, ""},
		{"UFAT", rules.Beef, measure.MeasuredFat, ""},
		{"UFAT (in)", rules.Swine, measure.TenthRibFat, "in"},
		{"UBF", rules.Swine, measure.TenthRibFat, ""},
		{"US BF", rules.Swine, measure.TenthRibFat, ""},
		{"US 10th rib BF", rules.Swine, measure.TenthRibFat, ""},
		{"U/S fat", rules.Swine, measure.TenthRibFat, ""},
		{"Scan 10th rib fat, in", rules.Swine, measure.TenthRibFat, "in"},
		{"US fat", rules.Lamb, measure.MeasuredFat, ""},
		{"U/S backfat", rules.Beef, measure.MeasuredFat, ""},
		{"UREA", rules.Beef, measure.RibeyeArea, ""},
		{"UREA (sq in)", rules.Lamb, measure.RibeyeArea, "sq in"},
		{"US REA, sq in", rules.Goat, measure.RibeyeArea, "sq in"},
		{"US LEA", rules.Goat, measure.RibeyeArea, ""},
		{"ULMA", rules.Swine, measure.LoinMuscleArea, ""},
		{"US LMA", rules.Swine, measure.LoinMuscleArea, ""},
		{"US LEA, sq in", rules.Swine, measure.LoinMuscleArea, "sq in"},
		{"U/S loin area", rules.Swine, measure.LoinMuscleArea, ""},
		{"US loin depth", rules.Swine, measure.LoinDepth, ""},
		{"US body wall", rules.Lamb, measure.BodyWallThickness, ""},
		{"%IMF", rules.Beef, measure.IntramuscularFat, ""},
		{"IMF (%)", rules.Beef, measure.IntramuscularFat, ""},
		{"US %IMF", rules.Beef, measure.IntramuscularFat, ""},
		{"UPFAT", rules.Beef, measure.IntramuscularFat, ""},
		{"HCW (mm)", rules.Beef, measure.None, ""},
		{"Weight", rules.Beef, measure.None, ""},
		{"Ribeye aera", rules.Beef, measure.None, ""},
		{"Pen", rules.Beef, measure.None, ""},
		{"Results are due at the office on Thursday, please call before that", rules.Beef, measure.None, ""},
	}
	v := newVocabulary(rules.Default(), nil)
	for _, test := range tests {
		found := v.recognise(test.text)
		heading, _ := found.of(test.species)
		if heading.Measure != test.measure && !(test.measure == measure.None && !slices.Contains(found.candidates, heading)) || test.measure != measure.None && found.unit != test.unit {
			t.Errorf("%q for %s: %q in %q, want %q in %q", test.text, test.species, heading.Measure, found.unit, test.measure, test.unit)
		}
	}
}

// TestEveryAcceptedHeadingIsRecognised: what the rulebook lists means what the rulebook says, whatever its letter case.
func TestEveryAcceptedHeadingIsRecognised(t *testing.T) {
	book := rules.Default()
	v := newVocabulary(book, nil)
	for _, accepted := range book.Headings {
		if accepted.Measure == measure.SpeciesName && accepted.Species != "" {
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
	for _, definition := range measure.Standard().Definitions() {
		if definition.Computed {
			continue
		}
		for _, species := range append(slices.Clone(definition.Species), "") {
			if species == "" && len(definition.Species) > 0 {
				continue
			}
			heading, ok := v.recognise(definition.Heading).of(rules.Species(species))
			if !ok || heading.Measure != definition.ID {
				t.Errorf("our own heading %q was read as %q, not as %s", definition.Heading, heading.Measure, definition.ID)
			}
		}
	}
}

// TestSuggestedHeading holds which accepted heading a column's own words suggest, and that its values can veto it: the
// figures are a fair's (common practice).
func TestSuggestedHeading(t *testing.T) {
	tests := []struct {
		heading, values string
		want            measure.ID
	}{
		{"Ribeye aera", "13.1,12.8", measure.RibeyeArea},
		{"Ribeye aera", "812,790", measure.None},
		{"Marbeling", "Sm 40,Sl 20", measure.Marbling},
		{"Marbeling", "yes,no", measure.None},
		{"Exibitor", "Aster Gatepost,Umber Saltbox", measure.Exhibitor},
		{"Hot carcas weigth", "812,790", measure.HotCarcassWeight},
		{"Hot carcas weigth", "212,190", measure.None},
		{"Eye muscle called", "13.1,12.8", measure.RibeyeArea},
		{"Liver", "A,B", measure.None},
		{"Hide wt", "82,90", measure.None},
		{"Pen", "1,2", measure.None},
	}
	for _, test := range tests {
		weight, values := "HCW", strings.Split(test.values, ",")
		if strings.HasPrefix(test.heading, "Hot") {
			weight = "CCW"
		}
		result := readSheets(t, Options{}, sheetOf("Steers", "Tag|"+weight+"|Fat|KPH|"+test.heading+"\n1|802|.4|2|"+values[0]+"\n2|803|.4|2|"+values[1]+"\n"))
		got := measure.None
		for _, finding := range result.Findings {
			if finding.Code == "heading not recognised" {
				got = finding.Measure
			}
		}
		if got != test.want {
			t.Errorf("%q over %s suggests %s, want %s", test.heading, test.values, got, test.want)
		}
	}
}

// FuzzHeadings: no heading breaks the reader, and what is recognised is recognised again in its folded form.
func FuzzHeadings(f *testing.F) {
	for _, seed := range []string{"HCW (kg)", "Fat, in.", "BF 10ths", "REA (cm²)", "", "\x00", "((((", "in in in", "%", "Tag #", "½ fat", "REA (0)"} {
		f.Add(seed)
	}
	v := newVocabulary(rules.Default(), nil)
	f.Fuzz(func(t *testing.T, text string) {
		found := v.lookUp(text)
		v.offers(text)
		if len(found.candidates) == 0 {
			return
		}
		plain := text // a footnote's mark is one by its brackets, which folding takes away
		for less := withoutDecoration(plain); less != plain; less = withoutDecoration(plain) {
			plain = less
		}
		if again := v.lookUp(strings.Join(fold(plain), " ")); len(again.candidates) == 0 || again.candidates[0].Measure != found.candidates[0].Measure {
			t.Fatalf("%q is %s, but folded it is %v", text, found.candidates[0].Measure, again.candidates)
		}
		if found.unit != "" && scales[found.unit].unit != found.unit {
			t.Fatalf("%q has the unit %q, which is none", text, found.unit)
		}
	})
}
