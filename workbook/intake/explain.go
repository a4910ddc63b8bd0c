package intake

import (
	"fmt"
	"slices"
	"strings"

	"railbook/rules"
	"railbook/rules/measure"
	"railbook/validate"
)

// explainHeadings says which headings were not recognised, with the accepted heading that a misspelt one comes nearest
// to.
func (r *reader) explainHeadings(tables []*tableReader) {
	for _, tr := range tables {
		said := map[int]bool{}
		for _, one := range tr.table.columns {
			if len(one.meaning.candidates) > 0 || one.left {
				continue
			}
			place := tr.table.page.place(one.at)
			if near, ok := tr.suggested(&one); ok {
				said[one.number] = true
				r.find(validate.Finding{
					Level: validate.Look, Code: "heading not recognised", At: place, Measure: near.Measure, Read: one.text,
					Message: fmt.Sprintf("The heading %s was not recognised and its column not read. If it means %s (%s), correct the heading or use --column %s.",
						quote(one.text), near.Measure, quote(near.Text), quote(near.Measure.String()+"="+one.text)),
					Hint: near.Text,
				})
			}
			r.result.Passed = append(r.result.Passed, PassedOver{
				At: place, Written: one.text, Why: "the heading was not recognised; its column was not read",
			})
		}
		r.reportUnused(tr, said)
		r.askTag(tr)
		r.twoColumns(tr)
		r.noWeight(tr)
	}
}

// noWeight names the headings that were not recognised where a table of carcasses has no weight: one of them may be it.
func (r *reader) noWeight(tr *tableReader) {
	if tr.basis != rules.OnTheRail || slices.ContainsFunc(carcassWeights, tr.hasColumn) || slices.ContainsFunc(tr.animals, hasCarcassWeight) {
		return
	}
	var unknown []string
	for _, one := range tr.table.columns {
		if len(one.meaning.candidates) == 0 {
			unknown = append(unknown, quote(one.text))
		}
	}
	if len(unknown) == 0 {
		return
	}
	r.find(validate.Finding{
		Level: validate.Look, Code: "no carcass weight recognised", At: tr.sheetPlace(), Measure: measure.HotCarcassWeight,
		Message: "No heading of this sheet was recognised as a carcass weight. If it is one of " + strings.Join(unknown, ", ") +
			`, name it: --column "HCW=` + strings.Trim(unknown[0], `"'`) + `".`,
	})
}

func hasCarcassWeight(one *animal) bool {
	return slices.ContainsFunc(carcassWeights, func(weight measure.ID) bool {
		_, has := one.Written(weight)
		return has
	})
}

// twoColumns asks about two headings for one measure.
func (r *reader) twoColumns(tr *tableReader) {
	first := map[measure.ID]*column{}
	for _, under := range tr.planFor(tr.mainSpecies()) {
		if under.question == nil {
			continue
		}
		id := under.question.definition.ID
		earlier, twice := first[id]
		if !twice {
			first[id] = under.column
			continue
		}
		if under.question.definition.Kind == measure.KindText && !isTag(id) && (id != measure.ClassName || !tr.secondClass) {
			continue
		}
		r.find(validate.Finding{
			Level: validate.Look, Code: "two columns for one measure", At: tr.table.page.place(under.column.at), Measure: id, Read: under.column.text,
			Message: fmt.Sprintf("Both %s (%s) and %s mean %s. The first one was read%s. Rename the one that means something else, or say which counts with --column %s.",
				quote(earlier.text), tr.table.page.place(earlier.at).Cell, quote(under.column.text), id, whereTheyDiffer(id), quote(id.String()+"="+under.column.text)),
		})
	}
}

func whereTheyDiffer(id measure.ID) string {
	if isTag(id) || isIdle(id) || id == measure.ClassName {
		return ""
	}
	return "; where they differ the carcass is on hold"
}

// missingColumns says which headings mapped by hand are on no sheet.
func (r *reader) missingColumns() {
	var missing []string
	for id, text := range r.options.Columns {
		key := strings.Join(fold(text), " ")
		found := slices.ContainsFunc(r.tables, func(t *table) bool {
			return slices.ContainsFunc(t.columns, func(one column) bool { return strings.Join(fold(one.text), " ") == key })
		})
		if !found {
			missing = append(missing, fmt.Sprintf("%s=%s", id, text))
		}
	}
	slices.Sort(missing)
	for _, one := range missing {
		r.find(validate.Finding{
			Level: validate.Look, Code: "mapped heading not found",
			Message: fmt.Sprintf("--column %s names a heading that is on no sheet. Write it as it stands there.", quote(one)),
		})
	}
}
