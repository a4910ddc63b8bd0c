package cards

import (
	"fmt"
	"slices"
	"strings"

	"github.com/sourcegraph/conc/iter"

	"railbook/grading"
	"railbook/grading/placing"
	"railbook/grading/whatif"
	"railbook/rules/measure"
	"railbook/validate"
	"railbook/workbook/record"
	"railbook/workbook/result"
	"railbook/workbook/sheets/fair"
	"railbook/workbook/sheets/kit"
	"railbook/workbook/words"
	"railbook/workbook/xlsx"
)

// cardWidths are the columns of a card: what, this carcass, class average, first in class, aim, what it means. Together they
// fill a page at full size, so that nothing is printed smaller than it is written.
var cardWidths = []float64{20, 14, 12, 13, 14, 24}

var cardColumns = len(cardWidths)

// WriteCards gives the bytes of a workbook with a card for each of the carcasses, a sheet each, printed on one leaf: what the
// family reads in front, how the figures came about on the back. They come in the order of their places. It is made afresh: nothing of the results workbook is in it but what the cards say.
func WriteCards(results *result.Results, carcasses []*result.Result, known *Known) ([]byte, error) {
	draft, err := kit.FreshDraft("Family cards")
	if err != nil {
		return nil, err
	}
	cards := &cards{
		Writer: &fair.Writer{Results: results, Look: kit.NewLook(draft, false)},
		Known:  known,
		draft:  draft, wanted: make(map[int]bool), shown: make(map[result.KindOfClass][]measure.ID),
	}
	for _, carcass := range carcasses {
		cards.wanted[carcass.Sequence] = true
	}
	for at, class := range results.Placings.Classes {
		if err := cards.class(at, class); err != nil {
			return nil, err
		}
	}
	return draft.Bytes()
}

// Known is what the cards of all families need of the whole fair, found once.
type Known struct {
	*fair.Consents
	Moved map[int][]whatif.Move   // by the Sequence of a carcass; by MovesOf
	scans map[int]result.ScanPair // by the Sequence of carcasses that were scanned alive
}

// Know finds what the cards of a fair need.
func Know(results *result.Results) *Known {
	known := &Known{Consents: fair.ConsentsOf(results), Moved: MovesOf(results.Carcasses), scans: map[int]result.ScanPair{}}
	for _, pair := range result.ScanPairs(results) {
		known.scans[pair.Rail.Sequence] = pair
	}
	return known
}

// MovesOf finds what would have moved each carcass. Each is graded some hundred times for it, so all processors share the
// work.
func MovesOf(carcasses []*result.Result) map[int][]whatif.Move {
	found := iter.Map(carcasses, func(carcass **result.Result) []whatif.Move { return whatif.Moves((*carcass).Graded) })
	moved := make(map[int][]whatif.Move, len(carcasses))
	for i, carcass := range carcasses {
		moved[carcass.Sequence] = found[i]
	}
	return moved
}

// cards writes the cards of one workbook.
type cards struct {
	*fair.Writer
	*Known
	draft  *xlsx.Draft
	wanted map[int]bool // by the Sequence of a carcass
	shown  map[result.KindOfClass][]measure.ID
	names  []string // of the sheets made so far
}

// card is one carcass with what it is held beside.
type card struct {
	*cards
	*grading.Graded
	page   *kit.Page
	class  placing.ClassPlacing
	at     int               // of the class among all
	all    []*grading.Graded // of the class, but for those on hold
	placed *placing.Placed   // nil where it has no place
	reason string            // why it has none
	picture
}

func (c *cards) class(at int, class placing.ClassPlacing) error {
	all := slices.DeleteFunc(result.EveryCarcass(class), func(graded *grading.Graded) bool { return c.onHold(graded.Carcass) })
	for i := range class.Placed {
		member := &card{cards: c, Graded: class.Placed[i].Graded, class: class, at: at, all: all, placed: &class.Placed[i]}
		if err := member.Write(); err != nil {
			return err
		}
	}
	for _, notPlaced := range class.NotPlaced {
		member := &card{cards: c, Graded: notPlaced.Graded, class: class, at: at, all: all, reason: notPlaced.Reason}
		if err := member.Write(); err != nil {
			return err
		}
	}
	return nil
}

// sheet makes the sheet of the next card.
func (c *cards) sheet(name, _ string) (string, error) {
	c.names = append(c.names, strings.ToLower(name))
	return c.draft.NewSheet(name, "")
}

// sheetName names a card's sheet by its tag, as far as a sheet may be called so.
func (c *cards) sheetName(tag string) string {
	const longest = 24 // of the 31 letters of a sheet's name
	clean := strings.Trim(strings.Map(func(letter rune) rune {
		if strings.ContainsRune(`:\/?*[]`, letter) || letter < ' ' {
			return '-'
		}
		return letter
	}, kit.TagWords(tag)), "' ")
	letters := []rune("Tag " + clean)
	base := string(letters[:min(len(letters), longest)])
	name := base
	for number := 2; slices.Contains(c.names, strings.ToLower(name)); number++ {
		name = fmt.Sprintf("%s (%d)", base, number)
	}
	return name
}

func (c *card) Write() error {
	if !c.wanted[c.Sequence] {
		return nil
	}
	c.page = kit.OpenPage(c.sheet, c.Look, kit.PageSetup{
		Name: c.sheetName(c.Tag), Title: strings.Join(filled("Tag "+kit.TagWords(c.Tag), result.TextOf(c.Graded, measure.Exhibitor)), " · "),
		Subtitle: strings.Join(filled(c.className(), result.TextOf(c.Graded, measure.Club), result.KindOfClass{Species: c.Species, Basis: c.Basis}.Words()), " · "),
		Widths:   cardWidths, Status: c.Status(), Tab: kit.FirstTab,
		Of: result.FairLine(c.AboutFair(), func(text string) bool { return c.Safe(text, "") != "" }),
	})
	page, asides := c.page, []func(){c.besideScan, c.besideLastYear}
	inFront := len(asides)
	front := func(onto *kit.Page) {
		c.page = onto
		c.front(asides[:inFront])
	}
	for inFront > 0 && !page.Holds(front) {
		inFront--
	}
	page.FillFrom(front)
	if c.quiet() {
		c.page.PrintTo(cardColumns)
		return c.page.Close()
	}
	c.page.BreakPage()
	for _, aside := range asides[inFront:] { // there was no room in front
		aside()
	}
	c.terms()
	c.grades()
	c.price()
	c.remarks()
	c.page.PrintTo(cardColumns)
	c.draw(c.page)
	return c.page.Close()
}

// front writes what the family reads first, which of a carcass without a place is the whole card.
func (c *card) front(asides []func()) {
	c.page.Across(c.cardStatus(), kit.Strong, 1, cardColumns)
	c.page.Across(c.standing(), kit.Body, 1, cardColumns)
	if c.quiet() {
		c.measures()
		c.remarks()
		return
	}
	c.apart()
	c.advice()
	c.measures()
	for _, aside := range asides {
		aside()
	}
	c.page.Across(shortCaution, kit.Note, 1, cardColumns)
}

// shortCaution stands in front of a card; what it stands for is on the back.
const shortCaution = "Grades are our own estimates. Prices are for teaching. See the back."

// className names the class, by its number where its own name holds that of another child who may not be named.
func (c *card) className() string {
	return c.Safe(kit.ClassName(c.class.Class), fmt.Sprintf("Class %d", c.at+1), result.TextOf(c.Graded, measure.Exhibitor), result.TextOf(c.Graded, measure.Family))
}

// filled gives the texts that say something.
func filled(texts ...string) []string {
	return slices.DeleteFunc(texts, func(text string) bool { return text == "" })
}

func (c *cards) cardStatus() string {
	if c.Status() == record.Signed {
		return c.StatusWords()
	}
	return "Provisional: places and figures may still change until the judge has signed."
}

// quiet reports whether some figures cannot be relied on, or the carcass was left out or kept back by the inspector, so
// that no advice is drawn from them.
func (c *card) quiet() bool {
	return c.onHold(c.Carcass) || c.leftOut() != nil || c.placed == nil && c.keptBack()
}

// apart writes what put the carcass behind the next one up, or the first ahead of the second, and what took money off it.
func (c *card) apart() {
	var sentences []string
	if c.placed != nil {
		var upper, lower *placing.Placed
		for i := range c.class.Placed {
			placed := &c.class.Placed[i]
			switch {
			case placed.Place < c.placed.Place:
				upper = placed
			case placed.Place > c.placed.Place && lower == nil:
				lower = placed
			}
		}
		switch {
		case upper != nil:
			sentences = words.Apart(c.class.Apart(*upper, *c.placed), false)
		case lower != nil:
			sentences = words.Apart(c.class.Apart(*c.placed, *lower), true)
		}
	}
	for _, cost := range whatif.Costs(c.Graded) {
		if !slices.Contains(c.checked(), cost.Measure) {
			sentences = append(sentences, words.Cost(cost))
		}
	}
	if len(sentences) == 0 {
		return
	}
	c.page.Across("What set it apart", kit.Band, 1, cardColumns)
	for _, sentence := range sentences {
		c.page.Across(sentence, kit.Body, 1, cardColumns)
	}
}

// checked gives the measures that open findings ask about, those on hold and those to be looked at.
func (c *card) checked() (measures []measure.ID) {
	for _, finding := range c.Findings {
		if finding.Carcass == c.Carcass && finding.Level != validate.Note && finding.Settled == nil && finding.Measure != measure.None && !slices.Contains(measures, finding.Measure) {
			measures = append(measures, finding.Measure)
		}
	}
	return measures
}

// corrected gives the measures of the carcass that say something else than when it was first read.
func (c *card) corrected() (measures []measure.ID) {
	for _, correction := range c.corrections() {
		measures = append(measures, correction.Measure)
	}
	return measures
}

// corrections gives for each corrected measure of the carcass what was written first and who corrected it last. One that was
// taken back is none.
func (c *card) corrections() (list []record.Change) {
	for _, change := range c.Changes {
		if change.Tag != c.Tag || change.Class != c.Class {
			continue
		}
		at := slices.IndexFunc(list, func(known record.Change) bool { return known.Measure == change.Measure })
		if at < 0 {
			list = append(list, change)
			continue
		}
		list[at].Is, list[at].Who = change.Is, change.Who
	}
	return slices.DeleteFunc(list, func(change record.Change) bool { return change.Was == change.Is })
}

// correctedWords says of each corrected measure who corrected it and what stood there.
func (c *card) correctedWords() (words []string) {
	for _, correction := range c.corrections() {
		stood := "nothing was written there before"
		if correction.Was != "" {
			stood = correction.Was + " was written there before"
		}
		if correction.Who == record.InTheCell {
			words = append(words, fmt.Sprintf("The %s was corrected in the sheet: %s.", correction.Measure, stood))
		} else {
			words = append(words, fmt.Sprintf("The judge corrected the %s: %s.", correction.Measure, stood))
		}
	}
	return words
}

// advice writes the sentences for the family. They rest on nothing that is being checked.
func (c *card) advice() {
	c.page.Across("For the next animal: one change, all else the same", kit.Band, 1, cardColumns)
	for _, sentence := range words.Advice(whatif.Advise(c.Graded, c.Moved[c.Sequence], c.checked()...)) {
		c.page.Across("• "+sentence, kit.Body, 1, cardColumns)
	}
}

// remarks writes what was assumed, and the cautions.
func (c *card) remarks() {
	var assumed []string
	for _, id := range grading.Computes(c.Species, c.Basis) {
		if words := c.FigureOf(id).Assumed; words != "" && !c.inDoubt(id) {
			for _, part := range strings.Split(words, "; ") {
				if !slices.Contains(assumed, part) {
					assumed = append(assumed, part)
				}
			}
		}
	}
	c.page.Across("Please note", kit.Band, 1, cardColumns)
	if len(assumed) > 0 {
		c.page.Across("Taken as given where the sheet has nothing else: "+strings.Join(assumed, "; ")+".", kit.Note, 1, cardColumns)
	}
	if words := c.targetSources(); words != "" && !c.quiet() {
		c.page.Across("Where the aims come from: "+words+".", kit.Note, 1, cardColumns)
	}
	c.page.Across(strings.Join(kit.Cautions[:len(kit.Cautions)-1], " "), kit.Note, 1, cardColumns)
}
