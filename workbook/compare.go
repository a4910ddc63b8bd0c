package workbook

import (
	"fmt"
	"path/filepath"
	"slices"
	"strings"

	"railbook/grading/placing"
	"railbook/grading/whatif"
	"railbook/rules"
	"railbook/rules/phrase"
	"railbook/workbook/sheets/comparison"
	"railbook/workbook/words"
	"railbook/workbook/xlsx"

	"github.com/shopspring/decimal"
)

// CompareOutcome is what became of a comparison of two rulebooks.
type CompareOutcome struct {
	*comparison.Comparison
	Path    string // of the comparison workbook
	Written bool   // false: the very same was there already
}

// CompareRulebooks grades and places the carcasses of past workbooks under two rulebooks and writes what would change.
// The rulebooks may be rulebook workbooks or any that carry one. A past workbook is read by the headings of the
// rulebook it carries, which has those mapped by hand, else by the old one's. Each is checked under both, and what a
// judge ruled on places at the fair is left out: the rulebooks alone are compared.
func CompareRulebooks(oldPath, newPath string, past []string, options Options) (*CompareOutcome, error) {
	old, err := usableRulebook(oldPath, options)
	if err != nil {
		return nil, err
	}
	new, err := usableRulebook(newPath, options)
	if err != nil {
		return nil, err
	}
	compared := &comparison.Comparison{OldName: rulebookName(old, oldPath), NewName: rulebookName(new, newPath), Never: words.LimitFaults(whatif.NeverDecides(new))}
	if compared.OldName == compared.NewName {
		compared.OldName, compared.NewName = filepath.Base(oldPath), filepath.Base(newPath)
	}
	for _, path := range past {
		reading := options
		reading.rulebookElse = oldPath
		work, err := examine(path, reading)
		if err != nil {
			return nil, err
		}
		options.stage("comparing " + path)
		compared.Fairs = append(compared.Fairs, comparison.ComparedFair{
			Name:       filepath.Base(path),
			Comparison: whatif.Compare(work.under(old), work.under(new)),
		})
	}
	outcome := &CompareOutcome{Comparison: compared, Path: options.Output}
	if outcome.Path == "" {
		outcome.Path = freshBeside(newPath, "compared")
	}
	outcome.Written, err = saveComparison(outcome, options, append([]string{oldPath, newPath}, past...))
	return outcome, err
}

// usableRulebook loads a rulebook and refuses one that has errors.
func usableRulebook(path string, options Options) (*rules.Rulebook, error) {
	book, faults, err := LoadRulebook(path, options)
	if err == nil && book == nil {
		err = fmt.Errorf("%s: %w", filepath.Base(path), &rulebookError{faults})
	}
	return book, err
}

func rulebookName(book *rules.Rulebook, path string) string {
	if name := strings.TrimSpace(book.Settings.Name + " " + book.Settings.Year); name != "" {
		return name
	}
	return filepath.Base(path)
}

// under gives what a rulebook holds of the carcasses, by its own limits.
func (j *job) under(book *rules.Rulebook) whatif.Side {
	twin, results := *j, *j.results
	twin.rules, twin.results = book, &results
	twin.grade()
	found := append(slices.Clone(j.results.Read.Findings), twin.findingsOf(results.Carcasses)...)
	results.Findings = settle(found, j.results.Decisions, j.decidedOn)
	results.Placings = placing.Placings{}
	results.Gather()
	return whatif.Side{Book: book, Entrants: results.Entrants()}
}

// saveComparison writes the comparison workbook unless the very same is there already.
func saveComparison(outcome *CompareOutcome, options Options, inputs []string) (written bool, err error) {
	options.stage("writing " + outcome.Path)
	data, err := comparison.WriteComparison(outcome.Comparison)
	if err != nil {
		return false, err
	}
	book, err := xlsx.OpenBytes(outcome.Path, data, xlsx.OpenOptions{})
	if err != nil {
		return false, err
	}
	return options.write(book, outcome.Path, ".xlsx", inputs...)
}

// mostReported is how many movers and warnings the terminal shows, so that the summary stays on one screen.
const mostReported = 6

// Report is the summary of one screen for the terminal.
func (o *CompareOutcome) Report() string {
	var text strings.Builder
	old, new := o.All()
	moved, repriced := o.Counts()
	text.WriteString(Wrapped(fmt.Sprintf("%s against %s on %s of %s.", o.OldName, o.NewName,
		phrase.Plural(old.Carcasses, "carcass", "carcasses"), phrase.Plural(len(o.Fairs), "past workbook", "past workbooks")), "  "))
	fmt.Fprintf(&text, "%-28s%16s%16s%16s\n", "", "old", "new", "change")
	money := func(words string, was, is decimal.Decimal) {
		fmt.Fprintf(&text, "%-28s%16s%16s%16s\n", words, was.StringFixed(2), is.StringFixed(2), signedText(is.Sub(was), 2))
	}
	count := func(words string, was, is int) {
		fmt.Fprintf(&text, "%-28s%16d%16d%16s\n", words, was, is, signedText(decimal.NewFromInt(int64(is-was)), 0))
	}
	money("Value, $", old.Value, new.Value)
	money("Premiums, $", old.Premiums, new.Premiums)
	money("Discounts, $", old.Discounts, new.Discounts)
	money("Price spread, $/cwt", old.PriceSpread(), new.PriceSpread())
	count("Within the limits", old.Eligible, new.Eligible)
	count("Places shared", old.SharedPlaces, new.SharedPlaces)
	fmt.Fprintf(&text, "%d stand elsewhere, %d bring another price.\n", moved, repriced)
	o.reportMovers(&text, moved)
	_, unused := o.Unused()
	text.WriteString(Wrapped(fmt.Sprintf("Decided nothing under %s: %s.", o.NewName, phrase.Plural(len(unused), "premium or limit", "premiums and limits")), "  "))
	for i, fault := range o.Never {
		if i == mostReported/2 {
			break
		}
		text.WriteString(Wrapped("Warning: "+fault.Place.String()+": "+fault.Message, "  "))
	}
	if o.Written {
		fmt.Fprintf(&text, "Comparison: %s\n", o.Path)
	} else {
		fmt.Fprintf(&text, "Comparison: %s (the very same was there already)\n", o.Path)
	}
	return text.String()
}

func (o *CompareOutcome) reportMovers(text *strings.Builder, moved int) {
	shown := 0
	for _, class := range o.Classes() {
		for _, row := range class.Rows {
			if row.Moved() && shown < mostReported {
				shown++
				text.WriteString(firstLine(fmt.Sprintf("  %s, %s, %s: %s", class.Class, row.Tag, words.Moved(row), words.PlaceWhy(row))))
			}
		}
	}
	if moved > shown {
		fmt.Fprintf(text, "  and %d more in the workbook\n", moved-shown)
	}
}

// firstLine cuts a text to one line of the terminal.
func firstLine(text string) string {
	if letters := []rune(text); len(letters) > reportWidth {
		text = string(letters[:reportWidth-1]) + "…"
	}
	return text + "\n"
}

func signedText(number decimal.Decimal, places int32) string {
	if number.IsPositive() {
		return "+" + number.StringFixed(places)
	}
	return number.StringFixed(places)
}
