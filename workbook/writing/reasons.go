package writing

import (
	"fmt"
	"slices"

	"railbook/grading"
	"railbook/rules/measure"
	"railbook/workbook/reading"
)

// The columns of the Draft reasons sheet, from 1.
const (
	reasonsWordsColumn  = 6
	reasonsKeyColumn    = 7
	reasonsVisibleWidth = 6
)

// writeReasons writes the draft reasons of each class on pages of their own, each beside a cell for the judge's own
// words. What the judge wrote is kept even where the draft has changed or gone.
func (p *press) writeReasons() error {
	page := p.open(plan{
		Name: reading.ReasonsSheet, Mark: reading.ReasonsMark, Title: "Draft reasons: " + p.status(),
		Subtitle:  "Drawn from the keys that placed each carcass. " + p.whatToFillIn("Write over them in your own words on the right; what you write is kept."),
		Widths:    []float64{8, 10, 20, 10, 62, 48, 12, 12},
		Hidden:    []int{reasonsKeyColumn, reasonsKeyColumn + 1},
		Landscape: true, RepeatFrom: 1, RepeatTo: 3, FreezeRows: 3, Protected: true, Tab: inputTab,
	})
	page.headings("Place", "Tag", "Exhibitor", "Over", reading.DraftColumn, reading.WordsColumn, reading.KeyClassColumn, reading.KeyTagColumn)
	used := make(map[string]bool)
	for i, class := range p.Placings.Classes {
		if i > 0 {
			page.breakPage()
		}
		page.across(className(class.Class), band, 1, reasonsVisibleWidth)
		page.across(rankingWords(class.Ranking), note, 1, reasonsVisibleWidth)
		for at, placed := range class.Placed {
			used[reasonsKey(class.Class, placed.Tag)] = true
			p.reasonsRow(page, class, at)
		}
		if len(class.Placed) == 0 {
			page.across("Nothing in this class is placed.", body, 1, reasonsVisibleWidth)
		}
	}
	p.keptReasons(page, used)
	return page.close()
}

func reasonsKey(class, tag string) string { return class + "\t" + tag }

func (p *press) reasonsRow(page *page, class grading.ClassPlacing, at int) {
	placed, over := class.Placed[at], ""
	if at+1 < len(class.Placed) {
		over = tagWords(class.Placed[at+1].Tag)
	}
	wrapped := style{Role: body, Wrap: true}
	page.writeHigh(roomToWrite,
		placeEntry(placed), entry{tagWords(placed.Tag), style{Role: strong}}, entry{textOf(placed.Graded, measure.Exhibitor), wrapped},
		entry{over, style{Role: body}}, entry{draftWords(placed), wrapped},
		entry{p.Reasons[reasonsKey(class.Class, placed.Tag)], style{Role: input, Wrap: true}},
		entry{class.Class, style{}}, entry{placed.Tag, style{}},
	)
}

func draftWords(placed grading.Placed) string {
	if placed.Reasons != "" {
		return placed.Reasons
	}
	return whyWords(placed)
}

// keptReasons keeps what the judge wrote about carcasses that are no longer placed, so that nothing is lost.
func (p *press) keptReasons(page *page, used map[string]bool) {
	var left []string
	for key := range p.Reasons {
		if !used[key] {
			left = append(left, key)
		}
	}
	if len(left) == 0 {
		return
	}
	slices.Sort(left)
	page.breakPage()
	page.across("Kept from an earlier revision: these carcasses are not placed now", band, 1, reasonsVisibleWidth)
	for _, key := range left {
		class, tag := reading.SplitReasonsKey(key)
		page.write(
			entry{"–", style{Role: body, Align: "left"}}, entry{tagWords(tag), style{Role: strong}}, entry{"", style{Role: body}},
			entry{"", style{Role: body}}, entry{fmt.Sprintf("Class %s: no draft.", className(class)), style{Role: body, Wrap: true}},
			entry{p.Reasons[key], style{Role: input, Wrap: true}}, entry{class, style{}}, entry{tag, style{}},
		)
	}
}
