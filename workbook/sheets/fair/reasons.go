package fair

import (
	"fmt"
	"slices"

	"railbook/grading/placing"
	"railbook/workbook/ahead"
	"railbook/workbook/intake"
	"railbook/workbook/record"
	"railbook/workbook/sheets/kit"
	"railbook/workbook/words"
)

// The columns of the Draft reasons sheet, from 1.
const (
	reasonsDraftColumn = 3
	reasonsWordsColumn = record.ReasonsWordsColumn
	reasonsKeyColumn   = 6
)

// writeReasons writes the draft reasons of the classes, each beside a cell for the judge's own
// words. What the judge wrote is kept even where the draft has changed or gone. Words are printed where there are any: the
// drafts alone are read from fewer pages.
func (p *Writer) writeReasons() error {
	printed := reasonsDraftColumn
	if len(p.Reasons) > 0 {
		printed = reasonsWordsColumn
	}
	page := p.open(kit.PageSetup{
		Name: record.ReasonsSheet, Mark: record.ReasonsMark, Title: "Draft reasons: " + p.Status(),
		Subtitle:  "Drawn from the keys that placed each carcass. " + p.whatToFillIn("Write over them in your own words on the right; what you write is kept."),
		Widths:    []float64{6, 7.5, 66.5, 7, 36, 12, 12},
		Hidden:    []int{reasonsKeyColumn, reasonsKeyColumn + 1},
		Printed:   printed,
		Landscape: printed == reasonsWordsColumn, RepeatFrom: 1, RepeatTo: 3, FreezeRows: 3, Protected: true, Tab: kit.InputTab,
	})
	page.Headings("Place", "Tag", record.DraftColumn, "Over", record.WordsColumn, record.KeyClassColumn, record.KeyTagColumn)
	used := make(map[string]bool)
	draft, stop := ahead.Pull(p.drafts)
	defer stop()
	for _, class := range p.Placings.Classes {
		page.Keep(90) // a class begins with its first carcass
		page.Across(kit.ClassName(class.Class), kit.Band, 1, printed)
		page.Across(words.RankingWords(class.Ranking), kit.Note, 1, printed)
		for at, placed := range class.Placed {
			used[reasonsKey(class.Class, placed.Tag)] = true
			p.reasonsRow(page, class, at, draft())
		}
		if len(class.Placed) == 0 {
			page.Across("Nothing in this class is placed.", kit.Body, 1, printed)
		}
	}
	p.keptReasons(page, used)
	if printed == reasonsDraftColumn {
		page.PrintTo(printed)
	}
	return page.Close()
}

func reasonsKey(class, tag string) string { return class + "\t" + tag }

// drafts gives the draft reasons of every carcass that is placed, class by class.
func (p *Writer) drafts(yield func(string) bool) {
	for i := range p.Placings.Classes {
		class := &p.Placings.Classes[i]
		for at := range class.Placed {
			if !yield(words.Reasons(class, at)) {
				return
			}
		}
	}
}

func (p *Writer) reasonsRow(page *kit.Page, class placing.ClassPlacing, at int, draft string) {
	placed, over := class.Placed[at], ""
	if at+1 < len(class.Placed) {
		over = kit.TagWords(class.Placed[at+1].Tag)
	}
	wrapped := kit.Style{Role: kit.Body, Wrap: true}
	page.WriteHigh(roomToWrite,
		kit.PlaceEntry(placed), kit.Entry{Value: kit.TagWords(placed.Tag), Style: kit.Style{Role: kit.Strong}},
		kit.Entry{Value: draft, Style: wrapped}, kit.Entry{Value: over, Style: kit.Style{Role: kit.Body}},
		kit.Entry{Value: p.Reasons[reasonsKey(class.Class, placed.Tag)], Style: kit.Style{Role: kit.Input, Wrap: true}},
		kit.Entry{Value: class.Class, Style: kit.Style{}}, kit.Entry{Value: placed.Tag, Style: kit.Style{}},
	)
}

// keptReasons keeps what the judge wrote about carcasses that are no longer placed, so that nothing is lost.
func (p *Writer) keptReasons(page *kit.Page, used map[string]bool) {
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
	page.BreakPage()
	page.Across("Kept from an earlier revision: these carcasses are not placed now", kit.Band, 1, reasonsWordsColumn)
	for _, key := range left {
		class, tag := intake.SplitReasonsKey(key)
		page.Write(
			kit.Entry{Value: "–", Style: kit.Style{Role: kit.Body, Align: "left"}}, kit.Entry{Value: kit.TagWords(tag), Style: kit.Style{Role: kit.Strong}},
			kit.Entry{Value: fmt.Sprintf("Class %s: no draft.", kit.ClassName(class)), Style: kit.Style{Role: kit.Body, Wrap: true}}, kit.Entry{Value: "", Style: kit.Style{Role: kit.Body}},
			kit.Entry{Value: p.Reasons[key], Style: kit.Style{Role: kit.Input, Wrap: true}}, kit.Entry{Value: class, Style: kit.Style{}}, kit.Entry{Value: tag, Style: kit.Style{}},
		)
	}
}
