package comparison

import (
	"slices"

	"railbook/grading/whatif"
	"railbook/rules"
	"railbook/rules/phrase"
	"railbook/workbook/sheets/fair"
	"railbook/workbook/sheets/kit"
	"railbook/workbook/words"
)

var decidedWidths = []float64{26, 20, 11, 11, 11, 11}

// writeDecided writes what decided and what did not: the keys, eligibility, and premiums and limits that met nobody.
func (s *comparisonSheets) writeDecided() {
	page := s.open(decidedSheet, "What decided, and what did not", decidedWidths, kit.PageSetup{Tab: kit.FirstTab})
	page.Skip(1)
	s.keys(page)
	page.Skip(1)
	s.eligibility(page)
	old, new := s.Unused()
	page.Skip(1)
	met(page, "Under "+s.NewName+" these decided nothing", new)
	page.Skip(1)
	met(page, "Under "+s.OldName+" these decided nothing", old)
	if len(s.Never) > 0 {
		page.Skip(1)
		page.Write(bandEntries("Warnings on the limits of "+s.NewName, len(decidedWidths))...)
		for _, fault := range s.Never {
			page.Across(phrase.Sentence(placeWords(fault.Place)+fault.Message), kit.Body, 1, len(decidedWidths))
		}
	}
	s.Close(page)
}

// keys says how often each key of a ranking put one place above the next, and how often it was asked to.
func (s *comparisonSheets) keys(page *kit.Page) {
	old, new := s.All()
	page.Across("Each key is asked where the keys before it leave two neighbours level. A key that decided nothing may be left out; the last keys show how many ties there would be without them.", kit.Note, 1, len(decidedWidths))
	page.Write(kit.Entry{Value: "Ranking", Style: kit.Style{Role: kit.Heading}}, kit.Entry{Value: "Key", Style: kit.Style{Role: kit.Heading}},
		kit.NumberHeading("Asked, old"), kit.NumberHeading("Decided, old"), kit.NumberHeading("Asked, new"), kit.NumberHeading("Decided, new"))
	for _, key := range allKeys(old.Keys, new.Keys) {
		was, hasWas := useOf(old.Keys, key)
		is, hasIs := useOf(new.Keys, key)
		page.Write(kit.Entry{Value: key.Ranking, Style: kit.Style{Role: kit.Body, Wrap: true}}, kit.Entry{Value: key.Key, Style: kit.Style{Role: kit.Body, Wrap: true}},
			useEntry(was.Asked, hasWas), useEntry(was.Decided, hasWas), useEntry(is.Asked, hasIs), useEntry(is.Decided, hasIs))
	}
}

func allKeys(old, new []whatif.KeyUse) []whatif.KeyUse {
	all := slices.Clone(new)
	for _, key := range old {
		if _, there := useOf(new, key); !there {
			all = append(all, key)
		}
	}
	slices.SortStableFunc(all, func(a, b whatif.KeyUse) int {
		if a.Ranking != b.Ranking {
			return 0
		}
		return a.Step - b.Step
	})
	return all
}

func useOf(uses []whatif.KeyUse, of whatif.KeyUse) (whatif.KeyUse, bool) {
	at := slices.IndexFunc(uses, func(use whatif.KeyUse) bool { return use.Ranking == of.Ranking && use.Key == of.Key })
	if at < 0 {
		return whatif.KeyUse{}, false
	}
	return uses[at], true
}

func useEntry(count int, there bool) kit.Entry {
	if !there {
		return kit.Entry{Value: "–", Style: kit.Style{Role: kit.Body, Align: "right"}}
	}
	return fair.CountOf(count, kit.Body)
}

// eligibility names the carcasses that the limits let in or keep out under one rulebook only.
func (s *comparisonSheets) eligibility(page *kit.Page) {
	page.Write(bandEntries("Limits that let in or keep out", len(decidedWidths))...)
	found := false
	for _, class := range s.Classes() {
		for _, row := range class.Rows {
			if row.Old.Eligible() == row.New.Eligible() {
				continue
			}
			found = true
			page.Across(phrase.Sentence(row.Tag+", "+class.Name()+", "+words.Eligibility(row)), kit.Body, 1, len(decidedWidths))
		}
	}
	if !found {
		page.Across("Nobody becomes eligible or stops being so.", kit.Body, 1, len(decidedWidths))
	}
}

// met lists what met nobody.
func met(page *kit.Page, title string, unused []whatif.Unused) {
	page.Write(bandEntries(title, len(decidedWidths))...)
	if len(unused) == 0 {
		page.Across("Nothing: every premium, discount and limit met a carcass.", kit.Body, 1, len(decidedWidths))
	}
	for _, never := range unused {
		page.Across(placeWords(never.Place)+words.Unused(never), kit.Body, 1, len(decidedWidths))
	}
}

// placeWords leads a sentence with where in the rulebook it belongs.
func placeWords(place rules.Place) string {
	if place.Cell == "" {
		return ""
	}
	return place.Sheet + " " + place.Cell + ": "
}
