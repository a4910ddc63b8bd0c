package writing

import (
	"slices"

	"railbook/grading"
	"railbook/rules"
)

var decidedWidths = []float64{26, 20, 11, 11, 11, 11}

// writeDecided writes what decided and what did not: the keys, eligibility, and premiums and limits that met nobody.
func (s *comparisonSheets) writeDecided() {
	page := s.open(decidedSheet, "What decided, and what did not", decidedWidths, plan{Tab: firstTab})
	page.skip(1)
	s.keys(page)
	page.skip(1)
	s.eligibility(page)
	old, new := s.Unused()
	page.skip(1)
	met(page, "Under "+s.NewName+" these decided nothing", new)
	page.skip(1)
	met(page, "Under "+s.OldName+" these decided nothing", old)
	if len(s.Never) > 0 {
		page.skip(1)
		page.write(bandEntries("Warnings on the limits of "+s.NewName, len(decidedWidths))...)
		for _, fault := range s.Never {
			page.across(sentence(placeWords(fault.Place)+fault.Message), body, 1, len(decidedWidths))
		}
	}
	s.close(page)
}

// keys says how often each key of a ranking put one place above the next, and how often it was asked to.
func (s *comparisonSheets) keys(page *page) {
	old, new := s.All()
	page.across("Each key is asked where the keys before it leave two neighbours level. A key that decided nothing may be left out; the last keys show how many ties there would be without them.", note, 1, len(decidedWidths))
	page.write(entry{"Ranking", style{Role: heading}}, entry{"Key", style{Role: heading}},
		numberHeading("Asked, old"), numberHeading("Decided, old"), numberHeading("Asked, new"), numberHeading("Decided, new"))
	for _, key := range allKeys(old.Keys, new.Keys) {
		was, hasWas := useOf(old.Keys, key)
		is, hasIs := useOf(new.Keys, key)
		page.write(entry{key.Ranking, style{Role: body, Wrap: true}}, entry{key.Key, style{Role: body, Wrap: true}},
			useEntry(was.Asked, hasWas), useEntry(was.Decided, hasWas), useEntry(is.Asked, hasIs), useEntry(is.Decided, hasIs))
	}
}

func allKeys(old, new []grading.KeyUse) []grading.KeyUse {
	all := slices.Clone(new)
	for _, key := range old {
		if _, there := useOf(new, key); !there {
			all = append(all, key)
		}
	}
	slices.SortStableFunc(all, func(a, b grading.KeyUse) int {
		if a.Ranking != b.Ranking {
			return 0
		}
		return a.Step - b.Step
	})
	return all
}

func useOf(uses []grading.KeyUse, of grading.KeyUse) (grading.KeyUse, bool) {
	at := slices.IndexFunc(uses, func(use grading.KeyUse) bool { return use.Ranking == of.Ranking && use.Key == of.Key })
	if at < 0 {
		return grading.KeyUse{}, false
	}
	return uses[at], true
}

func useEntry(count int, there bool) entry {
	if !there {
		return entry{"–", style{Role: body, Align: "right"}}
	}
	return countOf(count, body)
}

// eligibility names the carcasses that the limits let in or keep out under one rulebook only.
func (s *comparisonSheets) eligibility(page *page) {
	page.write(bandEntries("Limits that let in or keep out", len(decidedWidths))...)
	found := false
	for _, class := range s.Classes() {
		for _, row := range class.Rows {
			if row.Old.Eligible() == row.New.Eligible() {
				continue
			}
			found = true
			words, outcome := "becomes eligible; was not: ", row.Old
			if row.Old.Eligible() {
				words, outcome = "is eligible no more: ", row.New
			}
			page.across(sentence(row.Tag+", "+class.name()+", "+words+whyNotEligible(outcome)), body, 1, len(decidedWidths))
		}
	}
	if !found {
		page.across("Nobody becomes eligible or stops being so.", body, 1, len(decidedWidths))
	}
}

func whyNotEligible(outcome grading.Outcome) string {
	if outcome.Left != "" {
		return outcome.Left
	}
	words := ""
	for i, fails := range outcome.Fails {
		if i > 0 {
			words += "; "
		}
		words += fails
	}
	return words
}

// met lists what met nobody.
func met(page *page, title string, unused []grading.Unused) {
	page.write(bandEntries(title, len(decidedWidths))...)
	if len(unused) == 0 {
		page.across("Nothing: every premium, discount and limit met a carcass.", body, 1, len(decidedWidths))
	}
	for _, one := range unused {
		page.across(placeWords(one.Place)+one.Words, body, 1, len(decidedWidths))
	}
}

// placeWords leads a sentence with where in the rulebook it belongs.
func placeWords(place rules.Place) string {
	if place.Cell == "" {
		return ""
	}
	return place.Sheet + " " + place.Cell + ": "
}
