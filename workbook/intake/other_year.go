package intake

import (
	"fmt"
	"slices"
	"strings"

	"railbook/rules"
	"railbook/rules/measure"
	"railbook/rules/phrase"
	"railbook/validate"
)

// SheetSetAside is the code of the finding about a whole sheet that looks like another year's, or like a copy. A judge who
// accepts it as it is takes the sheet in.
const SheetSetAside = "sheet set aside"

var (
	asideInName  = phrase.NewPattern(`(?i)\b(?:last|old|prior|previous|copy|backup|bak|archived?)\b|\((?:\d+)\)$`)
	asideInTitle = phrase.NewPattern(`(?i)\b(?:(?:last|prior|previous) (?:year|fair|season)\w*|back-?up|copy of)\b`)
)

// sheetYears is what a carcass sheet says of its year, and whether it looks put away.
type sheetYears struct {
	name   string
	hidden bool
	named  string // the year in its name or title
	killed string // the latest year of its kill dates
	aside  string // the word that says it is a copy or another year's
	tables []*tableReader
}

// otherYears leaves out the sheets that are another year's or a copy, where the workbook has other carcass sheets. A lone
// sheet is never left out. The computer's date is not asked.
func (r *reader) otherYears(tables []*tableReader) []*tableReader {
	sheets := yearsOf(tables)
	reference := referenceYear(sheets)
	var kept []*sheetYears
	reasons := make([]string, len(sheets))
	for i, years := range sheets {
		if reasons[i] = years.reason(reference); reasons[i] != "" {
			continue
		}
		kept = append(kept, years)
	}
	if len(kept) == 0 || len(sheets) < 2 {
		r.noteYear(sheets)
		return tables
	}
	for i, years := range sheets {
		reason := reasons[i]
		if reason == "" {
			continue
		}
		r.find(validate.Finding{
			Level: validate.Hold, Code: SheetSetAside, At: rules.Place{Sheet: years.name}, Read: years.name,
			Message: fmt.Sprintf("This sheet %s, so its %s not taken in beside %s. If it counts, accept as is; otherwise leave it out here, or delete the sheet. "+
				"Last year's results can be set beside this year's with --last-year.",
				reason, phrase.Plural(years.animals(), "carcass was", "carcasses were"), phrase.Quote(kept[0].name)),
		})
		if slices.Contains(r.options.TakeIn, years.name) {
			continue
		}
		r.result.Passed = append(r.result.Passed, PassedOver{At: rules.Place{Sheet: years.name}, Written: years.name, Why: "the sheet " + reason})
		for _, tr := range years.tables {
			r.dropFindings(tr)
			r.dropSheetFindings(tr)
		}
		tables = slices.DeleteFunc(slices.Clone(tables), func(tr *tableReader) bool { return slices.Contains(years.tables, tr) })
	}
	return tables
}

func (s *sheetYears) animals() (number int) {
	for _, tr := range s.tables {
		number += len(tr.animals)
	}
	return number
}

func yearsOf(tables []*tableReader) []*sheetYears {
	var sheets []*sheetYears
	for _, tr := range tables {
		at := slices.IndexFunc(sheets, func(years *sheetYears) bool { return years.name == tr.table.page.sheet })
		if at < 0 {
			name := tr.table.page.sheet
			sheets = append(sheets, &sheetYears{name: name, hidden: tr.table.page.hidden, named: yearIn(name), aside: asideInName.FindString(name)})
			at = len(sheets) - 1
		}
		years := sheets[at]
		years.tables = append(years.tables, tr)
		for _, title := range tr.table.titles {
			if years.named == "" {
				years.named = yearIn(title.text)
			}
			if years.aside == "" {
				years.aside = asideInTitle.FindString(title.text)
			}
		}
		for _, animal := range tr.animals {
			if killed, ok := animal.Reading(measure.KillDate); ok && len(killed.Value.Text) >= 4 {
				years.killed = max(years.killed, killed.Value.Text[:4])
			}
		}
	}
	return sheets
}

// referenceYear is the year of the kill dates, or without any the latest year that a name or a title gives.
func referenceYear(sheets []*sheetYears) string {
	killed, named := "", ""
	for _, years := range sheets {
		if !years.hidden && years.aside == "" {
			killed = max(killed, years.killed)
		}
		named = max(named, years.named)
	}
	if killed != "" {
		return killed
	}
	return named
}

// reason says why a sheet looks like another year's or a copy; empty where it does not.
func (s *sheetYears) reason(reference string) string {
	switch {
	case s.killed != "" && reference != "" && s.killed != reference:
		return "is of " + s.killed + " by its kill dates"
	case s.killed == "" && s.named != "" && s.named != reference:
		return "is of " + s.named + " by its name or title"
	case s.aside != "":
		return "is called " + phrase.Quote(strings.Trim(s.aside, "()"))
	case s.hidden:
		return "is hidden"
	}
	return ""
}

// noteYear notes once that a lone sheet is named after another year than that of its kill dates.
func (r *reader) noteYear(sheets []*sheetYears) {
	for _, years := range sheets {
		if years.named != "" && years.killed != "" && years.named != years.killed {
			r.find(validate.Finding{
				Level: validate.Note, Code: "year of the sheet", At: rules.Place{Sheet: years.name}, Read: years.name,
				Message: "This sheet says " + years.named + ", but its kill dates are of " + years.killed + "; it was read as this year's.",
			})
		}
	}
}

// dropSheetFindings forgets what was found about a table as a whole that is not read after all.
func (r *reader) dropSheetFindings(tr *tableReader) {
	r.result.Findings = slices.DeleteFunc(r.result.Findings, func(finding validate.Finding) bool {
		return finding.Code != SheetSetAside && finding.Carcass == nil && finding.At.Sheet == tr.table.page.sheet && finding.At.File == tr.table.page.file
	})
}
