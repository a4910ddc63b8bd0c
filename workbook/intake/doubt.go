package intake

import (
	"fmt"
	"slices"
	"strings"

	"railbook/grading"
	"railbook/rules"
	"railbook/rules/measure"
	"railbook/rules/phrase"
	"railbook/validate"
)

// ToBeSettled is what the exhibitor of a carcass reads while it can't be told whose it is.
const ToBeSettled = "to be settled"

// WhoseCarcass is the code of the finding that it can't be told whose some carcasses are. Nothing is signed while it is
// open.
const WhoseCarcass = "exhibitor to be settled"

// Doubt is a carcass of which it can't be told whose it is.
type Doubt struct {
	Carcass *grading.Carcass
	Names   []string // of every child it may be
	said    []string // the names with their places
}

// ofNobody are what no doubtful join gives a carcass.
var ofNobody = []measure.ID{measure.Exhibitor, measure.Family, measure.Club, measure.Consent, measure.Tag, measure.ElectronicTag}

// doubt leaves a carcass without a name and without consent, and keeps what all lines agree on.
func (r *reader) doubt(carcass *animal, claims []claim) {
	known := slices.IndexFunc(r.result.Doubts, func(doubt Doubt) bool { return doubt.Carcass == carcass.Carcass })
	if known < 0 {
		known = len(r.result.Doubts)
		r.result.Doubts = append(r.result.Doubts, Doubt{Carcass: carcass.Carcass})
	}
	found := &r.result.Doubts[known]
	exhibitor, named := carcass.Written(measure.Exhibitor)
	if named && exhibitor.Value.Text != ToBeSettled {
		found.add(exhibitor.Value.Text, exhibitor.Place)
	}
	for _, claim := range claims {
		reading, ok := claim.entry.Reading(measure.Exhibitor)
		if ok {
			found.add(reading.Value.Text, reading.Place)
		}
		if !named && ok {
			exhibitor, named = reading, true
		}
		r.softenFindings(claim.entry.Carcass)
	}
	if len(claims) > 0 {
		all := agreed(claims)
		for _, id := range ofNobody {
			all.ClearReading(id)
		}
		adopt(carcass.Carcass, all)
	}
	exhibitor.Value, exhibitor.Unreadable, exhibitor.Plain = measure.Value{Text: ToBeSettled}, false, false
	carcass.SetReading(measure.Exhibitor, exhibitor)
	answer, answered := carcass.Written(measure.Consent)
	if !answered {
		answer = exhibitor
		answer.Written = ""
	}
	carcass.SetReading(measure.Consent, noConsent(answer))
}

func (d *Doubt) add(name string, at rules.Place) {
	if !slices.Contains(d.Names, name) {
		d.Names = append(d.Names, name)
	}
	if words := fmt.Sprintf("%s in %s", phrase.Quote(name), at); !slices.Contains(d.said, words) {
		d.said = append(d.said, words)
	}
}

// mostDoubts keeps the sentence within what a cell holds.
const mostDoubts = 100

// askWhose asks once about every carcass of which it can't be told whose it is.
func (r *reader) askWhose() {
	if len(r.result.Doubts) == 0 {
		return
	}
	var lines, tags []string
	for at, doubt := range r.result.Doubts {
		line := "tag " + doubt.Carcass.Tag + " (" + strings.Join(doubt.said, "; ") + ")"
		if at < mostDoubts && !slices.Contains(lines, line) {
			lines = append(lines, line)
		}
		if !slices.Contains(tags, doubt.Carcass.Tag) {
			tags = append(tags, doubt.Carcass.Tag)
		}
	}
	if rest := len(r.result.Doubts) - mostDoubts; rest > 0 {
		lines = append(lines, phrase.Plural(rest, "carcass more", "carcasses more"))
	}
	first := r.result.Doubts[0].Carcass.Place
	r.find(validate.Finding{
		Level: validate.Look, Code: "exhibitor to be settled", At: rules.Place{File: first.File, Sheet: first.Sheet}, Measure: measure.Exhibitor,
		Read: strings.Join(tags[:min(len(tags), mostDoubts)], ", "),
		Message: fmt.Sprintf("It can't be told from the lists whose %s, so the exhibitor reads %q and no name is published: %s. Correct the roster, or write the exhibitor beside the carcass, and grade again; or accept as is, and no name is printed. Nothing is signed before.",
			theseCarcasses(len(r.result.Doubts)), ToBeSettled, strings.Join(lines, "; ")),
	})
}

func theseCarcasses(number int) string {
	if number == 1 {
		return "this carcass is"
	}
	return "these " + phrase.Plural(number, "carcass is", "carcasses are")
}
