package words

import (
	"testing"

	"railbook/grading"
	"railbook/grading/placing"
	"railbook/grading/whatif"
	"railbook/rules"
	"railbook/rules/measure"
)

// limitOf is the first bound of a requirement.
func limitOf(requirement rules.Requirement) whatif.Limit {
	limit := whatif.Limit{Requirement: requirement}
	if bounds := grading.BoundsOf(requirement); len(bounds) > 0 {
		limit.Bound = bounds[0]
	}
	return limit
}

// The sentences that a board reads of its own limits; no published source has such words.
func TestALimitThatDoesNothingIsSaidInASentence(t *testing.T) {
	yieldGrade := limitOf(rules.Requirement{Measure: measure.YieldGrade, AtMost: atMost("3.99"), Place: rules.Place{Sheet: "Eligibility", Cell: "E3"}})
	cutability := limitOf(rules.Requirement{Measure: measure.Cutability, AtLeast: atMost("51")})
	ribeye := limitOf(rules.Requirement{Measure: measure.RibeyeArea, AtLeast: atMost("3.8"), PerPound: grading.Exact(".012")})
	finer := limitOf(rules.Requirement{Measure: measure.YieldGrade, Below: atMost("3.999999")})
	choice := limitOf(rules.Requirement{Measure: measure.QualityGrade, LowestWord: "Low Choice"})
	steers := placing.Entries{Rule: rules.Class{Name: "Steers"}, Species: rules.Beef, Basis: rules.OnTheRail}
	beef := placing.Entries{Rule: rules.Class{Name: rules.EveryOtherClass}, Species: rules.Beef, Basis: rules.OnTheRail}
	for _, test := range []struct {
		warning whatif.LimitWarning
		want    string
	}{
		{
			whatif.LimitWarning{Limit: yieldGrade},
			"The limit of yield grade at most 3.99 can never decide anything. No carcass within the limits of the Limits sheet can fail it. Take it out, or change it.",
		},
		{
			whatif.LimitWarning{Limit: choice, Others: []whatif.Limit{cutability, ribeye}},
			"The limit of quality grade at least Low Choice can never decide anything. " +
				"Every carcass that passes cutability at least 51.00 % and ribeye area at least 3.80 sq in and 0.012 more for each lb passes it too. Take it out, or change it.",
		},
		{
			whatif.LimitWarning{Limit: yieldGrade, Others: []whatif.Limit{finer}},
			"The limit of yield grade at most 3.99 can never decide anything. Every carcass that passes yield grade below 3.999999 passes it too. Take it out, or change it.",
		},
		{
			whatif.LimitWarning{Limit: yieldGrade, Fails: &steers},
			"No carcass can pass yield grade at most 3.99. Change it, or write whom it is for under \"Species\" or \"Class\": every carcass of class Steers fails.",
		},
		{
			whatif.LimitWarning{Limit: yieldGrade, Others: []whatif.Limit{cutability}, Fails: &beef},
			"No carcass can pass cutability at least 51.00 % and yield grade at most 3.99. Change one of them, or every carcass of beef on the rail fails.",
		},
	} {
		fault := LimitFaults([]whatif.LimitWarning{test.warning})[0]
		if fault.Message != test.want || !fault.Warning || fault.Place != test.warning.Limit.Requirement.Place {
			t.Errorf("%+v, want %q as a warning at the limit's cell", fault, test.want)
		}
	}
	if faults := LimitFaults(nil); faults != nil {
		t.Errorf("of no limit: %v", faults)
	}
}

func TestWhatDecidedNothingIsSaidInASentence(t *testing.T) {
	line := func(part rules.Part, name, from, upTo, adjust string) whatif.Unused {
		made := &rules.GridLine{Species: rules.Beef, Part: part, Name: name, Adjust: grading.Exact(adjust)}
		if from != "" {
			made.Band = rules.Band{From: atMost(from), UpTo: atMost(upTo), FromIsIn: true}
		}
		return whatif.Unused{Species: rules.Beef, Line: made}
	}
	limit := func(requirement rules.Requirement) whatif.Unused { return whatif.Unused{Limit: &requirement} }
	for _, test := range []struct {
		unused whatif.Unused
		want   string
	}{
		{line(rules.QualityPart, "Prime", "", "", "17.54"), "No beef carcass falls under the premium for Prime, +$17.54."},
		{line(rules.QualityPart, "Standard", "", "", "-40.93"), "No beef carcass falls under the discount for Standard, -$40.93."},
		{line(rules.WeightPart, "", "400", "500", "-29.29"), "No beef carcass falls under the discount for a weight 400 up to 500 lb, -$29.29."},
		{line(rules.YieldPart, "", "2", "2.5", "1.5"), "No beef carcass falls under the premium for a yield grade 2.0 up to 2.5, +$1.50."},
		{limit(rules.Requirement{Measure: measure.YieldGrade, Below: atMost("4")}), "No carcass fails the limit on yield grade (must be below 4.00)."},
		{
			limit(rules.Requirement{Measure: measure.HotCarcassWeight, AtLeast: atMost("600"), AtMost: atMost("900")}),
			"No carcass fails the limit on hot carcass weight (at least 600 lb, at most 900 lb).",
		},
		{limit(rules.Requirement{Measure: measure.QualityGrade, LowestWord: "Low Choice"}), "No carcass fails the limit on quality grade (at least Low Choice)."},
		{
			limit(rules.Requirement{Measure: measure.RibeyeArea, AtLeast: atMost("3.8"), PerPound: grading.Exact(".012")}),
			"No carcass fails the limit on ribeye area (at least 3.80 sq in and 0.012 more for each lb).",
		},
		{
			limit(rules.Requirement{Measure: measure.HotCarcassWeight, AtMost: atMost("80"), FromMean: true}),
			"No carcass fails the limit on hot carcass weight (at most 80 lb from the class mean).",
		},
	} {
		if got := Unused(test.unused); got != test.want {
			t.Errorf("%q, want %q", got, test.want)
		}
	}
}
