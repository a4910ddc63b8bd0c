package intake

import (
	"errors"
	"path/filepath"
	"slices"

	"railbook/grading"
	"railbook/rules"
	"railbook/validate"
	"railbook/workbook/xlsx"
)

// Roster is what a list of entries says before anything hangs on a rail.
type Roster struct {
	Entries  []*grading.Carcass // in the order of sheet and row
	Findings []validate.Finding // what could not be read, or had to be interpreted
	Passed   []PassedOver       // lines and cells that were passed over, with why
	About    About              // what it says of the fair as a whole
	Unknown  []Heading          // headings that were not recognised, so that their columns were not read
}

// ReadRoster reads the entries of a workbook or text file. The error is for one without any list of tags. Where the file
// has carcasses on it as well, they are no entries.
func ReadRoster(book *xlsx.Book, rulebook *rules.Rulebook, options Options) (*Roster, error) {
	r := newReader(rulebook, options)
	if err := r.scan(book, false); err != nil {
		return nil, err
	}
	r.tables = slices.DeleteFunc(r.tables, func(t *table) bool { return t.kind == historyTable })
	if r.countTables(listTable) > 0 {
		r.tables = slices.DeleteFunc(r.tables, func(t *table) bool { return t.kind == carcassTable })
	}
	if len(r.tables) == 0 {
		return nil, r.noRoster(book)
	}
	roster, lists := &Roster{}, []*tableReader(nil)
	for _, t := range r.tables {
		t.kind = listTable
		tr := r.readTable(t)
		lists = append(lists, tr)
		for _, animal := range tr.animals {
			animal.Sequence = len(roster.Entries)
			roster.Entries = append(roster.Entries, animal.Carcass)
		}
		for _, column := range tr.table.columns {
			if len(column.meaning.candidates) == 0 {
				roster.Unknown = append(roster.Unknown, Heading{Cell: tr.table.page.place(column.at).Cell, Text: column.text})
			}
		}
	}
	r.nameFindings()
	roster.About = r.aboutOf(lists)
	roster.Findings, roster.Passed = r.result.Findings, r.result.Passed
	return roster, nil
}

func (r *reader) noRoster(book *xlsx.Book) error {
	return errors.New(filepath.Base(book.Path) + " has no list of entries. One is known by a row of headings with a tag (Tag, Ear tag) " +
		"and at least one more (Exhibitor, Class). Seen were " + seen(r.saw) + ". Change the headings, and try again.")
}

// WithoutTag is why a line is passed over that has words and neither a tag nor a measurement.
const WithoutTag = "has no tag and no measurement"

// ScanWords reports whether a text, such as a class's name, speaks of ultrasound.
func ScanWords(text string) bool { return scanned(text) }
