package writing

import (
	"strings"

	"railbook/grading"
	"railbook/rules"
)

// kindsOfClasses gives the species and bases of the classes, each once, in the order of the classes.
func (r *Results) kindsOfClasses() []kindOfClass {
	var kinds []kindOfClass
	seen := make(map[kindOfClass]bool)
	for _, class := range r.Placings.Classes {
		kind := kindOfClass{class.Species, class.Basis}
		if !seen[kind] {
			seen[kind] = true
			kinds = append(kinds, kind)
		}
	}
	return kinds
}

// kindOfClass is what must be alike for figures to be compared.
type kindOfClass struct {
	Species rules.Species
	Basis   rules.Basis
}

func (k kindOfClass) words() string {
	if k.Species == "" {
		return "species not known"
	}
	if k.Basis == rules.LiveScan {
		return string(k.Species) + " by ultrasound (estimates)"
	}
	return string(k.Species)
}

func everyCarcass(class grading.ClassPlacing) []*grading.Graded {
	all := make([]*grading.Graded, 0, len(class.Placed)+len(class.Left))
	for _, placed := range class.Placed {
		all = append(all, placed.Graded)
	}
	for _, left := range class.Left {
		all = append(all, left.Graded)
	}
	return all
}

// heading is our heading of a measure in a class: where live animals were scanned, it says what was scanned and what is
// estimated from that.
func (k kindOfClass) heading(measure rules.Measure) string {
	words := headingOf(measure)
	definition, _ := rules.Define(measure)
	if k.Basis != rules.LiveScan || definition.Kind != rules.KindNumber {
		return words
	}
	for _, column := range grading.Columns(k.Species, k.Basis) {
		if column.Measure == measure && strings.HasPrefix(column.Heading, "Estimated") {
			return column.Heading
		}
	}
	if definition.Computed || definition.Unit == "lb" || measure == rules.InternalFat {
		return words // weights come from a scale, and fat inside the animal is not scanned
	}
	return "Scanned " + strings.ToLower(words[:1]) + words[1:]
}

// headingOf is our heading of a measure with its unit: "Ribeye area, sq in".
func headingOf(measure rules.Measure) string {
	definition, known := rules.Define(measure)
	switch {
	case !known:
		return string(measure)
	case definition.Computed, definition.Unit == "", strings.HasSuffix(definition.Heading, definition.Unit):
		return definition.Heading
	}
	return definition.Heading + ", " + definition.Unit
}

// shownMeasures are the measures that matter for a kind of carcass: its weight, what its computed figures are made of,
// and what its classes are ranked by. Price and value have columns of their own.
func (r *Results) shownMeasures(kind kindOfClass) []rules.Measure {
	wanted := map[rules.Measure]bool{rules.HotCarcassWeight: true}
	for _, class := range r.Placings.Classes {
		if (kindOfClass{class.Species, class.Basis}) != kind {
			continue
		}
		for _, key := range class.Ranking.Keys {
			wanted[key.Measure] = true
		}
		addTerms(wanted, everyCarcass(class))
	}
	if wanted[rules.YieldGrade] {
		delete(wanted, rules.WholeYieldGrade)
	}
	delete(wanted, rules.Price)
	delete(wanted, rules.CarcassValue)
	var read, computed []rules.Measure
	for _, definition := range rules.Definitions() {
		switch {
		case !wanted[definition.Measure]:
		case definition.Computed:
			computed = append(computed, definition.Measure)
		default:
			read = append(read, definition.Measure)
		}
	}
	return append(read, computed...)
}

// addTerms adds the grades and what they are made of. What a term is made of in its turn (adjusted fat: the measured fat
// and its adjustment) is left out.
func addTerms(wanted map[rules.Measure]bool, all []*grading.Graded) {
	terms, within := make(map[rules.Measure]bool), make(map[rules.Measure]bool)
	for _, one := range all {
		for measure, figure := range one.Figures {
			if measure == rules.YieldGrade || measure == rules.QualityGrade {
				wanted[measure] = true
			}
			for _, term := range figure.Terms {
				terms[term.Measure] = true
			}
		}
	}
	for _, one := range all {
		for measure := range terms {
			for _, term := range one.Figures[measure].Terms {
				within[term.Measure] = within[term.Measure] || term.Measure != measure
			}
		}
	}
	for measure := range terms {
		wanted[measure] = wanted[measure] || !within[measure]
	}
}

// gradesOf are the grades computed for a kind of carcass, and the whole yield grade.
func gradesOf(kind kindOfClass) []rules.Measure {
	var grades []rules.Measure
	for _, column := range grading.Columns(kind.Species, kind.Basis) {
		definition, _ := rules.Define(column.Measure)
		if definition.Kind == rules.KindGrade || column.Measure == rules.WholeYieldGrade {
			grades = append(grades, column.Measure)
		}
	}
	return grades
}

func textOf(graded *grading.Graded, measure rules.Measure) string {
	reading, ok := graded.Reading(measure)
	if !ok {
		return ""
	}
	return reading.Value.Text
}
