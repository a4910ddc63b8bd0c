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
	groupOf := func(finding validate.Finding) group {
		return group{finding.At.File, finding.At.Sheet, strings.Join(fold(finding.Read), " "), strings.Join(fold(finding.Hint), " ")}
	}
	alike := map[group][]validate.Finding{}
	for _, finding := range r.result.Findings {
		if finding.Code == classDiffers {
			alike[groupOf(finding)] = append(alike[groupOf(finding)], finding)
		}
	}
	asked := map[group]bool{}
	r.result.Findings = slices.DeleteFunc(r.result.Findings, func(finding validate.Finding) bool {
		if finding.Code != classDiffers || len(alike[groupOf(finding)]) < manyOf {
			return false
		}
		again := asked[groupOf(finding)]
		asked[groupOf(finding)] = true
		return again
	})
	for i := range r.result.Findings {
		finding := &r.result.Findings[i]
		if finding.Code != classDiffers {
			continue
		}
		if all := alike[groupOf(*finding)]; len(all) >= manyOf {
			*finding = classesTogether(all)
		}
	}
}

// classesTogether is the one question about carcasses that were entered in another class.
func classesTogether(all []validate.Finding) validate.Finding {
	asked := all[0]
	var cells, tags []string
	for _, finding := range all {
		cells = append(cells, finding.At.Cell)
		tags = append(tags, finding.Carcass.Tag)
		asked.Others = append(asked.Others, finding.Carcass)
	}
	asked.Message = fmt.Sprintf("%s that stand in class %s (%s) were entered in %s. They were left where the carcass sheet has them. If that is right, or both are one class, accept as is; otherwise correct the class of each.",
		phrase.Plural(len(all), "carcass", "carcasses"), phrase.Quote(asked.Read), strings.Join(cells, ", "), phrase.Quote(asked.Hint))
	asked.Carcass, asked.Hint, asked.Read = nil, "", asked.Read+": "+strings.Join(tags, ", ")
	return asked
}
