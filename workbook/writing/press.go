package writing

import (
	"fmt"

	"railbook/grading"
	"railbook/rules"
	"railbook/validate"
	"railbook/workbook/reading"
)

// press writes our sheets one after another.
type press struct {
	*Results
	look *look
}

func newPress(results *Results) *press {
	return &press{Results: results, look: lookOf(results.Book, results.Run.Status == reading.Signed)}
}

// open starts a sheet with the status of the results on it.
func (p *press) open(wanted plan) *page {
	wanted.Status = p.status()
	if wanted.Subtitle == "" {
		wanted.Subtitle = p.status()
	}
	return openPage(p.Book.NewSheet, p.look, wanted)
}

func (p *press) status() string {
	if p.Run.Status == reading.Signed {
		return reading.Signed
	}
	return reading.Provisional
}

// statusWords says what the status means for whoever reads the sheet.
func (p *press) statusWords() string {
	if p.status() == reading.Signed {
		words := "Signed by " + p.Run.Judge
		if p.Run.Date != "" {
			words += ", " + p.Run.Date
		}
		if until := p.Rules.Settings.QuestionsUntil; until != "" {
			words += ". Questions may be put until " + until
		}
		return words + "."
	}
	holds, looks := p.openCounts()
	return fmt.Sprintf("Provisional: %s on hold and %s open in the Judge review sheet. Not final until the judge has signed.",
		plural(holds, "finding", "findings"), plural(looks, "to look at", "to look at"))
}

// openCounts counts what the judge has still to settle.
func (p *press) openCounts() (holds, looks int) {
	for _, finding := range p.Findings {
		if finding.Settled != nil {
			continue
		}
		switch finding.Level {
		case validate.Hold:
			holds++
		case validate.Look:
			looks++
		}
	}
	return holds, looks
}

// placedCounts counts the carcasses with and without a place.
func (p *press) placedCounts() (placed, left int) {
	for _, class := range p.Placings.Classes {
		placed += len(class.Placed)
		left += len(class.Left)
	}
	return placed, left
}

// kindsOfClasses gives the species and bases of the classes, each once, in the order of the classes.
func (p *press) kindsOfClasses() []kindOfClass {
	var kinds []kindOfClass
	seen := make(map[kindOfClass]bool)
	for _, class := range p.Placings.Classes {
		kind := kindOfClass{class.Species, class.Basis}
		if !seen[kind] {
			seen[kind] = true
			kinds = append(kinds, kind)
		}
	}
	return kinds
}

// kindOfClass is what must be alike for figures to be compared.
type kindOfClass struct {
	Species rules.Species
	Basis   rules.Basis
}

func (k kindOfClass) words() string {
	if k.Species == "" {
		return "species not known"
	}
	if k.Basis == rules.LiveScan {
		return string(k.Species) + " by ultrasound (estimates)"
	}
	return string(k.Species)
}

func everyCarcass(class grading.ClassPlacing) []*grading.Graded {
	all := make([]*grading.Graded, 0, len(class.Placed)+len(class.Left))
	for _, placed := range class.Placed {
		all = append(all, placed.Graded)
	}
	for _, left := range class.Left {
		all = append(all, left.Graded)
	}
	return all
}
