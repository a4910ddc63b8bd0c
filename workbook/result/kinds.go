package result

import (
	"strings"

	"railbook/grading"
	"railbook/grading/placing"
	"railbook/rules"
	"railbook/rules/measure"
)

// KindsOfClasses gives the species and bases of the classes, each once, in the order of the classes.
func (r *Results) KindsOfClasses() []KindOfClass {
	var kinds []KindOfClass
	seen := make(map[KindOfClass]bool)
	for _, class := range r.Placings.Classes {
		kind := KindOfClass{class.Species, class.Basis}
		if !seen[kind] {
			seen[kind] = true
			kinds = append(kinds, kind)
		}
	}
	return kinds
}

// KindOfClass is what must be alike for figures to be compared.
type KindOfClass struct {
	Species rules.Species
	Basis   rules.Basis
}

func (k KindOfClass) Words() string {
	if k.Species == "" {
		return "species not known"
	}
	if k.Basis == rules.LiveScan {
		return string(k.Species) + " by ultrasound (estimates)"
	}
	return string(k.Species)
}

func EveryCarcass(class placing.ClassPlacing) []*grading.Graded {
	all := make([]*grading.Graded, 0, len(class.Placed)+len(class.NotPlaced))
	for _, placed := range class.Placed {
		all = append(all, placed.Graded)
	}
	for _, notPlaced := range class.NotPlaced {
		all = append(all, notPlaced.Graded)
	}
	return all
}

// Heading is our heading of a measure in a class: where live animals were scanned, it says what was scanned and what is
// estimated from that.
func (k KindOfClass) Heading(id measure.ID) string {
	words := HeadingOf(id)
	definition, _ := measure.Define(id)
	if k.Basis != rules.LiveScan || definition.Kind != measure.KindNumber {
		return words
	}
	for _, column := range grading.Columns(k.Species, k.Basis) {
		if column.Measure == id && strings.HasPrefix(column.Heading, "Estimated") {
			return column.Heading
		}
	}
	if definition.Computed || definition.Unit == "lb" || id == measure.InternalFat {
		return words // weights come from a scale, and fat inside the animal is not scanned
	}
	return "Scanned " + strings.ToLower(words[:1]) + words[1:]
}

// HeadingOf is our heading of a measure with its unit: "Ribeye area, sq in".
func HeadingOf(id measure.ID) string {
	definition, known := measure.Define(id)
	switch {
	case !known:
		return id.String()
	case definition.Computed, definition.Unit == "", strings.HasSuffix(definition.Heading, definition.Unit):
		return definition.Heading
	}
	return definition.Heading + ", " + definition.Unit
}

// ShownMeasures are the measures that matter for a kind of carcass: its weight, what its computed figures are made of,
// and what its classes are ranked by. Price and value have columns of their own.
func (r *Results) ShownMeasures(kind KindOfClass) []measure.ID {
	wanted := map[measure.ID]bool{measure.HotCarcassWeight: true}
	for _, class := range r.Placings.Classes {
		if (KindOfClass{class.Species, class.Basis}) != kind {
			continue
		}
		for _, key := range class.Ranking.Keys {
			wanted[key.Measure] = true
		}
		addTerms(wanted, EveryCarcass(class))
	}
	if wanted[measure.YieldGrade] {
		delete(wanted, measure.WholeYieldGrade)
	}
	delete(wanted, measure.Price)
	delete(wanted, measure.CarcassValue)
	var read, computed []measure.ID
	for _, definition := range r.Rules.Measures.Definitions() {
		switch {
		case !wanted[definition.ID]:
		case definition.Computed:
			computed = append(computed, definition.ID)
		default:
			read = append(read, definition.ID)
		}
	}
	return append(read, computed...)
}

// addTerms adds the grades and what they are made of. What a term is made of in its turn (adjusted fat: the measured fat
// and its adjustment) is left out.
func addTerms(wanted map[measure.ID]bool, all []*grading.Graded) {
	terms, within := make(map[measure.ID]bool), make(map[measure.ID]bool)
	for _, graded := range all {
		for id := range graded.Figures() {
			if id == measure.YieldGrade || id == measure.QualityGrade {
				wanted[id] = true
			}
			for _, addend := range graded.SumOf(id).Addends {
				terms[addend.Measure] = true
			}
		}
	}
	for _, graded := range all {
		for id := range terms {
			for _, addend := range graded.SumOf(id).Addends {
				within[addend.Measure] = within[addend.Measure] || addend.Measure != id
			}
		}
	}
	for id := range terms {
		wanted[id] = wanted[id] || !within[id]
	}
}

// GradesOf are the grades computed for a kind of carcass, and the whole yield grade.
func GradesOf(kind KindOfClass) []measure.ID {
	var grades []measure.ID
	for _, column := range grading.Columns(kind.Species, kind.Basis) {
		definition, _ := measure.Define(column.Measure)
		if definition.Kind == measure.KindGrade || column.Measure == measure.WholeYieldGrade {
			grades = append(grades, column.Measure)
		}
	}
	return grades
}

func TextOf(graded *grading.Graded, id measure.ID) string {
	reading, ok := graded.Reading(id)
	if !ok {
		return ""
	}
	return reading.Value.Text
}
