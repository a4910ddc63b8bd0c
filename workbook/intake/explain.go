package intake

import (
	"fmt"
	"slices"
	"strings"

	"railbook/rules/measure"
	"railbook/rules/phrase"
	"railbook/validate"
)

// HeadingNotRecognised is the code of the question what a heading means.
const HeadingNotRecognised = "heading not recognised"

// explainHeadings says which headings were not recognised, with the accepted heading that a misspelt one comes nearest
// to.
func (r *reader) explainHeadings(tables []*tableReader) {
	for _, tr := range tables {
		said := map[int]bool{}
		for _, column := range tr.table.columns {
			if len(column.meaning.candidates) > 0 || column.left {
				continue
			}
			place := tr.table.page.place(column.at)
			if column.outranked {
				r.result.Passed = append(r.result.Passed, PassedOver{At: place, Written: column.text, Why: "another heading was named for what this column would mean"})
				continue
			}
			if near, ok := tr.suggested(&column); ok {
				said[column.number] = true
				r.find(validate.Finding{
					Level: validate.Look, Code: HeadingNotRecognised, At: place, Measure: near.Measure, Read: column.text,
					Message: fmt.Sprintf("The heading %s was not recognised and its column not read. If it means %s (%s), correct the heading or use --column %s.",
						phrase.Quote(column.text), near.Measure, phrase.Quote(near.Text), phrase.Quote(near.Measure.String()+"="+column.text)),
					Hint: near.Text,
				})
			}
			r.result.Passed = append(r.result.Passed, PassedOver{
				At: place, Written: column.text, Why: "the heading was not recognised; its column was not read",
			})
		}
		r.reportUnused(tr, said)
		r.askTag(tr)
		r.twoColumns(tr)
	}
}

// twoColumns asks about two headings for one measure.
func (r *reader) twoColumns(tr *tableReader) {
	first := map[measure.ID]*column{}
	for _, under := range tr.parsersFor(tr.mainSpecies()) {
		if under.parser == nil {
			continue
		}
		id := under.parser.definition.ID
		earlier, twice := first[id]
		if twice && earlier.animal != under.column.animal {
			continue // of another animal of the line
		}
		if !twice {
			first[id] = under.column
			continue
		}
		if under.parser.definition.Kind == measure.KindText && !isTag(id) && (id != measure.ClassName || !tr.secondClass) {
			continue
		}
		asked := validate.Finding{
			Level: validate.Look, Code: "two columns for one measure", At: tr.table.page.place(under.column.at), Measure: id, Read: under.column.text,
		}
		differ := tr.takeDiffering(under.column)
		if 0 < len(differ) && len(differ) < manyOf {
			for _, finding := range differ {
				r.find(finding)
			}
			continue // each says what the columns mean
		}
		words := ""
		if len(differ) > 0 {
			asked.Level = validate.Hold
			for _, finding := range differ {
				asked.Others = append(asked.Others, finding.Carcass)
			}
			words = fmt.Sprintf(", but they differ for %d of %d, as in cell %s", len(differ), len(tr.animals), differ[0].At.Cell)
			r.result.Passed = append(r.result.Passed, PassedOver{
				At: asked.At, Written: under.column.text,
				Why: "a second column of " + id.String() + "; where the first has a value, this one's was not read",
			})
		}
		counts := ", or say which counts with --column " + phrase.Quote(id.String()+"="+under.column.text)
		if tr.headedAlike(under.column) {
			counts = "" // one name for both
		}
		asked.Message = fmt.Sprintf("Both %s (%s) and %s mean %s. The first one was read%s. Rename the one that means something else%s; if the first one counts, accept as is.",
			phrase.Quote(earlier.text), tr.table.page.place(earlier.at).Cell, phrase.Quote(under.column.text), id, words, counts)
		if !tr.unlike[under.column.number] {
			asked.Level = validate.Note
			asked.Message = fmt.Sprintf("Both %s (%s) and %s mean %s, and say the same.", phrase.Quote(earlier.text), tr.table.page.place(earlier.at).Cell, phrase.Quote(under.column.text), id)
		}
		r.find(asked)
	}
	tr.reportDiffering()
}

// differing is a second value of a measure that is not the first.
type differing struct {
	under *column
	validate.Finding
}

// takeDiffering gives the findings of second values under a heading, which are asked about here and nowhere else.
func (tr *tableReader) takeDiffering(under *column) (list []validate.Finding) {
	for _, differing := range tr.differing {
		if differing.under == under {
			list = append(list, differing.Finding)
		}
	}
	tr.differing = slices.DeleteFunc(tr.differing, func(read differing) bool { return read.under == under })
	return list
}

// reportDiffering asks about the second values that no question about their column has asked about.
func (tr *tableReader) reportDiffering() {
	for _, differing := range tr.differing {
		tr.find(differing.Finding)
	}
	tr.differing = nil
}

// missingColumns says which headings mapped by hand are on no sheet.
func (r *reader) missingColumns() {
	var missing []string
	for id, text := range r.options.Columns {
		key := strings.Join(fold(text), " ")
		found := slices.ContainsFunc(r.tables, func(t *table) bool {
			return slices.ContainsFunc(t.columns, func(heading column) bool { return strings.Join(fold(heading.text), " ") == key })
		})
		if !found {
			missing = append(missing, fmt.Sprintf("%s=%s", id, text))
		}
	}
	slices.Sort(missing)
	for _, heading := range missing {
		r.find(validate.Finding{
			Level: validate.Look, Code: "mapped heading not found",
			Message: fmt.Sprintf("--column %s names a heading that is on no sheet. Write it as it stands there.", phrase.Quote(heading)),
		})
	}
}
