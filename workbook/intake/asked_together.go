package intake

import (
	"fmt"
	"slices"
	"strings"

	"railbook/rules/phrase"
	"railbook/validate"
)

const classDiffers = "class differs from the roster"

// askClassesTogether puts one question in the place of those about many carcasses of a sheet that stand in one class and were
// all entered in one other: the two are two names of one class, or the sheet has the wrong one, and one answer does.
func (r *reader) askClassesTogether() {
	type group struct{ file, sheet, written, entered string }
	groupOf := func(one validate.Finding) group {
		return group{one.At.File, one.At.Sheet, strings.Join(fold(one.Read), " "), strings.Join(fold(one.Hint), " ")}
	}
	alike := map[group][]validate.Finding{}
	for _, one := range r.result.Findings {
		if one.Code == classDiffers {
			alike[groupOf(one)] = append(alike[groupOf(one)], one)
		}
	}
	asked := map[group]bool{}
	r.result.Findings = slices.DeleteFunc(r.result.Findings, func(one validate.Finding) bool {
		if one.Code != classDiffers || len(alike[groupOf(one)]) < manyOf {
			return false
		}
		again := asked[groupOf(one)]
		asked[groupOf(one)] = true
		return again
	})
	for i := range r.result.Findings {
		one := &r.result.Findings[i]
		if one.Code != classDiffers {
			continue
		}
		if all := alike[groupOf(*one)]; len(all) >= manyOf {
			*one = classesTogether(all)
		}
	}
}

// classesTogether is the one question about carcasses that were entered in another class.
func classesTogether(all []validate.Finding) validate.Finding {
	asked := all[0]
	var cells, tags []string
	for _, one := range all {
		cells = append(cells, one.At.Cell)
		tags = append(tags, one.Carcass.Tag)
		asked.Lot = append(asked.Lot, one.Carcass)
	}
	asked.Message = fmt.Sprintf("%s that stand in class %s (%s) were entered in %s. They were left where the carcass sheet has them. If that is right, or both are one class, accept as is; otherwise correct the class of each.",
		phrase.Plural(len(all), "carcass", "carcasses"), phrase.Quote(asked.Read), strings.Join(cells, ", "), phrase.Quote(asked.Hint))
	asked.Carcass, asked.Hint, asked.Read = nil, "", asked.Read+": "+strings.Join(tags, ", ")
	return asked
}
