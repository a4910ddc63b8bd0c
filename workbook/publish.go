package workbook

import (
	"fmt"
	"path/filepath"
	"strings"

	"railbook/rules/phrase"
	"railbook/workbook/intake"
	"railbook/workbook/record"
	"railbook/workbook/result"
	"railbook/workbook/sheets/cards"
	"railbook/workbook/sheets/fair"
	"railbook/workbook/xlsx"
)

// PublishOptions say what is published beside the two workbooks.
type PublishOptions struct {
	Separate string // a folder for one file of cards a family; empty: none
}

// PublishedFile is one file that was published.
type PublishedFile struct {
	Path    string
	Written bool // false: the very same was there already
}

// Published is what publishing made.
type Published struct {
	Results       *result.Results
	Cards, Public PublishedFile
	Families      []PublishedFile
	Named, Tagged int // placed carcasses on the public sheet with a name, and by their tag alone
}

// Publish writes the family cards and the public sheet of a results workbook beside it. It returns a *Refusal where the
// workbook is no longer as it was graded or signed, and writes over no different file unless the options force it.
func Publish(path string, options Options, publish PublishOptions) (*Published, error) {
	work, err := examine(path, options)
	if err != nil {
		return nil, err
	}
	if refusal := work.unpublishable(); refusal != nil {
		return nil, refusal
	}
	work.results.Run = work.previous.Run
	made, err := work.compose(publish)
	if err != nil {
		return nil, err
	}
	for _, composed := range made {
		if err := work.inTheWay(composed); err != nil {
			return nil, err
		}
	}
	return work.release(made, publish)
}

// composed is a workbook to be written.
type composed struct {
	path string
	data xlsx.Pieces
}

// compose makes every workbook before any is written: the cards, the public sheet, then those of the families.
func (j *job) compose(publish PublishOptions) ([]composed, error) {
	j.options.stage("drawing the cards")
	var made []composed
	add := func(path string, write func() ([]byte, error)) error {
		data, err := write()
		if err != nil {
			return err
		}
		book, err := xlsx.OpenBytes(path, data, xlsx.OpenOptions{})
		if err != nil {
			return err
		}
		content, err := book.Content()
		if err == nil {
			made = append(made, composed{path, content})
		}
		return err
	}
	results := j.results
	known := cards.Know(results)
	if err := add(freshBeside(j.path, "cards"), func() ([]byte, error) { return cards.WriteCards(results, results.Carcasses, known) }); err != nil {
		return nil, err
	}
	if err := add(freshBeside(j.path, "public"), func() ([]byte, error) { return cards.WritePublic(results) }); err != nil {
		return nil, err
	}
	if publish.Separate == "" {
		return made, nil
	}
	for _, family := range cards.Families(results) {
		path := filepath.Join(publish.Separate, family.File+".xlsx")
		if err := add(path, func() ([]byte, error) { return cards.WriteCards(results, family.Carcasses, known) }); err != nil {
			return nil, err
		}
	}
	return made, nil
}

// inTheWay refuses, before anything is written, what would write over something else.
func (j *job) inTheWay(written composed) error {
	_, err := j.options.door().Check(j.options.output(written.path, ".xlsx", written.data, j.path))
	return err
}

func (j *job) release(made []composed, publish PublishOptions) (*Published, error) {
	published := &Published{Results: j.results}
	published.Named, published.Tagged = cards.PublicNames(j.results)
	if publish.Separate != "" {
		if err := j.options.door().Folder(publish.Separate, j.path); err != nil {
			return nil, err
		}
	}
	for at, composed := range made {
		j.options.stage("writing " + composed.path)
		fresh, err := j.options.door().Write(j.options.output(composed.path, ".xlsx", composed.data, j.path))
		if err != nil {
			return nil, err
		}
		file := PublishedFile{composed.path, fresh}
		switch at {
		case 0:
			published.Cards = file
		case 1:
			published.Public = file
		default:
			published.Families = append(published.Families, file)
		}
	}
	return published, nil
}

// unpublishable says why a workbook may not go out; nil where it may.
func (j *job) unpublishable() *Refusal {
	refusal := &Refusal{Path: j.path, Act: "published"}
	switch {
	case j.previous == nil:
		refusal.Words = "It is not a results workbook of railbook: grade it first, and publish the results."
	case j.previous.Run.Status == record.Signed && (!j.stillSigned() || j.otherFair()):
		refusal.Words = "It is no longer as it was signed: railbook verify names what has changed."
	case j.previous.Run.Status == record.Signed:
		return nil
	case j.changedSinceGraded(stateSHA256(j.results)):
		refusal.Words = "Values, decisions, rules or what stands above the headings were changed since it was graded: grade it again, and publish the new results."
	default:
		return nil
	}
	return refusal
}

// stillSigned reports whether everything that a signature covers is as it was when signed.
func (j *job) stillSigned() bool {
	if j.previous.Run.Edition != record.Edition {
		return len(j.sealDifferences()) == 0 && len(j.editedSince()) == 0
	}
	return len(j.sealDifferences()) == 0 && len(lineDifferences(j.previous.Sealed(), j.linesNow())) == 0
}

// Report says what was published, and what to do with it.
func (p *Published) Report() string {
	var text strings.Builder
	if p.Results.Run.Status != record.Signed {
		text.WriteString(Wrapped("Provisional: the judge has not signed yet, and every page says so.", ""))
	}
	fmt.Fprintf(&text, "%s, one leaf each, front and back.\n", phrase.Plural(len(p.Results.Carcasses), "card", "cards"))
	say := func(words string, file PublishedFile) {
		there := ""
		if !file.Written {
			there = " (the very same was there already)"
		}
		text.WriteString(Wrapped(words+": "+file.Path+there, "  "))
	}
	say("Family cards, all of them, for the office alone", p.Cards)
	say("Public sheet", p.Public)
	if p.Named == 0 {
		text.WriteString(Wrapped("  No name on the public sheet: nobody's consent is on the sheet, so tags alone are printed.", "  "))
	} else {
		text.WriteString(Wrapped(fmt.Sprintf("  %s named with consent, %d by the tag alone.", phrase.Plural(p.Named, "carcass is", "carcasses are"), p.Tagged), "  "))
	}
	p.listMissing(&text)
	if len(p.Families) > 0 {
		text.WriteString(Wrapped(fmt.Sprintf("Families: %s in %s", phrase.Plural(len(p.Families), "file", "files"), filepath.Dir(p.Families[0].Path)), "  "))
	}
	next := "Next: print the cards and hand each family its own; post the public sheet: railbook print " + quoted(p.Cards.Path) + " " + quoted(p.Public.Path)
	if p.Results.Run.Status != record.Signed {
		next = "Next: look at the cards, and publish again once the judge has signed."
	}
	text.WriteString(Wrapped(next, "  "))
	return text.String()
}

// mostMissing is how many exhibitors without consent are listed.
const mostMissing = 40

// listMissing lists the exhibitors who are not named, and why, so that the office can ask before it posts anything.
func (p *Published) listMissing(text *strings.Builder) {
	missing := fair.ConsentsOf(p.Results).Missing(p.Results)
	if p.Named == 0 || len(missing) == 0 {
		return
	}
	fmt.Fprintf(text, "No consent to print the name of %s:\n", phrase.Plural(len(missing), "exhibitor", "exhibitors"))
	for _, exhibitor := range missing[:min(len(missing), mostMissing)] {
		who := exhibitor.Exhibitor
		if who == intake.ToBeSettled {
			who = "Exhibitor"
		}
		text.WriteString(Wrapped(fmt.Sprintf("  %s (tag %s): %s.", who, strings.Join(exhibitor.Tags, ", "), exhibitor.Why), "    "))
	}
	if more := len(missing) - mostMissing; more > 0 {
		fmt.Fprintf(text, "  and %d more.\n", more)
	}
}
