package workbook

import (
	"fmt"
	"slices"
	"strings"

	"railbook/rules"
	"railbook/rules/phrase"
	"railbook/workbook/record"
	"railbook/workbook/xlsx"
)

// examineSigned does everything but write on a signed workbook. A rulebook that was changed since, so that it can't be used
// any more, is put back as it was sealed; the lines that had to be mended are returned. With an error comes the job as far
// as it got. Where nothing was changed, the results that are made again show it, and nothing more is looked at.
func examineSigned(path string, options Options) (work *job, mended []lineDifference, err error) {
	options.stage("opening " + path)
	if work = remade(path, options); work != nil {
		return work, nil, nil
	}
	options.Stage = nil
	book, err := openBook(path, options)
	if err != nil {
		return nil, nil, err
	}
	work, mended, err = examineSignedWith(path, book, options, nil)
	if work == nil || work.previous == nil {
		return work, mended, err
	}
	edited := work.editedBesideData()
	if len(edited) == 0 {
		return work, mended, err
	}
	if book, failed := book.Again(); failed == nil {
		if restored, mendedToo, failed := examineSignedWith(path, book, options, edited); failed == nil {
			restored.besideMatters = err != nil || !work.readsAs(restored)
			return restored, mendedToo, nil
		}
	}
	return work, mended, err
}

// examineSignedWith does so with some cells beside the data put back as they were signed.
func examineSignedWith(path string, book *xlsx.Book, options Options, edited []editedBeside) (work *job, mended []lineDifference, err error) {
	work = &job{path: path, options: options, book: book, putBackBeside: edited}
	err = work.open()
	switch {
	case work.previous == nil && err != nil:
		return work, nil, err
	case work.previous == nil || work.previous.Run.Seal == "" && work.previous.Run.Status != record.Signed:
		return nil, nil, fmt.Errorf("%s is not signed: only a workbook made by \"railbook sign\" can be verified", path)
	case err != nil:
		return work, nil, err
	}
	if err = work.chooseRules(); err != nil {
		mended = work.mendRulebook()
		if err = work.chooseRules(); err != nil {
			return work, nil, err
		}
	}
	if err = work.restoreBeside(edited); err != nil {
		return work, nil, err
	}
	if err = work.read(); err != nil {
		return work, nil, err
	}
	work.grade()
	work.check()
	work.place()
	return work, mended, nil
}

// mendRulebook puts the sealed texts back into the rulebook's tables and gives the lines that were different.
func (j *job) mendRulebook() []lineDifference {
	restoreHeadings(j.previous.Rulebook, j.previous.Sealed())
	var now []record.SealedLine
	for _, table := range j.previous.Rulebook {
		now = append(now, record.RulebookLines(table)...)
	}
	lines := slices.DeleteFunc(lineDifferences(j.previous.Sealed(), now), func(line lineDifference) bool {
		return line.was.Kind != record.RulebookKind && line.now.Kind != record.RulebookKind
	})
	j.previous.Rulebook = restoredTables(j.previous.Rulebook, lines)
	return lines
}

// restoredTables puts the signed texts back into the rulebook's tables.
func restoredTables(tables []rules.Table, changed []lineDifference) []rules.Table {
	for _, line := range changed {
		sealed := line.was
		if sealed.Kind == "" {
			sealed = line.now
			sealed.Value = "" // it was not there when signed
		}
		if sealed.Kind != record.RulebookKind {
			continue
		}
		for _, table := range tables {
			if cell := tableCell(table, sealed); cell != nil {
				cell.Text = sealed.Value
			}
		}
	}
	return tables
}

// restoreHeadings puts back the headings that a rulebook's tables lack: a heading in the place of one that no sealed line
// has was changed since.
func restoreHeadings(tables []rules.Table, sealed []record.SealedLine) {
	known := make(map[[2]string]bool)
	for _, line := range sealed {
		known[[2]string{line.Class, heading(line.Item)}] = line.Kind == record.RulebookKind
	}
	for _, table := range tables {
		if len(table.Rows) == 0 {
			continue
		}
		missing := missingHeadings(table)
		for column := range table.Rows[0] {
			cell := &table.Rows[0][column]
			if len(missing) > 0 && !known[[2]string{table.Name, heading(cell.Text)}] && !isPlanned(table.Name, cell.Text) {
				cell.Text, missing = missing[0], missing[1:]
			}
		}
	}
}

// missingHeadings lists the columns a table should have and has not.
func missingHeadings(table rules.Table) (missing []string) {
	for _, layout := range rules.Layouts() {
		for _, column := range layout.Columns {
			there := slices.ContainsFunc(table.Rows[0], func(cell rules.Cell) bool { return heading(cell.Text) == heading(column.Heading) })
			if layout.Name == table.Name && !there {
				missing = append(missing, column.Heading)
			}
		}
	}
	return missing
}

func isPlanned(table, text string) bool {
	for _, layout := range rules.Layouts() {
		if layout.Name == table {
			return slices.ContainsFunc(layout.Columns, func(column rules.Column) bool { return heading(column.Heading) == heading(text) })
		}
	}
	return false
}

// heading is a heading whatever its letter case and inner blanks.
func heading(text string) string { return strings.ToLower(phrase.SingleSpaced(text)) }
