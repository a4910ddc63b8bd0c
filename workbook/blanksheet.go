package workbook

import (
	"cmp"
	"fmt"
	"path/filepath"
	"slices"
	"strings"

	"railbook/grading"
	"railbook/rules"
	"railbook/rules/measure"
	"railbook/rules/phrase"
	"railbook/validate"
	"railbook/workbook/intake"
	"railbook/workbook/result"
	"railbook/workbook/sheets/railsheet"

	"github.com/shopspring/decimal"
)

// SheetOptions say how a blank rail sheet is to be, beside the options of every command.
type SheetOptions struct {
	Roster     string
	Order      string // "roster", "tag" or "rail"; empty is "roster"
	Ultrasound bool   // every animal of the roster is scanned alive
	SpareLines int    // lines below each class for what comes late
	NoNames    bool   // tag and class alone go along
	PrintNames bool   // exhibitors stand on the printed part
}

// BlankSheet is what became of a blank rail sheet.
type BlankSheet struct {
	Path     string
	Written  bool // false: the very same was there already
	Entries  int
	Kinds    []string
	Warnings []string
	NoNames  bool
	Roster   string
}

// WriteBlankSheet writes the rail sheet for a roster's animals. The error says what keeps it from being written, cell by
// cell: no entries, a tag twice, an entry without a species.
func WriteBlankSheet(options Options, sheet SheetOptions) (*BlankSheet, error) {
	if options.Output == "" {
		options.Output = strings.TrimSuffix(sheet.Roster, filepath.Ext(sheet.Roster)) + "-rail.xlsx"
	}
	work := &job{path: sheet.Roster, options: options}
	options.stage("reading " + sheet.Roster)
	var err error
	if work.book, err = openBook(sheet.Roster, options); err != nil {
		return nil, err
	}
	if err := work.chooseRules(); err != nil {
		return nil, err
	}
	roster, err := intake.ReadRoster(work.book, work.rules, intake.Options{Columns: options.Columns, Species: options.Species})
	if err != nil {
		return nil, err
	}
	if err := unfitEntries(roster); err != nil {
		return nil, err
	}
	settleBases(roster.Entries, work.rules, sheet.Ultrasound)
	if sheet.Order == "rail" && !slices.ContainsFunc(roster.Entries, hasRailNumber) {
		return nil, fmt.Errorf("%s has no rail numbers to order by, and nothing was written. Leave --order out for the roster's own order, or take --order tag", sheet.Roster)
	}
	order(roster.Entries, sheet.Order)
	blank := &BlankSheet{
		Path: options.Output, Entries: len(roster.Entries), NoNames: sheet.NoNames, Roster: sheet.Roster,
		Warnings: append(work.warnings(), rosterWarnings(roster)...),
	}
	wanted := railsheet.RailSheets{
		Entries: roster.Entries, Rules: work.rules, About: result.WithSettings(roster.About, work.rules), SpareLines: sheet.SpareLines, InOrder: sheet.Order == "tag" || sheet.Order == "rail", NoNames: sheet.NoNames, PrintNames: sheet.PrintNames,
	}
	blank.Kinds = wanted.Kinds()
	blank.Written, err = work.saveBlank(wanted)
	return blank, err
}

func (j *job) saveBlank(wanted railsheet.RailSheets) (written bool, err error) {
	path := j.options.Output
	book, err := railsheet.WriteRailSheets(wanted, path)
	if err != nil {
		return false, err
	}
	return j.options.write(book, path, ".xlsx", j.path)
}

// unfitEntries says every reason why a roster can't become a rail sheet.
func unfitEntries(roster *intake.Roster) error {
	var reasons []string
	seen := make(map[string]rules.Place)
	species := 0
	var firstWithout rules.Place
	for _, entry := range roster.Entries {
		key := string(entry.Species) + "\t" + entry.Tag
		earlier, twice := seen[key]
		switch {
		case entry.Tag == "":
			reasons = append(reasons, fmt.Sprintf("%s: this entry has no tag. Write its tag", sentenceStart(entry.Place)))
			continue
		case twice:
			reasons = append(reasons, fmt.Sprintf("%s: tag %s stands in cell %s already. Correct the wrong one, or take one line out",
				sentenceStart(entry.Place), entry.Tag, elsewhere(earlier, entry.Place)))
		default:
			seen[key] = entry.Place
		}
		if entry.Species == "" {
			if species++; species == 1 {
				firstWithout = entry.Place
			}
		}
	}
	for _, finding := range roster.Findings {
		if finding.Level == validate.Hold && finding.Measure == measure.Tag {
			reasons = append(reasons, strings.TrimSuffix(finding.Message, "."))
		}
	}
	if species > 0 {
		reasons = append(reasons, fmt.Sprintf("%s: nothing tells the species of %s, from here on. Name it in a Species or Class column, or say it with --species",
			sentenceStart(firstWithout), phrase.Plural(species, "entry", "entries")))
	}
	if len(roster.Entries) == 0 {
		reasons = append(reasons, "there is no entry below its headings. Fill in the tags")
	}
	if len(reasons) == 0 {
		return nil
	}
	return fmt.Errorf("the roster can't be made into a rail sheet, and nothing was written:\n  %s", strings.Join(reasons, ".\n  "))
}

// elsewhere names a cell, with its sheet where that is another one.
func elsewhere(place, from rules.Place) string {
	if place.Sheet == from.Sheet {
		return place.Cell
	}
	return fmt.Sprintf("%s of sheet %q", place.Cell, place.Sheet)
}

// settleBases makes scans of the entries whose class the rulebook, or its own name, places by ultrasound.
func settleBases(entries []*grading.Carcass, book *rules.Rulebook, all bool) {
	for _, entry := range entries {
		if all || intake.ScanWords(entry.Class) || classBasis(book, entry) == rules.LiveScan {
			entry.Basis = rules.LiveScan
		}
		if entry.Basis == "" {
			entry.Basis = rules.OnTheRail
		}
	}
}

// classBasis is what the rulebook's own class of that name is measured by; empty where no class has the name.
func classBasis(book *rules.Rulebook, entry *grading.Carcass) rules.Basis {
	for _, class := range book.Classes {
		named := strings.EqualFold(class.Name, entry.Class) ||
			slices.ContainsFunc(class.Matches, func(other string) bool { return strings.EqualFold(other, entry.Class) })
		if named && (class.Species == "" || class.Species == entry.Species) {
			return class.Basis
		}
	}
	return ""
}

func hasRailNumber(entry *grading.Carcass) bool {
	_, has := entry.Reading(measure.RailNumber)
	return has
}

// order puts the entries into the order in which they will hang.
func order(entries []*grading.Carcass, by string) {
	id := measure.Tag
	switch by {
	case "rail":
		id = measure.RailNumber
	case "tag":
	default:
		return
	}
	text := func(entry *grading.Carcass) string {
		if id == measure.Tag {
			return entry.Tag
		}
		return entry.ReadingOf(id).Value.Text
	}
	slices.SortStableFunc(entries, func(a, b *grading.Carcass) int { return compareTags(text(a), text(b)) })
}

// compareTags puts tags in the order of their numbers, and others in that of their letters behind them; blanks last.
func compareTags(a, b string) int {
	first, notFirst := decimal.NewFromString(a)
	second, notSecond := decimal.NewFromString(b)
	switch {
	case (a == "") != (b == ""):
		return -cmp.Compare(len(a), len(b))
	case notFirst == nil && notSecond == nil && !first.Equal(second):
		return first.Cmp(second)
	case notFirst == nil != (notSecond == nil):
		if notFirst == nil {
			return -1
		}
		return 1
	}
	return cmp.Compare(a, b)
}

// rosterWarnings says what of the roster does not stand on the sheet.
func rosterWarnings(roster *intake.Roster) []string {
	var warnings []string
	for _, finding := range roster.Findings {
		if finding.Level == validate.Note || finding.Measure == measure.Tag {
			continue
		}
		words := finding.Message
		if finding.Level == validate.Hold {
			words += " It is blank on the rail sheet."
		}
		warnings = append(warnings, words)
	}
	for _, passed := range roster.Passed {
		if passed.Why == intake.WithoutTag {
			warnings = append(warnings, sentenceStart(passed.At)+": this line has no tag and is not on the rail sheet: "+passed.Written+".")
		}
	}
	return append(warnings, append(classless(roster.Entries), columnsLeftOut(roster.Unknown)...)...)
}

// classless names the entries without a class where others of their rail sheet have one: each would come back on hold.
func classless(entries []*grading.Carcass) []string {
	type tab struct {
		species rules.Species
		basis   rules.Basis
	}
	classed := make(map[tab]bool)
	for _, entry := range entries {
		classed[tab{entry.Species, entry.Basis}] = classed[tab{entry.Species, entry.Basis}] || entry.Class != ""
	}
	var without []string
	for _, entry := range entries {
		if entry.Class == "" && classed[tab{entry.Species, entry.Basis}] {
			without = append(without, entry.Tag)
		}
	}
	if len(without) == 0 {
		return nil
	}
	return []string{fmt.Sprintf("%s no class, though others have one: %s. Write the class into the roster, or on the rail sheet before it is graded.",
		phrase.Plural(len(without), "entry has", "entries have"), "tag "+strings.Join(without, ", tag "))}
}

// columnsLeftOut names the roster's columns that were not recognised and do not go along.
func columnsLeftOut(unknown []intake.Heading) []string {
	var named []string
	for _, heading := range unknown {
		named = append(named, fmt.Sprintf("%q (%s)", heading.Text, heading.Cell))
	}
	if len(named) == 0 {
		return nil
	}
	return []string{"not recognised, so not on the rail sheet: " + phrase.Plural(len(named), "column", "columns") + ", headed " + strings.Join(named, ", ") +
		`. If one is wanted, say what it is: --column "exhibitor=` + unknown[0].Text + `".`}
}

// Report says what was written and what to do with it.
func (b *BlankSheet) Report() string {
	var text strings.Builder
	text.WriteString(Wrapped(fmt.Sprintf("%s on the rail sheet: %s.", phrase.Plural(b.Entries, "animal", "animals"), strings.Join(b.Kinds, ", ")), "  "))
	for _, warning := range b.Warnings {
		text.WriteString(Wrapped("Warning: "+warning, "  "))
	}
	there := ""
	if !b.Written {
		there = " (the very same was there already)"
	}
	text.WriteString(Wrapped("Rail sheet: "+b.Path+there, "  "))
	next := "Next: print it for the cooler or send it to the plant. When it comes back filled in: railbook grade " + quoted(b.Path)
	if b.NoNames {
		next += " --roster " + quoted(b.Roster)
	}
	text.WriteString(Wrapped(next, "  "))
	return text.String()
}
