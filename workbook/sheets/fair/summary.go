package fair

import (
	"slices"
	"strings"

	"railbook/grading"
	"railbook/rules"
	"railbook/rules/measure"
	"railbook/rules/phrase"
	"railbook/workbook/record"
	"railbook/workbook/result"
	"railbook/workbook/sheets/kit"
)

const (
	summaryColumns = 11

	// So wide that the sheet is printed at nine points and more.
	summaryNames   = 19.0 // so that a page is printed in type of nine points
	summaryFigures = 9.4
)

// group is carcasses whose figures may be averaged together.
type group struct {
	name     string
	kind     result.KindOfClass
	all      []*grading.Graded // but for those on hold, whose figures cannot be relied on
	placed   int
	held     int
	keys     []measure.ID    // that the classes are ranked by, the first deciding first
	firstKey measure.ID      // the first of them that is a number
	first    *grading.Graded // the carcass placed first; nil of all classes together, and where none is placed
	targets  []rules.Target
}

// writeSummary writes counts and averages by class and overall, quality against yield, last year beside this one, and
// the charts.
func (p *Writer) writeSummary() error {
	widths := append([]float64{summaryNames}, slices.Repeat([]float64{summaryFigures}, summaryColumns-1)...)
	page := p.open(kit.PageSetup{
		Name: record.SummarySheet, Mark: record.SummaryMark, Title: "Summary: " + p.Status(), Subtitle: p.FairWords(),
		Widths: widths, Landscape: true, RepeatFrom: 1, RepeatTo: 1, FreezeRows: 1, Tab: kit.FirstTab,
	})
	page.Across(p.StatusWords(), kit.Body, 1, summaryColumns)
	drawn := &chartFigures{}
	for i, kind := range p.KindsOfClasses() {
		if i > 0 {
			page.BreakPage()
		}
		p.summarise(page, kind, drawn)
	}
	page.Skip(1)
	page.Across(strings.Join(kit.Cautions, " "), kit.Note, 1, summaryColumns)
	page.PrintTo(summaryColumns)
	drawn.Write(page)
	return page.Close()
}

func (p *Writer) summarise(page *kit.Page, kind result.KindOfClass, drawn *chartFigures) {
	groups := groupsOf(p.Results, kind)
	overall := groups[len(groups)-1]
	drawn.count(kind, overall) // while the averages are taken
	page.Skip(1)
	page.Across(phrase.Capital(kind.Words()), kit.Band, 1, summaryColumns)
	averagesTable(page, kind, groups)
	drawn.quality(page)
	p.besideLastYear(page, kind, overall)
	pairs := p.scansOf(kind)
	scanBesideRail(page, pairs)
	drawn.place(page, kind, groups, p.lastYearOf(kind), pairs)
}

// groupsOf gives the classes of a kind, and last all of them together.
func groupsOf(results *result.Results, kind result.KindOfClass) []group {
	var groups []group
	overall := group{name: "All " + string(kind.Species), kind: kind, targets: results.Rules.Targets}
	for _, class := range results.Placings.Classes {
		if (result.KindOfClass{Species: class.Species, Basis: class.Basis}) != kind {
			continue
		}
		overall.rankedBy(class.Ranking)
		part := group{name: kit.ClassName(class.Class), kind: kind, placed: len(class.Placed)}
		if len(class.Placed) > 0 {
			part.first = class.Placed[0].Graded
		}
		for _, graded := range result.EveryCarcass(class) {
			if results.Of(graded.Carcass).Status.State == result.OnHold {
				part.held++
			} else {
				part.all = append(part.all, graded)
			}
		}
		groups = append(groups, part)
		overall.all = append(overall.all, part.all...)
		overall.placed += part.placed
		overall.held += part.held
	}
	return append(groups, overall)
}

// rankedBy adds what a class is ranked by.
func (g *group) rankedBy(ranking rules.Ranking) {
	for _, key := range ranking.Keys {
		definition, _ := measure.Define(key.Measure)
		if g.firstKey == measure.None && definition.Kind == measure.KindNumber && key.Orders() {
			g.firstKey = key.Measure
		}
		g.keys = append(g.keys, key.Measure)
	}
}

// averagedMeasures are the figures averaged for a kind of carcass: the weight, and every computed number.
func averagedMeasures(kind result.KindOfClass) []measure.ID {
	measures := []measure.ID{measure.HotCarcassWeight}
	for _, column := range grading.Columns(kind.Species, kind.Basis) {
		definition, _ := measure.Define(column.Measure)
		if definition.Kind == measure.KindNumber && column.Measure != measure.WholeYieldGrade && column.Measure != measure.HotCarcassWeight {
			measures = append(measures, column.Measure)
		}
	}
	if len(measures) > summaryColumns-3 {
		measures = append(measures[:summaryColumns-5], measure.Price, measure.CarcassValue)
	}
	return measures
}

func averagesTable(page *kit.Page, kind result.KindOfClass, groups []group) {
	measures, sums := sumsOf(groups, averagedMeasures(kind))
	headings := []kit.Entry{{Value: "Averages by class", Style: kit.Style{Role: kit.Heading, Wrap: true}}, kit.NumberHeading("Carcasses"), kit.NumberHeading("Placed")}
	for _, id := range measures {
		headings = append(headings, kit.NumberHeading(kind.Heading(id)))
	}
	page.Write(headings...)
	for i, group := range groups {
		of := kit.Body
		if i == len(groups)-1 {
			of = kit.Total
		}
		row := []kit.Entry{{Value: group.name, Style: kit.Style{Role: of, Wrap: true}}, CountOf(len(group.all)+group.held, of), CountOf(group.placed, of)}
		for _, id := range measures {
			row = append(row, averageEntry(sums[id][i], id, of))
		}
		page.Write(row...)
	}
	words := "Averages and charts are of every carcass that has the figure, placed or not"
	if held := groups[len(groups)-1].held; held > 0 {
		words += ", without " + phrase.Plural(held, "carcass", "carcasses") + " on hold"
	}
	page.Across(words+".", kit.Note, 1, summaryColumns)
}

func CountOf(count int, of kit.Role) kit.Entry {
	return kit.Entry{Value: count, Style: kit.Style{Role: of, Format: kit.NumberFormat(0)}}
}

func averageEntry(figures result.AddedUp, id measure.ID, of kit.Role) kit.Entry {
	mean, ok := figures.Mean()
	if !ok {
		return kit.Entry{Value: "–", Style: kit.Style{Role: of, Align: "right"}}
	}
	definition, _ := measure.Define(id)
	return kit.Entry{Value: mean, Style: kit.Style{Role: of, Format: kit.NumberFormat(definition.Decimals)}}
}

// sumsOf adds up the measures that some carcass has, for each of the groups; the last group is all the others together.
func sumsOf(groups []group, wanted []measure.ID) (some []measure.ID, sums map[measure.ID][]result.AddedUp) {
	sums = make(map[measure.ID][]result.AddedUp)
	for _, id := range wanted {
		var overall result.AddedUp
		for _, group := range groups[:len(groups)-1] {
			part := result.SumOf(group.all, id)
			sums[id] = append(sums[id], part)
			overall = overall.And(part)
		}
		sums[id] = append(sums[id], overall)
		if overall.Count > 0 {
			some = append(some, id)
		}
	}
	return some, sums
}
