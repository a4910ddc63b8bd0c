package cards

import (
	"fmt"
	"slices"

	"railbook/grading"
	"railbook/grading/placing"
	"railbook/rules"
	"railbook/rules/measure"
	"railbook/rules/phrase"
	"railbook/workbook/record"
	"railbook/workbook/result"
	"railbook/workbook/sheets/fair"
	"railbook/workbook/sheets/kit"
	"railbook/workbook/words"
	"railbook/workbook/xlsx"
)

// The sheets of the public workbook.
const (
	publicSheet  = "Public placings"
	auctionSheet = "Sale order"
	callSheet    = "Announcer"
)

// WritePublic gives the bytes of the workbook for the newspaper and the sale: placings and measures, with a name only
// where there is consent. It is made afresh, and nothing that a person wrote about a carcass goes into it but its tag and
// its class.
func WritePublic(results *result.Results) ([]byte, error) {
	draft, err := kit.FreshDraft("Placings")
	if err != nil {
		return nil, err
	}
	public := &public{Writer: &fair.Writer{Results: results, Look: kit.NewLook(draft, false)}, draft: draft, Consents: fair.ConsentsOf(results)}
	named, _ := PublicNames(results)
	public.named = named > 0
	for _, write := range []func() error{public.placings, public.auction, public.calls} {
		if err := write(); err != nil {
			return nil, err
		}
	}
	return draft.Bytes()
}

// public writes the sheets that anybody may see.
type public struct {
	*fair.Writer
	*fair.Consents
	draft *xlsx.Draft
	named bool // somebody may be named
}

func (p *public) openSheet(wanted kit.PageSetup) *kit.Page {
	wanted.Status, wanted.Tab = p.Status(), kit.FirstTab
	wanted.Of = result.FairLine(p.AboutFair(), func(text string) bool { return p.Safe(text, "") != "" })
	return kit.OpenPage(p.draft.NewSheet, p.Look, wanted)
}

// publicStatus says what the status means for a reader, without naming anybody.
func (p *public) publicStatus() string {
	words := "Provisional: places may still change until the judge has signed."
	if p.Status() == record.Signed {
		words = "Signed by the judge"
		if p.Run.Date != "" {
			words += ", " + p.Run.Date
		}
		words += "."
	}
	return words + " A name stands here only where the fair has consent to print it."
}

// PublicNames counts the placed carcasses that the public sheet names with consent, and those it gives by tag alone.
func PublicNames(results *result.Results) (named, tagged int) {
	consents := fair.ConsentsOf(results)
	for _, class := range results.Placings.Classes {
		for _, placed := range class.Placed {
			if consents.May(placed.Graded) {
				named++
			} else {
				tagged++
			}
		}
	}
	return named, tagged
}

// publicMeasures is how many measures a line of the public sheet shows, besides price and value.
const publicMeasures = 6

func (p *public) placings() error {
	widths := []float64{8, 10}
	if p.named {
		widths = append(widths, 22)
	}
	shares := p.shares()
	left := kit.FreshLandscapeWidth - sum(widths)
	for _, share := range shares {
		widths = append(widths, left*share/sum(shares))
	}
	layout := kit.PageSetup{
		Name: publicSheet, Title: "Carcass placings: " + p.Status(), Subtitle: "Results of the carcass contest, best first in each class",
		Widths: widths, Landscape: true, RepeatFrom: 1, RepeatTo: 1, FreezeRows: 1,
	}
	shared := p.sameMeasures()
	if shared {
		layout.RepeatFrom, layout.RepeatTo, layout.FreezeRows = 4, 4, 4
	}
	page := p.openSheet(layout)
	page.Across(p.publicStatus(), kit.Body, 1, len(widths))
	if shared {
		page.Write(p.Headings(p.Placings.Classes[0])...)
	}
	for at, class := range p.Placings.Classes {
		if at > 0 && !shared {
			page.BreakPage()
		}
		p.class(page, at, class, shared)
	}
	for _, caution := range kit.Cautions[:2] {
		page.Across(caution, kit.Note, 1, len(widths))
	}
	page.PrintTo(len(widths))
	return page.Close()
}

// shares tell how much of the width each column of measures takes: more where a class shows the words of a grade in it.
func (p *public) shares() []float64 {
	shares := []float64{1}
	for _, class := range p.Placings.Classes {
		kind := result.KindOfClass{Species: class.Species, Basis: class.Basis}
		for at, id := range p.shownHere(class) {
			if at == len(shares) {
				shares = append(shares, 1)
			}
			if kit.MeasureHeading(kind, id).Style.Align == "" {
				shares[at] = 1.6
			}
		}
	}
	return shares
}

// className names a class, by its number where its own name may not be published.
func (p *public) className(at int, class placing.ClassPlacing) string {
	return p.Safe(kit.ClassName(class.Class), fmt.Sprintf("Class %d", at+1))
}

// sameMeasures reports whether every class shows the same measures, so that one row of headings does for every page.
func (p *public) sameMeasures() bool {
	for _, class := range p.Placings.Classes {
		if first := p.Placings.Classes[0]; class.Basis != first.Basis || !slices.Equal(p.shownHere(class), p.shownHere(first)) {
			return false
		}
	}
	return len(p.Placings.Classes) > 0
}

func (p *public) Headings(class placing.ClassPlacing) []kit.Entry {
	plain := kit.Style{Role: kit.Heading, Wrap: true}
	row := []kit.Entry{{Value: "Place", Style: plain}, {Value: "Tag", Style: plain}}
	if p.named {
		row = append(row, kit.Entry{Value: "Exhibitor", Style: plain})
	}
	for _, id := range p.shownHere(class) {
		row = append(row, centredWords(kit.MeasureHeading(result.KindOfClass{Species: class.Species, Basis: class.Basis}, id)))
	}
	return row
}

func (p *public) class(page *kit.Page, at int, class placing.ClassPlacing, shared bool) {
	width := len(page.Widths)
	measures := p.shownHere(class)
	if !shared {
		page.Skip(1)
	}
	page.Across(fmt.Sprintf("%s · %s · %d placed", p.className(at, class), result.KindOfClass{Species: class.Species, Basis: class.Basis}.Words(), len(class.Placed)), kit.Band, 1, width)
	if percents := words.PercentWords(class, measures); percents != "" {
		page.Across(percents, kit.Note, 1, width)
	}
	if !shared {
		page.Write(p.Headings(class)...)
	}
	for _, placed := range class.Placed {
		row := []kit.Entry{kit.PlaceEntry(placed), {Value: p.tag(placed.Graded), Style: kit.Style{Role: kit.Strong}}}
		if p.named {
			row = append(row, kit.Entry{Value: p.Name(placed.Graded), Style: kit.Style{Role: kit.Body, Wrap: true}})
		}
		for _, id := range measures {
			row = append(row, centredWords(kit.FigureEntry(placed.Graded, id, kit.Body)))
		}
		page.Write(row...)
	}
	if left := len(class.NotPlaced); left > 0 {
		page.Across(phrase.Plural(left, "carcass is", "carcasses are")+" not placed.", kit.Note, 1, width)
	}
}

// auctionWeight is the heading of the weights that are sold by: those of scanned animals are estimates.
func (p *public) auctionWeight() string {
	scanned, carcasses := false, false
	for _, class := range p.Placings.Classes {
		if class.Basis == rules.LiveScan {
			scanned = true
		} else {
			carcasses = true
		}
	}
	words := result.HeadingOf(measure.HotCarcassWeight)
	switch {
	case scanned && carcasses:
		words += " (scanned: estimated)"
	case scanned:
		weight, _ := measure.Define(measure.HotCarcassWeight)
		words = weight.ScanHeading
	}
	return words
}

// centredWords keeps the words of a grade away from the numbers on both sides.
func centredWords(entry kit.Entry) kit.Entry {
	if _, isText := entry.Value.(string); isText && entry.Style.Align == "" {
		entry.Style.Align, entry.Style.Wrap = "center", entry.Style.Role == kit.Heading
	}
	return entry
}

// shownHere are the measures of a class that somebody in it has; the value stands last.
func (p *public) shownHere(class placing.ClassPlacing) []measure.ID {
	has := func(id measure.ID) bool {
		return slices.ContainsFunc(class.Placed, func(placed placing.Placed) bool {
			_, ok := placed.Figure(id)
			return ok
		})
	}
	var shown []measure.ID
	for _, id := range p.ShownMeasures(result.KindOfClass{Species: class.Species, Basis: class.Basis}) {
		if has(id) {
			shown = append(shown, id)
		}
	}
	for _, least := range []measure.ID{measure.InternalFat, measure.MarblingScore, measure.RibeyePerHundredweight, measure.Marbling} {
		if at := slices.Index(shown, least); at >= 0 && len(shown) > publicMeasures {
			shown = slices.Delete(shown, at, at+1)
		}
	}
	shown = shown[:min(len(shown), publicMeasures)]
	if has(measure.CarcassValue) {
		shown = append(shown, measure.CarcassValue)
	}
	return shown
}

func (p *public) tag(graded *grading.Graded) string { return p.Safe(kit.TagWords(graded.Tag), "–") }

// auction writes every placed carcass once, numbered in the order of the classes and places, with room to write the sale.
func (p *public) auction() error {
	widths, subtitle := []float64{6, 26, 7, 9, 22, 13, 22, 13}, "By class and place; buyer and price are written by hand"
	oneClass := len(p.Placings.Classes) == 1 // said above the table, and not in every row
	inClasses := func(row ...kit.Entry) []kit.Entry {
		if oneClass {
			return slices.Delete(row, 1, 2)
		}
		return row
	}
	if oneClass {
		widths = []float64{6, 7, 9, 30, 13, 34, 19}
		subtitle = p.className(0, p.Placings.Classes[0]) + ", by place; buyer and price are written by hand"
	}
	page := p.openSheet(kit.PageSetup{
		Name: auctionSheet, Title: "Sale order: " + p.Status(), Subtitle: subtitle,
		Widths: widths, Landscape: true, RepeatFrom: 4, RepeatTo: 4, FreezeRows: 4,
	})
	page.Across(p.publicStatus(), kit.Body, 1, len(widths))
	plain := kit.Style{Role: kit.Heading, Wrap: true}
	page.Write(inClasses(kit.Entry{Value: "Lot", Style: plain}, kit.Entry{Value: "Class", Style: plain}, kit.Entry{Value: "Place", Style: plain}, kit.Entry{Value: "Tag", Style: plain}, kit.Entry{Value: "Exhibitor", Style: plain},
		kit.NumberHeading(p.auctionWeight()), kit.AwayFromNumbers(kit.Entry{Value: "Buyer", Style: plain}), kit.Entry{Value: "Price", Style: plain})...)
	lot := 0
	wrapped := kit.Style{Role: kit.Body, Wrap: true}
	for at, class := range p.Placings.Classes {
		for _, placed := range class.Placed {
			lot++
			page.WriteHigh(22, inClasses(kit.Entry{Value: lot, Style: kit.Style{Role: kit.Strong, Align: "left"}}, kit.Entry{Value: p.className(at, class), Style: wrapped}, kit.Entry{Value: placed.Place, Style: kit.Style{Role: kit.Body, Align: "left"}},
				kit.Entry{Value: p.tag(placed.Graded), Style: kit.Style{Role: kit.Strong}}, kit.Entry{Value: p.Name(placed.Graded), Style: wrapped}, kit.FigureEntry(placed.Graded, measure.HotCarcassWeight, kit.Body),
				kit.Entry{Value: "", Style: kit.Style{Role: kit.Input}}, kit.Entry{Value: "", Style: kit.Style{Role: kit.Input}})...)
		}
	}
	page.PrintTo(len(widths))
	return page.Close()
}

func sum(widths []float64) (wide float64) {
	for _, width := range widths {
		wide += width
	}
	return wide
}
