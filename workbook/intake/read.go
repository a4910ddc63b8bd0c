package intake

import (
	"errors"
	"fmt"
	"path/filepath"
	"slices"
	"strconv"
	"strings"

	"railbook/rules"
	"railbook/rules/measure"
	"railbook/rules/phrase"
	"railbook/validate"
	"railbook/workbook/xlsx"
)

// reader holds what is known while the books are read.
type reader struct {
	book       *rules.Rulebook
	options    Options
	hiddenSaid map[string]bool // the sheets of which what is hidden was said
	vocabulary *vocabulary
	species    speciesWords
	classNames map[string]bool // the rulebook's classes, folded
	tables     []*table
	listed     map[string]rules.Species // the species of tags on rosters, by sameTag
	// rosterClasses are the classes that entries name, folded.
	rosterClasses map[string]bool
	legends       map[rules.Place]bool // the sheets whose legend of colours was asked about
	raised        []raised             // what words on the lines were found to name
	result        *Result
	saw           []string // headings seen on sheets without a table, for those who must be told
	severally     bool     // there is more than one carcass table
	made          int      // carcasses so far, those of rosters too, by which they are told apart until all are read
}

// Read finds and reads every carcass sheet of the books; the first is the fair's own workbook, the others (a roster)
// are joined to it. The error is for a workbook without any carcass sheet: it says which headings were looked for and
// which were seen.
func Read(books []*xlsx.Book, book *rules.Rulebook, options Options) (*Result, error) {
	r := newReader(book, options)
	for i, book := range books {
		tables, saw := len(r.tables), len(r.saw)
		if err := r.scan(book, i > 0); err != nil {
			return nil, err
		}
		if i > 0 && len(r.tables) == tables {
			r.saw = r.saw[saw:]
			return nil, r.noRoster(book)
		}
	}
	if r.countTables(carcassTable) == 0 {
		return nil, r.noCarcassSheet(books)
	}
	r.readTables()
	return r.result, nil
}

func newReader(book *rules.Rulebook, options Options) *reader {
	return &reader{
		book: book, options: options, vocabulary: newVocabulary(book, options.Columns),
		species: newSpeciesWords(book), classNames: classNames(book), listed: map[string]rules.Species{}, hiddenSaid: map[string]bool{}, result: &Result{},
	}
}

// readTables reads the tables that were found: the rosters first, since they may tell the species of a tag.
func (r *reader) readTables() {
	r.severally = r.countTables(carcassTable) > 1
	var lists, carcasses []*tableReader
	for _, t := range r.tables {
		if t.kind != carcassTable {
			lists = append(lists, r.readTable(t))
		}
	}
	r.rememberSpecies(lists)
	r.rememberClasses(lists)
	for _, t := range r.tables {
		if t.kind == carcassTable {
			carcasses = append(carcasses, r.readTable(t))
		}
	}
	carcasses = r.joinSheets(r.otherYears(carcasses))
	r.take(carcasses)
	r.join(lists, carcasses)
	r.askWhose()
	r.settleClasses(carcasses)
	r.classOfSeveralSheets(carcasses)
	r.askConditions()
	r.explainHeadings(carcasses)
	for _, tr := range carcasses {
		r.askLegend(tr)
	}
	r.missingColumns()
	r.askClassesTogether()
	r.nameFindings()
	r.result.About = r.aboutOf(append(carcasses, lists...))
}

func classNames(book *rules.Rulebook) map[string]bool {
	names := map[string]bool{}
	for _, class := range book.Classes {
		if strings.EqualFold(class.Name, everyOtherClass) {
			continue
		}
		names[strings.Join(fold(class.Name), " ")] = true
		for _, match := range class.Matches {
			names[strings.Join(fold(match), " ")] = true
		}
	}
	return names
}

// everyOtherClass is how a rulebook names the class that takes whatever no other names.
const everyOtherClass = "every other class"

// scan finds the tables of a book's sheets, but for our own.
func (r *reader) scan(book *xlsx.Book, further bool) error {
	file := ""
	if further {
		file = filepath.Base(book.Path)
	}
	ours := map[string]bool{}
	for _, name := range book.Ours() {
		ours[name] = true
	}
	rulebook, err := RulebookSheets(book)
	if err != nil {
		return err
	}
	for _, name := range rulebook {
		ours[name] = true
	}
	if !further {
		if r.result.Rulebook, err = ReadRulebook(book); err != nil {
			return err
		}
	}
	for _, sheet := range book.Sheets() {
		if ours[sheet.Name] {
			continue
		}
		grid, tables, err := r.scanCells(book, file, sheet.Name)
		if err != nil {
			return err
		}
		found := newPage(file, sheet.Name, grid, book.Text)
		found.hidden = sheet.Hidden
		if tables {
			r.scanSheet(found, further)
		} else {
			r.noteSeen(found)
		}
	}
	return nil
}

// headCells is in how many of its cells, those that hold something, a sheet's table must begin: in a sheet of 25 columns, within
// 100,000 rows. It is changed by tests alone.
var headCells = 2_600_000

// scanCells reads the cells of a sheet. Of a very large one in whose beginning no table stands, the beginning alone is read, and
// a Note says so: tables is false then.
func (r *reader) scanCells(book *xlsx.Book, file, sheet string) (grid *xlsx.Grid, tables bool, err error) {
	head, whole, err := book.ScanHead(sheet, headCells)
	if err != nil || whole {
		return head, true, err
	}
	if len(findTables(newPage(file, sheet, head, book.Text), r.vocabulary)) > 0 {
		grid, err = book.Scan(sheet)
		return grid, true, err
	}
	at := rules.Place{File: file, Sheet: sheet}
	r.find(validate.Finding{
		Level: validate.Note, Code: "sheet not read to its end", At: at,
		Message: at.Begin(fmt.Sprintf("it holds more than %s cells, and no headings of carcasses stand among those, so it was read no further. If it has carcasses, copy them, with their headings, to a sheet of their own.",
			phrase.Thousands(strconv.Itoa(headCells)))),
	})
	return head, false, nil
}

func (r *reader) scanSheet(p *page, further bool) {
	if p.decimalComma {
		r.find(validate.Finding{
			Level: validate.Note, Code: "decimal comma", At: rules.Place{File: p.file, Sheet: p.sheet},
			Message: "This file writes numbers with a decimal comma: 0,45 was read as 0.45.",
		})
	}
	tables := findTables(p, r.vocabulary)
	if len(tables) == 0 {
		turned := p.turn()
		tables = slices.DeleteFunc(findTables(turned, r.vocabulary), func(t *table) bool { return t.kind != carcassTable })
	}
	if !slices.ContainsFunc(tables, func(t *table) bool { return t.kind == carcassTable && !t.headedByNumbers() }) {
		if form := p.unfolded(r.vocabulary); form != nil {
			unfolded := slices.DeleteFunc(findTables(form, r.vocabulary), func(t *table) bool { return t.kind != carcassTable })
			if len(unfolded) > 0 {
				tables = unfolded
			}
		}
	}
	for _, t := range tables {
		if further && t.kind == carcassTable {
			t.kind = listTable // only the fair's own workbook holds the carcasses to be graded
		}
	}
	r.tables = append(r.tables, tables...)
	if len(tables) == 0 {
		r.noteSeen(p)
	}
}

func (r *reader) countTables(kind tableKind) (count int) {
	for _, t := range r.tables {
		if t.kind == kind {
			count++
		}
	}
	return count
}

// noteSeen remembers the line of a sheet that looks most like headings.
func (r *reader) noteSeen(p *page) {
	best, bestCount := "", 1
	for _, line := range p.lines[:min(len(p.lines), 40)] {
		var texts []string
		for _, cell := range line.cells {
			if cell.Kind == xlsx.Text && !nothing(cell) {
				texts = append(texts, clean(cell.Raw))
			}
		}
		if len(texts) > bestCount {
			bestCount = len(texts)
			if len(texts) > 12 {
				texts = append(texts[:12], "…")
			}
			best = strings.Join(texts, " · ")
		}
	}
	if best != "" {
		r.saw = append(r.saw, fmt.Sprintf("sheet %q: %s", p.sheet, best))
	}
}

func (r *reader) noCarcassSheet(books []*xlsx.Book) error {
	name := ""
	if len(books) > 0 {
		name = filepath.Base(books[0].Path)
	}
	for _, t := range r.tables {
		var texts []string
		for _, column := range t.columns {
			texts = append(texts, column.text)
		}
		r.saw = append(r.saw, fmt.Sprintf("sheet %q: %s", t.page.sheet, strings.Join(texts, " · ")))
	}
	return errors.New(name + " has no carcass sheet. One is known by a row of headings with a tag (Tag, Ear tag, Carcass no.) and " +
		"a carcass weight (HCW, Hot weight, Carcass weight) or two measures (Fat, Ribeye, KPH, Marbling). Seen were " + seen(r.saw) +
		`. Change the headings, or say which is which: --column "HCW=Dressed"`)
}

// seen lists the headings of the first few sheets, as much as a person reads.
func seen(headings []string) string {
	const longest = 120
	if len(headings) == 0 {
		return "no headings at all"
	}
	shown := phrase.Few(headings)
	short := make([]string, len(shown))
	for i, text := range shown {
		if letters := []rune(text); len(letters) > longest {
			text = string(letters[:longest]) + "…"
		}
		short[i] = text
	}
	return strings.Join(short, "; ")
}

// take puts the carcasses and blocks into the result in the order of sheet and row.
func (r *reader) take(tables []*tableReader) {
	for _, tr := range tables {
		block := tr.block()
		for _, animal := range tr.animals {
			animal.Sequence = len(r.result.Carcasses)
			animal.ID = animal.Sequence + 1 // until the record says which it is
			r.result.Carcasses = append(r.result.Carcasses, animal.Carcass)
			block.Carcasses = append(block.Carcasses, animal.Carcass)
			block.Lines = append(block.Lines, animal.line)
			block.LastRow = max(block.LastRow, animal.line)
		}
		for _, line := range tr.table.page.lines {
			if line.number >= tr.table.top && line.number <= block.LastRow {
				for _, cell := range line.cells {
					if !nothing(cell) {
						block.LastColumn = max(block.LastColumn, cell.Column)
					}
				}
			}
		}
		r.result.Blocks = append(r.result.Blocks, block)
		r.askForSpecies(tr)
	}
}

// mainSpecies is the species of the table, or else of most of its animals.
func (tr *tableReader) mainSpecies() rules.Species {
	counts := map[rules.Species]int{}
	best := tr.species
	for _, animal := range tr.animals {
		counts[animal.Species]++
	}
	for _, species := range append([]rules.Species{""}, allSpecies...) {
		if counts[species] > counts[best] {
			best = species
		}
	}
	return best
}

// statedWeights says what the table's carcass weights are, by a heading or a title; empty where nothing says so.
func (tr *tableReader) statedWeights() rules.WeightsAre {
	chilled := false
	for _, column := range tr.table.columns {
		if !column.meaning.is(carcassWeights...) {
			continue
		}
		if column.meaning.byHand && column.meaning.is(measure.HotCarcassWeight) {
			return rules.WeightsHot
		}
		switch statedWeights(column.text) {
		case rules.WeightsHot:
			return rules.WeightsHot
		case rules.WeightsChilled:
			chilled = true
		}
	}
	if chilled {
		return rules.WeightsChilled
	}
	return tr.units.weights
}

// askForSpecies asks once for a table whose animals nothing tells the species of.
func (r *reader) askForSpecies(tr *tableReader) {
	unknown := 0
	for _, animal := range tr.animals {
		if animal.Species == "" {
			unknown++
		}
	}
	if unknown == 0 {
		if tr.speciesWhy == asTold {
			r.find(validate.Finding{
				Level: validate.Note, Code: "species as told", At: tr.sheetPlace(),
				Message: "Nothing on this sheet tells the species; its animals were read as " + string(tr.species) + ", as --species or the rulebook says.",
			})
		}
		return
	}
	r.find(validate.Finding{
		Level: validate.Hold, Code: "species unclear", At: tr.sheetPlace(),
		Message: "Nothing on this sheet tells the species of " + phrase.Plural(unknown, "animal", "animals") +
			": name it in the sheet's title, its name or a Class or Species column, or say it with --species.",
	})
}

// nameFindings gives every finding about a carcass its tag and class, which may have come late, and starts its sentence
// with the place.
func (r *reader) nameFindings() {
	for i := range r.result.Findings {
		finding := &r.result.Findings[i]
		if finding.Carcass != nil {
			finding.Tag, finding.Class = finding.Carcass.Tag, finding.Carcass.Class
		}
		if finding.At != (rules.Place{}) {
			finding.Message = finding.At.Begin(phrase.Uncapital(finding.Message))
		}
	}
}
