package railsheet

import (
	"cmp"
	"slices"
	"unicode/utf8"

	"railbook/grading"
	"railbook/rules"
	"railbook/rules/measure"
	"railbook/rules/phrase"
	"railbook/workbook/intake"
	"railbook/workbook/result"
	"railbook/workbook/sheets/kit"
	"railbook/workbook/xlsx"
)

// RailSheets are the blank sheets to be written: who is on them, by which rulebook, and how.
type RailSheets struct {
	Entries    []*grading.Carcass // in the order in which they are to stand
	Rules      *rules.Rulebook
	About      intake.About // the fair, as far as it is known
	SpareLines int          // lines without a tag below each class, for what comes late
	InOrder    bool         // the entries stay in their order, whatever their classes
	NoNames    bool         // nothing of the roster goes along but tag, rail number and class
	PrintNames bool         // the exhibitor stands on the printed part
}

// Kinds gives what the entries are, in the order in which they first stand.
func (r RailSheets) Kinds() []string {
	var words []string
	for _, kind := range r.kinds() {
		words = append(words, kind.Words())
	}
	return words
}

func (r RailSheets) kinds() []result.KindOfClass {
	var kinds []result.KindOfClass
	seen := make(map[result.KindOfClass]bool)
	for _, entry := range r.Entries {
		if kind := (result.KindOfClass{Species: entry.Species, Basis: entry.Basis}); !seen[kind] {
			seen[kind] = true
			kinds = append(kinds, kind)
		}
	}
	return kinds
}

// WriteRailSheets makes a workbook with a sheet to fill in for each kind of entry, a page that explains its columns, and the
// words of its drop-downs. It is to be saved at the path.
func WriteRailSheets(wanted RailSheets, path string) (*xlsx.Book, error) {
	draft, err := kit.FreshDraft("Rail sheet")
	if err != nil {
		return nil, err
	}
	writer := &railWriter{RailSheets: wanted, draft: draft, look: kit.NewLook(draft, false), rows: make(map[string]*xlsx.Rows)}
	writer.lists = newChoiceLists()
	// The rows are filled in afterwards: the library can't write a formula whose value is an empty text.
	writer.look.Fill = func(sheet string) (*xlsx.Rows, error) {
		writer.rows[sheet] = &xlsx.Rows{}
		return writer.rows[sheet], nil
	}
	for _, kind := range wanted.kinds() {
		if err := writer.sheet(kind); err != nil {
			return nil, err
		}
	}
	if err := writer.guide(); err != nil {
		return nil, err
	}
	if err := writer.choiceSheet(); err != nil {
		return nil, err
	}
	data, err := draft.Bytes()
	if err != nil {
		return nil, err
	}
	book, err := xlsx.OpenBytes(path, data, xlsx.OpenOptions{})
	if err != nil {
		return nil, err
	}
	for sheet, rows := range writer.rows {
		if err := book.Fill(sheet, rows); err != nil {
			return nil, err
		}
	}
	return book, nil
}

// railWriter writes the sheets of one workbook.
type railWriter struct {
	RailSheets
	draft *xlsx.Draft
	look  *kit.Look
	lists *choiceLists
	done  []*railPage // the rail sheets, for the guide
	rows  map[string]*xlsx.Rows
}

// railPage is one sheet to be filled in.
type railPage struct {
	*kit.Page
	writer  *railWriter
	kind    result.KindOfClass
	columns []railColumn
	printed int    // how many of the columns are printed
	first   int    // how many of them on the first of the pages side by side
	banded  bool   // each class stands in a line of its own above its animals
	grid    string // the cell that says how many dots of the grid make a square inch; empty where none are counted
	entries []*grading.Carcass
}

// The rows of a rail sheet above its lines.
const (
	railOnceRow    = 3
	railHeadingRow = railOnceRow + onceRows + 1
	railLineHeight = 25.2 // points, .35 in: room to write by hand
)

func (w *railWriter) sheet(kind result.KindOfClass) error {
	p := &railPage{writer: w, kind: kind}
	for _, entry := range w.Entries {
		if entry.Species == kind.Species && entry.Basis == kind.Basis {
			p.entries = append(p.entries, entry)
		}
	}
	p.entries, p.banded = bandedByClass(p.entries, w.InOrder)
	p.columns, p.printed = w.columnsOf(kind, p.entries, p.banded)
	pages := 0
	p.first, pages = pagesOf(p.columns[:p.printed])
	var widths []float64
	for _, column := range p.columns {
		widths = append(widths, column.width)
	}
	p.Page = kit.OpenPage(w.draft.NewSheet, w.look, kit.PageSetup{
		Name: railSheetName(kind), Status: "To be filled in", Of: result.FairLine(w.About, result.AnyText), Widths: widths, Landscape: true, Tab: kit.InputTab,
		RepeatFrom: railHeadingRow - 1, RepeatTo: railHeadingRow, RepeatColumns: 1, FullSize: true, PagesWide: pages, FreezeRows: railHeadingRow, FreezeColumns: 1,
		Zoom: 85, // the lines are high for a pencil, and the headings stay on the screen
	})
	from := p.afterTag()
	p.WriteHigh(24, append(make([]kit.Entry, from-1), kit.Entry{Value: railTitle(kind), Style: kit.Style{Role: kit.Title}})...)
	p.Across(railInstruction, kit.PaperNote, from, p.first)
	p.askOnce()
	p.sayKind()
	p.writeHeadings()
	for at, carcass := range p.entries {
		if p.banded && carcass.Class != "" && (at == 0 || p.entries[at-1].Class != carcass.Class) {
			p.band(carcass.Class)
		}
		p.line(carcass)
		if last := at == len(p.entries)-1; last || p.banded && carcass.Class != "" && p.entries[at+1].Class != carcass.Class {
			for range w.SpareLines {
				p.line(nil)
			}
		}
	}
	p.PrintTo(p.printed)
	p.addRules()
	w.done = append(w.done, p)
	return p.Close()
}

// railInstruction says on every sheet what it is for. (Nothing above the headings may read like a unit or a class.)
const railInstruction = "One line for each animal. Leave blank what was not taken: a blank is asked about and never counts as 0. " +
	"The tab Column guide says what each column wants."

// railSheetName names a sheet so that its species is read from it, and no class.
func railSheetName(kind result.KindOfClass) string {
	if kind.Basis == rules.LiveScan {
		return phrase.Capital(string(kind.Species)) + " carcass scan sheet"
	}
	return phrase.Capital(string(kind.Species)) + " carcass rail sheet"
}

func railTitle(kind result.KindOfClass) string {
	if kind.Basis == rules.LiveScan {
		return "Scan sheet: " + string(kind.Species) + ", live animals by ultrasound"
	}
	return "Rail sheet: " + string(kind.Species) + " carcasses"
}

// afterTag is the column in which titles begin: on pages side by side the tags stand on each, and a title would be cut off
// there.
func (p *railPage) afterTag() int {
	if p.first < p.printed {
		return 2
	}
	return 1
}

// band writes the class of the lines below it, in words that are read back as a class.
func (p *railPage) band(class string) {
	p.Keep(2*railLineHeight + 20)
	p.WriteHigh(20, append(make([]kit.Entry, p.afterTag()-1), kit.Entry{Value: classBand + class, Style: kit.Style{Role: kit.Subtitle, Middle: true}})...)
}

const (
	classBand = "Class: "
	// longestBand is how long the name of a class may be to be read back from a band.
	longestBand = 50
)

// bandedByClass puts the entries in the order of their classes, those without one first, where each class can stand above its
// animals. Entries that must stay in their order, and classes whose names are too long, keep a column of their own.
func bandedByClass(entries []*grading.Carcass, inOrder bool) (ordered []*grading.Carcass, banded bool) {
	at := map[string]int{"": 0}
	runs, previous := 0, ""
	for i, carcass := range entries {
		if _, known := at[carcass.Class]; !known {
			at[carcass.Class] = len(at)
		}
		if i == 0 || carcass.Class != previous {
			runs++
			previous = carcass.Class
		}
		if utf8.RuneCountInString(carcass.Class) > longestBand {
			return entries, false
		}
	}
	if len(at) == 1 || inOrder && (runs > len(at)-1 || entries[0].Class == "") {
		return entries, false
	}
	ordered = slices.Clone(entries)
	slices.SortStableFunc(ordered, func(a, b *grading.Carcass) int { return cmp.Compare(at[a.Class], at[b.Class]) })
	return ordered, true
}

// sayKind says right above the headings what stands below them: the reader takes the species from the nearest line that
// names one, and a plant or a judge may be called Lamb. Over the columns that are not printed it says what they are.
func (p *railPage) sayKind() {
	cells := make([]kit.Entry, p.printed+1)
	cells[p.afterTag()-1] = kit.Entry{Value: railKind(p.kind), Style: kit.Style{Role: kit.Subtitle, Middle: true}}
	if p.printed < len(p.columns) {
		cells[p.printed] = kit.Entry{Value: "Goes along from the roster and is not printed", Style: kit.Style{Role: kit.Note, Middle: true}}
	}
	p.WriteHigh(24, cells...)
}

func railKind(kind result.KindOfClass) string {
	if kind.Basis == rules.LiveScan {
		return phrase.Capital(string(kind.Species)) + " by ultrasound; carcass figures are estimates"
	}
	return phrase.Capital(string(kind.Species)) + " carcasses, in the order in which they hang"
}

func (p *railPage) writeHeadings() {
	cells := make([]kit.Entry, len(p.columns))
	for i, column := range p.columns {
		cells[i] = kit.Entry{Value: column.heading, Style: kit.Style{Role: kit.PaperHeading, Wrap: true, Align: "center"}}
	}
	p.Write(cells...)
}

// line writes a carcass's line, or an empty one.
func (p *railPage) line(carcass *grading.Carcass) {
	cells := make([]kit.Entry, len(p.columns))
	for i, column := range p.columns {
		cells[i] = p.cellOf(i, column, carcass)
	}
	p.WriteHigh(railLineHeight, cells...)
}

func (p *railPage) cellOf(number int, column railColumn, carcass *grading.Carcass) kit.Entry {
	how := kit.Style{Role: kit.Ruled, Middle: true, Align: column.align(), Format: column.format(), Wrap: column.wraps(), Indent: column.align() == "left"}
	switch {
	case number >= p.printed:
		how.Role = kit.Body
	case carcass != nil && (column.measure == measure.Tag || column.measure == measure.ClassName || column.measure == measure.Exhibitor):
		how.Role = kit.Listed
	}
	if column.counted.is() {
		return kit.Entry{Value: kit.Live{Formula: p.dotFormula(column.counted, p.Row+1), Value: ""}, Style: how}
	}
	if carcass == nil || column.measure == measure.None {
		return kit.Entry{Value: "", Style: how}
	}
	reading, ok := carcass.Reading(column.measure)
	switch {
	case column.measure == measure.Tag && carcass.Tag != "":
		return kit.Entry{Value: carcass.Tag, Style: how}
	case column.measure == measure.ClassName:
		return kit.Entry{Value: carcass.Class, Style: how}
	case !ok && column.customary.Valid:
		return kit.Entry{Value: column.customary.Decimal, Style: how}
	case !ok:
		return kit.Entry{Value: "", Style: how}
	}
	switch column.kind() {
	case measure.KindNumber, measure.KindDate:
		return kit.Entry{Value: reading.Value.Number, Style: how}
	}
	return kit.Entry{Value: reading.Value.Text, Style: how}
}
